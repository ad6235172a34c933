"""Figures of a screwcut thread: gears, depth, first cut, wires, and the speed at which one can still stop."""

from math import cos, radians, sqrt, tan

from msgspec.structs import replace

from jobsheets.cutting.screwcutting import stopping_speed
from jobsheets.figure import Figure, Input
from jobsheets.planner import numbers
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Gearing, Setup
from jobsheets.planner.screwcut_values import Infeed, Screwcut
from jobsheets.planner.screwcut_words import order_of
from jobsheets.planner.stopping import BOOK, slowest_of
from jobsheets.shop.speeds import at_or_below
from jobsheets.standards import threads
from jobsheets.standards.thread_depth import pitch_dia_made
from jobsheets.standards.thread_form import best_wire, lead_angle, over_wires

HAIR = 1e-9
STOPPED = "speed that can still be stopped"
LEAST_CHIP = 0.02  # mm square to the axis; a lighter cut rubs (common practice)
FORM = "geometry of the basic profile, docs/screwcutting.md"


def _mm(name: str, value: float) -> Input:
    return Input(name=name, value=value, unit="mm")


def gears(job: JobView, gearing: Gearing) -> Figure:
    """Ratio of the train, with the lead that it cuts."""
    screw = job.lathe.leadscrew
    assert screw is not None
    ratio = gearing.cut / (screw.pitch * screw.stud)
    return Figure(
        id="gear_ratio",
        name="drivers over driven",
        value=ratio,
        unit="",
        formula="lead / (leadscrew × turns of the stud)",
        inputs=(
            _mm("lead wanted", gearing.wanted),
            _mm("lead cut", gearing.cut),
            _mm("leadscrew", screw.pitch),
            Input(name="turns of the stud for one of the spindle", value=screw.stud),
            Input(name="train", value=order_of(gearing)),
            _mm("error in one turn", gearing.cut - gearing.wanted),
            _mm("error over the thread", gearing.error),
        ),
        wanted=gearing.wanted / (screw.pitch * screw.stud),
        ruled_by="exact train of the owned gears"
        if abs(gearing.error) < 1e-9
        else "nearest train of the owned gears",
        source="drivers / driven = lead / leadscrew: F. D. Jones, Turning and Boring (1914)",
        changes="another change gear",
    )


def lead_error(gearing: Gearing) -> tuple[Figure, ...]:
    """Error of the lead over the whole thread; none where the train is exact."""
    if abs(gearing.error) < 1e-9:
        return ()
    return (
        Figure(
            id="lead_error",
            name="error of the lead over the whole thread",
            value=gearing.error,
            unit="mm",
            formula="(lead cut / lead wanted − 1) × length",
            inputs=(
                _mm("lead cut", gearing.cut),
                _mm("lead wanted", gearing.wanted),
                _mm("length", gearing.engaged),
            ),
            ruled_by="nearest train of the owned gears",
            source="arithmetic; what it costs in pitch diameter: error × cot of the half angle",
            changes="another change gear, or a shorter engagement",
        ),
    )


def depth(cut: Screwcut) -> Figure:
    """Depth square to the axis, from where the point touches."""
    limits = threads.limits(cut.spec.thread, cut.spec.tolerance_class)
    along = f"; along the slide: depth / cos {cut.swivel:g}°" if cut.infeed is Infeed.COMPOUND else ""
    return Figure(
        id="thread_depth",
        name="depth of thread, square to the axis",
        value=cut.depth,
        unit="mm",
        formula=f"|D − E| / 2 + P / (4 tan a) − what the nose lacks{along}",
        inputs=(
            _mm("D, as turned" if not cut.inside else "D, as drilled", cut.start),
            _mm("E, least", limits.pitch_min),
            _mm("E, most", limits.pitch_max),
            _mm("P", cut.spec.thread.pitch),
            Input(name="a", value=cut.spec.thread.angle / 2.0, unit="deg"),
            _mm("flat of the nose", cut.cutter.flat),
            _mm("radius of the nose", cut.cutter.nose),
        ),
        ruled_by=f"middle of the pitch diameter of class {cut.spec.tolerance_class}, on a line of the dial",
        source=f"{FORM}; limits: {limits.source}",
        changes="another nose on the tool, or another blank",
    )


def swivel(cut: Screwcut) -> tuple[Figure, ...]:
    """Angle to which the top slide is set, or that the point is led along by both slides."""
    if cut.infeed is Infeed.STRAIGHT:
        return ()
    if cut.infeed is Infeed.SIDE_SHIFT:
        return (_path(cut),)
    return (
        Figure(
            id="swivel",
            name="top slide, from the cross slide's direction",
            value=cut.swivel,
            unit="deg",
            formula="a little less than the half angle of the thread",
            inputs=(
                Input(name="half angle", value=cut.spec.thread.angle / 2.0, unit="deg"),
                Input(name="on a scale that reads from the bed", value=90.0 - cut.swivel, unit="deg"),
            ),
            ruled_by="house rule thread_swivel",
            source="common practice: 29 to 30 degrees so that one edge cuts; others feed straight in",
            changes="the house rule; 0 feeds straight in",
        ),
    )


