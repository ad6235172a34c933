"""Geometry of symmetrical screw threads: diameters, measuring wires, depth of cut, lead.

Units    mm and degrees throughout.
Sources  each function names its own; what can be derived from the profile is derived, never typed in.
Scope    parallel threads of 60 (ISO, Unified), 55 (Whitworth) and 47.5 degrees (BA). Measuring force is not
         corrected: docs/threads.md says how little it is.
"""

from math import atan, cos, degrees, pi, radians, sin, sqrt, tan

from jobsheets.standards.thread_values import Thread

# Height of the basic profile for a pitch of 1, from the crest to where the mating crest reaches.
DEPTH = {60.0: 5.0 / 8.0 * sqrt(3.0) / 2.0, 55.0: 2.0 / 3.0 / (2.0 * tan(radians(27.5))), 47.5: 0.6}
# From the crest to the pitch line for a pitch of 1: 3/8 H at 60 degrees, half the depth of the rounded forms.
ADDENDUM = {60.0: 3.0 / 8.0 * sqrt(3.0) / 2.0, 55.0: DEPTH[55.0] / 2.0, 47.5: 0.3}
# Usable wires of the 60-degree form for a pitch of 1, as printed; the flanks alone would allow 0.51 to 1.01.
PRINTED_WIRES_60 = (0.56, 0.90)


def _half(angle: float) -> float:
    """Half of the flank angle, radians; refuses a form that is not one of the three."""
    if angle not in DEPTH:
        raise ValueError(f"no thread form of {angle:g} degrees here; want 60, 55 or 47.5")
    return radians(angle / 2.0)


def sharp_height(pitch: float, angle: float = 60.0) -> float:
    """Height H of the sharp V, mm: P / (2 tan of the half angle).

    Source:
        geometry; 0.866025 P, 0.960491 P and 1.13634 P in ISO 68-1, BS 84 and BS 93.
    """
    return pitch / (2.0 * tan(_half(angle)))


def pitch_diameter(thread: Thread) -> float:
    """Basic pitch diameter, mm.

    Source:
        ISO 724 and ASME B1.1: D - 0.649519 P; BS 84: D - 0.640327 P; BS 93: D - 0.6 P.
    """
    return thread.major - 2.0 * ADDENDUM[thread.angle] * thread.pitch


def minor_diameter(thread: Thread) -> float:
    """Basic minor diameter, mm: of the nut, and of a screw whose root just clears the nut's crest.

    Source:
        ISO 724 and ASME B1.1: D - 1.082532 P; BS 84: D - 1.280655 P; BS 93: D - 1.2 P.
    """
    return thread.major - 2.0 * DEPTH[thread.angle] * thread.pitch


def root_diameter(thread: Thread) -> float:
    """Diameter at the bottom of a screw's rounded root, mm; what is left to carry load and to twist off.

    Source:
        ISO metric and Unified: D - 1.226869 P (17/24 H a side, radius H/6); BS 84, BS 93: minor diameter.
    """
    if thread.angle == 60.0:
        return thread.major - 2.0 * 17.0 / 24.0 * sharp_height(thread.pitch)
    return minor_diameter(thread)


def root_flat(thread: Thread) -> float | None:
    """Flat on the nose of the threading tool, mm: P/8 at 60 degrees, None where the standard root is round.

    Source:
        national form, college and army shop texts.
    """
    return thread.pitch / 8.0 if thread.angle == 60.0 else None


def root_radius(thread: Thread) -> float:
    """Radius that fills the root of a screw, mm: as large as the form allows.

    Source:
        60 degrees: H/6 = 0.144338 P. BS 84: 0.137329 P. BS 93: 0.180834 P. All are s / (cosec a - 1), s the
        truncation and a the half angle; the 2 P / 11 also printed for BA is a rounding of it.
    """
    height, depth = sharp_height(1.0, thread.angle), DEPTH[thread.angle]
    truncation = height / 6.0 if thread.angle == 60.0 else (height - depth) / 2.0
    return thread.pitch * truncation / (1.0 / sin(_half(thread.angle)) - 1.0)


