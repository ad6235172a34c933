"""Tool, gears, depth and run-out of a thread cut with a single point, or why this lathe cannot cut it."""

from fractions import Fraction
from math import cos, radians

from jobsheets.cutting import gear_train
from jobsheets.cutting.gear_train import Train
from jobsheets.cutting.screwcutting import dial_every, index_teeth
from jobsheets.finding import mm
from jobsheets.part.turned import Hole, Segment, ThreadSpec
from jobsheets.planner import screwcut_run_out, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, Gearing
from jobsheets.planner.screwcut_values import CannotCutError, Infeed, RunOut, Screwcut, tan_of
from jobsheets.planner.setting import inside
from jobsheets.shop import owned
from jobsheets.shop.machines import LeadScrew
from jobsheets.standards import threads
from jobsheets.standards.thread_depth import feed_in, lead_equivalent

SPARE_GEARS = range(20, 128)  # what is asked for when no owned train comes near


def settle(job: JobView, feature: Segment | Hole, spec: ThreadSpec) -> Screwcut:
    """Tool, gears, depth and run-out of a thread cut with a single point.

    Raises:
        CannotCutError: this lathe cannot, with what would.
    """
    screw = job.lathe.leadscrew
    if screw is None or not screw.gears:
        raise CannotCutError(
            "the shop file tells of no leadscrew with change gears", "count them, and write them down"
        )
    is_hole = isinstance(feature, Hole)
    start = _start(job, feature)
    cutter = _cutter(job, feature, spec, start)
    gearing = _gearing(job, screw, feature, spec)
    infeed, swivel = _infeed(job, spec, gearing, inside=is_hole)
    touch = 0.0 if is_hole else (job.targets.rod - start) / 2.0
    travel, depth = _depth(job, spec, cutter, start, infeed, swivel, touch, is_hole)
    shift = depth * tan_of(swivel)
    if isinstance(feature, Hole):
        run_out = screwcut_run_out.in_hole(job, feature, cutter.side)
        _reaches(cutter, run_out)
    else:
        run_out = screwcut_run_out.outside(job, feature, cutter.side, shift)
    return Screwcut(
        spec=spec,
        inside=is_hole,
        cutter=cutter,
        gearing=gearing,
        start=start,
        infeed=infeed,
        swivel=swivel,
        touch=touch,
        travel=travel,
        depth=depth,
        run_out=run_out,
    )


def _start(job: JobView, feature: Segment | Hole) -> float:
    """Diameter at which the point first touches: the turned blank, or the drilled hole."""
    if isinstance(feature, Hole):
        pick = toolbox.tap_drill(job, feature)
        return pick.tool.diameter if pick.tool is not None else feature.diameter.nominal
    return job.targets.diameter(feature.id)


def _cutter(job: JobView, feature: Segment | Hole, spec: ThreadSpec, start: float) -> Cutter:
    is_hole = isinstance(feature, Hole)
    deep = (feature.depth.aim if feature.depth else job.targets.length) if isinstance(feature, Hole) else 0.0
    pick = owned.threading_tool_for(
        job.shop.tooling, spec.thread, inside=is_hole, bore=start, depth=deep if is_hole else 0.0
    )
    if pick.tool is None:
        raise CannotCutError(f"no {pick.wanted} is owned", pick.consequence)
    tool = pick.tool
    return Cutter(
        name=tool.name,
        group="threading tool",
        nose=tool.nose,
        flat=tool.flat,
        side=tool.side,
        point=tool.angle,
        reach=tool.reach,
        material=tool.material.value,
        consequence=pick.consequence,
    )


def _reaches(cutter: Cutter, run_out: RunOut) -> None:
    need = run_out.at + cutter.side
    if cutter.reach < need:
        raise CannotCutError(
            f"{cutter.name} reaches {mm(cutter.reach)}, {mm(need)} is needed", "a longer tool, or a tap"
        )


