"""A turned part as it is drawn: steps, holes and notes, and the outlines they make. Plain numbers and texts.

Units    mm of the part; z from the front face along the axis, r from the axis.
"""

from collections.abc import Iterable
from itertools import pairwise
from math import cos, pi, radians, sin, tan
from typing import Literal

from msgspec import Struct

from jobsheets.sheet.display import Pattern, Point
from jobsheets.sheet.drafting import DRILL_POINT, Label

SIDE = 1e-9  # mm; on which side of a shoulder a radius is asked for


class Corner(Struct, frozen=True, kw_only=True):
    """Form of an outer corner: a chamfer or radius of `size`, or a dome of that height over the face."""

    form: Literal["chamfer", "radius", "dome"]
    size: float


class Step(Struct, frozen=True, kw_only=True):
    """A stretch of the outline with one diameter, with the texts of its dimensions; no text, no dimension."""

    length: float
    diameter: float
    front: Corner | None = None
    back: Corner | None = None
    minor: float | None = None  # an external thread: its minor diameter
    length_text: Label = ()
    diameter_text: Label = ()


class Bore(Struct, frozen=True, kw_only=True):
    """A hole on the axis. `thread` is the depth of full thread, `major` its major diameter."""

    diameter: float
    depth: float | None = None  # of the full diameter; None when through
    from_front: bool = True
    point: float = DRILL_POINT  # included angle; 180 for a flat bottom
    mouth: float | None = None  # largest diameter of a 90 degree chamfer
    thread: float | None = None
    major: float | None = None


class Across(Struct, frozen=True, kw_only=True):
    """A hole across the axis, in the plane of the drawing."""

    at: float
    diameter: float
    through: bool = True


class Rolled(Struct, frozen=True, kw_only=True):
    """A knurl on a stretch of the outline."""

    start: float
    end: float
    diamond: bool = True


class Remark(Struct, frozen=True, kw_only=True):
    """A note whose leader points at z and r, r counted upwards from the axis."""

    text: Label
    z: float
    r: float


class Shape(Struct, frozen=True, kw_only=True):
    """All that is drawn of one part."""

    steps: tuple[Step, ...]
    bores: tuple[Bore, ...] = ()
    across: tuple[Across, ...] = ()
    rolled: tuple[Rolled, ...] = ()
    remarks: tuple[Remark, ...] = ()
    overall_text: Label = ()
    pattern: Pattern = "steel"

    @property
    def starts(self) -> tuple[float, ...]:
        """Front of each step, then the back face, as z."""
        at = [0.0]
        for step in self.steps:
            at.append(at[-1] + step.length)
        return tuple(at)


def depth(corner: Corner | None) -> float:
    """How far a corner's form reaches along the axis."""
    return corner.size if corner else 0.0


def drop(corner: Corner | None) -> float:
    """How far below its diameter a face ends at a chamfer or radius."""
    return corner.size if corner and corner.form != "dome" else 0.0


def face_radius(corner: Corner | None, radius: float) -> float:
    """Radius at which an end is reached: `radius` of a flat face, the axis of a dome."""
    return 0.0 if corner and corner.form == "dome" else radius


# ---------------------------------------------------------------------------------------------------------
# Geometry in mm of the part: lists of (z, r)


def outline(shape: Shape) -> tuple[Point, ...]:
    """Upper outline from the front face to the back face."""
    points: list[Point] = []
    for (z0, z1), step in zip(pairwise(shape.starts), shape.steps, strict=True):
        r = step.diameter / 2.0
        points.extend(_corner(step.front, z0, r, 1.0) or [(z0, r)])
        points.extend(reversed(_corner(step.back, z1, r, -1.0) or [(z1, r)]))
    return tuple(points)


def _corner(corner: Corner | None, z: float, r: float, into: float) -> list[Point]:
    """From the face inwards."""
    if corner is None:
        return []
    c = corner.size
    if corner.form == "chamfer":
        return [(z, r - c), (z + into * c, r)]
    turns = [k * pi / 2.0 / 12.0 for k in range(13)]
    if corner.form == "radius":
        return [(z + into * c * (1.0 - cos(a)), r - c + c * sin(a)) for a in turns]
    ball = (r * r + c * c) / (2.0 * c)  # radius of the ball whose cap of height c covers the face
    depths = [c * k / 12.0 for k in range(13)]
    return [(z + into * d, (2.0 * ball * d - d * d) ** 0.5) for d in depths]


def _radius(bore: Bore, z: float, length: float) -> float:
    """Radius of one bore at z."""
    d, r = (z if bore.from_front else length - z), bore.diameter / 2.0
    depth = length if bore.depth is None else bore.depth
    here = r if d <= depth else 0.0
    if depth < d and bore.point < 180.0:
        here = max(0.0, r - (d - depth) * tan(radians(bore.point / 2.0)))
    if bore.mouth is not None:
        here = max(here, bore.mouth / 2.0 - d)
    return here


def inside(shape: Shape) -> tuple[Point, ...]:
    """Wall of the holes from front to back, r = 0 where the part is solid on its axis."""
    length = shape.starts[-1]
    cuts = {0.0, length}
    for bore in shape.bores:
        r, depth = bore.diameter / 2.0, length if bore.depth is None else bore.depth
        marks = {depth, depth + r / tan(radians(bore.point / 2.0))} if bore.depth is not None else set()
        if bore.mouth is not None:
            marks.add(bore.mouth / 2.0 - r)
        for other in shape.bores:  # where a drill point runs into a smaller hole
            if bore.depth is not None and bore.point < 180.0 and other.diameter < bore.diameter:
                marks.add(depth + (r - other.diameter / 2.0) / tan(radians(bore.point / 2.0)))
        cuts |= {z if bore.from_front else length - z for z in marks}
    stops = sorted(z for z in cuts if 0.0 <= z <= length)
    points: list[Point] = []
    for z0, z1 in pairwise(stops):
        for z in (z0 + SIDE, z1 - SIDE):
            r = max((_radius(bore, z, length) for bore in shape.bores), default=0.0)
            points.append((z0 if z < (z0 + z1) / 2.0 else z1, 0.0 if r < 1e-6 else r))
    return tuple(points)


def stretches(shape: Shape) -> Iterable[tuple[float, float, Step]]:
    """Front and back of each step, with the step."""
    for (z0, z1), step in zip(pairwise(shape.starts), shape.steps, strict=True):
        yield z0, z1, step


def radius_at(shape: Shape, z: float) -> float:
    """Nominal radius of the outline at z, corners left out."""
    for z0, z1, step in stretches(shape):
        if z0 <= z <= z1:
            return step.diameter / 2.0
    raise ValueError(f"{z:.2f} mm is not on the part, which is {shape.starts[-1]:.2f} mm long")
