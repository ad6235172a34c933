"""A turned part with every dimension a number: outline, holes, threads, cross holes, knurls.

Axis     z runs along the axis from the front face (0) to the back face (`length`), mm. The front is the end
         that stands out of the chuck first, by habit of the recipe; the planner may turn the part round.
Outline  segments lie end to end from front to back; each has one diameter.
"""

from enum import StrEnum
from functools import cached_property
from itertools import accumulate
from math import radians, tan

from msgspec import Struct

from jobsheets.part.size import Size
from jobsheets.standards.threads import Thread

POINT = 118.0  # degrees; of a usual drill, whose cone is the floor of a blind hole


class End(StrEnum):
    FRONT = "front"
    BACK = "back"


class SegmentKind(StrEnum):
    TURN = "turn"
    GROOVE = "groove"  # a recess between two larger diameters, or an undercut at a shoulder
    THREAD = "thread"  # external, by die or with a single point


class EdgeKind(StrEnum):
    CHAMFER = "chamfer"  # size = leg along the axis and across it, 45 degrees
    RADIUS = "radius"  # rounds an outer corner
    DOME = "dome"  # a ball cap over the whole end face; size = its height


class Bottom(StrEnum):
    THROUGH = "through"
    BLIND = "blind"  # drill point left
    FLAT = "flat"


class HoleKind(StrEnum):
    DRILL = "drill"
    BORE = "bore"
    REAM = "ream"
    COUNTERBORE = "counterbore"
    TAP = "tap"


class Method(StrEnum):
    """How a thread is cut, where the recipe says so."""

    FREE = ""  # the planner's choice
    HAND = "hand tool"  # tap or die
    SINGLE_POINT = "single point"


class Edge(Struct, frozen=True, kw_only=True):
    """The form of one outer corner of a segment."""

    kind: EdgeKind
    size: Size


class ThreadSpec(Struct, frozen=True, kw_only=True):
    """A thread asked for, internal or external, with its class."""

    thread: Thread
    tolerance_class: str
    left: bool = False
    method: Method = Method.FREE
    starts: int = 1

    @property
    def lead(self) -> float:
        """Advance in one turn, mm."""
        return self.thread.pitch * self.starts

    @property
    def text(self) -> str:
        starts = f", {self.starts} starts" if self.starts > 1 else ""
        return f"{self.thread.name}-{self.tolerance_class}{'-LH' if self.left else ''}{starts}"


class Segment(Struct, frozen=True, kw_only=True):
    """A stretch of the outline with one diameter."""

    id: str
    kind: SegmentKind
    diameter: Size
    length: Size
    front: Edge | None = None  # edge form at its front corner
    back: Edge | None = None
    thread: ThreadSpec | None = (
        None  # kind THREAD: over the whole segment less `thread_clear` at its shoulder
    )
    as_stock: bool = False  # the bar's own surface is left: never cut


class Hole(Struct, frozen=True, kw_only=True):
    """A hole on the axis, entered from one end."""

    id: str
    kind: HoleKind
    end: End
    bottom: Bottom
    diameter: Size  # tap: minor diameter with the limits of its class
    depth: Size | None  # full diameter (tap: full thread) from the mouth; None when through
    mouth: Size | None = None  # chamfer at the mouth: its largest diameter
    thread: ThreadSpec | None = None


class CrossHole(Struct, frozen=True, kw_only=True):
    """A hole across the axis, through the middle."""

    id: str
    diameter: Size
    at: Size  # distance of its centre from the front face of the part
    segment: str  # id of the segment it crosses
    through: bool = True


class Knurl(Struct, frozen=True, kw_only=True):
    """A rolled pattern on a segment."""

    id: str
    segment: str
    form: str  # "straight" or "diamond"
    pitch: float  # mm, along the circumference


class Mate(Struct, frozen=True, kw_only=True):
    """A size that is cut to fit a measured mate."""

    size: str  # id of the segment or hole
    to: str  # name of the mate, for --measured
    ask: str
    allowance: float  # mm added to the mate's size; negative for clearance of a shaft
    expected: float  # mate's size that the recipe's nominal stands for, mm
    measured: float | None  # mm, when it was given


class Pin(Struct, frozen=True, kw_only=True):
    """An order the maker insists on."""

    operation: str
    before: str
    why: str


class InputValue(Struct, frozen=True, kw_only=True):
    """One input of the recipe as it was used, for the header of the sheet."""

    name: str
    text: str
    help: str
    given: bool  # set on the command line rather than in the recipe


class TurnedPart(Struct, frozen=True, kw_only=True, dict=True):
    """A resolved recipe of a turned part."""

    name: str
    title: str
    material: str  # name in the table of materials
    rod: Size  # bar diameter with the tolerance of its standard
    segments: tuple[Segment, ...]
    holes: tuple[Hole, ...] = ()
    cross_holes: tuple[CrossHole, ...] = ()
    knurls: tuple[Knurl, ...] = ()
    mates: tuple[Mate, ...] = ()
    pins: tuple[Pin, ...] = ()
    inputs: tuple[InputValue, ...] = ()
    notes: tuple[str, ...] = ()  # choices with their reasons, printed on the sheet
    overall: Size | None = None  # limits on the whole length where the recipe gives them
    system: str = "mm"  # unit system the recipe is written in, "in" or "mm"

    @cached_property
    def length(self) -> float:
        return sum(s.length.nominal for s in self.segments)

    @cached_property
    def starts(self) -> tuple[float, ...]:
        """Z of each segment's front, then of the back face; nominal, mm."""
        return tuple(accumulate((s.length.nominal for s in self.segments), initial=0.0))

    def span(self, segment: str) -> tuple[float, float]:
        """Nominal z of the front and back of a segment, mm.

        Raises:
            KeyError: no segment has that id.
        """
        index = self._index[segment]
        return self.starts[index], self.starts[index + 1]

    def index(self, segment: str) -> int:
        """Place of a segment in the outline, from the front.

        Raises:
            KeyError: no segment has that id.
        """
        return self._index[segment]

    @cached_property
    def _index(self) -> dict[str, int]:
        return {s.id: i for i, s in enumerate(self.segments)}

    @cached_property
    def _largest(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Largest nominal diameter before each segment, and after it."""
        sizes = [s.diameter.nominal for s in self.segments]
        before = tuple(accumulate([0.0, *sizes[:-1]], max))
        after = tuple(accumulate([0.0, *sizes[:0:-1]], max))[::-1]
        return before, after

    def plunged(self, segment: Segment) -> bool:
        """Whether no turning tool reaches a segment: a groove, or one with something larger on both sides."""
        i, (before, after) = self._index[segment.id], self._largest
        return segment.kind is SegmentKind.GROOVE or segment.diameter.nominal + 1e-9 < min(
            before[i], after[i]
        )

    def wider(self, hole: Hole) -> tuple[Hole, ...]:
        """Larger blind holes from the same end, on whose floor a hole begins."""
        return tuple(
            h
            for h in self.holes
            if h.end is hole.end and h.depth is not None and h.diameter.nominal > hole.diameter.nominal
        )

    def opened_at(self, hole: Hole) -> float:
        """Nominal depth at which a hole begins, mm: 0, or where a larger one from its end leaves off."""
        found = 0.0
        for h in self.wider(hole):
            cone = (h.diameter.nominal - hole.diameter.nominal) / 2.0 / tan(radians(POINT / 2.0))
            deep = h.depth.aim if h.depth is not None else 0.0
            found = max(found, deep + (cone if h.bottom is Bottom.BLIND else 0.0))
        return found

    def segment(self, segment: str) -> Segment:
        return self.segments[self._index[segment]]