def _path(cut: Screwcut) -> Figure:
    return Figure(
        id="path",
        name="path of the point, from the cross slide's direction",
        value=cut.swivel,
        unit="deg",
        formula="sideways = depth × tan of the path, rounded down to a line",
        inputs=(Input(name="half angle", value=cut.spec.thread.angle / 2.0, unit="deg"),),
        ruled_by="house rules thread_swivel and thread_side_shift",
        source="common practice: past the half angle the flank would be cut in steps",
        changes="the house rules",
    )


def first_cut(job: JobView, setup: Setup, cut: Screwcut) -> Figure:
    """Deepest first pass: no more chip than a roughing cut that this lathe takes, and the house limit."""
    rough = numbers.depth(job, setup, cut.start, "bore" if cut.inside else "turn rough")
    per_turn = next(float(i.value) for i in rough.inputs if i.name == "f")
    flank = tan(radians(cut.spec.thread.angle / 2.0))
    by_chip = sqrt(rough.value * per_turn / flank)
    value = max(min(by_chip, job.house.thread_first_cut), LEAST_CHIP)
    return Figure(
        id="first_cut",
        name="deepest first pass",
        value=value,
        unit="mm",
        formula="least of: house limit; √(depth × feed of a roughing cut / tan a); not below the least chip",
        inputs=(
            _mm("house limit", job.house.thread_first_cut),
            _mm("depth of a roughing cut", rough.value),
            _mm("feed of a roughing cut", per_turn),
            _mm("least chip", LEAST_CHIP),
            Input(name="a", value=cut.spec.thread.angle / 2.0, unit="deg"),
        ),
        ruled_by="house rule thread_first_cut"
        if by_chip > job.house.thread_first_cut
        else "chip that the lathe takes when roughing",
        source="common practice; the area of a V is depth² tan a",
        changes="a stiffer lathe or a smaller house limit",
    )


def wires(cut: Screwcut, wire: float) -> Figure:
    """Reading over three wires at the depth that the last pass makes."""
    pitch_dia = aimed(cut)
    climb = lead_angle(pitch_dia, cut.spec.lead)
    thread = cut.spec.thread
    return Figure(
        id="over_wires",
        name="over three wires",
        value=over_wires(pitch_dia, thread.pitch, wire, thread.angle, climb),
        unit="mm",
        formula="M = E − P / 2 cot a + W (1 + √(cosec² a + cot² a tan² L))",
        inputs=(
            _mm("E", pitch_dia),
            _mm("P", thread.pitch),
            _mm("W", wire),
            _mm("best wire", best_wire(thread.pitch, thread.angle)),
            Input(name="L, lead angle", value=climb, unit="deg"),
        ),
        ruled_by="owned wires nearest to the best size",
        source="F. D. Jones, Turning and Boring (1914); with lead angle ASME B1.2, from memory",
        changes="another set of wires",
    )


def aimed(cut: Screwcut) -> float:
    """Pitch diameter that the last pass makes, mm."""
    return pitch_dia_made(
        cut.spec.thread,
        cut.start,
        cut.depth,
        flat=cut.cutter.flat,
        radius=cut.cutter.nose,
        inside=cut.inside,
    )


def stopping(job: JobView, setup: Setup, cut: Screwcut) -> Figure:
    """Fastest spindle at which the half-nuts are opened, or the spindle stopped, inside the run-out."""
    book = numbers.spindle(job, setup, "thread single-point", cut.start, cut.cutter.material)
    value = stopping_speed(cut.run_out.room, cut.spec.lead, job.house.reaction_time)
    return Figure(
        id="stopping_speed",
        name="fastest speed that can still be stopped",
        value=value,
        unit="rev/min",
        formula="60 × room / (lead × reaction)",
        inputs=(
            _mm("room", cut.run_out.room),
            _mm("lead", cut.spec.lead),
            Input(name="reaction", value=job.house.reaction_time, unit="s"),
            Input(name=BOOK, value=book.wanted or book.value, unit="rev/min"),
        ),
        ruled_by="run-out and house rule reaction_time",
        source="travel in the time that a hand takes; the time is common practice",
        changes="a wider relief groove; your own time",
    )


def speed(job: JobView, setup: Setup, cut: Screwcut, most: Figure) -> Figure | None:
    """Spindle speed of the passes; None where even the slowest is too fast: by hand crank."""
    figure = numbers.spindle(job, setup, "thread single-point", cut.start, cut.cutter.material)
    limit = slowest_of(most)
    if figure.value <= limit * (1.0 + HAIR):
        tighter = most.value < (figure.wanted or figure.value)  # though both lead to the same step
        return replace(figure, wanted=most.value, ruled_by=STOPPED) if tighter else figure
    slower = at_or_below(job.lathe, limit) if limit > 0.0 else None
    if slower is None or slower.too_fast:
        return None
    return replace(
        figure,
        value=slower.rpm,
        wanted=most.value,
        ruled_by=STOPPED,
        inputs=tuple(replace(i, value=slower.position) if i.name == "position" else i for i in figure.inputs),
    )


def minutes(cut: Screwcut, passes: int, rpm: float | None) -> float:
    """Time in the cut; by hand about half a turn a second."""
    turns = (cut.run_out.at + 3.0 * cut.spec.lead) / cut.spec.lead * passes * cut.spec.starts
    return turns / (rpm if rpm is not None else 30.0)


def square(cut: Screwcut, travel: float) -> float:
    """Depth square to the axis of a travel of the dial that feeds in, mm."""
    return travel * cos(radians(cut.swivel)) if cut.infeed is Infeed.COMPOUND else travel - cut.touch
