"""Holes on the axis of one end, as operations with their needs."""

from collections.abc import Sequence

from msgspec.structs import replace

from jobsheets.cutting.drill import point_length
from jobsheets.part.profile import Profile
from jobsheets.part.turned import Bottom, End, Hole, HoleKind
from jobsheets.part.work import bar, touch_depth
from jobsheets.planner import drilling, threading, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, Motion, Need, Operation, Setup
from jobsheets.planner.setting import down, near, set_to, up
from jobsheets.planner.threading import depths
from jobsheets.shop.owned import Pick
from jobsheets.shop.tools import Drill

LARGEST_FIRST = "the large drill's point gives the centre; the other way round the large drill wanders"
BORED_ALLOWANCE = 0.8  # mm on the diameter left for the boring bar by the drill; common practice
TIGHT_ALLOWANCE = 0.3  # the least that a boring bar still cuts clean; common practice
OVER_MAJOR = 0.25  # mm; a mouth is chamfered to a little over the major diameter (common practice)
FLOOR_STOCK = 0.1  # mm left on a flat floor for the boring bar to sweep
FLAT = 180.0  # point angle of a cutter with a flat end


def operations(job: JobView, setup: Setup, end: End, before: list[Operation]) -> list[Operation]:
    """Everything on the axis entered from `end`, largest hole first where one opens on another.

    Args:
        job: part and shop.
        setup: where.
        end: of the part that the holes are entered from.
        before: operations of an earlier setup, whose through holes open on this end.
    """
    mine = sorted((h for h in job.part.holes if h.end is end), key=lambda h: -h.diameter.nominal)
    result: list[Operation] = []
    pointed: list[tuple[float, float]] = []
    larger: tuple[Need, ...] = ()
    for hole in mine:
        deep = drill_depth(job, setup, hole)
        cutters = _cutters(job, hole, deep)
        pointed += [(c.diameter, deep) for c in cutters[:1] if c.point < FLAT]
        result += _one(job, setup, hole, cutters, larger)
        larger = (*larger, Need(fact=_done(hole), because=LARGEST_FIRST))
    if pointed:
        smallest, shallowest = min(d for d, _ in pointed), min(deep for _, deep in pointed)
        result.insert(0, drilling.spot(job, setup, end, smallest, shallowest))
    return _touching(job, result, _through(job, before) if end is End.BACK else 0.0)


def _through(job: JobView, before: list[Operation]) -> float:
    """Radius of the widest hole that comes through from the other end, mm."""
    holes = [h for h in job.part.holes if h.end is End.FRONT and h.bottom is Bottom.THROUGH]
    return max((_bored(h, before) / 2.0 for h in holes), default=0.0)


def _touching(job: JobView, operations: list[Operation], through: float) -> list[Operation]:
    """The same operations, each drill set where its point touches what the ones before it have opened."""
    dial, far = job.lathe.quill.dial, job.through + job.targets.length
    work = bar(job.part.rod.nominal + 2.0, 0.0, far)
    if through > 0.0:
        work = work.cut_inside(((0.0, through), (far, through)))
    result = []
    for op in operations:
        if op.motion is Motion.DRILL:
            deep = touch_depth(work.inner, op.cutter.diameter / 2.0, op.cutter.point)
            begin = near(dial, deep)
            pecks = (row for row in op.rows[1:-1] if (row.at or 0.0) > begin)
            touch = replace(op.rows[0], z=set_to(dial, begin), at=begin)
            op = replace(op, rows=(touch, *pecks, op.rows[-1]))
        cut = _opened(op)
        if cut:
            work = work.cut_inside(cut)
        result.append(op)
    return result


