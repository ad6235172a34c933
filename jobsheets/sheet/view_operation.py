"""One operation of a plan as display values: speed as a belt, feed as a hand pace, rows as dial readings."""

from collections.abc import Iterable, Mapping

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
    TouchView,
)
from jobsheets.shop.dials import Reading
from jobsheets.shop.machines import Dial, Lathe, Mill, SpeedRange, SpeedStep
from jobsheets.standards import hazards

BY_HAND = frozenset({Motion.TAP, Motion.DIE, Motion.CHASE, Motion.DEBURR})
OUTWARD = frozenset({Motion.BORE})
# Facing, parting and grooving feed across; all else along the axis.
ACROSS = frozenset({Motion.FACE, Motion.PART_OFF, Motion.GROOVE})
PLUNGING = frozenset({Motion.PART_OFF, Motion.GROOVE})
END = {  # what the tool touches to set its zero lengthwise, and with which part of it
    Motion.CHAMFER: "the corner of the {} with the middle of the 45° edge",
    Motion.MOUTH: "the edge of the hole with the flank",
    Motion.DRILL: "the face with the point",
    Motion.GROOVE: "the end face with the tool's chuck-side corner; its width is in the reading",
    Motion.PART_OFF: "the end face with the blade's chuck-side corner; its width is in the reading",
}
SAME = 0.002  # mm; lengths that no dial tells apart
TOUCHING = "Touch "  # hints that begin so are said by the row that sets the handwheels
# Kinds of cautions that hold for every step on a machine: told where the work is set up.
GENERAL = frozenset({"turning", "facing", "drill press", "mill"})
WORD = {
    RowKind.TOUCH: "touch",
    RowKind.ROUGH: "rough",
    RowKind.MEASURE: "measure",
    RowKind.FINISH: "finish",
    RowKind.PLUNGE: "plunge",
    RowKind.STEP: "step",
    RowKind.PECK: "peck",
    RowKind.DEPTH: "to depth",
    RowKind.TURNS: "turn in",
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
    earlier = _earlier(plan, op)
    consequence = "" if any(op.cutter.consequence in f.what for f in plan.findings) else op.cutter.consequence
    feed, pace, axis = _feed(op, have, numbers)
    return OperationView(
        number=f"{op.number}",
        title=say(op.title.removesuffix(f", {op.cutter.name}")),
        tool=say(tool_name(op.cutter.group, op.cutter.name)),
        consequence=say(consequence),
        position=position,
        speed=speed,
        by_hand=op.motion in BY_HAND,
        feed=feed,
        feed_unit=f"{numbers.system}/rev" if feed else "",
        pace=pace,
        pace_axis=axis,
        cautions=cautions,
        findings=findings,
        hints=() if earlier else tuple(map(say, _hints(op))),
        as_before=earlier,
        edge_finder=op.place is Place.MILL and any(row.x for row in op.rows),
        why=say(_new(op.why, given)),
        because=because(plan, op, numbers, given),
        x=_column(op, op.x_dial, have, any(row.x for row in op.rows)),
        z=_column(op, op.z_dial, have, any(row.z for row in op.rows)),
        place_first=op.motion in PLUNGING,
        rows=tuple(_row(op, row, have, numbers) for row in in_order(op)),
        holds=tuple(hold(point, numbers) for point in op.holds),
    )


def _earlier(plan: Plan, op: Operation) -> str:
    """Number of the latest operation of the same kind in this setup, where its hints are the same."""
    same = [o for o in plan.in_setup(op.setup) if o.motion is op.motion and o.number < op.number]
    return f"{same[-1].number}" if same and _hints(op) and same[-1].hints == op.hints else ""


def _hints(op: Operation) -> tuple[str, ...]:
    """Hints that no row says; on the mill the edge finder touches before any row."""
    said = op.place is Place.LATHE and any(row.kind is RowKind.TOUCH for row in op.rows)
    return tuple(hint for hint in op.hints if not (said and hint.startswith(TOUCHING)))


def in_order(op: Operation) -> tuple[Row, ...]:
    """Rows as the hand does them: on the mill the table stands over the place before the tool touches."""
    if op.place is not Place.MILL:
        return op.rows
    placed = [row for row in op.rows if row.kind is RowKind.STEP and row.x is not None]
    return (*placed, *(row for row in op.rows if row not in placed))


def because(plan: Plan, op: Operation, numbers: Numbers, given: set[str]) -> tuple[BecauseView, ...]:
    """Why this operation stands where it does: each reason once a sheet, with the numbers it must follow.

    What its setup needs is no reason to tell here: a setup as a whole follows what it holds.
    """
    holding = {need.because for need in plan.setup(op.setup).requires}
    number = {other.id: other.number for other in plan.operations}
    reasons: dict[str, list[int]] = {}
    for edge in plan.order:
        if edge.after == op.id and edge.before in number and edge.why not in holding:
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


def general(kinds: Iterable[str]) -> tuple[str, ...]:
    """Of these kinds of operation, those whose cautions hold for every step on the machine."""
    return tuple(dict.fromkeys(kind for kind in kinds if kind in GENERAL))


def documents(plan: Plan) -> tuple[str, ...]:
    """Documents of all cautions that stand before a setup or a step, each once."""
    kinds = dict.fromkeys(kind for op in plan.operations for kind in op.hazards)
    found = (c.document for kind in kinds for c in hazards.for_operation(kind) if c.document)
    return tuple(sorted(set(found)))


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
    axis = "cross slide" if op.motion in ACROSS and "cross slide" in have else op.z_dial
    dial = have.get(axis)
    if dial is None or speed is None:
        return numbers.per_rev(feed.value), "", ""
    return numbers.per_rev(feed.value), view_numbers.pace(dial, feed.value, speed.value), axis


def _column(op: Operation, axis: str, have: dict[str, Dial], used: bool) -> DialColumn | None:
    if not used or axis not in have:
        return None
    arrow, _ = direction(axis, op.place, op.motion)
    return DialColumn(axis=axis, arrow=arrow, reads=view_numbers.reads(have[axis]))


def _row(op: Operation, row: Row, have: dict[str, Dial], numbers: Numbers) -> RowView:
    final = row.kind in FINAL or (row.kind is RowKind.PLUNGE and op.motion is Motion.GROOVE)
    state = "interim" if row.kind in INTERIM else "final" if final else ""
    return RowView(
        kind=WORD[row.kind],
        under=_under(op, row, numbers),
        touches=_touches(op, row, have, numbers) if row.kind is RowKind.TOUCH else (),
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


def _under(op: Operation, row: Row, numbers: Numbers) -> str:
    """Depth of the cut, no finer than it can be judged; at the bench the width of the edge."""
    if row.kind is RowKind.TOUCH or row.depth is None:
        return ""
    if row.kind is RowKind.DEPTH and row.at is not None and abs(row.depth - row.at) < SAME:
        return ""  # one cut to the depth, which stands in the row
    return f"{'edge about ' if op.place is Place.BENCH else ''}{numbers.plain(row.depth)}"


def _touches(op: Operation, row: Row, have: dict[str, Dial], numbers: Numbers) -> tuple[TouchView, ...]:
    """Where the tool touches, in the order of the hand: across first, then lengthwise."""
    found = []
    for axis, value in ((op.x_dial, row.x), (op.z_dial, row.z)):
        dial = have.get(axis)
        if value is None or dial is None:
            continue
        across = value is row.x
        stands = f"⌀ {numbers.length(row.diameter)}" if across and row.diameter is not None else ""
        turns, to, _ = view_numbers.reading(numbers, dial, value)
        if turns:
            to = f"{turns} {view_numbers.turns_word(value.turns)} + {to} div"
        found.append(
            TouchView(
                what=_touched(op, row, across=across),
                stands=stands,
                axis=axis,
                to=to,
            )
        )
    return tuple(found)


def _touched(op: Operation, row: Row, *, across: bool) -> str:
    if across:
        return f"the wall of the {row.touch}" if op.motion in OUTWARD else f"the {row.touch}"
    if op.place is Place.MILL:
        return "the top of the work"
    return END.get(op.motion, "the end face").format(row.touch)


def _cell(row: Row, value: Reading | None, dial: Dial | None, numbers: Numbers) -> DialCell | None:
    if value is None or dial is None:
        return None
    turns, divisions, collar = view_numbers.reading(numbers, dial, value)
    return DialCell(
        turns=turns,
        turns_word=view_numbers.turns_word(value.turns),
        divisions=divisions,
        unit="div" if value.value is None else numbers.system,
        collar=collar,
    )
