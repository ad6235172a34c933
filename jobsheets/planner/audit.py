"""The whole plan held against itself: order, rows, figures, limits, holdings and stock tell one story.

The replay proves that the readings make the part; a wrong speed, a wrong limit on a hold point or a bar sawn
too short would still pass it. Here every other printed number is worked out again.
"""

from itertools import pairwise

from jobsheets.part.profile import radius_at
from jobsheets.part.size import Size
from jobsheets.part.turned import EdgeKind, End
from jobsheets.part.work import Work
from jobsheets.planner import order
from jobsheets.planner.audit_figures import figures
from jobsheets.planner.audit_rows import rows
from jobsheets.planner.blanks import blank_size
from jobsheets.planner.inspect import hidden, shoulders
from jobsheets.planner.operation import HoldingKind, HoldPoint, Motion, Operation, Place, Plan, RowKind
from jobsheets.planner.replay_frame import AGREES, Bench, ReplayFault, dial_of
from jobsheets.planner.stopping import SCREWCUT
from jobsheets.planner.times import times


def audit(plan: Plan, states: tuple[Work, ...]) -> None:
    """Everything printed that the replay does not look at.

    Args:
        plan: with operations numbered and in order.
        states: the bar, then the work after each operation, as the replay left them.

    Raises:
        ReplayFault: an order rule is broken, or two printed numbers contradict each other.
    """
    _ordered(plan)
    at = tuple(shoulders(plan.part, states[-1]))
    for op, before in zip(plan.operations, states, strict=False):
        rows(plan, op, before)
        figures(plan, op)
        if op.motion in SCREWCUT:
            from jobsheets.planner.audit_screwcut import screwcut  # few recipes cut a thread so

            screwcut(plan, op, before)
        for hold in op.holds:
            _hold(plan, op, hold, states[-1], at)
    _stock(plan, states)
    _holdings(plan, states)
    if plan.times != times(plan.setups, plan.operations):
        raise ReplayFault("plan", "the times of the setups are not those of their operations")
    _burrs(plan, states[-1])


def _ordered(plan: Plan) -> None:
    """The order obeys the facts and the pins, each setup is visited once, numbers count up in tens."""
    because = order.edges(plan.operations, plan.setups, plan.part.pins)
    for edge in order.broken(plan.operations, because):
        raise ReplayFault(edge.after, f"stands before {edge.before}: {edge.why}")
    if [op.number for op in plan.operations] != [10 * k for k in range(1, len(plan.operations) + 1)]:
        raise ReplayFault("plan", "the operations are not numbered in tens in the order of work")
    visits = [
        op.setup for k, op in enumerate(plan.operations) if k == 0 or plan.operations[k - 1].setup != op.setup
    ]
    if visits != [s.id for s in plan.setups]:
        raise ReplayFault(
            "plan", f"the setups stand as {[s.id for s in plan.setups]}, the work visits {visits}"
        )


def _hold(plan: Plan, op: Operation, hold: HoldPoint, work: Work, at: tuple[float, ...]) -> None:
    """The limits are those of the part, and the aim is what the last row makes."""
    if hold.unit != "mm":
        return
    if not hold.low - AGREES <= hold.aim <= hold.high + AGREES:
        raise ReplayFault(
            op.id, f"{hold.what}: aims at {hold.aim:.3f} mm, outside {hold.low:.3f} to {hold.high:.3f}"
        )
    size, slack = _asked(plan, op, hold, at)
    if abs(hold.low - size.low) > slack or abs(hold.high - size.high) > slack:
        raise ReplayFault(
            op.id,
            f"{hold.what}: limits {hold.low:.3f} to {hold.high:.3f} mm "
            f"where {size.low:.3f} to {size.high:.3f} are asked",
        )
    made = _made(op, hold, work)
    if made is not None and abs(hold.aim - made) > AGREES:
        raise ReplayFault(op.id, f"{hold.what}: aims at {hold.aim:.3f} mm, the rows make {made:.3f} mm")


def _asked(plan: Plan, op: Operation, hold: HoldPoint, at: tuple[float, ...]) -> tuple[Size, float]:
    """Limits that the part puts on a hold point, and how far shoulders that cannot be seen may shift them."""
    feature, _, what = hold.id.rpartition(".")
    part = plan.part
    if what == "wires":
        from jobsheets.planner.audit_screwcut import wires

        return wires(plan, op, hold), AGREES
    for hole in part.holes:
        if hole.id == feature:
            size = hole.diameter if what == "diameter" else hole.depth
            if size is not None:
                return size, AGREES
    for cross in part.cross_holes:
        if cross.id == feature:
            return cross.at, AGREES
    if feature == "part":
        return _overall(plan, at), max(_blur(plan), dial_of(Bench(part, plan.shop), op, op.z_dial).step / 2.0)
    segment = part.segment(feature)
    if what == "length":
        return _reach(plan, op, at)
    if what == "dome":
        edge = segment.front if op.end is End.FRONT else segment.back
        if edge is not None and edge.kind is EdgeKind.DOME:
            return edge.size, AGREES
    return blank_size(segment) or segment.diameter, AGREES


def _blur(plan: Plan) -> float:
    """How far the front of the last segment may stand from where it is seen, mm."""
    pair = plan.part.segments[-2:]
    return pair[-1].length.width / 2.0 if len(pair) == 2 and hidden(*pair) else AGREES


