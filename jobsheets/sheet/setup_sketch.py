"""Sketch of one holding: jaws, stick-out, zero face, the work before in phantom line and after in full.

The work is drawn to scale in both directions; jaws and centre are plain outlines. On a lathe the chuck is at
the left and the tailstock at the right, as the maker sees them.
"""

from itertools import pairwise

from jobsheets.part.profile import radius_at
from jobsheets.sheet import drafting, face, symbols
from jobsheets.sheet.display import Drawing, Item, Line, Point, Polygon, Text
from jobsheets.sheet.view_values import SketchView

MARGIN = 2.0
JAW = 12.0  # drawn length of jaw, as far as the grip allows
BODY = 6.0
CENTRE = 14.0
MOST_SCALE = 4.0
HALF = 9.0  # room above and below the axis for the work, mm of paper


def sketch(view: SketchView, x: float, y: float, width: float, height: float) -> Drawing:
    """Sketch that fills a rectangle whose top left corner is at x, y.

    Args:
        view: geometry in mm of the part and the texts of the sketch.
        x: left edge on paper, mm.
        y: top edge on paper, mm.
        width: of the rectangle, mm.
        height: of the rectangle, mm.
    """
    return _Sketch(view, x, y, width, height).draw()


class _Sketch:
    """One sketch while it is drawn: where the axis lies and how part coordinates map to paper."""

    def __init__(self, view: SketchView, x: float, y: float, width: float, height: float) -> None:
        self.view = view
        self.x, self.y, self.width, self.height = x, y, width, height
        profile = (*view.before, *view.after)
        self.end = self._along(min(z for z, _ in profile) if view.front_out else max(z for z, _ in profile))
        self.jaw_face = self._along(view.grip[0] if view.front_out else view.grip[1])
        out = max(self.end - self.jaw_face, 1.0)
        radius = max(r for _, r in profile)
        right = CENTRE if view.live_centre else 6.0
        room = width - BODY - JAW - right - 2.0 * MARGIN
        self.scale = min(room / out, HALF / radius, MOST_SCALE)
        self.axis = y + height / 2.0 - 1.0
        self.face = x + MARGIN + BODY + JAW

    def _along(self, z: float) -> float:
        """Distance that grows away from the jaws, mm of the part."""
        return -z if self.view.front_out else z

    def at(self, z: float, r: float) -> Point:
        return self.face + (self._along(z) - self.jaw_face) * self.scale, self.axis - r * self.scale

    def outline(self, profile: tuple[Point, ...]) -> tuple[Point, ...]:
        """Both sides of a profile as one ring, cut off inside the jaws."""
        upper = [self.at(z, r) for z, r in profile]
        if self.view.front_out:
            upper.reverse()
        left = self.face - JAW + 0.5
        first = next((k for k, point in enumerate(upper) if point[0] > left), len(upper) - 1)
        inside = upper[first - 1] if first else upper[0]
        kept = [(max(left, inside[0]), inside[1]), *upper[first:]]
        return (*kept, *((px, 2.0 * self.axis - py) for px, py in reversed(kept)))

    def draw(self) -> Drawing:
        view = self.view
        items: list[Item] = []
        held = self._radius_held() * self.scale
        items += (
            symbols.chuck(self.face, self.axis, held, jaw=JAW, body=BODY) if view.lathe else self._vice(held)
        )
        items.append(Polygon(points=self.outline(view.before), style="phantom"))
        items.append(Polygon(points=self.outline(view.after), style="visible", fill="white"))
        items += self._bore()
        right = self.at(self.view.zero, 0.0)[0]
        items.append(drafting.centre_line(self.x + MARGIN, self.axis, right + 2.0, self.axis, 2.0))
        for z, diameter in view.cross_bores:
            items += self._cross(z, diameter)
        if view.live_centre:
            items += symbols.live_centre(right, self.axis, length=CENTRE)
        items += self._zero(right)
        items += self._stick_out(right)
        return tuple(items)

    def _radius_held(self) -> float:
        low, high = self.view.grip
        middle = (low + high) / 2.0
        near = [r for z, r in self.view.before if low - 1e-6 <= z <= high + 1e-6]
        return max(near) if near else min(self.view.before, key=lambda p: abs(p[0] - middle))[1]

    def _vice(self, held: float) -> Drawing:
        """Two jaws of a vice seen from above, the work lengthwise between them."""
        items: list[Item] = []
        for side in (-1.0, 1.0):
            a, b = self.axis + side * held, self.axis + side * (held + 9.0)
            left, right = self.face - JAW, self.face
            items.append(Polygon(points=((left, a), (right, a), (right, b), (left, b)), style="visible"))
        return tuple(items)

    def _bore(self) -> Drawing:
        """Holes as hidden lines: the sketch is seen from outside. The solid bar behind them has none."""
        items: list[Item] = []
        for (z0, r0), (z1, r1) in pairwise(self.view.bore):
            if r0 <= 0.0 and r1 <= 0.0:
                continue
            (xa, ya), (xb, yb) = self.at(z0, r0), self.at(z1, r1)
            if min(xa, xb) < self.face - JAW:
                continue
            for side in (1.0, -1.0):
                y0, y1 = (self.axis + side * (y - self.axis) for y in (ya, yb))
                items.append(Line(x1=xa, y1=y0, x2=xb, y2=y1, style="hidden"))
        return tuple(items)

    def _cross(self, z: float, diameter: float) -> Drawing:
        cx, top = self.at(z, radius_at(self.view.after, z))
        half = diameter * self.scale / 2.0
        return tuple(
            Line(x1=cx + s * half, y1=top, x2=cx + s * half, y2=2.0 * self.axis - top, style="hidden")
            for s in (-1.0, 1.0)
        )

    def _zero(self, right: float) -> Drawing:
        """The zero face, with the way lengths count from it."""
        top = self.axis - HALF - 5.0
        return (
            Line(x1=right, y1=self.axis - HALF, x2=right, y2=top),
            drafting.arrow(right - 8.0, top + 1.0, 180.0),
            Line(x1=right, y1=top + 1.0, x2=right - 6.0, y2=top + 1.0),
            Text(x=right - 9.5, y=top + 2.4, text="zero face", size=drafting.NOTE, anchor="end"),
        )

    def _stick_out(self, right: float) -> Drawing:
        """Stick-out from the jaws, dimensioned below the work."""
        y = self.axis + HALF + 9.0
        text = self.view.stick_out
        middle = (self.face + right) / 2.0
        items: list[Item] = [
            Line(x1=self.face, y1=self.axis + HALF + 1.0, x2=self.face, y2=y + 2.0),
            Line(x1=right, y1=self.axis + HALF + 1.0, x2=right, y2=y + 2.0),
            Line(x1=self.face, y1=y, x2=right, y2=y),
            drafting.arrow(self.face, y, 180.0),
            drafting.arrow(right, y, 0.0),
        ]
        label = f"{text} out of the jaws"
        half = face.width(label, drafting.NOTE) / 2.0
        at = min(max(middle, self.x + half), self.x + self.width - half)
        items.append(Text(x=at, y=y + 5.0, text=label, size=drafting.NOTE, anchor="middle"))
        return tuple(items)
