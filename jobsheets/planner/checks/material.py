"""What the material does to people, and what must never be done on it."""

from jobsheets.finding import Finding, Severity
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Plan
from jobsheets.standards import hazards as table


def forbidden_steps(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """What must never be done on this material, in the plan or beside it."""
    return tuple(
        Finding(
            code="forbidden-step",
            severity=Severity.CAUTION,
            where="material",
            what=f"never on {job.material.name}: {step.step}",
            why=step.why,
            remedy=f"leave it out ({step.document})" if step.document else "leave it out",
        )
        for step in table.forbidden(job.material)
    )


def hazards(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Cautions of the material, with the document they come from."""
    return tuple(
        Finding(
            code="material-hazard",
            severity=Severity.CAUTION,
            where="material",
            what=h.hazard,
            why=h.document,
            remedy=h.control,
        )
        for h in table.for_material(job.material)
    )
