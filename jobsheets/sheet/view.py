"""A plan as display values: what the sheet and the plain-text face show, in one unit system.

The pages are laid out from these values alone, so a number cannot read differently in two places.
"""

from collections.abc import Mapping

from jobsheets.finding import Finding
from jobsheets.part.turned import End
from jobsheets.planner.operation import Holding, HoldingKind, Motion, Operation, Place, Plan, Setup
from jobsheets.sheet import view_front, view_numbers, view_operation, view_rows
from jobsheets.sheet.view_numbers import Numbers
from jobsheets.sheet.view_values import (
    DialView,
    Head,
    OperationView,
    SetupView,
    SheetView,
    SketchView,
)
from jobsheets.shop.machines import Dial, Reads

UNITS = {"in": "inches (1 in = 25.4 mm)", "mm": "mm (25.4 mm = 1 in)"}
STATUS = "DRAFT"  # a plan is a draft until the record of a run says otherwise
REVISION = "0"
WRITTEN = ": read and written"  # ends the words of the planner for a size of a hold point


def view(plan: Plan, system: str, fingerprint: str, *, figures: bool = False) -> SheetView:
    """Display values of a whole plan.

    Args:
        plan: a plan that was proven by replay.
        system: "in" or "mm", for every length on the sheet.
        fingerprint: short text that changes when the plan does.
        figures: add every figure with its formula and source.

    Returns:
        Texts and sketch geometry, in the order of the pages.

    Raises:
        ValueError: a unit system that is neither of the two.
    """
    if system not in UNITS:
        raise ValueError(f"no unit system {system!r}; want in or mm")
    numbers = Numbers(system=system)
    by_step = view_operation.findings_by_step(plan)
    guarded = {id(value) for values in by_step.values() for value in values}
    noted = {kit.note for kit in plan.kit if kit.note}  # said beside the tool
    return SheetView(
        head=head(plan, system, fingerprint),
        system=system,
        stock=view_front.stock(plan.stock, numbers),
        inputs=view_front.inputs(plan.part),
        mates=tuple(view_front.mate(m, numbers) for m in plan.part.mates),
        kit=tuple(view_front.kit(k, numbers) for k in plan.kit),
        findings=tuple(
            view_operation.finding(f, numbers)
            for f in plan.findings
            if id(f) not in guarded and f.why not in noted
        ),
        notes=plan.part.notes,
        documents=view_operation.documents(plan),
        setups=_setups(plan, numbers, by_step),
        times=view_front.times(plan),
        inspection=view_front.inspection(plan, numbers),
        figures=tuple(view_front.figure(f, numbers) for f in plan.figures()) if figures else (),
    )


def head(plan: Plan, system: str, fingerprint: str) -> Head:
    machines = dict.fromkeys(setup.machine for setup in plan.setups if setup.place is not Place.BENCH)
    return Head(
        part=plan.part.name,
        title=plan.part.title,
        bar=view_front.bought(plan.stock.diameter, plan.stock.material, system),
        machine=", ".join(machines),
        units=UNITS[system],
        status=STATUS,
        revision=REVISION,
        fingerprint=fingerprint,
    )


def _setups(
    plan: Plan, numbers: Numbers, findings: Mapping[str, tuple[Finding, ...]]
) -> tuple[SetupView, ...]:
    """Holdings in order; a reason or the reading of a handwheel is told where it is first wanted."""
    given: set[str] = set()
    told: set[str] = set()
    warned: dict[str, str] = {}
    return tuple(_setup(plan, setup, numbers, findings, given, told, warned) for setup in plan.setups)


