"""Machines out of a checked shop file, with the faults that only a machine can have."""

from collections.abc import Sequence
from itertools import pairwise

from jobsheets.shop import build_leadscrew, notation
from jobsheets.shop.entry import Entry
from jobsheets.shop.machines import (
    Chuck,
    ColletSet,
    Dial,
    Lathe,
    Mill,
    Quill,
    Reads,
    SpeedRange,
    SpeedStep,
    Vice,
)

EFFICIENCY = 0.7  # belt drive with plain or ball bearings; common practice
RIGIDITY = 0.5  # a bench machine; common practice, and the first thing to tune


def lathe(entry: Entry, system: str) -> Lathe:
    """The lathe of a shop."""
    steps, ranges = _drive(entry)
    return Lathe(
        name=entry.text("name"),
        speeds=steps,
        ranges=ranges,
        power=entry.get("power", notation.watts),
        efficiency=entry.opt("efficiency", notation.share, EFFICIENCY),
        spindle_bore=entry.get("spindle_bore", notation.length),
        swing_over_slide=entry.get("swing_over_slide", notation.length),
        room=entry.get("room", notation.length),
        chucks=tuple(_chuck(e) for e in entry.entries("chucks")),
        collets=_collets(entry.entry("collets")) if "collets" in entry else None,
        cross=_cross(entry.entry("cross_slide"), system),
        carriage=_dial(entry.entry("carriage"), "carriage", system),
        top_slide=_dial(entry.entry("top_slide"), "top slide", system) if "top_slide" in entry else None,
        quill=_quill(entry.entry("tailstock"), system),
        power_feeds=_ascending(entry, "power_feeds", entry.values("power_feeds", notation.length), "feeds"),
        rigidity=entry.opt("rigidity", notation.share, RIGIDITY),
        leadscrew=build_leadscrew.leadscrew(entry.entry("leadscrew")) if "leadscrew" in entry else None,
    )


def mill(entry: Entry, system: str) -> Mill:
    """The mill of a shop."""
    steps, ranges = _drive(entry)
    return Mill(
        name=entry.text("name"),
        speeds=steps,
        ranges=ranges,
        power=entry.get("power", notation.watts),
        efficiency=entry.opt("efficiency", notation.share, EFFICIENCY),
        table_x=_dial(entry.entry("table_x"), "table x", system) if "table_x" in entry else None,
        table_y=_dial(entry.entry("table_y"), "table y", system) if "table_y" in entry else None,
        quill=_dial(entry.entry("quill"), "quill", system),
        room=entry.get("room", notation.length),
        vice=_vice(entry.entry("vice")) if "vice" in entry else None,
        rigidity=entry.opt("rigidity", notation.share, RIGIDITY),
    )


def _ascending(entry: Entry, name: str, values: Sequence[float], what: str) -> tuple[float, ...]:
    if any(b <= a for a, b in pairwise(values)):
        entry.fault(name, f"{what} out of order, or one twice", f"{what} from the smallest to the largest")
    return tuple(values)


def _drive(entry: Entry) -> tuple[tuple[SpeedStep, ...], tuple[SpeedRange, ...]]:
    steps = tuple(
        SpeedStep(rpm=e.get("rpm", notation.rpm), position=e.text("position"))
        for e in entry.entries("speeds")
    )
    ranges = tuple(_range(e) for e in entry.entries("ranges"))
    if bool(steps) == bool(ranges):
        wrong = "speeds and ranges together" if steps else "neither speeds nor ranges"
        entry.fault(
            "speeds" if steps else "", wrong, "speeds by belt or lever, or ranges of a stepless drive"
        )
    _ascending(entry, "speeds", [s.rpm for s in steps], "speeds")
    positions = [s.position for s in steps] + [r.position for r in ranges]
    if len(set(positions)) < len(positions):
        entry.fault("speeds" if steps else "ranges", "a position given twice", "each position once")
    if any(b.least <= a.least or b.most <= a.most for a, b in pairwise(ranges)):
        entry.fault("ranges", "ranges out of order", "ranges from the slowest to the fastest")
    return steps, ranges


def _range(entry: Entry) -> SpeedRange:
    least, most = entry.get("from", notation.rpm), entry.get("to", notation.rpm)
    step = entry.get("step", notation.rpm)
    if least >= most:
        entry.fault("to", "a range that ends before it begins", f"more than from: {least:g} rev/min")
    elif step > most - least:
        entry.fault("step", "a step wider than the range", f"at most {most - least:g} rev/min")
    return SpeedRange(least=least, most=most, step=step, position=entry.text("position"))


