"""Sketch of one holding: jaws, stick-out, zero face, the work before in phantom line and after in full.

The work is drawn to scale in both directions; jaws and centre are plain outlines. On a lathe the chuck is at
the left and the tailstock at the right, as the maker sees them; in a vice the work is seen from above.
"""

from itertools import pairwise

from jobsheets.part.profile import Profile, radius_at
from jobsheets.sheet import drafting, face, symbols
from jobsheets.sheet.display import Drawing, Item, Line, Point, Polygon, Text
from jobsheets.sheet.drafting import NOTE
from jobsheets.sheet.view_values import SketchView

MARGIN = 2.0
JAW = 12.0  # drawn length of the jaws of a chuck; the grip itself is told in words
BODY = 6.0
CENTRE = 14.0
LARGER = 0.02  # mm on the radius that keeps a part out of the jaws
VICE_JAW = 5.0  # drawn thickness of a jaw of the vice
MOST_SCALE = 4.0
HALF = 9.0  # room above and below the axis for the work
ZERO = "zero face"
SHORT = 9.0  # a dimension shorter than this has its arrows outside


def sketch(view: SketchView, x: float, y: float, width: float, height: float) -> Drawing:
    """Sketch that fills a rectangle.

    Args:
        view: geometry in mm of the part, and the texts of the sketch.
        x: left edge on paper, mm.
        y: top edge on paper, mm.
        width: of the rectangle, mm.
        height: of the rectangle, mm.
    """
    kinds = {"vice": _InVice, "collet": _InCollet, "threaded mandrel": _OnMandrel}
    return kinds.get(view.kind, _InChuck)(view, x, y, width, height).draw()


