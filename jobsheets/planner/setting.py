"""From a size to a setting that the dial really has, inside the limits.

A setting is a whole number of the finest steps of an axis, or a half between two lines of the collar
when the limits leave no line; never a number that a hand cannot set.
"""

from math import ceil, floor

from msgspec import Struct

from jobsheets.part.size import ROOM, Size
from jobsheets.shop.dials import Reading, reading
from jobsheets.shop.machines import Dial


class Setting(Struct, frozen=True, kw_only=True):
    """Travel of an axis on one of its lines."""

    travel: float  # mm from the zero of the row
    steps: float  # of the axis's finest step; a half is between two lines
    between_lines: bool = False


def inside(low: float, high: float, aim: float, step: float) -> Setting | None:
    """Setting within [low, high], nearest to `aim`; the shorter travel wins a tie: a cut cannot be undone.

    Args:
        low: least travel, mm.
        high: most travel, mm.
        aim: travel to come near to, mm.
        step: finest step of the axis, mm.

    Returns:
        The setting, between two lines if no line lies inside, or None if no half step does either.
    """
    for part, between in ((1.0, False), (0.5, True)):
        grain = step * part
        least, most = ceil(low / grain - ROOM / grain), floor(high / grain + ROOM / grain)
        if least <= most:
            wish = aim / grain
            lower = floor(wish + 1e-9)
            best = lower if wish - lower <= 0.5 + 1e-9 else lower + 1
            n = min(max(best, least), most)
            return Setting(travel=n * grain, steps=n * part, between_lines=between and n % 2 == 1)
    return None


def diameter(dial: Dial, reference: float, size: Size) -> Setting | None:
    """Travel of the cross slide from `reference` diameter down to a size, mm on the radius."""
    return inside(
        (reference - size.high) / 2.0, (reference - size.low) / 2.0, (reference - size.aim) / 2.0, dial.step
    )


def bore(dial: Dial, reference: float, size: Size) -> Setting | None:
    """Travel of the cross slide outward from the wall of a `reference` bore to a size, mm on the radius."""
    return inside(
        (size.low - reference) / 2.0, (size.high - reference) / 2.0, (size.aim - reference) / 2.0, dial.step
    )


def with_a_line(dials: tuple[Dial | None, ...], size: Size) -> Dial | None:
    """First of the dials that has a setting inside the limits of a size."""
    for dial in dials:
        if dial is not None and inside(size.low, size.high, size.aim, dial.step) is not None:
            return dial
    return None


def down(dial: Dial, travel: float) -> float:
    """The largest travel on a line that is not above `travel`, mm."""
    return floor(travel / dial.step + 1e-9) * dial.step


def up(dial: Dial, travel: float) -> float:
    """The smallest travel on a line that is not below `travel`, mm."""
    return ceil(travel / dial.step - 1e-9) * dial.step


def near(dial: Dial, travel: float) -> float:
    """The travel on a line nearest to `travel`, mm; where a turn ends between two lines, each begins anew."""
    if dial.readout is None and dial.divisions % 1.0:
        turns = floor(travel / dial.per_turn + 1e-9)
        begin = turns * dial.per_turn
        line = begin + floor((travel - begin) / dial.division + 0.5 + 1e-9) * dial.division
        return min(line, begin + dial.per_turn, key=lambda at: abs(at - travel))
    return floor(travel / dial.step + 0.5 + 1e-9) * dial.step


def set_to(dial: Dial, travel: float) -> Reading:
    """What the hand sets for a travel that lies on a line, or between two."""
    return reading(dial, travel)
