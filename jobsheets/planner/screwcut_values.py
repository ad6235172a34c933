"""What is settled of a thread before its operations are built: tap or die, or a single point and how."""

from enum import StrEnum
from math import radians, tan

from msgspec import Struct

from jobsheets.finding import Finding
from jobsheets.part.turned import ThreadSpec
from jobsheets.planner.operation import Cutter, Gearing, Rejected


class Infeed(StrEnum):
    COMPOUND = "compound"  # the swivelled top slide feeds in; one edge cuts
    STRAIGHT = "straight"  # the cross slide feeds in
    SIDE_SHIFT = "side shift"  # the cross slide feeds in, the top slide moves sideways with it


class RunOut(Struct, frozen=True, kw_only=True):
    """Where the passes of a thread end, mm from the face that stands out."""

    at: float  # the point, as the carriage counts it
    room: float  # how much farther it may run before it meets metal
    grooved: bool
    bottom: float = 0.0  # inside: full diameter that the hole must have


class Screwcut(Struct, frozen=True, kw_only=True):
    """A thread cut with a single point, settled."""

    spec: ThreadSpec
    inside: bool
    cutter: Cutter
    gearing: Gearing
    start: float  # diameter of the blank or of the hole, mm
    infeed: Infeed
    swivel: float  # of the top slide from the cross slide, degrees; 0 straight in
    touch: float  # travel of the cross slide at which the point touches, mm
    travel: float  # of the dial that feeds in, at full depth, mm
    depth: float  # square to the axis, mm
    run_out: RunOut


def tan_of(degrees: float) -> float:
    return tan(radians(degrees))


class ThreadChoice(Struct, frozen=True, kw_only=True):
    """How one thread is cut."""

    single: Screwcut | None = None  # None: by tap or die
    rejected: tuple[Rejected, ...] = ()
    stop: Finding | None = None  # it cannot be cut in this shop as the recipe asks


class CannotCutError(Exception):
    """A single point does not cut this thread here."""

    def __init__(self, why: str, remedy: str) -> None:
        super().__init__(why)
        self.why = why
        self.remedy = remedy
