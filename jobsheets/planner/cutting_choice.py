"""Which published figure the planner starts from: the median of speeds, the low end of feeds, never higher.

A bench lathe is less stiff than the machines that the books were written at; the maker raises a figure that
has proven too tame, the program does not.
"""

from msgspec import Struct

from jobsheets.figure import Input, Spread
from jobsheets.standards import cutting_data
from jobsheets.standards.cutting_constants import deep_hole
from jobsheets.standards.cutting_rows import NOT_FOUND, NoData, PublishedRange
from jobsheets.standards.materials import Material

HAND_FEED = 0.05  # mm/rev; a light hand feed, where no figure was found (common practice)
# Specific force where none was found: that of a middling steel, which asks more of the lathe than any of the
# materials of the trade without a figure (wood, horn, laminate), so that depths come out small.
CAREFUL = (2200.0, 0.2, "no published figure found; taken as a middling steel to stay on the careful side")
FILING = "turn rough"  # a file is run at the speed of a roughing cut


class SpeedChoice(Struct, frozen=True, kw_only=True):
    """Surface speed to start from, m/min; None where nothing was found."""

    speed: float | None
    inputs: tuple[Input, ...]
    source: str
    spread: Spread | None


class FeedChoice(Struct, frozen=True, kw_only=True):
    """Feed to start from, mm/rev."""

    feed: float
    inputs: tuple[Input, ...]
    source: str
    spread: Spread | None


def speed_choice(material: Material, operation: str, tool: str, diameter: float, depth: float) -> SpeedChoice:
    """Median of the published speeds, lowered for deep holes.

    Args:
        material: of the work.
        operation: as the cutting tables name it, or "file".
        tool: "HSS" or "carbide".
        diameter: in the cut, mm.
        depth: of a drilled hole, mm; 0 for anything else.
    """
    found = cutting_data.speed(material.cutting_id, FILING if operation == "file" else operation, tool)
    if isinstance(found, NoData):
        return SpeedChoice(speed=None, inputs=(), source=NOT_FOUND, spread=None)
    inputs = [Input(name="v, median of the sources", value=found.median, unit="m/min")]
    if found.basis:
        inputs.append(Input(name="rule", value=found.basis))
    value = found.median
    cut_back = deep_hole(depth, diameter)
    if cut_back is not None:
        value *= cut_back.speed
        inputs.append(Input(name="deep hole, share of speed", value=cut_back.speed))
    return SpeedChoice(speed=value, inputs=tuple(inputs), source=_sources(found), spread=_spread(found))


def feed_choice(material: Material, operation: str, diameter: float, depth: float) -> FeedChoice:
    """Low end of the published feeds, lowered for deep holes.

    Args:
        material: of the work.
        operation: as the cutting tables name it.
        diameter: of the work in turning, of the tool in drilling, mm.
        depth: of a drilled hole, mm; 0 for anything else.
    """
    found = cutting_data.feed(material.cutting_id, operation, diameter)
    if isinstance(found, NoData):
        return FeedChoice(feed=HAND_FEED, inputs=(), source=NOT_FOUND, spread=None)
    value = found.low
    inputs = [Input(name="f, lowest of the sources", value=found.low, unit="mm/rev")]
    cut_back = deep_hole(depth, diameter)
    if cut_back is not None:
        value *= cut_back.feed
        inputs.append(Input(name="deep hole, share of feed", value=cut_back.feed))
    return FeedChoice(feed=value, inputs=tuple(inputs), source=_sources(found), spread=_spread(found))


def specific(material: Material) -> tuple[float, float, str]:
    """Specific force of a 1 mm chip, its exponent, and where they come from: N/mm2."""
    found = cutting_data.specific_force(material.cutting_id)
    if isinstance(found, NoData):
        return CAREFUL
    return found.kc11, found.mc, found.source


def _sources(found: PublishedRange) -> str:
    return "; ".join(found.sources)


def _spread(found: PublishedRange) -> Spread:
    return Spread(
        low=found.low,
        median=found.median,
        high=found.high,
        unit=found.unit,
        count=found.count,
        sources=found.sources,
    )
