"""Room and reach: between chuck and tailstock, of the quill, of flutes and bars."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Place, Plan
from jobsheets.shop.dials import travel

HOLE_MAKING = (Motion.SPOT, Motion.DRILL, Motion.REAM, Motion.MOUTH, Motion.TAP)


def room(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Work, drill and drill chuck fit between the jaws and the quill."""
    found = []
    chuck = job.shop.tooling.drill_chuck
    for op in plan.operations:
        if op.place is not Place.LATHE or op.motion not in HOLE_MAKING or chuck is None:
            continue
        setup = plan.setup(op.setup)
        needed = setup.holding.stick_out + op.cutter.reach + chuck[2] + job.lathe.quill.usable_from
        if needed > job.lathe.room:
            found.append(
                Finding(
                    code="no-room",
                    severity=Severity.STOP,
                    where=op.id,
                    what=f"{mm(needed)} are needed between jaws and tailstock, "
                    f"{mm(job.lathe.room)} are there",
                    why="work, drill and drill chuck stand in one line",
                    remedy="a stub drill, or a shorter stick-out",
                )
            )
    return tuple(found)


def quill(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """The quill has the travel, counted from where its taper holds."""
    found = []
    dial, start = job.lathe.quill.dial, job.lathe.quill.usable_from
    for op in plan.operations:
        if op.place is not Place.LATHE or op.motion not in HOLE_MAKING:
            continue
        deepest = max((travel(dial, row.z) for row in op.rows if row.z is not None), default=0.0)
        if deepest > dial.travel - start + 1e-6:
            found.append(
                Finding(
                    code="quill-short",
                    severity=Severity.CAUTION,
                    where=op.id,
                    what=f"{mm(deepest)} are drilled in one setting of the tailstock; the quill "
                    f"has {mm(dial.travel - start)}",
                    why=f"below {mm(start)} its taper is pushed out",
                    remedy="drill in two settings: move the tailstock up, touch the bottom, "
                    "count on from there",
                )
            )
    return tuple(found)


def flutes(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A drill clears its chips only while its flutes reach out of the hole."""
    found = []
    for op in plan.operations:
        if op.motion not in (Motion.DRILL, Motion.CROSS_DRILL) or not op.cutter.reach:
            continue
        deep = max((row.at or 0.0 for row in op.rows), default=0.0)
        if deep > op.cutter.reach + 1e-6:
            found.append(
                Finding(
                    code="flutes-short",
                    severity=Severity.STOP,
                    where=op.id,
                    what=f"{op.cutter.name} has {mm(op.cutter.reach)} of flute, the hole is {mm(deep)} deep",
                    why="chips pack where the flutes end, and the drill breaks",
                    remedy="a longer drill of this size, or drill from both ends",
                )
            )
    return tuple(found)
