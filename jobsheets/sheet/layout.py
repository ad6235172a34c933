"""Blocks of known height, put one below the other on pages: no second pass, no reflow.

Units   mm from the top left corner of the layout area, y down; sizes of type in points.
Sizes   read standing at 700 mm: what is set or run is DIAL, what is read once is NOTE; nothing is smaller.
"""

from collections.abc import Callable, Iterable
from functools import lru_cache
from math import ceil

from msgspec import Struct

from jobsheets.sheet import face
from jobsheets.sheet.display import Anchor, Box, Frame, Item, Line, Style, Text

NOTE = ceil(10.0 * face.size_for_capitals(face.NOTE_CAPITALS)) / 10.0
DIAL = ceil(10.0 * face.size_for_capitals(face.DIAL_CAPITALS)) / 10.0
TITLE = 13.0
LEAD = 4.2  # mm from one note line to the next: 150 % of the capitals
NOTE_CAP = face.capitals(NOTE)
DIAL_CAP = face.capitals(DIAL)

LEFT, RIGHT = 20.0, 200.0  # 20 mm for the punch
TOP, BOTTOM = 8.0, 272.5
WIDTH = RIGHT - LEFT
PAD = 1.8  # inside a frame
GAP = 3.0  # between blocks
COLUMN_GAP = 4.0  # between two columns of lines
TICK_GAP = 0.7  # more room between lines that are ticked


class Ink(Struct):
    """Items of the page that is being drawn."""

    items: list[Item]

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = NOTE,
        *,
        bold: bool = False,
        anchor: Anchor = "start",
    ) -> None:
        if text:
            self.items.append(Text(x=x, y=y, text=text, size=size, bold=bold, anchor=anchor))

    def line(self, x1: float, y1: float, x2: float, y2: float, style: Style = "thin") -> None:
        self.items.append(Line(x1=x1, y1=y1, x2=x2, y2=y2, style=style))

    def box(self, x: float, y: float, width: float, height: float, frame: Frame = "single") -> None:
        self.items.append(Box(x=x, y=y, width=width, height=height, frame=frame))

    def tick(self, x: float, baseline: float, size: float = 3.6) -> None:
        """A box to tick, standing on a baseline."""
        self.box(x, baseline - size + 0.4, size, size)

    def blank(self, x: float, baseline: float, width: float) -> None:
        """A line to write on."""
        self.line(x, baseline + 0.8, x + width, baseline + 0.8)


Draw = Callable[[Ink, float], None]


class Block(Struct, frozen=True, kw_only=True):
    """A stretch of a page: its height, and how to draw it from its top edge."""

    height: float
    draw: Draw


@lru_cache(maxsize=4096)
def wrapped(text: str, room: float, size: float = NOTE, bold: bool = False) -> tuple[str, ...]:
    return tuple(face.wrap(text, room, size, bold=bold))


def joined(blocks: Iterable[Block], gap: float = 0.0) -> Block:
    """Blocks one below the other as one block that no page break parts."""
    parts = tuple(blocks)
    height = sum(b.height for b in parts) + gap * max(0, len(parts) - 1)

    def draw(ink: Ink, top: float) -> None:
        for part in parts:
            part.draw(ink, top)
            top += part.height + gap

    return Block(height=height, draw=draw)


def beside(left: Block, right: Block) -> Block:
    """Two blocks that share their top edge."""

    def draw(ink: Ink, top: float) -> None:
        left.draw(ink, top)
        right.draw(ink, top)

    return Block(height=max(left.height, right.height), draw=draw)


def space(height: float) -> Block:
    return Block(height=height, draw=lambda ink, top: None)


def heading(text: str, x: float = LEFT, right: float = RIGHT) -> Block:
    """A short bold title with a wide line below it."""

    def draw(ink: Ink, top: float) -> None:
        ink.text(x, top + NOTE_CAP + 1.0, text, NOTE + 1.0, bold=True)
        ink.line(x, top + NOTE_CAP + 2.6, right, top + NOTE_CAP + 2.6, "visible")

    return Block(height=NOTE_CAP + 4.0, draw=draw)


def lines(
    texts: Iterable[str],
    x: float = LEFT,
    right: float = RIGHT,
    *,
    mark: str = "",
    lead: str = "",
    bold: bool = False,
    gap: float = TICK_GAP,
) -> Block:
    """Wrapped lines of note size.

    Args:
        texts: one entry a line; long ones wrap and hang.
        x: left edge, mm.
        right: right edge, mm.
        mark: "tick" for a box to tick before each entry, "dash" for a dash, else nothing.
        lead: a bold word before the first entry, such as CAUTION.
        bold: weight of the entries.
        gap: more room after each entry that is ticked, mm.
    """
    indent = {"tick": 5.6, "dash": 3.4, "": 0.0}[mark]
    shift = face.width(lead, NOTE, bold=True) + 2.0 if lead else 0.0
    start = x + shift + indent
    entries = tuple(wrapped(text, right - start, NOTE, bold) for text in texts)
    height = LEAD * sum(map(len, entries)) + (gap * len(entries) if mark == "tick" else 0.0)

    def draw(ink: Ink, top: float) -> None:
        y = top + NOTE_CAP + 0.6
        ink.text(x, y, lead, bold=True)
        for entry in entries:
            if mark == "tick":
                ink.tick(x + shift, y)
            elif mark == "dash":
                ink.text(x + shift, y, "–")
            for line in entry:
                ink.text(start, y, line, bold=bold)
                y += LEAD
            y += gap if mark == "tick" else 0.0

    return Block(height=height, draw=draw)


def packed(texts: Iterable[str], x: float = LEFT, right: float = RIGHT, *, mark: str = "") -> Block:
    """Lines in one column or, where that takes less of the page, in two that read down."""
    entries = tuple(texts)
    one = lines(entries, x, right, mark=mark)
    if len(entries) < 2:
        return one
    middle, best = (x + right) / 2.0, one
    for cut in range(1, len(entries)):
        left = lines(entries[:cut], x, middle - COLUMN_GAP / 2.0, mark=mark)
        two = beside(left, lines(entries[cut:], middle + COLUMN_GAP / 2.0, right, mark=mark))
        if two.height < best.height - 0.1:
            best = two
    return best


def framed(inside: Block, frame: Frame, x: float = LEFT, right: float = RIGHT) -> Block:
    """A frame round a block that was laid out `PAD` inside it. Single: caution. Double: stop, hold point."""
    height = inside.height + 2.0 * PAD - (0.6 if frame == "double" else 0.9)

    def draw(ink: Ink, top: float) -> None:
        ink.box(x, top, right - x, height, frame)
        inside.draw(ink, top + PAD)

    return Block(height=height, draw=draw)


def ruled(height: float, label: str, x: float = LEFT, right: float = RIGHT, pitch: float = 8.0) -> Block:
    """Room to write, with faint-free plain rules: a photocopy keeps them."""

    def draw(ink: Ink, top: float) -> None:
        ink.text(x, top + NOTE_CAP + 0.8, label, bold=True)
        y = top + pitch + 2.0
        while y <= top + height - 0.5:
            ink.line(x, y, right, y)
            y += pitch

    return Block(height=height, draw=draw)
