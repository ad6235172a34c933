"""What the material does to people, and steps that are forbidden on it."""

from jobsheets.finding import Finding, Severity
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Plan
from jobsheets.standards import hazards as table


def forbidden_steps(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A step of the plan that must not be done on this material."""
    found = []
    kinds = {kind: op.id for op in plan.operations for kind in (*op.hazards, op.motion.value)}
    for step in table.forbidden(job.material):
        for kind, where in kinds.items():
            if kind in step.step:
                found.append(
                    Finding(
                        code="forbidden-step",
                        severity=Severity.STOP,
                        where=where,
                        what=f"{step.step} on {job.material.name}",
                        why=step.why,
                        remedy=f"another material, or leave the step out ({step.document})",
                    )
                )
    return tuple(found)


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
