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
    packed,
    space,
    wrapped,
)
from jobsheets.sheet.view_values import HoldView, OperationView
from jobsheets.sheet.wording import lines as words

TEXT = LEFT + 17.0  # the operation's number stands alone to the left of this
NUMBER = 24.0  # points, of the operation's number
WORD_GAP = 1.3


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
    return Flow(
        head=_head(op),
        table_head=layout_rows.table_head(op, columns) if op.rows else space(0.0),
        rows=tuple(layout_rows.row_block(row, columns) for row in op.rows),
        tail=joined((*(hold(h) for h in op.holds), space(0.2)), 1.6),
        again=_again(op),
    )


def _head(op: OperationView) -> Block:
    blocks = [_title(op)]
    if op.speed or op.by_hand:
        blocks.append(_speed(op))
    for finding in op.findings:
        text = lines(words("finding", finding), TEXT + PAD, RIGHT - PAD, lead="CAUTION")
        blocks.append(framed(text, "single", TEXT))
    cautions = [line for caution in op.cautions for line in words("caution", caution)]
    if cautions:
        text = lines(cautions, TEXT + PAD, RIGHT - PAD, lead="CAUTION")
        blocks.append(framed(text, "single", TEXT))
    blocks.append(lines(words("reasons", op), TEXT, mark="dash"))
    blocks.append(packed(words("hints", op), TEXT, mark="dash"))
    body = joined((b for b in blocks if b.height > 0.0), 1.3)

    size = face.fit(op.number, TEXT - LEFT - 2.0, NUMBER, bold=True)

    def draw(ink: Ink, top: float) -> None:
        ink.line(LEFT, top, RIGHT, top, "visible")
        ink.text(LEFT, top + 8.6, op.number, size, bold=True)
        body.draw(ink, top + 1.4)

    return Block(height=max(body.height + 2.0, 11.0), draw=draw)


def _title(op: OperationView) -> Block:
    """What to do, and with which tool: on one line where both fit."""
    entry = wrapped(op.title, RIGHT - TEXT - 9.0, TITLE, True)
    said = " ".join(words("tool", op))
    used = face.width(entry[-1], TITLE, bold=True) + 4.0
    beside = not said or (len(entry) == 1 and used + face.width(said, NOTE) <= RIGHT - TEXT - 9.0)
    tool = (said,) if beside else wrapped(said, RIGHT - TEXT - 9.0)

    def draw(ink: Ink, top: float) -> None:
        y = top + 4.6
        ink.tick(RIGHT - 6.0, y + 0.8, 6.0)
        for line in entry:
            ink.text(TEXT, y, line, TITLE, bold=True)
            y += 5.6
        if beside:
            ink.text(TEXT + used, y - 5.6, said)
            return
        for line in tool:
            ink.text(TEXT, y - 0.6, line)
            y += LEAD

    return Block(height=5.6 * len(entry) + (0.0 if beside else LEAD * len(tool)) + 0.8, draw=draw)


def _speed(op: OperationView) -> Block:
    """Belt position first: it is what the hand does. Large figures, small units."""
    parts: list[tuple[str, str]] = []
    if op.by_hand or not op.speed:
        parts.append(("by hand", ""))
    else:
        if op.position:
            parts.append((op.position, ""))
        parts.append((op.speed, "rev/min"))
    if op.feed:
        parts.append((op.feed, op.feed_unit))
    if op.pace:
        parts.append((op.pace, f"s a turn of the {op.pace_axis}"))

    def draw(ink: Ink, top: float) -> None:
        x, y = TEXT, top + DIAL_CAP + 0.6
        for big, small in parts:
            ink.text(x, y, big, DIAL, bold=True)
            x += face.width(big, DIAL, bold=True) + WORD_GAP
            ink.text(x, y, small)
            x += face.width(small, NOTE) + (5.0 if small else 3.7)

    return Block(height=DIAL_CAP + 2.0, draw=draw)


def _again(op: OperationView) -> Block:
    size = face.fit(op.number, TEXT - LEFT - 2.0, NUMBER, bold=True)

    def draw(ink: Ink, top: float) -> None:
        ink.line(LEFT, top, RIGHT, top, "visible")
        ink.text(LEFT, top + 8.6, op.number, size, bold=True)
        ink.text(TEXT, top + 6.2, f"{op.title}, continued", TITLE, bold=True)

    return Block(height=11.0, draw=draw)


def hold(value: HoldView) -> Block:
    """Double frame: stop, measure, write the value down, then decide."""
    x = TEXT + PAD
    title = wrapped(
        f"{value.what}{'' if value.final else ', interim'}: {value.gauge}", RIGHT - PAD - x - 20.0, NOTE, True
    )
    rest = packed(words("hold", value), x, RIGHT - PAD)
    limits = [("max", value.high), ("min", value.low), ("aim", value.aim)] if value.high else []
    top_height = LEAD * len(title) + DIAL_CAP + 5.0

    def draw(ink: Ink, top: float) -> None:
        ink.text(x, top + NOTE_CAP + 0.6, "HOLD", bold=True)
        for n, line in enumerate(title):
            ink.text(x + 17.0, top + NOTE_CAP + 0.6 + n * LEAD, line, bold=True)
        y = top + LEAD * len(title) + DIAL_CAP + 2.2
        at = x
        for label, number in limits:
            ink.text(at, y, label)
            ink.text(at + 10.0, y, number, DIAL, bold=label != "aim")
            at += 10.0 + face.width(number, DIAL, bold=True) + 4.0
        label = f"read, {value.unit}" if value.unit else "what you found"
        ink.text(RIGHT - PAD - 33.0, y, label, anchor="end")
        ink.box(RIGHT - PAD - 32.0, y - DIAL_CAP - 2.0, 32.0, DIAL_CAP + 4.0)
        rest.draw(ink, top + top_height)

    return framed(Block(height=top_height + rest.height, draw=draw), "double", TEXT)
