"""The sizes the plan really aims at: each part size moved to a line of the dial that makes it.

Shoulders are settled one after the other from the front, so that the rounding of one never pushes the next
length out of its limits.
"""

from msgspec import Struct
from msgspec.structs import replace

from jobsheets.part.size import Size
from jobsheets.part.turned import EdgeKind, HoleKind, Segment, SegmentKind, TurnedPart
from jobsheets.planner.setting import Setting, diameter, inside, up, with_a_line
from jobsheets.shop.machines import Dial, Lathe
from jobsheets.shop.shop import HouseRules

BORED = (HoleKind.BORE, HoleKind.COUNTERBORE)


class Unreachable(Struct, frozen=True, kw_only=True):
    """A size that no line of the dial makes."""

    feature: str
    what: str  # "diameter", "length" or "chamfer"
    size: Size
    dial: Dial


class Targets(Struct, frozen=True, kw_only=True):
    """Planned sizes, mm, part coordinates."""

    rod: float  # diameter the cross slide counts from
    z_dial: Dial
    part_dial: Dial  # sets the parting blade: the carriage, which saves counting many turns of the top slide
    shoulders: tuple[
        float, ...
    ]  # z of each segment's back, on a line of the dial counted from the front face
    diameters: dict[str, Setting]  # segment id -> setting from the rod
    parted: float  # z of the parted face
    blade: float  # width of the parting cut behind it
    faced: Setting  # travel from the parted face to the finished back
    unreachable: tuple[Unreachable, ...]

    def diameter(self, segment: str) -> float:
        return self.rod - 2.0 * self.diameters[segment].travel

    def span(self, part: TurnedPart, segment: str) -> tuple[float, float]:
        """Planned z of the front and back of a segment, mm."""
        index = part.index(segment)
        return (self.shoulders[index - 1] if index else 0.0), self.shoulders[index]

    @property
    def length(self) -> float:
        return self.shoulders[-1]


def lengthwise_dial(part: TurnedPart, lathe: Lathe, house: HouseRules, blade: float) -> Dial:
    """The axis that sets lengths: the carriage where its lines are fine enough, else the top slide.

    Fine enough is two lines within the narrowest length limits; a readout is always preferred.
    """
    narrowest = min(s.length.width for s in part.segments)
    if (
        lathe.top_slide is None
        or lathe.carriage.readout is not None
        or lathe.carriage.step * 2.0 <= narrowest
    ):
        return lathe.carriage
    cut = {s.id for s in part.segments if not s.as_stock} | {k.segment for k in part.knurls}
    last = part.segments[-1]
    if last.id in cut:  # turned past the place of the blade
        longest = part.length + house.part_off_allowance + blade + lathe.carriage.step + lathe.top_slide.step
    else:
        longest = part.length - last.length.nominal
    bored = [part.length if h.depth is None else h.depth.high for h in part.holes if h.kind in BORED]
    if bored:  # a through hole is bored past the blade too
        over = house.part_off_allowance + blade + lathe.carriage.step + 1.0
        longest = max(longest, *(b + over if b >= part.length else b for b in bored))
    return lathe.top_slide if lathe.top_slide.travel >= longest else lathe.carriage


def settle(
    part: TurnedPart,
    lathe: Lathe,
    house: HouseRules,
    blanks: dict[str, Size],
    blade: float,
    first: frozenset[str],
) -> Targets:
    """Targets of every outside size.

    Args:
        part: the part.
        lathe: its dials.
        house: allowance on the parted face.
        blade: width of the parting blade, mm; its place is on a line, so the parted face need not be.
        first: segments cut with the front out; the others are counted from the finished back.
        blanks: size to turn instead of the finished one, for segments that are threaded by die.
    """
    dial = lengthwise_dial(part, lathe, house, blade)
    missed: list[Unreachable] = []
    diameters: dict[str, Setting] = {}
    for segment in part.segments:
        size = blanks.get(segment.id) or _shared(part, segment)
        setting = (
            Setting(travel=0.0, steps=0.0)
            if segment.as_stock
            else diameter(lathe.cross, part.rod.nominal, size)
        )
        if setting is None:
            missed.append(Unreachable(feature=segment.id, what="diameter", size=size, dial=lathe.cross))
            setting = Setting(travel=(part.rod.nominal - size.aim) / 2.0, steps=0.0)
        diameters[segment.id] = setting
    _edges(part, lathe, dial, missed)
    shoulders = _shoulders(part, dial, missed)
    nominal_back = shoulders[-1]
    parted = up(lathe.carriage, nominal_back + house.part_off_allowance + blade) - blade
    faced, back = _faced(part, dial, shoulders, parted, missed)
    shoulders = _from_back(part, dial, [*shoulders[:-1], back], first, missed)
    return Targets(
        rod=part.rod.nominal,
        z_dial=dial,
        part_dial=lathe.carriage,
        shoulders=tuple(shoulders),
        diameters=diameters,
        parted=parted,
        blade=blade,
        faced=faced,
        unreachable=tuple(missed),
    )


