"""Part and shop to plan: settle sizes, choose a route, order, number, replay, measure, audit, check."""

from collections.abc import Iterator

from msgspec.structs import replace

from jobsheets.part.turned import TurnedPart
from jobsheets.part.work import Work
from jobsheets.part.work import bar as bar_of
from jobsheets.planner import holding, inspect, replay, thread_choice, toolbox
from jobsheets.planner.audit import audit
from jobsheets.planner.blanks import blank_size
from jobsheets.planner.checks import measuring, shape
from jobsheets.planner.checks.every import all_findings
from jobsheets.planner.job_view import JobView
from jobsheets.planner.kit import kit
from jobsheets.planner.lists import with_lists
from jobsheets.planner.operation import Operation, Plan, Rejected, StockCut
from jobsheets.planner.order import Ordered, OrderError, order
from jobsheets.planner.route import (
    Route,
    crossed_after_parting,
    crossed_on_the_bar,
    exposed_at_back,
    reachable_from_front,
    vice_candidates,
)
from jobsheets.planner.setting import up
from jobsheets.planner.stop import Stopped, cannot_hold
from jobsheets.planner.support import mouth_for_centre
from jobsheets.planner.targets import settle
from jobsheets.planner.times import times
from jobsheets.shop import owned
from jobsheets.shop.shop import Shop
from jobsheets.shop.tools import LatheToolKind
from jobsheets.standards import materials


def plan(part: TurnedPart, shop: Shop) -> Plan:
    """The cheapest plan that obeys every rule, proven by replay.

    Args:
        part: a resolved turned part.
        shop: machines, tools and house rules.

    Returns:
        The plan with its findings; one with a stop among them must not be printed as a sheet.

    Raises:
        Stopped: no plan can be made at all; carries the findings that say why.
        ReplayFault: the plan does not make the part: a fault of the program.
    """
    cannot_be = shape.impossible(part)
    if cannot_be:
        raise Stopped(cannot_be)
    job, blade = _view(part, shop)
    if job.targets.unreachable:
        raise Stopped(measuring.unreachable(job.targets))
    uncut = tuple(choice.stop for choice in job.threads.values() if choice.stop is not None)
    if uncut:
        raise Stopped(uncut)
    ordered, rejected, stock = _route(job, blade)
    operations = _numbered(ordered.operations)
    start = bar_of(part.rod.nominal, -up(job.lengthwise, job.house.facing), stock.length - stock.facing)
    states = replay.replay(part, shop, ordered.setups, operations, start)
    inspect.prove(part, states[-1], threads_clean=job.house.chase_after_cross_hole)
    setups = with_lists(job, ordered.setups, operations)
    draft = Plan(
        part=part,
        shop=shop,
        stock=stock,
        setups=setups,
        operations=operations,
        states=states,
        findings=(),
        order=ordered.because,
        rejected=rejected,
        kit=kit(shop, setups, operations),
        times=times(setups, operations),
    )
    audit(draft, states)
    return replace(draft, findings=all_findings(job, draft))


def prove(plan: Plan) -> tuple[Work, ...]:
    """Replay a plan, measure the part that it makes, and hold every other printed number against it.

    Raises:
        ReplayFault: it does not make the part, or contradicts itself.
    """
    states = replay.replay(plan.part, plan.shop, plan.setups, plan.operations, plan.states[0])
    inspect.prove(plan.part, states[-1], threads_clean=plan.shop.house.chase_after_cross_hole)
    audit(plan, states)
    return states


def _view(part: TurnedPart, shop: Shop) -> tuple[JobView, float]:
    """What the builders look at, and the width of the parting blade."""
    first, last = reachable_from_front(part), part.segments[-1]
    # Behind a last segment that is turned only later, the blade meets the bar itself.
    radius = (last.diameter.nominal if last.id in first else part.rod.nominal) / 2.0
    pick = owned.lathe_tool(shop.tooling, LatheToolKind.PARTING, reach=radius)
    blade = toolbox.parting_cutter(pick, radius).width
    blanks = {s.id: size for s in part.segments if (size := blank_size(s)) is not None}
    targets = settle(part, shop.lathe, shop.house, blanks, blade, first)
    material = materials.find(part.material)
    job = JobView(part=part, shop=shop, material=material, targets=targets, first=first)
    return replace(job, threads=thread_choice.choices(job)), blade


def _route(job: JobView, blade: float) -> tuple[Ordered, tuple[Rejected, ...], StockCut]:
    """First route, cheapest first, that has an order."""
    part, shop = job.part, job.shop
    bars, rejected = holding.on_the_bar(part, job.targets, shop, blade)
    knurled = frozenset(k.segment for k in part.knurls)
    exposed = exposed_at_back(part, job.first, shop.house.jaw_clearance)
    rounds, also = holding.turned_round(part, job.targets, shop, exposed, knurled)
    rejected += also
    rejected += [r for choice in job.threads.values() for r in choice.rejected]
    if not bars or not rounds:
        raise Stopped(cannot_hold(part, bars, rejected))
    rejected += [Rejected(what=c.title, why=f"{bars[0].title} holds truer") for c in bars[1:]]
    rejected += [Rejected(what=c.title, why=f"'{rounds[0].title}' is the safer grip") for c in rounds[1:]]
    for make in _proposals(job, bars[0], rounds[0]):
        try:
            ordered = order(make.operations, make.setups, part.pins)
        except OrderError as exc:
            rejected.append(Rejected(what=make.name, why=str(exc)))
            continue
        return ordered, tuple(rejected), _stock(job, bars[0], blade)
    raise Stopped(cannot_hold(part, bars, rejected))


def _proposals(job: JobView, bar: holding.Candidate, round_: holding.Candidate) -> Iterator[Route]:
    """Routes, the best first, each made only when those before it have no order."""
    vices = vice_candidates(job)
    if job.part.cross_holes and not vices:
        return
    vice = vices[0] if vices else None
    wanted = mouth_for_centre(job, bar.holding) is not None
    for centre in (True, False) if wanted else (False,):
        yield crossed_after_parting(job, bar, round_, vice, centre=centre)
        if vice is not None:
            yield crossed_on_the_bar(job, bar, round_, vice, centre=centre)


def _stock(job: JobView, bar: holding.Candidate, blade: float) -> StockCut:
    house, held = job.house, bar.holding
    facing = up(job.lengthwise, house.facing)
    length = held.stick_out + held.grip
    return StockCut(
        material=job.part.material,
        diameter=job.part.rod.nominal,
        length=length,
        grip=held.grip,
        facing=facing,
        part=job.targets.length,
        part_off=job.targets.parted - job.targets.length,
        kerf=blade,
        clearance=held.stick_out - facing - job.targets.parted - blade,
        saw=house.saw_allowance,
        may_stay_long=job.part.rod.nominal < job.lathe.spindle_bore,
    )


def _numbered(operations: tuple[Operation, ...]) -> tuple[Operation, ...]:
    """Numbers in tens, and figures named by them."""
    result = []
    for k, op in enumerate(operations, start=1):
        number = 10 * k
        figures = tuple(replace(f, id=f"{number}.{f.id}") for f in op.figures)
        result.append(replace(op, number=number, figures=figures))
    return tuple(result)