class _Sketch:
    """One sketch while it is drawn: `origin` is the paper x of `base`, a distance along the work."""

    def __init__(self, view: SketchView, x: float, y: float, width: float, height: float) -> None:
        self.view = view
        self.x, self.y, self.width, self.height = x, y, width, height
        self.axis = y + height / 2.0 - 0.5
        self.radius = max(r for _, r in (*view.before, *view.after))
        self.origin, self.base, self.scale = x, 0.0, 1.0
        self.place()
        self.zero = self.at(view.zero, 0.0)[0]

    def place(self) -> None:
        raise NotImplementedError

    def draw(self) -> Drawing:
        raise NotImplementedError

    def along(self, z: float) -> float:
        """Distance that grows to the right on paper, mm of the part."""
        return -z if self.view.front_out else z

    def at(self, z: float, r: float) -> Point:
        return self.origin + (self.along(z) - self.base) * self.scale, self.axis - r * self.scale

    def ends(self, profile: Profile) -> tuple[float, float]:
        first, last = self.along(profile[0][0]), self.along(profile[-1][0])
        return min(first, last), max(first, last)

    def outline(self, profile: Profile, left: float) -> tuple[Point, ...]:
        """Both sides of a profile as one ring, cut off at `left` on paper."""
        upper = [self.at(z, r) for z, r in profile]
        if self.view.front_out:
            upper.reverse()
        first = next((k for k, point in enumerate(upper) if point[0] > left), len(upper) - 1)
        inside = upper[first - 1] if first else upper[0]
        kept = [(max(left, inside[0]), inside[1]), *upper[first:]]
        return (*kept, *((px, 2.0 * self.axis - py) for px, py in reversed(kept)))

    def work(self, left: float) -> Drawing:
        """The work before and after, with its holes as hidden lines."""
        items: list[Item] = [
            Polygon(points=self.outline(self.view.before, left), style="phantom"),
            Polygon(points=self.outline(self.view.after, left), style="visible", fill="white"),
        ]
        for (z0, r0), (z1, r1) in pairwise(self.view.bore):
            if r0 <= 0.0 and r1 <= 0.0:
                continue
            (xa, ya), (xb, yb) = self.at(z0, r0), self.at(z1, r1)
            if min(xa, xb) >= left - 1e-6:
                items += self.twice(xa, ya, xb, yb)
        for z, diameter in self.view.cross_bores:
            items += self.cross(z, diameter)
        right = max(self.at(z, 0.0)[0] for z in (self.view.after[0][0], self.view.after[-1][0]))
        items.append(drafting.centre_line(max(left, self.x + 4.0), self.axis, right, self.axis, 2.0))
        return tuple(items)

    def twice(self, xa: float, ya: float, xb: float, yb: float) -> Drawing:
        """A hidden line and its image on the other side of the axis."""
        other = 2.0 * self.axis
        return (
            Line(x1=xa, y1=ya, x2=xb, y2=yb, style="hidden"),
            Line(x1=xa, y1=other - ya, x2=xb, y2=other - yb, style="hidden"),
        )

    def cross(self, z: float, diameter: float) -> Drawing:
        cx, top = self.at(z, radius_at(self.view.after, z))
        half = diameter * self.scale / 2.0
        low = 2.0 * self.axis - top
        return tuple(
            Line(x1=cx + s * half, y1=top, x2=cx + s * half, y2=low, style="hidden") for s in (-1.0, 1.0)
        )

    def zero_face(self) -> Drawing:
        """The zero face, with the way lengths count from it into the work; its name on the other side."""
        top = self.axis - HALF - 7.0
        middle = sum(self.at(z, 0.0)[0] for z in (self.view.after[0][0], self.view.after[-1][0])) / 2.0
        into = -1.0 if middle < self.zero else 1.0  # lengths count into the work
        wide = face.width(ZERO, NOTE)
        start = self.zero + 2.0 if into < 0.0 else self.zero - 2.0 - wide
        if start + wide > self.x + self.width - 1.0:
            start = self.zero - 10.0 - wide
        return (
            Line(x1=self.zero, y1=self.axis - HALF + 1.0, x2=self.zero, y2=top - 1.5),
            drafting.arrow(self.zero + into * 8.0, top, 180.0 if into < 0.0 else 0.0),
            Line(x1=self.zero, y1=top, x2=self.zero + into * 6.0, y2=top),
            Text(x=start, y=top + 1.4, text=ZERO, size=NOTE),
        )

    def measured(self, a: float, b: float, text: str, start: float) -> Drawing:
        """A length below the work, from a to b on paper; its text stands below the line from `start`."""
        y = self.axis + HALF + 7.0
        inside = b - a > SHORT
        reach = 0.0 if inside else 6.0
        return (
            Line(x1=a, y1=self.axis + HALF + 0.5, x2=a, y2=y + 1.5),
            Line(x1=b, y1=self.axis + HALF + 0.5, x2=b, y2=y + 1.5),
            Line(x1=a - reach, y1=y, x2=b + reach, y2=y),
            drafting.arrow(a, y, 180.0 if inside else 0.0),
            drafting.arrow(b, y, 0.0 if inside else 180.0),
            Text(x=start, y=y + 5.6, text=text, size=NOTE),
        )


class _InChuck(_Sketch):
    """Chuck at the left, the work standing out to the right."""

    from_what = "out of the jaws"
    hidden = JAW - 0.5  # mm of paper of the work that are drawn inside the jaws

    def base_at(self) -> float:
        """Place of the holder's front face, as a distance along the work."""
        low, high = self.view.grip
        return self.along(low if self.view.front_out else high)

    def place(self) -> None:
        self.base = self.base_at()
        out = max(self.ends(self.view.before)[1], self.ends(self.view.after)[1]) - self.base
        right = CENTRE + 2.0 if self.view.live_centre else 6.0
        room = self.width - BODY - JAW - right - MARGIN
        self.scale = min(room / max(out, 1.0), HALF / self.radius, MOST_SCALE)
        self.origin = self.x + MARGIN + BODY + JAW

    def draw(self) -> Drawing:
        items: list[Item] = [*self.holder()]
        items += self.work(self.origin - self.hidden)
        if self.view.live_centre:
            items += symbols.live_centre(self.zero, self.axis, length=CENTRE)
        items += self.zero_face()
        label = f"{self.view.stick_out} {self.from_what}"
        items += self.measured(self.origin, self.zero, label, self.origin + 1.5)
        return tuple(items)

    def holder(self) -> Drawing:
        held = radius_at(self.view.before, sum(self.view.grip) / 2.0) * self.scale
        return symbols.chuck(self.origin, self.axis, held, jaw=JAW, body=BODY)


