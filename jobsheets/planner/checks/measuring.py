"""Dials that can set the size, and gauges that can prove it."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Plan
from jobsheets.planner.targets import Targets, Unreachable
from jobsheets.shop import owned


def unreachable(targets: Targets) -> tuple[Finding, ...]:
    """Sizes that no line of a dial, nor the middle between two, makes: no plan can be made."""
    return tuple(too_coarse(u) for u in targets.unreachable)


def too_coarse(u: Unreachable) -> Finding:
    """A size that no setting of its dial makes."""
    return Finding(
        code="dial-too-coarse",
        severity=Severity.STOP,
        where=u.feature,
        what=f"no setting of the {u.dial.axis} makes a {u.what} from {mm(u.size.low)} to {mm(u.size.high)}",
        why=f"its finest step is {mm(u.dial.step)}, and half of it still falls outside",
        remedy=f"limits at least {mm(u.dial.step * (1.0 if u.what == 'diameter' else 0.5))} wide, "
        "or a readout",
    )


def dial_lines(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A diameter that lies between two lines of the collar."""
    return tuple(
        Finding(
            code="between-lines",
            severity=Severity.CAUTION,
            where=segment,
            what="the last reading lies midway between two lines",
            why="no line of the cross slide falls inside the limits",
            remedy="judge the half by eye, cut, measure, and take the rest with the top slide set over",
        )
        for segment, setting in job.targets.diameters.items()
        if setting.between_lines
    )


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
