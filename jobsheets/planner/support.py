"""The live centre under work that stands far out: when it is used, and what must be done before.

It stands in the chamfered mouth of a hole in the front. The tailstock is then busy, so every hole of that end
is finished first; facing and drilling go on without it.
"""

from msgspec.structs import replace

from jobsheets.part.turned import End, Hole, HoleKind
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Holding, Motion, Need, Operation, Setup

LARGEST_MOUTH = 12.0  # mm; a larger hole swallows the point of a small live centre (common practice)
HELD = (Motion.TURN, Motion.GROOVE, Motion.KNURL)
BUSY = "the tailstock holds the live centre from here on"
HINT = "Live centre in the mouth of the {}, snug and oiled, quill locked; it must turn with the work"
WITHDRAW = "Draw the live centre back before the blade is through"


def mouth_for_centre(job: JobView, held: Holding) -> Hole | None:
    """The hole whose mouth the live centre stands in; None where it is not wanted or cannot be used.

    Args:
        job: part and shop.
        held: the bar, front end out.
    """
    stands_out = job.shop.tooling.live_centre
    if stands_out is None or held.stick_out <= job.house.free_stick_out * held.diameter:
        return None
    if held.stick_out + stands_out + job.lathe.quill.usable_from > job.lathe.room:
        return None
    front = [h for h in job.part.holes if h.end is End.FRONT]
    if not front:
        return None
    outermost = max(front, key=lambda h: h.diameter.nominal)
    chamfered = outermost.kind is HoleKind.TAP or outermost.mouth is not None
    return outermost if chamfered and outermost.diameter.high <= LARGEST_MOUTH else None


def on_centre(job: JobView, setup: Setup, operations: list[Operation]) -> list[Operation]:
    """Operations with those that the live centre holds waiting for its seat and for the holes.

    Args:
        job: part and shop.
        setup: with `live_centre` set, or nothing is changed.
        operations: of that setup.
    """
    mouth = mouth_for_centre(job, setup.holding)
    if not setup.live_centre or mouth is None:
        return operations
    holes = [h for h in job.part.holes if h.end is End.FRONT]
    needs = (
        Need(fact=f"{mouth.id} mouth", because="the live centre stands in it"),
        *(Need(fact=f"{h.id} {'threaded' if h.thread else 'made'}", because=BUSY) for h in holes),
    )
    return [_changed(op, mouth, needs) for op in operations]


def _changed(op: Operation, mouth: Hole, needs: tuple[Need, ...]) -> Operation:
    if op.motion is Motion.PART_OFF:
        return replace(op, hints=(WITHDRAW, *op.hints))
    if op.motion not in HELD:
        return op
    return replace(op, needs=(*op.needs, *needs), hints=(HINT.format(mouth.id), *op.hints), on_centre=True)