class _InCollet(_InChuck):
    """A collet's nose closes round the work."""

    from_what = "out of the collet"

    def holder(self) -> Drawing:
        held = radius_at(self.view.before, sum(self.view.grip) / 2.0) * self.scale
        left, back = self.origin - JAW, self.origin - JAW - BODY
        outer = held + 11.0
        items: list[Item] = [
            Polygon(points=_mirrored(((back, outer), (left, outer)), self.axis), style="visible"),
        ]
        for side in (1.0, -1.0):
            ring = ((left, outer), (self.origin, held + 4.0), (self.origin, held), (left, held))
            points = tuple((px, self.axis + side * r) for px, r in ring)
            items.append(Polygon(points=points, style="visible"))
        return tuple(items)


class _OnMandrel(_InChuck):
    """The work screwed on a mandrel, against its shoulder; all of it stands out."""

    from_what = "out of the mandrel"
    hidden = 0.0

    def base_at(self) -> float:
        return min(self.ends(self.view.before)[0], self.ends(self.view.after)[0])

    def holder(self) -> Drawing:
        stud = 0.7 * self.view.held_diameter / 2.0 * self.scale
        body, long = self.view.held_diameter / 2.0 * self.scale, JAW + BODY
        inside = max((self.along(z) - self.base for z in self.view.grip), default=0.0) * self.scale
        rough = ((self.origin - long, body), (self.origin, body))
        thread = ((self.origin, stud), (self.origin + inside, stud))
        return (
            Polygon(points=_mirrored(rough, self.axis), style="visible"),
            Polygon(points=_mirrored(thread, self.axis), style="hidden"),
        )


def _mirrored(upper: tuple[Point, ...], axis: float) -> tuple[Point, ...]:
    """Both sides of an outline of x and radius, on paper."""
    return (*((px, axis - r) for px, r in upper), *((px, axis + r) for px, r in reversed(upper)))


class _InVice(_Sketch):
    """The work lengthwise between two jaws, from above, its zero face where the spindle counts from."""

    def place(self) -> None:
        left, right = self.ends(self.view.after)
        room = self.width - 2.0 * 20.0
        self.scale = min(room / max(right - left, 1.0), HALF / self.radius, MOST_SCALE)
        self.base = left
        self.origin = self.x + (self.width - (right - left) * self.scale) / 2.0

    def draw(self) -> Drawing:
        a, b = self.jaws()
        held = radius_at(self.view.before, sum(self.view.grip) / 2.0) * self.scale
        items: list[Item] = []
        for side in (-1.0, 1.0):
            near, far = self.axis + side * held, self.axis + side * (held + VICE_JAW)
            items.append(Polygon(points=((a, near), (b, near), (b, far), (a, far)), style="visible"))
        items += self.work(self.x + 1.0)
        items += self.zero_face()
        for z, text in self.view.places:
            px = self.at(z, 0.0)[0]
            start = min(self.zero, px)
            label = f"{text} to the middle"
            start = min(start, self.x + self.width - 2.0 - face.width(label, NOTE))
            items += self.measured(min(self.zero, px), max(self.zero, px), label, start)
            items.append(drafting.centre_line(px, self.axis - HALF, px, self.axis + HALF, 1.0))
        return tuple(items)

    def jaws(self) -> tuple[float, float]:
        """Both ends of the jaws on paper, cut off at the frame.

        Where a larger diameter stands beside the grip the jaws end before it; else the grip is in the middle.
        """
        a, b = sorted(self.at(z, 0.0)[0] for z in self.view.grip)
        wide = max(self.view.jaw_width * self.scale, b - a)
        held = radius_at(self.view.before, sum(self.view.grip) / 2.0)
        larger = [self.at(z, 0.0)[0] for z, r in self.view.before if r > held + LARGER]
        if any(px > (a + b) / 2.0 for px in larger):
            a = b - wide
        elif larger:
            b = a + wide
        else:
            a, b = (a + b - wide) / 2.0, (a + b + wide) / 2.0
        return max(a, self.x), min(b, self.x + self.width)
