"""Inch fits of ANSI B4.1: running, locational and force classes, read from the tables of limits.

Units    mm; the tables are in thousandths of an inch, as printed.
Sources  ANSI/ASME B4.1-1967 tables, in data/ansi_b4_1.csv, row by row. The 1955
         edition differs (finer holes).
Scope    sizes up to 1.97 in. No class is computed: LN1, RC9 and FN1 follow no formula.
"""

from jobsheets.standards import tables
from jobsheets.standards.fits import Deviations, Fit
from jobsheets.standards.scale import MM_PER_INCH
from jobsheets.units import nearest

MM_PER_THOU = 0.0254


def fit(name: str, nominal: float) -> Fit:
    """Limits of hole and shaft, and the clearances, of an inch fit.

    Args:
        name: "RC1" to "RC9", "LC1" to "LC5", "LT1" to "LT3", "LN1" to "LN3", "FN1" or "FN2"; "RC 4" too.
        nominal: mm.

    Raises:
        ValueError: an unknown class, or a size that its table does not hold.

    Source:
        ANSI/ASME B4.1-1967, data/ansi_b4_1.csv; least and most clearance follow from the four limits.
    """
    wanted = name.replace(" ", "").upper()
    rows = [row for row in _rows() if row["fit"] == wanted]
    if not rows:
        known = names()
        raise ValueError(
            f"{name!r} is not a fit of ANSI B4.1; want {', '.join(nearest(wanted, known) or known)}"
        )
    inches = round(nominal / MM_PER_INCH, 6)  # 0.4 in stays in the range up to 0.40
    for row in rows:
        if float(row["over_in"]) < inches <= float(row["up_to_in"]):
            return _fit(row, nominal)
    raise ValueError(
        f"no {wanted} for {inches:.4f} in; "
        f"want a size over {rows[0]['over_in']} up to {rows[-1]['up_to_in']} in"
    )


def names() -> tuple[str, ...]:
    """Classes of the table, loosest running fit first."""
    return tuple(dict.fromkeys(row["fit"] for row in _rows()))


def _fit(row: dict[str, str], nominal: float) -> Fit:
    hole, shaft = _deviations(row, "hole", nominal), _deviations(row, "shaft", nominal)
    return Fit(
        hole=hole,
        shaft=shaft,
        least_clearance=hole.lower - shaft.upper,
        most_clearance=hole.upper - shaft.lower,
    )


def _deviations(row: dict[str, str], side: str, nominal: float) -> Deviations:
    return Deviations(
        symbol=row[f"{side}_symbol"] or f"{row['fit']} {side}",
        nominal=nominal,
        lower=float(row[f"{side}_lower_thou"]) * MM_PER_THOU,
        upper=float(row[f"{side}_upper_thou"]) * MM_PER_THOU,
        source=row["source"],
        seen=row["seen"],
    )


def _rows() -> tuple[dict[str, str], ...]:
    return tables.load("ansi_b4_1", key=("fit", "over_in"), ascending=("fit", "over_in"))