def _chuck(entry: Entry) -> Chuck:
    least, most = entry.get("from", notation.length), entry.get("to", notation.length)
    if least >= most:
        entry.fault("to", "a chuck that grips nothing", "the largest bar, larger than from")
    return Chuck(
        name=entry.text("name"),
        kind=entry.text("kind"),
        least=least,
        most=most,
        jaw_depth=entry.get("jaw_depth", notation.length),
        body_diameter=entry.get("body_diameter", notation.length),
        max_rpm=entry.get("max_rpm", notation.rpm),
        runout=entry.get("runout", notation.length_or_none),
        soft_jaws=entry.opt("soft_jaws", notation.flag, False),
    )


def _collets(entry: Entry) -> ColletSet:
    sizes = _ascending(entry, "sizes", entry.values("sizes", notation.length), "bores")
    even = [name in entry for name in ("from", "to", "step")]
    if bool(sizes) == any(even) or (any(even) and not all(even)):
        entry.fault("sizes", "bores neither listed nor given as an even set", "sizes, or from, to and step")
    elif all(even):
        sizes = grid(
            entry.get("from", notation.length),
            entry.get("to", notation.length),
            entry.get("step", notation.length),
        )
        if not 1 <= len(sizes) <= 100:
            entry.fault("step", "an even set of no sensible count", "from below to, and 1 to 100 bores")
    return ColletSet(
        name=entry.text("name"),
        sizes=sizes,
        squeeze=entry.get("squeeze", notation.length_or_none),
        grip=entry.get("grip", notation.length),
        max_rpm=entry.get("max_rpm", notation.rpm),
        runout=entry.get("runout", notation.length_or_none),
    )


def grid(least: float, most: float, step: float, limit: int = 1000) -> tuple[float, ...]:
    """Sizes from `least` to `most` by `step`, mm, each free of gathered rounding; at most `limit` and one."""
    count = int((most - least) / step + 1e-6)
    return tuple(round(least + n * step, 6) for n in range(min(count, limit) + 1)) if count >= 0 else ()


def _dial(entry: Entry, axis: str, system: str, reads: Reads = Reads.TRAVEL) -> Dial:
    per_turn = entry.get("per_turn", notation.length)
    divisions = entry.get("divisions", notation.divisions)
    backlash = entry.get("backlash", notation.length_or_none)
    travel = entry.get("travel", notation.length)
    shown = per_turn / divisions * (2.0 if reads is Reads.DIAMETER else 1.0)
    if backlash >= 3.0 * per_turn:
        entry.fault(
            "backlash", "more backlash than a slide can have", "less than three turns; adjust the nut"
        )
    if travel < per_turn:
        entry.fault("travel", "less travel than one turn of the handle", "the usable travel of the slide")
    if "pace" in entry and not 0.3 <= entry.get("pace", notation.number) <= 120.0:
        entry.fault("pace", "not a pace of a hand", "0.3 to 120 seconds a turn")
    return Dial(
        axis=axis,
        per_turn=per_turn,
        divisions=divisions,
        label=entry.get("label", notation.label) if "label" in entry else shown_length(shown, system),
        reads=reads,
        backlash=backlash,
        travel=travel,
        readout=entry.get("readout", notation.length) if "readout" in entry else None,
        pace=entry.opt("pace", notation.number, 0.8),
    )


def shown_length(mm: float, system: str) -> str:
    """A size in the units of the shop, as a collar would say it."""
    number = f"{mm / 25.4:.6f}" if system == "in" else f"{mm:.4f}"
    return f"{number.rstrip('0').rstrip('.')} {system}"


def _cross(entry: Entry, system: str) -> Dial:
    return _dial(entry, "cross slide", system, Reads(entry.text("reads")))


def _quill(entry: Entry, system: str) -> Quill:
    dial = _dial(entry, "quill", system)
    usable_from = entry.get("usable_from", notation.length_or_none)
    if usable_from >= dial.travel:
        entry.fault("usable_from", "a quill that pushes its taper out all the way", "less than travel")
    return Quill(dial=dial, usable_from=usable_from, taper=entry.text("taper"))


def _vice(entry: Entry) -> Vice:
    return Vice(
        name=entry.text("name"),
        opening=entry.get("opening", notation.length),
        jaw_width=entry.get("jaw_width", notation.length),
        jaw_height=entry.get("jaw_height", notation.length),
        v_groove=entry.opt("v_groove", notation.flag, False),
    )
