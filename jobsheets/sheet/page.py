"""A plan on paper: blocks put on pages, each page with its head, its place to stop and its room to write."""

from msgspec import Struct, field

from jobsheets.planner.operation import Plan
from jobsheets.sheet import face, layout_front, layout_operation, layout_records, layout_setup, part_drawing
from jobsheets.sheet.display import Drawing, Item, Page
from jobsheets.sheet.layout import BOTTOM, GAP, LEFT, NOTE, NOTE_CAP, RIGHT, TOP, WIDTH, Block, Ink, ruled
from jobsheets.sheet.layout_operation import Flow
from jobsheets.sheet.pdf import Paper
from jobsheets.sheet.view import view
from jobsheets.sheet.view_values import Head, SetupView, SheetView

HEAD = 8.2  # height of the head of every page but the first
FOOT = 9.0  # the line where the work was stopped
WRITING = 12.0  # least room to write on a page; with boxes and leftovers a quarter of the sheet
FLOOR = BOTTOM - FOOT - WRITING  # where blocks must end
SEPARATE = 6.0  # between the last operation and the records on one page
PITCH = 8.0  # of the lines to write on
FEWEST = 3  # rows of an operation that stand together on each side of a page break
MANY = 2 * FEWEST  # an operation with so many rows may be parted by a page break


class Pager(Struct):
    """Fills pages from the top; a block is placed whole."""

    pages: list[Ink] = field(default_factory=list)
    y: float = 0.0
    ends: list[float] = field(default_factory=list)

    def turn(self, start: float = TOP + HEAD) -> None:
        if self.pages:
            self.ends.append(self.y)
        self.pages.append(Ink([]))
        self.y = start

    def room(self) -> float:
        return FLOOR - self.y

    def put(self, block: Block) -> None:
        block.draw(self.pages[-1], self.y)
        self.y += block.height

    def place(self, block: Block, below: float = 0.0) -> None:
        """Put a block on this page, or on a new one where it does not fit.

        `below` is how far it may reach into the room to write, for blocks that are themselves room to write.
        """
        if block.height > self.room() + below + 1e-6:
            self.turn()
        self.put(block)


def pages(plan: Plan, system: str, *, fingerprint: str, figures: bool = False) -> tuple[Page, ...]:
    """Lay a plan out.

    Args:
        plan: a plan that was proven by replay.
        system: "in" or "mm", for the whole sheet.
        fingerprint: short text that changes when the plan does.
        figures: add pages with every figure and its reason.

    Returns:
        Pages of one size that print unscaled on letter and A4.

    Raises:
        ValueError: a unit system that is neither of the two, or a character that the face lacks.
    """
    sheet = view(plan, system, fingerprint, figures=figures)
    drawing, width = _drawing(plan, system)
    pager = Pager()
    pager.turn(TOP)
    for block in layout_front.blocks(sheet, drawing, width):
        pager.place(block)
    for setup in sheet.setups:
        _setup(pager, setup)
    _records(pager, sheet)
    pager.ends.append(pager.y)
    return _finished(pager, sheet.head)


def _drawing(plan: Plan, system: str) -> tuple[Drawing, float]:
    """The part drawing and the width of its frame: narrow where it is still large."""
    try:
        room = layout_front.drawing_area(layout_front.NARROW)
        return part_drawing.draw(plan.part, system, *room, layout_front.LARGE), layout_front.NARROW
    except ValueError:
        room = layout_front.drawing_area(WIDTH)
        return part_drawing.draw(plan.part, system, *room), WIDTH


def _setup(pager: Pager, setup: SetupView) -> None:
    """A holding begins where its head and its first operation fit; its sketch stays beside its start list."""
    flows = tuple(map(layout_operation.flow, setup.operations))
    head = layout_setup.head(setup)
    if head.height + GAP > pager.room():
        pager.turn()
    elif pager.y > TOP + HEAD:
        pager.y += GAP
    pager.put(head)
    again = layout_setup.again(setup, len(pager.pages))
    for flow in flows:
        _operation(pager, flow, again)
    last = layout_setup.before_unclamp(setup)
    if last is not None:
        if last.height + 1.5 > pager.room() + WRITING:
            _continue(pager, again)
        pager.y += 1.5
        pager.put(last)


def _continue(pager: Pager, again: Block) -> None:
    pager.turn()
    pager.put(again)


