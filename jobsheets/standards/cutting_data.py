"""Cutting speeds, feeds, depths of cut and specific forces as published, by material.

Units    m/min, mm/rev, mm/tooth, mm, N/mm2.
Sources  each row of data/cutting_*.csv names its own.
Scope    a material is named by `Material.cutting_id` ("ss_303"). Speeds and feeds are those of stiff machines
         in good order: a bench lathe starts at the median of the speeds and at the low end of the feeds, or
         below.
"""

from functools import cache, lru_cache

from jobsheets.standards import tables
from jobsheets.standards.cutting_rows import (
    NoData,
    PublishedRange,
    PublishedRow,
    combine,
    derate,
    row_of,
)
from jobsheets.units import nearest
from jobsheets.value import Frozen

TOOLS = ("HSS", "carbide", "carbon steel")
# Which mapping of a material to the groups of the feed tables an operation uses; all else uses "other".
USES = {"turn rough": "turn", "turn finish": "turn", "drill": "drill", "mill": "mill"}


class SpecificForce(Frozen):
    """Constants of the Kienzle equation for one material."""

    kc11: float  # N/mm2 of a chip 1 mm thick and 1 mm wide
    mc: float
    low: float  # N/mm2, lowest kc11 of the sources
    high: float
    basis: str  # the printed material it was read for
    source: str
    seen: str


@lru_cache(maxsize=1024)
def speed(cutting_id: str, operation: str, tool: str = "HSS") -> PublishedRange | NoData:
    """Surface speeds of the sources.

    Args:
        cutting_id: material, as `Material.cutting_id`; empty for a material without figures.
        operation: one of `operations("speed")`.
        tool: "HSS", "carbide" or "carbon steel".

    Returns:
        Range in m/min, from printed rows or, where there are none, from the rule that ties the operation to
        another (`basis`); `NoData` where neither was found.

    Raises:
        ValueError: an unknown material, operation or tool; the known ones are named.

    Source:
        data/cutting_speeds.csv and data/cutting_derating.csv, row by row.
    """
    _check(cutting_id, operation, tool, "speed")
    printed = [
        cells for cells in _speeds().get((cutting_id, operation), ()) if cells["tool"] in (tool, "any")
    ]
    rows = [row_of(cells) for cells in printed if cells["kind"] == "source"]
    excluded = tuple(row_of(cells) for cells in printed if cells["kind"] == "outlier")
    if rows:
        return combine(cutting_id, operation, tool, "m/min", rows, excluded)
    rule = _rule("speed", operation, tool)
    base = speed(cutting_id, rule["based_on"], tool) if rule else None
    instead = ""
    if rule and isinstance(base, PublishedRange):
        if not any(cells["kind"] == "gap" for cells in printed):  # a known gap is not filled by a rule
            return derate(base, operation, rule)
        instead = base.operation
    return NoData(cutting_id=cutting_id, operation=operation, tool=tool, instead=instead, excluded=excluded)


@lru_cache(maxsize=1024)
def feed(cutting_id: str, operation: str, diameter: float, tool: str = "HSS") -> PublishedRange | NoData:
    """Feeds of the sources at a diameter.

    Args:
        cutting_id: material, as `Material.cutting_id`; empty for a material without figures.
        operation: one of `operations("feed")`. Threads are not among them: their feed is the pitch.
        diameter: of the work in turning and parting, of the tool in all else, mm.
        tool: "HSS", "carbide" or "carbon steel".

    Returns:
        Range in mm/rev, or mm/tooth in milling; `NoData` where nothing was found.

    Raises:
        ValueError: a diameter not above zero, an unknown material, operation or tool.

    Source:
        data/cutting_feeds.csv, data/cutting_material_groups.csv and data/cutting_derating.csv, row by row.
        Values printed for some sizes only are read between them in proportion; below the smallest size, and
        below the size from which a row holds in full, they are reduced in proportion to the diameter.
    """
    if not diameter > 0.0:
        raise ValueError(f"a diameter of {diameter:g} mm: want one above zero")
    _check(cutting_id, operation, tool, "feed")
    rule = _rule("feed", operation, tool)
    if rule:
        base = feed(cutting_id, rule["based_on"], diameter, tool)
        return derate(base, operation, rule) if isinstance(base, PublishedRange) else _none(base, operation)
    rows = _rows(cutting_id, USES.get(operation, "other"), operation, "feed", tool, diameter)
    if not rows:
        return NoData(cutting_id=cutting_id, operation=operation, tool=tool)
    return combine(cutting_id, operation, tool, "mm/tooth" if operation == "mill" else "mm/rev", rows)


