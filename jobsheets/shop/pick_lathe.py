"""Owned lathe tools, knurls and collets for a wish. mm."""

from math import inf

from jobsheets.shop.machines import Chuck, Lathe
from jobsheets.shop.pick import Pick, missing, size
from jobsheets.shop.tools import LatheTool, LatheToolKind, Tooling

SAME = 1e-3
KNURL_SAME = 0.02  # share of the pitch: nearer pitches are the same knurl

# Which tool stands in for a kind that is not owned, and what that changes; common practice.
STAND_INS = {
    LatheToolKind.CHAMFER: (
        LatheToolKind.TURNING,
        "the {name} set over by the top slide to 45 degrees; set it back afterwards",
    ),
    LatheToolKind.GROOVING: (
        LatheToolKind.PARTING,
        "the {name} grooves {width} wide and leaves square corners",
    ),
}
OTHERWISE = {LatheToolKind.PARTING: "saw the part off and face it to length"}


def lathe_tool(
    tooling: Tooling, kind: LatheToolKind, *, reach: float = 0.0, widest: float = inf
) -> Pick[LatheTool]:
    """The owned tool of a kind: the first listed that reaches; of parting and grooving tools the narrowest.

    Args:
        tooling: what is owned.
        kind: of tool; for boring bars and knurls see `boring_bar_for` and `knurl_for`.
        reach: deepest cut on the radius that parting or grooving needs, mm.
        widest: widest cut that a groove allows, mm.
    """
    system = tooling.system
    owned = [t for t in tooling.lathe_tools if t.kind is kind]
    blade = kind in (LatheToolKind.PARTING, LatheToolKind.GROOVING)
    if not blade:
        if owned:
            return Pick(tool=owned[0], wanted=owned[0].name)
    else:
        fits = [t for t in owned if t.reach >= reach - SAME and t.width <= widest + SAME]
        if fits:
            best = min(fits, key=lambda t: (t.width, t.reach))
            return Pick(tool=best, wanted=best.name)
    wanted = f"{kind.value} tool" + (f" reaching {size(reach, system)}" if blade and reach > 0.0 else "")
    wanted += f", at most {size(widest, system)} wide" if blade and widest < inf else ""
    return _stand_in(tooling, kind, wanted, reach, widest)


def _stand_in(
    tooling: Tooling, kind: LatheToolKind, wanted: str, reach: float, widest: float
) -> Pick[LatheTool]:
    system = tooling.system
    other, change = STAND_INS.get(kind, (None, ""))
    for tool in tooling.lathe_tools:
        blade = kind is LatheToolKind.GROOVING
        if tool.kind is other and (not blade or (tool.reach >= reach - SAME and tool.width <= widest + SAME)):
            told = change.format(name=tool.name, width=size(tool.width, system))
            return Pick(tool=tool, wanted=wanted, instead=True, consequence=told)
    short = [t for t in tooling.lathe_tools if t.kind is kind and t.width <= widest + SAME]
    if short and kind is LatheToolKind.PARTING:
        best = max(short, key=lambda t: t.reach)
        rest = f"{best.name} reaches {size(best.reach, system)} of {size(reach, system)}"
        return Pick(tool=best, wanted=wanted, instead=True, consequence=f"{rest}: saw through what is left")
    return missing(wanted, OTHERWISE.get(kind, ""))


def boring_bar_for(tooling: Tooling, bore: float, depth: float) -> Pick[LatheTool]:
    """The stoutest owned boring bar that enters a hole and reaches its depth.

    Args:
        tooling: what is owned.
        bore: diameter of the hole before boring, mm.
        depth: of the bore, mm.
    """
    system = tooling.system
    wanted = f"boring bar entering {size(bore, system)}, reaching {size(depth, system)}"
    bars = [t for t in tooling.lathe_tools if t.kind is LatheToolKind.BORING]
    enters = [t for t in bars if t.least_bore <= bore + SAME]
    reaches = [t for t in enters if t.reach >= depth - SAME]
    if reaches:
        best = max(reaches, key=lambda t: (t.least_bore, -t.reach))
        return Pick(tool=best, wanted=best.name)
    if enters:
        best = max(enters, key=lambda t: t.reach)
        short = f"{best.name} reaches {size(best.reach, system)} only"
        return Pick(
            tool=best, wanted=wanted, instead=True, consequence=f"{short}, or buy or borrow: {wanted}"
        )
    larger = min((t.least_bore for t in bars if t.reach >= depth - SAME), default=None)
    return missing(wanted, f"drill {size(larger, system)} first" if larger is not None else "")


def knurl_for(tooling: Tooling, form: str, pitch: float) -> Pick[LatheTool]:
    """The owned knurl of a form with the pitch nearest to `pitch`, mm."""
    wanted = f"{form} knurl, pitch {size(pitch, tooling.system)}"
    owned = [t for t in tooling.lathe_tools if t.kind is LatheToolKind.KNURLING and t.form == form]
    if not owned:
        other = next((t for t in tooling.lathe_tools if t.kind is LatheToolKind.KNURLING), None)
        return missing(wanted, f"ask for the {other.form} knurl that is owned" if other is not None else "")
    best = min(owned, key=lambda t: abs(t.pitch - pitch))
    if abs(best.pitch - pitch) <= KNURL_SAME * pitch:
        return Pick(tool=best, wanted=best.name)
    coarser = "coarser" if best.pitch > pitch else "finer"
    told = f"{best.name} is {coarser}: the blank must suit its pitch, {size(best.pitch, tooling.system)}"
    return Pick(tool=best, wanted=wanted, instead=True, consequence=told)


def chuck_for(lathe: Lathe, diameter: float) -> Chuck | None:
    """The chuck with the least runout that takes a diameter, one that centres itself first."""
    fitting = [c for c in lathe.chucks if c.least <= diameter <= c.most]
    return min(fitting, key=lambda c: (c.kind == "four-jaw", c.runout, c.name)) if fitting else None


def collet_for(lathe: Lathe, diameter: float, system: str = "mm") -> Pick[float]:
    """Bore of the owned collet that grips a bar, mm.

    Args:
        lathe: with its collets.
        diameter: of the bar, mm.
        system: units that a substitution is told in.
    """
    collets = lathe.collets
    fits = [b for b in collets.sizes if b - collets.squeeze - SAME <= diameter <= b + SAME] if collets else []
    if fits:
        best = min(fits)
        return Pick(tool=best, wanted=f"collet {size(best, system)}")
    wanted = f"collet {size(diameter, system)}"
    chuck = next((c for c in lathe.chucks if c.least <= diameter <= c.most), None)
    if chuck is None:
        return missing(wanted)
    told = f"the {chuck.name} in its place: a bar gripped anew runs out by {size(chuck.runout, system)}"
    return missing(wanted, told)
