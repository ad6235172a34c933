"""Limits of size of Unified inch threads, in the rounding order that reproduces the printed tables.

Units    inches in Decimal inside (a binary float breaks ties at random); mm come out.
Sources  ASME B1.1: formulas and rounding as shown in Machinery's Handbook 31st ed., inch thread calculations,
         tables 3 to 6; tolerance formulas and class factors from memory, confirmed on printed limits.
Scope    single start; classes 1A to 3A and 1B to 3B at the standard length of engagement.
"""

from decimal import ROUND_HALF_EVEN, Decimal

from jobsheets.standards.thread_values import Thread, ThreadLimits
from jobsheets.value import Frozen

SOURCE = (
    "ASME B1.1 formulas and rounding order (Machinery's Handbook 31st ed., inch thread calculations, "
    "tables 3 to 6)"
)

# Pitch-diameter tolerance of a class as a share of that of class 2A.
PITCH_FACTOR = {
    "1A": Decimal("1.5"),
    "2A": Decimal("1"),
    "3A": Decimal("0.75"),
    "1B": Decimal("1.95"),
    "2B": Decimal("1.3"),
    "3B": Decimal("0.975"),
}
ALLOWED = ("1A", "2A")  # classes that are cut below basic size by the allowance
LENGTH_IS_DIAMETER = ("UNC", "UNF")  # the others reckon with a length of engagement of nine pitches
LENGTH_IS_DIAMETER_UN = (4, 6, 8)  # constant-pitch series that reckon with one diameter

TWO_THIRDS = Decimal(2) / 3
THIRD = Decimal(1) / 3
PITCH_LINE = Decimal("0.64951905")  # 2 x 3/8 H for a pitch of 1
FULL_DEPTH = Decimal("1.08253175")  # 2 x 5/8 H
ROUNDING_OF_ROOT = Decimal("0.108253")  # 1/8 H: a rounded root lies that much deeper on the diameter
THREE_DECIMALS_FROM = Decimal("0.138")  # No. 6: from here the minor limits of nuts have three decimals
MM = Decimal("25.4")


class _Basic(Frozen):
    d: Decimal
    n: Decimal
    p: Decimal
    pitch_tolerance: Decimal  # of class 2A, before any class factor
    minor: Decimal  # basic minor diameter, four places


def classes(thread: Thread, external: bool) -> tuple[str, ...]:
    """Classes that the standard knows for a thread, loosest first.

    Source:
        ASME B1.1: class 1 for UNC and UNF of 1/4 in and larger only, from memory.
    """
    letter = "A" if external else "B"
    first = "1" if thread.series in LENGTH_IS_DIAMETER and thread.major >= 6.35 - 1e-9 else "2"
    return tuple(f"{number}{letter}" for number in ("1", "2", "3") if number >= first)


def limits(thread: Thread, tolerance_class: str) -> ThreadLimits:
    """Limits of size of a Unified thread; the class is one of `classes`.

    Raises:
        ValueError: no such class for this thread.

    Source:
        ASME B1.1, see the head of this module and docs/threads.md.
    """
    external = tolerance_class.endswith("A")
    if tolerance_class not in classes(thread, external):
        known = ", ".join(classes(thread, True) + classes(thread, False))
        raise ValueError(f"{thread.name} has no class {tolerance_class!r}; want one of {known}")
    return (_external if external else _internal)(thread, _basic(thread), tolerance_class)


def _basic(thread: Thread) -> _Basic:
    d = _to(Decimal(repr(thread.major)) / MM, 4)
    n = Decimal(repr(thread.tpi))
    p = _to(1 / n, 8)
    by_diameter = thread.series in LENGTH_IS_DIAMETER or (
        thread.series == "UN" and n in LENGTH_IS_DIAMETER_UN
    )
    engaged = d if by_diameter else 9 * p
    tolerance = (
        Decimal("0.0015") * d**THIRD + Decimal("0.0015") * engaged.sqrt() + Decimal("0.015") * p**TWO_THIRDS
    )
    minor = _to(d - _to(FULL_DEPTH * p, 6), 4)
    return _Basic(d=d, n=n, p=p, pitch_tolerance=_to(tolerance, 6), minor=minor)


def _external(thread: Thread, basic: _Basic, tolerance_class: str) -> ThreadLimits:
    allowance = _to(Decimal("0.3") * basic.pitch_tolerance, 4) if tolerance_class in ALLOWED else Decimal(0)
    share = Decimal("0.09") if tolerance_class == "1A" else Decimal("0.06")
    major = basic.d - allowance
    pitch = _to(major - _to(PITCH_LINE * basic.p, 6), 4)
    tolerance = _to(PITCH_FACTOR[tolerance_class] * basic.pitch_tolerance, 6)
    return ThreadLimits(
        thread=thread.name,
        tolerance_class=tolerance_class,
        external=True,
        allowance=_mm(allowance),
        major_max=_mm(major),
        major_min=_mm(_to(major - _to(share * basic.p**TWO_THIRDS, 6), 4)),
        pitch_max=_mm(pitch),
        pitch_min=_mm(_to(pitch - tolerance, 4)),
        minor_max=_mm(_to(major - _to(FULL_DEPTH * basic.p, 6), 4)),
        minor_min=None,
        minor_round_max=_mm(basic.minor - _to(ROUNDING_OF_ROOT * basic.p, 4) - allowance),
        basis="formula",
        source=SOURCE,
    )


def _internal(thread: Thread, basic: _Basic, tolerance_class: str) -> ThreadLimits:
    pitch = _to(basic.d - _to(PITCH_LINE * basic.p, 6), 4)
    tolerance = _to(PITCH_FACTOR[tolerance_class] * basic.pitch_tolerance, 6)
    large = basic.d >= THREE_DECIMALS_FROM
    # Class 3B keeps four decimals for the maximum; its minimum is the three-decimal one of the other classes.
    places_max = 3 if large and tolerance_class != "3B" else 4
    return ThreadLimits(
        thread=thread.name,
        tolerance_class=tolerance_class,
        external=False,
        allowance=0.0,
        major_max=None,
        major_min=_mm(basic.d),
        pitch_max=_mm(_to(pitch + tolerance, 4)),
        pitch_min=_mm(pitch),
        minor_max=_mm(_to(basic.minor + _to(_minor_tolerance(basic, tolerance_class), 4), places_max)),
        minor_min=_mm(_to(basic.d - _to(FULL_DEPTH * basic.p, 6), 3 if large else 4)),
        basis="formula",
        source=SOURCE,
    )


def _minor_tolerance(basic: _Basic, tolerance_class: str) -> Decimal:
    """Tolerance of the internal minor diameter, inches: ASME B1.1 from memory, confirmed on printed rows."""
    p, d = basic.p, basic.d
    general = Decimal("0.05") * p**TWO_THIRDS + Decimal("0.03") * p / d - Decimal("0.002")
    coarse_floor = Decimal("0.25") * p - Decimal("0.40") * p * p
    if tolerance_class == "3B":
        fine = basic.n >= 13
        floor = Decimal("0.23") * p - Decimal("1.5") * p * p if fine else Decimal("0.120") * p
        return min(max(general, floor), Decimal("0.394") * p)
    if d >= Decimal("0.25"):
        return coarse_floor if basic.n >= 4 else Decimal("0.15") * p
    return min(max(general, coarse_floor), Decimal("0.394") * p)


def _to(value: Decimal, places: int) -> Decimal:
    return value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_EVEN)


def _mm(inches: Decimal) -> float:
    return float(inches * MM)
