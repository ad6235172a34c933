"""Which published figure the planner starts from: the median of speeds, the low end of feeds, never higher.

A bench lathe is less stiff than the machines that the books were written at; the maker raises a figure that
has proven too tame, the program does not. A value that the maker has proven stands before the books', up to
their high end.
"""

from msgspec import Struct

from jobsheets.figure import Input, Spread
from jobsheets.shop.shop import HouseRules, Proven, Shop
from jobsheets.standards import cutting_data
from jobsheets.standards.cutting_constants import deep_hole
from jobsheets.standards.cutting_rows import NOT_FOUND, NoData, PublishedRange
from jobsheets.standards.materials import Material

HAND_FEED = 0.05  # mm/rev; a light hand feed, where no figure was found (common practice)
# Specific force where none was found: that of a middling steel, which asks more of the lathe than any of the
# materials of the trade without a figure (wood, horn, laminate), so that depths come out small.
CAREFUL = (2200.0, 0.2, "no published figure found; taken as a middling steel to stay on the careful side")
OWN = "own proven value"
# Operations whose speed is a share of roughing, and the house rule that sets it.
HOUSE_SHARES = {"part-off": "parting_speed", "thread single-point": "threading_speed"}
FILING = "turn rough"  # a file is run at the speed of a roughing cut


class SpeedChoice(Struct, frozen=True, kw_only=True):
    """Surface speed to start from, m/min; None where nothing was found."""

    speed: float | None
    inputs: tuple[Input, ...]
    source: str
    spread: Spread | None
    own: bool = False  # the maker's own proven value


class FeedChoice(Struct, frozen=True, kw_only=True):
    """Feed to start from, mm/rev."""

    feed: float
    inputs: tuple[Input, ...]
    source: str
    spread: Spread | None
    own: bool = False  # the maker's own proven value


def speed_choice(
    material: Material, shop: Shop, operation: str, tool: str, diameter: float, depth: float
) -> SpeedChoice:
    """The maker's proven speed, else the median of the published ones; lowered for deep holes.

    Args:
        material: of the work.
        shop: its proven values and house rules.
        operation: as the cutting tables name it, or "file".
        tool: "HSS" or "carbide".
        diameter: in the cut, mm.
        depth: of a drilled hole, mm; 0 for anything else.
    """
    name = FILING if operation == "file" else operation
    found = cutting_data.speed(material.cutting_id, name, tool)
    own = _own(shop.proven, material, name, tool)
    if own is not None and own.speed is not None:
        start = _proven(own.speed, "v", "m/min", found)
    elif isinstance(found, NoData):
        return SpeedChoice(speed=None, inputs=(), source=NOT_FOUND, spread=None)
    else:
        start = _median(found, shop.house)
    value, inputs, source = start
    cut_back = deep_hole(depth, diameter)
    if cut_back is not None:
        value *= cut_back.speed
        inputs = (*inputs, Input(name="deep hole, share of speed", value=cut_back.speed))
    return SpeedChoice(speed=value, inputs=inputs, source=source, spread=_spread(found), own=own is not None)


def feed_choice(material: Material, shop: Shop, operation: str, diameter: float, depth: float) -> FeedChoice:
    """The maker's proven feed, else the low end of the published ones; lowered for deep holes.

    Args:
        material: of the work.
        shop: its proven values.
        operation: as the cutting tables name it.
        diameter: of the work in turning, of the tool in drilling, mm.
        depth: of a drilled hole, mm; 0 for anything else.
    """
    found = cutting_data.feed(material.cutting_id, operation, diameter)
    own = next((p for p in shop.proven if _is(p, material, operation) and p.feed is not None), None)
    if own is not None and own.feed is not None:
        value, inputs, source = _proven(own.feed, "f", "mm/rev", found)
    elif isinstance(found, NoData):
        return FeedChoice(feed=HAND_FEED, inputs=(), source=NOT_FOUND, spread=None)
    else:
        value, source = found.low, _sources(found)
        inputs = (Input(name="f, lowest of the sources", value=found.low, unit="mm/rev"),)
    cut_back = deep_hole(depth, diameter)
    if cut_back is not None:
        value *= cut_back.feed
        inputs = (*inputs, Input(name="deep hole, share of feed", value=cut_back.feed))
    return FeedChoice(feed=value, inputs=inputs, source=source, spread=_spread(found), own=own is not None)


def _is(proven: Proven, material: Material, operation: str) -> bool:
    return proven.material == material.id and proven.operation == operation


def _own(proven: tuple[Proven, ...], material: Material, operation: str, tool: str) -> Proven | None:
    for one in proven:
        if one.speed is not None and one.tool == tool and _is(one, material, operation):
            return one
    return None


Start = tuple[float, tuple[Input, ...], str]


def _proven(value: float, symbol: str, unit: str, found: PublishedRange | NoData) -> Start:
    """The maker's own value, no higher than the highest that is published."""
    inputs = (Input(name=f"{symbol}, {OWN}", value=value, unit=unit),)
    if isinstance(found, NoData) or value <= found.high:
        return value, inputs, f"{OWN} (shop file)"
    held = Input(name=f"{symbol}, highest of the sources", value=found.high, unit=unit)
    return found.high, (*inputs, held), f"{OWN} (shop file), held to the highest of: {_sources(found)}"


def _median(found: PublishedRange, house: HouseRules) -> Start:
    inputs = [Input(name="v, median of the sources", value=found.median, unit="m/min")]
    value = found.median
    if found.basis:
        inputs.append(Input(name="rule", value=found.basis))
        share = HOUSE_SHARES.get(found.operation)
        if share is not None:  # the maker's share in place of the rule's
            value *= getattr(house, share) / float(found.basis.partition(" ")[0])
            inputs.append(Input(name=f"house rule {share}", value=getattr(house, share)))
    return value, tuple(inputs), _sources(found)


def specific(material: Material) -> tuple[float, float, str]:
    """Specific force of a 1 mm chip, its exponent, and where they come from: N/mm2."""
    found = cutting_data.specific_force(material.cutting_id)
    if isinstance(found, NoData):
        return CAREFUL
    return found.kc11, found.mc, found.source


def _sources(found: PublishedRange) -> str:
    return "; ".join(found.sources)


def _spread(found: PublishedRange | NoData) -> Spread | None:
    if isinstance(found, NoData):
        return None
    return Spread(
        low=found.low,
        median=found.median,
        high=found.high,
        unit=found.unit,
        count=found.count,
        sources=found.sources,
    )