def _setup(
    plan: Plan,
    setup: Setup,
    numbers: Numbers,
    findings: Mapping[str, tuple[Finding, ...]],
    given: set[str],
    told: set[str],
    warned: dict[str, str],
) -> SetupView:
    """One holding of the work with its operations; a caution stands before the first step that needs it."""
    holding = setup.holding
    last = tuple(map(numbers.said, setup.before_unclamp))
    printed: set[str] = set()
    kinds = [kind for op in plan.in_setup(setup.id) for kind in op.hazards]
    if setup.place is Place.LATHE:
        kinds.append("turning")
    general = view_operation.general(kinds)
    told_as = {kind: f"{kind}, collet" if holding.in_collet else kind for kind in general}
    again = {warned.get(name, "") for name in told_as.values()}
    cautions = view_operation.cautions_for(general, numbers, printed, collet=holding.in_collet)
    for name in told_as.values():
        warned.setdefault(name, setup.letter)
    operations: list[OperationView] = []
    for op in plan.in_setup(setup.id):
        steps = view_operation.cautions_for(op.hazards, numbers, printed, collet=holding.in_collet)
        guards = tuple(view_operation.finding(f, numbers) for f in findings.get(op.id, ()))
        operations.append(view_operation.view(plan, op, numbers, steps, guards, given))
    return SetupView(
        kind=holding.kind.value,
        letter=setup.letter,
        title=numbers.said(setup.title),
        place=setup.place.value,
        machine=setup.machine,
        holding=numbers.said(holding.name),
        holder=numbers.said(holding.holder),
        held_on=_held_on(holding, numbers),
        grip=_plain(holding.grip, numbers),
        stick_out=_plain(holding.stick_out, numbers),
        runout=_plain(holding.runout, numbers),
        most_speed=f"{holding.max_rpm:.0f}" if setup.place is Place.LATHE else "",
        live_centre=setup.live_centre,
        start=tuple(map(numbers.said, setup.start)),
        findings=tuple(view_operation.finding(f, numbers) for f in findings.get(setup.id, ())),
        cautions=() if again and "" not in again else cautions,
        cautions_as=", ".join(sorted(again)) if "" not in again else "",
        dials=_dials(plan, setup, numbers, told),
        sketch=_sketch(plan, setup, numbers),
        operations=tuple(operations),
        written=tuple(s.removesuffix(WRITTEN) for s in last if s.endswith(WRITTEN)),
        before_unclamp=tuple(s for s in last if not s.endswith(WRITTEN)),
    )


def _held_on(holding: Holding, numbers: Numbers) -> str:
    if holding.diameter <= 0.0 or holding.kind is HoldingKind.MANDREL:  # the diameter is the mandrel's own
        return holding.on
    return f"{holding.on} (⌀ {numbers.united(holding.diameter)})"


def _plain(mm: float, numbers: Numbers) -> str:
    return f"{numbers.plain(mm)} {numbers.system}" if mm > 0.0 else ""


def _dials(plan: Plan, setup: Setup, numbers: Numbers, told: set[str]) -> tuple[DialView, ...]:
    """Handwheels that the rows of a setup are set on, and that no earlier setup has told."""
    have = view_rows.dials(plan, setup.place)
    used: dict[str, Operation] = {}
    for op in plan.in_setup(setup.id):
        for axis in (op.x_dial, op.z_dial):
            if axis in have and op.rows and f"{setup.place} {axis}" not in told:
                used.setdefault(axis, op)
    told.update(f"{setup.place} {axis}" for axis in used)
    return tuple(_dial(have[axis], op, numbers) for axis, op in used.items())


def _dial(dial: Dial, op: Operation, numbers: Numbers) -> DialView:
    """How a handwheel reads: one that reads diameters takes off twice what the slide moves."""
    _, way = view_rows.direction(dial.axis, op.place, op.motion)
    shown = 2.0 if dial.reads is Reads.DIAMETER else 1.0
    return DialView(
        axis=dial.axis,
        turn=numbers.united(shown * dial.per_turn),
        divisions=f"{dial.divisions:g}",
        division=numbers.united(shown * dial.division),
        reads=view_numbers.reads(dial),
        readout="" if dial.readout is None else numbers.united(shown * dial.readout),
        way=way,
        overshoot=view_numbers.overshoot(dial),
    )


def _sketch(plan: Plan, setup: Setup, numbers: Numbers) -> SketchView | None:
    """Geometry of the holding: the work before the first and after the last operation of the setup."""
    operations = plan.in_setup(setup.id)
    if setup.holding.kind is HoldingKind.HAND or not operations:
        return None
    index = {op.id: k for k, op in enumerate(plan.operations)}
    before = plan.states[index[operations[0].id]]
    after = plan.states[index[operations[-1].id] + 1]
    out = setup.out is End.FRONT
    return SketchView(
        kind=setup.holding.kind.value,
        held_diameter=setup.holding.diameter,
        before=before.outer,
        after=after.outer,
        bore=after.inner,
        cross_bores=tuple((bore.z, bore.diameter) for bore in after.cross_bores),
        places=tuple(
            (cross.at.aim, numbers.length(cross.at.aim))
            for cross in plan.part.cross_holes
            if any(op.motion is Motion.CROSS_DRILL and op.feature == cross.id for op in operations)
        ),
        front_out=out,
        grip=(setup.grip_from, setup.grip_to),
        zero=after.front if out else after.back,
        live_centre=setup.live_centre,
        stick_out=numbers.plain(setup.holding.stick_out),
        jaw_width=plan.shop.mill.vice.jaw_width if plan.shop.mill and plan.shop.mill.vice else 0.0,
    )