def depth_of_cut(cutting_id: str, operation: str, tool: str = "HSS") -> PublishedRange | NoData:
    """Depths of cut that sources suggest; what the machine bears is a check of its own.

    Args:
        cutting_id: material, as `Material.cutting_id`; empty for a material without figures.
        operation: one of `operations("depth")`.
        tool: "HSS", "carbide" or "carbon steel".

    Returns:
        Range in mm, on the radius in turning; `NoData` where nothing was found.

    Raises:
        ValueError: an unknown material, operation or tool.

    Source:
        data/cutting_feeds.csv, data/cutting_material_groups.csv and data/cutting_derating.csv, row by row.
    """
    _check(cutting_id, operation, tool, "depth")
    rule = _rule("depth", operation, tool)
    if rule:
        base = depth_of_cut(cutting_id, rule["based_on"], tool)
        return derate(base, operation, rule) if isinstance(base, PublishedRange) else _none(base, operation)
    rows = _rows(cutting_id, "depth", operation, "depth", tool, 0.0)
    if not rows:
        return NoData(cutting_id=cutting_id, operation=operation, tool=tool)
    return combine(cutting_id, operation, tool, "mm", rows)


def reaming_stock(diameter: float, by_hand: bool = False) -> PublishedRange:
    """Stock on the diameter to leave for a reamer.

    Args:
        diameter: of the reamer, mm.
        by_hand: whether the reamer is turned by hand.

    Returns:
        Range in mm on the diameter, for any material.

    Raises:
        ValueError: a diameter not above zero.

    Source:
        data/cutting_feeds.csv, row by row.
    """
    if not diameter > 0.0:
        raise ValueError(f"a diameter of {diameter:g} mm: want one above zero")
    operation = "hand ream" if by_hand else "ream"
    rows = _at((operation, "stock", "general"), "HSS", diameter, take_low=False)
    return combine("", operation, "HSS", "mm", rows)


@lru_cache(maxsize=1024)
def specific_force(cutting_id: str) -> SpecificForce | NoData:
    """Constants of the Kienzle equation.

    Args:
        cutting_id: material, as `Material.cutting_id`; empty for a material without figures.

    Returns:
        Constants for a sharp carbide tool, or `NoData`.

    Raises:
        ValueError: an unknown material.

    Source:
        data/cutting_specific_force.csv, row by row.
    """
    _check_material(cutting_id)
    for cells in tables.load("cutting_specific_force", key=("cutting_id",)):
        if cells["cutting_id"] == cutting_id:
            numbers = {name: float(cells[name]) for name in ("kc11", "mc", "low", "high")}
            return SpecificForce(**numbers, basis=cells["basis"], source=cells["source"], seen=cells["seen"])
    return NoData(cutting_id=cutting_id, operation="any", tool="any")


@cache
def operations(figure: str) -> tuple[str, ...]:
    """Operations that `figure`, which is "speed", "feed" or "depth", may be asked for."""
    if figure == "speed":
        printed = [operation for _, operation in _speeds()]
    else:
        printed = [operation for operation, quantity, _ in _feeds() if quantity == figure]
    return tuple(dict.fromkeys((*printed, *(r["operation"] for r in _rules() if r["figure"] == figure))))


@cache
def materials() -> tuple[str, ...]:
    """Materials that have a place in the tables, whether with figures or with a known gap."""
    return tuple(dict.fromkeys(cutting_id for cutting_id, _ in _speeds()))


def _check_material(cutting_id: str) -> None:
    if cutting_id and cutting_id not in materials():
        close = nearest(cutting_id, materials()) or materials()
        raise ValueError(f"{cutting_id!r} is not a material of the cutting tables; want {', '.join(close)}")


