"""Holes on the axis, cross holes and knurls."""

from jobsheets.part.size import Size
from jobsheets.part.turned import Bottom, CrossHole, End, Hole, HoleKind, Knurl, Segment, SegmentKind
from jobsheets.recipe import show
from jobsheets.recipe.evaluate import offer
from jobsheets.recipe.item import Item
from jobsheets.recipe.outline import thread_spec
from jobsheets.recipe.sizes import Sizer, Use

LEADS = ("drill", "bore", "ream", "counterbore", "tap")
_FLAT_UNLESS_SAID = ("bore", "counterbore")
# Metal beside a cross hole that still stands when the drill comes through; common practice.
LEAST_WALL = 0.5


def hole(item: Item, sizer: Sizer) -> Hole | None:
    """The hole of a feature; None, and the faults kept, where it cannot be."""
    through = item.text("through") == "true"
    if not _one_depth(item, through, sizer):
        return None
    spec = thread_spec(item, "tap", external=False, sizer=sizer) if item.lead == "tap" else None
    diameter = sizer.size(item, item.lead, "limits", Use.HOLE) if item.lead != "tap" else spec and spec[1]
    depth = None if through else sizer.size(item, "depth", "depth_limits", Use.LENGTH)
    mouth = sizer.size(item, "mouth", "mouth_limits", Use.LENGTH) if "mouth" in item else None
    if diameter is None or (depth is None and not through):
        return None
    usual = "flat" if item.lead in _FLAT_UNLESS_SAID else "blind"
    return Hole(
        id=item.text("id"),
        kind=HoleKind(item.lead),
        end=End(item.text("from", "front")),
        bottom=Bottom.THROUGH if through else Bottom(item.text("bottom", usual)),
        diameter=diameter,
        depth=depth,
        mouth=mouth,
        thread=spec[0] if spec else None,
    )


def _one_depth(item: Item, through: bool, sizer: Sizer) -> bool:
    """A hole has a depth or goes through; what is written of a bottom must suit."""
    if not through and "depth" not in item:
        sizer.faults.add(item.node, f"{item.path}.depth", "no depth", "depth: 10 mm, or through: true")
        return False
    clash = next((n for n in ("depth", "depth_limits", "bottom") if through and n in item), None)
    if clash is not None:
        node, path = item.at(clash)
        sizer.faults.add(node, path, f"a {clash.replace('_', ' ')} of a through hole", "one of the two")
        return False
    return True


def cross_hole(item: Item, segments: tuple[Segment, ...], sizer: Sizer) -> CrossHole | None:
    """The cross hole of a feature, held to the segment that it crosses."""
    found = _carrier(item, "at", segments, sizer)
    diameter = sizer.size(item, "cross_hole", "limits", Use.HOLE)
    if found is None or diameter is None:
        return None
    carrier, start = found
    length = carrier.length.nominal
    offset = item.number("offset") if "offset" in item else length / 2.0
    if not _fits(item, carrier, diameter, offset, sizer):
        return None
    at = sizer.sized(item, start + offset, "offset", "offset_limits", Use.LENGTH)
    if at is None:
        return None
    return CrossHole(
        id=item.text("id"),
        diameter=diameter,
        at=at,
        segment=carrier.id,
        through=item.text("through", "true") == "true",
    )


def _fits(item: Item, carrier: Segment, diameter: Size, offset: float, sizer: Sizer) -> bool:
    """Room along and across the segment, with a wall that stands."""

    def text(value: float) -> str:
        return show.length(value, sizer.system)

    need, length = diameter.nominal + 2.0 * LEAST_WALL, carrier.length.nominal
    node, path = item.at("cross_hole")
    if need > length + 1e-9:
        most = length - 2.0 * LEAST_WALL
        smaller = f", or a hole of {text(most)} at most" if most > 0.0 else ""
        sizer.faults.add(
            node,
            path,
            f"{carrier.id} is {text(length)} long, and the hole of {text(diameter.nominal)} with a wall of "
            f"{text(LEAST_WALL)} on both sides takes {text(need)}",
            f"{carrier.id} at least {text(need)} long{smaller}",
        )
        return False
    if diameter.nominal >= carrier.diameter.nominal - 1e-9:
        sizer.faults.add(
            node,
            path,
            f"{text(diameter.nominal)}, not smaller than {carrier.id} ({text(carrier.diameter.nominal)})",
            f"less than {text(carrier.diameter.nominal)}",
        )
        return False
    half = need / 2.0
    if not half - 1e-9 <= offset <= length - half + 1e-9:
        node, path = item.at("offset")
        nearest = text(min(max(offset, half), length - half))
        sizer.faults.add(
            node,
            path,
            f"centre at {text(offset)} leaves less than {text(LEAST_WALL)} beside the hole in {carrier.id}",
            f"{text(half)} to {text(length - half)}, nearest {nearest}",
        )
        return False
    return True


def knurl(item: Item, segments: tuple[Segment, ...], sizer: Sizer) -> Knurl | None:
    """The knurl of a feature."""
    found = _carrier(item, "on", segments, sizer)
    if found is None:
        return None
    return Knurl(id=item.text("id"), segment=found[0].id, form=item.text("knurl"), pitch=item.number("pitch"))


def _carrier(
    item: Item, name: str, segments: tuple[Segment, ...], sizer: Sizer
) -> tuple[Segment, float] | None:
    """The turned length that a feature lies on, and where its front is."""
    start = 0.0
    for one in segments:
        if one.id == item.text(name) and one.kind is SegmentKind.TURN:
            return one, start
        start += one.length.nominal
    turned = tuple(s.id for s in segments if s.kind is SegmentKind.TURN)
    node, path = item.at(name)
    sizer.faults.add(node, path, "not a turned length", offer(item.text(name), turned))
    return None
