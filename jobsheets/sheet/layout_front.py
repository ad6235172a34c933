"""First page: what the part is, what to saw, what to measure first, what to lay out, what to beware of."""

from jobsheets.sheet import drafting, face
from jobsheets.sheet.display import Drawing, moved
from jobsheets.sheet.layout import (
    DIAL,
    DIAL_CAP,
    GAP,
    LEAD,
    LEFT,
    NOTE,
    NOTE_CAP,
    PAD,
    RIGHT,
    WIDTH,
    Block,
    Ink,
    beside,
    framed,
    heading,
    joined,
    lines,
    packed,
    space,
    wrapped,
)
from jobsheets.sheet.view_values import Head, KitView, MateView, SheetView, StockView
from jobsheets.sheet.wording import lines as words

DRAWING_HEIGHT = 107.0
NARROW = 120.0  # width of the drawing's frame beside the stock
LARGE = (5.0, 4.0, 3.0, 2.0)  # scales that are worth a narrow frame
BARS = 11.0  # room that each of the two bars takes inside the drawing's frame
MIDDLE = (LEFT + RIGHT) / 2.0
WHOLE_KIT = 55.0  # mm; a longer list of tools goes onto the page in two parts


def blocks(sheet: SheetView, drawing: Drawing, width: float) -> tuple[Block, ...]:
    """Blocks of the front, in the order of reading. `drawing` was made for `drawing_area(width)`."""
    parts = [strip(sheet.head), *_sized(sheet, drawing, width)]
    parts += [_mate(m) for m in sheet.mates]
    parts += [_first_words(sheet), *_kit(sheet.kit)]
    parts += _findings(sheet)
    return tuple(p for p in parts if p.height > 0.0)


def drawing_area(width: float) -> tuple[float, float, float, float]:
    """Left, top, width and height that the part drawing has in a frame of this width."""
    return LEFT + 2.0, 2.0, width - BARS - 4.0, DRAWING_HEIGHT - BARS - 4.0


def strip(head: Head) -> Block:
    """Title strip: the name large, the rest as labels and values in two columns."""
    title = wrapped(head.title, WIDTH - 74.0, 19.0, True)
    top_height = 8.4 * len(title) + 1.6
    left = _pairs((("recipe", head.part), ("bar", head.bar), ("machine", head.machine)), LEFT, LEFT + 112.0)
    right = _pairs(
        (("units", head.units), ("revision", head.revision), ("plan", head.fingerprint)), LEFT + 115.0, RIGHT
    )
    body = beside(left, right)

    def draw(ink: Ink, top: float) -> None:
        for n, line in enumerate(title):
            ink.text(LEFT, top + 6.6 + n * 8.4, line, 19.0, bold=True)
        ink.box(RIGHT - 38.0, top, 38.0, 9.0, "heavy")
        ink.text(RIGHT - 19.0, top + 6.7, head.status, DIAL, bold=True, anchor="middle")
        body.draw(ink, top + top_height)

    return Block(height=top_height + body.height + 2.0, draw=draw)


def _pairs(pairs: tuple[tuple[str, str], ...], x: float, right: float) -> Block:
    label = max(face.width(name, NOTE) for name, _ in pairs) + 2.5
    entries = [(name, wrapped(value, right - x - label, NOTE, True)) for name, value in pairs]

    def draw(ink: Ink, top: float) -> None:
        y = top + NOTE_CAP
        for name, value in entries:
            ink.text(x, y, name)
            for line in value:
                ink.text(x + label, y, line, bold=True)
                y += LEAD

    return Block(height=LEAD * sum(len(value) for _, value in entries), draw=draw)


def _sized(sheet: SheetView, drawing: Drawing, width: float) -> tuple[Block, ...]:
    """The drawing, what to saw and the inputs: beside each other where the drawing is narrow."""
    frame = _drawing(drawing, sheet.system, width)
    if width < WIDTH:
        x = LEFT + width + 4.0
        side = joined((_stock(sheet.stock, x, RIGHT), _inputs(sheet, x, RIGHT)))
        return beside(frame, side), space(GAP)
    pair = beside(_stock(sheet.stock, LEFT, MIDDLE - 4.0), _inputs(sheet, MIDDLE + 2.0, RIGHT))
    return frame, space(GAP), pair


def _drawing(drawing: Drawing, system: str, width: float) -> Block:
    """The part in its frame, with two bars that tell whether the printer kept the size."""
    inch = system == "in"
    across = 101.6 if inch else 100.0

    def draw(ink: Ink, top: float) -> None:
        ink.box(LEFT, top, width, DRAWING_HEIGHT, "heavy")
        ink.items.extend(moved(drawing, 0.0, top))
        bar = drafting.scale_bar(LEFT + 4.0, top + DRAWING_HEIGHT - 6.5, inch=inch)
        ink.items.extend(bar)
        upright = top + (DRAWING_HEIGHT - across) / 2.0
        ink.items.extend(drafting.scale_bar(LEFT + width - 6.5, upright, upright=True, inch=inch))

    return Block(height=DRAWING_HEIGHT, draw=draw)


