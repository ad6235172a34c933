"""Notation, in and out: here alone text becomes a number, a name or limits, and a length becomes text.

Every reader raises ValueError with "what is wrong; want what is right", and nothing else.
"""

from jobsheets.units.drill import Drill, DrillSeries, drill
from jobsheets.units.formatting import (
    UnitSystem,
    as_bought,
    down_to,
    drawing_text,
    fraction_text,
    length_text,
    round_to,
    size_text,
    up_to,
)
from jobsheets.units.length import degrees, millimetres, ratio
from jobsheets.units.text import nearest
from jobsheets.units.thread import ThreadName, ThreadSystem, thread
from jobsheets.units.tolerance import Tolerance, ToleranceKind, tolerance

__all__ = [
    "Drill",
    "DrillSeries",
    "ThreadName",
    "ThreadSystem",
    "Tolerance",
    "ToleranceKind",
    "UnitSystem",
    "as_bought",
    "degrees",
    "down_to",
    "drawing_text",
    "drill",
    "fraction_text",
    "length_text",
    "millimetres",
    "nearest",
    "ratio",
    "round_to",
    "size_text",
    "thread",
    "tolerance",
    "up_to",
]
