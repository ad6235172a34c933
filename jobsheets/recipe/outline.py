"""Segments of the outline: turned lengths, grooves and outside threads."""

from jobsheets.part.size import Size
from jobsheets.part.turned import Edge, EdgeKind, Method, Segment, SegmentKind, ThreadSpec
from jobsheets.recipe import show
from jobsheets.recipe.item import Item
from jobsheets.recipe.sizes import Sizer, Use
from jobsheets.standards import threads
from jobsheets.standards.threads import Thread

SAME = 1e-6  # mm; nearer than this to the bar's diameter is the bar's diameter
LEADS = ("turn", "groove", "die")
METHODS = {
    "": Method.FREE,
    "die": Method.HAND,
    "tap": Method.HAND,
    "single point": Method.SINGLE_POINT,
}


def segment(item: Item, rod: Size, sizer: Sizer) -> Segment | None:
    """The segment of a feature; None, and the faults kept, where it cannot be."""
    match item.lead:
        case "turn":
            return _turn(item, rod, sizer)
        case "groove":
            return _groove(item, sizer)
        case _:
            return _die(item, sizer)


def _turn(item: Item, rod: Size, sizer: Sizer) -> Segment | None:
    diameter = item.number("turn")
    as_stock = abs(diameter - rod.nominal) < SAME
    if as_stock and "limits" in item:
        node, path = item.at("limits")
        sizer.faults.add(
            node,
            path,
            "no stock to turn: the diameter is that of the bar",
            f"no limits here (the bar's own hold: {rod.limits}), or a smaller diameter",
        )
        return None
    size = rod if as_stock else sizer.size(item, "turn", "limits", Use.SHAFT)
    length = sizer.size(item, "length", "length_limits", Use.LENGTH)
    front, back = edge(item, "front", sizer), edge(item, "back", sizer)
    if size is None or length is None:
        return None
    return Segment(
        id=item.text("id"),
        kind=SegmentKind.TURN,
        diameter=size,
        length=length,
        front=front,
        back=back,
        as_stock=as_stock,
    )


def _groove(item: Item, sizer: Sizer) -> Segment | None:
    size = sizer.size(item, "groove", "limits", Use.SHAFT)
    width = sizer.size(item, "width", "width_limits", Use.LENGTH)
    if size is None or width is None:
        return None
    return Segment(id=item.text("id"), kind=SegmentKind.GROOVE, diameter=size, length=width)


def _die(item: Item, sizer: Sizer) -> Segment | None:
    found = thread_spec(item, "die", external=True, sizer=sizer)
    length = sizer.size(item, "length", "length_limits", Use.LENGTH)
    front, back = edge(item, "front", sizer), edge(item, "back", sizer)
    if found is None or length is None:
        return None
    spec, size = found
    return Segment(
        id=item.text("id"),
        kind=SegmentKind.THREAD,
        diameter=size,
        length=length,
        front=front,
        back=back,
        thread=spec,
    )


def edge(item: Item, name: str, sizer: Sizer) -> Edge | None:
    """Form of the edge that a feature asks for at one end."""
    inner = item.item(name)
    if inner is None:
        return None
    size = sizer.size(inner, inner.lead, "limits", Use.EDGE)
    return None if size is None else Edge(kind=EdgeKind(inner.lead), size=size)


def thread_spec(item: Item, name: str, *, external: bool, sizer: Sizer) -> tuple[ThreadSpec, Size] | None:
    """The thread with its class, and the limits of its major (external) or minor (internal) diameter."""
    thread = item.thread(name)
    known = threads.classes(thread, external)
    chosen = item.text("class") or threads.default_class(thread, external)
    if chosen not in known:
        node, path = item.at("class")
        side = "a screw" if external else "a nut"
        sizer.faults.add(node, path, f"no class of {side} for {thread.name}", " or ".join(known))
        return None
    spec = ThreadSpec(
        thread=thread,
        tolerance_class=chosen,
        left=item.text("hand", "right") == "left",
        method=METHODS[item.text("method")],
        starts=int(item.text("starts", "1")),
    )
    if spec.starts > 1 and spec.method is Method.HAND:
        node, path = item.at("starts")
        sizer.faults.add(node, path, "more starts than a tap or die cuts", "1, or method: single point")
        return None
    size = _thread_size(thread, chosen, external)
    if size is None:
        node, path = item.at(name)
        sizer.faults.add(node, path, f"{thread.name} has no limits in its standard", "a thread that has")
        return None
    return spec, size


def _thread_size(thread: Thread, tolerance_class: str, external: bool) -> Size | None:
    found = threads.limits(thread, tolerance_class)
    low, high = (found.major_min, found.major_max) if external else (found.minor_min, found.minor_max)
    if low is None or high is None:
        return None
    return Size(
        nominal=thread.major if external else low,
        low=low,
        high=high,
        limits=tolerance_class,
        source=found.source,
    )


def main_size(item: Item) -> float:
    """Diameter that a feature takes from the bar or the hole, mm; of a thread its basic major diameter."""
    if item.lead in ("die", "tap"):
        return item.thread(item.lead).major
    return item.number(item.lead)


def shown(value: float, sizer: Sizer) -> str:
    """A length as the recipe's system writes it."""
    return show.length(value, sizer.system)
