"""Threads cut with a single point: the gears with their scratch pass, then the passes on lines of a dial."""

from math import floor

from jobsheets.cutting.screwcutting import on_lines
from jobsheets.figure import Figure
from jobsheets.finding import mm
from jobsheets.part.turned import Hole, Segment
from jobsheets.planner import screwcut_figures as figures
from jobsheets.planner import screwcut_words
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import (
    HoldPoint,
    Motion,
    Need,
    Operation,
    Place,
    Row,
    RowKind,
    Setup,
)
from jobsheets.planner.screwcut_values import Infeed, Screwcut, tan_of
from jobsheets.planner.setting import down, set_to
from jobsheets.shop import owned
from jobsheets.shop.machines import Dial
from jobsheets.shop.tools import GaugeKind
from jobsheets.standards import threads
from jobsheets.standards.thread_form import lead_angle, over_wires

SET_UP = "charts and trains get mixed up: a trace shows it before a thread is spoilt"


def operations(
    job: JobView, setup: Setup, feature: Segment | Hole, cut: Screwcut, ready: tuple[Need, ...]
) -> tuple[Operation, ...]:
    """The gears with a scratch pass, and the passes.

    Args:
        job: part and shop.
        setup: where.
        feature: thread of the outline, or tapped hole.
        cut: how, from `screwcut_choice`.
        ready: facts that must be true first.
    """
    most = figures.stopping(job, setup, cut)
    speed = figures.speed(job, setup, cut, most)
    runs = (speed, most) if speed is not None else (most,)
    return (
        _scratch_pass(job, setup, feature, cut, ready, runs),
        _thread_passes(job, setup, feature, cut, ready, runs),
    )


def _rpm(runs: tuple[Figure, ...]) -> float | None:
    """Speed of the spindle; None where it is turned by hand."""
    return runs[0].value if len(runs) == 2 else None


def _scratch_pass(
    job: JobView,
    setup: Setup,
    feature: Segment | Hole,
    cut: Screwcut,
    ready: tuple[Need, ...],
    runs: tuple[Figure, ...],
) -> Operation:
    return Operation(
        id=f"{feature.id}.gears",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.SCRATCH,
        feature=feature.id,
        title=f"Set up the change gears for {cut.spec.text}, and scratch it",
        cutter=cut.cutter,
        rows=(_touch(job, feature, cut), _trace(job, cut)),
        x_dial=job.cross.axis,
        end=setup.out,
        gearing=cut.gearing,
        figures=(*runs, figures.gears(job, cut.gearing), *figures.lead_error(cut.gearing)),
        holds=(_pitch(feature, cut),),
        needs=ready,
        makes=(f"{feature.id} pitch proven",),
        rank=68,
        why="the first thread step is a trace that only shows the pitch",
        hints=screwcut_words.gear_hints(cut),
        hazards=("gear change", "single-point threading"),
        cutting_minutes=figures.minutes(cut, 1, _rpm(runs)),
        handling_minutes=12.0,
    )


def _thread_passes(
    job: JobView,
    setup: Setup,
    feature: Segment | Hole,
    cut: Screwcut,
    ready: tuple[Need, ...],
    runs: tuple[Figure, ...],
) -> Operation:
    rows = _passes(job, setup, feature, cut)
    depth = (figures.depth(cut), *figures.swivel(cut), figures.first_cut(job, setup, cut))
    return Operation(
        id=f"{feature.id}.screwcut",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.SCREWCUT,
        feature=feature.id,
        title=f"Cut {cut.spec.text} with a single point",
        cutter=cut.cutter,
        rows=rows,
        x_dial=job.cross.axis,
        z_dial=_top(job).axis if cut.infeed is not Infeed.STRAIGHT else "",
        end=setup.out,
        figures=(*runs, *depth, *_wire_figure(job, cut)),
        holds=(_proof(job, feature, cut),),
        needs=(Need(fact=f"{feature.id} pitch proven", because=SET_UP), *ready),
        makes=(f"{feature.id} threaded",),
        rank=69,
        why="cut in the same setting as the turning, so that the thread is true to it",
        hints=screwcut_words.pass_hints(job, cut, by_hand=_rpm(runs) is None),
        hazards=("single-point threading",),
        cutting_minutes=figures.minutes(cut, len(rows) - 1, _rpm(runs)),
        handling_minutes=5.0 + 0.5 * len(rows) * cut.spec.starts,
    )


def _top(job: JobView) -> Dial:
    """Dial of the lengthwise column: the top slide, which stands still in straight cuts."""
    return job.lathe.top_slide if job.lathe.top_slide is not None else job.lathe.carriage


def _feeds(job: JobView, cut: Screwcut) -> Dial:
    return _top(job) if cut.infeed is Infeed.COMPOUND else job.cross


def _touch(job: JobView, feature: Segment | Hole, cut: Screwcut, *, top: bool = False) -> Row:
    """The point on the blank or the wall; the top slide to zero where it feeds."""
    return Row(
        kind=RowKind.TOUCH,
        x=set_to(job.cross, cut.touch),
        touch=feature.id,
        diameter=cut.start,
        z=set_to(_top(job), 0.0) if top else None,
        at=0.0,
    )


