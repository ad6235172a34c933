"""Dials that can set the size, and gauges that can prove it."""

from jobsheets.finding import Finding, Severity
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Plan
from jobsheets.shop import owned


def dial_lines(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Every size lies on a line of its dial, or between two."""
    found = [
        Finding(
            code="dial-too-coarse",
            severity=Severity.STOP,
            where=u.feature,
            what=f"no line of the {u.dial.axis} makes a {u.what} from {u.size.low:.3f} to {u.size.high:.3f} mm",
            why=f"its finest step is {u.dial.step:.4f} mm",
            remedy="wider limits, a readout, or the top slide set over for fine cuts",
        )
        for u in job.targets.unreachable
    ]
    for segment, setting in job.targets.diameters.items():
        if setting.between_lines:
            found.append(
                Finding(
                    code="between-lines",
                    severity=Severity.CAUTION,
                    where=segment,
                    what="the reading lies midway between two lines",
                    why="no line of the cross slide falls inside the limits",
                    remedy="judge the half by eye, cut, measure, and take the rest with the top slide set over",
                )
            )
    return tuple(found)


def gauges(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A gauge resolves a tenth of the limits that it proves (house rule, 10 to 1)."""
    found = []
    for op in plan.operations:
        for hold in op.holds:
            if hold.unit != "mm":
                continue
            where = "depth" if "depth" in hold.id or "length" in hold.id else "outside"
            pick = owned.gauge_for(job.shop.tooling, hold.aim, hold.high - hold.low, job.house, where)
            if not pick.instead or hold.gauge.startswith("buy"):
                continue
            severity = Severity.CAUTION
            found.append(
                Finding(
                    code="gauge-coarse",
                    severity=severity,
                    where=hold.id,
                    what=f"{hold.what}: {hold.gauge}",
                    why=pick.consequence,
                    remedy="measure it three times and take the middle, or borrow a finer gauge",
                )
            )
    return tuple(found)
