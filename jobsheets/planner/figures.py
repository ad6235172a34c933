"""Figures of size, depth and turns: what a row aims at, and why. Speeds and feeds are in numbers.py."""

from math import pi

from jobsheets.cutting.drill import point_length
from jobsheets.figure import Figure, Input
from jobsheets.part.size import Size
from jobsheets.part.turned import Edge, EdgeKind, End, Hole, Knurl, Segment, SegmentKind
from jobsheets.planner import setting
from jobsheets.planner.checks.measuring import too_coarse
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter
from jobsheets.planner.setting import Setting
from jobsheets.planner.stop import Stopped
from jobsheets.planner.targets import Unreachable
from jobsheets.shop.machines import Dial
from jobsheets.standards import tap_drills
from jobsheets.standards.materials import Material
from jobsheets.standards.thread_percent import Basis, full_depth

ARITHMETIC = "arithmetic on the sizes of the part"


def _mm(name: str, value: float) -> Input:
    return Input(name=name, value=value, unit="mm")


def on_line(dial: Dial, size: Size) -> float:
    """Travel on a line of the dial inside the limits of a size, mm; the aim where no line lies inside."""
    found = setting.inside(size.low, size.high, size.aim, dial.step)
    return found.travel if found is not None else size.aim


def depth_on_line(dial: Dial, hole: Hole, aim: float) -> float:
    """Depth of a hole on a line of the dial, inside its limits, mm."""
    if hole.depth is None:
        return setting.up(dial, aim)
    found = setting.inside(hole.depth.low, hole.depth.high, hole.depth.aim, dial.step)
    if found is None:
        raise Stopped((too_coarse(Unreachable(feature=hole.id, what="depth", size=hole.depth, dial=dial)),))
    return found.travel


def bore_setting(job: JobView, hole: Hole, start: float) -> Setting:
    """Travel outward from the drilled wall to the size of a bore."""
    found = setting.bore(job.cross, start, hole.diameter)
    if found is None:
        missed = Unreachable(feature=hole.id, what="diameter", size=hole.diameter, dial=job.cross)
        raise Stopped((too_coarse(missed),))
    return found


def _limits(size: Size) -> tuple[Input, ...]:
    return (_mm("low limit", size.low), _mm("high limit", size.high), Input(name="limits", value=size.limits))


def target(job: JobView, segment: Segment, size: Size, chosen: Setting) -> Figure:
    """Diameter that the last cut makes."""
    reached = job.targets.rod - 2.0 * chosen.travel
    mate = next((m for m in job.part.mates if m.size == segment.id), None)
    inputs = [
        _mm("bar", job.targets.rod),
        _mm("slide travel", chosen.travel),
        _mm("wanted", size.aim),
        *_limits(size),
    ]
    if mate is not None:
        inputs += [
            _mm(
                f"{mate.to}, " + ("measured" if mate.measured is not None else "expected"),
                mate.measured if mate.measured is not None else mate.expected,
            ),
            _mm("allowance", mate.allowance),
        ]
    return Figure(
        id="diameter",
        name=f"⌀ {segment.id}",
        value=reached,
        unit="mm",
        formula="D = bar − 2 × travel of the cross slide",
        inputs=tuple(inputs),
        wanted=size.aim,
        ruled_by="midway between two lines of the dial"
        if chosen.between_lines
        else "nearest line of the dial inside the limits",
        source=size.source or ARITHMETIC,
        changes="a measured mate moves it"
        if mate is not None
        else "another bar changes the travel, not the size",
    )


def finish_cut(job: JobView, depth: float) -> Figure:
    return Figure(
        id="finish_depth",
        name="depth of the last cut",
        value=depth,
        unit="mm",
        formula="cut, measure, cut the same again",
        inputs=(_mm("house rule", job.house.finish_depth), _mm("finest step", job.cross.step)),
        wanted=job.house.finish_depth,
        ruled_by="house rule on a line of the dial",
        source="common practice",
        changes="the house rule finish_depth",
    )


