"""Rows of dial readings on paper: large figures in columns as wide as what stands in them."""

from msgspec import Struct

from jobsheets.sheet import face
from jobsheets.sheet.layout import DIAL, DIAL_CAP, LEAD, LEFT, NOTE, NOTE_CAP, RIGHT, Block, Ink, wrapped
from jobsheets.sheet.view_values import DialCell, OperationView, RowView

TICK, KIND, BOX = 7.0, 23.0, 20.0  # widths of the columns of rows
BETWEEN = 2.5  # columns
ORDER = ("x", "diameter", "z", "at", "turns")
TOUCH = "touch"
ROW = 6.7  # of one line of print
WORD_GAP = 1.3
Print = tuple[tuple[str, float, bool], ...]  # text, size, bold


class Column(Struct, frozen=True, kw_only=True):
    """One column of rows: where it begins, and how far its second text stands from there."""

    x: float
    second: float


class Columns(Struct, frozen=True, kw_only=True):
    """Columns that an operation needs, as wide as what stands in them."""

    kind_width: float
    flat: bool  # one line of print a row: the second text stands beside the first, not below it
    at: dict[str, Column]


def _texts(row: RowView, flat: bool) -> dict[str, tuple[Print, Print]]:
    """What stands in each column of a row: first and second text, in the order of the columns."""
    cells: dict[str, tuple[Print, Print]] = {}
    if row.kind == TOUCH and not flat:
        return _set(row)
    if row.x is not None:
        cells["x"] = (_dial(row.x), ((row.x.under, NOTE, False),))
    if row.diameter:
        final = row.diameter_under == "final"
        cells["diameter"] = (((row.diameter, DIAL, final),), ((row.diameter_under, NOTE, final),))
    if row.z is not None:
        cells["z"] = (_dial(row.z), ((row.z.under, NOTE, False),))
    if row.at:
        final = row.at_under == "final"
        cells["at"] = (((row.at, DIAL, final),), ((row.at_under, NOTE, final),))
    if row.turns:
        cells["turns"] = (((row.turns, DIAL, True), ("turns", NOTE, False)), ())
    return cells


def _set(row: RowView) -> dict[str, tuple[Print, Print]]:
    """A touch on one line: what the collars are set to, and what is known to stand there."""
    cells: dict[str, tuple[Print, Print]] = {}
    for name, cell in (("x", row.x), ("z", row.z)):
        if cell is not None:
            cells[name] = ((("set", NOTE, False), *_dial(cell)), ())
    for name, size in (("diameter", row.diameter), ("at", row.at)):
        if size:
            cells[name] = (((size, DIAL, False),), ())
    return cells


def _dial(cell: DialCell) -> Print:
    """Turns and divisions: the figures large, the words small, so that 2 + 35 cannot run together."""
    parts: list[tuple[str, float, bool]] = []
    if cell.turns:
        parts += [(cell.turns, DIAL, True), (cell.turns_word, NOTE, False), ("+", NOTE, False)]
    return (*parts, (cell.divisions, DIAL, True), (cell.unit, NOTE, False))


def _long(parts: Print) -> float:
    return sum(face.width(text, size, bold=bold) + WORD_GAP for text, size, bold in parts if text)


def _print(ink: Ink, x: float, y: float, parts: Print) -> None:
    for text, size, bold in parts:
        ink.text(x, y, text, size, bold=bold)
        x += face.width(text, size, bold=bold) + WORD_GAP


