"""Power, bending, chatter and chips too thin to cut: computed figures beside the rules of thumb."""

from jobsheets.figure import Figure
from jobsheets.finding import Finding, Severity, mm
from jobsheets.planner import springing
from jobsheets.planner.drill_force import thinnest_chip
from jobsheets.planner.job_view import JobView
from jobsheets.planner.numbers import overhang
from jobsheets.planner.operation import Motion, Operation, Place, Plan, RowKind

BAR_RATIO = (
    4.0  # diameters out of its holder at which a steel boring bar chatters (textbook rule, from memory)
)
RULES = "trade texts ask for a live centre above about 3 diameters, for a rest above 10 to 12"


def power(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """The motor has the power that the deepest cut of each operation asks for."""
    found = []
    for op in plan.operations:
        figure = op.figure("power")
        if figure is None:
            continue
        mill = job.shop.mill if op.place is Place.MILL else None
        motor = mill.power if mill is not None else job.lathe.power
        if figure.value > motor * (1.0 + 1e-6):
            found.append(
                Finding(
                    code="motor-too-weak",
                    severity=Severity.STOP,
                    where=op.id,
                    what=f"asks {figure.value:.0f} W of a motor that has {motor:.0f} W",
                    why="the belt slips or the motor stalls in the cut, and the tool breaks",
                    remedy="a slower belt, a finer feed, a pilot drill, a narrower blade",
                )
            )
    return tuple(found)


def bending(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """The last cut bends the work by no more than its share of the limits."""
    found = []
    for op in plan.operations:
        figure = op.figure("bending")
        if figure is None or figure.wanted is None or not springing.too_much(figure):
            continue
        found.append(
            Finding(
                code="bends",
                severity=Severity.CAUTION,
                where=op.id,
                what=f"the work gives so much that the {op.feature} comes out {mm(figure.value)} thicker "
                f"where it gives most; {mm(figure.wanted)} is the share of its limits left for that",
                why=f"computed: as slender as a plain bar of {_slender(figure):.1f} diameters; {RULES}",
                remedy=f"a keen edge{_springs(op)}; measure at both ends; or the live centre",
            )
        )
    return tuple(found)


def _springs(op: Operation) -> str:
    sprung = any(row.kind is RowKind.SPRING for row in op.rows)
    return " and the spring passes of the rows" if sprung else ""


def _slender(figure: Figure) -> float:
    return next(float(i.value) for i in figure.inputs if i.name.startswith("as slender"))


def chatter(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """Work that is slimmer than the bar that is held, and boring bars far out of their holder."""
    found = []
    for setup in plan.setups:
        mine = [op for op in plan.in_setup(setup.id) if op.figure("bending") is not None]
        if mine and not setup.live_centre and overhang(job, setup) <= job.house.free_stick_out:
            found += _slim(job, mine[-1])
    for op in plan.operations:
        if op.motion is Motion.BORE and op.cutter.width > 0.0:
            found += _bar(op)
    return tuple(found)


def _slim(job: JobView, op: Operation) -> list[Finding]:
    figure = op.figure("bending")
    if figure is None or _slender(figure) <= job.house.free_stick_out:
        return []
    gives = next(float(i.value) for i in figure.inputs if i.name == "c_most")
    return [
        Finding(
            code="chatter",
            severity=Severity.CAUTION,
            where=op.setup,
            what=f"the work is as slender as a plain bar of {_slender(figure):.1f} diameters, though the bar "
            f"that is held is stouter; {0.01 / gives:.0f} N bend it by {mm(0.01)}",
            why=f"computed stiffness; the house rule is {job.house.free_stick_out:g} diameters; {RULES}",
            remedy="light cuts; if it sings, a slower belt and a little more feed; a keen, small-nosed edge",
        )
    ]


def _bar(op: Operation) -> list[Finding]:
    depth = op.figure("depth_of_cut")
    if depth is None:
        return []
    out = next(float(i.value) for i in depth.inputs if i.name == "L")
    ratio = out / op.cutter.width
    if ratio <= BAR_RATIO:
        return []
    return [
        Finding(
            code="chatter",
            severity=Severity.CAUTION,
            where=op.id,
            what=f"{op.cutter.name} stands {mm(out)} out of its holder: {ratio:.1f} diameters",
            why=f"a steel bar chatters beyond about {BAR_RATIO:g} diameters (textbook rule); its bending is "
            "counted in the depth of cut",
            remedy="the stoutest bar that enters, light cuts, a slower belt; measure the bore at both ends",
        )
    ]


def thin_chip(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """A feed so fine that the edge rubs, which hardens stainless and burns everything else."""
    found = []
    for op in plan.operations:
        feed = op.figure("feed")
        if feed is None:
            continue
        least = thinnest_chip(op.cutter, job.house.least_chip)
        if feed.value < least * (1.0 - 1e-6):
            found.append(
                Finding(
                    code="thin-chip",
                    severity=Severity.CAUTION,
                    where=op.id,
                    what=f"a feed of {mm(feed.value)} a turn makes a chip thinner than "
                    f"{mm(job.house.least_chip)}",
                    why=f"the edge rubs instead of cutting; the feed is ruled by: {feed.ruled_by}",
                    remedy="a slower belt, so that the same hand makes a thicker chip; press on, never dwell",
                )
            )
    return tuple(found)
