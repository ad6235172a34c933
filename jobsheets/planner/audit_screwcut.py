"""A screwcut thread held against itself: gears, figures, passes, wires and run-out tell one thread.

The replay proves the depth and the place; here the numbers that no cut shows are worked out again.
"""

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from math import isclose, radians, sin, sqrt, tan

from jobsheets.cutting import gear_train
from jobsheets.cutting.banjo import Banjo
from jobsheets.cutting.gear_train import Train
from jobsheets.cutting.screwcutting import dial_every, stopping_speed
from jobsheets.figure import Figure
from jobsheets.part.size import Size
from jobsheets.part.turned import ThreadSpec
from jobsheets.part.work import Work
from jobsheets.planner.operation import Gearing, HoldPoint, Motion, Operation, Plan, RowKind
from jobsheets.planner.replay_frame import AGREES, Bench, ReplayFault, dial_of
from jobsheets.planner.replay_screwcut import beyond
from jobsheets.planner.stopping import cranked
from jobsheets.shop.dials import travel
from jobsheets.shop.machines import LeadScrew
from jobsheets.standards import threads
from jobsheets.standards.thread_depth import pitch_dia_made
from jobsheets.standards.thread_form import lead_angle, over_wires

LINE_ROOM = 0.02  # mm; a shoulder stands where a line of the dial puts it


def screwcut(plan: Plan, op: Operation, before: Work) -> None:
    """Every number of a scratch pass or of the passes of a thread.

    Args:
        plan: for shop and part.
        op: whose.
        before: the work as the operation finds it.

    Raises:
        ReplayFault: naming the number that contradicts another.
    """
    screw, spec = plan.shop.lathe.leadscrew, spec_of(plan, op)
    if screw is None or spec is None:
        raise ReplayFault(op.id, "there is no leadscrew, or no thread to cut")
    if op.motion is Motion.SCRATCH:
        _gearing(op, screw, spec)
        _same_place(plan, op)
    else:
        _cuts(plan, op)
    for figure in op.figures:
        again = _AGAIN.get(figure.id.rsplit(".", 1)[-1])
        made = figure.value if again is None else again(plan, op, figure)
        if not isclose(figure.value, made, rel_tol=1e-9):
            raise ReplayFault(
                op.id, f"{figure.name} is {made:.4f}; {figure.value:.4f} {figure.unit} is printed"
            )
    _room(plan, op, before)


def spec_of(plan: Plan, op: Operation) -> ThreadSpec | None:
    hole = next((h for h in plan.part.holes if h.id == op.feature), None)
    return hole.thread if hole is not None else plan.part.segment(op.feature).thread


def _gearing(op: Operation, screw: LeadScrew, spec: ThreadSpec) -> None:
    gearing = op.gearing
    if gearing is None:
        raise ReplayFault(op.id, "tells no change gears")
    used = Counter((*gearing.gears, gearing.idler) if gearing.idler else gearing.gears)
    if used - Counter(screw.gears):
        raise ReplayFault(op.id, f"uses gears that are not owned: {sorted(used - Counter(screw.gears))}")
    train = Train(gears=gearing.gears, idler=gearing.idler)
    if screw.banjo is not None and not _fits(train, screw.banjo):
        raise ReplayFault(op.id, "the train does not fit the banjo")
    cut = gear_train.lead_cut(train.ratio, screw.pitch, screw.stud)
    if not isclose(gearing.cut, cut, rel_tol=1e-9) or not isclose(gearing.wanted, spec.lead, rel_tol=1e-9):
        raise ReplayFault(op.id, f"the train cuts {cut:.5f} mm for {spec.lead:.5f}: another is printed")
    every = dial_every(
        train.ratio * Fraction(screw.stud).limit_denominator(1000),
        screw.dial_teeth or 1,
        screw.dial_marks or 1,
    )
    if gearing.every != (every if screw.dial_teeth is not None or every == 0 else None):
        raise ReplayFault(op.id, "the thread dial says another mark")


def _fits(train: Train, banjo: Banjo) -> bool:
    if len(train.gears) == 2:
        return gear_train.fits_simple(train.gears[0], train.idler, train.gears[1], banjo)
    a, b, c, d = train.gears
    return gear_train.fits_compound(a, b, c, d, banjo)


def _same_place(plan: Plan, op: Operation) -> None:
    """The scratch pass ends where the thread will: it proves the stop as well as the pitch."""
    passes = next(
        (o for o in plan.operations if o.motion is Motion.SCREWCUT and o.feature == op.feature), None
    )
    if passes is not None and op.rows[-1].at != passes.rows[-1].at:
        raise ReplayFault(op.id, "the scratch pass ends in another place than the thread")


def _cuts(plan: Plan, op: Operation) -> None:
    """No pass is deeper than the first may be, save one line of a coarse dial; spring passes follow."""
    limit = op.figure("first_cut")
    if limit is None:
        raise ReplayFault(op.id, "tells no limit of its first pass")
    dial = dial_of(Bench(plan.part, plan.shop), op, op.z_dial if op.rows[1].x is None else op.x_dial)
    for row in op.rows[1:]:
        if (row.depth or 0.0) > max(limit.value, dial.step) + AGREES:
            raise ReplayFault(op.id, f"a pass of {row.depth:.3f} mm where {limit.value:.3f} mm is the most")
    springs = sum(row.kind is RowKind.SPRING for row in op.rows)
    if springs != int(plan.shop.house.spring_passes):
        raise ReplayFault(op.id, f"{springs} spring passes; the house rule says otherwise")


