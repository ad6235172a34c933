"""A wall chart of one page, as large as it can be set.

Units    mm from the top left corner of the layout area, y down; sizes of type in points.
Sizes    read from 1000 mm: capitals of 6 mm where they fit, of 4 mm at least, in all that stands on the page
         (0.006 and 0.004 of the distance, docs/sheet-face.md).
"""

from msgspec import Struct

from jobsheets.lookup.charts import Chart
from jobsheets.sheet import face
from jobsheets.sheet.display import AREA_HEIGHT, AREA_WIDTH, Item, Line, Page, Style, Text

WANTED_CAPITALS = 6.0
LEAST_CAPITALS = 4.0
STEP = 0.1
MOST_PANELS = 5
LEFT, TOP = 12.0, 10.0
RIGHT, BOTTOM = AREA_WIDTH - LEFT, AREA_HEIGHT - TOP
TITLE_CAPITALS = 7.0
ROW, MOST_ROW = (
    1.6,
    2.4,
)  # from baseline to baseline, in heights of the capitals: least, and with room to spare
CELL_GAP, MOST_CELL_GAP = 1.0, 4.0  # between cells of a row, in heights of the capitals
PANEL_GAP = 8.0


class Setting(Struct, frozen=True, kw_only=True):
    """How a chart is set: capitals, panels beside each other, and where the cells of a row begin."""

    capitals: float
    panels: int
    rows: int  # in a panel
    widths: tuple[float, ...]  # of the cells, mm
    gap: float  # between cells
    pitch: float  # from baseline to baseline

    @property
    def size(self) -> float:
        return face.size_for_capitals(self.capitals)

    @property
    def width(self) -> float:
        return sum(self.widths) + self.gap * (len(self.widths) - 1)


def page(chart: Chart) -> Page:
    """Lay a chart out on one page.

    Args:
        chart: from `lookup.charts`.

    Raises:
        ValueError: too many or too long rows to be read from a metre away; how many there are is said.
    """
    setting = _setting(chart)
    items: list[Item] = [
        Text(
            x=LEFT,
            y=TOP + TITLE_CAPITALS,
            text=chart.title,
            size=face.size_for_capitals(TITLE_CAPITALS),
            bold=True,
        )
    ]
    top = TOP + TITLE_CAPITALS + 3.0
    items.append(Line(x1=LEFT, y1=top, x2=RIGHT, y2=top, style="heavy"))
    stride = (RIGHT - LEFT + PANEL_GAP) / setting.panels
    for panel in range(setting.panels):
        rows = chart.rows[panel * setting.rows : (panel + 1) * setting.rows]
        if rows:
            items += _panel(chart.head, rows, setting, LEFT + panel * stride, top)
    items += _notes(chart)
    return Page(items=tuple(items), title=chart.title)


def _setting(chart: Chart) -> Setting:
    """The largest type at which everything stands on the page; of equal ones the fewest panels."""
    steps = round((WANTED_CAPITALS - LEAST_CAPITALS) / STEP)
    for step in range(steps + 1):
        capitals = WANTED_CAPITALS - step * STEP
        for panels in range(1, MOST_PANELS + 1):
            setting = _try(chart, capitals, panels)
            if setting is not None:
                return setting
    raise ValueError(
        f"{len(chart.rows)} rows are too many for one page at {LEAST_CAPITALS:g} mm capitals, the least that "
        "can be read from a metre away; want a chart limited to a shop's own tools"
    )


def _try(chart: Chart, capitals: float, panels: int) -> Setting | None:
    size = face.size_for_capitals(capitals)
    columns = zip(chart.head, *chart.rows, strict=True)
    widths = tuple(
        max(face.width(text, size, bold=n == 0 or place == 0) for place, text in enumerate(column))
        for n, column in enumerate(columns)
    )
    rows = -(-len(chart.rows) // panels)
    stride = (RIGHT - LEFT - (panels - 1) * PANEL_GAP) / panels
    gap = (stride - sum(widths)) / max(1, len(widths) - 1) / capitals
    high = BOTTOM - TOP - TITLE_CAPITALS - 5.0 - len(_note_lines(chart)) * LEAST_CAPITALS * ROW - 3.0
    pitch = high / (rows + 1) / capitals
    if gap < CELL_GAP or pitch < ROW:
        return None
    return Setting(
        capitals=capitals,
        panels=panels,
        rows=rows,
        widths=widths,
        gap=capitals * min(gap, MOST_CELL_GAP),
        pitch=capitals * min(pitch, MOST_ROW),
    )


def _panel(
    head: tuple[str, ...], rows: tuple[tuple[str, ...], ...], setting: Setting, left: float, top: float
) -> list[Item]:
    """Head and rows of one panel; the first cell is bold, the others end at their right edge."""
    items: list[Item] = []
    for place, cells in enumerate((head, *rows)):
        y = top + (place + 1) * setting.pitch
        x = left
        for n, (text, width) in enumerate(zip(cells, setting.widths, strict=True)):
            bold = n == 0 or place == 0
            if n == 0:
                items.append(Text(x=x, y=y, text=text, size=setting.size, bold=bold))
            elif text:
                items.append(Text(x=x + width, y=y, text=text, size=setting.size, bold=bold, anchor="end"))
            x += width + setting.gap
        under = y + (setting.pitch - setting.capitals) / 2.0
        style: Style = "visible" if place == 0 else "thin"
        items.append(Line(x1=left, y1=under, x2=left + setting.width, y2=under, style=style))
    return items


def _note_lines(chart: Chart) -> list[str]:
    size = face.size_for_capitals(LEAST_CAPITALS)
    return [line for note in chart.notes for line in face.wrap(note, RIGHT - LEFT, size)]


def _notes(chart: Chart) -> list[Item]:
    lines = _note_lines(chart)
    pitch, size = LEAST_CAPITALS * ROW, face.size_for_capitals(LEAST_CAPITALS)
    first = BOTTOM - (len(lines) - 1) * pitch - 1.0
    return [Text(x=LEFT, y=first + n * pitch, text=line, size=size) for n, line in enumerate(lines)]


def pdf(chart: Chart, paper: str) -> bytes:
    """The chart as a PDF file of one page; the same chart gives the same bytes.

    Args:
        chart: from `lookup.charts`.
        paper: "letter" or "a4".

    Raises:
        ValueError: as for `page`.
    """
    from jobsheets.sheet import pdf as writer

    return writer.pdf(
        [page(chart)], title=chart.title, subject="wall chart", paper="a4" if paper == "a4" else "letter"
    )
