"""Outside segments of one setup: roughing, finishing, grooving and threading operations with their needs."""

from msgspec.structs import replace

from jobsheets.part.profile import SAME
from jobsheets.part.turned import End, Segment, SegmentKind
from jobsheets.planner import blade, threading, turning
from jobsheets.planner.blanks import blank_size
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Need, Operation, Setup

ROUGH_FIRST = "stress and heat move the work: everything is roughed before anything is finished"


def operations(job: JobView, setup: Setup, ids: frozenset[str], holes: list[Operation]) -> list[Operation]:
    """Operations on the segments named, largest diameter first in roughing.

    Args:
        job: part and shop.
        setup: where.
        ids: segments cut in this setup.
        holes: operations on the axis in the same setup; drilling counts as roughing.
    """
    mine = [s for s in job.part.segments if s.id in ids and not s.as_stock]
    from_chuck = sorted(mine, key=lambda s: _distance(job, setup, s), reverse=True)
    grooved = [s for s in from_chuck if job.part.plunged(s)]
    lathe_turned = [s for s in from_chuck if s not in grooved]
    knurled = {k.segment: k.id for k in job.part.knurls} if setup.out is End.FRONT else {}
    roughs: list[Operation] = []
    starts: dict[str, float] = {}
    standing = job.targets.rod
    before: tuple[Need, ...] = ()
    for segment in lathe_turned:
        stiff = tuple(
            Need(fact=f"{k} knurled", because="the force of the roll bends or pushes away a slim neighbour")
            for s, k in knurled.items()
            if s != segment.id and _stands_before(job, segment, s)
        )
        op = turning.rough(job, setup, segment, standing, (*before, *stiff, *_turned_back(setup)))
        if op is not None:
            roughs.append(op)
            standing = op.rows[-1].diameter or standing
            before = (
                Need(fact=f"{segment.id} roughed", because="the largest diameter first keeps the work stiff"),
            )
        elif stiff:
            before = (*before, *stiff)
        starts[segment.id] = standing
        if segment.id in knurled:  # it is finished and rolled before anything in front of it is touched
            standing = min(standing, job.targets.diameter(segment.id))
    # Each roughing waits for the one before it, so the last stands for them all.
    roughed = tuple(Need(fact=f, because=ROUGH_FIRST) for op in roughs[-1:] for f in op.makes)
    drilled = tuple(
        Need(fact=f, because=ROUGH_FIRST) for op in holes if op.motion is Motion.DRILL for f in op.makes
    )
    result = list(roughs)
    for segment in lathe_turned:
        own: tuple[Need, ...] = (
            (Need(fact=f"{segment.id} roughed", because=ROUGH_FIRST),)
            if any(f"{segment.id} roughed" in op.makes for op in roughs)
            else ()
        )
        if segment.id in knurled:
            ready = own
        else:
            ready = (*roughed, *drilled, *_stiff_for(job, segment, knurled))
            ready += _under(job, segment, lathe_turned, starts)
        size = blank_size(segment)
        if starts[segment.id] - job.targets.diameter(segment.id) <= SAME and result:
            result[-1] = _with(job, result[-1], segment)
            continue
        result.append(
            turning.finish(job, setup, segment, starts[segment.id], (*ready, *_turned_back(setup)), size)
        )
    for segment in grooved:
        neighbours = tuple(
            Need(
                fact=f"{s.id} finished",
                because="a groove weakens the work, so its neighbours are finished first",
            )
            for s in lathe_turned
            if s.id not in {g.id for g in grooved}
        )
        result.append(blade.groove(job, setup, segment, (*neighbours, *_turned_back(setup))))
    result += _threads(job, setup, mine, grooved)
    return result


def _with(job: JobView, op: Operation, segment: Segment) -> Operation:
    """A finishing cut that makes a second segment of the same diameter, since it passes over it."""
    hold = job.hold(
        f"{segment.id}.diameter",
        f"⌀ {segment.id}",
        segment.diameter,
        "outside",
        aim=job.targets.diameter(segment.id),
        over="cut again to the reading of the last row",
        under="below the low limit: stop; keep it for a smaller mate or start a new blank",
    )
    return replace(op, holds=(*op.holds, hold), makes=(*op.makes, f"{segment.id} finished"))


def _under(
    job: JobView, segment: Segment, from_chuck: list[Segment], starts: dict[str, float]
) -> tuple[Need, ...]:
    """Segments in front whose finishing stock a cut on this one would take, since it passes over them."""
    in_front = from_chuck[from_chuck.index(segment) + 1 :]
    return tuple(
        Need(fact=f"{s.id} finished", because="a cut behind it would take its finishing stock")
        for s in in_front
        if starts[s.id] > job.targets.diameter(segment.id) + SAME
    )


def _stiff_for(job: JobView, segment: Segment, knurled: dict[str, str]) -> tuple[Need, ...]:
    return tuple(
        Need(fact=f"{k} knurled", because="the force of the roll bends or pushes away a slim neighbour")
        for s, k in knurled.items()
        if _stands_before(job, segment, s)
    )


def _stands_before(job: JobView, segment: Segment, other: str) -> bool:
    """Whether `segment` lies nearer to the free end than `other`, so that the roll would bend it."""
    ids = [s.id for s in job.part.segments]
    return ids.index(segment.id) < ids.index(other)


def _turned_back(setup: Setup) -> tuple[Need, ...]:
    if setup.out is End.FRONT:
        return ()
    return (Need(fact="back faced", because="every length counts from the faced end"),)


def _distance(job: JobView, setup: Setup, segment: Segment) -> float:
    front, back = job.targets.span(job.part, segment.id)
    return front if setup.out is End.FRONT else -back


def _threads(job: JobView, setup: Setup, mine: list[Segment], grooved: list[Segment]) -> list[Operation]:
    result: list[Operation] = []
    for segment in mine:
        if segment.kind is not SegmentKind.THREAD or segment.thread is None:
            continue
        ready = [
            Need(fact=f"{g.id} finished", because="the relief groove gives the thread room to run out")
            for g in grooved
        ]
        for which, form in ((End.FRONT, segment.front), (End.BACK, segment.back)):
            if form is not None and which is setup.out:
                ready.append(
                    Need(
                        fact=f"{segment.id} {which} edge",
                        because="the chamfer below the minor diameter starts the thread",
                    )
                )
        size, single = blank_size(segment), job.screwcut(segment.id)
        assert size is not None
        if single is not None:
            blank = Need(fact=f"{segment.id} finished", because="the depth counts from the turned blank")
            needs = (blank, *ready, *_turned_back(setup))
            from jobsheets.planner import screwcutting  # few recipes cut a thread so

            result += screwcutting.operations(job, setup, segment, single, needs)
        else:
            result.append(threading.die(job, setup, segment, size, (*ready, *_turned_back(setup))))
    return result