def _room(plan: Plan, op: Operation, before: Work) -> None:
    """The room to stop in is there: from the end of the passes to where the tool would strike."""
    most = op.figure("stopping_speed")
    if most is None:
        raise ReplayFault(op.id, "tells no speed at which it can be stopped")
    swivel, last = op.figure("swivel"), op.rows[-1]
    bench = Bench(plan.part, plan.shop)
    shift = travel(dial_of(bench, op, op.z_dial), last.z) if last.z is not None else 0.0
    if swivel is not None:
        shift *= sin(radians(swivel.value))
    wall = beyond(bench, plan.setup(op.setup), op, before)
    there = wall - (last.at or 0.0) - shift - op.cutter.side
    if _inputs(most)["room"] > there + LINE_ROOM:
        raise ReplayFault(
            op.id, f"{there:.2f} mm are left to stop in; {_inputs(most)['room']:.2f} is counted on"
        )
    speed = op.figure("speed")
    if speed is None and not cranked(plan, op):
        raise ReplayFault(op.id, "the lathe has a speed that is slow enough, and none is printed")


Again = Callable[[Plan, Operation, Figure], float]


def _inputs(figure: Figure) -> dict[str, float]:
    return {i.name: float(i.value) for i in figure.inputs if not isinstance(i.value, str)}


def _spec(plan: Plan, op: Operation) -> ThreadSpec:
    spec = spec_of(plan, op)
    assert spec is not None
    return spec


def _stopping(plan: Plan, op: Operation, figure: Figure) -> float:
    return stopping_speed(_inputs(figure)["room"], _spec(plan, op).lead, plan.shop.house.reaction_time)


def _train(op: Operation) -> Gearing:
    if op.gearing is None:
        raise ReplayFault(op.id, "tells no change gears")
    return op.gearing


def _ratio(plan: Plan, op: Operation, figure: Figure) -> float:
    return float(Train(gears=_train(op).gears).ratio)


def _lead_error(plan: Plan, op: Operation, figure: Figure) -> float:
    gearing = _train(op)
    return (gearing.cut / gearing.wanted - 1.0) * gearing.engaged


def _depth(plan: Plan, op: Operation, figure: Figure) -> float:
    return sum(row.depth or 0.0 for row in op.rows[1:])


def _swivel(plan: Plan, op: Operation, figure: Figure) -> float:
    half = _spec(plan, op).thread.angle / 2.0
    wish = plan.shop.house.thread_swivel
    return wish if wish <= half else half - 0.5


def _first(plan: Plan, op: Operation, figure: Figure) -> float:
    given = _inputs(figure)
    flank = tan(radians(_spec(plan, op).thread.angle / 2.0))
    chip = sqrt(given["depth of a roughing cut"] * given["feed of a roughing cut"] / flank)
    return max(min(chip, plan.shop.house.thread_first_cut), given["least chip"])


def pitch_diameter(plan: Plan, op: Operation) -> float:
    """Pitch diameter that the passes make on the diameter that they touch, mm."""
    hole = any(h.id == op.feature for h in plan.part.holes)
    deep = sum(row.depth or 0.0 for row in op.rows[1:])
    start = op.rows[0].diameter or 0.0
    return pitch_dia_made(
        _spec(plan, op).thread, start, deep, flat=op.cutter.flat, radius=op.cutter.nose, inside=hole
    )


def _over_wires(plan: Plan, op: Operation, figure: Figure) -> float:
    return _reading(plan, op, figure, pitch_diameter(plan, op))


def _reading(plan: Plan, op: Operation, figure: Figure, pitch_dia: float) -> float:
    wire, spec = _inputs(figure)["W"], _spec(plan, op)
    if not any(isclose(wire, w) for g in plan.shop.tooling.gauges for w in g.wires):
        raise ReplayFault(op.id, f"wires of {wire:.3f} mm are not owned")
    climb = lead_angle(pitch_diameter(plan, op), spec.lead)
    return over_wires(pitch_dia, spec.thread.pitch, wire, spec.thread.angle, climb)


def wires(plan: Plan, op: Operation, hold: HoldPoint) -> Size:
    """Limits of a reading over wires, from the limits of the pitch diameter; its aim is checked here too.

    Raises:
        ReplayFault: no figure tells of the wires, or the aim is not what the passes make.
    """
    figure, spec = op.figure("over_wires"), _spec(plan, op)
    if figure is None:
        raise ReplayFault(op.id, "a reading over wires that no figure tells of")
    if abs(hold.aim - figure.value) > AGREES:
        raise ReplayFault(op.id, f"aims at {hold.aim:.4f} mm over wires, the passes make {figure.value:.4f}")
    limits = threads.limits(spec.thread, spec.tolerance_class)
    low, high = (_reading(plan, op, figure, e) for e in (limits.pitch_min, limits.pitch_max))
    return Size(nominal=figure.value, low=low, high=high, limits=spec.tolerance_class)


_AGAIN: dict[str, Again] = {
    "stopping_speed": _stopping,
    "gear_ratio": _ratio,
    "lead_error": _lead_error,
    "thread_depth": _depth,
    "swivel": _swivel,
    "path": _swivel,
    "first_cut": _first,
    "over_wires": _over_wires,
}
