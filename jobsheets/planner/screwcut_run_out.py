"""Where a screwcut thread may end: in its relief groove, before a shoulder, or in the clear of a hole. mm."""

from msgspec import Struct

from jobsheets.finding import mm
from jobsheets.part.turned import Bottom, End, Hole, Segment
from jobsheets.planner.job_view import JobView
from jobsheets.planner.screwcut_values import CannotCutError, RunOut
from jobsheets.planner.setting import inside, up
from jobsheets.standards.thread_form import root_diameter

UNFINISHED = 2.0  # pitches of incomplete thread that may stand at a shoulder; more is no thread (inspect.py)
LEAST_ROOM = 0.1  # mm; less is no room at all
CLEAR_PITCHES = 2.0  # clear of a hole beyond the tool, so that it can be stopped (common practice)


class Reach(Struct, frozen=True, kw_only=True):
    """Ends of a thread counted from the face that stands out, mm."""

    begin: float
    end: float
    before: Segment | None  # toward the free end
    behind: Segment | None  # toward the chuck


def reach(job: JobView, segment: Segment) -> Reach:
    """Where a thread lies in the setup in which it is cut."""
    front, back = job.targets.span(job.part, segment.id)
    segments = job.part.segments
    k = segments.index(segment)
    before, behind = (
        (segments[k - 1] if k else None),
        (segments[k + 1] if k + 1 < len(segments) else None),
    )
    if segment.id in job.first:
        return Reach(begin=front, end=back, before=before, behind=behind)
    length = job.targets.length
    return Reach(begin=length - back, end=length - front, before=behind, behind=before)


def outside(job: JobView, segment: Segment, side: float, shift: float) -> RunOut:
    """End of the passes on a screw.

    Args:
        job: part, targets and dials.
        segment: the thread.
        side: of the tool, from its point.
        shift: how far the point has moved along the work at full depth.

    Raises:
        CannotCutError: there is no place for the tool.
    """
    spec = segment.thread
    assert spec is not None
    at, pitch, root = reach(job, segment), spec.thread.pitch, root_diameter(spec.thread)
    if at.before is not None and job.targets.diameter(at.before.id) > root:
        raise CannotCutError(
            f"the {at.before.id} stands before it, wider than the root of the thread",
            f"a {at.before.id} of less than {mm(root)}",
        )
    grooved = at.behind is not None and job.targets.diameter(at.behind.id) <= root
    if grooved and at.behind is not None:
        front, back = job.targets.span(job.part, at.behind.id)
        return _in_groove(job, at.end, back - front, side, shift, pitch)
    if spec.left:
        raise CannotCutError(
            "a left-hand thread starts at the chuck's end, and there is no groove to start in",
            f"a relief groove of {mm(side + shift + pitch)} or more",
        )
    return _at_shoulder(job, at.end, side, shift, pitch)


def _in_groove(job: JobView, end: float, width: float, side: float, shift: float, pitch: float) -> RunOut:
    most = end + width - side - shift
    if most < end + LEAST_ROOM:
        raise CannotCutError(
            f"the relief groove is {mm(width)} wide, the tool takes {mm(side + shift)} of it",
            f"a groove of {mm(side + shift + pitch)} or more, or a tool with less beside its point",
        )
    wish = end + min(pitch / 2.0, (most - end) / 2.0)
    line = inside(end, most, wish, job.lathe.carriage.step)
    at = line.travel if line is not None else wish
    return RunOut(at=at, room=most - at, grooved=True)


def _at_shoulder(job: JobView, end: float, side: float, shift: float, pitch: float) -> RunOut:
    least, most = end - UNFINISHED * pitch - shift + LEAST_ROOM / 2.0, end - side - shift
    if most < least + LEAST_ROOM:
        raise CannotCutError(
            f"no relief groove, and the tool stops {mm(side)} before the shoulder",
            f"a relief groove of {mm(side + shift + pitch)} or more",
        )
    line = inside(least, most - LEAST_ROOM, least, job.lathe.carriage.step)
    at = line.travel if line is not None else least
    return RunOut(at=at, room=most - at, grooved=False)


def in_hole(job: JobView, hole: Hole, side: float) -> RunOut:
    """End of the passes in a nut, with the depth that its hole must have."""
    spec = hole.thread
    assert spec is not None
    through = hole.depth is None or hole.bottom is Bottom.THROUGH
    full = job.targets.length + LEAST_ROOM if through or hole.depth is None else hole.depth.aim
    at = up(job.lathe.carriage, full)
    room = CLEAR_PITCHES * spec.thread.pitch
    return RunOut(at=at, room=room, grooved=True, bottom=at + side + room)


def faces(job: JobView, segment: Segment) -> End:
    """End of the part that stands out while a segment is threaded."""
    return End.FRONT if segment.id in job.first else End.BACK