def columns(op: OperationView) -> Columns:
    """Columns as wide as what stands in them; rows take one line of print where that fits, else two."""
    box = BOX if any(row.box for row in op.rows) else 0.0
    said = (face.width(f"{row.kind} {row.under}", NOTE, bold=True) for row in op.rows)
    words = max(said, default=0.0) + 1.0
    first, second = _widths(op, flat=True)
    room = RIGHT - LEFT - TICK - box - BETWEEN * len(first)
    flat = min(words, KIND) + sum(first.values()) + sum(second.values()) <= room
    if not flat:
        first, second = _widths(op, flat=False)
    widths = {n: first[n] + second[n] if flat else max(first[n], second[n]) for n in first}
    spare = max(room - sum(widths.values()), 10.0)
    kind = min(max(words if flat else 0.0, KIND), spare)
    # What is left over parts the columns, evenly.
    gap = BETWEEN + max(0.0, min(spare - kind, 40.0)) / max(1, len(first) + (1 if box else 0))
    x = LEFT + TICK + kind + gap - BETWEEN
    at = {}
    for name in first:
        at[name] = Column(x=x, second=first[name] + 1.0 if flat else 0.0)
        x += widths[name] + gap
    return Columns(kind_width=kind, flat=flat, at=at)


def _widths(op: OperationView, *, flat: bool) -> tuple[dict[str, float], dict[str, float]]:
    """Room that the first and the second texts of each column take."""
    rows = [_texts(row, flat) for row in op.rows]
    heads = _heads(op)
    first: dict[str, float] = {}
    second: dict[str, float] = {}
    for name in ORDER:
        cells = [row[name] for row in rows if name in row]
        if cells:
            head = face.width(heads.get(name, ""), NOTE, bold=True)
            first[name] = max(head, *(_long(cell[0]) for cell in cells))
            second[name] = max(_long(cell[1]) for cell in cells)
    return first, second


def _heads(op: OperationView) -> dict[str, str]:
    heads = {"diameter": "⌀ after", "at": "at"}
    if op.x is not None:
        heads["x"] = f"{op.x.axis} {op.x.arrow}"
    if op.z is not None:
        heads["z"] = f"{op.z.axis} {op.z.arrow}"
    return heads


def table_head(op: OperationView, columns: Columns) -> Block:
    heads = [(columns.at[name].x, text) for name, text in _heads(op).items() if name in columns.at]
    measured = any(row.box for row in op.rows)
    if not heads and not measured:
        return Block(height=1.0, draw=lambda ink, top: None)

    def draw(ink: Ink, top: float) -> None:
        for x, text in heads:
            ink.text(x, top + NOTE_CAP + 0.6, text, bold=True)
        if measured:
            ink.text(RIGHT, top + NOTE_CAP + 0.6, "measured", bold=True, anchor="end")
        ink.line(LEFT + TICK, top + LEAD, RIGHT, top + LEAD)

    return Block(height=LEAD, draw=draw)


def row_block(row: RowView, columns: Columns) -> Block:
    lone = columns.flat or row.kind == TOUCH  # one line of print
    used = face.width(row.kind, NOTE, bold=True) + WORD_GAP if lone else 0.0
    beside = lone and used + face.width(row.under, NOTE) <= columns.kind_width
    under = () if beside or not row.under else wrapped(row.under, columns.kind_width)
    count = max(1 + len(under), 1 if lone else 2)
    height = ROW + LEAD * (count - 1)
    cells = _texts(row, columns.flat)

    def draw(ink: Ink, top: float) -> None:
        y = top + DIAL_CAP + 1.3
        ink.tick(LEFT + 0.5, y, 4.2)
        ink.text(LEFT + TICK, y, row.kind, bold=True)
        if beside:
            ink.text(LEFT + TICK + used, y, row.under)
        for n, line in enumerate(under, start=1):
            ink.text(LEFT + TICK, y + n * LEAD, line)
        for name, (large, small) in cells.items():
            column = columns.at[name]
            _print(ink, column.x, y, large)
            _print(ink, column.x + column.second, y if columns.flat else y + LEAD, small)
        if row.box:
            ink.box(RIGHT - BOX, top + 0.7, BOX, height - 1.4)
        ink.line(LEFT + TICK, top + height, RIGHT, top + height)

    return Block(height=height, draw=draw)
