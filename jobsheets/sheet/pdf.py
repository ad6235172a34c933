"""Display list to PDF bytes, by the PDF library's canvas.

The bytes depend on the pages and the arguments alone: no clock, path, random identifier or order of a set.
"""

from collections.abc import Iterable
from functools import cache
from io import BytesIO
from math import ceil, cos, radians, sin, tan
from typing import TYPE_CHECKING, Literal

from jobsheets.sheet import face
from jobsheets.sheet.display import (
    DOUBLE_GAP,
    STROKES,
    Arc,
    Box,
    Circle,
    Fill,
    Frame,
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

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

Paper = Literal["letter", "a4"]
PAPERS: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}  # mm
FRAMES: dict[Frame, Style | None] = {"none": None, "single": "thin", "double": "thin", "heavy": "heavy"}
POINTS_PER_MM = 72.0 / 25.4


@cache
def _prepare() -> None:
    """Give the library the two weights and its settings, once in a process."""
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    rl_config.useA85 = 0  # binary streams: a fifth smaller and faster
    for bold, name in face.NAMES.items():
        # Only the characters that are used go into the file, not all of ASCII.
        pdfmetrics.registerFont(TTFont(name, str(face.FILES[bold]), asciiReadable=False))


class _Painter:
    """Paints one page. Lines of one style become one path, so that the state changes once for each style."""

    def __init__(self, canvas: "Canvas", left: float, height: float) -> None:
        self.canvas = canvas
        self.left = left  # of the layout area on the paper, mm
        self.height = height  # of the area's top edge above the paper's bottom edge, mm
        self.paths: dict[Style, list[str]] = {}
        self.texts: list[Text] = []

    def paint(self, items: Iterable[Item]) -> None:
        for item in items:
            self._take(item)
        for style, paths in sorted(self.paths.items()):
            stroke = STROKES[style]
            dash = " ".join(f"{length * POINTS_PER_MM:.2f}" for length in stroke.dash)
            self.canvas.addLiteral(f"{stroke.width * POINTS_PER_MM:.3f} w [{dash}] 0 d")
            self.canvas.addLiteral("\n".join(paths) + " S")
        if self.texts:
            self._write()

    def _take(self, item: Item) -> None:
        match item:
            case Text():
                self.texts.append(item)
            case Line():
                self._trace(item.style, self._points(((item.x1, item.y1), (item.x2, item.y2))))
            case Polyline():
                self._trace(item.style, self._points(item.points))
            case Polygon():
                self._shape(self._points(item.points) + " h", item.style, item.fill)
            case Hatch():
                for x1, y1, x2, y2 in hatch_lines(item):
                    self._trace("thin", self._points(((x1, y1), (x2, y2))))
            case Arc():
                self._trace(item.style, self._round(item.cx, item.cy, item.r, item.start, item.sweep))
            case Circle():
                self._shape(self._round(item.cx, item.cy, item.r, 0.0, 360.0) + " h", item.style, item.fill)
            case Box():
                self._box(item)

    def _x(self, x: float) -> float:
        return (self.left + x) * POINTS_PER_MM

    def _y(self, y: float) -> float:
        return (self.height - y) * POINTS_PER_MM

    def _points(self, points: Iterable[Point]) -> str:
        """Moves to the first point and lines to the others."""
        # Written out here, not by the library's path object: formatting numbers is most of a page's cost.
        left, height = self.left, self.height
        return (
            " l ".join(
                f"{(left + x) * POINTS_PER_MM:.2f} {(height - y) * POINTS_PER_MM:.2f}" for x, y in points
            ).replace(" l ", " m ", 1)
            + " l"
        )

    def _trace(self, style: Style, path: str) -> None:
        self.paths.setdefault(style, []).append(path)

    def _shape(self, path: str, style: Style | None, fill: Fill) -> None:
        """A closed path: the fill is painted at once, the outline with all lines of its style."""
        if fill != "none":
            self.canvas.addLiteral(f"{int(fill == 'white')} g {path} f")
        if style is not None:
            self._trace(style, path)

    def _round(self, cx: float, cy: float, r: float, start: float, sweep: float) -> str:
        """A circular arc by cubic curves of at most 90 degrees; off by less than 0.03 % of the radius."""
        x, y, r = self._x(cx), self._y(cy), r * POINTS_PER_MM
        count = max(1, ceil(abs(sweep) / 90.0 - 1e-9))
        step = radians(sweep / count)
        reach = 4.0 / 3.0 * tan(step / 4.0)
        a = radians(start)
        c, s = cos(a), sin(a)
        parts = [f"{x + r * c:.2f} {y + r * s:.2f} m"]
        for k in range(1, count + 1):
            d, t = cos(a + k * step), sin(a + k * step)
            parts.append(
                f"{x + r * (c - reach * s):.2f} {y + r * (s + reach * c):.2f} "
                f"{x + r * (d + reach * t):.2f} {y + r * (t - reach * d):.2f} "
                f"{x + r * d:.2f} {y + r * t:.2f} c"
            )
            c, s = d, t
        return " ".join(parts)

    def _rectangle(self, box: Box, inset: float = 0.0) -> str:
        x, y = self._x(box.x + inset), self._y(box.y + box.height - inset)
        wide, high = box.width - 2.0 * inset, box.height - 2.0 * inset
        return f"{x:.2f} {y:.2f} {wide * POINTS_PER_MM:.2f} {high * POINTS_PER_MM:.2f} re"

    def _box(self, box: Box) -> None:
        self._shape(self._rectangle(box), FRAMES[box.frame], box.fill)
        if box.frame == "double":
            self._trace("thin", self._rectangle(box, DOUBLE_GAP))

    def _write(self) -> None:
        """One text object holds all the text of a page, in reading order."""
        self.canvas.setFillGray(0.0)
        writer = self.canvas.beginText()
        font: tuple[bool, float] | None = None
        for item in self.texts:
            if font != (item.bold, item.size):
                font = (item.bold, item.size)
                writer.setFont(face.NAMES[item.bold], item.size)
            x, y = self._x(item.x), self._y(item.y)
            back = 0.0
            if item.anchor != "start":
                share = 0.5 if item.anchor == "middle" else 1.0
                back = share * face.width(item.text, item.size, bold=item.bold) * POINTS_PER_MM
            else:
                face.check(item.text)
            if item.rotate:
                c, s = cos(radians(item.rotate)), sin(radians(item.rotate))
                writer.setTextTransform(c, s, -s, c, round(x - back * c, 2), round(y - back * s, 2))
            else:
                writer.setTextOrigin(round(x - back, 2), y)
            writer.textLine(item.text)
        self.canvas.drawText(writer)


