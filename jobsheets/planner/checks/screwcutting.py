"""Threads cut with a single point: error of the lead, run-out, time to stop, the lathe's own chart."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Plan
from jobsheets.planner.screwcut_values import Screwcut
from jobsheets.planner.stopping import slowest_of
from jobsheets.standards import threads
from jobsheets.standards.thread_depth import lead_equivalent

EATEN = 0.5  # share of the pitch diameter's limits that an error of the lead may eat without a caution; house
SAME = 1e-6  # share; leads nearer than this are one thread


def _cuts(job: JobView) -> tuple[tuple[str, Screwcut], ...]:
    return tuple((name, c.single) for name, c in job.threads.items() if c.single is not None)


def pitch_error(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A near train makes a lead that is a little off; over the thread it tightens in the mate."""
    found = []
    for name, cut in _cuts(job):
        error = cut.gearing.error
        if abs(error) < 1e-9:
            continue
        limits = threads.limits(cut.spec.thread, cut.spec.tolerance_class)
        room = limits.pitch_max - limits.pitch_min
        eaten = lead_equivalent(error, cut.spec.thread.angle)
        share = eaten / room
        severity = Severity.STOP if share > 1.0 else Severity.CAUTION if share > EATEN else Severity.NOTE
        found.append(
            Finding(
                code="lead-error",
                severity=severity,
                where=name,
                what=f"the gears make the lead {abs(error / cut.gearing.engaged):.3%} too "
                f"{'long' if error > 0.0 else 'short'}: {mm(abs(error))} over the {mm(cut.gearing.engaged)} "
                "of thread",
                why=f"in its mate that is as much as {mm(eaten)} of pitch diameter; {mm(room)} are allowed",
                remedy="aim at the loose end of the limits, or get the gear that makes it exact",
            )
        )
    return tuple(found)


def _short(cut: Screwcut) -> float:
    return cut.run_out.room + cut.cutter.side


def run_out(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A thread that ends at a shoulder without a groove fades out there."""
    return tuple(
        Finding(
            code="no-run-out",
            severity=Severity.CAUTION,
            where=name,
            what=f"no relief groove: the point stops {mm(_short(cut))} before the shoulder",
            why="the last turns carry no full thread, and the tool strikes the shoulder if it is not stopped",
            remedy="a relief groove, or a counterbored mate; turn the spindle by hand for the last turns",
        )
        for name, cut in _cuts(job)
        if not cut.run_out.grooved
    )


def stop_in_time(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A spindle that is too fast to be stopped inside the run-out."""
    found = []
    for op in plan.operations:
        most, speed = op.figure("stopping_speed"), op.figure("speed")
        if op.motion is not Motion.SCREWCUT or most is None:
            continue
        if speed is not None and speed.value <= most.value:
            continue
        cranked = speed is None
        found.append(
            Finding(
                code="turned-by-hand" if cranked else "cannot-stop",
                severity=Severity.NOTE if cranked else Severity.STOP,
                where=op.id,
                what=f"{slowest_of(most):.0f} rev/min is the most for this thread",
                why="the lathe has no speed so slow"
                if cranked
                else "at the planned speed the tool cannot be stopped in its run-out",
                remedy="motor isolated, the spindle turned by a hand crank; or a wider relief groove",
            )
        )
    return tuple(found)


def chart(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A row of the lathe's own chart for this thread that its leadscrew contradicts."""
    screw = job.lathe.leadscrew
    if screw is None or not screw.chart or not _cuts(job):
        return ()
    from jobsheets.shop import gear_chart  # few recipes cut a thread with a single point

    verdicts = [v for v in gear_chart.audit(screw) if not v.good]
    return tuple(
        Finding(
            code="chart-wrong",
            severity=Severity.CAUTION,
            where=name,
            what=f"the chart's row for {verdict.row.cuts} is {abs(verdict.error):.1%} off",
            why=f"it belongs to a leadscrew of {mm(verdict.implies)}; this one has {mm(screw.pitch)}",
            remedy="the train on this sheet, worked out for the screw that is there",
        )
        for name, cut in _cuts(job)
        for verdict in verdicts
        if abs(verdict.row.lead / cut.spec.lead - 1.0) < SAME
    )


def banjo(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A train that nobody has held against the banjo."""
    return tuple(
        Finding(
            code="banjo-unknown",
            severity=Severity.NOTE,
            where=name,
            what="the shop file does not tell where the change gears can stand",
            why="some exact trains do not fit",
            remedy="try the train before the work is turned; measure the banjo into the shop file",
        )
        for name, cut in _cuts(job)
        if not cut.gearing.measured
    )
