"""Answers to "why?" about a plan, as lines of a terminal."""

from textwrap import wrap

from jobsheets.commands.answer_figure import figure
from jobsheets.commands.terminal import BOLD, WIDE, painted
from jobsheets.errors import InputError, Problem
from jobsheets.fields import nearest
from jobsheets.planner.operation import Operation, Plan
from jobsheets.sheet.view_front import measure
from jobsheets.sheet.view_numbers import Numbers

REJECTED = "rejected"
LEAD = 14  # columns of the word before an answer


def answer(plan: Plan, system: str, asked: tuple[str, ...]) -> str:
    """What was asked about a plan.

    Args:
        plan: a plan.
        system: "in" or "mm", for the lengths.
        asked: nothing, a figure, an operation, two operations, or the word for what was not taken.

    Raises:
        InputError: the plan has nothing of that name; the nearest names are offered.
    """
    numbers = Numbers(system=system)
    match asked:
        case ():
            return _index(plan, numbers)
        case ("rejected",):
            return _rejected(plan, numbers)
        case (one,):
            found = next((f for f in plan.figures() if f.id == one), None)
            return (
                figure(found, numbers)
                if found
                else _operation(plan, _found(plan, one, figures=True), numbers)
            )
        case _:
            one, other = asked[:2]
            return _order(plan, _found(plan, one), _found(plan, other), numbers)


def _found(plan: Plan, name: str, *, figures: bool = False) -> Operation:
    """The operation of a number or an id."""
    for op in plan.operations:
        if name in (f"{op.number}", op.id):
            return op
    known = [text for op in plan.operations for text in (f"{op.number}", op.id)]
    known += [f.id for f in plan.figures()] + [REJECTED] if figures else []
    right = (
        " or ".join(nearest(name, tuple(known)))
        or f"{plan.operations[0].number} to {plan.operations[-1].number}"
    )
    what = "figure or operation" if figures else "operation"
    problem = Problem(
        file="why",
        line=0,
        field="",
        found=name,
        wrong=f"no such {what} in this plan",
        right=f"{right}; 'jobsheets why RECIPE' lists them all",
    )
    raise InputError((problem,))


def _index(plan: Plan, numbers: Numbers) -> str:
    lines: list[str] = []
    for op in plan.operations:
        lines.append(f"{op.number:>4}  {numbers.said(op.title)}")
        lines += [f"      {f.id:<24}{f.name}: {measure(f.value, f.unit, numbers)}" for f in op.figures]
    lines.append(f"{REJECTED}: {len(plan.rejected)} ways that were not taken")
    return "\n".join(lines) + "\n"


def _rejected(plan: Plan, numbers: Numbers) -> str:
    lines = [f"Ways of making {plan.part.name} that were not taken:"]
    for one in plan.rejected:
        lines += wrap(
            numbers.said(f"{one.what}: {one.why}"), WIDE, initial_indent="- ", subsequent_indent="  "
        )
    return "\n".join(lines if plan.rejected else ["There was only one way."]) + "\n"


def _said(lead: str, text: str) -> list[str]:
    return wrap(text, WIDE, initial_indent=f"{lead:<{LEAD}}", subsequent_indent=" " * LEAD)


def _operation(plan: Plan, op: Operation, numbers: Numbers) -> str:
    by_id = {other.id: other for other in plan.operations}
    setup = plan.setup(op.setup)
    say = numbers.said
    lines = [painted(f"{op.number}  {say(op.title)}", BOLD)]
    lines += _said("setup", f"{setup.letter}: {say(setup.title)}")
    lines += _said("tool", say(op.cutter.name)) + _said("", say(op.cutter.consequence))
    lines += _said("why", say(op.why) or "the part has it")
    for edge in plan.order:
        if edge.after == op.id:
            first = by_id[edge.before]
            lines += _said("waits for", f"{first.number} {say(first.title)}: {say(edge.why)}")
    for edge in plan.order:
        if edge.before == op.id:
            later = by_id[edge.after]
            lines += _said("comes before", f"{later.number} {say(later.title)}: {say(edge.why)}")
    for need in op.spoils:
        lines += _said("spoils", f"{need.fact}: {say(need.because)}")
    for f in op.figures:
        lines += _said("figure", f"{f.id}: {f.name}, {measure(f.value, f.unit, numbers)}")
    return "\n".join(lines) + "\n"


def _order(plan: Plan, one: Operation, other: Operation, numbers: Numbers) -> str:
    """Why the earlier of two comes first: by a rule, by rules in a row, or only by habit and saving."""
    if one.id == other.id:
        return f"{one.number} is {other.number}: name two operations.\n"
    first, later = sorted((one, other), key=lambda op: op.number)
    path = _path(plan, first.id, later.id)
    by_id = {op.id: op for op in plan.operations}
    head = painted(
        f"{first.number} {numbers.said(first.title)} before {later.number} {numbers.said(later.title)}", BOLD
    )
    if not path:
        moved = "another setup" if first.setup != later.setup else "the same setup"
        reason = f"No rule demands it: {moved}; this order saves changes of setup and tool, or is the habit."
        return f"{head}\n{reason}\n"
    lines = [head]
    for before, after, why in path:
        lead = f"{by_id[before].number} before {by_id[after].number} because "
        lines += wrap(lead + numbers.said(why), WIDE, subsequent_indent="    ")
    return "\n".join(lines) + "\n"


def _path(plan: Plan, first: str, later: str) -> list[tuple[str, str, str]]:
    """Shortest row of rules that leads from one operation to a later one."""
    came: dict[str, tuple[str, str, str] | None] = {first: None}
    waiting = [first]
    for at in waiting:
        for edge in plan.order:
            if edge.before == at and edge.after not in came:
                came[edge.after] = (edge.before, edge.after, edge.why)
                waiting.append(edge.after)
    path: list[tuple[str, str, str]] = []
    step = came.get(later)
    while step is not None:
        path.append(step)
        step = came[step[0]]
    return path[::-1]
