"""From a choice among owned tools to the cutter of an operation, with the sizes the replay needs.

Where nothing owned will do, the cutter is the one to buy or borrow, marked so; a check decides what that
stops.
"""

from math import radians, tan

from msgspec.structs import replace

from jobsheets.finding import mm
from jobsheets.part.size import ROOM, Size
from jobsheets.part.turned import Bottom, CrossHole, Hole, Knurl, ThreadSpec
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, Setup
from jobsheets.shop import owned
from jobsheets.shop.owned import Pick, TapSet
from jobsheets.shop.tools import Drill, LatheTool, LatheToolKind, Tap
from jobsheets.standards import tap_drills, thread_percent
from jobsheets.standards.drills import DrillSize
from jobsheets.standards.thread_percent import Basis

BORROWED_FLUTE = 60.0  # mm; flute length assumed of a drill that is bought or borrowed
FLUTE_SPARE = 1.0  # mm of flute out of the hole, at least
STIFF_PILOT = (
    10.0  # diameters; a pilot in a deeper hole is taken wider, for it bends and packs (common practice)
)
WIDEST_PILOT = 0.6  # of the drill that follows
REAMER_AIM = 0.2
REAMER_STOCK = (0.1, 0.35)  # mm on the diameter, left for a reamer under 10 mm; common practice


def turning_tool(job: JobView, setup: Setup) -> Cutter:
    return _lathe_cutter(owned.lathe_tool(job.shop.tooling, LatheToolKind.TURNING), "turning tool")


def chamfer_tool(job: JobView, setup: Setup) -> Cutter:
    return _lathe_cutter(owned.lathe_tool(job.shop.tooling, LatheToolKind.CHAMFER), "turning tool")


def grooving_tool(job: JobView, setup: Setup, width: float, depth: float) -> Cutter:
    pick = owned.lathe_tool(job.shop.tooling, LatheToolKind.GROOVING, reach=depth, widest=width)
    cutter = _lathe_cutter(pick, "grooving tool")
    return cutter if pick.tool is not None else replace(cutter, width=width, reach=depth + 1.0)


def parting_tool(job: JobView, setup: Setup, radius: float) -> Cutter:
    return parting_cutter(owned.lathe_tool(job.shop.tooling, LatheToolKind.PARTING, reach=radius), radius)


def parting_cutter(pick: Pick[LatheTool], radius: float) -> Cutter:
    cutter = _lathe_cutter(pick, "parting blade")
    return cutter if pick.tool is not None else replace(cutter, width=2.0, reach=radius + 1.0)


def knurling_tool(job: JobView, knurl: Knurl) -> Cutter:
    return _lathe_cutter(owned.knurl_for(job.shop.tooling, knurl.form, knurl.pitch), "knurling tool")


def boring_bar(job: JobView, bore: float, depth: float) -> Cutter:
    pick = owned.boring_bar_for(job.shop.tooling, bore, depth)
    cutter = _lathe_cutter(pick, "boring bar")
    if pick.tool is None or pick.tool.reach < depth:
        return replace(cutter, name=pick.wanted, reach=depth + 2.0, owned=False)
    return cutter


def _lathe_cutter(pick: Pick[LatheTool], group: str) -> Cutter:
    tool = pick.tool
    if tool is None:
        return Cutter(name=pick.wanted, group=group, consequence=pick.consequence, owned=False)
    return Cutter(
        name=tool.name,
        group=group,
        width=tool.width,
        nose=tool.nose,
        reach=tool.reach,
        material=tool.material.value,
        consequence=pick.consequence,
    )


def file_tool() -> Cutter:
    return Cutter(name="fine file with a handle, radius gauge", group="bench tool")


def hand_countersink(job: JobView, hole: CrossHole) -> Cutter:
    return Cutter(
        name="countersink by hand, small round file", group="bench tool", diameter=hole.diameter.aim
    )


def centre_drill(job: JobView, next_drill: float) -> Cutter:
    """Centre drill whose pilot starts the next drill; `reach` is how deep to spot."""
    pick = owned.centre_drill_for(job.shop.tooling, next_drill)
    if pick.tool is None:
        return Cutter(
            name=pick.wanted,
            group="centre drill",
            diameter=min(1.6, next_drill),
            reach=1.0,
            consequence=pick.consequence,
            owned=False,
        )
    # The spot stays inside the next drill's diameter, so no trace is left on the face.
    deep = min(pick.tool.pilot_length * 0.8, next_drill * 0.6)
    return Cutter(
        name=f"centre drill {pick.tool.name}",
        group="centre drill",
        diameter=min(pick.tool.pilot, next_drill),
        reach=deep,
        consequence=pick.consequence,
    )