def _opened(op: Operation) -> Profile:
    """Hole that an operation leaves under the face, as (depth, radius)."""
    deep = max((row.at or 0.0 for row in op.rows), default=0.0)
    if deep <= 0.0:
        return ()
    if op.motion is Motion.BORE:
        wide = (op.rows[-1].diameter or 0.0) / 2.0
        return ((0.0, wide), (deep, wide))
    radius = op.cutter.diameter / 2.0
    if op.motion in (Motion.SPOT, Motion.REAM):
        return ((0.0, radius), (deep, radius))
    if op.motion is Motion.DRILL:
        point = point_length(op.cutter.diameter, op.cutter.point) if op.cutter.point < FLAT else 0.0
        return ((0.0, radius), (deep - point, radius), (deep, 0.0))
    return ()


def _done(hole: Hole) -> str:
    return f"{hole.id} drilled" if hole.kind is HoleKind.TAP else f"{hole.id} made"


def _cutters(job: JobView, hole: Hole, deep: float) -> tuple[Cutter, ...]:
    """Drills of one hole, smallest first; one flat cutter where the floor is flat."""
    if toolbox.sinks_flat(hole):
        return (toolbox.end_mill_before_bore(job, hole, BORED_ALLOWANCE),)
    last = toolbox.drill(_last_drill(job, hole), _to_get(hole), deep)
    return (*drilling.pilots(job, last.diameter, deep), last)


def _to_get(hole: Hole) -> float:
    """Diameter of the last drill of a hole, where none is owned that will do, mm."""
    match hole.kind:
        case HoleKind.REAM:
            return hole.diameter.nominal - toolbox.REAMER_AIM
        case HoleKind.BORE | HoleKind.COUNTERBORE:
            return hole.diameter.low - BORED_ALLOWANCE
        case HoleKind.TAP | HoleKind.DRILL:
            return hole.diameter.aim


def _last_drill(job: JobView, hole: Hole) -> Pick[Drill]:
    match hole.kind:
        case HoleKind.TAP:
            return toolbox.tap_drill(job, hole)
        case HoleKind.DRILL:
            return toolbox.drill_in(job, hole.diameter)
        case HoleKind.REAM:
            return toolbox.drill_before_reamer(job, hole.diameter.nominal)
        case HoleKind.BORE | HoleKind.COUNTERBORE:
            return toolbox.drill_before_bore(job, hole, BORED_ALLOWANCE, TIGHT_ALLOWANCE)


def _one(
    job: JobView, setup: Setup, hole: Hole, cutters: tuple[Cutter, ...], larger: tuple[Need, ...]
) -> list[Operation]:
    result: list[Operation] = []
    ready = larger
    for k, cutter in enumerate(cutters):
        last = k == len(cutters) - 1
        as_drilled = hole.kind is HoleKind.DRILL and not toolbox.sinks_flat(hole)
        made = f"{hole.id} made" if as_drilled else f"{hole.id} drilled"
        fact = made if last else f"{hole.id} piloted"
        result.append(
            drilling.drill(
                job,
                setup,
                hole,
                cutter,
                drill_depth(job, setup, hole),
                suffix="drill" if last else "pilot",
                makes=fact,
                ready=ready,
                rank=14 + k,
                why=_why(hole, cutter, last, bool(larger)),
            )
        )
        ready = (*larger, Need(fact=fact, because="a small lathe lacks the torque to do it in one step"))
    return [*result, *_after_drill(job, setup, hole, cutters[-1].diameter)]


def _why(hole: Hole, cutter: Cutter, last: bool, inside: bool) -> str:
    if not last:
        return "clears the chisel edge of the drill that follows"
    if cutter.point >= FLAT:
        return "sinks the floor flat, so that no point marks it"
    if hole.kind is HoleKind.TAP:
        return "the tap takes what this drill leaves"
    if hole.kind is HoleKind.REAM:
        return "leaves the reamer its few tenths"
    return "follows the larger hole, which centres it" if inside else "opens the hole for what follows"


def drill_depth(job: JobView, setup: Setup, hole: Hole) -> float:
    """Depth of full diameter that the drills of a hole go to, mm."""
    single = job.screwcut(hole.id)
    if single is not None:
        return up(job.lathe.quill.dial, single.run_out.bottom)
    if hole.kind is HoleKind.TAP:
        return depths(job, setup, hole, toolbox.tap_set(job, hole)).drill
    base = drilling.depth_of_drill(job, hole, setup)
    return down(job.lathe.quill.dial, base - FLOOR_STOCK) if toolbox.sinks_flat(hole) else base


