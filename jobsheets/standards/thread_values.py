"""What a thread is and what its limits are: the values that every thread module passes on.

Units    mm and degrees; threads per inch only where the standard counts them.
Sources  carried by each value.
"""

from jobsheets.value import Frozen


class Thread(Frozen):
    """A standard thread by its basic sizes; single start, parallel."""

    name: str  # as written on a drawing: "8-32 UNC", "M5x0.8", "2 BA", "1/4-20 BSW", "1/4-40 ME"
    system: str  # "UN", "M", "BA", "BSW", "BSF", "ME"
    series: str  # "UNC", "UNF", "UNEF", "UN", "UNS"; "coarse", "fine", "extra fine"; else as system
    size: str  # "8", "1/4", "M5", "2"
    major: float  # basic major diameter, mm
    pitch: float  # mm
    angle: float  # included, degrees: 60, 55 or 47.5
    tpi: float | None  # None where the standard gives the pitch
    source: str
    seen: str  # "page" or "memory"


class ThreadLimits(Frozen):
    """Limits of size of one class, mm; None where no standard sets one."""

    thread: str
    tolerance_class: str
    external: bool
    allowance: float  # between basic size and the largest screw or the smallest nut
    major_max: float | None  # None in a nut: its groove may be as deep as the tap makes it
    major_min: float
    pitch_max: float
    pitch_min: float
    minor_max: float  # external: of a flat root
    minor_min: float | None  # external: of a rounded root; None for Unified screws
    minor_round_max: float | None = None  # external UNR: reference maximum of a rounded root
    basis: str  # "table" or "formula"
    source: str
