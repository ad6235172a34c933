"""Depths of drilled holes: the point, blind thread holes, pecks and pilots.

Units    mm, degrees; pecks in diameters where said.
Sources  each function names its own.
Scope    twist drills with a conical point.
"""

from math import radians, tan

from msgspec import Struct

from jobsheets.cutting.limits import not_negative, positive

WEB_RATIO = 0.155  # web over diameter of a standard drill: Machinery's Handbook 31st ed., p. 1152, Table 7
PILOT_RATIO = 0.25  # pilot over diameter: university handout on drilling
SHORTEST_LAST = 0.1  # diameters; a last peck shorter than this is taken with the one before it


class PeckRule(Struct, frozen=True, kw_only=True):
    """Pecks in diameters of the drill."""

    first: float
    step: float
    deep_step: float
    deep_from: float  # depth in diameters from which `deep_step` rules


USUAL = PeckRule(first=2.0, step=1.0, deep_step=0.5, deep_from=6.0)
WORK_HARDENING = PeckRule(first=1.0, step=0.5, deep_step=0.5, deep_from=6.0)  # stainless steel and titanium


def point_length(diameter: float, angle: float) -> float:
    """Length of the cone of a drill.

    Args:
        diameter: mm.
        angle: included angle of the point, degrees.

    Returns:
        mm: (D / 2) / tan(angle / 2); 0.300 D at 118 degrees.

    Raises:
        ValueError: a diameter not above zero, or an angle outside 30 to 180 degrees.

    Source:
        Geometry; the table of drill-point lengths of Machinery's Handbook (from memory) agrees.
    """
    positive(diameter=diameter)
    if not 30.0 <= angle <= 180.0:
        raise ValueError(f"a drill point of {angle:g} degrees: want 30 to 180, usually 118 or 135")
    return 0.0 if angle == 180.0 else diameter / 2.0 / tan(radians(angle / 2.0))


def tip_depth(full_depth: float, diameter: float, angle: float) -> float:
    """Depth of the tip of a drill whose full diameter reaches a depth.

    Args:
        full_depth: of the full diameter, mm.
        diameter: of the drill, mm.
        angle: included angle of the point, degrees.

    Returns:
        mm: the depth and the length of the point.

    Raises:
        ValueError: a depth below zero, or as `point_length`.

    Source:
        Geometry.
    """
    not_negative(depth=full_depth)
    return full_depth + point_length(diameter, angle)


def blind_depth(full_thread: float, lead_threads: float, pitch: float, margin_threads: float) -> float:
    """Depth to drill at full diameter for a blind thread; the point of the drill is extra.

    Args:
        full_thread: length of full thread wanted, mm.
        lead_threads: threads on the chamfer of the tap: 1 to 2 bottoming, 3 to 5 plug, 7 to 10 taper.
        pitch: mm.
        margin_threads: clear threads below the tap, for chips and error of depth; 1 is common practice.

    Returns:
        mm: full thread + (lead + margin) pitches.

    Raises:
        ValueError: a length or pitch not above zero, or threads below zero.

    Source:
        Common practice, from memory: chamfer of the tap and one pitch of clearance.
    """
    positive(full_thread=full_thread, pitch=pitch)
    not_negative(lead_threads=lead_threads, margin_threads=margin_threads)
    return full_thread + (lead_threads + margin_threads) * pitch


def peck_schedule(diameter: float, depth: float, rule: PeckRule = USUAL) -> tuple[float, ...]:
    """Depths of the tip at which the drill is drawn right out and cleared.

    Args:
        diameter: of the drill, mm.
        depth: of the tip at the end, mm.
        rule: `USUAL`, or `WORK_HARDENING` for stainless steel and titanium.

    Returns:
        Depth of the tip at the end of each peck, mm, rising; the last is `depth`.

    Raises:
        ValueError: a diameter or depth not above zero, or a hole of more than 40 diameters.

    Source:
        Common practice, from memory: first 2 to 3 diameters, then 1, then 0.5 below about 6. The low end of
        the first is taken. Stainless steel and titanium: clear after each 0.5 to 1 diameter.
    """
    positive(diameter=diameter, depth=depth)
    if depth > 40.0 * diameter:
        raise ValueError(
            f"a hole of {depth / diameter:.0f} diameters is too deep for a twist drill: drill from both ends"
        )
    ends = []
    at = rule.first * diameter
    while depth - at > SHORTEST_LAST * diameter:
        ends.append(at)
        at += (rule.step if at < rule.deep_from * diameter else rule.deep_step) * diameter
    return (*ends, depth)


def pilot_diameter(diameter: float) -> float:
    """Pilot hole for a large drill, mm: a quarter of its diameter.

    Args:
        diameter: of the drill that follows, mm.

    Returns:
        mm; it clears the chisel edge, for the web of a standard drill is 0.155 diameters.

    Raises:
        ValueError: a diameter not above zero.

    Source:
        University handout on drilling, reaming and tapping; the web from Machinery's Handbook 31st ed., p.
        1152.
    """
    positive(diameter=diameter)
    return PILOT_RATIO * diameter


def web_thickness(diameter: float) -> float:
    """Web of a standard drill at its point, mm: the least pilot that frees the chisel edge.

    Args:
        diameter: of the drill, mm.

    Raises:
        ValueError: a diameter not above zero.

    Source:
        Machinery's Handbook 31st ed., p. 1152, Table 7: web over diameter 0.155 where the chisel edge is
        0.18.
    """
    positive(diameter=diameter)
    return WEB_RATIO * diameter
