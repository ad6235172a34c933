"""Machines as the maker has them: speeds that exist, dials that are there, room that is left.

Units    mm, rev/min, W.
"""

from enum import StrEnum

from msgspec import Struct

from jobsheets.cutting.banjo import Banjo


class Reads(StrEnum):
    """What one division of a dial stands for."""

    RADIUS = "radius"  # cross slide: the tool moves by the reading, the diameter changes by twice
    DIAMETER = "diameter"  # cross slide: the diameter changes by the reading
    TRAVEL = "travel"  # a lengthwise slide, a quill, a table


class Dial(Struct, frozen=True, kw_only=True):
    """One handwheel with its graduated collar."""

    axis: str  # "cross slide", "carriage", "top slide", "quill", "table x", "table y"
    per_turn: float  # true travel of one turn, mm
    divisions: float  # whole, or a half more: 1/16 in a turn has 62.5 of 0.001 in
    label: str  # what the collar says of one division: "0.001 in", "0.02 mm"
    reads: Reads
    backlash: float  # mm of travel
    travel: float  # usable travel, mm
    readout: float | None = None  # resolution of a scale readout on this axis, mm of travel; None without
    pace: float = 0.8  # quickest turn, in seconds, that a hand keeps up evenly (common practice)

    @property
    def division(self) -> float:
        """True travel of one division, mm."""
        return self.per_turn / self.divisions

    @property
    def step(self) -> float:
        """Finest travel that can be set: the readout's where there is one, else one division."""
        return self.readout if self.readout is not None else self.division


class SpeedStep(Struct, frozen=True, kw_only=True):
    rpm: float
    position: str  # "belt A2", "lever L, 3"


class SpeedRange(Struct, frozen=True, kw_only=True):
    """A stepless drive: any speed from least to most in one lever or belt position, set to `step`."""

    least: float
    most: float
    step: float  # what the display or the scale of the knob resolves, rev/min
    position: str


class Chuck(Struct, frozen=True, kw_only=True):
    name: str
    kind: str  # "three-jaw", "four-jaw"
    least: float  # smallest bar it grips, mm
    most: float
    jaw_depth: float  # length of jaw that grips, mm
    body_diameter: float
    max_rpm: float
    runout: float  # total indicator reading of a regripped bar, mm
    soft_jaws: bool = False


class ColletSet(Struct, frozen=True, kw_only=True):
    name: str
    sizes: tuple[float, ...]  # nominal bores, mm
    squeeze: float  # how far below its bore a collet still grips, mm
    grip: float  # length that grips, mm
    max_rpm: float
    runout: float


class Quill(Struct, frozen=True, kw_only=True):
    """Tailstock quill."""

    dial: Dial
    usable_from: float  # reading below which the taper is pushed out, mm
    taper: str


class ChartRow(Struct, frozen=True, kw_only=True):
    """One row of the gear chart that is printed on the machine or in its book."""

    cuts: str  # as printed: "20 tpi", "0.8 mm"
    lead: float  # mm
    gears: tuple[int, ...]  # driver, driven; or driver, driven, driver, driven


class LeadScrew(Struct, frozen=True, kw_only=True):
    """The screw that cuts threads, with what turns it: counted on the machine, not read off its chart."""

    pitch: float  # mm
    dial_teeth: int | None = (
        None  # of the gear of the threading dial that meshes with the screw; None: no dial
    )
    dial_marks: int | None = None  # numbered marks of the threading dial
    gears: tuple[int, ...] = ()  # teeth of each change gear owned; a gear owned twice stands twice
    stud: float = 1.0  # turns of the stud that carries the first change gear, for one turn of the spindle
    banjo: Banjo | None = None  # None: not measured, so a train must be tried for room
    chart: tuple[ChartRow, ...] = ()  # to be audited, never to be trusted


class Lathe(Struct, frozen=True, kw_only=True):
    name: str
    speeds: tuple[SpeedStep, ...]  # slowest first; empty with a stepless drive
    ranges: tuple[SpeedRange, ...]
    power: float  # motor, W
    efficiency: float
    spindle_bore: float
    swing_over_slide: float  # largest diameter over the cross slide
    room: float  # chuck face to tailstock quill, quill in, tailstock at the end of the bed, mm
    chucks: tuple[Chuck, ...]
    collets: ColletSet | None
    cross: Dial
    carriage: Dial
    top_slide: Dial | None
    quill: Quill
    power_feeds: tuple[float, ...]  # mm/rev; empty: hand feed only
    rigidity: float  # 0 to 1: share of a textbook depth of cut that this lathe takes quietly
    leadscrew: LeadScrew | None = None


class Vice(Struct, frozen=True, kw_only=True):
    name: str
    opening: float
    jaw_width: float
    jaw_height: float
    v_groove: bool  # holds a round bar lengthwise without a V-block


class Mill(Struct, frozen=True, kw_only=True):
    """A small mill, or a drill press with a compound table; no `table_x` and `table_y` on a plain press."""

    name: str
    speeds: tuple[SpeedStep, ...]
    ranges: tuple[SpeedRange, ...]
    power: float
    efficiency: float
    table_x: Dial | None
    table_y: Dial | None
    quill: Dial
    room: float  # spindle nose to table, mm
    vice: Vice | None
    rigidity: float