def _lines(job: JobView, setup: Setup, cut: Screwcut) -> tuple[float, ...]:
    """Travel of the feeding dial after each pass, mm; every one but perhaps the last is on a line."""
    dial = _feeds(job, cut)
    zero = 0.0 if cut.infeed is Infeed.COMPOUND else cut.touch
    base = down(dial, zero)
    whole = floor((cut.travel - base) / dial.step + 1e-6)
    share = figures.square(cut, cut.travel) / (cut.travel - zero)
    limit = figures.first_cut(job, setup, cut).value
    reached = on_lines(whole, dial.step * share, limit, figures.LEAST_CHIP, even=job.house.thread_falling)
    travels = tuple(base + n * dial.step for n in reached if base + n * dial.step > zero + 1e-9)
    return travels if abs(travels[-1] - cut.travel) < 1e-9 else (*travels, cut.travel)


def _passes(job: JobView, setup: Setup, feature: Segment | Hole, cut: Screwcut) -> tuple[Row, ...]:
    rows = [_touch(job, feature, cut, top=cut.infeed is not Infeed.STRAIGHT)]
    before = 0.0
    travels = _lines(job, setup, cut)
    for travel in travels:
        depth = figures.square(cut, travel)
        rows.append(_row(job, cut, RowKind.INFEED, travel, depth - before))
        before = depth
    spring = _row(job, cut, RowKind.SPRING, travels[-1], 0.0)
    return (*rows, *[spring] * int(job.house.spring_passes))


def _row(job: JobView, cut: Screwcut, kind: RowKind, travel: float, depth: float) -> Row:
    compound = cut.infeed is Infeed.COMPOUND
    sideways = None
    if cut.infeed is Infeed.SIDE_SHIFT:
        top = _top(job)
        sideways = set_to(top, down(top, (travel - cut.touch) * tan_of(cut.swivel)))
    return Row(
        kind=kind,
        x=None if compound else set_to(job.cross, travel),
        z=set_to(_top(job), travel) if compound else sideways,
        depth=depth,
        at=cut.run_out.at,
    )


def _trace(job: JobView, cut: Screwcut) -> Row:
    """One line of the cross slide in, and no more: a trace."""
    travel = down(job.cross, cut.touch) + job.cross.step
    return Row(
        kind=RowKind.INFEED,
        x=set_to(job.cross, travel),
        depth=travel - cut.touch,
        at=cut.run_out.at,
    )


def _pitch(feature: Segment | Hole, cut: Screwcut) -> HoldPoint:
    thread = cut.spec.thread
    named = f"{thread.tpi:g} threads an inch" if thread.tpi is not None else f"that of {thread.name}"
    lead = (
        f", {cut.spec.starts} starts: the trace climbs {cut.spec.starts} of them"
        if cut.spec.starts > 1
        else ""
    )
    return HoldPoint(
        id=f"{feature.id}.pitch",
        what=f"scratch pass against the pitch gauge: {named}{lead}",
        low=0.0,
        high=0.0,
        aim=0.0,
        gauge="pitch gauge, or a rule over ten threads",
        unit="fit",
        if_over="not this pitch: stop, count the teeth of every gear in the train again",
        if_under="not this pitch: stop, count the teeth of every gear in the train again",
    )


def _wire(job: JobView, cut: Screwcut) -> float | None:
    return None if cut.inside else owned.wires_for(job.shop.tooling, cut.spec.thread).tool


def _wire_figure(job: JobView, cut: Screwcut) -> tuple[Figure, ...]:
    wire = _wire(job, cut)
    return () if wire is None else (figures.wires(cut, wire),)


def _proof(job: JobView, feature: Segment | Hole, cut: Screwcut) -> HoldPoint:
    """Readings over wires where they are owned, else the mate that it must fit."""
    rescue = "one line more, then a spring pass; read again"
    wire = _wire(job, cut)
    if wire is None:
        return HoldPoint(
            id=f"{feature.id}.thread",
            what=f"{cut.spec.text} tried with its mate",
            low=0.0,
            high=0.0,
            aim=0.0,
            gauge="mating screw or go gauge" if cut.inside else "mating nut or go ring",
            unit="fit",
            if_over="loose: stop; note it, and try the mate it must hold",
            if_under=f"tight: {rescue}",
        )
    thread = cut.spec.thread
    limits = threads.limits(thread, cut.spec.tolerance_class)

    def reading(pitch_dia: float) -> float:
        climb = lead_angle(figures.aimed(cut), cut.spec.lead)
        return over_wires(pitch_dia, thread.pitch, wire, thread.angle, climb)

    return HoldPoint(
        id=f"{feature.id}.wires",
        what=f"{cut.spec.text} over three wires",
        low=reading(limits.pitch_min),
        high=reading(limits.pitch_max),
        aim=reading(figures.aimed(cut)),
        gauge=f"{_micrometer(job, reading(figures.aimed(cut)))}, wires of {mm(wire)}",
        if_over=rescue,
        if_under="stop; it is loose in its mate, try it before making another",
    )


def _micrometer(job: JobView, size: float) -> str:
    """The owned micrometer that reads a size; `wires_for` has made sure that there is one."""
    owned_ones = [g for g in job.shop.tooling.gauges if g.kind is GaugeKind.MICROMETER]
    return next((g.name for g in owned_ones if g.least <= size <= g.most), owned_ones[0].name)
