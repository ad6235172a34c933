"""Owned tools and wires for a thread cut with a single point. mm."""

from jobsheets.shop.pick import Pick, missing, size
from jobsheets.shop.tools import GaugeKind, LatheTool, LatheToolKind, Tooling
from jobsheets.standards.thread_depth import blunt
from jobsheets.standards.thread_form import best_wire, wire_range
from jobsheets.standards.threads import Thread

SAME = 1e-3


def threading_tool_for(
    tooling: Tooling, thread: Thread, *, inside: bool, bore: float = 0.0, depth: float = 0.0
) -> Pick[LatheTool]:
    """The owned tool whose point reaches the root of a thread; the bluntest that does: it lasts longest.

    Args:
        tooling: what is owned.
        thread: to be cut.
        inside: a nut.
        bore: diameter of the hole that an inside tool must enter, mm.
        depth: of that hole, mm.
    """
    kind = LatheToolKind.INSIDE_THREADING if inside else LatheToolKind.THREADING
    place = f", entering {size(bore, tooling.system)}" if inside else ""
    wanted = f"{thread.angle:g} degree {kind.value} tool for {thread.name}{place}"
    mine = [t for t in tooling.lathe_tools if t.kind is kind and t.angle == thread.angle]
    if inside:
        mine = [t for t in mine if t.least_bore <= bore + SAME and t.reach >= depth - SAME]
    sharp = [t for t in mine if blunt(thread, t.flat, t.nose, inside=inside) is None]
    if sharp:
        best = max(sharp, key=lambda t: (t.flat, t.nose))
        return Pick(tool=best, wanted=best.name)
    if mine:
        told = blunt(thread, mine[0].flat, mine[0].nose, inside=inside)
        return missing(wanted, f"{mine[0].name}: {told}")
    return missing(wanted)


def wires_for(tooling: Tooling, thread: Thread) -> Pick[float]:
    """The owned set of wires nearest to the best size for a thread, inside the usable range."""
    wish = best_wire(thread.pitch, thread.angle)
    least, most = wire_range(thread.pitch, thread.angle)
    wanted = f"three wires of {size(wish, tooling.system)}"
    owned = [w for g in tooling.gauges if g.kind is GaugeKind.WIRES for w in g.wires if least <= w <= most]
    if not owned or not any(g.kind is GaugeKind.MICROMETER for g in tooling.gauges):
        return missing(wanted, "try with the very nut that it must fit")
    best = min(owned, key=lambda w: abs(w - wish))
    return Pick(tool=best, wanted=wanted)
