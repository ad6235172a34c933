"""Lengths as a sheet, a drawing or a drawer shows them, and rounding to a step."""

from enum import StrEnum
from math import ceil, floor, gcd, isfinite

from jobsheets.units.text import MM_PER_INCH, checked

HAIR = 1e-9  # of a step: sums of floats stray by less
LEAST_STEP = 1e-9
MOST_STEPS = 1e13  # beyond it a float no longer tells one step from the next
ON_FRACTION = 1e-6  # mm off a 64th of an inch that is still that 64th
SIXTY_FOURTHS = 64


class UnitSystem(StrEnum):
    INCH = "in"
    MM = "mm"


_PLACES = {UnitSystem.INCH: 3, UnitSystem.MM: 2}  # what a caliper shows


def _steps(value: float, step: float) -> float:
    if not (isfinite(value) and isfinite(step)):
        raise ValueError("not a finite number to round; want a number")
    if step <= 0.0:
        raise ValueError("a step of zero or less; want a step above zero")
    if step < LEAST_STEP or abs(value) > MOST_STEPS * step:
        raise ValueError("a step too fine for the value; want a coarser step")
    return value / step


def _multiple(count: int, step: float) -> float:
    return float(f"{count * step:.15g}") + 0.0  # 0.3, where 3 * 0.1 gives 0.30000000000000004


def _room(count: float) -> float:
    return HAIR * max(1.0, abs(count) * 1e-6)


def round_to(value: float, step: float) -> float:
    """The multiple of `step` nearest to `value`; a half goes to the even multiple.

    What lies within a billionth of a half is a half: 2.675 to 0.01 gives 2.68 though its binary is below.

    Args:
        value: any unit.
        step: the same unit, above zero.

    Raises:
        ValueError: not finite, or a step that is not above zero or too fine.
    """
    count = _steps(value, step)
    below = floor(count)
    if abs(count - below - 0.5) <= _room(count):
        return _multiple(below + below % 2, step)
    return _multiple(round(count), step)


def down_to(value: float, step: float) -> float:
    """The highest multiple of `step` not above `value`, a billionth of a step forgiven.

    Args and errors as for `round_to`.
    """
    count = _steps(value, step)
    return _multiple(floor(count + _room(count)), step)


def up_to(value: float, step: float) -> float:
    """The lowest multiple of `step` not below `value`, a billionth of a step forgiven.

    Args and errors as for `round_to`.
    """
    count = _steps(value, step)
    return _multiple(ceil(count - _room(count)), step)


def _decimals(value: float, places: int) -> str:
    return f"{round_to(value, 10.0**-places):.{places}f}"


def _in_system(mm: float, system: UnitSystem) -> float:
    return checked(mm) / MM_PER_INCH if system is UnitSystem.INCH else checked(mm)


def length_text(mm: float, system: UnitSystem, places: int | None = None) -> str:
    """A length without its unit, with its leading zero and equal places throughout: `0.375`, `9.53`.

    Args:
        mm: the length, mm.
        system: unit system of the sheet.
        places: decimals, 0 to 6; 3 for inches and 2 for mm unless told.

    Returns:
        The nearest text, a half to the even digit; never a negative zero.

    Raises:
        ValueError: not finite, above 1e6 mm, or places out of range.
    """
    if places is not None and not 0 <= places <= 6:
        raise ValueError(f"{places} decimals; want 0 to 6")
    return _decimals(_in_system(mm, system), _PLACES[system] if places is None else places)


def size_text(mm: float, system: UnitSystem, places: int | None = None) -> str:
    """`length_text` with its unit: `0.375 in`, `9.53 mm`."""
    return f"{length_text(mm, system, places)} {system}"


def drawing_text(mm: float, system: UnitSystem) -> str:
    """A dimension on a drawing, without its unit.

    Args:
        mm: the dimension, mm.
        system: INCH gives `.375`, `1.250`, a fourth place only where needed (`.1875`) and no leading zero;
            MM gives `0.5`, `9.525`, at most three places, trailing zeros dropped.

    Raises:
        ValueError: not finite or above 1e6 mm.

    Source:
        ASME Y14.5 for inches and ISO 129-1 for mm, from memory; the decimal marker is the point in both, so
        that one sheet has one marker.
    """
    value = _in_system(mm, system)
    if system is UnitSystem.MM:
        return _dropped(_decimals(value, 3))
    text = _decimals(value, 4).removesuffix("0")
    sign, bare = ("-", text[1:]) if text.startswith("-") else ("", text)
    return sign + bare.removeprefix("0") if bare.startswith("0.") else text


def _dropped(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def fraction_text(mm: float) -> str | None:
    """`3/8 in`, `1-1/4 in` or `2 in` where the length is a 64th of an inch within 1e-6 mm, else None.

    Raises:
        ValueError: not finite or above 1e6 mm.
    """
    count = round(checked(mm) / MM_PER_INCH * SIXTY_FOURTHS)
    if abs(count * MM_PER_INCH / SIXTY_FOURTHS - mm) > ON_FRACTION:
        return None
    sign = "-" if count < 0 else ""
    whole, rest = divmod(abs(count), SIXTY_FOURTHS)
    if rest == 0:
        return f"{sign}{whole} in"
    shared = gcd(rest, SIXTY_FOURTHS)
    fraction = f"{rest // shared}/{SIXTY_FOURTHS // shared}"
    return f"{sign}{whole}-{fraction} in" if whole else f"{sign}{fraction} in"


def as_bought(mm: float) -> str:
    """A size as it is asked for over the counter: the fraction of an inch, else mm to at most three places.

    Args:
        mm: the size, above zero, mm.

    Raises:
        ValueError: zero, negative, not finite or above 1e6 mm.
    """
    if checked(mm) <= 0.0:
        raise ValueError("nothing is sold by a size of zero or less; want a size above zero")
    return fraction_text(mm) or f"{drawing_text(mm, UnitSystem.MM)} mm"
