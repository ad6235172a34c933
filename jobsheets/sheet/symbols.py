"""Plain outlines of tools, jaws and centres for setup sketches. Own drawings; true to no maker's tool.

Units    mm on paper, y down. A tool's tip is at x, y; the axis of a drill, tap or die is level.
"""

from math import radians, tan

from jobsheets.sheet.display import Drawing, Line, Point, Polygon

POINT_HALF_ANGLE = 59.0  # degrees, of a 118 degree drill


def _outline(*points: Point) -> Polygon:
    return Polygon(points=points, style="visible")


def chuck(x: float, axis: float, radius: float, *, jaw: float = 12.0, body: float = 14.0) -> Drawing:
    """Two of the jaws and the front of a chuck, gripping a round of `radius` from the left of x.

    Args:
        x: front face of the jaws.
        axis: height of the axis.
        radius: of the work where it is held.
        jaw: length of the jaws along the axis, which is the length that is gripped.
        body: length of chuck body that is drawn to the left of the jaws.
    """
    high, outer = 7.5, radius + 12.0
    items: list[Polygon | Line] = []
    for side in (-1.0, 1.0):
        inner = axis + side * radius
        items.append(
            _outline(
                (x, inner),
                (x, inner + side * high),
                (x - jaw / 2.0, inner + side * high),
                (x - jaw / 2.0, inner + side * (high + 2.5)),
                (x - jaw, inner + side * (high + 2.5)),
                (x - jaw, inner),
            )
        )
    items.append(
        _outline(
            *((x - jaw - u, axis + v) for u, v in ((0, -outer), (0, outer), (body, outer), (body, -outer)))
        )
    )
    return tuple(items)


def turning_tool(x: float, y: float, *, right: bool = True) -> Drawing:
    """A turning tool from below, tip at x, y, cutting towards the left (`right` handed) or the right."""
    s = 1.0 if right else -1.0
    return (
        _outline(
            (x, y),
            (x + s * 7.0, y + 3.0),
            (x + s * 7.0, y + 20.0),
            (x - s * 2.0, y + 20.0),
            (x - s * 2.0, y + 8.0),
        ),
    )


def parting_blade(x: float, y: float, width: float) -> Drawing:
    """A parting blade coming from below; x is its left corner, `width` its width."""
    blade, holder = y + 12.0, y + 20.0
    right = x + width
    return (
        _outline(
            (x, y),
            (right, y),
            (right, blade),
            (right + 4.0, blade),
            (right + 4.0, holder),
            (x - 4.0, holder),
            (x - 4.0, blade),
            (x, blade),
        ),
    )


def drill(x: float, axis: float, radius: float, *, length: float = 24.0, to_left: bool = True) -> Drawing:
    """A drill with its tip at x on the axis, its shank away to the right when it feeds `to_left`."""
    s = 1.0 if to_left else -1.0
    tip, end = radius / tan(radians(POINT_HALF_ANGLE)), x + s * length
    body = _outline(
        (x, axis),
        (x + s * tip, axis - radius),
        (end, axis - radius),
        (end, axis + radius),
        (x + s * tip, axis + radius),
    )
    pitch = max(2.0 * radius, 3.0)
    count = int((length - tip) * 0.7 / pitch)
    flutes = tuple(
        Line(
            x1=x + s * (tip + k * pitch),
            y1=axis + radius,
            x2=x + s * (tip + (k + 1) * pitch),
            y2=axis - radius,
        )
        for k in range(count)
    )
    return (body, *flutes)


def tap(x: float, axis: float, radius: float, *, length: float = 26.0, to_left: bool = True) -> Drawing:
    """A tap with its end at x on the axis: chamfered threads, then a shank with a square."""
    s = 1.0 if to_left else -1.0
    small, neck = 0.75 * radius, 0.7 * radius
    cut, end = length * 0.45, length
    upper = [(0.0, small), (2.0, radius), (cut, radius), (cut, neck), (end, neck)]
    ring = [(x + s * u, axis - r) for u, r in upper] + [(x + s * u, axis + r) for u, r in reversed(upper)]
    teeth = tuple(
        Line(x1=x + s * u, y1=axis + radius, x2=x + s * (u + 0.6), y2=axis - radius)
        for u in (2.0 + 1.2 * k for k in range(int((cut - 2.6) / 1.2)))
    )
    square = (Line(x1=x + s * (end - 4.0), y1=axis - neck, x2=x + s * end, y2=axis + neck),
              Line(x1=x + s * (end - 4.0), y1=axis + neck, x2=x + s * end, y2=axis - neck))  # fmt: skip
    return (_outline(*ring), *teeth, *square)


def die(x: float, axis: float, radius: float, *, thickness: float = 7.0, outside: float = 12.0) -> Drawing:
    """A die in section round a screw of `radius`, its leading face at x, the rest to the right."""
    halves = []
    for side in (-1.0, 1.0):
        inner, lead, rim = axis + side * radius, axis + side * (radius + 1.0), axis + side * outside
        halves.append(
            _outline((x, lead), (x, rim), (x + thickness, rim), (x + thickness, inner), (x + 1.0, inner))
        )
    return tuple(halves)


def knurl(x: float, y: float, *, width: float = 9.0, high: float = 9.0) -> Drawing:
    """A knurling wheel pressed on from below, its left edge at x, its rim at y, in a plain fork."""
    lines = tuple(Line(x1=x + u, y1=y, x2=x + u, y2=y + high) for u in _evenly(width, 1.2))
    pin, foot, right = y + high / 2.0, y + high, x + width
    fork = _outline(
        (x - 2.5, pin),
        (x, pin),
        (x, foot),
        (right, foot),
        (right, pin),
        (right + 2.5, pin),
        (right + 2.5, foot + 9.0),
        (x - 2.5, foot + 9.0),
    )
    return (_outline((x, y), (x + width, y), (x + width, y + high), (x, y + high)), *lines, fork)


def live_centre(x: float, axis: float, *, length: float = 20.0) -> Drawing:
    """A centre of 60 degrees with its tip at x on the axis, coming from the right."""
    r = 6.0
    nose = r / tan(radians(30.0))
    return (
        _outline(
            (x, axis),
            (x + nose, axis - r),
            (x + length, axis - r),
            (x + length, axis + r),
            (x + nose, axis + r),
        ),
    )


def _evenly(length: float, step: float) -> list[float]:
    count = int(length / step)
    return [length * k / count for k in range(1, count)]