def _check(cutting_id: str, operation: str, tool: str, figure: str) -> None:
    _check_material(cutting_id)
    if operation not in operations(figure):
        raise ValueError(f"no {figure} is kept for {operation!r}; want {', '.join(operations(figure))}")
    if tool not in TOOLS:
        raise ValueError(f"a tool of {tool!r}: want {', '.join(TOOLS)}")


def _none(base: NoData, operation: str) -> NoData:
    return NoData(cutting_id=base.cutting_id, operation=operation, tool=base.tool)


def _rule(figure: str, operation: str, tool: str) -> dict[str, str] | None:
    for rule in _rules():
        if (rule["figure"], rule["operation"]) == (figure, operation) and rule["tool"] in (tool, "any"):
            return rule
    return None


def _rows(
    cutting_id: str, use: str, operation: str, quantity: str, tool: str, diameter: float
) -> list[PublishedRow]:
    """Rows of every group that the material belongs to in this use."""
    return [
        row
        for group in _groups().get((cutting_id, use), ())
        for row in _at((operation, quantity, group["group"]), tool, diameter, group["take"] == "low")
    ]


def _at(key: tuple[str, str, str], tool: str, diameter: float, take_low: bool) -> list[PublishedRow]:
    """Rows that hold at a diameter, values printed for some sizes read between them."""
    found: list[PublishedRow] = []
    points: dict[tuple[str, str], list[dict[str, str]]] = {}
    for cells in _feeds().get(key, ()):
        if cells["tool"] not in (tool, "any") or cells["kind"] != "source":
            continue
        if cells["at_mm"]:
            series = (cells["source"], cells["note"].partition("printed")[0])
            points.setdefault(series, []).append(cells)
        elif not cells["over_mm"] or float(cells["over_mm"]) < diameter <= float(cells["up_to_mm"] or "inf"):
            full = float(cells["full_from_mm"] or 0.0)
            found.append(row_of(cells, min(1.0, diameter / full) if full else 1.0, take_low))
    return found + [_between(series, diameter) for series in points.values()]


def _between(series: list[dict[str, str]], diameter: float) -> PublishedRow:
    """Value at a diameter of a source that prints it for some sizes only."""
    below = [cells for cells in series if float(cells["at_mm"]) <= diameter]
    above = [cells for cells in series if float(cells["at_mm"]) > diameter]
    if not below:  # smaller than any printed: in proportion to the diameter
        return row_of(above[0], diameter / float(above[0]["at_mm"]))
    if not above:
        return row_of(below[-1])
    (x1, y1), (x2, y2) = ((float(c["at_mm"]), float(c["typical"])) for c in (below[-1], above[0]))
    value = y1 + (y2 - y1) * (diameter - x1) / (x2 - x1)
    return row_of(below[-1], value / y1)


@cache
def _speeds() -> dict[tuple[str, str], list[dict[str, str]]]:
    by_key: dict[tuple[str, str], list[dict[str, str]]] = {}
    for cells in tables.load("cutting_speeds", key=("cutting_id", "operation", "tool", "kind", "source")):
        by_key.setdefault((cells["cutting_id"], cells["operation"]), []).append(cells)
    return by_key


@cache
def _feeds() -> dict[tuple[str, str, str], list[dict[str, str]]]:
    by_key: dict[tuple[str, str, str], list[dict[str, str]]] = {}
    unique = ("operation", "quantity", "group", "tool", "over_mm", "at_mm", "low", "note", "source")
    for cells in tables.load("cutting_feeds", key=unique):
        by_key.setdefault((cells["operation"], cells["quantity"], cells["group"]), []).append(cells)
    return by_key


@cache
def _groups() -> dict[tuple[str, str], list[dict[str, str]]]:
    by_key: dict[tuple[str, str], list[dict[str, str]]] = {}
    for cells in tables.load("cutting_material_groups", key=("cutting_id", "use", "group")):
        by_key.setdefault((cells["cutting_id"], cells["use"]), []).append(cells)
    return by_key


def _rules() -> tuple[dict[str, str], ...]:
    return tables.load("cutting_derating", key=("figure", "operation", "tool"))
