"""Parts of a drawing: arrows, leaders, centre lines, threads, holes in section, break lines, scale bars.

Units    mm on paper, y down, unless a name says otherwise; the caller scales the part.
Sources  ISO 128-2 and 129-1, ISO 6410-1, ASME Y14.2 and Y14.5; docs/sheet-face.md says which rule was seen
         and which is from memory.
"""

from math import atan2, cos, degrees, hypot, radians, sin, tan
from typing import Literal

from jobsheets.sheet import face
from jobsheets.sheet.display import Arc, Box, Circle, Drawing, Line, Point, Polygon, Polyline, Style, Text

System = Literal["iso", "asme"]
Label = tuple[str, ...]  # one line, or the limits: largest over smallest

NOTE = face.size_for_capitals(face.NOTE_CAPITALS)  # points
LINE = 1.4 * face.NOTE_CAPITALS  # baseline to baseline of stacked limits
PAD = 0.8  # clear space round a text, mm
ARROW = 3.0  # length of an arrowhead; it is a third as wide (ASME Y14.2)
SHOULDER = 3.0
EXTENSION_GAP: dict[System, float] = {"iso": 0.0, "asme": 1.5}
EXTENSION_PAST: dict[System, float] = {"iso": 2.0, "asme": 3.0}
THREAD_GAP = (
    1.0  # least distance of crest and root lines: twice the wide line, and not under 0.7 (ISO 6410-1)
)
DRILL_POINT = 118.0  # degrees


def label_width(label: Label, size: float = NOTE) -> float:
    return max(face.width(line, size) for line in label)


def label_height(label: Label, size: float = NOTE) -> float:
    """From the top of the first capitals to the baseline of the last line."""
    return face.capitals(size) + (len(label) - 1) * LINE * size / NOTE


def label(lines: Label, cx: float, cy: float, size: float = NOTE) -> Drawing:
    """Lines of text, one over the other, about a middle."""
    base = cy - label_height(lines, size) / 2.0 + face.capitals(size)
    step = LINE * size / NOTE
    return tuple(
        Text(x=cx, y=base + k * step, text=line, size=size, anchor="middle") for k, line in enumerate(lines)
    )


def arrow(x: float, y: float, towards: float, length: float = ARROW) -> Polygon:
    """Filled arrowhead with its tip at x, y, pointing in the direction `towards` (degrees)."""
    c, s = cos(radians(towards)), -sin(radians(towards))
    bx, by, half = x - length * c, y - length * s, length / 6.0
    return Polygon(
        points=((x, y), (bx - half * s, by + half * c), (bx + half * s, by - half * c)),
        style=None,
        fill="black",
    )


def leader(tip: Point, elbow: Point, end: Point) -> Drawing:
    """Straight inclined line from a text's level piece (`end` to `elbow`) to an arrow at the tip."""
    turn = degrees(atan2(-(tip[1] - elbow[1]), tip[0] - elbow[0]))
    return (Polyline(points=(end, elbow, tip)), arrow(*tip, turn))


def note(lines: Label, tip: Point, left: float, middle: float, size: float = NOTE) -> Drawing:
    """A note with its leader.

    Args:
        lines: text, one line under the other.
        tip: where the arrow points.
        left: left edge of the text.
        middle: height of the middle of the text.
        size: points.
    """
    right = left + label_width(lines, size)
    base = middle - label_height(lines, size) / 2.0 + face.capitals(size)
    from_left = tip[0] <= (left + right) / 2.0
    side = left - PAD if from_left else right + PAD
    elbow = (side - SHOULDER if from_left else side + SHOULDER, middle)
    texts = tuple(
        Text(x=left, y=base + k * LINE * size / NOTE, text=line, size=size) for k, line in enumerate(lines)
    )
    return (*leader(tip, elbow, (side, middle)), *texts)


def centre_line(x0: float, y0: float, x1: float, y1: float, past: float = 4.0) -> Line:
    """Centre line of an axis, running past the outline at both ends."""
    length = hypot(x1 - x0, y1 - y0)
    ux, uy = past * (x1 - x0) / length, past * (y1 - y0) / length
    return Line(x1=x0 - ux, y1=y0 - uy, x2=x1 + ux, y2=y1 + uy, style="centre")


def centre_cross(cx: float, cy: float, r: float, past: float = 3.0) -> Drawing:
    return (
        centre_line(cx - r, cy, cx + r, cy, past),
        centre_line(cx, cy - r, cx, cy + r, past),
    )


