"""One operation on paper: what to do, with what, how fast; then its rows; then its hold points."""

from msgspec import Struct

from jobsheets.sheet import face, layout_rows
from jobsheets.sheet.layout import (
    DIAL,
    DIAL_CAP,
    LEAD,
    LEFT,
    NOTE,
    NOTE_CAP,
    PAD,
    RIGHT,
    TITLE,
    Block,
    Ink,
    framed,
    joined,
    lines,
    space,
    wrapped,
)
from jobsheets.sheet.view_values import HoldView, OperationView
from jobsheets.sheet.wording import lines as words

TEXT = LEFT + 17.0  # the operation's number stands alone to the left of this
NUMBER = 24.0  # points, of the operation's number
WORD_GAP = 1.3
PART_GAP = 4.0  # between one large figure with its unit and the next
TITLE_LEAD = 5.6
NUMBER_HEIGHT = 8.4
BOX, BOX_HEIGHT = 27.0, 7.4  # to write a reading in
HOLD = 13.5  # room of the word


class Flow(Struct, frozen=True, kw_only=True):
    """An operation in pieces: a page break may stand between two rows, never elsewhere."""

    head: Block
    table_head: Block
    rows: tuple[Block, ...]
    tail: Block
    again: Block  # stands for the head on the next page

    @property
    def height(self) -> float:
        return self.head.height + self.table_head.height + sum(r.height for r in self.rows) + self.tail.height


def flow(op: OperationView) -> Flow:
    columns = layout_rows.columns(op)
    first = 1 if op.rows and op.rows[0].touches else 0  # touched before the table begins
    head = (_head(op), *(layout_rows.touch(row) for row in op.rows[:first]))
    return Flow(
        head=joined(head, 0.6),
        table_head=layout_rows.table_head(op, columns) if op.rows[first:] else space(0.0),
        rows=tuple(layout_rows.row_block(row, op, columns) for row in op.rows[first:]),
        tail=joined((space(0.0), *(hold(h) for h in op.holds), space(0.6)), 1.3),
        again=_again(op),
    )


def _head(op: OperationView) -> Block:
    title, tool = _title(op)
    blocks = [title]
    warned = [line for finding in op.findings for line in words("finding", finding)]
    if op.cautions:
        warned += words("cautions", op.cautions)
    if warned:
        blocks.append(framed(lines(warned, LEFT + PAD, RIGHT - PAD, lead="CAUTION"), "single"))
    said = " ".join((*((f"Tool: {tool}.",) if tool else ()), *words("hints", op), *words("reasons", op)))
    if said:
        blocks.append(lines((said,)))
    body = joined(blocks, 1.0)
    size = face.fit(op.number, TEXT - LEFT - 2.0, NUMBER, bold=True)

    def draw(ink: Ink, top: float) -> None:
        ink.line(LEFT, top, RIGHT, top, "visible")
        ink.text(LEFT, top + 8.6, op.number, size, bold=True)
        body.draw(ink, top + 1.4)

    return Block(height=body.height + 2.0, draw=draw)


def _title(op: OperationView) -> tuple[Block, str]:
    """What to do, with which tool, how fast; and the tool where only the text below has room for it.

    One line where the title and the speeds fit on it, else the speeds stand below.
    """
    right = RIGHT - 9.0  # the box to tick
    entry = wrapped(op.title, right - TEXT, TITLE, True)
    said, speeds = " ".join(words("tool", op)), _speeds(op)
    used = face.width(entry[-1], TITLE, bold=True) + PART_GAP
    free = right - TEXT - used
    fast = sum(_part_width(part) for part in speeds)
    near = len(entry) == 1 and fast <= free
    tool = face.width(said, NOTE) + PART_GAP if said else 0.0
    beside = tool <= free - (fast if near else 0.0)

    def draw(ink: Ink, top: float) -> None:
        y = top + 4.6
        ink.tick(RIGHT - 6.0, y + 0.8, 6.0)
        for line in entry:
            ink.text(TEXT, y, line, TITLE, bold=True)
            y += TITLE_LEAD
        if beside:
            ink.text(TEXT + used, y - TITLE_LEAD, said)
        if near:
            _print_speeds(ink, right - fast, top + 4.6, speeds)
        else:
            _print_speeds(ink, TEXT, y + DIAL_CAP - 3.0, speeds)

    height = TITLE_LEAD * len(entry) + (0.0 if near else DIAL_CAP + 2.0) + 0.6
    return Block(height=max(height, NUMBER_HEIGHT), draw=draw), "" if beside else said


