"""Constants of the drill equations, of wear and of drives, and the cut-back for deep holes, as published.

Units    plain factors; the drill factor Kd is that of the inch tables.
Sources  each row of data/cutting_drill_kd.csv, cutting_chisel.csv, cutting_factors.csv and
         cutting_deep_holes.csv names its own.
Scope    no row, no number.
"""

from functools import cache

from jobsheets.standards import tables
from jobsheets.standards.cutting_rows import NoData
from jobsheets.value import Frozen


class DrillFactor(Frozen):
    """Work material factor Kd of the drill equations."""

    torque: float
    thrust: float
    basis: str  # the printed material it was read for
    source: str
    seen: str


class Chisel(Frozen):
    """Factors of the drill equations for a length of chisel edge over diameter."""

    a: float
    b: float
    j: float
    source: str
    seen: str


class Factor(Frozen):
    """A printed factor, or range of factors."""

    low: float
    high: float
    source: str
    seen: str


class CutBack(Frozen):
    """Share of speed and feed that a deep hole leaves."""

    speed: float
    feed: float
    source: str
    seen: str


@cache
def drill_factor(cutting_id: str) -> DrillFactor | NoData:
    """Work material factor Kd of the drill equations; `NoData` where the handbook prints none.

    Source:
        data/cutting_drill_kd.csv, row by row.
    """
    for cells in tables.load("cutting_drill_kd", key=("cutting_id",)):
        if cells["cutting_id"] == cutting_id:
            torque, thrust = float(cells["kd_torque"]), float(cells["kd_thrust"])
            return DrillFactor(
                torque=torque, thrust=thrust, basis=cells["basis"], source=cells["source"], seen=cells["seen"]
            )
    return NoData(cutting_id=cutting_id, operation="drill", tool="HSS")


def chisel(ratio: float = 0.18) -> Chisel:
    """Factors A, B and J of the drill equations.

    Args:
        ratio: chisel edge over diameter: 0.18 for a standard drill, 0.03 for a split point.

    Raises:
        ValueError: a ratio that is not printed.

    Source:
        data/cutting_chisel.csv: Machinery's Handbook 31st ed., p. 1152, Table 7.
    """
    rows = tables.load("cutting_chisel", key=("chisel_ratio",), ascending=("chisel_ratio",))
    for cells in rows:
        if float(cells["chisel_ratio"]) == ratio:
            a, b, j = (float(cells[name]) for name in "abj")
            return Chisel(a=a, b=b, j=j, source=cells["source"], seen=cells["seen"])
    raise ValueError(
        f"no chisel factors for {ratio:g}; want one of {', '.join(cells['chisel_ratio'] for cells in rows)}"
    )


@cache
def factor(kind: str, name: str) -> Factor:
    """Wear of the tool, efficiency of a drive, or force of a tool material over carbide.

    Args:
        kind: "wear", "efficiency" or "tool".
        name: as in data/cutting_factors.csv: "turn rough", "direct belt", "HSS".

    Raises:
        ValueError: no such factor; the known ones are named.

    Source:
        data/cutting_factors.csv, row by row.
    """
    rows = tables.load("cutting_factors", key=("kind", "name"))
    for cells in rows:
        if (cells["kind"], cells["name"]) == (kind, name):
            low, high = float(cells["low"]), float(cells["high"])
            return Factor(low=low, high=high, source=cells["source"], seen=cells["seen"])
    known = ", ".join(f"{cells['kind']} {cells['name']}" for cells in rows)
    raise ValueError(f"no factor {kind!r} {name!r}; want one of {known}")


def deep_hole(depth: float, diameter: float) -> CutBack | None:
    """Cut-back of speed and feed for a deep hole.

    Args:
        depth: of the hole, mm.
        diameter: of the drill, mm.

    Returns:
        The row of the depth in whole diameters; None below 3 diameters. Beyond 6 the last printed row holds,
        and pecking does the rest.

    Raises:
        ValueError: a diameter not above zero or a depth below zero.

    Source:
        data/cutting_deep_holes.csv: drilling reference guide.
    """
    if not diameter > 0.0 or depth < 0.0:
        raise ValueError(
            f"a hole {depth:g} mm deep of {diameter:g} mm: want a diameter above zero, a depth not below"
        )
    rows = tables.load("cutting_deep_holes", key=("from_diameters",), ascending=("from_diameters",))
    deep = [cells for cells in rows if float(cells["from_diameters"]) * diameter <= depth]
    if not deep:
        return None
    last = deep[-1]
    return CutBack(
        speed=float(last["speed_factor"]),
        feed=float(last["feed_factor"]),
        source=last["source"],
        seen=last["seen"],
    )