def pdf(
    pages: Iterable[Page],
    *,
    title: str,
    subject: str = "",
    paper: Paper = "letter",
    language: str = "en",
) -> bytes:
    """Write pages as one PDF file.

    Args:
        pages: pages of one size; they may be made while they are written.
        title: name of the file that a viewer shows in its title bar.
        subject: what it is about; may be empty.
        paper: the layout is put in its middle and is never scaled.
        language: language of the text, as in BCP 47.

    Returns:
        The file's bytes, the same for the same pages and arguments.

    Raises:
        ValueError: a text holds a character the face lacks, or a page is larger than the paper.
    """
    from reportlab.pdfgen.canvas import Canvas

    _prepare()
    width, height = PAPERS[paper]
    target = BytesIO()
    canvas = Canvas(
        target,
        pagesize=(width * POINTS_PER_MM, height * POINTS_PER_MM),
        pageCompression=1,
        invariant=1,
        lang=language,
    )
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor("")
    canvas.setCreator("jobsheets")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    for page in pages:
        if page.width > width + 0.01 or page.height > height + 0.01:
            raise ValueError(
                f"a page of {page.width:g} x {page.height:g} mm does not fit {paper}: lay it out smaller"
            )
        left, top = (width - page.width) / 2.0, (height - page.height) / 2.0
        _Painter(canvas, left, height - top).paint(page.items)
        canvas.showPage()
    canvas.save()
    return target.getvalue()
