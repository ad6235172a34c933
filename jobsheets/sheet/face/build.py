"""Build the embedded face from its source fonts. Run by hand; never imported by the program.

    python jobsheets/sheet/face/build.py FOLDER

FOLDER holds B612-Regular.otf and B612-Bold.otf, version 1.008 (SIL Open Font License 1.1; Debian
package fonts-b612). The outcome stands beside this file: jobsheet-text.ttf, jobsheet-text-bold.ttf and
widths.txt (advance of each character in thousandths of the size). The same sources give the same bytes.

Changes against the source: outlines turned from cubic to quadratic curves, the zero slashed inside its
bowl, trade symbols drawn anew, everything outside the set and all layout tables removed, family renamed.
"""

# The font library has no types.
# mypy: ignore-errors

import sys
import unicodedata
from collections.abc import Callable, Iterable
from itertools import pairwise
from math import cos, pi, sin
from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.basePen import AbstractPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph

HERE = Path(__file__).parent
FAMILY = "Jobsheet Text"
DRAWN_EM = 2000  # the source's; all drawing below is in its units
EM = 1000
HALF = (EM / DRAWN_EM, 0.0, 0.0, EM / DRAWN_EM, 0.0, 0.0)
CAP = 750
ASCENT, DESCENT = 965, -250
MAX_ERROR = 4.0  # of the quadratic curves: 0.2 % of the size
FIXED_TIME = 3786825600  # 2024-01-01 in the seconds of the format: a build has no clock

ASCII = range(0x20, 0x7F)
RARE = frozenset(map(ord, "ĈĉĜĝĤĥĴĵŜŝŬŭĔĕĨĩĬĭŎŏŨũ"))  # no language of a metal trade known to us needs them
LATIN = tuple(code for code in range(0xA0, 0x180) if code not in RARE)
OTHER = tuple(map(ord, "–—‘’‚“”„•…‹›€−≤≥≠≈√π∞Ωαβθφ²³⅛⅜⅝⅞→←↑↓↔▼✓′″∥⊥●▶"))

Point = tuple[float, float]
Pen = AbstractPen
STROKE = {"regular": 150.0, "bold": 240.0}


def polygon(pen: Pen, points: Iterable[Point]) -> None:
    """Fill an outline; it is turned clockwise, as filled TrueType outlines are."""
    ring = list(points)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True))
    for index, (x, y) in enumerate(ring if area < 0 else ring[::-1]):
        (pen.lineTo if index else pen.moveTo)((round(x), round(y)))
    pen.closePath()


def stroke(pen: Pen, width: float, points: Iterable[Point]) -> None:
    """A line of `width` through the points, corners filled by a square-ended piece each."""
    path = list(points)
    for (x0, y0), (x1, y1) in pairwise(path):
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        ux, uy = (x1 - x0) / length * width / 2, (y1 - y0) / length * width / 2
        polygon(pen, ((x0 - uy, y0 + ux), (x1 - uy, y1 + ux), (x1 + uy, y1 - ux), (x0 + uy, y0 - ux)))
    for x, y in path[1:-1]:
        disc(pen, (x, y), width / 2)


def disc(pen: Pen, centre: Point, radius: float, *, hole: bool = False) -> None:
    """A filled circle, or with `hole` the inside of a ring: eight quadratic arcs."""
    reach = radius / cos(pi / 8)
    turns = range(8) if hole else range(8, 0, -1)
    corners = [(centre[0] + reach * cos(k * pi / 4), centre[1] + reach * sin(k * pi / 4)) for k in turns]
    pen.qCurveTo(*((round(x), round(y)) for x, y in corners), None)
    pen.closePath()


def frame(pen: Pen, width: float, x0: float, y0: float, x1: float, y1: float) -> None:
    h = width / 2
    stroke(pen, width, ((x0 - h, y0), (x1 + h, y0)))
    stroke(pen, width, ((x0 - h, y1), (x1 + h, y1)))
    stroke(pen, width, ((x0, y0), (x0, y1)))
    stroke(pen, width, ((x1, y0), (x1, y1)))


def diameter(pen: Pen, w: float) -> int:
    disc(pen, (800, 750), 540 + w / 2)
    disc(pen, (800, 750), 540 - w / 2, hole=True)
    stroke(pen, w, ((330, -30), (1270, 1530)))
    return 1600


def depth(pen: Pen, w: float) -> int:
    stroke(pen, w, ((250, 1420), (1250, 1420)))
    stroke(pen, w, ((750, 1420), (750, 420)))
    polygon(pen, ((750, 0), (460, 600), (1040, 600)))
    return 1500


def counterbore(pen: Pen, w: float) -> int:
    stroke(pen, w, ((230, 1150), (230, 350), (1370, 350), (1370, 1150)))
    return 1600


