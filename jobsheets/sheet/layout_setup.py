"""One holding on paper: start list beside the sketch, handwheels, and what to see to before unclamping."""

from jobsheets.sheet.layout import (
    LEAD,
    LEFT,
    NOTE,
    NOTE_CAP,
    PAD,
    RIGHT,
    TITLE,
    Block,
    Ink,
    beside,
    framed,
    joined,
    lines,
    packed,
    space,
    wrapped,
)
from jobsheets.sheet.setup_sketch import sketch
from jobsheets.sheet.view_values import SetupView, SketchView
from jobsheets.sheet.wording import lines as words

SKETCH_WIDTH, SKETCH_HEIGHT = 84.0, 50.0
MIDDLE = RIGHT - SKETCH_WIDTH - 4.0


def head(setup: SetupView) -> Block:
    """Everything that is done before the first operation of the holding."""
    left = lines(words("start", setup), LEFT, MIDDLE, mark="tick")
    top = beside(left, _sketch(setup.sketch)) if setup.sketch is not None else left
    blocks = [_title(setup), top]
    for finding in setup.findings:
        text = lines(words("finding", finding), LEFT + PAD, RIGHT - PAD, lead="CAUTION")
        blocks.append(framed(text, "single"))
    dials = [line for dial in setup.dials for line in words("dial", dial)]
    if dials:
        blocks.append(lines((*dials, *words("past", setup.dials)), mark="dash"))
    return joined((*blocks, space(0.6)), 1.6)


def again(setup: SetupView, page: int) -> Block:
    """Head of a further page of the same setup, on one line; `page` is where its sketch stands."""
    said = " ".join(words("continued", setup, page))
    entry = wrapped(said, RIGHT - LEFT - 11.0)

    def draw(ink: Ink, top: float) -> None:
        ink.box(LEFT, top, 8.0, 7.6, "heavy")
        ink.text(LEFT + 4.0, top + 5.8, setup.letter, TITLE, bold=True, anchor="middle")
        for n, line in enumerate(entry):
            ink.text(LEFT + 11.0, top + 5.4 + n * LEAD, line)

    return Block(height=9.6 + LEAD * (len(entry) - 1), draw=draw)


def before_unclamp(setup: SetupView) -> Block | None:
    """Stop: what cannot be reached once the work is out. None where nothing is lost by it."""
    if not setup.before_unclamp:
        return None
    inside = joined(
        (
            lines(words("unclamp", setup), LEFT + PAD, RIGHT - PAD, bold=True),
            packed(setup.before_unclamp, LEFT + PAD, RIGHT - PAD, mark="tick"),
        ),
        0.8,
    )
    return framed(inside, "double")


def _title(setup: SetupView) -> Block:
    x = LEFT + 16.0
    entry = wrapped(setup.title, RIGHT - x, TITLE, True)
    more = wrapped(f"Setup {setup.letter}: {setup.machine}", RIGHT - x)
    height = max(13.0, 6.0 * len(entry) + LEAD * len(more) + 1.0)

    def draw(ink: Ink, top: float) -> None:
        ink.box(LEFT, top, 13.0, 12.0, "heavy")
        ink.text(LEFT + 6.5, top + 9.0, setup.letter, 24.0, bold=True, anchor="middle")
        y = top + 4.6
        for line in entry:
            ink.text(x, y, line, TITLE, bold=True)
            y += 6.0
        for line in more:
            ink.text(x, y - 0.4, line)
            y += LEAD

    return Block(height=height, draw=draw)


def _sketch(view: SketchView) -> Block:
    left = RIGHT - SKETCH_WIDTH

    def draw(ink: Ink, top: float) -> None:
        ink.box(left, top, SKETCH_WIDTH, SKETCH_HEIGHT)
        ink.items.extend(sketch(view, left, top, SKETCH_WIDTH, SKETCH_HEIGHT))
        if view.live_centre:
            ink.text(RIGHT - 2.0, top + NOTE_CAP + 1.5, "live centre", NOTE, anchor="end")

    return Block(height=SKETCH_HEIGHT, draw=draw)