def _shared(part: TurnedPart, segment: Segment) -> Size:
    """Limits that a segment shares with others of its nominal size, since a cut on one passes over them."""
    low, high = segment.diameter.low, segment.diameter.high
    for other in part.segments:
        alike = other.kind is SegmentKind.TURN and other.diameter.nominal == segment.diameter.nominal
        if alike and not other.as_stock:
            low, high = max(low, other.diameter.low), min(high, other.diameter.high)
    if segment.kind is not SegmentKind.TURN or low > high:
        return segment.diameter
    return replace(segment.diameter, low=low, high=high)


def edge_dials(lathe: Lathe, lengthwise: Dial) -> tuple[Dial | None, ...]:
    """Slides that can advance a 45 degree edge by the leg of a chamfer, the handiest first."""
    return (lengthwise, lathe.top_slide, lathe.cross)


def _edges(part: TurnedPart, lathe: Lathe, dial: Dial, missed: list[Unreachable]) -> None:
    for segment in part.segments:
        for edge in (segment.front, segment.back):
            if edge is None or edge.kind is not EdgeKind.CHAMFER:
                continue
            if with_a_line(edge_dials(lathe, dial), edge.size) is None:
                missed.append(
                    Unreachable(feature=segment.id, what="chamfer", size=edge.size, dial=lathe.cross)
                )


def _shoulders(part: TurnedPart, dial: Dial, missed: list[Unreachable]) -> list[float]:
    at, wish, result = 0.0, 0.0, []
    for segment in part.segments:
        wish += segment.length.aim
        aim = min(max(wish, at + segment.length.low), at + segment.length.high)
        setting = inside(at + segment.length.low, at + segment.length.high, aim, dial.step)
        if setting is None:
            missed.append(Unreachable(feature=segment.id, what="length", size=segment.length, dial=dial))
        at = setting.travel if setting is not None else aim
        result.append(at)
    return result


def _from_back(
    part: TurnedPart, dial: Dial, at: list[float], first: frozenset[str], missed: list[Unreachable]
) -> list[float]:
    """Shoulders that are cut with the back out, moved to lines of the dial counted from the finished back."""
    result, back = list(at), at[-1]
    for i in range(len(part.segments) - 1, 0, -1):
        segment, beyond = part.segments[i], part.segments[i - 1]
        if segment.id in first or segment.as_stock or part.plunged(beyond):
            continue
        gone = back - result[i]
        low, high = gone + segment.length.low, gone + segment.length.high
        if beyond.id in first or beyond.as_stock:  # its own front stands already
            front = result[i - 2] if i > 1 else 0.0
            low, high = (
                max(low, back - front - beyond.length.high),
                min(high, back - front - beyond.length.low),
            )
        wish = min(max(back - result[i - 1], low), high)
        setting = inside(low, high, wish, dial.step) if low <= high else None
        if setting is None:
            missed.append(Unreachable(feature=segment.id, what="length", size=segment.length, dial=dial))
        result[i - 1] = back - (setting.travel if setting is not None else wish)
    return result


def _faced(
    part: TurnedPart, dial: Dial, shoulders: list[float], parted: float, missed: list[Unreachable]
) -> tuple[Setting, float]:
    """Facing of the parted end, counted from that end; it settles the last length."""
    last = part.segments[-1]
    before = shoulders[-2] if len(shoulders) > 1 else 0.0
    low, high = before + last.length.low, before + last.length.high
    if part.overall is not None:
        low, high = max(low, part.overall.low), min(high, part.overall.high)
    aim = min(max(shoulders[-1], low), high)
    setting = inside(parted - high, parted - low, parted - aim, dial.step) if low <= high else None
    if setting is None:
        size = replace(last.length, low=min(low, high), high=max(low, high))
        missed.append(Unreachable(feature=last.id, what="length", size=size, dial=dial))
        setting = Setting(travel=parted - aim, steps=0.0)
    return setting, parted - setting.travel


def turned(part: TurnedPart) -> tuple[Segment, ...]:
    """Segments that are cut from the bar by turning, not by a grooving tool."""
    return tuple(s for s in part.segments if s.kind is not SegmentKind.GROOVE and not s.as_stock)