def _gearing(job: JobView, screw: LeadScrew, feature: Segment | Hole, spec: ThreadSpec) -> Gearing:
    ratio = gear_train.ratio_for(spec.lead, screw.pitch, screw.stud)
    found = gear_train.best(ratio, screw.gears, screw.banjo)
    engaged = _engaged(job, feature)
    if not found or _too_far(found[0], spec, engaged):
        raise CannotCutError(_no_train(found, spec, engaged), _what_would(ratio, screw))
    alike = [t for t in found if abs(t.error) <= abs(found[0].error) + gear_train.EXACT]
    best = next((t for t in alike if _indexes(spec, t, screw) is not None), found[0])
    cut = spec.lead if best.exact else gear_train.lead_cut(best.ratio, screw.pitch, screw.stud)
    teeth, marks = screw.dial_teeth, screw.dial_marks
    turns = best.ratio * Fraction(screw.stud).limit_denominator(1000)
    every = dial_every(turns, teeth or 1, marks or 1)
    if teeth is None and every != 0:
        every = None  # no dial: only where any place will do
    return Gearing(
        gears=best.gears,
        idler=best.idler,
        wanted=spec.lead,
        cut=cut,
        engaged=engaged,
        every=every,
        measured=screw.banjo is not None,
        index=_indexes(spec, best, screw) if spec.starts > 1 else None,
    )


def _indexes(spec: ThreadSpec, train: Train, screw: LeadScrew) -> int | None:
    """Teeth of the gear on the stud from one start to the next, where the stud turns with the spindle."""
    return index_teeth(spec.starts, train.gears[0]) if screw.stud == 1.0 else None


def _engaged(job: JobView, feature: Segment | Hole) -> float:
    """Length over which an error of the lead adds up: the whole thread, for the mate may cover it, mm."""
    if isinstance(feature, Hole):
        return feature.depth.aim if feature.depth is not None else job.targets.length
    return feature.length.aim


def _too_far(train: Train, spec: ThreadSpec, engaged: float) -> bool:
    found = threads.limits(spec.thread, spec.tolerance_class)
    return lead_equivalent(train.error * engaged, spec.thread.angle) > found.pitch_max - found.pitch_min


def _no_train(found: tuple[Train, ...], spec: ThreadSpec, engaged: float) -> str:
    if not found:
        return "no train of the owned gears comes within 5 % and fits the banjo"
    off = mm(abs(found[0].error) * engaged)
    return (
        f"the nearest train of the owned gears is off by {off} over {mm(engaged)}: more than its class allows"
    )


def _what_would(ratio: float, screw: LeadScrew) -> str:
    """The one gear that, bought, would make the thread exactly."""
    for teeth in SPARE_GEARS:
        if gear_train.search(ratio, (*screw.gears, teeth), screw.banjo):
            return f"a change gear of {teeth} teeth makes it exact; or a tap or die"
    return "a tap or die of this thread, or a lathe with another leadscrew"


def _infeed(job: JobView, spec: ThreadSpec, gearing: Gearing, *, inside: bool) -> tuple[Infeed, float]:
    """How the tool is fed in, and the angle of its path.

    A slim tool in a hole goes straight out; starts that no gear can index need the top slide along the bed.
    """
    half = spec.thread.angle / 2.0
    wish = job.house.thread_swivel
    swivel = wish if wish <= half else half - 0.5
    indexed = spec.starts == 1 or gearing.index is not None
    if inside or job.lathe.top_slide is None or swivel <= 0.0 or not indexed:
        return Infeed.STRAIGHT, 0.0
    return (Infeed.SIDE_SHIFT if job.house.thread_side_shift else Infeed.COMPOUND), swivel


def _depth(
    job: JobView,
    spec: ThreadSpec,
    cutter: Cutter,
    start: float,
    infeed: Infeed,
    swivel: float,
    touch: float,
    is_hole: bool,
) -> tuple[float, float]:
    """Travel of the dial that feeds in, and depth square to the axis, that make the pitch diameter."""
    limits = threads.limits(spec.thread, spec.tolerance_class)

    def deep(pitch_dia: float) -> float:
        try:
            return feed_in(
                spec.thread, start, pitch_dia, flat=cutter.flat, radius=cutter.nose, inside=is_hole
            )
        except ValueError as exc:
            raise CannotCutError(str(exc), "another tool, or another blank") from None

    low, high = sorted((deep(limits.pitch_min), deep(limits.pitch_max)))
    compound = infeed is Infeed.COMPOUND and job.lathe.top_slide is not None
    dial = job.lathe.top_slide if compound and job.lathe.top_slide is not None else job.cross
    share, zero = (cos(radians(swivel)), 0.0) if compound else (1.0, touch)
    found = inside(zero + low / share, zero + high / share, zero + (low + high) / 2.0 / share, dial.step)
    if found is None:
        raise CannotCutError(
            f"no line of the {dial.axis} makes its pitch diameter: {mm(high - low)} of depth are allowed",
            "a readout, or a tap or die",
        )
    return found.travel, (found.travel - zero) * share
