"""Which standard thread is this? Candidates for a measured screw, and the measurement that tells them apart.

Units    mm and degrees.
Sources  limits of the usual class of each candidate (threads.limits); the scale of misfit is our own rule.
Scope    external threads of the table. A worn or die-cut screw measures under its limits; it ranks lower.
"""

from math import ceil, hypot
from operator import itemgetter

from jobsheets.standards.scale import MM_PER_INCH
from jobsheets.standards.thread_catalogue import everything
from jobsheets.standards.thread_form import best_wire
from jobsheets.standards.thread_values import Thread
from jobsheets.standards.threads import default_class, limits
from jobsheets.value import Frozen

READING_MAJOR = 0.03  # mm that a caliper and a burred crest may be off
READING_PITCH = 0.01  # share of the pitch that a pitch gauge leaves open
READING_RULE = 0.25  # mm over which a count of threads along a rule is unsure, at both ends together
UNDER = 0.05  # of the pitch: how far below its limits a die-cut or worn crest is still usual
SEARCH = 0.15  # share of the diameter within which candidates are looked for
LIKELY = 3.0  # misfit up to which a candidate explains the measurements


class Candidate(Frozen):
    thread: Thread
    misfit: float  # 0: within its limits and on its pitch; 1: off by about one uncertainty of reading
    likely: bool
    major_off: float  # measured, outside the limits of size, mm; 0 within them
    pitch_off: float  # measured less basic, mm
    tell: str  # what tells it from the first candidate (the first: from the second)


def pitch_of_count(count: float, length: float) -> float:
    """Pitch from a number of threads counted over a length, mm: pitches, not crests, so start at nought.

    Raises:
        ValueError: fewer than two threads, or no length.

    Source:
        definition.
    """
    if count < 2.0 or length <= 0.0:
        raise ValueError(f"{count:g} threads over {length:g} mm tell no pitch; count at least 2, better 10")
    return length / count


def identify(
    major: float,
    *,
    pitch: float | None = None,
    tpi: float | None = None,
    count: float | None = None,
    length: float | None = None,
    most: int = 5,
) -> tuple[Candidate, ...]:
    """Standard threads that a measured screw may be, likeliest first.

    Args:
        major: measured over the crests, mm.
        pitch: by pitch gauge, mm; or give `tpi`, or `count` and `length`.
        tpi: threads per inch by pitch gauge.
        count: pitches counted over `length`.
        length: mm.
        most: how many candidates to name, 1 or more.

    Raises:
        ValueError: not exactly one way of telling the pitch, or a size outside the tables.

    Source:
        data/thread_sizes.csv and the limits of each thread's usual class.
    """
    measured, unsure = _pitch(pitch, tpi, count, length)
    _check_size(major)
    near = (thread for thread in everything() if abs(thread.major - major) <= SEARCH * thread.major)
    found = ((_misfit(thread, major, measured, unsure), thread) for thread in near)
    ranked = sorted(found, key=itemgetter(0))[:most]  # equal misfits stay in the order of the table
    best = [thread for _, thread in ranked]
    rivals: list[Thread | None] = [*best[1:2], *best[:1] * (len(best) - 1)]
    return tuple(
        _candidate(thread, misfit, major, measured - thread.pitch, rival)
        for (misfit, thread), rival in zip(ranked, rivals or [None], strict=True)
    )


def _candidate(
    thread: Thread, misfit: float, major: float, pitch_off: float, rival: Thread | None
) -> Candidate:
    return Candidate(
        thread=thread,
        misfit=misfit,
        likely=misfit <= LIKELY,
        major_off=_outside(thread, major),
        pitch_off=pitch_off,
        tell=tell_apart(thread, rival) if rival else "",
    )


def tell_apart(one: Thread, other: Thread) -> str:
    """The measurement that decides between two threads, easiest first: count, diameter, flank angle.

    Source:
        a count decides when it differs by half a thread; a diameter when the limits do not overlap.
    """
    if abs(one.pitch - other.pitch) > 0.005 * one.pitch:
        span = ceil(0.5 / abs(1.0 / one.pitch - 1.0 / other.pitch) / 5.0) * 5.0
        counts = f"{one.name} {span / one.pitch:.1f}, {other.name} {span / other.pitch:.1f}"
        if span <= 4.0 * max(one.major, other.major, 10.0):
            return f"count the threads over {span:.0f} mm: {counts}"
    (low, high), (other_low, other_high) = _major(one), _major(other)
    if high < other_low or other_high < low:
        return (
            f"measure the major diameter: {one.name} {low:.2f} to {high:.2f} mm, "
            f"{other.name} {other_low:.2f} to {other_high:.2f} mm"
        )
    if one.angle == other.angle and abs(one.major - other.major) < 0.001 and one.pitch == other.pitch:
        return f"no measurement does: {one.name} and {other.name} are one thread under two names"
    if one.angle != other.angle:
        return f"try a flank gauge: {one.name} has {one.angle:g} degrees, {other.name} {other.angle:g}"
    return f"measure over wires of {best_wire(one.pitch, one.angle):.2f} mm, or try a nut of each"


def _check_size(major: float) -> None:
    sizes = [thread.major for thread in everything()]
    if not (1.0 - SEARCH) * min(sizes) <= major <= (1.0 + SEARCH) * max(sizes):
        raise ValueError(
            f"a screw of {major:.2f} mm is outside the tables: {min(sizes):.2f} to {max(sizes):.2f} mm"
        )


def _pitch(
    pitch: float | None, tpi: float | None, count: float | None, length: float | None
) -> tuple[float, float]:
    """Measured pitch and how unsure it is, mm."""
    counted = count is not None and length is not None
    if [pitch is not None, tpi is not None, counted].count(True) != 1 or (not counted and (count or length)):
        raise ValueError("want one of: the pitch in mm, threads per inch, or a count with its length")
    if count is not None and length is not None:
        return pitch_of_count(count, length), READING_RULE / count
    found = pitch if pitch is not None else MM_PER_INCH / tpi if tpi else 0.0
    if found <= 0.0:
        raise ValueError(f"a pitch of {found:g} mm is none; want one above 0")
    return found, READING_PITCH * found


def _major(thread: Thread) -> tuple[float, float]:
    """Major limits of the usual class, mm."""
    found = limits(thread, default_class(thread, external=True))
    return found.major_min, thread.major if found.major_max is None else found.major_max


def _outside(thread: Thread, major: float) -> float:
    low, high = _major(thread)
    return major - high if major > high else min(major - low, 0.0)


def _misfit(thread: Thread, major: float, pitch: float, unsure: float) -> float:
    off = _outside(thread, major)
    room = READING_MAJOR + (UNDER * thread.pitch if off < 0.0 else 0.0)
    return hypot(off / room, (pitch - thread.pitch) / unsure)