def _speeds(op: OperationView) -> tuple[tuple[str, str], ...]:
    """Belt position first: it is what the hand does. Large figures, small units."""
    parts: list[tuple[str, str]] = []
    if op.by_hand:
        parts.append(("", "by hand"))
    if op.speed:
        parts += [(op.position, ""), (op.speed, "rev/min")]
    if op.feed:
        parts.append((op.feed, op.feed_unit))
    if op.pace:
        parts.append((op.pace, f"s a turn of the {op.pace_axis}"))
    return tuple((big, small) for big, small in parts if big or small)


def _part_width(part: tuple[str, str]) -> float:
    big, small = part
    wide = face.width(big, DIAL, bold=True) + face.width(small, NOTE) + PART_GAP
    return wide + (WORD_GAP if big and small else 0.0)


def _print_speeds(ink: Ink, x: float, y: float, parts: tuple[tuple[str, str], ...]) -> None:
    for big, small in parts:
        ink.text(x, y, big, DIAL, bold=True)
        ink.text(x + (face.width(big, DIAL, bold=True) + WORD_GAP if big else 0.0), y, small)
        x += _part_width((big, small))


def _again(op: OperationView) -> Block:
    size = face.fit(op.number, TEXT - LEFT - 2.0, NUMBER, bold=True)

    entry = wrapped(f"{op.title}, continued", RIGHT - TEXT, TITLE, True)

    def draw(ink: Ink, top: float) -> None:
        ink.line(LEFT, top, RIGHT, top, "visible")
        ink.text(LEFT, top + 8.6, op.number, size, bold=True)
        for n, line in enumerate(entry):
            ink.text(TEXT, top + 6.2 + 6.0 * n, line, TITLE, bold=True)

    return Block(height=11.0 + 6.0 * (len(entry) - 1), draw=draw)


def hold(value: HoldView) -> Block:
    """Double frame: stop, measure, write the value down, then decide.

    What is measured stands on the line of its limits where it fits, and the gauge then begins the text below.
    """
    x, right = LEFT + PAD, RIGHT - PAD
    what = value.what if value.final else f"{value.what}, interim"
    limits = (("max", value.high), ("min", value.low), ("aim", value.aim)) if value.high else ()
    label = f"read, {value.unit}" if value.unit else "found"
    asked = BOX + 2.0 + face.width(label, NOTE)
    numbers = sum(_limit_width(*limit) for limit in limits)
    room = right - x - HOLD
    full = f"{what}: {value.gauge}"
    free = room - PART_GAP - numbers - asked
    title = next((text for text in (full, what) if face.width(text, NOTE, bold=True) <= free), "")
    near = title != ""
    entry = (title,) if near else wrapped(full, room, NOTE, True)
    down = 0.0 if near else LEAD * len(entry)
    said = (*(words("gauge", value) if title == what else ()), *words("hold", value))
    rest = lines((" ".join(said),), x, right)
    top_height = down + BOX_HEIGHT + 0.8

    def draw(ink: Ink, top: float) -> None:
        y = top + down + BOX_HEIGHT - 1.7
        first = y if near else top + NOTE_CAP + 0.6
        ink.text(x, first, "HOLD", bold=True)
        for n, line in enumerate(entry):
            ink.text(x + HOLD, first + n * LEAD, line, bold=True)
        at = right - asked - numbers if near else x + HOLD
        for name, number in limits:
            ink.text(at, y, name)
            ink.text(at + face.width(name, NOTE) + WORD_GAP, y, number, DIAL, bold=name != "aim")
            at += _limit_width(name, number)
        ink.text(right - BOX - 1.5, y, label, anchor="end")
        ink.box(right - BOX, top + down, BOX, BOX_HEIGHT)
        rest.draw(ink, top + top_height)

    return framed(Block(height=top_height + rest.height, draw=draw), "double")


def _limit_width(name: str, number: str) -> float:
    return face.width(name, NOTE) + WORD_GAP + face.width(number, DIAL, bold=name != "aim") + PART_GAP
