"""Tools and stock that are there, stand in, or are missing."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Plan

# Without these nothing is made; anything else is hand work that finds a way.
NEEDED = (
    "turning tool",
    "parting blade",
    "twist drill",
    "tap",
    "die",
    "boring bar",
    "reamer",
    "knurling tool",
    "grooving tool",
    "centre drill",
)


def missing(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A tool that no owned one stands in for."""
    found = []
    for op in plan.operations:
        if op.cutter.owned:
            continue
        severity = Severity.STOP if op.cutter.group in NEEDED else Severity.CAUTION
        found.append(
            Finding(
                code="tool-missing",
                severity=severity,
                where=op.id,
                what=f"no {op.cutter.group} for '{op.title}'",
                why=f"the shop file lists none that does it: {op.cutter.name}",
                remedy=op.cutter.consequence,
            )
        )
    return tuple(found)


def substituted(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A tool that stands in for the wished one, with what that changes."""
    return tuple(
        Finding(
            code="tool-stands-in",
            severity=Severity.NOTE,
            where=op.id,
            what=f"{op.cutter.name}: not the first choice",
            why=op.cutter.consequence,
            remedy="carry on with it, or get the wished tool",
        )
        for op in plan.operations
        if op.cutter.owned and op.cutter.consequence
    )


def stock_on_the_rack(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A bar of this material and diameter, long enough."""
    rod = job.part.rod.nominal
    wanted = plan.stock.length + (0.0 if plan.stock.may_stay_long else plan.stock.saw)
    same = [b for b in job.shop.stock if b.material == job.material.id and abs(b.diameter - rod) < 0.02]
    if any(b.length >= wanted for b in same):
        return ()
    longest = max((b.length for b in same), default=0.0)
    what = f"the longest bar is {mm(longest)}" if same else "no such bar is on the rack"
    return (
        Finding(
            code="stock-short",
            severity=Severity.NOTE,
            where="bar",
            what=f"{job.material.name}, ⌀ {mm(rod)}: {what}",
            why=f"{mm(wanted)} are needed, grip and allowances included",
            remedy=f"buy a bar of {mm(rod)}, at least {mm(wanted)} long",
        ),
    )
