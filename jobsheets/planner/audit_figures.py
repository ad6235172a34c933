"""Each figure of a plan worked out again from what stands beside it, and held against its machine.

A sheet prints a figure, the row that uses it and the limits that prove it; the three must tell one number.
"""

from collections.abc import Callable
from math import inf, isclose, pi

from jobsheets.cutting.drill import point_length
from jobsheets.figure import Figure
from jobsheets.part.turned import Edge, EdgeKind, End, TurnedPart
from jobsheets.planner import drill_force, rigidity
from jobsheets.planner.blanks import blank_size
from jobsheets.planner.operation import Motion, Operation, Place, Plan, RowKind
from jobsheets.planner.replay_frame import AGREES, Bench, ReplayFault, dial_of
from jobsheets.planner.setting import down
from jobsheets.planner.stopping import cranked, fastest
from jobsheets.shop.machines import Lathe, Mill
from jobsheets.standards import materials, tap_drills
from jobsheets.standards.thread_percent import Basis, full_depth

BY_HAND = (Motion.TAP, Motion.DIE, Motion.CHASE, Motion.DEBURR)  # the spindle is turned by hand or not at all
BENDING = 1e-9  # mm; a taper is far smaller than what a dial shows
ALONG = (Motion.TURN, Motion.BORE, Motion.DOME)


def figures(plan: Plan, op: Operation) -> None:
    """Speed, feed, depth and sizes of one operation.

    Raises:
        ReplayFault: a figure that the machine, a row or its own formula contradicts.
    """
    if op.motion not in BY_HAND and not cranked(plan, op):
        _speed(plan, op)
    feed = op.figure("feed")
    if feed is not None:
        _feed(plan, op, feed)
    _deepest(plan, op)
    for figure in op.figures:
        local = figure.id.rsplit(".", 1)[-1]
        work_out = _AGAIN.get(local)
        if work_out is None:
            continue
        again = work_out(plan, op, figure)
        slack = BENDING if local == "bending" else AGREES
        if not isclose(figure.value, again, rel_tol=1e-6, abs_tol=slack):
            raise ReplayFault(
                op.id, f"{figure.name} is {again:.4f} {figure.unit}; {figure.value:.4f} is printed"
            )


def exists(machine: Lathe | Mill, rpm: float) -> bool:
    """Whether a machine has a speed: a step of its belts or gears, or a mark of a stepless drive's scale."""
    if any(isclose(step.rpm, rpm, rel_tol=1e-9) for step in machine.speeds):
        return True
    for one in machine.ranges:
        marks = rpm / one.step
        on_a_mark = abs(marks - round(marks)) < 1e-6 or rpm in (one.least, one.most)
        if one.least <= rpm <= one.most and on_a_mark:
            return True
    return False


def _machine(plan: Plan, op: Operation) -> Lathe | Mill:
    if op.place is Place.MILL and plan.shop.mill is not None:
        return plan.shop.mill
    return plan.shop.lathe


def _speed(plan: Plan, op: Operation) -> None:
    """The speed exists, and cut, chuck and collet allow it, unless the machine has none slower."""
    figure, machine = op.figure("speed"), _machine(plan, op)
    if figure is None:
        raise ReplayFault(op.id, "runs under power and has no speed")
    if not exists(machine, figure.value):
        raise ReplayFault(op.id, f"the {machine.name} has no speed of {figure.value:g} rev/min")
    offered = [s.rpm for s in machine.speeds] + [r.least for r in machine.ranges]
    slowest = min(offered)
    given = {i.name: i.value for i in figure.inputs}
    cut, across = given.get("v"), given["d"]
    wanted = 1000.0 * float(cut) / (pi * float(across)) if cut is not None else slowest
    most = plan.setup(op.setup).holding.max_rpm if op.place is Place.LATHE else inf
    allowed = min(wanted, most, fastest(op))
    if figure.value > max(allowed * (1.0 + 1e-6), slowest):
        raise ReplayFault(op.id, f"{figure.value:g} rev/min is above the {allowed:.0f} rev/min allowed")
    faster = [s.rpm for s in machine.speeds if figure.value * (1.0 + 1e-9) < s.rpm <= allowed]
    if faster and op.place is Place.LATHE and not machine.ranges:
        raise ReplayFault(op.id, f"{max(faster):g} rev/min comes nearer to the {allowed:.0f} rev/min allowed")


