"""What a shop file may say, as data: read it with `load`, publish it with `fields.json_schema`."""

from msgspec.structs import fields as struct_fields

from jobsheets.fields import Field, ListOf, Record, Scalar, Shape
from jobsheets.shop import notation
from jobsheets.shop.schema_leadscrew import LEADSCREW
from jobsheets.shop.schema_tools import BAR, GAUGE, TOOLS
from jobsheets.shop.shapes import (
    DIVISIONS,
    FLAG,
    LABEL,
    LENGTH,
    LENGTH_OR_NONE,
    MATERIAL,
    NUMBER,
    RPM,
    SHARE,
    SURFACE_SPEED,
    TEXT,
    WATTS,
    may,
    need,
)
from jobsheets.shop.shop import HouseRules

SPEED = Record(
    what="a spindle speed",
    fields=(
        need("rpm", RPM, "speed of the spindle, off the plate or by tachometer", "600"),
        need("position", TEXT, "belt or lever position that gives it, as you call it", "belt B1"),
    ),
)
RANGE = Record(
    what="a stepless range of speeds",
    fields=(
        need("from", RPM, "slowest speed that still turns with force", "100"),
        need("to", RPM, "fastest speed", "1100"),
        need("step", RPM, "what the display or the scale of the knob tells apart", "10"),
        need("position", TEXT, "lever or belt position of the range", "lever L"),
    ),
)


def _dial(what: str, *more: Field, radial: bool = False) -> Record:
    reads = Scalar(what="what a division stands for", choices=("radius", "diameter"))
    return Record(
        what=what,
        fields=(
            need("per_turn", LENGTH, "true travel of one turn, against an indicator", "0.050 in", "1 mm"),
            need("divisions", DIVISIONS, "divisions of the collar, counted", "50", "62.5"),
            *((need("reads", reads, "what one division stands for", "radius"),) if radial else ()),
            need("backlash", LENGTH_OR_NONE, "travel lost when the handle is reversed", "0.008 in"),
            need("travel", LENGTH, "usable travel", "3 in"),
            may("label", LABEL, "what the collar says of one division; left out: its true value", "0.001 in"),
            may("readout", LENGTH, "resolution of the scale readout; left out: none", "0.01 mm"),
            may(
                "pace", NUMBER, "quickest turn, in seconds, that the hand keeps up evenly; left out: 0.8", "2"
            ),
            *more,
        ),
    )


CROSS_SLIDE = _dial("a cross slide", radial=True)
SLIDE = _dial("a slide")
TAILSTOCK = _dial(
    "a tailstock",
    need("usable_from", LENGTH_OR_NONE, "quill reading below which the taper is pushed out", "1/2 in"),
    need("taper", TEXT, "taper of the quill", "MT2"),
)
CHUCK = Record(
    what="a chuck",
    fields=(
        need("name", TEXT, "what you call it", "5 in three-jaw"),
        need(
            "kind",
            Scalar(what="a kind of chuck", choices=("three-jaw", "four-jaw")),
            "how many jaws",
            "three-jaw",
        ),
        need("from", LENGTH, "smallest bar it grips", "1/8 in"),
        need("to", LENGTH, "largest bar it grips from outside", "4-1/2 in"),
        need("jaw_depth", LENGTH, "length of jaw that grips", "3/4 in"),
        need("body_diameter", LENGTH, "diameter of the body", "5 in"),
        need("max_rpm", RPM, "fastest speed marked on it", "2500"),
        need("runout", LENGTH_OR_NONE, "full swing of an indicator on a bar gripped anew", "0.003 in"),
        may("soft_jaws", FLAG, "jaws that can be bored to the work; left out: false"),
    ),
)
COLLETS = Record(
    what="a set of collets",
    fields=(
        need("name", TEXT, "what you call it", "collets"),
        may(
            "sizes", ListOf(item=LENGTH, least=1, most=100), "every bore owned; or from, to and step instead"
        ),
        may("from", LENGTH, "smallest bore of an even set", "1/8 in"),
        may("to", LENGTH, "largest bore of an even set", "1/2 in"),
        may("step", LENGTH, "from one bore to the next", "1/16 in"),
        need("squeeze", LENGTH_OR_NONE, "how far below its bore a collet still grips", "0.005 in"),
        need("grip", LENGTH, "length that grips", "1 in"),
        need("max_rpm", RPM, "fastest speed", "3000"),
        need("runout", LENGTH_OR_NONE, "full swing of an indicator on a bar", "0.001 in"),
    ),
)


