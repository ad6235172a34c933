"""Rows of an operation as display values: dial readings, touches, sizes to expect; ways to come in."""

from jobsheets.planner.operation import Motion, Operation, Place, Plan, Row, RowKind
from jobsheets.sheet import view_numbers
from jobsheets.sheet.view_numbers import Numbers
from jobsheets.sheet.view_values import DialCell, DialColumn, RowView, TouchView
from jobsheets.shop.dials import Reading
from jobsheets.shop.machines import Dial

OUTWARD = frozenset({Motion.BORE})
END = {  # what the tool touches to set its zero lengthwise, and with which part of it
    Motion.CHAMFER: "the corner of the {} with the middle of the 45° edge",
    Motion.MOUTH: "the edge of the hole with the flank",
    Motion.DRILL: "the face with the point",
    Motion.GROOVE: "the end face with the tool's chuck-side corner; its width is in the reading",
    Motion.PART_OFF: "the end face with the blade's chuck-side corner; its width is in the reading",
    Motion.SCREWCUT: "nothing more, its backlash wound out",
}
THREADED = frozenset({Motion.SCRATCH, Motion.SCREWCUT})
PASSES = frozenset({RowKind.INFEED, RowKind.SPRING})  # of a thread: all end in one place, which a hint tells
COUNTED = frozenset({RowKind.PECK, RowKind.DEPTH, RowKind.TURNS})  # depths are read by caliper at best
TRAVELLED = frozenset({RowKind.TOUCH, RowKind.SPRING, RowKind.PLUNGE})  # depth is no thickness of metal
SAME = 0.002  # mm; lengths that no dial tells apart
WORD = {RowKind.DEPTH: "to depth", RowKind.TURNS: "turn in"}  # where it is not the kind's own
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


def outward(op: Operation) -> bool:
    """Whether a cut goes from the wall of a hole outward; only inside tools have a reach to thread with."""
    return op.motion in OUTWARD or (op.motion in THREADED and op.cutter.reach > 0.0)


def direction(axis: str, place: Place, motion: Motion) -> tuple[str, str]:
    """Arrow and word of the way a handle comes in to its reading, as the maker stands at the machine."""
    if place is Place.MILL:
        return ("↓", "down") if axis == "quill" else ("→", "always the same way")
    if axis == "cross slide":
        return ("↓", "outward") if motion in OUTWARD else ("↑", "inward")
    return "←", "toward the chuck"


def in_order(op: Operation) -> tuple[Row, ...]:
    """Rows as the hand does them: on the mill the table stands over the place before the tool touches."""
    if op.place is not Place.MILL:
        return op.rows
    placed = [row for row in op.rows if row.kind is RowKind.STEP and row.x is not None]
    return (*placed, *(row for row in op.rows if row not in placed))


def column(op: Operation, axis: str, have: dict[str, Dial], used: bool) -> DialColumn | None:
    if not used or axis not in have:
        return None
    arrow, _ = direction(axis, op.place, Motion.BORE if outward(op) else op.motion)
    return DialColumn(axis=axis, arrow=arrow, reads=view_numbers.reads(have[axis]))


def row_view(op: Operation, row: Row, have: dict[str, Dial], numbers: Numbers) -> RowView:
    final = row.kind in FINAL or (row.kind is RowKind.PLUNGE and op.motion is Motion.GROOVE)
    state = "interim" if row.kind in INTERIM else "final" if final else ""
    place = None if row.kind in PASSES and op.motion in THREADED else row.at
    return RowView(
        kind=WORD.get(row.kind, row.kind.value),
        under=_under(op, row, numbers),
        touches=_touches(op, row, have, numbers) if row.kind is RowKind.TOUCH else (),
        x=_cell(row, row.x, have.get(op.x_dial), numbers),
        z=_cell(row, row.z, have.get(op.z_dial), numbers),
        diameter="" if row.diameter is None else _diameter(op, row.diameter, numbers),
        diameter_under="" if row.diameter is None else state or ("stands" if row.diameter else "centre"),
        at="" if place is None else _at(place, row, numbers),
        at_under="" if place is None else state or "from zero",
        turns="" if row.turns is None else view_numbers.half(row.turns),
        box=row.box and not (op.holds and final),  # a final size has its box at the hold point
    )


def _at(mm: float, row: Row, numbers: Numbers) -> str:
    return numbers.plain(mm) if row.kind in COUNTED else numbers.length(mm)


def _diameter(op: Operation, mm: float, numbers: Numbers) -> str:
    """The mouth of a hole is read with a caliper."""
    return numbers.plain(mm) if op.motion is Motion.MOUTH else numbers.length(mm)


def _under(op: Operation, row: Row, numbers: Numbers) -> str:
    """Depth of the cut, no finer than it can be judged; at the bench the width of the edge."""
    if row.kind in TRAVELLED or row.depth is None:
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
        found.append(
            TouchView(
                what=_touched(op, row, across=across),
                stands=stands,
                axis=axis,
                to=view_numbers.set_to(numbers, dial, value),
            )
        )
    return tuple(found)


def _touched(op: Operation, row: Row, *, across: bool) -> str:
    if across:
        return f"the wall of the {row.touch}" if outward(op) else f"the {row.touch}"
    if op.motion in (Motion.DRILL, Motion.CROSS_DRILL) and row.at:
        return "the opening with the point, pushed in until it stops"
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
