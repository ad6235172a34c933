"""How deep a single point goes to make a thread: screws and nuts, by the nose of the tool.

Units    mm and degrees.
Sources  geometry of the basic profile, derived in docs/screwcutting.md; the 0.6495 P of shop texts is the
         screw with a nose flat of P/8. A radius on the nose is kept from rubbing crests as in thread_form.
Scope    parallel threads of 60, 55 and 47.5 degrees, one start or more: the groove is that of the pitch.
"""

from math import radians, sin, tan

from jobsheets.standards.thread_form import ADDENDUM, DEPTH
from jobsheets.standards.threads import Thread


def lost(thread: Thread, flat: float, radius: float) -> float:
    """How far a blunt nose stops short of the sharp point that its flanks make, mm.

    Raises:
        ValueError: a nose below zero, or flat and radius together.

    Source:
        flat / (2 tan a) or radius (cosec a - 1), a the half angle; docs/threads.md.
    """
    if flat < 0.0 or radius < 0.0 or (flat > 0.0 and radius > 0.0):
        raise ValueError(f"a nose of flat {flat:g} and radius {radius:g} mm: want one of them, 0 or more")
    half = radians(thread.angle / 2.0)
    return flat / (2.0 * tan(half)) + radius * (1.0 / sin(half) - 1.0)


def room(thread: Thread, *, inside: bool) -> float:
    """How much of the sharp point below the pitch line a nose may lack, mm, and the mate still goes in.

    Source:
        a screw's root must let the nut's crest in, a nut's groove the screw's: at least the profile's depth
        below the pitch line; on a nut of 60 degrees the groove reaches the basic major diameter.
    """
    below = thread.pitch / (4.0 * tan(radians(thread.angle / 2.0)))
    crest = ADDENDUM[thread.angle] if inside else DEPTH[thread.angle] - ADDENDUM[thread.angle]
    return below - crest * thread.pitch


def blunt(thread: Thread, flat: float, radius: float, *, inside: bool) -> str | None:
    """Why a nose will not reach the root of a thread; None where it does."""
    spare = room(thread, inside=inside)
    if lost(thread, flat, radius) <= spare + 1e-9:
        return None
    half = radians(thread.angle / 2.0)
    return (
        f"too blunt for {thread.name}: grind a flat of 0 to {spare * 2.0 * tan(half):.3f} mm or a radius of "
        f"0 to {spare / (1.0 / sin(half) - 1.0):.3f} mm"
    )


def feed_in(
    thread: Thread, start: float, pitch_dia: float, *, flat: float, radius: float, inside: bool
) -> float:
    """Depth square to the axis from a turned or bored diameter to a pitch diameter, mm.

    Args:
        thread: its pitch and angle.
        start: diameter of the blank, or of the hole, as it stands.
        pitch_dia: to be reached.
        flat: on the nose of the tool.
        radius: on the nose of the tool.
        inside: a nut: the groove is cut outward.

    Raises:
        ValueError: a nose too blunt, or a blank that leaves no crest.

    Source:
        |start - E| / 2 + P / (4 tan a) - what the nose lacks: the groove is half a pitch wide at the pitch
        line. For a screw it is thread_form.depth_of_cut.
    """
    told = blunt(thread, flat, radius, inside=inside)
    if told is not None:
        raise ValueError(f"nose {told}")
    crest = (pitch_dia - start if inside else start - pitch_dia) / 2.0
    if crest <= 0.0:
        raise ValueError(
            f"{'bored' if inside else 'turned'} to {start:.3f} mm, {thread.name} has no crest beside its "
            f"pitch diameter {pitch_dia:.3f} mm: {'a smaller hole' if inside else 'a larger blank'}"
        )
    half = radians(thread.angle / 2.0)
    return crest + thread.pitch / (4.0 * tan(half)) - lost(thread, flat, radius)


def pitch_dia_made(
    thread: Thread, start: float, depth: float, *, flat: float, radius: float, inside: bool
) -> float:
    """Pitch diameter that a depth square to the axis makes, mm: the converse of `feed_in`."""
    half = radians(thread.angle / 2.0)
    crest = depth - thread.pitch / (4.0 * tan(half)) + lost(thread, flat, radius)
    return start + 2.0 * crest if inside else start - 2.0 * crest


def lead_equivalent(error: float, angle: float) -> float:
    """Change of the pitch diameter that an error of the lead over the engagement amounts to, mm.

    Args:
        error: of the lead, summed over the engaged length, mm.
        angle: included, degrees.

    Source:
        error x cot of the half angle, 1.732 at 60 degrees: geometry; the same in FED-STD-H28, from memory.
    """
    return abs(error) / tan(radians(angle / 2.0))