def _feed(plan: Plan, op: Operation, feed: Figure) -> None:
    powered = any(i.name == "by" and i.value == "power" for i in feed.inputs)
    if powered and not any(isclose(feed.value, f, rel_tol=1e-9) for f in plan.shop.lathe.power_feeds):
        raise ReplayFault(op.id, f"the lathe has no power feed of {feed.value:.4f} mm/rev")
    if not powered and feed.wanted is not None and not isclose(feed.value, feed.wanted, rel_tol=1e-9):
        raise ReplayFault(op.id, f"a hand feed of {feed.wanted:.4f} mm/rev is printed as {feed.value:.4f}")
    if feed.wanted is not None and feed.value > feed.wanted * (1.0 + 1e-9):
        raise ReplayFault(op.id, f"feed {feed.value:.4f} mm/rev is above the {feed.wanted:.4f} wanted")


def _deepest(plan: Plan, op: Operation) -> None:
    """The deepest roughing cut is what ruled it, on a line of the dial, and no row goes deeper."""
    figure = op.figure("depth_of_cut")
    if figure is None:
        return
    dial = dial_of(Bench(plan.part, plan.shop), op, op.z_dial if op.motion is Motion.FACE else op.x_dial)
    ruled = _inputs(figure).get(figure.ruled_by)
    if ruled is None or not isclose(figure.value, max(down(dial, ruled), dial.step), abs_tol=AGREES):
        raise ReplayFault(op.id, f"{figure.value:.3f} mm is not the {figure.ruled_by}, on a line of the dial")
    for row in op.rows:
        if row.kind is RowKind.ROUGH and (row.depth or 0.0) > figure.value + dial.step / 2.0 + AGREES:
            raise ReplayFault(op.id, f"a cut of {row.depth:.3f} mm where {figure.value:.3f} mm is the most")


Again = Callable[[Plan, Operation, Figure], float]


def _inputs(figure: Figure) -> dict[str, float]:
    return {i.name: float(i.value) for i in figure.inputs if not isinstance(i.value, str)}


def _edge(part: TurnedPart, op: Operation) -> Edge | None:
    segment = part.segment(op.feature)
    return segment.front if op.end is End.FRONT else segment.back


def _last_diameter(plan: Plan, op: Operation, figure: Figure) -> float:
    return op.rows[-1].diameter or 0.0


def _last_depth(plan: Plan, op: Operation, figure: Figure) -> float:
    """Of the last row that feeds in: a spring pass does not."""
    return next((row.depth or 0.0 for row in reversed(op.rows) if row.kind is not RowKind.SPRING), 0.0)


def _tip(plan: Plan, op: Operation, figure: Figure) -> float:
    given, cutter = _inputs(figure), op.cutter
    point = point_length(cutter.diameter, cutter.point) if cutter.point < 180.0 else 0.0
    if (
        not isclose(point, given["point"], abs_tol=AGREES)
        or (op.rows[-1].at or 0.0) < given["full diameter to"] + point - AGREES
    ):
        raise ReplayFault(op.id, "the depth does not hold the full diameter and the point of the drill")
    return op.rows[-1].at or 0.0


def _turns(plan: Plan, op: Operation, figure: Figure) -> float:
    return op.rows[-1].turns or 0.0


def _place(plan: Plan, op: Operation, figure: Figure) -> float:
    return op.rows[-1].at or 0.0


def _faced(plan: Plan, op: Operation, figure: Figure) -> float:
    return _inputs(figure)["parted length"] - (op.rows[-1].at or 0.0)


