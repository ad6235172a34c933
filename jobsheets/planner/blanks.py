"""Size to which a segment is turned before it is threaded by die."""

from jobsheets.part.size import Size
from jobsheets.part.turned import Segment, SegmentKind
from jobsheets.standards import threads
from jobsheets.standards.thread_blank import die_blank


def blank_size(segment: Segment) -> Size | None:
    """Limits of the blank of a threaded segment; None for a plain one, whose own limits hold."""
    if segment.kind is not SegmentKind.THREAD or segment.thread is None:
        return None
    spec = segment.thread
    blank = die_blank(spec.thread, threads.limits(spec.thread, spec.tolerance_class))
    return Size(
        nominal=blank.target,
        low=blank.smallest,
        high=blank.largest,
        limits=blank.ruled_by,
        source=blank.source,
        aimed=blank.target,
    )
