"""Surface roughness that the shape of the tool leaves.

Units    mm, mm/rev, micrometres of roughness.
Sources  each function names its own.
Scope    a round nose, and a feed that stays on its arc. Real roughness is 1.2 to 3 times the ideal, and worse
         with a built-up edge at low speed in soft steel, aluminium and copper alloys.
"""

from math import radians, sin, sqrt

from jobsheets.cutting.limits import angle, positive

END_ANGLE = 15.0  # degrees, end cutting edge to the feed, of a usual knife tool: common practice, from memory


def largest_feed(nose: float, end_angle: float = END_ANGLE) -> float:
    """Feed up to which the arc of the nose alone shapes the surface.

    Args:
        nose: radius, mm.
        end_angle: of the end cutting edge to the feed, degrees.

    Returns:
        mm/rev: 2 r sin(end angle).

    Raises:
        ValueError: a radius not above zero, or an angle outside 0 to 45 degrees.

    Source:
        Geometry.
    """
    positive(nose_radius=nose)
    angle(45.0, end_angle=end_angle)
    return 2.0 * nose * sin(radians(end_angle))


def height(feed: float, nose: float, end_angle: float = END_ANGLE) -> float:
    """Ideal height of the ridges, Rt.

    Args:
        feed: mm/rev.
        nose: radius, mm.
        end_angle: of the end cutting edge to the feed, degrees.

    Returns:
        micrometres: 1000 f^2 / (8 r).

    Raises:
        ValueError: a value that is not above zero, or a feed beyond the arc of the nose.

    Source:
        Textbook geometry, from memory.
    """
    positive(feed=feed)
    most = largest_feed(nose, end_angle)
    if feed > most:
        raise ValueError(
            f"a feed of {feed:g} mm leaves the arc of a {nose:g} mm nose: feed at most {most:.3f} mm "
            f"or grind a larger nose"
        )
    return 1000.0 * feed**2 / (8.0 * nose)


def roughness(feed: float, nose: float, end_angle: float = END_ANGLE) -> float:
    """Ideal mean roughness, Ra.

    Args:
        feed: mm/rev.
        nose: radius, mm.
        end_angle: of the end cutting edge to the feed, degrees.

    Returns:
        micrometres: 1000 f^2 / (32 r).

    Raises:
        ValueError: as `height`.

    Source:
        Groover, Fundamentals of Modern Manufacturing, from memory. Another textbook form has 31.2 for 32,
        which is 2.6 % rougher.
    """
    return height(feed, nose, end_angle) / 4.0


def feed_for(target: float, nose: float, real_over_ideal: float = 1.0, end_angle: float = END_ANGLE) -> float:
    """Feed that gives a mean roughness.

    Args:
        target: Ra, micrometres.
        nose: radius, mm.
        real_over_ideal: 1.2 to 3 in practice; 1 for the ideal.
        end_angle: of the end cutting edge to the feed, degrees.

    Returns:
        mm/rev: sqrt(32 r Ra / 1000), Ra divided by the allowance; never beyond the arc of the nose.

    Raises:
        ValueError: a value that is not above zero, or an allowance below 1.

    Source:
        Inverse of `roughness`.
    """
    positive(roughness=target, nose_radius=nose)
    if real_over_ideal < 1.0:
        raise ValueError(
            f"real over ideal roughness {real_over_ideal:g}: want 1 or more, in practice 1.2 to 3"
        )
    return min(sqrt(32.0 * nose * target / real_over_ideal / 1000.0), largest_feed(nose, end_angle))
