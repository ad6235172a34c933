"""One operation of a plan as display values: speed as a belt, feed as a hand pace, rows as dial readings."""

from collections.abc import Mapping

from jobsheets.finding import Finding, Severity
from jobsheets.planner.operation import (
    HoldPoint,
    Motion,
    Operation,
    Place,
    Plan,
    Row,
    RowKind,
)
from jobsheets.sheet import view_numbers
from jobsheets.sheet.view_front import tool_name
from jobsheets.sheet.view_numbers import Numbers
from jobsheets.sheet.view_values import (
    BecauseView,
    CautionView,
    DialCell,
    DialColumn,
    FindingView,
    HoldView,
    OperationView,
    RowView,
)
from jobsheets.shop.dials import Reading
from jobsheets.shop.machines import Dial, Lathe, Mill, Reads, SpeedRange, SpeedStep
from jobsheets.standards import hazards

BY_HAND = frozenset({Motion.TAP, Motion.DIE, Motion.CHASE, Motion.DEBURR})
OUTWARD = frozenset({Motion.BORE})
WORD = {
    RowKind.TOUCH: "touch",
    RowKind.ROUGH: "rough",
    RowKind.MEASURE: "measure",
    RowKind.FINISH: "finish",
    RowKind.PLUNGE: "plunge",
    RowKind.STEP: "step",
    RowKind.PECK: "peck",
    RowKind.DEPTH: "to depth",
    RowKind.TURNS: "turns",
}
INTERIM = frozenset({RowKind.ROUGH, RowKind.MEASURE, RowKind.STEP, RowKind.PECK})
FINAL = frozenset({RowKind.FINISH, RowKind.DEPTH, RowKind.TURNS})


def dials(plan: Plan, place: Place) -> dict[str, Dial]:
    """Handwheels of the machine of a place, by the name of their axis."""
    found: tuple[Dial | None, ...] = ()
    if place is Place.LATHE:
        lathe = plan.shop.lathe
        found = (lathe.cross, lathe.carriage, lathe.top_slide, lathe.quill.dial)
    elif place is Place.MILL and plan.shop.mill is not None:
        mill = plan.shop.mill
        found = (mill.table_x, mill.table_y, mill.quill)
    return {dial.axis: dial for dial in found if dial is not None}


def direction(axis: str, place: Place, motion: Motion) -> tuple[str, str]:
    """Arrow and word of the way a handle comes in to its reading, as the maker stands at the machine."""
    if place is Place.MILL:
        return ("↓", "down") if axis == "quill" else ("→", "always the same way")
    if axis == "cross slide":
        return ("↓", "outward") if motion in OUTWARD else ("↑", "inward")
    return "←", "toward the chuck"


def view(
    plan: Plan,
    op: Operation,
    numbers: Numbers,
    cautions: tuple[CautionView, ...],
    findings: tuple[FindingView, ...],
    given: set[str],
) -> OperationView:
    """Display values of an operation; `cautions` and `findings` are those printed before it.

    `given` holds the reasons that earlier operations have printed; those of this one are added.
    """
    have = dials(plan, op.place)
    say = numbers.said
    position, speed = _speed(plan, op)
    feed, pace, axis = _feed(op, have, numbers)
    return OperationView(
        number=f"{op.number}",
        title=say(op.title),
        tool="" if op.cutter.name in op.title else say(tool_name(op.cutter.group, op.cutter.name)),
        consequence=say(op.cutter.consequence),
        position=position,
        speed=speed,
        by_hand=op.motion in BY_HAND,
        feed=feed,
        feed_unit=f"{numbers.system}/rev" if feed else "",
        pace=pace,
        pace_axis=axis,
        cautions=cautions,
        findings=findings,
        hints=tuple(map(say, op.hints)),
        why=say(_new(op.why, given)),
        because=because(plan, op, numbers, given),
        x=_column(op, op.x_dial, have, any(row.x for row in op.rows)),
        z=_column(op, op.z_dial, have, any(row.z for row in op.rows)),
        rows=tuple(_row(op, row, have, numbers) for row in op.rows),
        holds=tuple(hold(point, numbers) for point in op.holds),
    )


def because(plan: Plan, op: Operation, numbers: Numbers, given: set[str]) -> tuple[BecauseView, ...]:
    """Why this operation stands where it does: each reason once a sheet, with the numbers it must follow."""
    number = {other.id: other.number for other in plan.operations}
    reasons: dict[str, list[int]] = {}
    for edge in plan.order:
        if edge.after == op.id and edge.before in number:
            reasons.setdefault(edge.why, []).append(number[edge.before])
    return tuple(
        BecauseView(before=", ".join(map(str, sorted(before))), why=numbers.said(why))
        for why, before in reasons.items()
        if _new(why, given)
    )


def _new(reason: str, given: set[str]) -> str:
    if reason in given:
        return ""
    given.add(reason)
    return reason


def cautions_for(kinds: tuple[str, ...], numbers: Numbers, printed: set[str]) -> tuple[CautionView, ...]:
    """Cautions of the kinds that no earlier step of the setup has printed; adds them to `printed`."""
    found = []
    for kind in kinds:
        for caution in hazards.for_operation(kind):
            if caution.text not in printed:
                printed.add(caution.text)
                found.append(CautionView(text=numbers.quoted(caution.text), document=caution.document))
    return tuple(found)


