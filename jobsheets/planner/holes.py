"""Holes on the axis of one end, as operations with their needs."""

from jobsheets.cutting.drill import point_length
from jobsheets.part.turned import Bottom, End, Hole, HoleKind
from jobsheets.planner import drilling, threading, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Need, Operation, Setup
from jobsheets.planner.threading import depths
from jobsheets.shop.owned import Pick
from jobsheets.shop.tools import Drill

LARGEST_FIRST = "the large drill's point gives the centre; the other way round the large drill wanders"
BORED_ALLOWANCE = 0.8  # mm on the diameter left for the boring bar by the drill


def operations(job: JobView, setup: Setup, end: End) -> list[Operation]:
    """Everything on the axis entered from `end`, largest hole first where one opens on another."""
    mine = [h for h in job.part.holes if h.end is end]
    if not mine:
        return []
    result: list[Operation] = []
    mine.sort(key=lambda h: -h.diameter.nominal)
    first_drills: list[float] = []
    larger: tuple[Need, ...] = ()
    for hole in mine:
        picks = _drills(job, hole)
        first_drills.append(picks[0].tool.diameter if picks[0].tool is not None else hole.diameter.nominal)
        result += _one(job, setup, hole, picks, larger)
        larger = (*larger, Need(fact=_done(hole), because=LARGEST_FIRST))
    result.insert(0, drilling.spot(job, setup, end, min(first_drills)))
    return result


def _done(hole: Hole) -> str:
    return f"{hole.id} drilled" if hole.kind is HoleKind.TAP else f"{hole.id} made"


def _drills(job: JobView, hole: Hole) -> tuple[Pick[Drill], ...]:
    """Drills of one hole, smallest first."""
    last = _last_drill(job, hole)
    size = last.tool.diameter if last.tool is not None else hole.diameter.nominal
    return (*drilling.pilots(job, hole, size), last)


def _last_drill(job: JobView, hole: Hole) -> Pick[Drill]:
    match hole.kind:
        case HoleKind.TAP:
            return toolbox.tap_drill(job, hole)
        case HoleKind.DRILL:
            return toolbox.drill_in(job, hole.diameter)
        case HoleKind.REAM:
            return toolbox.drill_before_reamer(job, hole.diameter.nominal)
        case HoleKind.BORE | HoleKind.COUNTERBORE:
            return toolbox.drill_before_bore(job, hole, BORED_ALLOWANCE)


def _one(
    job: JobView, setup: Setup, hole: Hole, picks: tuple[Pick[Drill], ...], larger: tuple[Need, ...]
) -> list[Operation]:
    result: list[Operation] = []
    deep = _drill_depth(job, setup, hole)
    ready = larger
    for k, pick in enumerate(picks):
        last = k == len(picks) - 1
        fact = (
            (f"{hole.id} made" if hole.kind is HoleKind.DRILL else f"{hole.id} drilled")
            if last
            else f"{hole.id} piloted"
        )
        size = pick.tool.diameter if pick.tool is not None else hole.diameter.nominal
        result.append(
            drilling.drill(
                job,
                setup,
                hole,
                pick,
                deep(size),
                wanted=size,
                suffix="drill" if last else "pilot",
                makes=fact,
                ready=ready,
                rank=14 + k,
                why=_why(hole, last, bool(larger)),
            )
        )
        ready = (*larger, Need(fact=fact, because="a small lathe lacks the torque to do it in one step"))
    result += _after_drill(job, setup, hole, picks[-1])
    return result


def _why(hole: Hole, last: bool, inside: bool) -> str:
    if not last:
        return "clears the chisel edge of the drill that follows"
    if hole.kind is HoleKind.TAP:
        return "the tap takes what this drill leaves"
    if hole.kind is HoleKind.REAM:
        return "leaves the reamer its few tenths"
    return "follows the larger hole, which centres it" if inside else "opens the hole for what follows"


class _Depth:
    """Depth of full diameter for a drill of a given size, mm."""

    def __init__(self, job: JobView, setup: Setup, hole: Hole) -> None:
        self.job, self.setup, self.hole = job, setup, hole
        self.drill = (
            depths(job, setup, hole, toolbox.tap_set(job, hole)).drill if hole.kind is HoleKind.TAP else None
        )

    def __call__(self, diameter: float) -> float:
        if self.drill is not None:
            return self.drill
        base = drilling.depth_of_drill(self.job, self.hole, self.setup)
        if self.hole.depth is not None and self.hole.bottom is Bottom.FLAT:
            # The point must stay above the flat floor: the boring bar sweeps the rest.
            return base - point_length(diameter, 118.0)
        return base


def _drill_depth(job: JobView, setup: Setup, hole: Hole) -> _Depth:
    return _Depth(job, setup, hole)


def _after_drill(job: JobView, setup: Setup, hole: Hole, pick: Pick[Drill]) -> list[Operation]:
    drilled = Need(fact=f"{hole.id} drilled", because="there must be a hole first")
    start = pick.tool.diameter if pick.tool is not None else hole.diameter.nominal
    result: list[Operation] = []
    if hole.kind is HoleKind.TAP:
        assert hole.thread is not None
        wide = hole.mouth.aim if hole.mouth is not None else hole.thread.thread.major + 0.25
        result.append(drilling.mouth(job, setup, hole, wide, start, (drilled,)))
        ready = (drilled, Need(fact=f"{hole.id} mouth", because="the tap starts straight and raises no lip"))
        result += threading.tap(job, setup, hole, toolbox.tap_set(job, hole), ready)
        return result
    full = drilling.depth_of_drill(job, hole, setup)
    if hole.kind is HoleKind.REAM:
        result.append(drilling.ream(job, setup, hole, full, (drilled,)))
    elif hole.kind in (HoleKind.BORE, HoleKind.COUNTERBORE):
        result.append(drilling.bore(job, setup, hole, start, full, (drilled,)))
    if hole.mouth is not None:
        result.append(
            drilling.mouth(
                job,
                setup,
                hole,
                hole.mouth.aim,
                hole.diameter.aim,
                (Need(fact=f"{hole.id} made", because="the chamfer goes on the finished hole"),),
            )
        )
    return result


def exits(job: JobView, setup: Setup) -> list[Operation]:
    """Break the far mouth of through holes once the back is faced."""
    result = []
    open_holes = [h for h in job.part.holes if h.end is End.FRONT and h.bottom is Bottom.THROUGH]
    if not open_holes:
        return []
    # Concentric through holes share one exit: the smallest comes out last.
    hole = min(open_holes, key=lambda h: h.diameter.nominal)
    made = f"{hole.id} threaded" if hole.kind is HoleKind.TAP else f"{hole.id} made"
    size = hole.diameter.aim
    wide = hole.thread.thread.major + 0.25 if hole.thread is not None else size + 2.0 * job.house.deburr_edge
    ready = (
        Need(fact="back faced", because="facing would cut the chamfer away"),
        Need(fact=made, because="there is no far mouth before the hole is through"),
    )
    result.append(drilling.exit_mouth(job, setup, hole, wide, size, ready))
    return result