def countersink(job: JobView, diameter: float) -> Cutter:
    """Countersink that opens a mouth to a diameter."""
    pick = owned.countersink_for(job.shop.tooling, diameter)
    if pick.tool is None:
        return Cutter(
            name=pick.wanted,
            group="countersink",
            diameter=diameter,
            point=90.0,
            reach=diameter,
            consequence=pick.consequence,
            owned=False,
        )
    reach = pick.tool.diameter / 2.0 / tan(radians(pick.tool.angle / 2.0))
    return Cutter(
        name=pick.tool.name,
        group="countersink",
        diameter=pick.tool.diameter,
        point=pick.tool.angle,
        reach=reach,
        consequence=pick.consequence,
    )


def drill(pick: Pick[Drill], wanted: float, depth: float) -> Cutter:
    """Cutter of a drill.

    Args:
        pick: what is owned; a drill whose flutes are shorter than the hole is not.
        wanted: diameter to get where none is owned, mm.
        depth: of the hole at full diameter, mm.
    """
    if pick.tool is not None and pick.tool.flute < depth + FLUTE_SPARE:
        return Cutter(
            name=f"long {_drill_name(pick.tool)}",
            group="twist drill",
            diameter=pick.tool.diameter,
            point=pick.tool.point,
            reach=depth + FLUTE_SPARE,
            material=pick.tool.material.value,
            consequence=f"buy or borrow a drill {pick.tool.name} with flutes of {mm(depth)}",
            owned=False,
        )
    if pick.tool is None:
        return Cutter(
            name=pick.wanted,
            group="twist drill",
            diameter=wanted,
            point=118.0,
            reach=max(BORROWED_FLUTE, depth + FLUTE_SPARE),
            consequence=pick.consequence,
            owned=False,
        )
    return Cutter(
        name=_drill_name(pick.tool),
        group="twist drill",
        diameter=pick.tool.diameter,
        point=pick.tool.point,
        reach=pick.tool.flute,
        material=pick.tool.material.value,
        consequence=pick.consequence,
    )


def _drill_name(tool: Drill) -> str:
    return f"drill {tool.name}"


def drill_in(job: JobView, size: Size) -> Pick[Drill]:
    """Drill for a hole that is left as drilled: it cuts a little over its size, so the aim is the top."""
    return _inside(owned.drill_within(job.shop.tooling, size.low, size.high, size.aim), size.low, size.high)


def _inside(pick: Pick[Drill], low: float, high: float) -> Pick[Drill]:
    """A drill that misses the limits is none: the one for them has to be got."""
    if pick.tool is None or low - ROOM <= pick.tool.diameter <= high + ROOM:
        return pick
    return Pick(
        tool=None,
        wanted=pick.wanted,
        instead=True,
        consequence=f"buy or borrow: drill between {mm(low)} and {mm(high)}; "
        f"{_drill_name(pick.tool)} misses the limits",
    )


def drill_below(job: JobView, limit: float) -> Pick[Drill]:
    return owned.largest_drill_below(job.shop.tooling, limit)


def sinks_flat(hole: Hole) -> bool:
    """Whether the floor of a hole is flat, so that a drill's point would mark it."""
    return hole.depth is not None and hole.bottom is Bottom.FLAT


def end_mill_before_bore(job: JobView, hole: Hole, allowance: float) -> Cutter:
    """Flat cutter that opens a bore with a flat floor, run in the tailstock's drill chuck."""
    depth = hole.depth.aim if hole.depth is not None else 0.0
    limit = hole.diameter.low - allowance
    pick = owned.end_mill_below(job.shop.tooling, limit, depth)
    if pick.tool is None:
        return Cutter(
            name=pick.wanted,
            group="end mill",
            diameter=limit,
            point=180.0,
            reach=depth + 2.0,
            consequence=pick.consequence,
            owned=False,
        )
    return Cutter(
        name=pick.tool.name, group="end mill", diameter=pick.tool.diameter, point=180.0, reach=pick.tool.flute
    )


def drill_before_bore(job: JobView, hole: Hole, allowance: float, tight: float) -> Pick[Drill]:
    """Drill that opens a bore: with room to true it, or a tight one if only that lets the bar in."""
    wide = drill_below(job, hole.diameter.low - allowance)
    depth = hole.depth.aim if hole.depth is not None else job.through
    if wide.tool is None or owned.boring_bar_for(job.shop.tooling, wide.tool.diameter, depth).tool is None:
        close = drill_below(job, hole.diameter.low - tight)
        if close.tool is not None and owned.boring_bar_for(job.shop.tooling, close.tool.diameter, depth).tool:
            return close
    return wide


def drill_before_reamer(job: JobView, diameter: float) -> Pick[Drill]:
    low, high = diameter - REAMER_STOCK[1], diameter - REAMER_STOCK[0]
    return _inside(owned.drill_within(job.shop.tooling, low, high, diameter - REAMER_AIM), low, high)


def pilot(job: JobView, final: float, depth: float) -> Cutter:
    """Pilot for a large drill; a deep hole wants a stiffer one than the house's share."""
    share = min(max(job.house.pilot_share, depth / (STIFF_PILOT * final)), WIDEST_PILOT)
    house = replace(job.house, pilot_share=share)
    return drill(owned.pilot_for(job.shop.tooling, final, house), final * share, depth)


