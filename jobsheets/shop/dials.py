"""From a travel to what a hand sets on a collar, and back.

Units    mm of true travel; turns and divisions of the handwheel.
Source   plain arithmetic on the measured travel of a turn; backing off by half-turns is common practice.
"""

from math import floor

from msgspec import Struct

from jobsheets.shop.machines import Dial, Reads

LINE = 1e-4  # of a division: closer to a line than this is on it


class Reading(Struct, frozen=True, kw_only=True):
    """What is set: whole turns, then divisions of the collar; on an axis with a scale readout, its value."""

    turns: int
    divisions: float  # on a line, or midway between two
    value: float | None = None  # mm of travel on the readout, None without one


def reading(dial: Dial, travel: float) -> Reading:
    """The setting nearest to a travel from zero.

    A travel midway between two lines stays there, because a hand can set it; any other goes to the nearest
    line. With a readout, `value` is the travel on it, and turns with divisions are the nearest line.

    Args:
        dial: handwheel and collar.
        travel: true travel from the zero of the collar, mm, 0 or more.

    Raises:
        ValueError: a travel below zero; set the zero at the other end, so that the numbers climb.
    """
    if not travel >= -LINE * dial.division:
        raise ValueError(f"travel {travel:.3f} mm below zero: set zero where the numbers climb from")
    travel = max(travel, 0.0)
    turns = floor(travel / dial.per_turn + LINE / dial.divisions)
    rest = max((travel - turns * dial.per_turn) / dial.division, 0.0)
    divisions = _line(rest)
    to_zero = (
        dial.divisions - rest
    )  # the next turn's zero may lie nearer where the last division is cut short
    if divisions + LINE >= dial.divisions or to_zero < abs(rest - divisions):
        turns, divisions = turns + 1, 0.0
    value = None if dial.readout is None else round(travel / dial.readout) * dial.readout
    return Reading(turns=turns, divisions=divisions, value=value)


def _line(divisions: float) -> float:
    half = round(2.0 * divisions)
    if half % 2 == 1 and abs(2.0 * divisions - half) < 2.0 * LINE:
        return half / 2.0
    return float(floor(divisions + 0.5))


def travel(dial: Dial, at: Reading) -> float:
    """True travel of a setting, mm; the readout's where there is one."""
    if at.value is not None:
        return at.value
    return at.turns * dial.per_turn + at.divisions * dial.division


def for_diameter_change(dial: Dial, change: float) -> Reading:
    """The setting of a cross slide that changes the diameter by `change`, mm.

    The slide moves half of it, whatever the collar says of a division: `per_turn` is true travel.

    Raises:
        ValueError: not the dial of a cross slide, or `change` below zero.
    """
    if dial.reads is Reads.TRAVEL:
        raise ValueError(
            f"the {dial.axis} does not set a diameter: want a dial that reads radius or diameter"
        )
    return reading(dial, change / 2.0)


def text(dial: Dial, at: Reading) -> str:
    """The setting in words: `4 turns + 50 div`, or the readout's value in mm."""
    if at.value is not None:
        shown = at.value * (2.0 if dial.reads is Reads.DIAMETER else 1.0)
        return f"{shown:.3f} mm"
    turns = f"{at.turns} turn{'' if at.turns == 1 else 's'}" if at.turns else ""
    divisions = f"{at.divisions:g} div" if at.divisions or not turns else ""
    return " + ".join(filter(None, (turns, divisions)))


def overshoot(dial: Dial) -> float:
    """Turns to go past and come back after a reversal: the least number of half-turns beyond the backlash."""
    return (floor(2.0 * dial.backlash / dial.per_turn + 1e-9) + 1) / 2.0
