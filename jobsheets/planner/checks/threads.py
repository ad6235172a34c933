"""Threads: percent, engagement, start and run-out of a die, twist-off."""

from jobsheets.cutting.torsion import margin
from jobsheets.cutting.torsion import twist_off as twists_off
from jobsheets.finding import Finding, Severity, mm
from jobsheets.part.turned import EdgeKind, End, HoleKind, SegmentKind
from jobsheets.planner import drill_force, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Plan
from jobsheets.standards import thread_percent
from jobsheets.standards.tap_drills import NON_METALS
from jobsheets.standards.thread_form import root_diameter
from jobsheets.standards.thread_percent import Basis

SAFE_TWIST = 2.0  # times the torque of a sharp tap or die (common practice, from memory)
THIN_ROD = 6.35  # mm; rods of this size and less have been twisted off by dies (common practice)


def percent(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Percent of thread inside the range for the material."""
    found = []
    for hole in job.part.holes:
        if hole.kind is not HoleKind.TAP or hole.thread is None:
            continue
        drill = next((op.cutter for op in plan.operations if op.id == f"{hole.id}.drill"), None)
        if drill is None:
            continue
        thread = hole.thread.thread
        value = thread_percent.percent(thread, drill.diameter, Basis.US)
        low, high = toolbox.percent_range(job, hole)
        if low - 1.0 <= value <= high + 1.0:
            continue
        high_side = value > high
        found.append(
            Finding(
                code="thread-percent",
                severity=Severity.CAUTION,
                where=hole.id,
                what=f"{drill.name} leaves {value:.0f} % of thread; {low:.0f} to {high:.0f} % is wished for",
                why="the tap breaks in a tight hole"
                if high_side
                else "the thread is shallow and strips sooner",
                remedy="plenty of oil and half turns back"
                if high_side
                else "a smaller drill, or a longer thread",
            )
        )
    return tuple(found)


def no_percent(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A tapped hole in a material for which no percent of thread was published."""
    tapped = [h.id for h in job.part.holes if h.kind is HoleKind.TAP]
    if not tapped or job.material.family not in NON_METALS:
        return ()
    return (
        Finding(
            code="no-percent",
            severity=Severity.CAUTION,
            where=tapped[0],
            what=f"no published percent of thread was found for {job.material.name}; the drill is chosen "
            "inside the limits of the thread class alone",
            why="a thread in a weak or brittle material strips or splits out",
            remedy="a coarse thread or a metal insert; try it on scrap, and write down the drill that held",
        ),
    )


def engagement(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Enough full thread that the rod breaks before the nut strips."""
    found = []
    for hole in job.part.holes:
        if hole.kind is not HoleKind.TAP or hole.thread is None:
            continue
        length = hole.depth.aim if hole.depth is not None else job.targets.length
        wanted = job.house.engagement * hole.thread.thread.major
        if length < wanted - 1e-6:
            found.append(
                Finding(
                    code="short-thread",
                    severity=Severity.CAUTION,
                    where=hole.id,
                    what=f"{mm(length)} of full thread; {mm(wanted)} is the house limit "
                    f"({job.house.engagement:g} diameters)",
                    why="a nut with too little thread strips before its rod breaks",
                    remedy="a deeper thread, a longer neck, or a finer thread",
                )
            )
    return tuple(found)


def die_start(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A chamfer below the minor diameter starts the die."""
    found = []
    for segment in job.part.segments:
        if segment.kind is not SegmentKind.THREAD or segment.thread is None:
            continue
        index = job.part.segments.index(segment)
        edge = segment.front if index == 0 else segment.back
        deep = (segment.diameter.aim - root_diameter(segment.thread.thread)) / 2.0
        if edge is None or edge.kind is not EdgeKind.CHAMFER or edge.size.aim < deep - 1e-6:
            found.append(
                Finding(
                    code="die-start",
                    severity=Severity.CAUTION,
                    where=segment.id,
                    what=f"no chamfer of {mm(deep)} or more at the end of the thread",
                    why="without a chamfer below the root the die starts tilted and tears"
                    if job.screwcut(segment.id) is None
                    else "without a chamfer below the root the point meets a square edge and chips",
                    remedy=f"front: {{ chamfer: {mm(deep + 0.1)} }} on {segment.id}",
                )
            )
    return tuple(found)


def die_run_out(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Incomplete thread of the die at a shoulder."""
    found = []
    for op in plan.operations:
        if op.motion is not Motion.DIE:
            continue
        index = next(i for i, s in enumerate(job.part.segments) if s.id == op.feature)
        groove = (
            index + 1 < len(job.part.segments) and job.part.segments[index + 1].kind is SegmentKind.GROOVE
        )
        shoulder = index + 1 < len(job.part.segments)
        if shoulder and not groove:
            found.append(
                Finding(
                    code="die-run-out",
                    severity=Severity.CAUTION,
                    where=op.feature,
                    what=f"the last {mm(op.cutter.lead)} before the shoulder carry no full thread",
                    why="the lead of the die cannot pass the shoulder",
                    remedy="a relief groove, the die turned round for the last turns, or a counterbored mate",
                )
            )
    return tuple(found)


def twist_off(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Thin rods twist off under a die; their root takes little torque."""
    found = []
    for segment in job.part.segments:
        if (
            segment.kind is not SegmentKind.THREAD
            or segment.thread is None
            or segment.diameter.aim > THIN_ROD
            or job.screwcut(segment.id) is not None
        ):
            continue
        thread = segment.thread.thread
        asked = drill_force.tap_torque(job.material, thread.pitch, thread.major).value
        known = f"; the cut asks about {asked:.1f} N m, and no published shear strength was found"
        if job.material.shear is not None:
            weakest = min([root_diameter(thread), *_behind(job, plan, segment.id)])
            bears = twists_off(weakest, job.material.shear)
            known = (
                f"; {mm(weakest)}, its thinnest place, bears {bears:.1f} N m, "
                f"a sharp die asks about {asked:.1f} N m: "
                f"{margin(bears, asked):.1f} times, {SAFE_TWIST:g} is common practice"
            )
        found.append(
            Finding(
                code="twist-off",
                severity=Severity.CAUTION,
                where=f"{segment.id}.die",
                what=f"a rod of {mm(job.targets.diameter(segment.id))} under a die{known}",
                why=f"rods of {mm(THIN_ROD)} and less twist off when the die binds",
                remedy="two cuts with the die opened first, oil, half a turn back for each turn",
            )
        )
    return tuple(found)


def _behind(job: JobView, plan: Plan, segment: str) -> list[float]:
    """Diameters between a thread and the jaws, which all bear the torque of its die, mm."""
    die = next((op for op in plan.operations if op.motion is Motion.DIE and op.feature == segment), None)
    if die is None:
        return []
    ids = [s.id for s in job.part.segments]
    index = ids.index(segment)
    toward = ids[index + 1 :] if plan.setup(die.setup).out is End.FRONT else ids[:index]
    return [job.targets.diameter(name) for name in toward]