def least_root_radius(thread: Thread) -> float | None:
    """Smallest root radius that the standard lets a screw have, mm; None where it sets none.

    Source:
        ISO 965-1 and ASME B1.13M: 0.125 P, from memory.
    """
    return 0.125 * thread.pitch if thread.system == "M" else None


def lead_angle(pitch_dia: float, lead: float) -> float:
    """Angle at which the thread climbs, at the pitch diameter, degrees. The lead is pitch times starts.

    Raises:
        ValueError: a diameter or lead that is not above zero.

    Source:
        atan(lead / (pi E)); college handout Thread Calculations, 3/4-10: 2.66 degrees.
    """
    if pitch_dia <= 0.0 or lead <= 0.0:
        raise ValueError(f"no lead angle for {pitch_dia:g} mm and a lead of {lead:g} mm; both are above 0")
    return degrees(atan(lead / (pi * pitch_dia)))


def best_wire(pitch: float, angle: float = 60.0) -> float:
    """Wire that touches the flanks at the pitch line, mm: an error of the flank angle does not show there.

    Source:
        P / (2 cos a): 0.57735 P, 0.56369 P and 0.54626 P; US Army course OD1645 and handbooks.
    """
    return pitch / (2.0 * cos(_half(angle)))


def flank_wires(pitch: float, angle: float = 60.0) -> tuple[float, float]:
    """Smallest wire that stands out of the groove and largest that still touches straight flanks, mm.

    Source:
        contact geometry, derived in docs/threads.md.
    """
    a = _half(angle)
    crest = ADDENDUM[angle]
    flank_end = crest
    if angle != 60.0:  # a rounded crest takes the end of the flank away
        truncation = (sharp_height(1.0, angle) - DEPTH[angle]) / 2.0
        flank_end -= truncation / (1.0 / sin(a) - 1.0) * (1.0 - sin(a))
    # Contact lies (W cos a - P/2) / (2 tan a) above the pitch line, the wire's top W (1 + sin a) / 2 higher.
    least = (crest + 0.25 / tan(a)) / (cos(a) / (2.0 * tan(a)) + (1.0 + sin(a)) / 2.0)
    most = (0.5 + 2.0 * flank_end * tan(a)) / cos(a)
    return least * pitch, most * pitch


def wire_range(pitch: float, angle: float = 60.0) -> tuple[float, float]:
    """Smallest and largest wire to measure with, mm.

    Source:
        60 degrees: 0.56 P to 0.90 P, US Navy course 14345. 55 and 47.5 degrees: `flank_wires`.
    """
    if angle == 60.0:
        return PRINTED_WIRES_60[0] * pitch, PRINTED_WIRES_60[1] * pitch
    return flank_wires(pitch, angle)


def over_wires(
    pitch_dia: float, pitch: float, wire: float, angle: float = 60.0, lead_angle: float = 0.0
) -> float:
    """Micrometer reading over three equal wires laid in an external thread.

    Args:
        pitch_dia: pitch diameter to be proved, mm.
        pitch: distance between like flanks, mm.
        wire: diameter of each wire, mm.
        angle: included angle of the flanks, degrees.
        lead_angle: degrees; 0 leaves the small correction out, as shop tables do.

    Returns:
        Reading over the wires, mm.

    Raises:
        ValueError: the wire sinks below the crests or rides on them.

    Source:
        M = E - P/2 cot a + W (1 + sqrt(cosec^2 a + cot^2 a tan^2 L)); without lead angle L in F. D. Jones,
        Turning and Boring (1914) and Machinery's Handbook 31st ed., with it ASME B1.2, from memory.
    """
    return pitch_dia + _wire_constant(pitch, wire, angle, lead_angle)


def pitch_from_wires(
    reading: float, pitch: float, wire: float, angle: float = 60.0, lead_angle: float = 0.0
) -> float:
    """Pitch diameter proved by a reading over three wires, mm. Arguments, errors, source as `over_wires`."""
    return reading - _wire_constant(pitch, wire, angle, lead_angle)


