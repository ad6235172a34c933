"""Limits as they stand beside a dimension: deviations, fit symbols, general and thread classes."""

import re
from enum import StrEnum

from jobsheets.units.length import millimetres
from jobsheets.units.text import DECIMAL, tidy
from jobsheets.units.thread import METRIC_CLASS, UNIFIED_CLASS
from jobsheets.value import Frozen

WANTED = "limits such as ±0.05 mm, +0.002/-0.000 in, f8, H7, ISO 2768-m or 2B"

_LETTERS = "cd|ef|fg|js|za|zb|zc|[abcdefghjkmnprstuvxyz]"  # ISO 286-1: no i, l, o, q, w
_GRADES = "01|[0-9]|1[0-8]"
_PLUS_MINUS = r"(?:±|\+ ?/? ?-) ?(?P<size>[^+-]+)"
_UNIT = r"mm|in|inch|inches|thou|[\"\u2033\u201d]"
_DEVIATIONS = (
    rf"(?P<first>[+-] ?{DECIMAL}|0(?:[.,]0+)?) ?(?P<early>{_UNIT})? ?/ ?"
    rf"(?P<second>[+-] ?{DECIMAL}|0(?:[.,]0+)?) ?(?P<unit>{_UNIT})?"
)
_FIT = rf"(?:{_LETTERS}|{_LETTERS.upper()})(?:{_GRADES})"
_GENERAL = r"(?i:ISO ?2768) ?- ?(?P<grade>[fmcv])"
_THREAD = rf"{UNIFIED_CLASS}|{METRIC_CLASS}"


class ToleranceKind(StrEnum):
    PLUS_MINUS = "plus-minus"
    DEVIATIONS = "deviations"
    FIT = "fit"
    GENERAL = "general"
    THREAD = "thread"


class Tolerance(Frozen):
    """Limits as written. `tolerance` makes it; str() gives the text back with the places as written."""

    kind: ToleranceKind
    lower_mm: float | None = None  # None unless written as numbers
    upper_mm: float | None = None
    symbol: str = ""  # "f8", "ISO 2768-m", "2A"; "" when written as numbers
    written: str = ""  # numbers in the maker's own unit; not compared

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Tolerance) and self._limits() == other._limits()

    def __hash__(self) -> int:
        return hash(self._limits())

    def __str__(self) -> str:
        return self.symbol or self.written

    def _limits(self) -> tuple[ToleranceKind, float | None, float | None, str]:
        return self.kind, self.lower_mm, self.upper_mm, self.symbol


def tolerance(text: str) -> Tolerance:
    """The limits that a text states.

    Args:
        text: `±0.05 mm`, `+/-0.002 in`, `+0.002/-0.000 in`, `0/-0.05 mm`, `f8`, `H7`, `js6`, `ISO 2768-m`,
            `2A`, `6g`.

    Raises:
        ValueError: not limits, limits without a unit, or limits that leave no room.

    Source:
        Letters and grades of fits: ISO 286-1; general classes: ISO 2768-1; thread classes: ASME B1.1 and
        ISO 965-1 (letters from memory).
    """
    plain = tidy(text)
    if m := re.fullmatch(_PLUS_MINUS, plain):
        return _plus_minus(m["size"])
    if m := re.fullmatch(_DEVIATIONS, plain):
        return _deviations(m)
    if re.fullmatch(_FIT, plain):
        return Tolerance(kind=ToleranceKind.FIT, symbol=plain)
    if m := re.fullmatch(_GENERAL, plain):
        return Tolerance(kind=ToleranceKind.GENERAL, symbol=f"ISO 2768-{m['grade']}")
    if re.fullmatch(_THREAD, plain):
        symbol = plain.upper() if plain[0] in "123" else plain
        return Tolerance(kind=ToleranceKind.THREAD, symbol=symbol)
    raise ValueError(f"not limits; want {WANTED}")


def _plus_minus(size: str) -> Tolerance:
    half = millimetres(size)
    if half <= 0.0:
        raise ValueError("plus or minus nothing leaves no room; want such as ±0.05 mm")
    return Tolerance(
        kind=ToleranceKind.PLUS_MINUS, lower_mm=-half, upper_mm=half, written=f"±{size.replace(',', '.')}"
    )


def _deviations(m: re.Match[str]) -> Tolerance:
    unit = m["unit"]
    if unit is None:
        raise ValueError("deviations without a unit; want such as +0.002/-0.000 in")
    if m["early"] not in (None, unit):
        raise ValueError("two units in one pair of deviations; want one, such as +0.002/-0.000 in")
    pair = [text.replace(" ", "").replace(",", ".") for text in (m["first"], m["second"])]
    values = [millimetres(f"{text} {unit}") for text in pair]
    if values[0] == values[1]:
        raise ValueError("two equal deviations leave no room; want such as +0.002/-0.000 in")
    if values[0] < values[1]:
        pair.reverse()
    return Tolerance(
        kind=ToleranceKind.DEVIATIONS,
        lower_mm=min(values),
        upper_mm=max(values),
        written=f"{'/'.join(pair)} {unit}",
    )