def countersink(pen: Pen, w: float) -> int:
    stroke(pen, w, ((200, 1250), (800, 250), (1400, 1250)))
    return 1600


def square(pen: Pen, w: float) -> int:
    frame(pen, w, 250, 150, 1250, 1150)
    return 1500


def tick_box(pen: Pen, w: float) -> int:
    frame(pen, 110, 190, -60, 1610, 1360)
    return 1800


def up_triangle(pen: Pen, w: float) -> int:
    polygon(pen, ((100, 200), (1200, 200), (650, 1100)))
    return 1300


def plus_minus(pen: Pen, w: float) -> int:
    stroke(pen, w, ((130, 800), (1170, 800)))
    stroke(pen, w, ((650, 320), (650, 1280)))
    stroke(pen, w, ((130, 75), (1170, 75)))
    return 1300


def nearly(pen: Pen, w: float) -> int:
    for y in (530, 930):
        wave = [(150 + 100 * k, y + 105 * sin(k * pi / 5)) for k in range(11)]
        polygon(pen, [(x, v + w / 2) for x, v in wave] + [(x, v - w / 2) for x, v in reversed(wave)])
    return 1300


def root(pen: Pen, w: float) -> int:
    stroke(pen, w, ((100, 700), (330, 760), (580, 60), (900, 1560), (1380, 1560)))
    return 1400


def angle(pen: Pen, w: float) -> int:
    stroke(pen, w, ((1200, 1000), (230, 75), (1300, 75)))
    return 1450


def turn(pen: Pen, w: float, *, clockwise: bool) -> int:
    """Three quarters of a circle with an arrowhead: which way a handle goes."""
    side = 1 if clockwise else -1
    turns = [k * pi / 12 for k in range(-15, 4)]
    outer, inner = (
        [(800 + side * r * sin(a), 750 + r * cos(a)) for a in turns] for r in (520 + w / 2, 520 - w / 2)
    )
    polygon(pen, outer + inner[::-1])
    x, y = 800 + side * 520 * sin(turns[-1]), 750 + 520 * cos(turns[-1])
    polygon(pen, ((x + side * 330, y + 110), (x - side * 330, y + 110), (x + side * 60, y - 430)))
    return 1600


def clockwise(pen: Pen, w: float) -> int:
    return turn(pen, w, clockwise=True)


def anticlockwise(pen: Pen, w: float) -> int:
    return turn(pen, w, clockwise=False)


DRAWN: dict[str, Callable[[Pen, float], int]] = {
    "⌀": diameter, "↧": depth, "⌴": counterbore, "⌵": countersink, "□": square, "☐": tick_box,
    "▲": up_triangle, "±": plus_minus, "≈": nearly, "√": root, "∠": angle, "↻": clockwise,
    "↺": anticlockwise,
}  # fmt: skip


ACCENTS = {"\u0301": 0xB4, "\u0304": 0xAF, "\u0306": 0x2D8, "\u0307": 0x2D9, "\u030a": 0x2DA, "\u030b": 0x2DD,
           "\u030c": 0x2C7, "\u0327": 0xB8, "\u0328": 0x2DB, "\u0302": 0x2C6, "\u0303": 0x2DC}  # fmt: skip
BELOW = "\u0327\u0328"
BARRED = {"ł": ("l", 180), "Ł": ("L", 120), "đ": ("d", 0), "Đ": ("D", 0)}  # letter, rise of the bar


class Letters:
    """The letters of the source, and those it lacks put together from letter and accent."""

    def __init__(self, source: TTFont) -> None:
        self.shapes, self.cmap = source.getGlyphSet(), source.getBestCmap()

    def box(self, code: int) -> tuple[float, float, float, float]:
        pen = BoundsPen(self.shapes)
        self.shapes[self.cmap[code]].draw(pen)
        return pen.bounds or (0.0, 0.0, 0.0, 0.0)

    def draw(self, pen: Pen, code: int, shift: Point = (0.0, 0.0)) -> int:
        """Outline of a letter of the source, moved by `shift`; returns its advance."""
        moved = TransformPen(Cu2QuPen(pen, MAX_ERROR, reverse_direction=False), (1, 0, 0, 1, *shift))
        self.shapes[self.cmap[code]].draw(moved)
        return round(self.shapes[self.cmap[code]].width)

    def compose(self, pen: Pen, char: str, width: float) -> int | None:
        """A letter with its accent or bar; None when the source has not what it takes."""
        if char in BARRED:
            letter, rise = BARRED[char]
            x0, _, x1, top = self.box(ord(letter))
            x, y = (x0 + x1) / 2 if letter == "l" else x0 + 80, 0.55 * top
            if letter == "d":
                x, y = x1 - 60, 1300
            stroke(pen, 0.8 * width, ((x - 290, y - rise), (x + 290, y + rise)))
            return self.draw(pen, ord(letter))
        base, accent = (unicodedata.normalize("NFD", char) + "\0")[:2]
        if ord(base) not in self.cmap or ACCENTS.get(accent) not in self.cmap:
            return None
        low, high = self.box(ord(base)), self.box(ACCENTS[accent])
        drop = 0.0 if accent in BELOW else max(0.0, low[3] - 1120.0)  # accents stand clear of the x height
        self.draw(pen, ACCENTS[accent], ((low[0] + low[2] - high[0] - high[2]) / 2, drop))
        return self.draw(pen, ord(base))


