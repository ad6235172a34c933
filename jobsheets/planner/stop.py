"""A job for which no plan can be made: findings instead of a plan."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.part.turned import TurnedPart
from jobsheets.planner.holding import Candidate
from jobsheets.planner.operation import Rejected


class Stopped(Exception):  # noqa: N818  the shop's word: work stops here, nothing broke
    """No plan exists; the findings say why and what would help."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__("; ".join(f.what for f in findings))
        self.findings = findings


def cannot_hold(part: TurnedPart, bars: list[Candidate], rejected: list[Rejected]) -> tuple[Finding, ...]:
    """No way of holding, or no order, is left."""
    tried = "; ".join(f"{r.what}: {r.why}" for r in rejected) or "nothing could be tried"
    if not bars:
        remedy = f"a chuck or collet that takes {mm(part.rod.nominal)}, or a smaller bar"
    elif part.cross_holes and not any("vice" in r.what for r in rejected):
        remedy = "a mill or drill press with a vice, a longer plain cylinder to hold, or drop the cross hole"
    else:
        remedy = "a longer plain cylinder to hold, a threaded mandrel for this thread, or other pinned steps"
    return (
        Finding(
            code="cannot-hold",
            severity=Severity.STOP,
            where=part.name,
            what="no way to make the part was found",
            why=tried,
            remedy=remedy,
        ),
    )
