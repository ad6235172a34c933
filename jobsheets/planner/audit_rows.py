"""Do the printed rows agree with each other and with what the dials can be set to?

The replay proves that the readings cut the part. What it never looks at is proven here: zero settings,
printed depths of cut, readings that no collar has.
"""

from itertools import pairwise
from math import inf

from jobsheets.part.profile import radius_at
from jobsheets.part.turned import End
from jobsheets.part.work import Work
from jobsheets.planner.operation import Motion, Operation, Plan, Row, RowKind
from jobsheets.planner.replay_frame import AGREES, Bench, ReplayFault, dial_of, frame_of
from jobsheets.planner.setting import up
from jobsheets.planner.springing import too_much
from jobsheets.shop.dials import Reading, reading, travel
from jobsheets.shop.machines import Dial

SHOULDER = 0.1  # mm; roughing leaves no more on a shoulder
CUTS = (RowKind.ROUGH, RowKind.MEASURE, RowKind.FINISH, RowKind.STEP, RowKind.PLUNGE)
DRILLING = (Motion.DRILL, Motion.CROSS_DRILL)


def rows(plan: Plan, op: Operation, before: Work) -> None:
    """Every row can be set, and every printed depth is the one that the readings make.

    Args:
        plan: for its dials and its bar.
        op: whose rows.
        before: the work as the operation finds it.

    Raises:
        ReplayFault: naming the operation and the number.
    """
    bench = Bench(plan.part, plan.shop)
    for row in op.rows:
        for axis, at in ((op.x_dial, row.x), (op.z_dial, row.z)):
            if at is not None:
                dial = dial_of(bench, op, axis)
                # The tailstock may be moved up and drilled on from; a check tells the maker so.
                settable(op, dial, at, inf if dial is plan.shop.lathe.quill.dial else dial.travel)
    _zero(bench, plan, op)
    if op.motion in (Motion.TURN, Motion.DOME, Motion.BORE):
        crossing = [row for row in op.rows if row.x is not None]
        _chain(op, crossing, [_x(bench, op, row) for row in crossing], _begin(bench, plan, op, before))
    elif op.motion is Motion.FACE:
        _chain(op, list(op.rows), [_z(bench, op, row) for row in op.rows], 0.0)
    elif op.motion in (Motion.GROOVE, Motion.PART_OFF):
        for row in op.rows[1:]:
            _agrees(op, "depth", row.depth, _x(bench, op, row))
    elif op.motion in (Motion.SPOT, Motion.MOUTH):
        _agrees(op, "depth", op.rows[-1].depth, _z(bench, op, op.rows[-1]))
    if op.motion is Motion.TURN:
        _shoulder(bench, plan, op, before)
        _springs(plan, op)
    _whole(plan, op)
    _pecks(op)


def _shoulder(bench: Bench, plan: Plan, op: Operation, before: Work) -> None:
    """A finishing cut finds no more metal at its shoulder than roughing is to leave there."""
    row = next((row for row in op.rows if row.kind is RowKind.FINISH), None)
    if row is None:
        return
    dial, stop = dial_of(bench, op, op.z_dial), _z(bench, op, row)
    left = up(dial, min(SHOULDER, plan.part.segment(op.feature).length.nominal / 10.0))
    place = frame_of(plan.setup(op.setup), before).z(stop - left - dial.step)
    standing = plan.part.rod.nominal / 2.0 - radius_at(before.outer, place)
    if standing < _begin(bench, plan, op, before) - AGREES:
        raise ReplayFault(
            op.id, "roughing stopped short of the shoulder: the finishing cut is too deep there"
        )


def _springs(plan: Plan, op: Operation) -> None:
    """A spring pass repeats the row above it; they follow where the work bends too much, and only there."""
    for above, row in pairwise(op.rows):
        if row.kind is RowKind.SPRING and (row.x, row.z, row.diameter, row.at, row.depth) != (
            above.x, above.z, above.diameter, above.at, 0.0,
        ):  # fmt: skip
            raise ReplayFault(op.id, "a spring pass is not the cut above it, with nothing fed in")
    asked = int(plan.shop.house.spring_passes) if too_much(op.figure("bending")) else 0
    kinds = [row.kind for row in op.rows if row.kind is not RowKind.TOUCH]
    last = [kind for kind in kinds if kind is not RowKind.SPRING]
    if kinds != [one for kind in last for one in (kind, *[RowKind.SPRING] * asked)]:
        raise ReplayFault(op.id, f"the bending of the work asks for {asked} spring passes behind each cut")