def missing(pen: Pen, w: float) -> int:
    frame(pen, w, 200, 0, 1000, 1500)
    return 1200


def slash_in_bowl(pen: Pen, letters: Letters, width: float) -> None:
    """Slash the zero inside its bowl, clear of it: a slash that crossed the bowl would read as a diameter."""
    x0, _, x1, _ = letters.box(ord("0"))
    stroke(pen, width, (((x0 + x1) / 2 - 130, 460), ((x0 + x1) / 2 + 130, 1040)))


def glyphs(source: TTFont, weight: str) -> tuple[dict[int, str], dict[str, Glyph], dict[str, int]]:
    """Names by code point, outlines and advances of the set, in order of code point."""
    letters, width = Letters(source), STROKE[weight]
    names: dict[int, str] = {}
    outlines: dict[str, Glyph] = {}
    advances: dict[str, int] = {}
    for code in (-1, *sorted({*ASCII, *LATIN, *OTHER, *map(ord, DRAWN)})):
        outline = TTGlyphPen(None)
        pen = TransformPen(outline, HALF)
        advance = missing(pen, width) if code < 0 else draw(pen, chr(code), letters, width)
        if advance is None:
            continue
        name = ".notdef" if code < 0 else f"u{code:04X}"
        outlines[name], advances[name] = outline.glyph(), round(advance * EM / DRAWN_EM)
        if code >= 0:
            names[code] = name
    return names, outlines, advances


def draw(pen: Pen, char: str, letters: Letters, width: float) -> int | None:
    """One character, drawn, taken over or put together; its advance, or None when it cannot be had."""
    if char in DRAWN:
        return DRAWN[char](pen, width)
    if ord(char) not in letters.cmap:
        return letters.compose(pen, char, width)
    if char == "0":
        slash_in_bowl(pen, letters, 0.85 * width)
    return letters.draw(pen, ord(char))


def build(source: TTFont, weight: str) -> TTFont:
    names, outlines, advances = glyphs(source, weight)
    builder = FontBuilder(EM, isTTF=True)
    builder.setupGlyphOrder(list(outlines))
    builder.setupCharacterMap(names)
    builder.setupGlyf(outlines)
    edges = {name: getattr(outline, "xMin", 0) for name, outline in outlines.items()}
    builder.setupHorizontalMetrics({name: (advance, edges[name]) for name, advance in advances.items()})
    builder.setupHorizontalHeader(ascent=ASCENT, descent=DESCENT)
    builder.setupNameTable(title(source, weight.capitalize()), mac=False)
    builder.setupOS2(
        sTypoAscender=ASCENT,
        sTypoDescender=DESCENT,
        usWinAscent=ASCENT,
        usWinDescent=-DESCENT,
        sCapHeight=CAP,
        sxHeight=550,
        usWeightClass=700 if weight == "bold" else 400,
    )
    builder.setupPost(keepGlyphNames=False)
    builder.font["head"].created = builder.font["head"].modified = FIXED_TIME
    builder.font.recalcTimestamp = False
    return builder.font


def title(source: TTFont, style: str) -> dict[str, str]:
    return {
        "copyright": source["name"].getDebugName(0) + "; changed: see build.py beside the font",
        "familyName": FAMILY,
        "styleName": style,
        "uniqueFontIdentifier": f"{FAMILY} {style} 1.0",
        "fullName": f"{FAMILY} {style}",
        "psName": f"JobsheetText-{style}",
        "version": "Version 1.0",
        "licenseDescription": "SIL Open Font License, Version 1.1",
        "licenseInfoURL": "https://openfontlicense.org",
    }


def main(folder: Path) -> None:
    advances: dict[str, dict[int, int]] = {}
    for weight, end in (("regular", ""), ("bold", "-bold")):
        font = build(TTFont(folder / f"B612-{weight.capitalize()}.otf"), weight)
        font.save(HERE / f"jobsheet-text{end}.ttf")
        cmap, widths = font.getBestCmap(), font["hmtx"].metrics
        advances[weight] = {code: round(widths[name][0] * 1000 / EM) for code, name in sorted(cmap.items())}
    lines = [f"{code:04X} {wide} {advances['bold'][code]}" for code, wide in advances["regular"].items()]
    (HERE / "widths.txt").write_text("\n".join(lines) + "\n", encoding="ascii")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