def bore_target(job: JobView, hole: Hole, chosen: Setting, start: float) -> Figure:
    return Figure(
        id="diameter",
        name=f"⌀ {hole.id}",
        value=start + 2.0 * chosen.travel,
        unit="mm",
        formula="D = drilled hole + 2 × travel of the cross slide",
        inputs=(_mm("drilled hole", start), _mm("slide travel", chosen.travel), *_limits(hole.diameter)),
        wanted=hole.diameter.aim,
        ruled_by="nearest line of the dial inside the limits",
        source=hole.diameter.source or ARITHMETIC,
        changes="a drill that cuts over size shortens the travel: measure it",
    )


def parted(job: JobView, blade: float) -> Figure:
    """Place of the parting blade."""
    return Figure(
        id="parting_place",
        name="place of the blade",
        value=job.targets.parted + blade,
        unit="mm",
        formula="length + allowance on the parted face + width of the blade",
        inputs=(
            _mm("length", job.targets.length),
            _mm("allowance", job.targets.parted - job.targets.length),
            _mm("blade", blade),
        ),
        ruled_by="next line of the dial",
        source="common practice",
        changes="another blade width",
    )


def overall(job: JobView, size: Size) -> Figure:
    """Length over all, as the facing of the parted end makes it."""
    return Figure(
        id="length",
        name="length over all",
        value=job.targets.length,
        unit="mm",
        formula="parted length − travel of the facing cuts",
        inputs=(
            _mm("parted length", job.targets.parted),
            _mm("facing", job.targets.faced.travel),
            *_limits(size),
        ),
        wanted=size.aim,
        ruled_by="nearest line of the dial inside the limits",
        source=size.source or ARITHMETIC,
        changes="measure the parted length: what is over is what to face",
    )


def dome(job: JobView, segment: Segment, edge: Edge) -> Figure:
    radius, height = job.targets.diameter(segment.id) / 2.0, edge.size.aim
    return Figure(
        id="ball_radius",
        name="radius of the dome",
        value=(radius * radius + height * height) / (2.0 * height),
        unit="mm",
        formula="R = (r² + h²) / 2h; diameter at depth x: 2 √(2Rx − x²)",
        inputs=(_mm("r", radius), _mm("h", height)),
        ruled_by="height of the dome and the diameter under it",
        source="geometry of the circle",
        changes="the height of the dome",
    )


def drill_tip(cutter: Cutter, full: float, tip: float) -> Figure:
    """Depth of a drill's point for a depth at full diameter."""
    tip_length = point_length(cutter.diameter, cutter.point) if cutter.point < 180.0 else 0.0
    return Figure(
        id="depth",
        name="depth of the drill's point",
        value=tip,
        unit="mm",
        formula="depth at full diameter + length of the point",
        inputs=(
            _mm("full diameter to", full),
            _mm("point", tip_length),
            Input(name="point angle", value=cutter.point, unit="deg"),
        ),
        wanted=full + tip_length,
        ruled_by="next line of the dial",
        source="point length (D/2) / tan(angle/2): geometry; 118° is 0.3 D (Machinery's "
        "Handbook, from memory)",
        changes="a drill ground to another angle",
    )


def tap_turns(hole: Hole, full_thread: float, turns: float, cutter: Cutter) -> Figure:
    """Turns of a tap from its first bite."""
    assert hole.thread is not None
    pitch = hole.thread.thread.pitch
    return Figure(
        id="turns",
        name="turns of the tap from its first bite",
        value=turns,
        unit="turns",
        formula="(full thread + lead of the tap) / pitch",
        inputs=(_mm("full thread", full_thread), _mm("lead", cutter.lead), _mm("pitch", pitch)),
        wanted=(full_thread + cutter.lead) / pitch,
        ruled_by="next quarter turn",
        source="common practice",
        changes="a tap with another lead",
    )


