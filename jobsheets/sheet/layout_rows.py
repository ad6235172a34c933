"""Rows of dial readings on paper: one line of print a row, large figures in columns as wide as they need."""

from typing import Literal

from msgspec import Struct

from jobsheets.sheet import face
from jobsheets.sheet.layout import (
    DIAL,
    DIAL_CAP,
    LEAD,
    LEFT,
    NOTE,
    NOTE_CAP,
    RIGHT,
    TICK_GAP,
    Block,
    Ink,
    joined,
    lines,
    space,
    wrapped,
)
from jobsheets.sheet.view_values import DialCell, DialColumn, OperationView, RowView
from jobsheets.sheet.wording import lines as words

TICK, KIND, BOX = 6.5, 20.0, 17.0  # widths of the columns of rows
BETWEEN = 2.6  # columns
ALONG = ("x", "diameter", "z", "turns", "at")
PLACED = ("z", "turns", "at", "x", "diameter")
ROW = 6.5  # of one line of print
HEAD = 5.2
FINAL, TRAVEL = "final", "travel"
MEASURED = "read"
WORD_GAP = 1.3
STEP = 4.0  # between the things that a lone row tells
Form = Literal["run", "line", "short line", "stacked"]
FORMS: tuple[Form, ...] = ("line", "short line", "stacked")  # tried in this order
Print = tuple[tuple[str, float, bool], ...]  # text, size, bold


class Column(Struct, frozen=True, kw_only=True):
    """One column of rows: where it begins, and how far its second text stands from there."""

    x: float
    second: float


class Columns(Struct, frozen=True, kw_only=True):
    """Columns that an operation needs, as wide as what stands in them."""

    kind_width: float
    form: Form
    at: dict[str, Column]


def set_rows(op: OperationView) -> tuple[RowView, ...]:
    """Rows that are set on a dial or counted."""
    return tuple(row for row in op.rows if not row.touches)


def touch(row: RowView) -> Block:
    """Where the tool touches and what is set there, as a sentence to tick."""
    return lines((" ".join(words("touches", row)),), LEFT + 0.5, RIGHT, mark="tick", gap=TICK_GAP + 0.3)


def columns(op: OperationView) -> Columns:
    """Columns as wide as what stands in them.

    A lone row is told in a run. Other rows take one line of print, without the collar of the lengthwise
    handwheel where that is too long (its turns and divisions say the same), else two lines.
    """
    rows = set_rows(op)
    if len(rows) == 1 and _run_fits(rows[0], op):
        return Columns(kind_width=0.0, form="run", at={})
    said = max((_kind_width(row) for row in rows), default=0.0) + 1.0
    aside = max((_aside(row) for row in rows), default=0.0)
    for form in FORMS:
        first, second = _widths(op, form)
        room = RIGHT - LEFT - TICK - aside - BETWEEN * len(first)
        stacked = form == "stacked"
        widths = {n: max(first[n], second[n]) if stacked else first[n] + second[n] for n in first}
        kind = KIND if stacked else said
        if kind + sum(widths.values()) <= room:
            break
    spare = room - kind - sum(widths.values())
    gap = BETWEEN + max(0.0, min(spare, 40.0)) / max(1, len(first))  # what is left over parts the columns
    x = LEFT + TICK + kind + gap
    at = {}
    for name in first:
        at[name] = Column(x=x, second=0.0 if stacked else first[name])
        x += widths[name] + gap
    return Columns(kind_width=kind, form=form, at=at)


def _run_fits(row: RowView, op: OperationView) -> bool:
    words = face.width(MEASURED, NOTE) + 4.0 if row.box else 0.0
    used = sum(_long(part) + STEP for part in _run(row, op)) + words
    return used <= RIGHT - LEFT - TICK - _aside(row)