def _drive() -> tuple[Field, ...]:
    return (
        need("name", TEXT, "what you call it", "bench lathe"),
        may("speeds", ListOf(item=SPEED, most=40), "speeds by belt or lever, slowest first"),
        may("ranges", ListOf(item=RANGE, most=8), "ranges of a stepless drive, slowest first"),
        need("power", WATTS, "power on the motor's plate", "550 W", "3/4 hp"),
        may("efficiency", SHARE, "share of it that reaches the tool; left out: 0.7", "0.7"),
        may("rigidity", SHARE, "share of a textbook cut that it takes quietly; left out: 0.5", "0.5"),
    )


LATHE = Record(
    what="a lathe",
    fields=(
        *_drive(),
        need("spindle_bore", LENGTH, "largest bar that goes through the spindle", "0.781 in"),
        need("swing_over_slide", LENGTH, "largest diameter that clears the cross slide", "5 in"),
        need("room", LENGTH, "face of the chuck to the quill, drawn in, tailstock at the end", "16 in"),
        need("chucks", ListOf(item=CHUCK, least=1, most=10), "chucks, the usual one first"),
        may("collets", COLLETS, "collets; left out: none"),
        need("cross_slide", CROSS_SLIDE, "dial of the cross slide"),
        need("carriage", SLIDE, "dial of the carriage handwheel"),
        may("top_slide", SLIDE, "dial of the top slide; left out: none"),
        need("tailstock", TAILSTOCK, "dial of the tailstock quill"),
        may(
            "power_feeds",
            ListOf(item=LENGTH, most=60),
            "feeds a turn of the spindle, finest first",
            "0.004 in",
        ),
        may("leadscrew", LEADSCREW, "leadscrew and what turns it; left out: not known"),
    ),
)
VICE = Record(
    what="a vice",
    fields=(
        need("name", TEXT, "what you call it", "3 in vice"),
        need("opening", LENGTH, "widest work it holds", "2-1/2 in"),
        need("jaw_width", LENGTH, "width of the jaws", "3 in"),
        need("jaw_height", LENGTH, "height of the jaws above the bed of the vice", "1 in"),
        may("v_groove", FLAG, "a groove that holds a round bar lengthwise; left out: false"),
    ),
)
MILL = Record(
    what="a mill or drill press",
    fields=(
        *_drive(),
        may("table_x", SLIDE, "dial of the table lengthwise; left out: a table that does not move"),
        may("table_y", SLIDE, "dial of the table crosswise"),
        need("quill", SLIDE, "dial or fine feed of the quill"),
        need("room", LENGTH, "nose of the spindle to the table", "10 in"),
        may("vice", VICE, "vice on the table; left out: none"),
    ),
)

# Operations that a maker's own speed or feed may be given for, as the cutting tables name them.
OPERATIONS = (
    "turn rough", "turn finish", "face", "bore", "part-off", "groove", "knurl", "thread single-point",
    "drill", "centre drill", "countersink", "ream",
)  # fmt: skip
PROVEN = Record(
    what="a proven value",
    fields=(
        need(
            "material",
            Scalar(what="a material", grammar=notation.material),
            "material, by any of its usual names",
            "stainless-303",
        ),
        need("operation", Scalar(what="an operation", choices=OPERATIONS), "what was done", "turn rough"),
        may("tool", MATERIAL, "what the edge was made of; left out: HSS", "HSS"),
        may("speed", SURFACE_SPEED, "cutting speed that proved good", "90 ft/min", "28 m/min"),
        may("feed", LENGTH, "feed for each turn of the spindle that proved good", "0.004 in"),
    ),
)

