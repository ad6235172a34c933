"""Tapers, balls and flats: sizes to cut to, and angles to set.

Units    mm, degrees.
Sources  geometry; each function names where it is taught.
Scope    exact geometry; the dial and the backlash are the planner's.
"""

from math import asin, atan, degrees, radians, sqrt, tan

from jobsheets.cutting.limits import angle, not_negative, positive

STEEPEST_OFFSET = 8.0  # degrees of half angle; beyond it the centres bear badly: common practice, from memory


def ball_diameter(radius: float, from_end: float) -> float:
    """Diameter to turn at a distance from the end of a ball.

    Args:
        radius: of the ball, mm.
        from_end: along the axis, mm, from 0 to the diameter of the ball.

    Returns:
        mm: 2 sqrt(2 R x - x^2).

    Raises:
        ValueError: a radius not above zero, or a place outside the ball.

    Source:
        Geometry.
    """
    positive(radius=radius)
    if not 0.0 <= from_end <= 2.0 * radius:
        raise ValueError(
            f"a place {from_end:g} mm from the end is outside the ball: want 0 to {2.0 * radius:g} mm"
        )
    return 2.0 * sqrt(from_end * (2.0 * radius - from_end))


def ball_steps(radius: float, step: float, last: float | None = None) -> tuple[tuple[float, float], ...]:
    """Places and diameters to turn a ball by co-ordinates; the ridges are filed off.

    Args:
        radius: of the ball, mm.
        step: along the axis, mm; 0.25 to 0.5 is usual.
        last: where to end, mm from the end; the middle of the ball when left out.

    Returns:
        (distance from the end, diameter) in mm for each step; the last is always `last`.

    Raises:
        ValueError: a value that is not above zero, a place outside the ball, or more than 400 steps.

    Source:
        Geometry; steps of 0.25 to 0.5 mm are common practice, from memory.
    """
    end = radius if last is None else last
    positive(radius=radius, step=step, last_place=end)
    count = int(end / step - 1e-9)
    if count > 400:
        raise ValueError(
            f"{count} steps are more than a sheet can hold: take a step of {end / 400.0:.3f} mm or more"
        )
    places = (*(step * (i + 1) for i in range(count)), end)
    return tuple((x, ball_diameter(radius, x)) for x in places)


def cap_height(radius: float, neck: float) -> float:
    """Height of the cap of a ball that a neck takes away.

    Args:
        radius: of the ball, mm.
        neck: diameter, mm.

    Returns:
        mm: R - sqrt(R^2 - d^2 / 4).

    Raises:
        ValueError: a radius not above zero, or a neck below zero or thicker than the ball.

    Source:
        Geometry.
    """
    positive(radius=radius)
    not_negative(neck=neck)
    if neck > 2.0 * radius:
        raise ValueError(
            f"a neck of {neck:g} mm is thicker than the ball of {2.0 * radius:g} mm: make it thinner"
        )
    return radius - sqrt(radius**2 - neck**2 / 4.0)


def flat_width(diameter: float, depth: float) -> float:
    """Width of a flat cut on a round.

    Args:
        diameter: of the round, mm.
        depth: of the cut from the outside, mm.

    Returns:
        mm: 2 sqrt(2 r h - h^2).

    Raises:
        ValueError: a diameter not above zero, or a depth outside 0 to the diameter.

    Source:
        Geometry.
    """
    positive(diameter=diameter)
    return ball_diameter(diameter / 2.0, depth)


def half_angle(large: float, small: float, length: float) -> float:
    """Half angle of a taper: the setting of the compound slide from the axis of the lathe.

    Args:
        large: diameter, mm.
        small: diameter, mm.
        length: between them along the axis, mm.

    Returns:
        degrees: atan((D - d) / (2 L)). Some slides are marked from the cross axis: set 90 less this.

    Raises:
        ValueError: diameters in the wrong order, or a length not above zero.

    Source:
        Standard taper formula.
    """
    positive(large_diameter=large, length=length)
    not_negative(small_diameter=small)
    if small > large:
        raise ValueError(f"the small diameter {small:g} mm is above the large {large:g} mm: swap them")
    return degrees(atan((large - small) / (2.0 * length)))


def taper_diameter(small: float, half: float, length: float) -> float:
    """Diameter at a distance from the small end of a taper.

    Args:
        small: diameter, mm.
        half: half angle, degrees.
        length: along the axis, mm.

    Returns:
        mm: d + 2 L tan(half angle).

    Raises:
        ValueError: a size below zero, or an angle outside 0 to 89 degrees.

    Source:
        Standard taper formula.
    """
    not_negative(small_diameter=small, length=length)
    angle(89.0, half_angle=half)
    return small + 2.0 * length * tan(radians(half))


def tailstock_offset(large: float, small: float, taper_length: float, overall: float) -> float:
    """Offset of the tailstock to turn a slight taper between centres.

    Args:
        large: diameter, mm.
        small: diameter, mm.
        taper_length: between them along the axis, mm.
        overall: length of the work between centres, mm.

    Returns:
        mm: OL (D - d) / (2 L).

    Raises:
        ValueError: diameters in the wrong order, a taper longer than the work, or a half angle above 8
            degrees.

    Source:
        Krar, Gill and Smid, Technology of Machine Tools, from memory; the limit is common practice, from
        memory.
    """
    half = half_angle(large, small, taper_length)
    positive(overall_length=overall)
    if taper_length > overall:
        raise ValueError(
            f"a taper of {taper_length:g} mm is longer than the work of {overall:g} mm: mend one of them"
        )
    if half > STEEPEST_OFFSET:
        raise ValueError(
            f"a half angle of {half:.1f} degrees is above {STEEPEST_OFFSET:g}: turn it with the compound"
        )
    return overall * (large - small) / (2.0 * taper_length)


def fine_feed_angle(ratio: float) -> float:
    """Angle of the compound slide from the axis for a fine infeed.

    Args:
        ratio: infeed on the radius for one unit of slide travel; 0.1 gives a tenth.

    Returns:
        degrees: asin(ratio); 5.74 degrees for a tenth.

    Raises:
        ValueError: a ratio outside 0 to 1.

    Source:
        Geometry.
    """
    if not 0.0 < ratio <= 1.0:
        raise ValueError(f"an infeed of {ratio:g} for each unit of travel: want above 0 up to 1, usually 0.1")
    return degrees(asin(ratio))
