"""One operation of a plan as display values: speed as a belt, feed as a hand pace, rows as dial readings."""

from collections.abc import Iterable, Mapping

from jobsheets.finding import Finding, Severity
from jobsheets.planner.operation import (
    HoldPoint,
    Motion,
    Operation,
    Place,
    Plan,
    RowKind,
)
from jobsheets.sheet import view_numbers, view_rows
from jobsheets.sheet.view_front import tool_name
from jobsheets.sheet.view_numbers import Numbers
from jobsheets.sheet.view_values import (
    BecauseView,
    CautionView,
    FindingView,
    HoldView,
    OperationView,
)
from jobsheets.shop.machines import Dial, Lathe, Mill, SpeedRange, SpeedStep
from jobsheets.standards import hazards

BY_HAND = frozenset({Motion.TAP, Motion.DIE, Motion.CHASE, Motion.DEBURR})
# Facing, parting and grooving feed across; all else along the axis.
ACROSS = frozenset({Motion.FACE, Motion.PART_OFF, Motion.GROOVE})
PLUNGING = frozenset({Motion.PART_OFF, Motion.GROOVE})
UNDER = "below the low limit: "  # said by the limit that stands before it
TOUCHING = "Touch "  # hints that begin so are said by the row that sets the handwheels
IN_COLLET = (
    ("Take the chuck key out before the hand leaves it. ", ""),
    ("clear of the jaws", "clear of the collet"),
    ("turning the chuck by hand", "turning the spindle by hand"),
    ("arm clear of the chuck", "arm clear of the collet"),
)
# Kinds of cautions that hold for every step on a machine: told where the work is set up.
GENERAL = frozenset({"turning", "facing", "drill press", "mill"})


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
    have = view_rows.dials(plan, op.place)
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
        by_hand=op.motion in BY_HAND or (op.motion in view_rows.THREADED and not speed),
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
        x=view_rows.column(op, op.x_dial, have, any(row.x for row in op.rows)),
        z=view_rows.column(op, op.z_dial, have, any(row.z for row in op.rows)),
        place_first=op.motion in PLUNGING,
        rows=tuple(view_rows.row_view(op, row, have, numbers) for row in view_rows.in_order(op)),
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
        BecauseView(before=_listed(sorted(before), sorted(number.values())), why=numbers.said(why))
        for why, before in reasons.items()
        if _new(why, given)
    )


def _listed(numbers: list[int], known: list[int]) -> str:
    """Numbers of operations in order; a run of three and more as its first and last."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and known.index(number) == known.index(runs[-1][-1]) + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return ", ".join(said)


def _new(reason: str, given: set[str]) -> str:
    if reason in given:
        return ""
    given.add(reason)
    return reason


def cautions_for(
    kinds: tuple[str, ...], numbers: Numbers, printed: set[str], *, collet: bool = False
) -> tuple[CautionView, ...]:
    """Cautions of the kinds that no earlier step of the setup has printed; adds them to `printed`."""
    found = []
    for kind in kinds:
        for caution in hazards.for_operation(kind):
            if caution.text not in printed:
                printed.add(caution.text)
                text = _in_collet(caution.text) if collet else caution.text
                found.append(CautionView(text=numbers.quoted(text), document=caution.document))
    return tuple(found)


def _in_collet(text: str) -> str:
    """A caution of the lathe without the parts of a chuck that are not there."""
    for chuck, instead in IN_COLLET:
        text = text.replace(chuck, instead)
    return text


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
        under=numbers.said(point.if_under).removeprefix(UNDER),
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
