"""Display list to SVG text: previews of the same page, one unit to the millimetre.

The text keeps its own characters and asks for the embedded face by name, with any sans serif behind it;
the length of each line is fixed to the measured width, so that a preview breaks nowhere the print does not.
"""

from collections.abc import Iterable
from html import escape

from jobsheets.sheet import face
from jobsheets.sheet.display import (
    DOUBLE_GAP,
    STROKES,
    Arc,
    Box,
    Circle,
    Fill,
    Hatch,
    Item,
    Line,
    Page,
    Point,
    Polygon,
    Polyline,
    Style,
    Text,
    arc_points,
)
from jobsheets.sheet.hatching import hatch_lines

FAMILY = "'Jobsheet Text', 'DejaVu Sans', sans-serif"


def svg(page: Page) -> str:
    """One page as an SVG document.

    Raises:
        ValueError: a text holds a character the face lacks.
    """
    layers: tuple[list[str], list[str], list[str]] = ([], [], [])  # fills, lines, text: the order of painting
    for item in page.items:
        for layer, part in _parts(item):
            layers[layer].append(part)
    body = "\n".join(part for layer in layers for part in layer)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(page.width)}mm" height="{_n(page.height)}mm" '
        f'viewBox="0 0 {_n(page.width)} {_n(page.height)}" font-family="{FAMILY}">\n'
        f"<title>{escape(page.title)}</title>\n"
        f'<rect width="{_n(page.width)}" height="{_n(page.height)}" fill="white"/>\n{body}\n</svg>\n'
    )


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _stroke(style: Style) -> str:
    stroke = STROKES[style]
    dash = f' stroke-dasharray="{" ".join(map(_n, stroke.dash))}"' if stroke.dash else ""
    return f'fill="none" stroke="black" stroke-width="{_n(stroke.width)}"{dash}'


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _shape(tag: str, style: Style | None, fill: Fill) -> Iterable[tuple[int, str]]:
    if fill != "none":
        yield 0, f'<{tag} fill="{fill}"/>'
    if style is not None:
        yield 1, f"<{tag} {_stroke(style)}/>"


def _rectangle(box: Box, inset: float = 0.0) -> str:
    x, y = _n(box.x + inset), _n(box.y + inset)
    return f'rect x="{x}" y="{y}" width="{_n(box.width - 2 * inset)}" height="{_n(box.height - 2 * inset)}"'


def _box(box: Box) -> Iterable[tuple[int, str]]:
    style: Style | None = {"none": None, "heavy": "heavy"}.get(box.frame, "thin")
    yield from _shape(_rectangle(box), style, box.fill)
    if box.frame == "double":
        yield from _shape(_rectangle(box, DOUBLE_GAP), "thin", "none")


def _text(item: Text) -> str:
    wide = face.width(item.text, item.size, bold=item.bold)
    turn = f' transform="rotate({_n(-item.rotate)} {_n(item.x)} {_n(item.y)})"' if item.rotate else ""
    weight = ' font-weight="bold"' if item.bold else ""
    return (
        f'<text x="{_n(item.x)}" y="{_n(item.y)}" font-size="{_n(item.size * face.MM_PER_POINT)}"{weight} '
        f'text-anchor="{item.anchor}" textLength="{_n(wide)}" lengthAdjust="spacingAndGlyphs" '
        f'xml:space="preserve"{turn}>{escape(item.text)}</text>'
    )


def _parts(item: Item) -> Iterable[tuple[int, str]]:
    """Layer and markup of one item."""
    match item:
        case Text():
            yield 2, _text(item)
        case Line():
            yield from _shape(
                f'polyline points="{_points(((item.x1, item.y1), (item.x2, item.y2)))}"', item.style, "none"
            )
        case Polyline():
            yield from _shape(f'polyline points="{_points(item.points)}"', item.style, "none")
        case Polygon():
            yield from _shape(f'polygon points="{_points(item.points)}"', item.style, item.fill)
        case Hatch():
            path = "".join(f"M{_n(a)} {_n(b)}L{_n(c)} {_n(d)}" for a, b, c, d in hatch_lines(item))
            yield 1, f'<path d="{path}" {_stroke("thin")}/>'
        case Arc():
            yield from _shape(f'polyline points="{_points(arc_points(item, 2.0))}"', item.style, "none")
        case Circle():
            tag = f'circle cx="{_n(item.cx)}" cy="{_n(item.cy)}" r="{_n(item.r)}"'
            yield from _shape(tag, item.style, item.fill)
        case Box():
            yield from _box(item)
