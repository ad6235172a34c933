"""What stands on a page, as plain values: text, lines, arcs, boxes. Writers turn them into PDF or SVG.

Units    mm from the top left corner of the layout area, x to the right and y down; sizes of type in points;
         angles in degrees, anticlockwise as seen on paper, from the direction of x.
Order    a writer paints fills first, then hatching and lines, then text, each in the order of the list.
         The order of the texts is the reading order.
Lines    names and widths after ISO 128-2 (docs/sheet-face.md): a wide and a narrow line, 2 : 1.
"""

from collections.abc import Iterable
from math import cos, radians, sin
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from jobsheets.sheet import face

AREA_WIDTH = 210.0  # A4 is as wide, letter as high: what keeps inside prints unscaled on both
AREA_HEIGHT = 279.4
UNPRINTED = 6.0  # many desk printers cannot reach the edge

Point = tuple[float, float]
Ring = tuple[Point, ...]
Bounds = tuple[float, float, float, float]  # left, top, right, bottom
Style = Literal["visible", "thin", "hidden", "centre", "phantom", "heavy"]
Fill = Literal["none", "black", "white"]
Anchor = Literal["start", "middle", "end"]
Frame = Literal["none", "single", "double", "heavy"]
Pattern = Literal[
    "steel", "stainless", "brass", "bronze", "nickel_silver", "aluminium", "wood", "other", "knurl"
]


class Stroke(Struct, frozen=True, kw_only=True):
    """How a line style is drawn: width and dashes (line, gap, line, gap ...) in mm."""

    width: float
    dash: tuple[float, ...] = ()


# Dash lengths in line widths are 12 (dash), 24 (long dash), 3 (gap), 0.5 (dot): ISO 128-2, from memory. For
# parts of 6 to 12 mm the dashes are shorter, and a dot is longer than the line is wide, else prints lose it.
STROKES: dict[Style, Stroke] = {
    "visible": Stroke(width=0.5),
    "thin": Stroke(width=0.25),
    "hidden": Stroke(width=0.25, dash=(1.5, 0.75)),
    "centre": Stroke(width=0.25, dash=(4.5, 0.75, 0.4, 0.75)),
    "phantom": Stroke(width=0.25, dash=(4.5, 0.75, 0.4, 0.75, 0.4, 0.75)),
    "heavy": Stroke(width=0.7),
}
DOUBLE_GAP = 0.9  # mm between the middles of the two lines of a double frame