def _wire_constant(pitch: float, wire: float, angle: float, lead_angle: float) -> float:
    least, most = wire_range(pitch, angle)
    if not least <= wire <= most:
        raise ValueError(
            f"wire {wire:.3f} mm does not suit a {pitch:.3f} mm pitch: use {least:.3f} to {most:.3f} mm, "
            f"best {best_wire(pitch, angle):.3f} mm"
        )
    a = _half(angle)
    climb = tan(radians(lead_angle)) / tan(a)
    return wire * (1.0 + sqrt(1.0 / sin(a) ** 2 + climb**2)) - pitch / (2.0 * tan(a))


def depth_of_cut(
    thread: Thread,
    *,
    nose_flat: float | None = None,
    nose_radius: float | None = None,
    outside: float | None = None,
    pitch_dia: float | None = None,
) -> float:
    """Single depth to feed a threading tool in, from the turned diameter to the wanted pitch diameter.

    Args:
        thread: basic sizes.
        nose_flat: flat on the tool's nose, mm; give this or `nose_radius`.
        nose_radius: radius on the tool's nose, mm.
        outside: diameter really turned, mm; None: the basic major diameter.
        pitch_dia: pitch diameter to reach, mm; None: the basic one.

    Returns:
        Depth square to the axis, mm.

    Raises:
        ValueError: a nose too blunt to let the mating crest in, or neither or both kinds of nose.

    Source:
        (OD - E) / 2 + (P/2 - f) / (2 tan a), derived in docs/threads.md; f = P/8 gives the usual 0.6495 P.
    """
    od = thread.major if outside is None else outside
    mean = pitch_diameter(thread) if pitch_dia is None else pitch_dia
    if od <= mean:
        raise ValueError(
            f"turned to {od:.3f} mm, {thread.name} has no crest left above its pitch diameter {mean:.3f} mm; "
            f"turn to {thread.major:.3f} mm"
        )
    below = thread.pitch / (4.0 * tan(_half(thread.angle)))  # of the sharp point below the pitch line
    return (od - mean) / 2.0 + below - _lost_to_nose(thread, nose_flat, nose_radius)


def _lost_to_nose(thread: Thread, nose_flat: float | None, nose_radius: float | None) -> float:
    """How far a blunt nose stops short of the sharp point, mm; refused when the mating crest cannot go in."""
    if (nose_flat is None) == (nose_radius is None):
        raise ValueError("depth of cut wants the nose of the tool: either its flat or its radius, mm")
    a = _half(thread.angle)
    per_flat, per_radius = 1.0 / (2.0 * tan(a)), 1.0 / sin(a) - 1.0
    nose = nose_flat if nose_flat is not None else nose_radius or 0.0
    lost = nose * (per_flat if nose_flat is not None else per_radius)
    spare = thread.pitch / (4.0 * tan(a)) - (DEPTH[thread.angle] - ADDENDUM[thread.angle]) * thread.pitch
    if not 0.0 <= lost <= spare + 1e-9:
        raise ValueError(
            f"a nose of {nose:.3f} mm cannot reach the root of {thread.name}: grind a flat of 0 to "
            f"{spare / per_flat:.3f} mm or a radius of 0 to {spare / per_radius:.3f} mm"
        )
    return lost


def compound_infeed(depth: float, angle_from_cross_slide: float, angle: float = 60.0) -> float:
    """Feed along a swivelled compound slide that makes a depth square to the axis, mm.

    Args:
        depth: single depth, mm.
        angle_from_cross_slide: swivel measured from the cross slide's own direction, degrees.
        angle: included angle of the flanks, degrees.

    Raises:
        ValueError: a swivel past the flank, which would leave steps on it.

    Source:
        depth / cos b; shop tables for 29 and 30 degrees (0.7426 P and 0.75 P for 0.6495 P).
    """
    if not 0.0 <= angle_from_cross_slide <= angle / 2.0:
        raise ValueError(
            f"swivel {angle_from_cross_slide:g} degrees: want 0 to {angle / 2.0:g} from the cross slide "
            f"(a scale that reads from the bed shows {90.0 - angle / 2.0:g} for {angle / 2.0:g})"
        )
    return depth / cos(radians(angle_from_cross_slide))


def side_shift(depth: float, angle_from_cross_slide: float) -> float:
    """How far the tool moves along the work while the compound feeds `depth` in, mm: room at a shoulder.

    Source:
        depth tan b, geometry.
    """
    return depth * tan(radians(angle_from_cross_slide))
