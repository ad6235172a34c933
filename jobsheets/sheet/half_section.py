"""A turned part drawn lying on its axis: the upper half cut, the lower half seen from outside.

Units    the part in mm, z from the front face along the axis; the drawing in mm on paper, front face left.
"""

from collections.abc import Iterable
from itertools import pairwise
from math import hypot

from jobsheets.sheet import drafting
from jobsheets.sheet.display import Drawing, Hatch, Item, Line, Point, Polyline, Ring
from jobsheets.sheet.shape import Across, Rolled, Shape, inside, outline, radius_at, stretches

SHARP = 0.3  # sine of the bend that shows as an edge


class _View:
    """Places the part on paper."""

    def __init__(self, scale: float, x: float, axis: float) -> None:
        self.scale, self.left, self.axis = scale, x, axis

    def x(self, z: float) -> float:
        return self.left + z * self.scale

    def y(self, r: float) -> float:
        """Height of a point above the axis; negative r lies below."""
        return self.axis - r * self.scale

    def ring(self, points: Iterable[Point], side: float = 1.0) -> Ring:
        return tuple((self.x(z), self.y(side * r)) for z, r in points)

    def edge(self, z: float, r0: float, r1: float) -> Line:
        return Line(x1=self.x(z), y1=self.y(r0), x2=self.x(z), y2=self.y(r1), style="visible")


def body(shape: Shape, scale: float, x: float = 0.0, axis: float = 0.0, *, cut: bool = True) -> Drawing:
    """The part without dimensions, front face at x, axis at the height `axis`.

    Args:
        shape: the part.
        scale: size on paper over size of the part.
        x: of the front face on paper.
        axis: height of the axis on paper.
        cut: draw the upper half in section; False draws the part from outside (setup sketches).
    """
    view, length = _View(scale, x, axis), shape.starts[-1]
    outer, wall = outline(shape), inside(shape)
    closed = ((0.0, wall[0][1] if cut else 0.0), *outer, (length, wall[-1][1] if cut else 0.0))
    items: list[Item] = [
        Polyline(points=view.ring(closed), style="visible"),
        Polyline(points=view.ring(((0.0, 0.0), *outer, (length, 0.0)), -1.0), style="visible"),
        drafting.centre_line(view.x(0.0), axis, view.x(length), axis),
    ]
    for z, r in _edges(outer, length):
        items.append(view.edge(z, r if not cut else 0.0, -r))
    if cut:
        items.extend(_cut(shape, view, outer, wall))
    for start, end, step in stretches(shape):
        if step.minor is not None:
            root = drafting.thread_root(step.diameter / 2.0 * scale, step.minor / 2.0 * scale)
            items.extend(
                Line(x1=view.x(start), y1=axis + side * root, x2=view.x(end), y2=axis + side * root)
                for side in (-1, 1)
            )
    for roll in shape.rolled:
        items.extend(_knurl(shape, roll, view, both=not cut))
    return tuple(items)


def _edges(outer: tuple[Point, ...], length: float) -> Iterable[Point]:
    """Edges seen from outside: the corners of the outline, but not the points along a round."""
    for (za, ra), (z, r), (zb, rb) in zip(outer, outer[1:], outer[2:], strict=False):
        a, b = (z - za, r - ra), (zb - z, rb - r)
        sine = abs(a[0] * b[1] - a[1] * b[0]) / (hypot(*a) * hypot(*b) or 1.0)
        if sine > SHARP and 0.0 < z < length:
            yield z, r


def _cut(shape: Shape, view: _View, outer: tuple[Point, ...], wall: tuple[Point, ...]) -> Drawing:
    """Hatching and the holes of the cut half."""
    items: list[Item] = []
    gaps = sorted((hole.at - hole.diameter / 2.0, hole.at + hole.diameter / 2.0) for hole in shape.across)
    ring = view.ring((*outer, *reversed(wall)))
    items.extend(Hatch(rings=(part,), pattern=shape.pattern) for part in _without(ring, gaps, view))
    for a, b in pairwise(wall):
        if a[1] > 0.0 or b[1] > 0.0:
            (xa, ya), (xb, yb) = view.ring((a, b))
            items.append(Line(x1=xa, y1=ya, x2=xb, y2=yb, style="visible"))
        if 0.0 < a[0] < shape.starts[-1] and a[1] > 0.0 and a[0] != b[0]:
            items.append(view.edge(a[0], 0.0, a[1]))  # an edge of the hole, seen behind the cut
    for bore in shape.bores:
        if bore.thread is not None and bore.major is not None:
            length = shape.starts[-1]
            mouth, end = (0.0, bore.thread) if bore.from_front else (length, length - bore.thread)
            minor, major = bore.diameter / 2.0 * view.scale, bore.major / 2.0 * view.scale
            items.extend(drafting.internal_thread(view.x(mouth), view.x(end), view.axis, minor, major)[1:])
    for hole in shape.across:
        items.extend(_cross(shape, hole, view))
    return tuple(items)


def _without(ring: Ring, gaps: list[tuple[float, float]], view: _View) -> list[Ring]:
    """The ring parted at the upright gaps that cross holes leave in it."""
    parts = [ring]
    for a, b in gaps:
        parts = [
            piece
            for part in parts
            for piece in (_clipped(part, view.x(a), True), _clipped(part, view.x(b), False))
            if len(piece) > 2
        ]
    return parts


def _clipped(ring: Ring, x: float, keep_left: bool) -> Ring:
    """The ring on one side of an upright line."""
    kept: list[Point] = []
    for p, q in pairwise((*ring, ring[0])):
        p_in, q_in = (p[0] <= x) == keep_left, (q[0] <= x) == keep_left
        if p_in:
            kept.append(p)
        if p_in != q_in:
            kept.append((x, p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0])))
    return tuple(kept)


def _cross(shape: Shape, hole: Across, view: _View) -> Drawing:
    """Walls of a cross hole: seen in the cut half, hidden in the other."""
    reach = radius_at(shape, hole.at)
    items: list[Item] = [
        drafting.centre_line(view.x(hole.at), view.y(reach), view.x(hole.at), view.y(-reach))
    ]
    for z in (hole.at - hole.diameter / 2.0, hole.at + hole.diameter / 2.0):
        r = radius_at(shape, z)
        items.append(view.edge(z, 0.0, r))
        if hole.through:
            items.append(Line(x1=view.x(z), y1=view.y(0.0), x2=view.x(z), y2=view.y(-r), style="hidden"))
    return tuple(items)


def _knurl(shape: Shape, roll: Rolled, view: _View, *, both: bool) -> Drawing:
    """A part of the pattern, on the half that is seen from outside."""
    r = radius_at(shape, (roll.start + roll.end) / 2.0) * view.scale
    x0, x1 = view.x(roll.start), view.x(roll.end)
    top, bottom = (view.axis - r if both else view.axis), view.axis + r
    if roll.diamond:
        return (Hatch(rings=(((x0, top), (x1, top), (x1, bottom), (x0, bottom)),), pattern="knurl"),)
    count = max(2, int((bottom - top) / 1.4))
    return tuple(
        Line(x1=x0, y1=top + k * (bottom - top) / count, x2=x1, y2=top + k * (bottom - top) / count)
        for k in range(1, count)
    )