def _overall(plan: Plan, at: tuple[float, ...]) -> Size:
    if plan.part.overall is not None:
        return plan.part.overall
    last = plan.part.segments[-1].length
    front = at[-2] - at[0]
    return Size(nominal=last.nominal, low=front + last.low, high=front + last.high, limits=last.limits)


def _reach(plan: Plan, op: Operation, at: tuple[float, ...]) -> tuple[Size, float]:
    """Limits on the distance from the zero face to the shoulder that a turning cut stops at."""
    segments = plan.part.segments
    step = 1 if plan.setup(op.setup).out is End.FRONT else -1
    index = plan.part.index(op.feature)
    while 0 <= index + step < len(segments) and plan.part.plunged(segments[index + step]):
        index += step
    near = at[index] - at[0] if step > 0 else at[-1] - at[index + 1]
    length = segments[index].length
    beside = list(pairwise(segments[max(index - 1, 0) : index + 2]))
    unseen = any(hidden(a, b) for a, b in beside)
    size = Size(nominal=length.nominal, low=near + length.low, high=near + length.high, limits=length.limits)
    # A blade's wall stands where a line of the dial puts its other corner, not quite where it was planned.
    bladed = any(plan.part.plunged(s) for pair in beside for s in pair)
    line = dial_of(Bench(plan.part, plan.shop), op, op.z_dial).step if bladed else 0.0
    return size, max(length.width / 2.0 if unseen else 0.0, line) + AGREES


def _made(op: Operation, hold: HoldPoint, work: Work) -> float | None:
    """What the rows make of the size that a hold point proves; None where no row tells it."""
    last, what = op.rows[-1], hold.id.rpartition(".")[2]
    if hold.id == "part.length":
        return work.back - work.front
    if what == "wires":
        return None  # its aim is held against the passes with its limits
    if what == "place":
        return next((row.at for row in op.rows if row.kind is RowKind.STEP), hold.aim)
    return {"diameter": last.diameter, "length": last.at, "depth": last.at, "dome": last.depth}[what]


def _stock(plan: Plan, states: tuple[Work, ...]) -> None:
    """The pieces of the bar add up to what is sawn, and are what the operations use."""
    stock, bar, work = plan.stock, states[0], states[-1]
    pieces = stock.grip + stock.facing + stock.part + stock.part_off + stock.kerf + stock.clearance
    parting = next((op for op in plan.operations if op.motion is Motion.PART_OFF), None)
    claims = (
        ("length of bar", stock.length, pieces),
        ("bar in the replay", bar.back - bar.front, stock.length),
        ("diameter of the bar", stock.diameter, plan.part.rod.nominal),
        ("facing allowance", stock.facing, -bar.front),
        ("length of the part", stock.part, work.back - work.front),
        ("parting kerf", stock.kerf, parting.cutter.width if parting is not None else 0.0),
        ("grip", stock.grip, plan.setups[0].holding.grip),
    )
    for what, printed, made in claims:
        if abs(printed - made) > AGREES:
            raise ReplayFault("stock", f"{what} is {made:.3f} mm; {printed:.3f} mm is printed")
    house = plan.shop.house
    if stock.clearance < house.jaw_clearance - AGREES or stock.saw != house.saw_allowance:
        raise ReplayFault("stock", "jaws nearer to the blade, or another saw kerf, than the house rules")
    if stock.material != plan.part.material:
        raise ReplayFault("stock", f"is {stock.material}; the part is of {plan.part.material}")


def _holdings(plan: Plan, states: tuple[Work, ...]) -> None:
    """Grip, stick-out and gripped diameter are those of the work at the moment it is gripped."""
    for setup in plan.setups:
        held = setup.holding
        k = next((i for i, op in enumerate(plan.operations) if op.setup == setup.id), None)
        if k is None or setup.place is not Place.LATHE:
            continue
        work = states[k]
        if held.kind is HoldingKind.MANDREL:
            out = work.back - work.front
        elif setup.out is End.FRONT:
            out = setup.grip_from - (states[0].front if held.on == "bar" else work.front)
        else:
            out = work.back - setup.grip_to
        if abs(held.stick_out - out) > AGREES:
            raise ReplayFault(
                setup.id, f"{out:.3f} mm stand out of the jaws; {held.stick_out:.3f} mm is printed"
            )
        if held.kind is HoldingKind.MANDREL:
            continue
        if abs(held.grip - (setup.grip_to - setup.grip_from)) > AGREES:
            raise ReplayFault(
                setup.id, f"the grip is {setup.grip_to - setup.grip_from:.3f} mm; {held.grip:.3f} is printed"
            )
        middle = 2.0 * radius_at(work.outer, (setup.grip_from + setup.grip_to) / 2.0)
        if abs(held.diameter - middle) > AGREES:
            raise ReplayFault(setup.id, f"⌀ {middle:.3f} mm is gripped; {held.diameter:.3f} mm is printed")


def _burrs(plan: Plan, work: Work) -> None:
    """Edges that no dimension asks for, and that would cut a finger or stop a mate."""
    for cross in plan.part.cross_holes:
        if not any(op.motion is Motion.DEBURR and op.feature == cross.id for op in plan.operations):
            raise ReplayFault(cross.id, "its burrs are left")
    through = [h for h in plan.part.holes if h.depth is None and h.end is End.FRONT]
    if through:
        bore = min(r for _, r in work.inner)
        if work.inner[-1][1] < bore + AGREES:
            raise ReplayFault(through[0].id, "its far mouth is left sharp")
