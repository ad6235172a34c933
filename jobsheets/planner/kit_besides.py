"""What is laid out besides the cutting tools: holders, finders, files, markers, gauges of sizes to read."""

from collections.abc import Iterator

from jobsheets.planner.lists import by_indicator
from jobsheets.planner.operation import HoldingKind, Motion, Operation, Place, Row, Setup
from jobsheets.shop import owned
from jobsheets.shop.shop import Shop
from jobsheets.shop.tools import GaugeKind

READ_TO = 0.5  # mm between the limits of a depth or an edge that has none (common practice)
IN_A_HOLE = (Motion.DRILL, Motion.CROSS_DRILL, Motion.COUNTERBORE, Motion.BORE)
BY_TOOL = (
    Motion.ROUND,
    Motion.TAP,
    Motion.DIE,
    Motion.CHASE,
)  # their gauge is named with the tool or the hold
Thing = tuple[str, str, int]  # group, name, number of the operation


def besides(shop: Shop, setups: tuple[Setup, ...], operations: tuple[Operation, ...]) -> Iterator[Thing]:
    """Things that an operation needs and that are not its cutter."""
    for op in operations:
        if op.motion is Motion.DIE and shop.tooling.die_holder:
            yield "die", "die holder", op.number
        if op.motion is Motion.DOME:
            yield "bench tool", "fine file with a handle", op.number
            yield "bench tool", "marker or layout blue", op.number
            yield "bench tool", "radius template", op.number
        if op.place is Place.MILL and any(row.x for row in op.rows):
            yield "bench tool", "edge finder", op.number
    for setup in setups:
        yield from _of_setup(shop, setup, tuple(op for op in operations if op.setup == setup.id))


def _of_setup(shop: Shop, setup: Setup, operations: tuple[Operation, ...]) -> Iterator[Thing]:
    for op in operations:
        if setup.holding.kind is HoldingKind.MANDREL:
            yield "holding", setup.holding.name, op.number
    if operations and by_indicator(setup, operations, shop.lathe):
        gauge = next((g for g in shop.tooling.gauges if g.kind is GaugeKind.INDICATOR), None)
        yield "gauge", "dial indicator" if gauge is None else gauge.name, operations[0].number


def read_with(shop: Shop, op: Operation) -> str:
    """Gauge of a size that is read in a row and has no hold point of its own; "" where there is none."""
    row = next((r for r in op.rows if r.box), None)
    if row is None or op.holds or op.motion in BY_TOOL:
        return ""
    where = "depth" if op.motion in IN_A_HOLE else "outside"
    pick = owned.gauge_for(shop.tooling, _read(row), READ_TO, shop.house, where)
    return pick.wanted if pick.tool is None else pick.tool.name


def _read(row: Row) -> float:
    """The size that is read in a row, mm."""
    return next((v for v in (row.diameter, row.at, row.depth) if v), 0.0)
