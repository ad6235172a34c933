"""Lengths, angles and shares as people write them."""

import re

from jobsheets.units.text import DECIMAL, checked, decimal, nearest, tidy

WANTED = "a length with its unit: 12 mm, 0.500 in or 1-1/4 in"
MOST_DEGREES = 360.0
MOST_PERCENT = 1000.0

# Exact mm in one unit, as numerator and denominator.
_INCH = (127, 5)
_UNITS = {
    "mm": (1, 1),
    "in": _INCH,
    "inch": _INCH,
    "inches": _INCH,
    '"': _INCH,
    "\u2033": _INCH,  # double prime
    "\u201d": _INCH,  # the closing quote that word processors make of "
    "thou": (127, 5000),
}
_OFFERED = ("mm", "in", "inch", "inches", "thou", "cm", "m", "ft")
_TWO_MEANINGS = {"mil": "a thousandth of an inch to some, a millimetre to others"}
_LENGTH = (
    r"(?P<sign>[+-]?) ?"
    r"(?:(?:(?P<whole>[0-9]{1,6})[- ])?(?P<top>[0-9]{1,6})/(?P<below>[0-9]{1,6})"
    rf"|(?P<decimal>{DECIMAL}))"
    r" ?(?P<unit>[A-Za-zµμÅ]{1,30}|[\"\u2033\u201d])?"
)
_ANGLE = rf"(?P<sign>[+-]?) ?(?P<decimal>{DECIMAL}) ?(?P<unit>°|(?i:deg|degrees?))?"
_RATIO = rf"(?P<decimal>{DECIMAL}) ?(?P<percent>%?)"


def millimetres(text: str) -> float:
    """A length as people write it.

    Args:
        text: `3/8 in`, `1-1/4 in`, `1 1/4"`, `.375 in`, `-0.003 in`, `9.5 mm`, `9,5 mm`, `2 thou`; any other
            unit of length such as `1.2 cm` after one plain number.

    Returns:
        The length, mm; exact to the last bit for inch, thou and mm.

    Raises:
        ValueError: no unit, no length, or more than 1e6 mm.

    Source:
        25.4 mm to the inch exactly (ISO 80000-3; from memory).
    """
    m = re.fullmatch(_LENGTH, tidy(text))
    if m is None:
        raise ValueError(f"not a length; want {WANTED}")
    unit = m["unit"]
    if unit is None:
        raise ValueError(f"a length without a unit; want {WANTED}")
    top, below = decimal(m["decimal"]) if m["decimal"] else _fraction(m)
    each = _UNITS.get(unit.lower())
    if m["decimal"] is None and each is not _INCH:
        raise ValueError(f"a fraction of {unit}; want a decimal such as 9.5 mm: only inches take fractions")
    signed = -top if m["sign"] == "-" else top
    if each is None:
        return checked(round(signed / below * _other_unit(unit), 9))
    return checked(signed * each[0] / (below * each[1]))


def _fraction(m: re.Match[str]) -> tuple[int, int]:
    whole, top, below = int(m["whole"] or 0), int(m["top"]), int(m["below"])
    if below == 0:
        raise ValueError("a fraction over zero; want such as 3/8 in")
    if m["whole"] and top >= below:
        raise ValueError("a whole number with a fraction of one or more; want such as 1-1/4 in")
    return whole * below + top, below


def _other_unit(unit: str) -> float:
    """Mm in one `unit`. Only a bare word gets here: as a formula, 9**9**9 would never end."""
    if unit.lower() in _TWO_MEANINGS:
        raise ValueError(f"{unit} is {_TWO_MEANINGS[unit.lower()]}; want thou, in or mm")
    import pint  # 0.3 s until it answers: only for a unit that the trade's own grammar does not know

    try:
        return float(pint.Quantity(1.0, unit).to("mm").magnitude)
    except Exception as exc:  # pint lets out assertions and errors of the tokenizer beside its own
        close = nearest(unit.lower(), _OFFERED, 1) if len(unit) > 2 else ()
        want = f"{close[0]}, as in {WANTED}" if close else WANTED
        raise ValueError(f"{unit} is no unit of length; want {want}") from exc


def degrees(text: str) -> float:
    """An angle as people write it.

    Args:
        text: `45 deg`, `45°`, `118 degrees`, `-7.5 deg`.

    Returns:
        The angle, degrees.

    Raises:
        ValueError: no unit, no angle, or more than a full turn.
    """
    wanted = "an angle with its unit: 45 deg, 45° or 118 degrees"
    m = re.fullmatch(_ANGLE, tidy(text))
    if m is None:
        raise ValueError(f"not an angle; want {wanted}")
    if m["unit"] is None:
        raise ValueError(f"an angle without a unit; want {wanted}")
    top, below = decimal(m["decimal"])
    if top > MOST_DEGREES * below:
        raise ValueError("more than a full turn; want at most 360 deg")
    return (-top if m["sign"] == "-" else top) / below


def ratio(text: str) -> float:
    """A share of a whole.

    Args:
        text: `65 %` or `0.65`; above 1 only with the percent sign, for `65` may mean either.

    Returns:
        The share: 0.65 for both.

    Raises:
        ValueError: not a share, above 1 without a percent sign, or above 1000 %.
    """
    m = re.fullmatch(_RATIO, tidy(text))
    if m is None:
        raise ValueError("not a share; want such as 65 % or 0.65")
    top, below = decimal(m["decimal"])
    if not m["percent"] and top > below:
        raise ValueError(f"a share above 1 without a percent sign; want {m['decimal']} %, or such as 0.65")
    if m["percent"] and top > MOST_PERCENT * below:
        raise ValueError(f"a share above {MOST_PERCENT:.0f} %; want such as 65 % or 0.65")
    return top / (below * 100) if m["percent"] else top / below