def finding(value: Finding, numbers: Numbers) -> FindingView:
    say = numbers.said
    return FindingView(
        severity=value.severity.value, what=say(value.what), why=say(value.why), remedy=say(value.remedy)
    )


def findings_by_step(plan: Plan) -> Mapping[str, tuple[Finding, ...]]:
    """Cautions by the id of the operation or setup they guard.

    One about a feature stands before the first operation on it.
    """
    first = {op.feature: op.id for op in reversed(plan.operations)}
    ids = {op.id for op in plan.operations} | {setup.id for setup in plan.setups}
    result: dict[str, list[Finding]] = {}
    for value in plan.findings:
        step = value.where if value.where in ids else first.get(value.where)
        if value.severity is Severity.CAUTION and step is not None:
            result.setdefault(step, []).append(value)
    return {step: tuple(values) for step, values in result.items()}


def hold(point: HoldPoint, numbers: Numbers) -> HoldView:
    tried = point.unit == "fit"
    low, high = ("", "") if tried else numbers.both(point.low, point.high)
    return HoldView(
        what=numbers.said(point.what),
        high=high,
        low=low,
        aim="" if tried else numbers.length(point.aim),
        unit="" if tried else numbers.system,
        gauge=numbers.said(point.gauge),
        over=numbers.said(point.if_over),
        under=numbers.said(point.if_under),
        final=point.final,
    )


def _speed(plan: Plan, op: Operation) -> tuple[str, str]:
    """Belt or lever position and rev/min; two empty texts where the spindle is not driven."""
    figure = op.figure("speed")
    if figure is None or op.motion in BY_HAND:
        return "", ""
    machine: Lathe | Mill | None = plan.shop.lathe if op.place is Place.LATHE else plan.shop.mill
    if machine is None:
        return "", f"{figure.value:.0f}"
    steps: tuple[SpeedStep, ...] = machine.speeds
    ranges: tuple[SpeedRange, ...] = machine.ranges
    position = next((s.position for s in steps if abs(s.rpm - figure.value) < 0.5), "")
    position = position or next((r.position for r in ranges if r.least <= figure.value <= r.most), "")
    return position, f"{figure.value:.0f}"


def _feed(op: Operation, have: dict[str, Dial], numbers: Numbers) -> tuple[str, str, str]:
    """Feed per rev, seconds a turn, and the handwheel that is turned."""
    feed, speed = op.figure("feed"), op.figure("speed")
    if feed is None:
        return "", "", ""
    # Facing, parting and grooving feed across; all else along the axis.
    across = op.motion in {Motion.FACE, Motion.PART_OFF, Motion.GROOVE}
    axis = "cross slide" if across and "cross slide" in have else op.z_dial
    dial = have.get(axis)
    if dial is None or speed is None:
        return numbers.per_rev(feed.value), "", ""
    return numbers.per_rev(feed.value), view_numbers.pace(dial, feed.value, speed.value), axis


def _column(op: Operation, axis: str, have: dict[str, Dial], used: bool) -> DialColumn | None:
    if not used or axis not in have:
        return None
    arrow, _ = direction(axis, op.place, op.motion)
    return DialColumn(axis=axis, arrow=arrow)


def _row(op: Operation, row: Row, have: dict[str, Dial], numbers: Numbers) -> RowView:
    final = row.kind in FINAL or (row.kind is RowKind.PLUNGE and op.motion is Motion.GROOVE)
    state = "interim" if row.kind in INTERIM else "final" if final else ""
    return RowView(
        kind=WORD[row.kind],
        under=_under(row, numbers),
        x=_cell(row, row.x, have.get(op.x_dial), numbers),
        z=_cell(row, row.z, have.get(op.z_dial), numbers),
        diameter="" if row.diameter is None else numbers.length(row.diameter),
        diameter_under="" if row.diameter is None else state or ("stands" if row.diameter else "centre"),
        at="" if row.at is None else _at(row.at, row, numbers),
        at_under="" if row.at is None else state or "from zero",
        turns="" if row.turns is None else view_numbers.half(row.turns),
        box=row.box and not (op.holds and final),  # a final size has its box at the hold point
    )


def _at(mm: float, row: Row, numbers: Numbers) -> str:
    """A depth that comes from counted turns is no finer than a caliper."""
    return numbers.plain(mm) if row.kind is RowKind.TURNS else numbers.length(mm)


def _under(row: Row, numbers: Numbers) -> str:
    if row.kind is RowKind.TOUCH:
        return row.touch or ("the end" if row.z is not None else "")
    if row.depth is None:
        return ""
    return f"cut {numbers.length(row.depth)}"


def _cell(row: Row, value: Reading | None, dial: Dial | None, numbers: Numbers) -> DialCell | None:
    if value is None or dial is None:
        return None
    turns, divisions, collar = view_numbers.reading(numbers, dial, value)
    parts = ["set collar" if row.kind is RowKind.TOUCH else f"reads {collar}" if collar else ""]
    parts.append("" if dial.reads is Reads.TRAVEL else view_numbers.reads(dial))
    return DialCell(
        turns=turns,
        turns_word=view_numbers.turns_word(value.turns),
        divisions=divisions,
        unit="div" if value.value is None else numbers.system,
        under=", ".join(filter(None, parts)),
    )
