"""Speeds, power and knurl tracks."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Plan

TOO_FAST_STOP = 1.5  # a slowest speed this many times the wanted one is not run


def slowest_too_fast(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """The machine cannot run as slowly as the cut wants."""
    found = []
    for op in plan.operations:
        figure = op.figure("speed")
        if figure is None or figure.wanted is None or figure.value <= figure.wanted * 1.001:
            continue
        share = figure.value / figure.wanted
        found.append(
            Finding(
                code="too-fast",
                severity=Severity.STOP if share > TOO_FAST_STOP else Severity.CAUTION,
                where=op.id,
                what=f"the slowest speed is {figure.value:.0f} rev/min, {figure.wanted:.0f} "
                "rev/min is wanted",
                why="a tool run too fast burns, and a drill hardens the work under it",
                remedy="turn the spindle by hand, a carbide tool, or a smaller diameter",
            )
        )
    return tuple(found)


def no_figure(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A material for which no published cutting figure was found."""
    where = [op.id for op in plan.operations for f in op.figures if f.source == "no published figure found"]
    if not where:
        return ()
    return (
        Finding(
            code="no-figure",
            severity=Severity.CAUTION,
            where="part",
            what=f"no published cutting figure was found for {job.material.name}",
            why="a guessed number would look like a known one",
            remedy="by hand feed: slowest belt, a keen edge, the lightest pressure that still makes a chip, "
            "stop and feel for heat; your own speed, once proven, under 'house: proven:' in the shop file",
        ),
    )


def power(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """No roughing cut asks the motor for more than it has; depth of cut is chosen so, and this proves it."""
    found = []
    for op in plan.operations:
        depth, deepest = op.figure("depth_of_cut"), max((row.depth or 0.0 for row in op.rows), default=0.0)
        if depth is None or op.motion is not Motion.TURN:
            continue
        if deepest > depth.value + 1e-6:
            found.append(
                Finding(
                    code="cut-too-deep",
                    severity=Severity.STOP,
                    where=op.id,
                    what=f"a cut of {mm(deepest)} where {mm(depth.value)} is the most",
                    why=depth.ruled_by,
                    remedy="more passes",
                )
            )
    return tuple(found)


def knurl_tracks(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A blank whose circumference is whole teeth tracks; one half way between does not."""
    found = []
    for op in plan.operations:
        teeth = op.figure("teeth")
        if teeth is None or teeth.wanted is None:
            continue
        off = abs(teeth.value - teeth.wanted)
        if off > 0.2:
            good = next(float(i.value) for i in teeth.inputs if i.name == "diameter for whole teeth")
            found.append(
                Finding(
                    code="knurl-tracks",
                    severity=Severity.CAUTION,
                    where=op.id,
                    what=f"{teeth.value:.2f} teeth go round the blank",
                    why="a part tooth over makes the roll run beside its first track",
                    remedy=f"a blank of {mm(good)} carries {teeth.wanted:.0f} whole teeth; try "
                    "the track lightly first",
                )
            )
    return tuple(found)
