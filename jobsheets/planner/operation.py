"""What a plan is made of: setups, operations, rows of dial readings, hold points.

Lengths in mm, speeds in rev/min, feeds in mm/rev, times in minutes. `Reading` is what a hand sets on a dial.
"""

from enum import StrEnum

from msgspec import Struct

from jobsheets.figure import Figure
from jobsheets.finding import Finding
from jobsheets.part.turned import End, TurnedPart
from jobsheets.part.work import Work
from jobsheets.shop.dials import Reading
from jobsheets.shop.shop import Shop


class Place(StrEnum):
    LATHE = "lathe"
    MILL = "mill"
    BENCH = "bench"


class Motion(StrEnum):
    """How an operation changes the work; the replay knows one function for each."""

    FACE = "face"
    TURN = "turn"
    GROOVE = "groove"
    PART_OFF = "part off"
    CHAMFER = "chamfer"
    ROUND = "round"  # an outer radius, filed to a radius gauge
    DOME = "dome"
    SPOT = "spot"
    DRILL = "drill"
    BORE = "bore"
    REAM = "ream"
    COUNTERBORE = "counterbore"
    MOUTH = "mouth"  # chamfer at the mouth of a hole
    TAP = "tap"
    DIE = "die"
    SCRATCH = "scratch pass"  # gears set up, and a trace of the thread tried with a pitch gauge
    SCREWCUT = "screwcut"  # a thread cut with a single point
    KNURL = "knurl"
    CROSS_DRILL = "cross drill"
    CHASE = "chase"  # tap or nut run through a finished thread again
    DEBURR = "deburr"


class RowKind(StrEnum):
    TOUCH = "touch"  # edge against the work, collar set
    ROUGH = "rough"
    MEASURE = "measure"  # the cut before the last: measured, then the same again
    FINISH = "finish"
    PLUNGE = "plunge"
    STEP = "step"
    PECK = "peck"
    DEPTH = "depth"
    TURNS = "turns"
    INFEED = "infeed"  # one pass of a screwcut thread
    SPRING = "spring"  # a pass at the full depth again


class Need(Struct, frozen=True, kw_only=True):
    """A fact that must be true before an operation, with the reason a maker would give."""

    fact: str
    because: str


class Cutter(Struct, frozen=True, kw_only=True):
    """The tool of an operation, with the sizes that the replay and the collision check need."""

    name: str  # as it stands in the drawer
    group: str  # "turning tool", "twist drill", "tap": heads the kit list
    diameter: float = 0.0  # rotating tools
    width: float = 0.0  # parting and grooving: width of cut
    nose: float = 0.0
    flat: float = 0.0  # threading: on the nose, in place of a radius
    side: float = 0.0  # threading: from the point to the side that meets a shoulder
    point: float = 0.0  # included angle of a drill point or countersink, degrees
    reach: float = 0.0  # how deep it can go into the work
    lead: float = 0.0  # length of incomplete thread of a tap or die, mm
    material: str = "HSS"
    consequence: str = ""  # what changes because this is not the tool one would wish for
    owned: bool = True  # False: bought or borrowed first; the sizes are those of the tool to get


class Row(Struct, frozen=True, kw_only=True):
    """One line of an operation: what to set and what to expect."""

    kind: RowKind
    x: Reading | None = None  # cross slide
    z: Reading | None = None  # lengthwise: carriage, top slide or quill
    touch: str = ""  # kind TOUCH: id of the segment touched for x, "bar", or "" when x is not touched
    diameter: float | None = None  # to expect after this row
    at: float | None = None  # distance from the zero face that z stands for
    depth: float | None = None  # cut on the radius, or length of this peck
    turns: float | None = None  # kind TURNS: turns of the spindle or wrench
    box: bool = False  # a size is read here and written down


class Gearing(Struct, frozen=True, kw_only=True):
    """Change gears of a thread, and what the thread dial says of them."""

    gears: tuple[int, ...]  # from the stud: driver, driven; again where it is compound
    idler: int  # simple train; 0 in a compound one
    wanted: float  # lead, mm
    cut: float  # lead that the gears make, mm
    engaged: float  # length over which the error adds up, mm
    every: int | None  # every which mark of the threading dial; 0: anywhere; None: half-nuts stay closed
    measured: bool  # the banjo's distances are known, so the train is known to fit
    index: int | None = None  # teeth of the stud gear from one start to the next; None: by the top slide

    @property
    def error(self) -> float:
        """Error of the lead over the engaged length, mm; above zero is too long."""
        return (self.cut / self.wanted - 1.0) * self.engaged


class HoldPoint(Struct, frozen=True, kw_only=True):
    """A size that is measured and written before going on."""

    id: str
    what: str
    low: float
    high: float
    aim: float
    gauge: str
    unit: str = "mm"  # "mm", or "fit" for a thread that is tried with its mate
    if_over: str = ""
    if_under: str = ""
    final: bool = True  # False: an interim size on the way


