"""Last pages: sizes to inspect, what was really run, lessons; and on request every figure with its reason."""

from jobsheets.sheet import face
from jobsheets.sheet.layout import (
    DIAL,
    DIAL_CAP,
    GAP,
    LEAD,
    LEFT,
    NOTE,
    NOTE_CAP,
    RIGHT,
    Block,
    Ink,
    beside,
    heading,
    joined,
    lines,
    space,
    wrapped,
)
from jobsheets.sheet.view_values import FigureView, InspectionView, OperationView, SheetView
from jobsheets.sheet.wording import lines as words

LOW, HIGH, READ = LEFT + 72.0, LEFT + 101.0, RIGHT - 38.0
MIDDLE = (LEFT + RIGHT) / 2.0
BAR = 46.0  # length of a spread bar, mm


def inspection(sheet: SheetView) -> tuple[Block, ...]:
    rows = tuple(_size(row) for row in sheet.inspection)
    if not rows:
        return ()
    head = joined((heading("Inspect the finished part: write what you read"), _inspection_head(sheet.system)))
    return (joined((head, rows[0])), *rows[1:], space(GAP))


def _inspection_head(system: str) -> Block:
    def draw(ink: Ink, top: float) -> None:
        for x, text in ((LOW, "low"), (HIGH, "high"), (READ, f"read, {system}")):
            ink.text(x, top + NOTE_CAP + 0.4, text, bold=True)

    return Block(height=LEAD, draw=draw)


def _size(row: InspectionView) -> Block:
    """A size with its limits; what it was limited by and the gauge stand beside the name where they fit."""
    said = ", ".join(filter(None, (row.limits, row.gauge)))
    name = wrapped(row.what, LOW - LEFT - 2.0, NOTE, True)
    used = face.width(name[-1], NOTE, bold=True) + 3.0
    near = len(name) == 1 and used + face.width(said, NOTE) <= LOW - LEFT - 2.0
    under = () if near or not said else wrapped(said, READ - LEFT - 3.0)
    height = max(LEAD * len(name), DIAL_CAP) + LEAD * len(under) + 4.2

    def draw(ink: Ink, top: float) -> None:
        y = top + DIAL_CAP + 1.9
        for n, line in enumerate(name):
            ink.text(LEFT, y + n * LEAD, line, bold=True)
        if near:
            ink.text(LEFT + used, y, said)
        ink.text(LOW, y, row.low, DIAL)
        ink.text(HIGH, y, row.high, DIAL)
        for n, line in enumerate(under, start=len(name)):
            ink.text(LEFT, y + n * LEAD, line)
        ink.box(READ, top + 0.8, RIGHT - READ, height - 1.6)
        ink.line(LEFT, top + height, RIGHT, top + height)

    return Block(height=height, draw=draw)


def run(sheet: SheetView) -> tuple[Block, ...]:
    """Record of the run, to carry back: what was really done, how it went, what was learned."""
    operations = [op for setup in sheet.setups for op in setup.operations]
    half = (len(operations) + 1) // 2
    right = [_ran(op, MIDDLE + 3.0) for op in operations[half:]]
    rows = []
    for n, op in enumerate(operations[:half]):
        left = _ran(op, LEFT)
        rows.append(beside(left, right[n]) if n < len(right) else left)
    first = joined((heading("What was really run"), _outcome(), *rows[:1]))
    return (first, *rows[1:], space(GAP), _lessons())


def _outcome() -> Block:
    def draw(ink: Ink, top: float) -> None:
        y = top + 5.2
        ink.text(LEFT, y, "date")
        ink.blank(LEFT + 11.0, y, 40.0)
        ink.text(LEFT + 56.0, y, "outcome:")
        x = LEFT + 76.0
        for word in ("good", "good after rework", "scrap"):
            ink.tick(x, y, 4.2)
            ink.text(x + 6.0, y, word)
            x += face.width(word, NOTE) + 12.0

    return Block(height=9.0, draw=draw)


def _ran(op: OperationView, x: float) -> Block:
    """One operation: the planned speed, with room for the real one and for the tool really used."""
    speed = op.speed or ("hand" if op.by_hand else "–")

    def draw(ink: Ink, top: float) -> None:
        y = top + 5.6
        ink.text(x + 8.0, y, op.number, NOTE, bold=True, anchor="end")
        ink.text(x + 11.0, y, speed)
        ink.text(x + 23.0, y, "ran")
        ink.blank(x + 31.0, y, 14.0)
        ink.text(x + 47.0, y, "tool")
        ink.blank(x + 56.0, y, MIDDLE - LEFT - 59.0)

    return Block(height=7.4, draw=draw)


def _lessons() -> Block:
    def draw(ink: Ink, top: float) -> None:
        y = top + 5.6
        for _ in range(3):
            ink.text(LEFT, y, "Lesson for next time, operation")
            ink.blank(LEFT + 72.0, y, 13.0)
            ink.text(LEFT + 87.0, y, ":")
            ink.blank(LEFT + 90.0, y, RIGHT - LEFT - 90.0)
            y += 9.0

    return Block(height=28.5, draw=draw)


def figures(sheet: SheetView) -> tuple[Block, ...]:
    if not sheet.figures:
        return ()
    head = joined((heading("Figures: every number and why it is that"), lines(words("figures")), space(1.5)))
    first, *rest = (_figure(f) for f in sheet.figures)
    return (joined((head, first)), *rest)


def _figure(figure: FigureView) -> Block:
    texts = [
        f"{figure.formula}{'; ' if figure.inputs else ''}{figure.inputs}",
        f"ruled by {figure.ruled_by}",
        f"source: {figure.source}",
        f"published: {figure.spread}" if figure.spread else "",
    ]
    body = lines([t for t in texts if t], LEFT + 6.0, RIGHT)
    title = wrapped(f"{figure.id}  {figure.name}", RIGHT - LEFT - 48.0, NOTE, True)
    bar = 4.6 if figure.marks else 0.0
    top_height = max(LEAD * len(title), DIAL_CAP) + 2.4

    def draw(ink: Ink, top: float) -> None:
        y = top + DIAL_CAP + 1.2
        for n, line in enumerate(title):
            ink.text(LEFT, y + n * LEAD, line, bold=True)
        ink.text(RIGHT, y, figure.value, DIAL, bold=True, anchor="end")
        body.draw(ink, top + top_height)
        if figure.marks:
            _spread(ink, LEFT + 6.0, top + top_height + body.height + 2.2, figure.marks)
        ink.line(
            LEFT,
            top + top_height + body.height + bar + 1.2,
            RIGHT,
            top + top_height + body.height + bar + 1.2,
        )

    return Block(height=top_height + body.height + bar + 2.2, draw=draw)


def _spread(ink: Ink, x: float, y: float, marks: tuple[float, float, float, float]) -> None:
    """Bar from the lowest to the highest published value: stroke at the median, dot at the value taken."""
    low, median, high, used = marks
    width = max(high - low, 1e-9)

    def at(value: float) -> float:
        return x + BAR * min(1.0, max(0.0, (value - low) / width))

    ink.box(x, y - 1.0, BAR, 2.0)
    ink.line(at(median), y - 1.8, at(median), y + 1.8, "visible")
    ink.text(at(used), y + 1.5, "●", NOTE, anchor="middle")
    ink.text(x + BAR + 4.0, y + 1.4, "● taken, stroke: median")
