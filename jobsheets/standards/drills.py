"""Twist drills as they are sold: number, letter, fraction and metric sizes.

Units    mm; an inch size is converted exactly.
Sources  each row of data/drills.csv names its own.
Scope    sizes that exist, not how large a hole they drill.
"""

from functools import cache
from math import gcd, inf

from jobsheets.standards import tables
from jobsheets.standards.scale import in_mm, ratio
from jobsheets.units import nearest as nearest_names
from jobsheets.value import TYPE_CHECKING, Frozen

if TYPE_CHECKING:
    from jobsheets.units import Drill

SERIES = ("number", "letter", "fraction", "metric", "metric fine", "metric preferred")


class DrillSize(Frozen):
    name: str  # "#29", "F", "9/64 in", "3.4 mm"
    mm: float
    series: str
    source: str
    seen: str = "owned"  # "page" or "memory" where a list says so


@cache
def series(name: str) -> tuple[DrillSize, ...]:
    """Every drill of one series, smallest first.

    Args:
        name: "number" (#97 to #1), "letter" (A to Z), "fraction" (1/64 to 1 in), "metric" (0.1 to 13 mm by
            0.1), "metric fine" (1.00 to 2.95 mm by 0.05) or "metric preferred" (1 to 13 mm by 0.5).

    Raises:
        ValueError: not one of these series.

    Source:
        data/drills.csv, row by row.
    """
    if name not in SERIES:
        raise ValueError(f"{name!r} is not a series of drills; want one of {', '.join(SERIES)}")
    return tuple(
        DrillSize(
            name=row["name"], mm=in_mm(row, "size"), series=name, source=row["source"], seen=row["seen"]
        )
        for row in tables.load("drills", key=("series", "name"), ascending=("series", "size"))
        if row["series"] == name
    )


def named(series_name: str, label: str) -> DrillSize:
    """The drill of a series that bears `label`.

    Args:
        series_name: as for `series`.
        label: "29" or "#29", "F", "9/64", "3.4"; a unit behind it does no harm.

    Raises:
        ValueError: the series has no such drill; its range and the nearest drill are named.
    """
    drills = series(series_name)
    wanted = _plain(label)
    for drill in drills:
        if _plain(drill.name) == wanted:
            return drill
    raise ValueError(
        f"no {series_name} drill {label!r}: they run from {drills[0].name} to {drills[-1].name}"
        f"{_offer(wanted, drills)}"
    )


def find(drill: "Drill") -> DrillSize:
    """The drill that the maker's notation names; a metric one may also be of the fine series.

    Raises:
        ValueError: as for `named`.
    """
    fine = drill.series == "metric" and any(
        _plain(d.name) == _plain(drill.label) for d in series("metric fine")
    )
    return named("metric fine" if fine else drill.series, drill.label)


def size(series_name: str, label: str) -> float:
    """Diameter of a drill, mm. Arguments, errors and source as for `named`."""
    return named(series_name, label).mm


def nearest(mm: float) -> DrillSize:
    """The sold drill that lies nearest to a diameter; of two equally near ones the smaller.

    Args:
        mm: wanted diameter, mm.

    Raises:
        ValueError: outside the sizes of the table.
    """
    drills = everything()
    if not drills[0].mm <= mm <= drills[-1].mm:
        raise ValueError(
            f"no drill near {mm:.3f} mm: the table runs from {drills[0].mm:.1f} to {drills[-1].mm:.1f} mm; "
            "bore or ream a larger hole"
        )
    return min(drills, key=lambda drill: (abs(drill.mm - mm), drill.mm))


@cache
def everything() -> tuple[DrillSize, ...]:
    """Every drill of every series, smallest first; a size sold in several series comes in each."""
    return tuple(sorted((drill for name in SERIES for drill in series(name)), key=lambda drill: drill.mm))


def _plain(label: str) -> str:
    """Label without mark or unit, a number in one form: "#7" as 7, "6/64 in" as 3/32, "3.40 mm" as 17/5."""
    text = label.strip().lstrip("#").removesuffix("mm").removesuffix("in").strip().upper()
    found = ratio(text)
    if found is None:
        return text
    shared = gcd(*found)
    top, below = (count // shared for count in found)
    return f"{top}" if below == 1 else f"{top}/{below}"


def _offer(wanted: str, drills: tuple[DrillSize, ...]) -> str:
    target = ratio(wanted)
    if target is None:
        close = nearest_names(wanted, (drill.name for drill in drills), 1)
        return f"; want {close[0]}" if close else ""

    def apart(drill: DrillSize) -> float:
        found = ratio(_plain(drill.name))
        return abs(found[0] / found[1] - target[0] / target[1]) if found else inf

    return f"; want {min(drills, key=apart).name}"