class Operation(Struct, frozen=True, kw_only=True):
    """One thing done in one setup with one tool."""

    id: str  # feature.verb: stable while the recipe stands
    setup: str
    place: Place
    motion: Motion
    feature: str  # id of segment, hole, cross hole or knurl; "front", "back" or "bar" for faces and stock
    title: str  # verb first: "Finish turn the neck"
    cutter: Cutter
    rows: tuple[Row, ...] = ()
    x_dial: str = ""  # axis names of the dials that the rows are set on
    z_dial: str = ""
    end: End = End.FRONT  # holes: the end they are entered from
    figures: tuple[Figure, ...] = ()  # ids are local here ("speed"); the plan numbers them ("30.speed")
    holds: tuple[HoldPoint, ...] = ()
    needs: tuple[Need, ...] = ()
    gearing: Gearing | None = None  # of the scratch pass
    makes: tuple[str, ...] = ()
    spoils: tuple[Need, ...] = ()  # facts that stop being true, with the reason
    rank: int = 0  # habit of the trade among operations that are free to change places
    why: str = ""
    hints: tuple[str, ...] = ()  # short working notes, one action each
    hazards: tuple[str, ...] = ()  # kinds of operation in the table of cautions
    on_centre: bool = False  # the live centre holds the free end
    cutting_minutes: float = 0.0
    handling_minutes: float = 0.0
    number: int = 0

    def figure(self, local: str) -> Figure | None:
        return next((f for f in self.figures if f.id.rsplit(".", 1)[-1] == local), None)


class HoldingKind(StrEnum):
    CHUCK = "chuck"
    SOFT_JAWS = "soft jaws"
    COLLET = "collet"
    MANDREL = "threaded mandrel"
    VICE = "vice"
    HAND = "bench"


class Holding(Struct, frozen=True, kw_only=True):
    """How the work is held: by what, on what, how long, how far out."""

    kind: HoldingKind
    name: str
    on: str  # "bar" or the id of the segment or thread that is held
    grip: float  # length held
    stick_out: float  # from the face of jaws or collet to the end of the work
    diameter: float  # gripped diameter
    runout: float  # to expect after gripping, total indicator reading
    max_rpm: float
    body_diameter: float = 0.0  # of chuck or collet nose, for the sketch and the collision check
    shim: bool = False  # copper or card between jaws and a finished surface
    holder: str = ""  # of a mandrel: the collet or chuck that holds its body
    in_collet: bool = False  # a collet holds the work, or the mandrel's body
    stud: float = 0.0  # of a mandrel: all that stands in front of its shoulder
    most_stud: float = 0.0  # the longest stud on which this nut still seats


class Setup(Struct, frozen=True, kw_only=True):
    """One way of holding the work on one machine."""

    id: str
    place: Place
    machine: str
    title: str
    holding: Holding
    out: End  # end of the part that faces the tailstock (lathe)
    grip_from: float  # stretch of the part's axis that is held, part coordinates
    grip_to: float
    live_centre: bool = False
    requires: tuple[Need, ...] = ()  # facts before the work goes into this setup
    start: tuple[str, ...] = ()  # start list, one action each
    before_unclamp: tuple[str, ...] = ()  # what cannot be reached afterwards
    letter: str = ""


class StockCut(Struct, frozen=True, kw_only=True):
    """The piece of bar to saw."""

    material: str
    diameter: float
    length: float
    grip: float
    facing: float
    part: float
    part_off: float  # allowance left on the parted face
    kerf: float  # parting blade
    clearance: float  # jaws to blade
    saw: float
    may_stay_long: bool  # the bar goes through the spindle: no need to saw it


class Because(Struct, frozen=True, kw_only=True):
    """Why one operation stands before another."""

    before: str  # operation ids
    after: str
    why: str


class Rejected(Struct, frozen=True, kw_only=True):
    """A candidate that was not taken."""

    what: str
    why: str


class Kit(Struct, frozen=True, kw_only=True):
    """One thing to lay out before starting."""

    group: str
    name: str
    used_by: tuple[int, ...]
    note: str = ""


class Times(Struct, frozen=True, kw_only=True):
    """How long a setup takes, minutes: estimates, for hand feed and setting are uneven."""

    setup: str
    cutting: float  # the motor cuts
    handling: float  # setting, measuring, clearing chips, changing tools
    hand: float  # the hand cuts: taps, dies, files, deburring, the bench


class Plan(Struct, frozen=True, kw_only=True):
    """A part, planned for a shop and proven by replay."""

    part: TurnedPart
    shop: Shop
    stock: StockCut
    setups: tuple[Setup, ...]
    operations: tuple[Operation, ...]  # numbered, in the order of work
    states: tuple[Work, ...]  # the bar, then the work after each operation
    findings: tuple[Finding, ...]
    order: tuple[Because, ...]
    rejected: tuple[Rejected, ...]
    kit: tuple[Kit, ...]
    times: tuple[Times, ...]  # of each setup

    def figures(self) -> tuple[Figure, ...]:
        return tuple(f for op in self.operations for f in op.figures)

    def setup(self, setup: str) -> Setup:
        return next(s for s in self.setups if s.id == setup)

    def in_setup(self, setup: str) -> tuple[Operation, ...]:
        return tuple(op for op in self.operations if op.setup == setup)
