"""Bar stock as sold: usual sizes, and how far a bar may lie from its nominal size by its standard.

Units    mm.
Sources  data/stock_sizes.csv, data/stock_standards.csv and data/stock_tolerances.csv, row by row.
Scope    rounds, hexagons, squares and flats of the common standards. The sign differs: A108 and EN 10278 bars
         are never over size, A484 stainless, brass and aluminium rod can be.
"""

from functools import cache

from jobsheets.standards import fits, tables
from jobsheets.standards.materials import Material
from jobsheets.standards.scale import in_mm, scale
from jobsheets.units import nearest
from jobsheets.value import Frozen


class BarStandard(Frozen):
    name: str  # "ASTM A108 round, low carbon"
    shape: str  # "round", "hexagon", "square", "flat"
    sign: str  # "minus only", "plus and minus"
    materials: tuple[str, ...]  # ids of materials usually sold to it
    note: str
    source: str
    seen: str


class BarTolerance(Frozen):
    """Deviations of a bar from its nominal size, mm."""

    standard: str
    lower: float
    upper: float
    source: str
    seen: str


class StockSize(Frozen):
    name: str  # "3/8 in", "10 mm"
    mm: float
    source: str
    seen: str


def tolerance(standard: str, nominal: float) -> BarTolerance:
    """Deviations that the standard allows a bar of a nominal size.

    Args:
        standard: name as in `bars()`.
        nominal: diameter, or width across flats, mm.

    Raises:
        ValueError: an unknown standard, or a size that its table does not hold; the range is named.

    Source:
        the standard named, data/stock_tolerances.csv; EN 10278 by the ISO 286 class of the finish.
    """
    symbol = _standard(standard)["symbol"]
    rows = [row for row in _tolerances() if row["standard"] == standard]
    row = next((row for row in rows if _holds(row, round(nominal / scale(row), 6))), None)
    if row is None:
        spans = ", ".join(f"{row['over']} to {row['up_to']}" for row in rows)
        raise ValueError(
            f"{standard} gives no tolerance at {nominal:g} mm; want a size ({rows[0]['unit']}) of {spans}"
        )
    if symbol:
        limits = fits.limits(symbol, nominal)
        return _tolerance(standard, limits.lower, limits.upper, row)
    return _tolerance(standard, in_mm(row, "lower"), in_mm(row, "upper"), row)


@cache
def bars(shape: str = "") -> tuple[BarStandard, ...]:
    """Standards of bar stock, those of one shape or all.

    Args:
        shape: "round", "hexagon", "square" or "flat"; empty for all.

    Raises:
        ValueError: not one of these shapes.
    """
    rows = _standards()
    shapes = tuple(dict.fromkeys(row["shape"] for row in rows))
    if shape and shape not in shapes:
        raise ValueError(f"{shape!r} is not a shape of bar; want {', '.join(shapes)}")
    return tuple(
        BarStandard(
            name=row["standard"],
            shape=row["shape"],
            sign=row["sign"],
            materials=tuple(filter(None, row["materials"].split(";"))),
            note=row["note"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in rows
        if not shape or row["shape"] == shape
    )


def rounds_of(material: Material) -> tuple[BarStandard, ...]:
    """Standards to which round bar of a material is usually sold; none where no source says."""
    return tuple(bar for bar in bars("round") if material.id in bar.materials)


@cache
def round_sizes(system: str) -> tuple[StockSize, ...]:
    """Preferred round sizes, smallest first.

    Args:
        system: "in" (fractions), "mm" (first choice) or "EN 10060" (hot-rolled diameters).

    Raises:
        ValueError: not one of these.

    Source:
        ANSI B4.1 and B4.2 preferred basic sizes; EN 10060:2003 table 1.
    """
    rows = tables.load("stock_sizes", key=("system", "name"), ascending=("system", "size"))
    systems = tuple(dict.fromkeys(row["system"] for row in rows))
    if system not in systems:
        raise ValueError(f"{system!r} is not a system of stock sizes; want {', '.join(systems)}")
    return tuple(
        StockSize(
            name=row["name"],
            mm=in_mm(row, "size"),
            source=row["source"],
            seen=row["seen"],
        )
        for row in rows
        if row["system"] == system
    )


def _tolerance(standard: str, lower: float, upper: float, row: dict[str, str]) -> BarTolerance:
    return BarTolerance(standard=standard, lower=lower, upper=upper, source=row["source"], seen=row["seen"])


def _holds(row: dict[str, str], size: float) -> bool:
    """Whether a printed range holds a size: "over ... to", "from ... to under", or both ends in it."""
    low, high = float(row["over"]), float(row["up_to"])
    if row["bounds"] == "closed":
        return low <= size <= high
    return low <= size < high and size > 0.0 if row["bounds"] == "from" else low < size <= high


def _standard(name: str) -> dict[str, str]:
    rows = {row["standard"]: row for row in _standards()}
    if name not in rows:
        offer = [known for known in rows if name in known] or nearest(name, tuple(rows)) or rows
        raise ValueError(f"{name!r} is not a bar standard; want {' or '.join(offer)}")
    return rows[name]


def _standards() -> tuple[dict[str, str], ...]:
    return tables.load("stock_standards", key=("standard",))


def _tolerances() -> tuple[dict[str, str], ...]:
    return tables.load("stock_tolerances", key=("standard", "over"), ascending=("standard", "over"))