def table_head(op: OperationView, columns: Columns) -> Block:
    heads = _heads(op, columns.form)
    cells = [(columns.at[name], *heads[name]) for name in columns.at if name in heads]
    measured = any(row.box for row in set_rows(op))
    if columns.form == "run" or (not cells and not measured):
        return Block(height=0.6, draw=lambda ink, top: None)

    def draw(ink: Ink, top: float) -> None:
        y = top + NOTE_CAP + 1.2
        for column, first, second in cells:
            _print(ink, column.x, y, first)
            _print(ink, column.x + column.second, y, second)
        if measured:
            ink.text(RIGHT, y, MEASURED, bold=True, anchor="end")
        if any(row.under for row in set_rows(op)):
            ink.text(LEFT + TICK, y, "cut", bold=True)
        ink.line(LEFT + TICK, top + HEAD, RIGHT, top + HEAD)

    return Block(height=HEAD, draw=draw)


def row_block(row: RowView, op: OperationView, columns: Columns) -> Block:
    if row.touches:
        return joined((space(1.0), touch(row)))
    if columns.form == "run":
        return _run_block(row, op)
    stacked = columns.form == "stacked"
    under = wrapped(row.under, columns.kind_width) if stacked and row.under else ()
    height = ROW + LEAD * max(len(under), 1 if stacked else 0)
    cells = _texts(row, columns.form)

    def draw(ink: Ink, top: float) -> None:
        y = top + DIAL_CAP + 1.3
        ink.tick(LEFT + 0.5, y, 4.2)
        ink.text(LEFT + TICK, y, row.kind, bold=True)
        if not stacked:
            ink.text(LEFT + TICK + face.width(row.kind, NOTE, bold=True) + WORD_GAP, y, row.under)
        for n, line in enumerate(under, start=1):
            ink.text(LEFT + TICK, y + n * LEAD, line)
        end = LEFT + TICK
        for name in (name for name in columns.at if name in cells):
            large, small = cells[name]
            column = columns.at[name]
            _print(ink, column.x, y, large)
            _print(ink, column.x + column.second, y + LEAD if stacked else y, small)
            end = column.x + _long(large)
        _right(ink, top, (end + 1.0, y), row, height)

    return Block(height=height, draw=draw)


def _run_block(row: RowView, op: OperationView) -> Block:
    """A lone row: every word beside its figure, so that it needs no head."""
    parts = _run(row, op)

    def draw(ink: Ink, top: float) -> None:
        y = top + DIAL_CAP + 1.3
        ink.tick(LEFT + 0.5, y, 4.2)
        x = LEFT + TICK
        for part in parts:
            x = _print(ink, x, y, part) + STEP
        if row.box:
            ink.text(RIGHT - BOX - 2.0, y, MEASURED, anchor="end")
        _right(ink, top, (x - STEP + 1.0, y), row, ROW)

    return Block(height=ROW, draw=draw)


def _right(ink: Ink, top: float, end: tuple[float, float], row: RowView, height: float) -> None:
    """After the last size the word final where it is, a box where it is read, a rule below."""
    if _is_final(row):
        ink.text(*end, FINAL, bold=True)
    if row.box:
        ink.box(RIGHT - BOX, top + 0.7, BOX, height - 1.4)
    ink.line(LEFT + TICK, top + height, RIGHT, top + height)


def _is_final(row: RowView) -> bool:
    return FINAL in (row.diameter_under, row.at_under)


def _aside(row: RowView) -> float:
    """Room at the right end of a row: the word final, a box to write in."""
    final = face.width(FINAL, NOTE, bold=True) + 1.0 if _is_final(row) else 0.0
    return final + (BOX if row.box else 0.0)


def _kind_width(row: RowView) -> float:
    return face.width(row.kind, NOTE, bold=True) + WORD_GAP + face.width(row.under, NOTE)


def _texts(row: RowView, form: Form) -> dict[str, tuple[Print, Print]]:
    """What stands in each column of a row: first and second text."""
    cells: dict[str, tuple[Print, Print]] = {}
    lead = "reads " if form == "stacked" else ""
    for name, cell in (("x", row.x), ("z", row.z)):
        if cell is not None:
            told = cell.collar if name == "x" or form != "short line" else ""
            cells[name] = (_dial(cell), ((lead + told, NOTE, False),) if told else ())
    for name, size, under in (("diameter", row.diameter, row.diameter_under), ("at", row.at, row.at_under)):
        if size:
            cells[name] = (((size, DIAL, under == FINAL),), ())
    if row.turns:
        cells["turns"] = (((row.turns, DIAL, True), ("turns", NOTE, False)), ())
    return cells


