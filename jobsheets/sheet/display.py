"""What stands on a page, as plain values: text, lines, arcs, boxes. Writers turn them into PDF or SVG.

Units    mm from the top left corner of the layout area, x to the right and y down; sizes of type in points;
         angles in degrees, anticlockwise as seen on paper, from the direction of x.
Order    a writer paints fills first, then hatching and lines, then text, each in the order of the list.
         The order of the texts is the reading order.
Lines    names and widths after ISO 128-2 (docs/sheet-face.md): a wide and a narrow line, 2 : 1.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from math import cos, radians, sin
from typing import Literal

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text; `x`, `y` is the anchor on its baseline, about which it is turned."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False
    anchor: Anchor = "start"
    rotate: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    x1: float
    y1: float
    x2: float
    y2: float
    style: Style = "thin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    points: Ring
    style: Style = "thin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Polygon:
    """A closed outline; `style` None draws the fill alone."""

    points: Ring
    style: Style | None = "thin"
    fill: Fill = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """Cut material: hatching inside the rings by the even-odd rule, so a ring in a ring is a hole."""

    rings: tuple[Ring, ...]
    pattern: Pattern = "steel"


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    cx: float
    cy: float
    r: float
    start: float
    sweep: float
    style: Style = "thin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    cx: float
    cy: float
    r: float
    style: Style | None = "thin"
    fill: Fill = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle. Frames carry meaning without colour: heavy or double where a warning stands."""

    x: float
    y: float
    width: float
    height: float
    frame: Frame = "single"
    fill: Fill = "none"


Item = Text | Line | Polyline | Polygon | Hatch | Arc | Circle | Box
Drawing = tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    items: Drawing
    title: str = ""
    width: float = AREA_WIDTH
    height: float = AREA_HEIGHT


# ---------------------------------------------------------------------------------------------------------
# Hatching


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One family of parallel hatch lines: angle, distance, and the offset of the first, mm."""

    angle: float
    spacing: float
    offset: float = 0.0


# Told apart without colour by angle, spacing and crossing. The choice of a pattern for a material is our own;
# the legend on the sheet names it. Lines stand at least 0.7 mm apart (ISO 128-2, from memory).
PATTERNS: dict[Pattern, tuple[Rule, ...]] = {
    "steel": (Rule(angle=45, spacing=1.6),),
    "stainless": (Rule(angle=45, spacing=2.6), Rule(angle=45, spacing=2.6, offset=0.8)),
    "brass": (Rule(angle=135, spacing=1.6),),
    "bronze": (Rule(angle=135, spacing=2.6), Rule(angle=135, spacing=2.6, offset=0.8)),
    "nickel_silver": (Rule(angle=60, spacing=1.4),),
    "aluminium": (Rule(angle=45, spacing=2.4), Rule(angle=135, spacing=2.4)),
    "wood": (Rule(angle=15, spacing=1.2),),
    "other": (Rule(angle=30, spacing=2.0),),
    "knurl": (Rule(angle=30, spacing=1.4), Rule(angle=150, spacing=1.4)),  # not a material: a diamond knurl
}


@lru_cache(maxsize=256)
def hatch_lines(hatch: Hatch) -> tuple[tuple[float, float, float, float], ...]:
    """Segments x1, y1, x2, y2 of a hatching, clipped to its rings by the even-odd rule."""
    return tuple(segment for rule in PATTERNS[hatch.pattern] for segment in _ruled(hatch.rings, rule))


def _ruled(rings: tuple[Ring, ...], rule: Rule) -> Iterator[tuple[float, float, float, float]]:
    """Scan lines across the outline: turn the rings until the lines lie level, cut, and turn back."""
    c, s = cos(radians(rule.angle)), sin(radians(rule.angle))
    edges = [
        (x0 * c - y0 * s, x0 * s + y0 * c, x1 * c - y1 * s, x1 * s + y1 * c)
        for ring in rings
        for (x0, y0), (x1, y1) in pairwise((*ring, ring[0]))
    ]
    if not edges:
        return
    first = min(v for _, v, _, _ in edges) - rule.offset
    last = max(v for _, v, _, _ in edges)
    row = int(first // rule.spacing) + 1
    while (level := row * rule.spacing + rule.offset) < last:
        row += 1
        # An edge owns its lower end only, so that a corner is crossed once or twice, never three times.
        cuts = sorted(
            u0 + (u1 - u0) * (level - v0) / (v1 - v0)
            for u0, v0, u1, v1 in edges
            if (v0 <= level) != (v1 <= level)
        )
        for a, b in zip(cuts[::2], cuts[1::2], strict=True):
            if b - a > 0.05:  # shorter than a printer's dot
                yield a * c + level * s, level * c - a * s, b * c + level * s, level * c - b * s


# ---------------------------------------------------------------------------------------------------------
# Bounding boxes


def _turned(item: Text) -> Bounds:
    wide = face.width(item.text, item.size, bold=item.bold)
    em = item.size * face.MM_PER_POINT
    left = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[item.anchor]
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
        case Text():
            return _turned(item)
        case Line():
            return _around(((item.x1, item.y1), (item.x2, item.y2)))
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
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def moved(items: Iterable[Item], dx: float, dy: float) -> Drawing:
    """The same drawing, shifted to the right by `dx` and down by `dy`."""
    return tuple(_moved(item, dx, dy) for item in items)


def _moved(item: Item, dx: float, dy: float) -> Item:
    match item:
        case Text() | Box():
            return replace(item, x=item.x + dx, y=item.y + dy)
        case Line():
            return replace(item, x1=item.x1 + dx, y1=item.y1 + dy, x2=item.x2 + dx, y2=item.y2 + dy)
        case Polyline() | Polygon():
            return replace(item, points=tuple((x + dx, y + dy) for x, y in item.points))
        case Hatch():
            return replace(item, rings=tuple(tuple((x + dx, y + dy) for x, y in ring) for ring in item.rings))
        case Arc() | Circle():
            return replace(item, cx=item.cx + dx, cy=item.cy + dy)


def outside(page: Page, margin: float = UNPRINTED) -> Drawing:
    """Items that reach into the margin a printer may not print."""
    right, bottom = page.width - margin + 1e-9, page.height - margin + 1e-9
    return tuple(
        item
        for item in page.items
        for x0, y0, x1, y1 in (bounds(item),)
        if x0 < margin - 1e-9 or y0 < margin - 1e-9 or x1 > right or y1 > bottom
    )
