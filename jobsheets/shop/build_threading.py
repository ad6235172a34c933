"""Threading tools and thread wires out of a checked shop file."""

from jobsheets.shop import notation
from jobsheets.shop.entry import Entry
from jobsheets.shop.tools import GaugeKind, LatheTool, LatheToolKind, ToolMaterial

ANGLES = (60.0, 55.0, 47.5)


def threading_tool(entry: Entry) -> LatheTool:
    """A tool that cuts threads with a single point."""
    angle = entry.get("angle", notation.angle)
    if angle not in ANGLES:
        entry.fault("angle", "no angle of a thread", "60 deg, 55 deg (Whitworth) or 47.5 deg (BA)")
    if "flat" in entry and "nose" in entry:
        entry.fault("nose", "a flat and a radius on one nose", "one of the two")
    inside = entry.opt("where", notation.plain, "outside") == "inside"
    if inside and not ("least_bore" in entry and "reach" in entry):
        entry.fault("where", "an inside tool half told", "least_bore and reach")
    return LatheTool(
        name=entry.text("name"),
        kind=LatheToolKind.INSIDE_THREADING if inside else LatheToolKind.THREADING,
        material=entry.opt("material", ToolMaterial, ToolMaterial.HSS),
        nose=entry.opt("nose", notation.length_or_none, 0.0),
        flat=entry.opt("flat", notation.length_or_none, 0.0),
        angle=angle,
        side=entry.get("side", notation.length),
        reach=entry.opt("reach", notation.length, 0.0),
        least_bore=entry.opt("least_bore", notation.length, 0.0),
    )


def wires(entry: Entry, kind: GaugeKind) -> tuple[float, ...]:
    """Diameters of owned thread wires, smallest first."""
    sizes = entry.values("wires", notation.length)
    if (kind is GaugeKind.WIRES) != bool(sizes):
        wrong = "thread wires without a size" if kind is GaugeKind.WIRES else "wires of another gauge"
        entry.fault("wires", wrong, "wires: their diameters, on a gauge of kind thread wires")
    return tuple(sorted(sizes))