_HOUSE_HELP: dict[str, str] = {
    "jaw_clearance": "gap kept between the tool and the jaws",
    "facing": "taken off a sawn end",
    "part_off_allowance": "left on a parted face for facing it afterwards",
    "saw_allowance": "kerf and crooked cut, added to the bar to saw",
    "least_grip": "shortest grip in a chuck",
    "grip_to_diameter": "grip at least so many diameters",
    "free_stick_out": "diameters out of the chuck without the live centre",
    "most_stick_out": "diameters out of the chuck at all",
    "wall": "least wall left anywhere in metal",
    "thread_wall": "least wall between a thread and an outside",
    "engagement": "thread engaged in a nut, at least so many diameters",
    "finish_depth": "depth of the finishing cut on the radius",
    "most_depth": "deepest roughing cut on the radius in steel, before the lathe's rigidity",
    "tap_margin": "threads of clear hole below the tap's lead",
    "pilot_above": "drills larger than this follow a pilot",
    "pilot_share": "diameter of the pilot as a share of the drill's",
    "tap_by_hand": "the spindle is turned by hand for taps and dies",
    "gauge_ratio": "the limits hold at least so many steps of the gauge that proves them",
    "deburr_edge": "edge broken where the recipe asks for none",
    "chase_after_cross_hole": "run the tap through again after a cross hole",
    "dome_step": "advance between the steps of a dome",
    "thread_swivel": "top slide of a screwcut thread, degrees from the cross slide; 0 is straight in",
    "thread_side_shift": "straight in by the cross slide, the top slide moved sideways with it",
    "thread_falling": "cuts of a screwcut thread fall evenly, in place of keeping the area of the chip",
    "thread_first_cut": "deepest first cut of a screwcut thread, square to the axis",
    "spring_passes": "passes at the full depth again, to take what the tool sprang away from",
    "reaction_time": "seconds from seeing the mark to the half-nuts open",
    "bend_share": "share of a size's limits that bending under the last cut may take",
    "stick_out_speed": "share of speed and depth left at the most stick-out",
    "parting_speed": "share of the roughing speed for parting off",
    "threading_speed": "share of the roughing speed for a single-point thread",
    "least_chip": "thinnest chip for each edge, before the edge rubs",
}
PLAIN_NUMBERS = (
    "grip_to_diameter", "free_stick_out", "most_stick_out", "engagement", "tap_margin", "gauge_ratio",
    "thread_swivel", "spring_passes", "reaction_time",
)  # fmt: skip
SHARES = ("pilot_share", "bend_share", "stick_out_speed", "parting_speed", "threading_speed")
NONE_ALLOWED = ("facing", "part_off_allowance", "saw_allowance", "deburr_edge")


def house_shape(name: str) -> Shape:
    """Shape of the house rule `name`."""
    if isinstance(getattr(HouseRules(), name), bool):
        return FLAG
    if name in PLAIN_NUMBERS:
        return NUMBER
    if name in SHARES:
        return SHARE
    return LENGTH_OR_NONE if name in NONE_ALLOWED else LENGTH


def _house() -> Record:
    rules = []
    for rule in struct_fields(HouseRules):
        default = rule.default
        if isinstance(default, bool):
            shown = "true" if default else "false"
        else:
            shown = f"{default:g}" + (" mm" if house_shape(rule.name) in (LENGTH, LENGTH_OR_NONE) else "")
        rules.append(
            may(rule.name, house_shape(rule.name), f"{_HOUSE_HELP[rule.name]}; left out: {shown}", shown)
        )
    rules.append(
        may("proven", ListOf(item=PROVEN, most=200), "your own proven speeds and feeds, before the books'")
    )
    return Record(what="the house rules", fields=tuple(rules))


HOUSE = _house()

SHOP = Record(
    what="a shop",
    fields=(
        need("shop", Scalar(what="the version of this form", choices=("1",)), "version of the form: 1", "1"),
        need("name", TEXT, "what you call the shop", "garage"),
        need("system", Scalar(what="a system of units", choices=("in", "mm")), "what the dials read", "in"),
        need("lathe", LATHE, "the lathe"),
        may("mill", MILL, "the mill, or the drill press; left out: none"),
        need("tools", TOOLS, "tools"),
        may("gauges", ListOf(item=GAUGE, most=60), "what measures"),
        may("stock", ListOf(item=BAR, most=200), "bars on the rack"),
        may("house", HOUSE, "your own limits, where they differ from common practice"),
    ),
)
