"""The work between bar and finished part: what is there after each cut.

Coordinates are the part's: z = 0 at the finished front face, rising toward the back, mm. The bar reaches
beyond the back until the part is cut off.
"""

from math import radians, tan

from msgspec import Struct
from msgspec.structs import replace

from jobsheets.part.profile import SAME, Profile, cut_above, cut_below, cylinder, radius_at, trimmed


class ThreadZone(Struct, frozen=True, kw_only=True):
    """Thread cut so far: full form between `start` and `end`."""

    feature: str
    thread: str
    internal: bool
    start: float
    end: float
    clean: bool = True  # False once a cross hole has thrown a burr into it


class CrossBore(Struct, frozen=True, kw_only=True):
    feature: str
    z: float
    diameter: float
    through: bool


class Work(Struct, frozen=True, kw_only=True):
    """What is there of the work: outside, holes, threads, cross holes and knurls."""

    outer: Profile
    inner: Profile  # 0 where solid; holes from both ends share it
    threads: tuple[ThreadZone, ...] = ()
    cross_bores: tuple[CrossBore, ...] = ()
    knurls: tuple[tuple[str, float, float], ...] = ()

    @property
    def front(self) -> float:
        return self.outer[0][0]

    @property
    def back(self) -> float:
        return self.outer[-1][0]

    def cut_outside(self, line: Profile) -> "Work":
        return replace(self, outer=cut_below(self.outer, line))

    def cut_inside(self, line: Profile) -> "Work":
        return replace(self, inner=cut_above(self.inner, line))

    def kept(self, front: float, back: float) -> "Work":
        """The work after facing or cutting off: only the stretch between front and back is left.

        Raises:
            ValueError: nothing is left, or the cut would lie in the air.
        """
        if front < self.front - SAME or back > self.back + SAME or back - front < SAME:
            raise ValueError(
                f"work from {self.front:.3f} to {self.back:.3f} mm has no stretch "
                f"from {front:.3f} to {back:.3f} mm"
            )
        return replace(self, outer=trimmed(self.outer, front, back), inner=trimmed(self.inner, front, back))

    def wall(self, z: float) -> float:
        return radius_at(self.outer, z) - radius_at(self.inner, z)


def touch_depth(holes: tuple[tuple[float, float], ...], radius: float, point: float) -> float:
    """How deep the tip of a drill stands when it touches: in a spot, a pilot hole, on a floor, or the face.

    Args:
        holes: what is open under the face, as (depth, radius) with depth rising from 0, mm.
        radius: of the drill, mm.
        point: included angle of its point, degrees; 180 for a flat end.

    Returns:
        Depth of the tip below the face, mm: 0 on a whole face; the flank on the rim of a narrower hole; the
        floor of a wider one.
    """
    slope = 1.0 / tan(radians(point / 2.0)) if point < 180.0 else 0.0
    return min((depth + open_to * slope for depth, open_to in holes if open_to < radius - SAME), default=0.0)


def bar(diameter: float, front: float, back: float) -> Work:
    """A piece of round bar from front to back, mm."""
    return Work(outer=cylinder(front, back, diameter / 2.0), inner=cylinder(front, back, 0.0))