def _ball(plan: Plan, op: Operation, figure: Figure) -> float:
    edge, base = _edge(plan.part, op), _inputs(figure)["r"]
    high = edge.size.aim if edge is not None and edge.kind is EdgeKind.DOME else 0.0
    return (base * base + high * high) / (2.0 * high) if high else 0.0


def _blank(plan: Plan, op: Operation, figure: Figure) -> float:
    size = blank_size(plan.part.segment(op.feature))
    return size.aim if size is not None else 0.0


def _teeth(plan: Plan, op: Operation, figure: Figure) -> float:
    knurl = next(k for k in plan.part.knurls if k.id == op.feature)
    return pi * (op.rows[0].diameter or 0.0) / knurl.pitch


def _reversal(plan: Plan, op: Operation, figure: Figure) -> float:
    return 1.0 if figure.value > 0.75 else 0.5  # a whole turn, or half of one


def _percent(plan: Plan, op: Operation, figure: Figure) -> float:
    given = _inputs(figure)
    thread = next(hole.thread for hole in plan.part.holes if hole.id == op.feature)
    if thread is None or not isclose(given["T"], full_depth(thread.thread, Basis.US), rel_tol=1e-9):
        raise ReplayFault(op.id, "the full depth of its thread is another")
    return tap_drills.percent(
        thread.thread.major, thread.thread.pitch, op.cutter.diameter, given["T"] / thread.thread.pitch
    )


def _force(plan: Plan, op: Operation, figure: Figure) -> float:
    """The chip of the deepest row or of the blade, at the feed that is printed."""
    given = _inputs(figure)
    per_turn = op.figure("feed")
    if per_turn is None or not isclose(given["f"], max(per_turn.value, rigidity.THINNEST), abs_tol=AGREES):
        raise ReplayFault(op.id, "its force is worked out at another feed than the printed one")
    blade = op.motion in (Motion.GROOVE, Motion.PART_OFF)
    deepest = op.cutter.width if blade else max((row.depth or 0.0 for row in op.rows), default=0.0)
    return given["kc"] * deepest * given["f"] * given["K, wear and tool"]


def _power(plan: Plan, op: Operation, figure: Figure) -> float:
    """From force or torque at the printed speed."""
    machine, speed = _machine(plan, op), op.figure("speed")
    rpm = speed.value if speed is not None else 0.0
    moment = op.figure("torque")
    if moment is None:
        main, across = op.figure("force"), 1000.0 * _inputs(figure)["v"] / (pi * max(rpm, 1e-9))
        newton_metres = (main.value if main is not None else 0.0) * across / 2000.0
    else:
        newton_metres = moment.value
    return newton_metres * 2.0 * pi * rpm / 60.0 / machine.efficiency


def _torque(plan: Plan, op: Operation, figure: Figure) -> float:
    material, feed = materials.find(plan.part.material), op.figure("feed")
    if feed is not None:
        return drill_force.torque(material, op.cutter, feed.value)[0]
    given = _inputs(figure)
    return drill_force.tap_torque(material, given["p"], op.cutter.diameter).value


def _thrust(plan: Plan, op: Operation, figure: Figure) -> float:
    feed, speed = op.figure("feed"), op.figure("speed")
    if feed is None or speed is None:
        return 0.0
    again = drill_force.figures(
        materials.find(plan.part.material), op.cutter, feed, speed, _machine(plan, op)
    )
    return again[-1].value


def _bending(plan: Plan, op: Operation, figure: Figure) -> float:
    given = _inputs(figure)
    return 2.0 * given["Fp"] * (given["c_most"] - given["c_least"])


_AGAIN: dict[str, Again] = {
    "force": _force,
    "power": _power,
    "torque": _torque,
    "thrust": _thrust,
    "bending": _bending,
    "diameter": _last_diameter,
    "finish_depth": _last_depth,
    "depth": _tip,
    "turns": _turns,
    "parting_place": _place,
    "length": _faced,
    "ball_radius": _ball,
    "blank": _blank,
    "teeth": _teeth,
    "percent": _percent,
    "reversal": _reversal,
}
