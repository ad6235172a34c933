"""Holding: grip, stick-out, the bar behind the headstock, and what gripping anew costs."""

from jobsheets.cutting.whip import free_length
from jobsheets.finding import Finding, Severity, mm
from jobsheets.part.turned import End
from jobsheets.planner.holding import wanted_grip
from jobsheets.planner.job_view import JobView
from jobsheets.planner.numbers import overhang, overhang_share
from jobsheets.planner.operation import HoldingKind, Place, Plan, Setup


def grip(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Enough length in the jaws for the cuts that follow."""
    found = []
    for setup in plan.setups:
        held = setup.holding
        if setup.place is not Place.LATHE or held.kind is HoldingKind.MANDREL:
            continue
        wanted = wanted_grip(held.diameter, job.house)
        if held.grip >= wanted - 1e-6:
            continue
        found.append(
            Finding(
                code="short-grip",
                severity=Severity.CAUTION,
                where=setup.id,
                what=f"{mm(held.grip)} are held on the {held.on}; {mm(wanted)} take any cut",
                why="a short grip lets the work climb out of the jaws",
                remedy=f"face and chamfer only, cuts of {mm(0.1)} or less; push the shoulder "
                "against the jaws",
            )
        )
    return tuple(found)


def stick_out(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Diameters out of the chuck."""
    found = []
    for setup in plan.setups:
        if setup.place is not Place.LATHE:
            continue
        ratio = overhang(job, setup)
        if ratio > job.house.most_stick_out:
            found.append(
                Finding(
                    code="stick-out",
                    severity=Severity.STOP,
                    where=setup.id,
                    what=f"{mm(setup.holding.stick_out)} stand out of the jaws: {ratio:.1f} diameters",
                    why=f"the house rule stops at {job.house.most_stick_out:g} diameters",
                    remedy="a thicker bar, a shorter part, or turn it between centres",
                )
            )
        elif ratio > job.house.free_stick_out and setup.live_centre:
            found.append(
                Finding(
                    code="live-centre",
                    severity=Severity.NOTE,
                    where=setup.id,
                    what=f"{mm(setup.holding.stick_out)} stand out of the jaws: {ratio:.1f} diameters, "
                    "on the live centre once the holes are made",
                    why=f"facing and drilling go without it, at {100 * overhang_share(job, setup):.0f} % of "
                    f"the speed; {job.house.free_stick_out:g} diameters are free",
                    remedy="holes first; then the centre snug in the chamfered mouth, and no chatter",
                )
            )
        elif ratio > job.house.free_stick_out:
            found.append(
                Finding(
                    code="stick-out",
                    severity=Severity.CAUTION,
                    where=setup.id,
                    what=f"{mm(setup.holding.stick_out)} stand out of the jaws: {ratio:.1f} diameters",
                    why=f"speed is down to {100 * overhang_share(job, setup):.0f} % and cuts are shallower, "
                    f"since {job.house.free_stick_out:g} diameters are free{_computed(plan, setup)}",
                    remedy="light cuts; listen for chatter; a chamfered hole in the end would take "
                    "the live centre",
                )
            )
    return tuple(found)


def _computed(plan: Plan, setup: Setup) -> str:
    """What the bending comes to, beside the rule of thumb."""
    tapers = [(f.value, op.feature) for op in plan.in_setup(setup.id) if (f := op.figure("bending"))]
    if not tapers:
        return ""
    worst, feature = max(tapers)
    return f"; computed: bending leaves the {feature} tapered by {mm(worst)}"


def bar_behind_the_spindle(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A bar that goes through the spindle may whip behind it; one that does not must be sawn short."""
    rod = job.part.rod.nominal
    if plan.stock.may_stay_long:
        return (
            Finding(
                code="bar-behind",
                severity=Severity.CAUTION,
                where="bar",
                what="the bar may reach through the spindle",
                why=f"a free end behind the headstock whips without warning{_whip(job, plan)}",
                remedy="saw the piece off first, or guard and support the free end",
            ),
        )
    return (
        Finding(
            code="saw-first",
            severity=Severity.NOTE,
            where="bar",
            what=f"⌀ {mm(rod)} does not pass the spindle bore of {mm(job.lathe.spindle_bore)}",
            why="the bar cannot stay long",
            remedy="saw the length on the sheet first",
        ),
    )


def _whip(job: JobView, plan: Plan) -> str:
    """Where half of the first critical speed lies, at the fastest speed that the bar is run at."""
    bar, material = plan.setups[0], job.material
    speeds = [f.value for op in plan.in_setup(bar.id) if (f := op.figure("speed"))]
    if not speeds or material.modulus is None or material.density is None:
        return ""
    length = free_length(max(speeds), job.part.rod.nominal, material.modulus, material.density)
    return (
        f": at {max(speeds):.0f} rev/min keep it shorter than {mm(length)}, half of what a straight bar bears"
    )


def regrip(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Sizes cut in the second grip run out against those of the first."""
    second = [s for s in plan.setups if s.place is Place.LATHE and s.out is End.BACK]
    found = []
    for setup in second:
        cut = [
            op.feature
            for op in plan.in_setup(setup.id)
            if op.motion.value in ("turn", "bore", "ream", "drill")
        ]
        if cut and setup.holding.runout > 0.02:
            found.append(
                Finding(
                    code="regrip-runout",
                    severity=Severity.CAUTION,
                    where=setup.id,
                    what=f"{', '.join(dict.fromkeys(cut))} run out by up to "
                    f"{mm(setup.holding.runout)} against the first setup",
                    why="a part gripped anew never runs as true as before",
                    remedy="set it true with the indicator, or bore soft jaws to this diameter",
                )
            )
    return tuple(found)
