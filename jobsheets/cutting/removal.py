"""Removal rates, table feed and chip thinning.

Units    m/min, mm, mm/rev, mm/tooth, rev/min, mm/min, mm3/min.
Sources  each function names its own.
Scope    the speed of turning is that at the outside, which overstates the removal by D over the mean
         diameter.
"""

from math import pi, sqrt

from jobsheets.cutting.limits import not_negative, positive


def turning(speed: float, depth: float, feed: float) -> float:
    """Removal rate of turning from the surface speed.

    Args:
        speed: m/min.
        depth: on the radius, mm.
        feed: mm/rev.

    Returns:
        mm3/min: 1000 v ap f.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Groover, Fundamentals of Modern Manufacturing, lecture slides.
    """
    positive(surface_speed=speed, depth_of_cut=depth, feed=feed)
    return 1000.0 * speed * depth * feed


def turning_exact(start: float, finish: float, feed: float, spindle: float) -> float:
    """Removal rate of turning from one diameter to another.

    Args:
        start: larger diameter, mm.
        finish: smaller diameter, mm.
        feed: mm/rev.
        spindle: rev/min.

    Returns:
        mm3/min: pi Dmean ap f n.

    Raises:
        ValueError: diameters in the wrong order, or a value that is not above zero.

    Source:
        Kalpakjian-type textbook problem, titanium rod.
    """
    positive(start_diameter=start, feed=feed, spindle_speed=spindle)
    not_negative(finish_diameter=finish)
    if finish >= start:
        raise ValueError(f"nothing to cut from {start:g} to {finish:g} mm: the first must be the larger")
    return pi * (start**2 - finish**2) / 4.0 * feed * spindle


def drilling(diameter: float, feed: float, spindle: float) -> float:
    """Removal rate of drilling into the solid, mm3/min: pi D^2 f n / 4.

    Args:
        diameter: mm.
        feed: mm/rev.
        spindle: rev/min.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Machining notes on material removal rate in drilling.
    """
    return turning_exact(diameter, 0.0, feed, spindle)


def milling(width: float, depth: float, table_feed: float) -> float:
    """Removal rate of milling, mm3/min: ae ap vf.

    Args:
        width: of the cut across the feed, mm.
        depth: along the cutter axis, mm.
        table_feed: mm/min.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Lecture slides after Groover.
    """
    positive(width=width, depth=depth, table_feed=table_feed)
    return width * depth * table_feed


def table_feed(per_tooth: float, teeth: int, spindle: float) -> float:
    """Feed of the table, mm/min: fz z n.

    Args:
        per_tooth: mm/tooth.
        teeth: of the cutter.
        spindle: rev/min.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Krar, Gill and Smid, Technology of Machine Tools, from memory.
    """
    positive(feed_per_tooth=per_tooth, teeth=teeth, spindle_speed=spindle)
    return per_tooth * teeth * spindle


def side_approach(diameter: float, width: float) -> float:
    """Way of a cutter before its side is in full cut, mm: sqrt(ae (D - ae)).

    Args:
        diameter: of the cutter, mm.
        width: of the cut across the feed, mm; up to the diameter.

    Raises:
        ValueError: a value that is not above zero, or a cut wider than the cutter.

    Source:
        Lecture slides after Groover.
    """
    _engaged(diameter, width)
    return sqrt(width * (diameter - width))


def face_approach(diameter: float, width: float) -> float:
    """Way of a centred cutter before its full width cuts, mm: (D - sqrt(D^2 - w^2)) / 2.

    Args:
        diameter: of the cutter, mm.
        width: of the work, mm; up to the diameter.

    Raises:
        ValueError: a value that is not above zero, or work wider than the cutter.

    Source:
        Groover, Fundamentals of Modern Manufacturing, face-milling problem, from memory.
    """
    _engaged(diameter, width)
    return (diameter - sqrt(diameter**2 - width**2)) / 2.0


def thinning(diameter: float, width: float) -> float:
    """By how much a narrow side cut thins the chip: the most that the feed per tooth may be raised.

    Args:
        diameter: of the cutter, mm.
        width: of the cut across the feed, mm.

    Returns:
        1 / (2 sqrt(ae/D (1 - ae/D))) below half the diameter, 1 from there on. A ceiling on a manual mill,
        not a target.

    Raises:
        ValueError: a value that is not above zero, or a cut wider than the cutter.

    Source:
        Derived from the geometry of the cut.
    """
    _engaged(diameter, width)
    share = width / diameter
    return 1.0 if share >= 0.5 else 1.0 / (2.0 * sqrt(share * (1.0 - share)))


def _engaged(diameter: float, width: float) -> None:
    positive(diameter=diameter, width=width)
    if width > diameter:
        raise ValueError(
            f"a cut {width:g} mm wide is wider than the cutter of {diameter:g} mm: take two cuts"
        )
