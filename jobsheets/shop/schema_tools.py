"""What a shop file may say of tools, gauges and stock."""

from jobsheets.fields import Either, ListOf, Record, Scalar
from jobsheets.shop import notation
from jobsheets.shop.schema_threading import THREADING, WIRE_SIZES
from jobsheets.shop.shapes import (
    ANGLE,
    COUNT,
    FLAG,
    HAND,
    LENGTH,
    LENGTH_OR_NONE,
    MATERIAL,
    NUMBER,
    PITCH,
    TEXT,
    THREAD,
    may,
    need,
)
from jobsheets.shop.tools import GaugeKind

_NAME = may("name", TEXT, "what you call it; left out: told from its size")
_MATERIAL = may("material", MATERIAL, "left out: HSS", "HSS", "carbide")
_THREADS = need("threads", ListOf(item=THREAD, least=1, most=60), "every size that is owned")

SERIES = ("number", "letter", "fraction", "metric")

DRILL_SET = Record(
    what="a set of drills",
    fields=(
        need("series", Scalar(what="a drill series", choices=SERIES), "which series the set is of", "number"),
        need("from", TEXT, "one end of the set, as the drill is called", "#1", "A", "1/16 in", "1 mm"),
        need("to", TEXT, "the other end of the set", "#60", "Z", "1/2 in", "10 mm"),
        may(
            "step",
            LENGTH,
            "from one drill to the next, fraction and metric sets only; left out: 1/64 in, 0.1 mm",
            "1/32 in",
        ),
        may("point", ANGLE, "point angle; left out: 118 deg", "135 deg"),
        _MATERIAL,
    ),
)
DRILL = Record(
    what="a drill",
    fields=(
        need("size", TEXT, "the drill as it is called", "#29", "3.4 mm"),
        may("flute", LENGTH, "usable length of flute; left out: that of a jobber drill", "2 in"),
        may("point", ANGLE, "point angle; left out: 118 deg", "135 deg"),
        _MATERIAL,
    ),
)
DRILLS = Record(
    what="the drills",
    fields=(
        may("sets", ListOf(item=DRILL_SET, most=12), "drills owned as sets"),
        may("missing", ListOf(item=TEXT, most=200), "drills of those sets that are broken or lost", "#29"),
        may(
            "single",
            ListOf(item=Either(scalar=TEXT, record=DRILL), most=200),
            "drills owned one by one, or longer than those of the sets",
            "#7",
        ),
    ),
)
CENTRE_DRILL = Record(
    what="a centre drill",
    fields=(
        need("name", TEXT, "a standard size, or your own name for one whose sizes follow", "No. 2", "2.5 mm"),
        may("pilot", LENGTH, "diameter of the pilot; left out: the standard one", "5/64 in"),
        may("body", LENGTH, "diameter of the body; left out: the standard one", "3/16 in"),
        may("pilot_length", LENGTH, "length of the pilot; left out: the standard one", "5/64 in"),
    ),
)
COUNTERSINK = Record(
    what="a countersink",
    fields=(
        need("diameter", LENGTH, "largest diameter it cuts", "1/2 in"),
        need("angle", ANGLE, "included angle", "90 deg"),
        _NAME,
    ),
)
REAMER = Record(
    what="a reamer",
    fields=(
        need("diameter", LENGTH, "size on the shank", "1/4 in", "6 mm"),
        need("flute", LENGTH, "length of the cutting edges", "1-1/2 in"),
        _NAME,
    ),
)
END_MILL = Record(
    what="an end mill that cuts to its centre",
    fields=(
        need("diameter", LENGTH, "of the cutting end", "1/4 in", "6 mm"),
        need("flutes", NUMBER, "number of flutes", "2"),
        need("flute", LENGTH, "length of the cutting edges", "5/8 in"),
        _NAME,
    ),
)
LEADS = Record(
    what="the taps of a size",
    fields=(
        may("taper", NUMBER, "chamfered threads of the taper tap, counted: 6 to 12", "8"),
        may("second", NUMBER, "chamfered threads of the second tap, counted: 3 to less than 6", "4"),
        may("bottoming", NUMBER, "chamfered threads of the bottoming tap, counted: 1 to less than 3", "1.5"),
    ),
)
TAPS = Record(
    what="taps",
    fields=(
        _THREADS,
        need("leads", LEADS, "which taps of each size, with the chamfered threads counted on the tap"),
        may("hand", HAND, "left out: right"),
        may("reach", LENGTH, "thread and neck that go into a hole; left out: 25 mm", "1 in"),
    ),
)
DIES = Record(
    what="dies",
    fields=(
        _THREADS,
        may("adjustable", FLAG, "split, so that it can be opened for a first pass; left out: true"),
        may("lead_threads", NUMBER, "chamfered threads on the starting side; left out: 2.5", "2.5"),
        may("hand", HAND, "left out: right"),
    ),
)
TURNING = Record(
    what="a turning tool",
    fields=(
        need("name", TEXT, "what you call it", "right-hand knife tool"),
        may("nose", LENGTH_OR_NONE, "radius of the nose; left out: 0.2 mm", "0.4 mm"),
        may("shank", LENGTH_OR_NONE, "width of tool behind the edge; left out: 8 mm", "3/8 in"),
        _MATERIAL,
    ),
)
CHAMFERING = Record(
    what="a chamfering tool",
    fields=(need("name", TEXT, "what you call it", "45 degree chamfering tool"), _MATERIAL),
)
BLADE = Record(
    what="a parting or grooving tool",
    fields=(
        need("name", TEXT, "what you call it", "parting blade 2 mm"),
        need("width", LENGTH, "width of cut", "2 mm"),
        need("reach", LENGTH, "deepest cut on the radius", "15 mm"),
        _MATERIAL,
    ),
)
BORING = Record(
    what="a boring bar",
    fields=(
        need("name", TEXT, "what you call it", "boring bar 6 mm"),
        need("least_bore", LENGTH, "smallest hole it enters", "8 mm"),
        need("reach", LENGTH, "deepest hole it bores", "25 mm"),
        may("shank", LENGTH, "diameter of the bar; left out: 0.8 of the smallest hole", "6 mm"),
        may("nose", LENGTH_OR_NONE, "radius of the nose; left out: 0.2 mm", "0.2 mm"),
        _MATERIAL,
    ),
)
KNURL = Record(
    what="a knurl",
    fields=(
        need(
            "form",
            Scalar(what="a form of knurl", choices=("straight", "diamond")),
            "what it rolls",
            "diamond",
        ),
        need("pitch", PITCH, "from ridge to ridge around the work", "1 mm", "33 tpi"),
        _NAME,
    ),
)
MANDREL = Record(
    what="a threaded mandrel",
    fields=(
        need("thread", THREAD, "thread that holds the nut", "8-32 UNC"),
        need("body", LENGTH, "diameter that the chuck or the collet holds", "1/2 in"),
        may("grip", LENGTH, "length of body that the chuck or the collet takes; left out: 20 mm", "1 in"),
        need(
            "length",
            LENGTH,
            "stud that enters the nut: chamfer, thread and groove, all in front of the shoulder",
            "7/32 in",
        ),
        _NAME,
    ),
)
TOOLS = Record(
    what="the tools",
    fields=(
        may("drills", DRILLS, "drills, as sets and one by one"),
        may(
            "centre_drills",
            ListOf(item=Either(scalar=TEXT, record=CENTRE_DRILL), most=20),
            "centre drills",
            "No. 2",
        ),
        may("countersinks", ListOf(item=COUNTERSINK, most=40), "countersinks"),
        may("end_mills", ListOf(item=END_MILL, most=60), "end mills that cut to their centre"),
        may("reamers", ListOf(item=REAMER, most=100), "reamers"),
        may("taps", ListOf(item=TAPS, most=100), "taps, size by size or as sets"),
        may("dies", ListOf(item=DIES, most=100), "dies, size by size or as sets"),
        may("turning", ListOf(item=TURNING, most=40), "lathe tools that turn and face"),
        may("chamfering", ListOf(item=CHAMFERING, most=10), "lathe tools that chamfer at 45 degrees"),
        may("parting", ListOf(item=BLADE, most=10), "parting blades"),
        may("grooving", ListOf(item=BLADE, most=20), "grooving tools"),
        may("boring", ListOf(item=BORING, most=20), "boring bars"),
        may("knurls", ListOf(item=KNURL, most=20), "knurls"),
        may("threading", ListOf(item=THREADING, most=20), "tools that cut threads with a single point"),
        may("mandrels", ListOf(item=MANDREL, most=40), "threaded mandrels that hold a nut by its thread"),
        may(
            "live_centre",
            Record(
                what="a live centre",
                fields=(need("stands_out", LENGTH, "how far its point stands out of the quill", "1-3/4 in"),),
            ),
            "centre that turns with the work; left out: none",
        ),
        may(
            "drill_chuck",
            Record(
                what="a drill chuck",
                fields=(
                    need("from", LENGTH_OR_NONE, "smallest shank it grips", "1/32 in"),
                    need("to", LENGTH, "largest shank it grips", "1/2 in"),
                    need("stands_out", LENGTH, "nose of the chuck in front of the quill", "3 in"),
                ),
            ),
            "drill chuck for the tailstock; left out: none",
        ),
        may("die_holder", FLAG, "a die holder that slides on the tailstock; left out: false"),
        may("v_block", FLAG, "a V-block with a clamp; left out: false"),
    ),
)
GAUGE = Record(
    what="a gauge",
    fields=(
        need(
            "kind",
            Scalar(what="a kind of gauge", choices=tuple(k.value for k in GaugeKind)),
            "what it is",
            "caliper",
        ),
        may(
            "resolution",
            LENGTH,
            "finest difference that it tells apart; needed unless it is a thread gauge",
            "0.001 in",
        ),
        may("from", LENGTH_OR_NONE, "smallest size it measures; left out: 0 mm", "0 in"),
        may("to", LENGTH, "largest size it measures; left out: 150 mm", "1 in"),
        may(
            "threads",
            ListOf(item=THREAD, most=60),
            "a thread gauge's sizes: screws and nuts kept for trying serve as mating threads",
        ),
        WIRE_SIZES,
        _NAME,
    ),
)
BAR = Record(
    what="bars of stock",
    fields=(
        need(
            "material",
            Scalar(what="a material", grammar=notation.material),
            "material, by any of its usual names",
            "stainless-303",
        ),
        need("diameter", LENGTH, "diameter as bought", "3/8 in"),
        need("length", LENGTH, "length on the rack", "12 in"),
        may("pieces", COUNT, "how many such bars; left out: 1", "2"),
    ),
)