def tap_drill(job: JobView, hole: Hole) -> Pick[Drill]:
    """The owned drill with the percent of thread that the material likes, inside the limits of the class."""
    assert hole.thread is not None
    thread = hole.thread.thread
    sizes = {d.name: d for d in job.shop.tooling.drills}
    everything = tuple(
        DrillSize(name=d.name, mm=d.diameter, series=d.series, source="owned")
        for d in job.shop.tooling.drills
    )
    # The class limits come before the wish of the material: outside them the thread gauge refuses the nut.
    choices = tuple(d for d in everything if hole.diameter.holds(d.mm)) or everything
    wanted = percent_range(job, hole)
    full = thread_percent.full_depth(thread, Basis.US) / thread.pitch
    try:
        choice = tap_drills.choose(thread.major, thread.pitch, wanted, choices, full)
    except ValueError as exc:
        return Pick(
            tool=None,
            wanted=f"tap drill for {thread.name}",
            instead=True,
            consequence=f"buy or borrow: {exc}",
        )
    best = choice.best
    told = (
        ""
        if choice.suits
        else (
            f"{best.drill.name} leaves {best.percent:.0f} % of thread; {wanted[0]:.0f} to "
            f"{wanted[1]:.0f} % is wished for"
        )
    )
    if not hole.diameter.holds(best.drill.mm):
        return _inside(
            Pick(tool=sizes[best.drill.name], wanted=f"tap drill for {thread.name}"), *_class_limits(hole)
        )
    return Pick(
        tool=sizes[best.drill.name], wanted=best.drill.name, instead=not choice.suits, consequence=told
    )


def _class_limits(hole: Hole) -> tuple[float, float]:
    return hole.diameter.low, hole.diameter.high


def percent_range(job: JobView, hole: Hole) -> tuple[float, float]:
    """Percent of thread to aim at, inside what the class allows; the class alone where none was published."""
    assert hole.thread is not None
    thread = hole.thread.thread
    # The class limits the minor diameter too; a long engagement may be drilled to its largest.
    least = thread_percent.percent(thread, hole.diameter.high, Basis.US)
    most = thread_percent.percent(thread, hole.diameter.low, Basis.US)
    if job.material.family in tap_drills.NON_METALS:
        return least, most
    aim = tap_drills.target_percent(job.material)
    narrowed = (max(aim.low, least), min(aim.high, most))
    return narrowed if narrowed[0] <= narrowed[1] else (least, most)


def tap_set(job: JobView, hole: Hole) -> TapSet:
    assert hole.thread is not None
    blind = hole.bottom is not Bottom.THROUGH
    return owned.tap_for(job.shop.tooling, hole.thread.thread, blind, hole.thread.left)


def tap(one: Tap, spec: ThreadSpec, taps: TapSet) -> Cutter:
    return Cutter(
        name=f"{spec.thread.name} {one.kind.value} tap, {one.lead_threads:g} threads chamfered",
        group="tap",
        diameter=spec.thread.major,
        reach=one.reach,
        lead=one.lead_threads * spec.thread.pitch,
        consequence=taps.consequence if one is taps.taps[-1] else "",
    )


def tap_to_get(spec: ThreadSpec, taps: TapSet) -> Cutter:
    """The tap that has to be bought or borrowed."""
    return Cutter(
        name=taps.wanted,
        group="tap",
        diameter=spec.thread.major,
        reach=25.0,
        lead=taps.lead_threads * spec.thread.pitch,
        consequence=taps.consequence,
        owned=False,
    )


def die(job: JobView, spec: ThreadSpec) -> Cutter:
    """Die of a thread."""
    pick = owned.die_for(job.shop.tooling, spec.thread, spec.left)
    if pick.tool is None:
        return Cutter(
            name=pick.wanted,
            group="die",
            diameter=spec.thread.major,
            lead=2.5 * spec.thread.pitch,
            consequence=pick.consequence,
            owned=False,
        )
    return Cutter(
        name=f"die {spec.thread.name}",
        group="die",
        diameter=spec.thread.major,
        lead=pick.tool.lead_threads * spec.thread.pitch,
        consequence=pick.consequence,
    )


def reamer(job: JobView, hole: Hole) -> Cutter:
    """Reamer inside the limits of a hole."""
    size = hole.diameter
    pick = owned.reamer_for(job.shop.tooling, size.low, size.high, size.aim)
    if pick.tool is None:
        return Cutter(
            name=pick.wanted,
            group="reamer",
            diameter=size.aim,
            reach=BORROWED_FLUTE,
            consequence=pick.consequence,
            owned=False,
        )
    return Cutter(
        name=f"reamer {pick.tool.name}",
        group="reamer",
        diameter=pick.tool.diameter,
        reach=pick.tool.flute,
        consequence=pick.consequence,
    )
