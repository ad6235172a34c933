"""Tools, gauges and stock as the maker has them. mm and degrees."""

from enum import StrEnum

from msgspec import Struct

from jobsheets.standards.threads import Thread


class ToolMaterial(StrEnum):
    HSS = "HSS"
    CARBIDE = "carbide"


class Drill(Struct, frozen=True, kw_only=True):
    """One owned drill."""

    name: str  # "#29", "F", "9/64 in", "3.4 mm"
    diameter: float
    series: str  # "number", "letter", "fraction", "metric"
    flute: float  # usable flute length
    point: float = 118.0
    material: ToolMaterial = ToolMaterial.HSS


class CentreDrill(Struct, frozen=True, kw_only=True):
    name: str  # "No. 2", "2.5 mm"
    pilot: float
    body: float
    pilot_length: float


class Countersink(Struct, frozen=True, kw_only=True):
    name: str
    diameter: float
    angle: float


class Reamer(Struct, frozen=True, kw_only=True):
    name: str
    diameter: float
    flute: float


class EndMill(Struct, frozen=True, kw_only=True):
    """A cutter with a flat end that cuts to its centre; it also sinks flat floors from the tailstock."""

    name: str
    diameter: float
    flutes: int
    flute: float


class TapKind(StrEnum):
    """Named by lead, because "plug" means the middle tap in one country and the last in another."""

    TAPER = "taper"  # 7 to 10 chamfered threads
    SECOND = "second"  # 3 to 5
    BOTTOMING = "bottoming"  # 1 to 2


class Tap(Struct, frozen=True, kw_only=True):
    thread: Thread
    kind: TapKind
    lead_threads: float  # chamfered threads, as counted on the tap
    left: bool = False
    reach: float = 25.0  # thread and neck that go into a hole


class Die(Struct, frozen=True, kw_only=True):
    thread: Thread
    adjustable: bool
    lead_threads: float
    left: bool = False


class LatheToolKind(StrEnum):
    TURNING = "turning"  # right-hand: cuts toward the chuck, leaves a square shoulder, also faces
    CHAMFER = "chamfer"  # 45 degrees both ways
    PARTING = "parting"
    GROOVING = "grooving"
    BORING = "boring"
    KNURLING = "knurling"
    THREADING = "threading"
    INSIDE_THREADING = "internal threading"


class LatheTool(Struct, frozen=True, kw_only=True):
    name: str
    kind: LatheToolKind
    material: ToolMaterial
    nose: float = 0.0  # nose radius
    width: float = 0.0  # parting, grooving: width of cut; turning: shank behind the edge; boring: the bar
    reach: float = 0.0  # parting, grooving: deepest cut; boring: deepest hole
    least_bore: float = 0.0  # boring, internal threading: smallest hole it enters
    angle: float = 0.0  # threading: included angle, degrees
    flat: float = 0.0  # threading: flat on the nose, where it is not a radius
    side: float = 0.0  # threading: from the point to the side that meets a shoulder
    form: str = ""  # knurling: "straight" or "diamond"
    pitch: float = 0.0  # knurling: along the circumference


class Mandrel(Struct, frozen=True, kw_only=True):
    """A threaded mandrel that holds a nut by its thread."""

    name: str
    thread: Thread
    body: float  # diameter that chuck or collet holds
    grip: float  # length of body that chuck or collet takes
    length: float  # stud that enters the nut: chamfer, thread and groove, all in front of the shoulder


class GaugeKind(StrEnum):
    CALIPER = "caliper"
    MICROMETER = "micrometer"
    DEPTH = "depth gauge"
    BORE = "bore gauge"
    THREAD_PLUG = "thread plug gauge"
    MATING_THREAD = "mating thread"
    PITCH = "pitch gauge"
    INDICATOR = "dial indicator"
    WIRES = "thread wires"


class Gauge(Struct, frozen=True, kw_only=True):
    name: str
    kind: GaugeKind
    resolution: float  # mm
    least: float = 0.0
    most: float = 150.0
    threads: tuple[Thread, ...] = ()
    wires: tuple[float, ...] = ()  # diameters of sets of three


class Bar(Struct, frozen=True, kw_only=True):
    """Bar stock on the rack."""

    material: str
    diameter: float
    length: float


class Tooling(Struct, frozen=True, kw_only=True):
    drills: tuple[Drill, ...] = ()  # smallest first
    centre_drills: tuple[CentreDrill, ...] = ()
    countersinks: tuple[Countersink, ...] = ()
    reamers: tuple[Reamer, ...] = ()
    end_mills: tuple[EndMill, ...] = ()  # smallest first
    taps: tuple[Tap, ...] = ()
    dies: tuple[Die, ...] = ()
    lathe_tools: tuple[LatheTool, ...] = ()
    mandrels: tuple[Mandrel, ...] = ()
    live_centre: float | None = None  # how far its point stands out of the quill, mm; None when there is none
    drill_chuck: tuple[float, float, float] | None = (
        None  # smallest and largest shank, length out of the quill
    )
    die_holder: bool = False  # slides on the tailstock, keeps the die square
    v_block: bool = False
    gauges: tuple[Gauge, ...] = ()
    system: str = "mm"  # units that substitutions are told in: "in" or "mm"
