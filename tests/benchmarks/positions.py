"""Ready positions for the yardstick: calls of canvas methods, as plain values that marshal can hold."""

from collections.abc import Iterable

from jobsheets.sheet import face, pdf
from jobsheets.sheet.display import (
    STROKES,
    Arc,
    Box,
    Circle,
    Hatch,
    Item,
    Line,
    Page,
    Point,
    Polygon,
    Polyline,
    Style,
    Text,
)
from jobsheets.sheet.hatching import hatch_lines

Call = tuple[str, tuple[object, ...]]
FACES = {name: str(face.FILES[bold]) for bold, name in face.NAMES.items()}


def of(pages: Iterable[Page], paper: pdf.Paper) -> dict[str, object]:
    """The pages of a sheet as calls, for the same paper."""
    width, height = pdf.PAPERS[paper]
    size = (width * pdf.POINTS_PER_MM, height * pdf.POINTS_PER_MM)
    return {"size": size, "faces": FACES, "pages": [Calls(page, width, height).made() for page in pages]}


class Calls:
    """One page; line widths, dashes and fonts are set where they change, as a careful script would."""

    def __init__(self, page: Page, width: float, height: float) -> None:
        self.page = page
        self.left = (width - page.width) / 2.0
        self.top = height - (height - page.height) / 2.0
        self.calls: list[Call] = []
        self.style: Style | None = None
        self.font: tuple[str, float] | None = None

    def made(self) -> list[Call]:
        for item in self.page.items:
            if not isinstance(item, Text):
                self.draw(item)
        self.add("setFillGray", 0.0)
        for item in self.page.items:
            if isinstance(item, Text):
                self.text(item)
        return self.calls

    def add(self, name: str, *arguments: object) -> None:
        self.calls.append((name, arguments))

    def at(self, x: float, y: float) -> Point:
        scale = pdf.POINTS_PER_MM
        return round((self.left + x) * scale, 2), round((self.top - y) * scale, 2)

    def use(self, style: Style | None) -> None:
        if style is not None and style != self.style:
            self.style = style
            self.add("setLineWidth", STROKES[style].width * pdf.POINTS_PER_MM)
            self.add("setDash", [length * pdf.POINTS_PER_MM for length in STROKES[style].dash])

    def draw(self, item: Item) -> None:
        match item:
            case Line():
                self.use(item.style)
                self.add("line", *self.at(item.x1, item.y1), *self.at(item.x2, item.y2))
            case Polyline():
                self.use(item.style)
                self.shape(item.points, False, 1, 0)
            case Polygon():
                self.use(item.style)
                self.gray(item.fill)
                self.shape(item.points, True, int(item.style is not None), int(item.fill != "none"))
            case Hatch():
                self.use("thin")
                for x1, y1, x2, y2 in hatch_lines(item):
                    self.add("line", *self.at(x1, y1), *self.at(x2, y2))
            case Arc() | Circle():
                self.round(item)
            case Box():
                self.box(item)

    def shape(self, points: Iterable[Point], close: bool, outline: int, fill: int) -> None:
        self.add("shape", [self.at(*point) for point in points], close, outline, fill)

    def gray(self, fill: str) -> None:
        if fill != "none":
            self.add("setFillGray", float(fill == "white"))

    def round(self, item: Arc | Circle) -> None:
        self.use(item.style)
        x, y, r = *self.at(item.cx, item.cy), item.r * pdf.POINTS_PER_MM
        if isinstance(item, Arc):
            self.add("arc", x - r, y - r, x + r, y + r, item.start, item.sweep)
            return
        self.gray(item.fill)
        self.add("circle", x, y, r, int(item.style is not None), int(item.fill != "none"))

    def box(self, item: Box) -> None:
        style = pdf.FRAMES[item.frame]
        self.use(style)
        self.gray(item.fill)
        for inset in (0.0, pdf.DOUBLE_GAP) if item.frame == "double" else (0.0,):
            x, y = self.at(item.x + inset, item.y + item.height - inset)
            wide, high = ((size - 2.0 * inset) * pdf.POINTS_PER_MM for size in (item.width, item.height))
            self.add("rect", x, y, wide, high, int(style is not None), int(item.fill != "none"))

    def text(self, item: Text) -> None:
        if self.font != (face.NAMES[item.bold], item.size):
            self.font = face.NAMES[item.bold], item.size
            self.add("setFont", *self.font)
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor]
        back = share * face.width(item.text, item.size, bold=item.bold)
        if not item.rotate:
            self.add("drawString", *self.at(item.x - back, item.y), item.text)
            return
        self.add("saveState")
        self.add("translate", *self.at(item.x, item.y))
        self.add("rotate", item.rotate)
        self.add("drawString", round(-back * pdf.POINTS_PER_MM, 2), 0.0, item.text)
        self.add("restoreState")