def _after_drill(job: JobView, setup: Setup, hole: Hole, start: float) -> Sequence[Operation]:
    drilled = Need(fact=f"{hole.id} drilled", because="there must be a hole first")
    result: list[Operation] = []
    coned = any(h.bottom is Bottom.BLIND for h in job.part.wider(hole))  # its mouth is there already
    if hole.kind is HoleKind.TAP and coned:
        return threading.tap(job, setup, hole, toolbox.tap_set(job, hole), (drilled,))
    if hole.kind is HoleKind.TAP:
        assert hole.thread is not None
        wide = hole.mouth.aim if hole.mouth is not None else hole.thread.thread.major + OVER_MAJOR
        result.append(drilling.mouth(job, setup, hole, wide, start, (drilled,)))
        ready = (drilled, Need(fact=f"{hole.id} mouth", because="the thread starts clean and raises no lip"))
        single = job.screwcut(hole.id)
        if single is not None:
            from jobsheets.planner import screwcutting  # few recipes cut a thread so

            return [*result, *screwcutting.operations(job, setup, hole, single, ready)]
        return [*result, *threading.tap(job, setup, hole, toolbox.tap_set(job, hole), ready)]
    full = drilling.depth_of_drill(job, hole, setup)
    size = start
    if hole.kind is HoleKind.REAM and not toolbox.sinks_flat(hole):
        result.append(drilling.ream(job, setup, hole, full, (drilled,)))
        size = result[-1].cutter.diameter
    elif hole.kind in (HoleKind.BORE, HoleKind.COUNTERBORE) or toolbox.sinks_flat(hole):
        result.append(drilling.bore(job, setup, hole, start, full, (drilled,)))
        size = result[-1].rows[-1].diameter or size
    if hole.mouth is not None and not coned:
        made = Need(fact=f"{hole.id} made", because="the chamfer goes on the finished hole")
        result.append(drilling.mouth(job, setup, hole, hole.mouth.aim, size, (made,)))
    return result


def exits(job: JobView, setup: Setup, first: list[Operation]) -> list[Operation]:
    """Break the far mouth of through holes once the back is faced.

    Args:
        job: part and shop.
        setup: with the back out.
        first: operations of the setup in which the holes were made.
    """
    through = [h for h in job.part.holes if h.end is End.FRONT and h.bottom is Bottom.THROUGH]
    if not through:
        return []
    # Concentric through holes share one exit: the smallest comes out last.
    hole = min(through, key=lambda h: h.diameter.nominal)
    from_back = [
        h for h in job.part.holes if h.end is End.BACK and h.diameter.nominal > hole.diameter.nominal
    ]
    if any(h.bottom is Bottom.BLIND for h in from_back):
        return []  # it comes out in the cone that a drill's point left
    tapped = hole.thread is not None
    size = _bored(hole, first)
    wide = (
        hole.thread.thread.major + OVER_MAJOR
        if hole.thread is not None
        else size + 2.0 * job.house.deburr_edge
    )
    ready = (
        Need(fact="back faced", because="facing would cut the chamfer away"),
        Need(
            fact=f"{hole.id} threaded" if tapped else f"{hole.id} made",
            because="there is no far mouth before the hole is through",
        ),
    )
    return [drilling.exit_mouth(job, setup, hole, wide, size, ready)]


def _bored(hole: Hole, operations: list[Operation]) -> float:
    """Diameter that the last cut in a hole leaves, mm."""
    size = hole.diameter.aim
    for op in operations:
        if op.feature == hole.id and op.motion in (Motion.DRILL, Motion.REAM):
            size = op.cutter.diameter
        elif op.feature == hole.id and op.motion is Motion.BORE:
            size = op.rows[-1].diameter or size
    return size
