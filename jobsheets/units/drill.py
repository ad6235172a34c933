"""What a drill is called. Diameters of number and letter drills are a matter of standards."""

import re
from enum import StrEnum

from jobsheets.units.formatting import UnitSystem, drawing_text, fraction_text
from jobsheets.units.length import millimetres
from jobsheets.units.text import tidy
from jobsheets.value import Frozen

WANTED = "a drill such as #29, F, 9/64 in or 3.4 mm"
MOST_MM = 100.0  # no twist drill for these machines is larger
HAIR = 1e-9  # mm
MOST_NUMBER = 97  # the smallest number drill of ANSI B94.11M

_NUMBER = r"(?i:#|no\.?) ?(?P<number>[0-9]{1,3})"
_LETTER = r"[A-Za-z]"


class DrillSeries(StrEnum):
    NUMBER = "number"
    LETTER = "letter"
    FRACTION = "fraction"
    METRIC = "metric"


_FORM = {
    DrillSeries.NUMBER: "#{}",
    DrillSeries.LETTER: "{}",
    DrillSeries.FRACTION: "{} in",
    DrillSeries.METRIC: "{} mm",
}


class Drill(Frozen):
    """A drill by name. `drill` makes it; str() gives the name back."""

    series: DrillSeries
    label: str  # "29", "F", "9/64", "3.4"

    def __str__(self) -> str:
        return _FORM[self.series].format(self.label)

    @property
    def mm(self) -> float | None:
        """Diameter, mm, where the name itself gives it; None for number and letter drills."""
        named = self.series in (DrillSeries.NUMBER, DrillSeries.LETTER)
        return None if named else millimetres(str(self))


def drill(text: str) -> Drill:
    """The drill that a text names.

    Args:
        text: `#29`, `No. 29`, `F`, `9/64 in`, `3.4 mm`.

    Raises:
        ValueError: not the name of a drill, or none that can exist.
    """
    plain = tidy(text)
    if m := re.fullmatch(_NUMBER, plain):
        if not 1 <= int(m["number"]) <= MOST_NUMBER:
            raise ValueError(f"no such number drill; want #1 to #{MOST_NUMBER}")
        return Drill(series=DrillSeries.NUMBER, label=str(int(m["number"])))
    if re.fullmatch(_LETTER, plain):
        return Drill(series=DrillSeries.LETTER, label=plain.upper())
    try:
        mm = millimetres(plain)
    except ValueError as exc:
        raise ValueError(f"not the name of a drill; want {WANTED}") from exc
    if not 0.0 < mm <= MOST_MM:
        raise ValueError(f"no size of a drill; want more than 0, at most {MOST_MM:.0f} mm")
    return _by_size(plain, mm)


def _by_size(plain: str, mm: float) -> Drill:
    if plain.lower().endswith("mm"):
        label = drawing_text(mm, UnitSystem.MM)
        if abs(float(label) - mm) > HAIR:
            raise ValueError("a drill size of more than three places; want such as 3.4 mm")
        return Drill(series=DrillSeries.METRIC, label=label)
    fraction = fraction_text(mm)
    if fraction is None:
        raise ValueError(f"a size that is no 64th of an inch; want {WANTED}")
    return Drill(series=DrillSeries.FRACTION, label=fraction.removesuffix(" in"))
