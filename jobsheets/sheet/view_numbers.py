"""Numbers as a collar, a caliper or a micrometer shows them, in the one unit system of the sheet.

`planner` values come in mm and already lie on what the shop can set; here they only become text.
"""

import re
from math import ceil, floor

from msgspec import Struct

from jobsheets.finding import told
from jobsheets.part.size import Size
from jobsheets.shop import dials
from jobsheets.shop.dials import Reading
from jobsheets.shop.machines import Dial, Reads

INCH = 25.4
COARSE = {"in": 3, "mm": 2}  # places that a caliper shows
PRINTED = re.compile(
    r"(?<![\w.])(?P<low>[0-9]+(?:\.[0-9]+)?)(?: to (?P<high>[0-9]+(?:\.[0-9]+)?))? mm(?![\w/])"
)
SEEN = 0.02  # a value this share of the last place off a coarse line is shown with one place more


class Numbers(Struct, frozen=True, kw_only=True):
    """Writes lengths in inches or in millimetres."""

    system: str  # "in" or "mm"

    def value(self, mm: float) -> float:
        return mm / INCH if self.system == "in" else mm

    def length(self, mm: float, places: int | None = None) -> str:
        """A length without its unit; one place more than a caliper shows only where the value needs it."""
        value = self.value(mm)
        if places is None:
            places = COARSE[self.system]
            off = value * 10**places
            if abs(off - round(off)) > SEEN:
                places += 1
        text = f"{value:.{places}f}"
        return text.lstrip("-") if float(text) == 0.0 else text

    def plain(self, mm: float) -> str:
        """A length without limits, set by rule or caliper: never more places than a caliper shows."""
        return self.length(mm, COARSE[self.system])

    def united(self, mm: float) -> str:
        return f"{self.length(mm)} {self.system}"

    def both(self, low: float, high: float) -> tuple[str, str]:
        """Two limits with equal places, each rounded to the inside."""
        places = COARSE[self.system]
        if not all(_on_place(self.value(v), places) for v in (low, high)):
            places += 1
        grain = 10.0**-places
        least = ceil(self.value(low) / grain - SEEN) * grain
        most = floor(self.value(high) / grain + SEEN) * grain
        return f"{least:.{places}f}", f"{most:.{places}f}"

    def limits(self, size: Size) -> tuple[str, str]:
        return self.both(size.low, size.high)

    def said(self, text: str) -> str:
        """Words of the planner, with the lengths that they left open."""
        return told(text, self.spoken)

    def spoken(self, mm: float) -> str:
        """A length in a sentence: as fine as a caliper shows, finer only where nothing else would be left."""
        places = COARSE[self.system]
        if 0.0 < abs(self.value(mm)) < 10.0 ** (1 - places):
            places += 1
        return f"{self.length(mm, places)} {self.system}"

    def quoted(self, text: str) -> str:
        """Words of a table, whose lengths are printed in mm."""
        if self.system == "mm":
            return text
        return PRINTED.sub(self._quoted, text)

    def _quoted(self, found: re.Match[str]) -> str:
        lengths = (float(n) for n in (found["low"], found["high"]) if n)
        return " to ".join(self.length(mm, 3) for mm in lengths) + " in"

    def per_rev(self, mm: float) -> str:
        """A feed: two figures are all that a hand can keep."""
        return f"{self.value(mm):.4f}".rstrip("0") if self.system == "in" else f"{self.value(mm):.2f}"

    def collar(self, dial: Dial, divisions: float) -> str:
        """What the collar shows after so many divisions; nothing where it is marked in the other system."""
        number, _, unit = dial.label.partition(" ")
        if unit != self.system:
            return ""
        each = float(number)
        places = len(number.partition(".")[2]) + (0 if divisions == int(divisions) else 1)
        return f"{each * divisions:.{places}f}"


def _on_place(value: float, places: int) -> bool:
    off = value * 10**places
    return bool(abs(off - round(off)) <= SEEN)


def half(value: float) -> str:
    """A count of divisions or turns, with its half where there is one."""
    whole = int(value)
    return f"{whole or ''}½" if value - whole >= 0.25 else f"{whole}"


def reads(dial: Dial) -> str:
    return {Reads.RADIUS: "radius", Reads.DIAMETER: "diameter", Reads.TRAVEL: "travel"}[dial.reads]


def overshoot(dial: Dial) -> str:
    """Half-turns to back off after going past, in turns."""
    turns = dials.overshoot(dial)
    return "1/2" if turns == 0.5 else f"{turns:g}".replace(".5", "½")


def pace(dial: Dial, feed: float, speed: float) -> str:
    """Seconds for one turn of the handwheel at a feed in mm/rev and a speed in rev/min."""
    seconds = 60.0 * dial.per_turn / (feed * speed)
    return f"{seconds:.0f}" if seconds >= 3.0 else f"{seconds:.1f}"


def turns_word(turns: int) -> str:
    return "turn" if turns == 1 else "turns"


def set_to(numbers: Numbers, dial: Dial, value: Reading) -> str:
    """A setting in a sentence, with its units: "2 turns + 6 div (collar 0.006)"; a zero is just 0."""
    turns, shown, collar = reading(numbers, dial, value)
    if value.value is not None:
        return f"{shown} {numbers.system}"
    if not turns and value.divisions == 0.0:
        return "0"
    counted = f"{turns} {turns_word(value.turns)} + " if turns else ""
    return f"{counted}{shown} div" + (f" (collar {collar})" if collar else "")


def reading(numbers: Numbers, dial: Dial, value: Reading) -> tuple[str, str, str]:
    """Turns, divisions and what the collar then shows; with a scale readout, its value alone."""
    if value.value is not None:
        shown = value.value * (2.0 if dial.reads is Reads.DIAMETER else 1.0)
        return "", numbers.length(shown), ""
    return (
        f"{value.turns}" if value.turns else "",
        half(value.divisions),
        numbers.collar(dial, value.divisions),
    )
