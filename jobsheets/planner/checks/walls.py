"""Walls that are left: under blind holes, round holes, beside cross holes."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.part.profile import radius_at
from jobsheets.part.turned import End, Hole, HoleKind
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Plan

STEPS = 24  # places along a hole at which the wall is measured


def under_blind_holes(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Metal between the drill's point and the far end, or a dome."""
    work = plan.states[-1]
    found = []
    for hole in job.part.holes:
        if hole.depth is None or _opens(job, hole, work.back - work.front):
            continue
        left = (work.back - work.front) - _tip(plan, hole)
        left -= max((_tip(plan, h) for h in job.part.holes if h.end is not hole.end), default=0.0)
        if left < job.house.wall - 1e-6:
            found.append(
                Finding(
                    code="thin-floor",
                    severity=Severity.STOP if left <= 0.3 else Severity.CAUTION,
                    where=hole.id,
                    what=f"{mm(max(left, 0.0))} are left beyond the drill's point; "
                    f"{mm(job.house.wall)} is the house limit",
                    why="the point comes through, or shows under the dome",
                    remedy=f"{mm(job.house.wall - left)} less thread, a longer head, or a bottoming tap",
                )
            )
    return tuple(found)


def _opens(job: JobView, hole: Hole, length: float) -> bool:
    """Whether a blind hole is meant to open on another: a through hole, or one that meets it."""
    for other in job.part.holes:
        if other.depth is None:
            return True
        deep = hole.depth.aim if hole.depth is not None else length
        if other.end is not hole.end and other.depth.aim + deep >= length - 1e-6:
            return True
    return False


def _tip(plan: Plan, hole: Hole) -> float:
    depths = [
        row.at or 0.0
        for op in plan.operations
        if op.feature == hole.id and op.motion in (Motion.DRILL, Motion.BORE, Motion.REAM)
        for row in op.rows
    ]
    return max(depths, default=0.0)


def round_holes(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Metal between a hole and the outside, all along it."""
    work = plan.states[-1]
    found = []
    for hole in job.part.holes:
        length = hole.depth.aim if hole.depth is not None else job.targets.length
        outer_edge = job.house.thread_wall if hole.kind is HoleKind.TAP else job.house.wall
        grown = hole.thread.thread.major / 2.0 if hole.thread is not None else hole.diameter.high / 2.0
        thinnest = 1e9
        for k in range(1, STEPS):
            at = length * k / STEPS
            z = work.front + at if hole.end is End.FRONT else work.back - at
            if work.front < z < work.back:
                thinnest = min(
                    thinnest, min(radius_at(work.outer, z), radius_at(work.outer, z, before=True)) - grown
                )
        if thinnest < outer_edge - 1e-6:
            found.append(
                Finding(
                    code="thin-wall",
                    severity=Severity.STOP if thinnest < 0.3 else Severity.CAUTION,
                    where=hole.id,
                    what=f"{mm(max(thinnest, 0.0))} of wall round the {hole.id}; {mm(outer_edge)} "
                    "is the house limit",
                    why="a thin wall swells under the tap, bends in the jaws, and splits in use",
                    remedy="a thicker neck, a smaller thread, or a shorter hole",
                )
            )
    return tuple(found)


def cross_holes(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Metal beside a cross hole, and whether it meets the bore."""
    found = []
    for hole in job.part.cross_holes:
        front, back = job.targets.span(job.part, hole.segment)
        radius = hole.diameter.aim / 2.0
        beside = min(hole.at.aim - radius - front, back - hole.at.aim - radius)
        if beside < job.house.wall - 1e-6:
            found.append(
                Finding(
                    code="thin-wall",
                    severity=Severity.STOP if beside < 0.3 else Severity.CAUTION,
                    where=hole.id,
                    what=f"{mm(max(beside, 0.0))} beside the {hole.id}; {mm(job.house.wall)} is "
                    "the house limit",
                    why="the hole breaks out at the face or the shoulder",
                    remedy="a longer head, or a smaller cross hole",
                )
            )
        met = [h.id for h in job.part.holes if _meets(job, plan, h, hole.at.aim, radius)]
        if met:
            found.append(
                Finding(
                    code="cross-hole-meets",
                    severity=Severity.NOTE,
                    where=hole.id,
                    what=f"it opens into the {', '.join(met)}",
                    why="the drill throws a burr into it",
                    remedy="break the edge inside, run the thread through again, keep the wrench pin short",
                )
            )
    return tuple(found)


def _meets(job: JobView, plan: Plan, hole: Hole, at: float, radius: float) -> bool:
    """Whether a cross hole comes into a hole on the axis, its drill's point included."""
    deep = job.targets.length if hole.depth is None else max(hole.depth.aim, _tip(plan, hole))
    from_mouth = at if hole.end is End.FRONT else job.targets.length - at
    return from_mouth - radius < deep
