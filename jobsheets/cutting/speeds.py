"""Spindle speed and surface speed, and the short cuts that are good only for a check in the head.

Units    m/min, mm, rev/min; the short cuts say theirs.
Sources  each function names its own.
Scope    the diameter is the largest in the cut: work outside diameter for turning and facing, the tool for
         drilling and milling, the finished hole for boring, the major diameter for threading.
"""

from math import pi

from jobsheets.cutting.limits import positive

FACTOR_4_ERROR = 4.0 / (12.0 / pi) - 1.0  # 4 V / D reads 4.7 % high
FACTOR_382_ERROR = 3.82 / (12.0 / pi) - 1.0  # 0.008 % high
FACTOR_320_ERROR = 320.0 / (1000.0 / pi) - 1.0  # 0.5 % high


def spindle_speed(surface_speed: float, diameter: float) -> float:
    """Speed of the spindle that gives a surface speed.

    Args:
        surface_speed: m/min.
        diameter: largest in the cut, mm.

    Returns:
        rev/min, exact: n = 1000 v / (pi d).

    Raises:
        ValueError: a speed or diameter that is not above zero.

    Source:
        Definition; the same formula in the GTZ trainees' handbook on drilling, sec. 5.
    """
    positive(surface_speed=surface_speed, diameter=diameter)
    return 1000.0 * surface_speed / (pi * diameter)


def surface_speed(spindle: float, diameter: float) -> float:
    """Surface speed at a diameter.

    Args:
        spindle: rev/min.
        diameter: mm.

    Returns:
        m/min: v = pi d n / 1000.

    Raises:
        ValueError: a speed or diameter that is not above zero.

    Source:
        Definition, the inverse of `spindle_speed`.
    """
    positive(spindle_speed=spindle, diameter=diameter)
    return pi * diameter * spindle / 1000.0


def in_the_head_factor_4(feet_per_minute: float, inches: float) -> float:
    """Spindle speed by the shop form 4 V / D: 4.7 % too fast (FACTOR_4_ERROR), never used to plan.

    Args:
        feet_per_minute: surface speed, ft/min.
        inches: diameter, in.

    Returns:
        rev/min.

    Raises:
        ValueError: a speed or diameter that is not above zero.

    Source:
        Trade-school formula list; worked cases after Krar, Gill and Smid, Technology of Machine Tools, from
        memory.
    """
    positive(surface_speed=feet_per_minute, diameter=inches)
    return 4.0 * feet_per_minute / inches


def in_the_head_factor_382(feet_per_minute: float, inches: float) -> float:
    """Spindle speed by the short constant 3.82 V / D: 0.008 % too fast (FACTOR_382_ERROR).

    Args:
        feet_per_minute: surface speed, ft/min.
        inches: diameter, in.

    Returns:
        rev/min.

    Raises:
        ValueError: a speed or diameter that is not above zero.

    Source:
        US Army ordnance lathe course OD1645, 12 / 3.1416 rounded.
    """
    positive(surface_speed=feet_per_minute, diameter=inches)
    return 3.82 * feet_per_minute / inches


def in_the_head_factor_320(metres_per_minute: float, millimetres: float) -> float:
    """Spindle speed by the shop form 320 v / D: 0.5 % too fast (FACTOR_320_ERROR), never used to plan.

    Args:
        metres_per_minute: surface speed, m/min.
        millimetres: diameter, mm.

    Returns:
        rev/min.

    Raises:
        ValueError: a speed or diameter that is not above zero.

    Source:
        Trade-school formula list; worked cases after Krar, Gill and Smid, Technology of Machine Tools, from
        memory.
    """
    positive(surface_speed=metres_per_minute, diameter=millimetres)
    return 320.0 * metres_per_minute / millimetres