def extension(start: Point, end: Point, system: System) -> Line:
    """Extension line from an outline to past a dimension line; ISO begins at the outline, ASME off it."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    gap, past = EXTENSION_GAP[system], EXTENSION_PAST[system]
    return Line(x1=start[0] + gap * ux, y1=start[1] + gap * uy, x2=end[0] + past * ux, y2=end[1] + past * uy)


def thread_root(crest: float, root: float) -> float:
    """Radius at which to draw the roots, so that the two lines stay apart on paper.

    Args:
        crest: radius of the crests as drawn, mm on paper.
        root: true radius of the roots, mm on paper.
    """
    if abs(root - crest) >= THREAD_GAP:
        return root
    return crest - THREAD_GAP if root < crest else crest + THREAD_GAP


def external_thread(x0: float, x1: float, axis: float, major: float, minor: float) -> Drawing:
    """Side view of a screw: crests wide, roots narrow, end of the full thread wide at `x1`.

    Args:
        x0: end face of the thread.
        x1: end of the full thread.
        axis: height of the axis.
        major: major radius on paper.
        minor: minor radius on paper.
    """
    root = thread_root(major, minor)
    crests = tuple(
        Line(x1=x0, y1=axis + side * major, x2=x1, y2=axis + side * major, style="visible")
        for side in (-1, 1)
    )
    roots = tuple(Line(x1=x0, y1=axis + side * root, x2=x1, y2=axis + side * root) for side in (-1, 1))
    return (*crests, *roots, Line(x1=x1, y1=axis - major, x2=x1, y2=axis + major, style="visible"))


def internal_thread(x0: float, x1: float, axis: float, minor: float, major: float, side: int = -1) -> Drawing:
    """One half of a tapped hole in section: crests (minor) wide, roots (major) narrow, end wide.

    Args:
        x0: mouth.
        x1: end of the full thread.
        axis: height of the axis.
        minor: minor radius on paper.
        major: major radius on paper.
        side: -1 for the half above the axis, 1 for the half below.
    """
    root = thread_root(minor, major)
    return (
        Line(x1=x0, y1=axis + side * minor, x2=x1, y2=axis + side * minor, style="visible"),
        Line(x1=x0, y1=axis + side * root, x2=x1, y2=axis + side * root),
        Line(x1=x1, y1=axis, x2=x1, y2=axis + side * root, style="visible"),
    )


def thread_end_view(cx: float, cy: float, crest: float, root: float) -> Drawing:
    """End view of a thread: the crest a full circle, the root three quarters, open at the upper right."""
    return (
        Circle(cx=cx, cy=cy, r=crest, style="visible"),
        Arc(cx=cx, cy=cy, r=thread_root(crest, root), start=95.0, sweep=260.0),
    )


def drilled_half(
    x0: float, x1: float, axis: float, radius: float, point: float, side: int = -1
) -> tuple[Point, ...]:
    """Outline of one half of a blind hole: mouth, bottom of the full diameter, tip of the drill point.

    Args:
        x0: mouth.
        x1: depth of the full diameter.
        axis: height of the axis.
        radius: on paper.
        point: included angle of the drill point, degrees; 180 for a flat bottom.
        side: -1 for the half above the axis, 1 for the half below.
    """
    tip = radius / tan(radians(point / 2.0)) * (1 if x1 >= x0 else -1) if point < 180.0 else 0.0
    return ((x0, axis + side * radius), (x1, axis + side * radius), (x1 + tip, axis))


def break_line(x: float, y0: float, y1: float) -> Polyline:
    """Long break: a straight narrow line with a zigzag."""
    middle, z = (y0 + y1) / 2.0, 1.5
    zigzag = ((x, middle - z), (x + z, middle - z / 2), (x - z, middle + z / 2), (x, middle + z))
    return Polyline(points=((x, y0 - 2.0), *zigzag, (x, y1 + 2.0)))


def scale_bar(x: float, y: float, *, upright: bool = False, inch: bool = False) -> Drawing:
    """A bar of 100 mm or 4 in to check the printer by, from x, y to the right or downwards.

    The ticks stand every 10 mm or half inch. A bar of a wrong length on paper tells that the page was scaled.
    """
    step, count, words = (12.7, 8, "4 in") if inch else (10.0, 10, "100 mm")
    length = step * count
    ticks = [(k * step, 4.0 if k in (0, count) else 2.5 if 2 * k == count else 1.8) for k in range(count + 1)]
    text = f"{words} – measure before use"

    def line(u0: float, v0: float, u1: float, v1: float, style: Style = "thin") -> Line:
        a, b = ((v0, u0), (v1, u1)) if upright else ((u0, v0), (u1, v1))
        return Line(x1=x + a[0], y1=y + a[1], x2=x + b[0], y2=y + b[1], style=style)

    bars = (line(0.0, 0.0, length, 0.0, "visible"), *(line(u, 0.0, u, -high) for u, high in ticks))
    if upright:
        return (
            *bars,
            Text(x=x + 4.5, y=y + length / 2.0, text=text, size=NOTE, anchor="middle", rotate=90.0),
        )
    return (*bars, Text(x=x + length / 2.0, y=y + 4.5, text=text, size=NOTE, anchor="middle"))


def datum(x: float, y: float, letter: str, down: bool = True) -> Drawing:
    """Datum: a filled triangle whose base lies on the face at x, y, with a framed letter."""
    way = 1.0 if down else -1.0
    triangle = Polygon(points=((x - 1.6, y), (x + 1.6, y), (x, y + way * 2.8)), style="thin", fill="black")
    top = y + way * 5.0 if down else y - 5.0 - 5.0
    stem = Line(x1=x, y1=y + way * 2.8, x2=x, y2=y + way * 5.0)
    frame = Box(x=x - 2.5, y=top, width=5.0, height=5.0)
    return (triangle, stem, frame, Text(x=x, y=top + 3.9, text=letter, size=NOTE, anchor="middle"))