def _begin(bench: Bench, plan: Plan, op: Operation, before: Work) -> float:
    """Travel of the cross slide at which the first cut meets metal, mm."""
    if op.motion is not Motion.TURN:
        return _x(bench, op, op.rows[0])
    a, b = plan.part.span(op.feature)
    return plan.part.rod.nominal / 2.0 - radius_at(before.outer, (a + b) / 2.0)


def settable(op: Operation, dial: Dial, at: Reading, most: float) -> None:
    """A hand can set it: it is the one way to write its travel on this dial, and no more than `most`, mm.

    Raises:
        ReplayFault: it is not.
    """
    far = travel(dial, at)
    if far < -AGREES or at.turns < 0 or not 0.0 <= at.divisions < dial.divisions:
        raise ReplayFault(
            op.id, f"{at.turns} turns and {at.divisions:g} divisions is no reading of the {dial.axis}"
        )
    if reading(dial, far) != at:
        raise ReplayFault(
            op.id, f"the {dial.axis} has no line at {at.turns} turns and {at.divisions:g} divisions"
        )
    if far > most + AGREES:
        raise ReplayFault(op.id, f"the {dial.axis} has {most:.1f} mm of travel, {far:.1f} mm is asked")


def _x(bench: Bench, op: Operation, row: Row) -> float:
    return travel(dial_of(bench, op, op.x_dial), row.x) if row.x is not None else 0.0


def _z(bench: Bench, op: Operation, row: Row) -> float:
    return travel(dial_of(bench, op, op.z_dial), row.z) if row.z is not None else 0.0


def _agrees(op: Operation, what: str, printed: float | None, made: float) -> None:
    if printed is None or abs(printed - made) > AGREES:
        shown = "nothing" if printed is None else f"{printed:.3f} mm"
        raise ReplayFault(op.id, f"the readings make a {what} of {made:.3f} mm, the row says {shown}")


def _zero(bench: Bench, plan: Plan, op: Operation) -> None:
    """A collar is zero where it is touched; a cross slide that counts from the bar keeps counting from it."""
    for row in op.rows:
        if row.kind is not RowKind.TOUCH:
            continue
        if op.motion in DRILLING:  # the point stands in a spot or a pilot hole; the replay knows how deep
            _agrees(op, "depth where the point touches", row.at, _z(bench, op, row))
            continue
        if abs(_z(bench, op, row)) > AGREES:
            raise ReplayFault(op.id, "the lengthwise collar is not set to zero where it touches")
        if op.motion is not Motion.CHAMFER and row.at != 0.0:
            raise ReplayFault(op.id, "touches a face that is not the zero of its lengths")
        if row.x is not None:
            bored = op.motion is Motion.BORE or any(hole.id == op.feature for hole in plan.part.holes)
            from_bar = 0.0 if bored else (plan.part.rod.nominal - (row.diameter or 0.0)) / 2.0
            if abs(_x(bench, op, row) - from_bar) > AGREES:
                raise ReplayFault(op.id, "the cross slide does not count from the bar")
        if row.diameter is None and row.touch and op.motion is not Motion.CHAMFER:
            raise ReplayFault(op.id, "touches a surface whose size is not told")


def _chain(op: Operation, cuts: list[Row], at: list[float], begin: float) -> None:
    """Depth of each cut is what the slide advances from the row above it; nothing is cut backwards."""
    last = begin
    for row, here in zip(cuts, at, strict=True):
        if row.kind not in CUTS:
            continue
        _agrees(op, "depth of cut", row.depth, here - last)
        if here < last - AGREES:
            raise ReplayFault(op.id, f"winds back from {last:.3f} to {here:.3f} mm and cuts nothing")
        last = here


def _whole(plan: Plan, op: Operation) -> None:
    """Sizes that are worked to by gauge or by feel, with no dial behind them."""
    if op.motion in (Motion.ROUND, Motion.DOME):
        segment = plan.part.segment(op.feature)
        edge = segment.front if op.end is End.FRONT else segment.back
        _agrees(op, "edge", op.rows[-1].depth, edge.size.aim if edge is not None else 0.0)
    elif op.motion is Motion.DEBURR:
        _agrees(op, "broken edge", op.rows[-1].depth, plan.shop.house.deburr_edge)
    elif op.motion is Motion.CHASE and op.rows[-1].turns is not None:
        raise ReplayFault(op.id, "a tap that is run through again counts no turns")


def _pecks(op: Operation) -> None:
    """A drill goes deeper at every row, and a chip is broken at least every few diameters."""
    if op.motion not in (Motion.DRILL, Motion.CROSS_DRILL):
        return
    at = [row.at or 0.0 for row in op.rows]
    if any(b <= a for a, b in pairwise(at)):
        raise ReplayFault(op.id, "a peck is no deeper than the one before it")
