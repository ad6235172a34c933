"""A plan as display values: what the sheet and the plain-text face show, in one unit system.

The pages are laid out from these values alone, so a number cannot read differently in two places.
"""

from jobsheets.finding import Severity
from jobsheets.part.turned import End
from jobsheets.planner.operation import HoldingKind, Operation, Place, Plan, Setup
from jobsheets.sheet import view_front, view_numbers, view_operation
from jobsheets.sheet.view_numbers import Numbers
from jobsheets.sheet.view_values import (
    DialView,
    FindingView,
    Head,
    OperationView,
    SetupView,
    SheetView,
    SketchView,
)
from jobsheets.shop.machines import Dial

UNITS = {"in": "inches (1 in = 25.4 mm)", "mm": "mm (25.4 mm = 1 in)"}
STATUS = "DRAFT"  # a plan is a draft until the record of a run says otherwise
REVISION = "0"


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
    return SheetView(
        head=head(plan, system, fingerprint),
        system=system,
        stock=view_front.stock(plan.stock, numbers),
        inputs=view_front.inputs(plan.part),
        mates=tuple(view_front.mate(m, numbers) for m in plan.part.mates),
        kit=tuple(map(view_front.kit, plan.kit)),
        findings=tuple(view_operation.finding(f) for f in plan.findings if id(f) not in guarded),
        notes=plan.part.notes,
        setups=tuple(
            setup_view(
                plan, setup, numbers, {k: tuple(map(view_operation.finding, v)) for k, v in by_step.items()}
            )
            for setup in plan.setups
        ),
        inspection=view_front.inspection(plan, numbers),
        figures=tuple(view_front.figure(f, numbers) for f in plan.figures()) if figures else (),
    )


def head(plan: Plan, system: str, fingerprint: str) -> Head:
    machines = dict.fromkeys(setup.machine for setup in plan.setups if setup.place is not Place.BENCH)
    return Head(
        part=plan.part.name,
        title=plan.part.title,
        material=plan.part.material,
        bar=view_front.bought(plan.stock.diameter, plan.stock.material),
        machine=", ".join(machines),
        units=UNITS[system],
        status=STATUS,
        revision=REVISION,
        fingerprint=fingerprint,
    )


def setup_view(
    plan: Plan, setup: Setup, numbers: Numbers, findings: dict[str, tuple[FindingView, ...]]
) -> SetupView:
    """One holding of the work with its operations; a caution stands before the first step that needs it."""
    holding = setup.holding
    printed: set[str] = set()
    operations: list[OperationView] = []
    for op in plan.in_setup(setup.id):
        cautions = view_operation.cautions_for(op.hazards, printed)
        operations.append(view_operation.view(plan, op, numbers, cautions, findings.get(op.id, ())))
    return SetupView(
        letter=setup.letter,
        title=setup.title,
        place=setup.place.value,
        machine=setup.machine,
        holding=holding.name,
        held_on=f"{holding.on}, ⌀ {numbers.united(holding.diameter)}",
        grip=f"{numbers.plain(holding.grip)} {numbers.system}",
        stick_out=f"{numbers.plain(holding.stick_out)} {numbers.system}",
        runout=f"{numbers.plain(holding.runout)} {numbers.system}" if holding.runout > 0.0 else "",
        shim=holding.shim,
        live_centre=setup.live_centre,
        most_speed=f"{holding.max_rpm:.0f}" if setup.place is Place.LATHE else "",
        start=setup.start,
        findings=findings.get(setup.id, ()),
        dials=_dials(plan, setup, numbers),
        sketch=_sketch(plan, setup, numbers),
        operations=tuple(operations),
        before_unclamp=setup.before_unclamp,
    )


def _dials(plan: Plan, setup: Setup, numbers: Numbers) -> tuple[DialView, ...]:
    """Handwheels that the rows of a setup are set on."""
    have = view_operation.dials(plan, setup.place)
    used: dict[str, Operation] = {}
    for op in plan.in_setup(setup.id):
        for axis in (op.x_dial, op.z_dial):
            if axis in have and op.rows:
                used.setdefault(axis, op)
    return tuple(_dial(have[axis], op, numbers) for axis, op in used.items())


def _dial(dial: Dial, op: Operation, numbers: Numbers) -> DialView:
    _, way = view_operation.direction(dial.axis, op.place, op.motion)
    return DialView(
        axis=dial.axis,
        turn=numbers.united(dial.per_turn),
        divisions=f"{dial.divisions}",
        division=numbers.united(dial.division),
        reads=view_numbers.reads(dial),
        readout="" if dial.readout is None else numbers.united(dial.readout),
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
        lathe=setup.place is Place.LATHE,
        before=before.outer,
        after=after.outer,
        bore=after.inner,
        cross_bores=tuple((bore.z, bore.diameter) for bore in after.cross_bores),
        front_out=out,
        grip=(setup.grip_from, setup.grip_to),
        zero=after.front if out else after.back,
        body_diameter=setup.holding.body_diameter,
        live_centre=setup.live_centre,
        stop=False,
        stick_out=numbers.plain(setup.holding.stick_out),
        grip_text=numbers.plain(setup.holding.grip),
        zero_text="0",
    )


def cautions(sheet: SheetView) -> tuple[FindingView, ...]:
    """Cautions of the whole part, for the box on the first page."""
    return tuple(f for f in sheet.findings if f.severity == Severity.CAUTION.value)


def notes(sheet: SheetView) -> tuple[FindingView, ...]:
    return tuple(f for f in sheet.findings if f.severity == Severity.NOTE.value)
