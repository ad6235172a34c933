"""One holding on paper: start list beside the sketch, handwheels, and what to see to before unclamping."""

from jobsheets.sheet import face
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

SKETCH_WIDTH, SKETCH_HEIGHT = 84.0, 45.0
LETTER = 20.0  # points, of the letter of a setup
BLANK = ": ____."  # ends a line that asks for a size
WRITE, WRITE_HIGH = 20.0, 6.4  # box for a size that is written
MIDDLE = RIGHT - SKETCH_WIDTH - 4.0


def head(setup: SetupView) -> Block:
    """Everything that is done before the first operation of the holding."""
    start = (*words("start", setup), *words("as_before", setup))
    blocks = [_title(setup), *_start(start, setup.sketch)]
    warned = [line for finding in setup.findings for line in words("finding", finding)]
    warned += words("cautions", setup.cautions) if setup.cautions else ()
    if warned:
        blocks.append(framed(lines(warned, LEFT + PAD, RIGHT - PAD, lead="CAUTION"), "single"))
    dials = [line for dial in setup.dials for line in words("dial", dial)]
    if dials:
        blocks.append(packed(dials))
        blocks.append(lines((" ".join((*words("ways", setup.dials), *words("past", setup.dials))),)))
    return joined((*blocks, space(0.6)), 1.6)


def _start(said: tuple[str, ...], drawn: SketchView | None) -> tuple[Block, ...]:
    """The start list beside the sketch; what does not fit there goes below it, in two columns."""
    if drawn is None:
        return (packed(said, mark="tick"),)
    left: list[Block] = []
    for n, line in enumerate(said):
        block = _written(line, MIDDLE) if line.endswith(BLANK) else lines((line,), LEFT, MIDDLE, mark="tick")
        if left and sum(b.height for b in left) + block.height > SKETCH_HEIGHT + LEAD:
            return beside(joined(left), _sketch(drawn)), packed(said[n:], mark="tick")
        left.append(block)
    return (beside(joined(left), _sketch(drawn)),)


def _written(said: str, right: float) -> Block:
    """A line of the start list that asks for a size, with the box to write it in below."""
    entry = lines((said.removesuffix(BLANK) + ":",), LEFT, right - WRITE - 2.0, mark="tick")

    def draw(ink: Ink, top: float) -> None:
        entry.draw(ink, top)
        ink.box(right - WRITE, top + 0.4, WRITE, WRITE_HIGH)

    return Block(height=max(entry.height, WRITE_HIGH + 1.2), draw=draw)


def again(setup: SetupView, page: int) -> Block:
    """Head of a further page of the same setup, on one line; `page` is where its sketch stands."""
    said = " ".join(words("continued", setup, page))
    entry = wrapped(said, RIGHT - LEFT - 11.0)

    def draw(ink: Ink, top: float) -> None:
        ink.box(LEFT, top, 8.0, 7.6, "heavy")
        ink.text(LEFT + 4.0, top + 5.8, setup.letter, TITLE, bold=True, anchor="middle")
        for n, line in enumerate(entry):
            ink.text(LEFT + 11.0, top + 5.4 + n * LEAD, line)

    return Block(height=9.0 + LEAD * (len(entry) - 1), draw=draw)


def before_unclamp(setup: SetupView) -> Block | None:
    """Stop: what cannot be reached once the work is out. None where nothing is lost by it."""
    if not (setup.before_unclamp or setup.written):
        return None
    inside = joined(
        (
            lines(words("unclamp", setup), LEFT + PAD, RIGHT - PAD, bold=True),
            packed(words("before_unclamp", setup), LEFT + PAD, RIGHT - PAD, mark="tick"),
        ),
        0.8,
    )
    return framed(inside, "double")


def _title(setup: SetupView) -> Block:
    x = LEFT + 12.5
    entry = wrapped(setup.title, RIGHT - x, TITLE, True)
    said = setup.machine
    near = face.width(entry[-1], TITLE, bold=True) + 5.0 + face.width(said, NOTE) <= RIGHT - x
    more = () if near else wrapped(said, RIGHT - x)
    height = max(11.0, 6.0 * len(entry) + LEAD * len(more) + 3.0)

    def draw(ink: Ink, top: float) -> None:
        ink.box(LEFT, top, 9.6, 9.6, "heavy")
        ink.text(LEFT + 4.8, top + 7.4, setup.letter, LETTER, bold=True, anchor="middle")
        y = top + 6.6
        for line in entry:
            ink.text(x, y, line, TITLE, bold=True)
            y += 6.0
        if near:
            ink.text(RIGHT, y - 6.0, said, anchor="end")
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