class Text(Struct, frozen=True, kw_only=True):
    """One line of text; `x`, `y` is the anchor on its baseline, about which it is turned."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False
    anchor: Anchor = "start"
    rotate: float = 0.0


class Line(Struct, frozen=True, kw_only=True):
    x1: float
    y1: float
    x2: float
    y2: float
    style: Style = "thin"


class Polyline(Struct, frozen=True, kw_only=True):
    points: Ring
    style: Style = "thin"


class Polygon(Struct, frozen=True, kw_only=True):
    """A closed outline; `style` None draws the fill alone."""

    points: Ring
    style: Style | None = "thin"
    fill: Fill = "none"


class Hatch(Struct, frozen=True, kw_only=True):
    """Cut material: hatching inside the rings by the even-odd rule, so a ring in a ring is a hole."""

    rings: tuple[Ring, ...]
    pattern: Pattern = "steel"


class Arc(Struct, frozen=True, kw_only=True):
    cx: float
    cy: float
    r: float
    start: float
    sweep: float
    style: Style = "thin"


class Circle(Struct, frozen=True, kw_only=True):
    cx: float
    cy: float
    r: float
    style: Style | None = "thin"
    fill: Fill = "none"


class Box(Struct, frozen=True, kw_only=True):
    """A rectangle. Frames carry meaning without colour: heavy or double where a warning stands."""

    x: float
    y: float
    width: float
    height: float
    frame: Frame = "single"
    fill: Fill = "none"


Item = Text | Line | Polyline | Polygon | Hatch | Arc | Circle | Box
Drawing = tuple[Item, ...]


class Page(Struct, frozen=True, kw_only=True):
    items: Drawing
    title: str = ""
    width: float = AREA_WIDTH
    height: float = AREA_HEIGHT


def _turned(item: Text) -> Bounds:
    wide = face.width(item.text, item.size, bold=item.bold)
    em = item.size * face.MM_PER_POINT
    left = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[item.anchor]
    if not item.rotate:
        x = item.x + left
        return x, item.y - face.ASCENT * em, x + wide, item.y + face.DESCENT * em
    c, s = cos(radians(item.rotate)), sin(radians(item.rotate))
    corners = [(u, v) for u in (left, left + wide) for v in (-face.ASCENT * em, face.DESCENT * em)]
    return _around((item.x + u * c + v * s, item.y - u * s + v * c) for u, v in corners)


def _around(points: Iterable[Point]) -> Bounds:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def arc_points(arc: Arc, step: float = 5.0) -> Ring:
    """Points along an arc, at most `step` degrees apart."""
    count = max(1, int(abs(arc.sweep) / step + 0.999))
    turns = (radians(arc.start + arc.sweep * k / count) for k in range(count + 1))
    return tuple((arc.cx + arc.r * cos(a), arc.cy - arc.r * sin(a)) for a in turns)


def bounds(item: Item) -> Bounds:
    """Smallest upright box round an item, mm; line widths are not counted, descenders are."""
    match item:
        case Line():
            left, right = (item.x1, item.x2) if item.x1 <= item.x2 else (item.x2, item.x1)
            top, bottom = (item.y1, item.y2) if item.y1 <= item.y2 else (item.y2, item.y1)
            return left, top, right, bottom
        case Text():
            return _turned(item)
        case Polyline() | Polygon():
            return _around(item.points)
        case Hatch():
            return _around(point for ring in item.rings for point in ring)
        case Arc():
            return _around(arc_points(item, 1.0))
        case Circle():
            return item.cx - item.r, item.cy - item.r, item.cx + item.r, item.cy + item.r
        case Box():
            return item.x, item.y, item.x + item.width, item.y + item.height


def extent(items: Iterable[Item]) -> Bounds:
    """Smallest upright box round a drawing, mm. Raises ValueError for an empty one."""
    boxes = [bounds(item) for item in items]
    if not boxes:
        raise ValueError("an empty drawing has no extent: draw something first")
    left, top, right, bottom = zip(*boxes, strict=True)
    return min(left), min(top), max(right), max(bottom)


def around(first: Bounds, second: Bounds) -> Bounds:
    """Smallest upright box round two boxes."""
    return (
        min(first[0], second[0]),
        min(first[1], second[1]),
        max(first[2], second[2]),
        max(first[3], second[3]),
    )


def moved(items: Iterable[Item], dx: float, dy: float) -> Drawing:
    """The same drawing, shifted to the right by `dx` and down by `dy`."""
    return tuple(_moved(item, dx, dy) for item in items)


def _moved(item: Item, dx: float, dy: float) -> Item:
    match item:
        case Line():
            return Line(x1=item.x1 + dx, y1=item.y1 + dy, x2=item.x2 + dx, y2=item.y2 + dy, style=item.style)
        case Polyline():
            return Polyline(points=_shifted(item.points, dx, dy), style=item.style)
        case Polygon():
            return Polygon(points=_shifted(item.points, dx, dy), style=item.style, fill=item.fill)
        case Hatch():
            return Hatch(rings=tuple(_shifted(ring, dx, dy) for ring in item.rings), pattern=item.pattern)
        case Text() | Box():
            return replace(item, x=item.x + dx, y=item.y + dy)
        case Arc() | Circle():
            return replace(item, cx=item.cx + dx, cy=item.cy + dy)


def _shifted(points: Ring, dx: float, dy: float) -> Ring:
    return tuple((x + dx, y + dy) for x, y in points)


def outside(page: Page, margin: float = UNPRINTED) -> Drawing:
    """Items that reach into the margin a printer may not print."""
    right, bottom = page.width - margin + 1e-9, page.height - margin + 1e-9
    return tuple(
        item
        for item in page.items
        for x0, y0, x1, y1 in (bounds(item),)
        if x0 < margin - 1e-9 or y0 < margin - 1e-9 or x1 > right or y1 > bottom
    )
