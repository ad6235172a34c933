"""Limits of a toleranced size by ISO 286: tolerance grades, deviations of shafts and holes, and their fits.

Units    mm; the tables are in micrometres, as printed.
Sources  ISO 286-1:2010 tables 1 to 5, in data/iso286_it.csv and data/iso286_deviations.csv, row by row;
         the way from symbol to limits is restated in docs/fits-and-holes.md.
Scope    sizes over 0 up to and including 500 mm, grades IT4 to IT14; looked up, never interpolated.
         JS halves are kept as halves: the standard lets an odd one be rounded, and prints differ.
"""

import re
from functools import cache

from jobsheets.standards import tables
from jobsheets.value import Frozen

SYMBOL = re.compile(r"([A-Za-z]{1,2})\s?(\d{1,2})")
MICROMETRE = 0.001


class Deviations(Frozen):
    """How far the limits of a size lie from its nominal, mm."""

    symbol: str
    nominal: float
    lower: float
    upper: float
    source: str
    seen: str  # "memory" when any row behind it is from memory


class Fit(Frozen):
    """What two mating sizes leave between them, mm; an interference is negative."""

    hole: Deviations
    shaft: Deviations
    least_clearance: float
    most_clearance: float


class PreferredFit(Frozen):
    use: str
    hole: str  # empty where no published figure exists and the maker's own number is asked
    shaft: str
    inch: str  # class of ANSI B4.1 that comes nearest; empty where none does
    note: str
    source: str
    seen: str


def tolerance(grade: int, nominal: float) -> float:
    """Width of a standard tolerance, mm.

    Args:
        grade: number behind IT, 4 to 14.
        nominal: mm.

    Raises:
        ValueError: a grade or a size that the table does not hold.

    Source:
        ISO 286-1:2010 table 1.
    """
    return MICROMETRE * float(_grade_row(grade, nominal)["tolerance_um"])


def limits(symbol: str, nominal: float) -> Deviations:
    """Lower and upper deviation of a toleranced size.

    Args:
        symbol: letter and grade; small letters for shafts, capitals for holes: "f7", "H7", "JS9".
        nominal: mm, over 0 up to 500 (c, C and u: up to 120).

    Raises:
        ValueError: not a symbol, or a letter, grade or size outside the tables; the ranges are named.

    Source:
        ISO 286-1:2010 tables 1 to 5. Holes K, M, N (IT8 and finer) and P (IT7 and finer) carry the delta that
        makes a shaft-basis fit equal to its mirrored hole-basis fit: delta = IT(n) - IT(n - 1), 0 up to 3 mm.
    """
    letter, grade = _split(symbol)
    row = _grade_row(grade, nominal)
    width = float(row["tolerance_um"])
    if letter in ("js", "JS"):
        return _deviations(symbol, nominal, -width / 2, width / 2, (row,))
    base = _deviation_row(letter, grade, nominal)
    value = float(base["value_um"])
    used: tuple[dict[str, str], ...] = (row, base)
    if base["delta"] == "yes":
        finer = _grade_row(grade - 1, nominal)
        value += width - float(finer["tolerance_um"])
        used = (row, base, finer)
    if base["deviation"] in ("es", "ES"):
        return _deviations(symbol, nominal, value - width, value, used)
    return _deviations(symbol, nominal, value, value + width, used)


def fit(hole: str, shaft: str, nominal: float) -> Fit:
    """Clearances of a hole and a shaft of the same nominal size.

    Args:
        hole: symbol with a capital letter.
        shaft: symbol with a small letter.
        nominal: mm.

    Raises:
        ValueError: as for `limits`, or a hole where a shaft is wanted.

    Source:
        ISO 286-1:2010; least = EI - es, most = ES - ei.
    """
    if not hole[:1].isupper() or not shaft[:1].islower():
        raise ValueError(f"{hole}/{shaft} is not a fit; want the hole first, with a capital letter: H7/g6")
    inner, outer = limits(hole, nominal), limits(shaft, nominal)
    return Fit(
        hole=inner,
        shaft=outer,
        least_clearance=inner.lower - outer.upper,
        most_clearance=inner.upper - outer.lower,
    )


@cache
def preferred() -> tuple[PreferredFit, ...]:
    """Fits to choose from, each with what it is for in this trade.

    Source:
        data/preferred_fits.csv, row by row.
    """
    return tuple(
        PreferredFit(
            use=row["use"],
            hole=row["hole"],
            shaft=row["shaft"],
            inch=row["inch"],
            note=row["note"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in tables.load("preferred_fits", key=("use",))
    )


def _split(symbol: str) -> tuple[str, int]:
    match = SYMBOL.fullmatch(symbol.strip())
    if match is None or match[1] not in _letters():
        known = " ".join(_letters())
        raise ValueError(f"{symbol!r} is not a fit symbol known here; want a letter of {known} and a grade")
    return match[1], int(match[2])


@cache
def _letters() -> tuple[str, ...]:
    return tuple(dict.fromkeys([*(row["letter"] for row in _deviation_rows()), "js", "JS"]))


def _grade_row(grade: int, nominal: float) -> dict[str, str]:
    rows = _of_grade(grade)
    if not rows:
        grades = [int(row["grade"]) for row in _grade_rows()]
        raise ValueError(f"no IT{grade} in the table; want IT{min(grades)} to IT{max(grades)}")
    return _in_range(rows, nominal, f"IT{grade}")


def _deviation_row(letter: str, grade: int, nominal: float) -> dict[str, str]:
    return _in_range(_of_letter(letter, grade), nominal, f"{letter}{grade}")


@cache
def _of_grade(grade: int) -> tuple[dict[str, str], ...]:
    return tuple(row for row in _grade_rows() if row["grade"] == str(grade))


@cache
def _of_letter(letter: str, grade: int) -> tuple[dict[str, str], ...]:
    return tuple(
        row
        for row in _deviation_rows()
        if row["letter"] == letter and int(row["grade_from"]) <= grade <= int(row["grade_to"])
    )


def _in_range(rows: tuple[dict[str, str], ...], nominal: float, what: str) -> dict[str, str]:
    """The row whose range (over ... up to and including) holds the size, read to 1e-6 mm."""
    for row in rows:
        if float(row["over_mm"]) < round(nominal, 6) <= float(row["up_to_mm"]):
            return row
    raise ValueError(
        f"no {what} for {nominal:g} mm; want a size over {rows[0]['over_mm']} up to {rows[-1]['up_to_mm']} mm"
    )


def _deviations(
    symbol: str, nominal: float, lower: float, upper: float, rows: tuple[dict[str, str], ...]
) -> Deviations:
    """Limits in mm from limits in micrometres; whole micrometres come out as they are written."""
    return Deviations(
        symbol=symbol.strip(),
        nominal=nominal,
        lower=round(lower * MICROMETRE, 4),
        upper=round(upper * MICROMETRE, 4),
        source="; ".join(dict.fromkeys(row["source"] for row in rows)),
        seen="memory" if any(row["seen"] == "memory" for row in rows) else "page",
    )


def _grade_rows() -> tuple[dict[str, str], ...]:
    return tables.load("iso286_it", key=("grade", "over_mm"), ascending=("grade", "over_mm"))


def _deviation_rows() -> tuple[dict[str, str], ...]:
    return tables.load(
        "iso286_deviations",
        key=("letter", "grade_from", "over_mm"),
        ascending=("letter", "grade_from", "over_mm"),
    )
