"""What a sheet shows, as text: every number is rounded and carries no second unit system.

The layout and the plain-text face place these values and compute nothing from them.
"""

from msgspec import Struct


class DialCell(Struct, frozen=True, kw_only=True):
    """One reading to set: whole turns of the handwheel, then divisions of its collar."""

    turns: str  # "2", or "" below one turn
    turns_word: str  # "turn" or "turns"
    divisions: str  # "35", "30½"; the value itself on a scale readout
    unit: str  # "div", or the unit of a readout
    collar: str  # what the collar then shows, where it is marked in the unit of the sheet


class DialColumn(Struct, frozen=True, kw_only=True):
    """One handwheel of an operation."""

    axis: str
    arrow: str  # which way to come in
    reads: str  # "radius", "diameter" or "travel"


class TouchView(Struct, frozen=True, kw_only=True):
    """A place that the tool touches, and what the handwheel is set to there."""

    what: str
    stands: str  # the diameter that stands there
    axis: str
    to: str


class RowView(Struct, frozen=True, kw_only=True):
    """One line of an operation. Interim and final sizes stand in rows of their own, each named."""

    kind: str
    under: str  # depth of this cut
    touches: tuple[TouchView, ...]  # of a row that sets the handwheels
    x: DialCell | None
    z: DialCell | None
    diameter: str
    diameter_under: str  # "interim", "final", or what stands there
    at: str
    at_under: str
    turns: str
    box: bool


class HoldView(Struct, frozen=True, kw_only=True):
    """A size to measure and write down before going on; a thread that is tried has no limits here."""

    what: str
    high: str
    low: str
    aim: str
    unit: str
    gauge: str
    over: str
    under: str
    final: bool


class CautionView(Struct, frozen=True, kw_only=True):
    text: str
    document: str


class FindingView(Struct, frozen=True, kw_only=True):
    severity: str
    what: str
    why: str
    remedy: str


class BecauseView(Struct, frozen=True, kw_only=True):
    before: str  # operation numbers
    why: str


class OperationView(Struct, frozen=True, kw_only=True):
    number: str
    title: str
    tool: str
    consequence: str
    position: str  # belt or lever
    speed: str
    by_hand: bool  # the spindle is turned by hand, or there is no spindle
    feed: str
    feed_unit: str
    pace: str  # seconds a turn of the handwheel
    pace_axis: str
    cautions: tuple[CautionView, ...]
    findings: tuple[FindingView, ...]
    hints: tuple[str, ...]
    as_before: str  # number of the operation whose hints hold here too
    edge_finder: bool  # the zero along the work is found with an edge finder
    why: str
    because: tuple[BecauseView, ...]
    x: DialColumn | None
    z: DialColumn | None
    place_first: bool  # the tool is set lengthwise, then fed across: z stands before x
    rows: tuple[RowView, ...]
    holds: tuple[HoldView, ...]


class DialView(Struct, frozen=True, kw_only=True):
    """How one handwheel of a setup is read and approached."""

    axis: str
    turn: str
    divisions: str
    division: str
    reads: str
    readout: str
    way: str
    overshoot: str  # turns to back off after going past


class SketchView(Struct, frozen=True, kw_only=True):
    """Geometry of a setup sketch, mm in part coordinates, with the texts that stand in it."""

    kind: str
    held_diameter: float
    before: tuple[tuple[float, float], ...]
    after: tuple[tuple[float, float], ...]
    bore: tuple[tuple[float, float], ...]
    cross_bores: tuple[tuple[float, float], ...]  # z, diameter
    places: tuple[tuple[float, str], ...]  # z and distance from zero of holes to cross-drill
    front_out: bool
    grip: tuple[float, float]
    zero: float  # z of the zero face
    live_centre: bool
    stick_out: str
    jaw_width: float  # of the vice


class SetupView(Struct, frozen=True, kw_only=True):
    kind: str
    letter: str
    title: str
    place: str
    machine: str
    holding: str
    holder: str  # of a mandrel: what holds its body
    held_on: str
    grip: str
    stick_out: str
    runout: str
    live_centre: bool
    most_speed: str
    start: tuple[str, ...]
    findings: tuple[FindingView, ...]
    cautions: tuple[CautionView, ...]  # of the machine, for all its operations
    cautions_as: str  # letter of the earlier setup on this machine that has them
    dials: tuple[DialView, ...]
    sketch: SketchView | None
    operations: tuple[OperationView, ...]
    written: tuple[str, ...]  # sizes that must have been read before the work comes out
    before_unclamp: tuple[str, ...]


class Pair(Struct, frozen=True, kw_only=True):
    """A label and its value, in the sum of the stock, the inputs or the head."""

    label: str
    value: str


class StockView(Struct, frozen=True, kw_only=True):
    length: str
    terms: tuple[Pair, ...]  # what the length is the sum of
    saw: str  # what the saw takes besides
    may_stay_long: bool


class InputView(Struct, frozen=True, kw_only=True):
    name: str
    value: str
    given: bool


class MateView(Struct, frozen=True, kw_only=True):
    size: str
    to: str
    ask: str
    sign: str  # "+" or "-"
    allowance: str
    table: tuple[tuple[str, str], ...]  # reading, target
    measured: str  # "" when it is still to be measured
    unit: str


class KitView(Struct, frozen=True, kw_only=True):
    label: str  # kind and name, each word once
    used_by: str
    note: str
    measures: bool


class InspectionView(Struct, frozen=True, kw_only=True):
    """One limited size of the finished part, to be measured on it."""

    what: str
    low: str
    high: str
    limits: str
    gauge: str


class FigureView(Struct, frozen=True, kw_only=True):
    id: str
    name: str
    value: str
    formula: str
    inputs: str
    ruled_by: str
    source: str
    spread: str
    marks: tuple[float, float, float, float] | None  # low, median, high and the value taken; one unit


class Head(Struct, frozen=True, kw_only=True):
    """What stands on every page."""

    part: str
    title: str
    bar: str
    machine: str
    units: str
    status: str
    revision: str
    fingerprint: str


class TimesView(Struct, frozen=True, kw_only=True):
    """Estimated minutes of the whole plan, whole minutes, and of each setup by its letter."""

    cutting: str
    handling: str
    hand: str
    setups: tuple[Pair, ...]


class SheetView(Struct, frozen=True, kw_only=True):
    head: Head
    system: str
    stock: StockView
    inputs: tuple[InputView, ...]
    mates: tuple[MateView, ...]
    kit: tuple[KitView, ...]
    findings: tuple[FindingView, ...]  # those that belong to no single step
    notes: tuple[str, ...]
    documents: tuple[str, ...]  # that the cautions were taken from
    setups: tuple[SetupView, ...]
    times: TimesView
    inspection: tuple[InspectionView, ...]
    figures: tuple[FigureView, ...]