def _run(row: RowView, op: OperationView) -> tuple[Print, ...]:
    """What a lone row tells, one thing after the other."""
    columns = {"x": (op.x, row.x), "z": (op.z, row.z)}
    sizes = {"diameter": ("⌀", row.diameter, row.diameter_under), "at": ("at", row.at, row.at_under)}
    parts: list[Print] = [((row.kind, NOTE, True), *(((row.under, NOTE, False),) if row.under else ()))]
    for name in PLACED if op.place_first else ALONG:
        column, cell = columns.get(name, (None, None))
        label, size, state = sizes.get(name, ("", "", ""))
        if column is not None and cell is not None:
            radius = "" if column.reads == TRAVEL else column.reads
            told = " ".join(filter(None, (f"reads {cell.collar}" if cell.collar else "", radius)))
            parts.append((*_axis(column), *_dial(cell), *(((told, NOTE, False),) if told else ())))
        elif size:
            parts.append(((label, NOTE, False), (size, DIAL, state == FINAL)))
        elif name == "turns" and row.turns:
            parts.append(((row.turns, DIAL, True), ("turns", NOTE, False)))
    return tuple(parts)


def _dial(cell: DialCell) -> Print:
    """Turns and divisions: the figures large, the words small, so that 2 + 35 cannot run together."""
    parts: list[tuple[str, float, bool]] = []
    if cell.turns:
        parts += [(cell.turns, DIAL, True), (cell.turns_word, NOTE, False), ("+", NOTE, False)]
    return (*parts, (cell.divisions, DIAL, True), (cell.unit, NOTE, False))


def _axis(column: DialColumn) -> Print:
    """A handwheel with the way to come in to its reading; the arrow is as large as a figure."""
    return ((column.axis, NOTE, True), (column.arrow, DIAL, True))


def _long(parts: Print) -> float:
    return sum(face.width(text, size, bold=bold) + WORD_GAP for text, size, bold in parts)


def _print(ink: Ink, x: float, y: float, parts: Print) -> float:
    """Print a run; gives the x after it."""
    for text, size, bold in parts:
        ink.text(x, y, text, size, bold=bold)
        x += face.width(text, size, bold=bold) + WORD_GAP
    return x


def _widths(op: OperationView, form: Form) -> tuple[dict[str, float], dict[str, float]]:
    """Room that the first and the second texts of each column take."""
    rows = [_texts(row, form) for row in set_rows(op)]
    heads = _heads(op, form)
    first: dict[str, float] = {}
    second: dict[str, float] = {}
    for name in PLACED if op.place_first else ALONG:
        cells = [row[name] for row in rows if name in row]
        if cells:
            head = heads.get(name, ((), ()))
            first[name] = max(_long(head[0]), *(_long(cell[0]) for cell in cells)) + 0.7
            second[name] = max(_long(head[1]), *(_long(cell[1]) for cell in cells))
    return first, second


def _heads(op: OperationView, form: Form) -> dict[str, tuple[Print, Print]]:
    """Head of each column; over the second text stands what the collar reads."""
    heads: dict[str, tuple[Print, Print]] = {
        "diameter": ((("⌀ after", NOTE, True),), ()),
        "at": ((("at", NOTE, True),), ()),
    }
    if op.x is not None:
        said: Print = (("reads" if op.x.reads == TRAVEL else op.x.reads, NOTE, True),)
        heads["x"] = ((*_axis(op.x), *said), ()) if form == "stacked" else (_axis(op.x), said)
    if op.z is not None:
        heads["z"] = (_axis(op.z), (("reads", NOTE, True),) if form == "line" else ())
    return heads
