"""The leadscrew and its change gears out of a checked shop file."""

from jobsheets.cutting.banjo import Banjo
from jobsheets.shop import notation
from jobsheets.shop.entry import Entry
from jobsheets.shop.machines import ChartRow, LeadScrew

TEETH = (10, 200)


def leadscrew(entry: Entry) -> LeadScrew:
    """The leadscrew of a lathe, with its gears, its banjo and its chart."""
    if ("dial_teeth" in entry) != ("dial_marks" in entry):
        entry.fault("", "a threading dial half told", "dial_teeth and dial_marks both, or neither")
    stud = entry.opt("stud", notation.number, 1.0)
    if not 0.1 <= stud <= 10.0:
        entry.fault("stud", "no turns of a stud", "0.1 to 10 turns for one of the spindle")
    return LeadScrew(
        pitch=entry.get("pitch", notation.pitch),
        dial_teeth=entry.get("dial_teeth", notation.count) if "dial_teeth" in entry else None,
        dial_marks=entry.get("dial_marks", notation.count) if "dial_marks" in entry else None,
        gears=tuple(sorted(_gears(entry))),
        stud=stud,
        banjo=_banjo(entry.entry("banjo")) if "banjo" in entry else None,
        chart=tuple(_row(e) for e in entry.entries("chart")),
    )


def _gears(entry: Entry) -> tuple[int, ...]:
    gears = entry.values("gears", notation.count)
    if any(not TEETH[0] <= teeth <= TEETH[1] for teeth in gears):
        entry.fault("gears", "no change gear", f"{TEETH[0]} to {TEETH[1]} teeth each")
    return gears


def _banjo(entry: Entry) -> Banjo:
    nearest, farthest = entry.get("slot_from", notation.length), entry.get("slot_to", notation.length)
    if nearest >= farthest:
        entry.fault("slot_to", "a slot that ends before it begins", "more than slot_from")
    return Banjo(
        module=entry.get("tooth", notation.tooth),
        span=entry.get("span", notation.length),
        slot_from=nearest,
        slot_to=farthest,
        shaft=entry.get("shaft", notation.length),
    )


def _row(entry: Entry) -> ChartRow:
    gears = _gears(entry)
    if len(gears) == 3:
        entry.fault("gears", "a driver without the gear it drives", "2 gears, or 4; an idler is left out")
    return ChartRow(cuts=entry.text("cuts"), lead=entry.get("cuts", notation.pitch), gears=gears)