def _operation(pager: Pager, flow: Flow, again: Block) -> None:
    """Whole where it fits; one with many rows may part between them, its last rows with its hold points."""
    whole = FLOOR - TOP - HEAD - again.height
    small = len(flow.rows) < MANY and flow.height <= whole
    if flow.height > pager.room() and (small or _least(flow) > pager.room()):
        _continue(pager, again)
    pager.put(flow.head)
    pager.put(flow.table_head)
    last = max(len(flow.rows) - FEWEST, 0)
    for n, row in enumerate(flow.rows):
        # The last rows and the hold points go over together.
        needed = sum(r.height for r in flow.rows[n:]) + flow.tail.height if n == last else row.height
        if needed > pager.room() + 1e-6 and n > 0:
            _continue(pager, again)
            pager.put(flow.again)
            pager.put(flow.table_head)
        pager.put(row)
    pager.put(flow.tail)


def _least(flow: Flow) -> float:
    """Least room in which an operation may begin."""
    if len(flow.rows) < MANY:
        return flow.height
    return flow.head.height + flow.table_head.height + sum(row.height for row in flow.rows[:FEWEST])


def _records(pager: Pager, sheet: SheetView) -> None:
    """On the page of the last operation where all of it fits, else on a page of its own to carry back."""
    inspection, run = layout_records.inspection(sheet), layout_records.run(sheet)
    height = sum(block.height for block in (*inspection, *run))
    if height + SEPARATE > pager.room() + WRITING - GAP:
        pager.turn()
    else:
        pager.y += SEPARATE
    for block in inspection:
        pager.place(block)
    for block in run:
        pager.place(block, WRITING - GAP)
    blocks = layout_records.figures(sheet)
    if blocks:
        pager.turn()
    for block in blocks:
        pager.place(block)


def _finished(pager: Pager, head: Head) -> tuple[Page, ...]:
    """Head, room to write and the place to stop, now that the number of pages is known."""
    total = len(pager.pages)
    result = []
    for n, (ink, end) in enumerate(zip(pager.pages, pager.ends, strict=True), start=1):
        own = Ink([])
        _head(own, head, n, total)
        room = BOTTOM - FOOT - end - GAP
        if room >= PITCH + 4.0:
            ruled(room, "Room to write", pitch=PITCH).draw(ink, end + GAP)
        _foot(ink)
        items: tuple[Item, ...] = (*own.items, *ink.items)
        result.append(Page(items=items, title=f"{head.title}, page {n} of {total}"))
    return tuple(result)


def _head(ink: Ink, head: Head, page: int, total: int) -> None:
    """On the first page the title strip says the rest."""
    place = f"{head.status}, revision {head.revision}, plan {head.fingerprint}, page {page} of {total}"
    if page == 1:
        ink.text(RIGHT - 42.0, TOP + 6.7, f"page {page} of {total}", anchor="end")
        return
    room = RIGHT - LEFT - face.width(place, NOTE) - 6.0
    name, *more = face.wrap(head.part, room - 3.0, NOTE, bold=True)
    ink.text(LEFT, TOP + NOTE_CAP + 0.6, f"{name}…" if more else name, bold=True)
    ink.text(RIGHT, TOP + NOTE_CAP + 0.6, place, anchor="end")
    ink.line(LEFT, TOP + 5.6, RIGHT, TOP + 5.6, "heavy")


def _foot(ink: Ink) -> None:
    """Where to go on after days: operation, and how the machine was left."""
    y = BOTTOM - 1.6
    ink.line(LEFT, BOTTOM - FOOT + 1.0, RIGHT, BOTTOM - FOOT + 1.0, "visible")
    ink.text(LEFT, y, "Stopped at operation", bold=True)
    ink.blank(LEFT + 51.0, y, 16.0)
    ink.text(LEFT + 70.0, y, "date")
    ink.blank(LEFT + 81.0, y, 26.0)
    ink.text(LEFT + 110.0, y, "belt, tool, zero")
    ink.blank(LEFT + 142.0, y, RIGHT - LEFT - 142.0)


def pdf(
    plan: Plan, system: str, *, fingerprint: str, paper: Paper = "letter", figures: bool = False
) -> bytes:
    """The sheet as a PDF file; the same plan and arguments give the same bytes."""
    from jobsheets.sheet import pdf as writer

    return writer.pdf(
        pages(plan, system, fingerprint=fingerprint, figures=figures),
        title=f"{plan.part.title}, operation sheet",
        subject=f"{plan.part.name}, plan {fingerprint}",
        paper=paper,
    )


def svg(plan: Plan, system: str, *, fingerprint: str, page: int = 1) -> str:
    """One page of the sheet as an SVG picture."""
    from jobsheets.sheet import svg as writer

    return writer.svg(pages(plan, system, fingerprint=fingerprint)[page - 1])