def percent(hole: Hole, drill: float, low: float, high: float, source: str) -> Figure:
    """Percent of thread that a drill leaves; `low` to `high` is wished for, by `source`."""
    assert hole.thread is not None
    thread = hole.thread.thread
    full = full_depth(thread, Basis.US)
    value = tap_drills.percent(thread.major, thread.pitch, drill, full / thread.pitch)
    return Figure(
        id="percent",
        name="percent of thread",
        value=value,
        unit="%",
        formula="100 (D − drill) / T; T is what a full thread takes off the diameter: 1.2990 P at 60 degrees",
        inputs=(
            _mm("D", thread.major),
            _mm("drill", drill),
            _mm("P", thread.pitch),
            _mm("T", full),
            Input(name="wished for", value=f"{low:.0f} to {high:.0f} %"),
        ),
        ruled_by="owned drill nearest the middle of the range, inside the class limits of the minor diameter",
        source=source,
        changes="a larger drill: less thread, an easier tap",
    )


def reversal(material: Material, hole: Hole) -> Figure:
    """How far to turn before breaking the chip."""
    short = material.family in ("brass", "bronze", "cast iron") or "brass" in material.id
    value = 1.0 if short else 0.5
    return Figure(
        id="reversal",
        name="turn in before each half turn back",
        value=value,
        unit="turns",
        formula="one turn in short-chipping metal, half a turn in the rest",
        inputs=(Input(name="material", value=material.name),),
        ruled_by="chip of the material",
        source="common practice",
        changes="a tap that squeaks or tightens: back it out at once",
    )


def die_turns(segment: Segment, turns: float, length: float, lead: float, room: float) -> Figure:
    """Turns of a die from its first bite."""
    assert segment.thread is not None
    pitch = segment.thread.thread.pitch
    wanted = min(length + lead, room) / pitch
    return Figure(
        id="turns",
        name="turns of the die from its first bite",
        value=turns,
        unit="turns",
        formula="least of (length + lead of the die, room up to the shoulder) / pitch",
        inputs=(_mm("length", length), _mm("lead", lead), _mm("room", room), _mm("pitch", pitch)),
        wanted=wanted,
        ruled_by="last quarter turn before the shoulder"
        if room < length + lead
        else "full thread over the length",
        source="arithmetic; lead as counted on the die",
        changes="a longer relief groove, or a die with a shorter lead",
    )


def blank(segment: Segment, size: Size) -> Figure:
    return Figure(
        id="blank",
        name="blank for the die",
        value=size.aim,
        unit="mm",
        formula="major diameter − 10 % of the pitch",
        inputs=_limits(size),
        ruled_by=size.limits,
        source=size.source,
        changes="a die that tears wants a smaller blank; a loose thread a larger one",
    )


def knurl_teeth(knurl: Knurl, diameter: float) -> Figure:
    """Teeth of a knurl round its blank."""
    teeth = pi * diameter / knurl.pitch
    whole = max(1, round(teeth))
    return Figure(
        id="teeth",
        name="knurl teeth round the blank",
        value=teeth,
        unit="teeth",
        formula="π D / p",
        inputs=(
            _mm("D", diameter),
            _mm("p", knurl.pitch),
            _mm("diameter for whole teeth", whole * knurl.pitch / pi),
        ),
        wanted=float(whole),
        ruled_by="the pattern closes on whole teeth",
        source="geometry; common practice",
        changes="turn the blank to the diameter for whole teeth",
    )


def edge_reason(segment: Segment, which: End) -> str:
    if segment.kind is SegmentKind.THREAD:
        return "the die starts square on a chamfer that begins below the thread"
    edge = segment.front if which is End.FRONT else segment.back
    if edge is not None and edge.kind is EdgeKind.CHAMFER:
        return "clears the corner of the mate, and no burr is left to lift it off its seat"
    return "the edge is finished while it runs true"