def _mate(mate: MateView) -> Block:
    """Hold point before anything is cut: the reading of the mate, the rule, and the rule worked out."""
    x, right = LEFT + PAD, RIGHT - PAD
    if mate.measured:
        return joined((framed(lines(words("mate", mate), x, right, lead="FITS"), "double"), space(GAP)))
    said = words("mate", mate)
    first = lines(said[:1], x, right - 60.0, lead="HOLD", bold=True)
    rule = lines(said[1:], x, right - 60.0)
    other = lines(words("mate_other", mate), x, right)
    top_height = max(first.height + rule.height, 12.0)
    cell = (right - x - 24.0) / len(mate.table)

    def draw(ink: Ink, top: float) -> None:
        first.draw(ink, top)
        rule.draw(ink, top + first.height)
        ink.text(right - 33.0, top + 6.8, f"read, {mate.unit}", anchor="end")
        ink.box(right - 32.0, top, 32.0, 10.4)
        y = top + top_height + NOTE_CAP + 1.4
        for n, (reading, target) in enumerate(mate.table):
            at = x + 24.0 + n * cell
            ink.text(at, y, reading)
            ink.text(at, y + LEAD + 1.6, target, bold=True)
        ink.text(x, y, "reading")
        ink.line(x, y + 1.6, right, y + 1.6)
        ink.text(x, y + LEAD + 1.6, "target", bold=True)
        other.draw(ink, y + LEAD + 3.2)

    height = top_height + 2.0 * LEAD + 5.4 + other.height
    return joined((framed(Block(height=height, draw=draw), "double"), space(GAP)))


def _stock(stock: StockView, x: float, right: float) -> Block:
    """The sum, one term a line, so that a slip of the saw is seen before it is made."""
    body = LEAD * len(stock.terms) + DIAL_CAP + 4.0

    def draw(ink: Ink, top: float) -> None:
        y = top + NOTE_CAP + 0.6
        for term in stock.terms:
            ink.text(x, y, term.label)
            ink.text(right, y, term.value, anchor="end")
            y += LEAD
        ink.line(x, y - NOTE_CAP + 0.2, right, y - NOTE_CAP + 0.2)
        ink.text(x, y + 3.2, "saw to", bold=True)
        ink.text(right, y + 3.2, stock.length, DIAL, bold=True, anchor="end")

    more = lines(words("stock", stock), x, right)
    return joined((heading("Stock to cut", x, right), Block(height=body, draw=draw), more, space(GAP)))


def _inputs(sheet: SheetView, x: float, right: float) -> Block:
    """Inputs as they were used; those that were set for this sheet are marked."""
    rows = [f"{i.name} = {i.value}{' (set for this sheet)' if i.given else ''}" for i in sheet.inputs]
    if not rows:
        return space(0.0)
    return joined((heading("Inputs used", x, right), lines(rows, x, right), space(GAP)))


def _first_words(sheet: SheetView) -> Block:
    return joined((lines(words("first", sheet)), space(1.0)))


def _kit(kit: tuple[KitView, ...]) -> tuple[Block, ...]:
    """Tools in the order in which the hand wants them, in columns that read down.

    A long list has what measures apart, so that it need not leave half a page empty.
    """
    whole = _listed("Lay out, in the order of use", [_tool(k) for k in kit])
    if whole.height <= WHOLE_KIT:
        return (whole,)
    tools = [_tool(k) for k in kit if not k.measures]
    gauges = [_tool(k) for k in kit if k.measures]
    return _listed("Lay out, in the order of use", tools), _listed("To measure with", gauges)


def _listed(title: str, entries: list[str]) -> Block:
    if not entries:
        return space(0.0)
    return joined((heading(title), packed(entries, mark="tick"), space(GAP)))


def _tool(kit: KitView) -> str:
    used = f" ({kit.used_by})" if kit.used_by else ""
    note = f": {kit.note}" if kit.note else ""
    return f"{kit.label}{used}{note}"


def _findings(sheet: SheetView) -> list[Block]:
    """Cautions of the whole part in one frame; then remarks and choices as plain lines."""
    result = []
    cautions = _said(sheet, "caution")
    if cautions:
        text = lines(cautions, LEFT + PAD, RIGHT - PAD, lead="CAUTION", mark="dash")
        result += [framed(text, "single"), space(1.6)]
    notes = [*_said(sheet, "note"), *sheet.notes]
    if notes:
        first, *rest = (lines([note], mark="dash") for note in notes)  # a page break may stand between two
        result += [joined((heading("Choices and remarks"), first)), *rest, space(1.0)]
    return result


def _said(sheet: SheetView, severity: str) -> list[str]:
    return [line for f in sheet.findings if f.severity == severity for line in words("finding", f)]
