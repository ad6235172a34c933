"""A shop file read: form, notation and meaning are checked, and every fault is told at once."""

from pathlib import Path

from msgspec.structs import fields as struct_fields

from jobsheets import document, fields
from jobsheets.errors import InputError, Problem
from jobsheets.shop import build_machines, build_tools, notation
from jobsheets.shop.entry import Entry
from jobsheets.shop.schema import PLAIN_NUMBERS, SHARES, SHOP
from jobsheets.shop.shop import HouseRules, Proven, Shop


def load(path: Path) -> Shop:
    """The shop that `path` tells of.

    Args:
        path: a shop file (YAML, docs/shop-files.md).

    Raises:
        InputError: the file cannot be read, or holds faults; all that can be told are told.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(document.MAX_BYTES + 1)  # a file without end is refused as too big, not read
    except OSError as exc:
        why = exc.strerror or "not readable"
        raise InputError(
            (Problem(file=str(path), line=0, field="", found="", wrong=why, right="a shop file"),)
        ) from None
    return read(document.decode(raw, str(path)), str(path))


def read(text: str, file: str) -> Shop:
    """The shop that a text tells of; as `load`, for a text at hand."""
    top = document.parse(text, file)
    problems = fields.check(top, SHOP, file)
    if problems:
        raise InputError(tuple(problems))
    faults: list[Problem] = []
    shop = _shop(Entry(top, "", file, faults))
    if faults:
        raise InputError(tuple(sorted(faults, key=lambda p: p.line)))
    return shop


def _shop(top: Entry) -> Shop:
    system = top.text("system")
    return Shop(
        name=top.text("name"),
        system=system,
        lathe=build_machines.lathe(top.entry("lathe"), system),
        mill=build_machines.mill(top.entry("mill"), system) if "mill" in top else None,
        tooling=build_tools.tooling(top.entry("tools"), build_tools.gauges(top), system),
        stock=build_tools.stock(top),
        house=_house(top.entry("house")),
        proven=tuple(_proven(e) for e in top.entry("house").entries("proven")),
    )


def _house(entry: Entry) -> HouseRules:
    values: dict[str, float] = {}
    flags: dict[str, bool] = {}
    for rule in struct_fields(HouseRules):
        if rule.name not in entry:
            continue
        if isinstance(rule.default, bool):
            flags[rule.name] = entry.get(rule.name, notation.flag)
        elif rule.name in PLAIN_NUMBERS:
            values[rule.name] = entry.get(rule.name, notation.number)
        elif rule.name in SHARES:
            values[rule.name] = entry.get(rule.name, notation.share)
        else:
            values[rule.name] = entry.get(rule.name, notation.length_or_none)
    rules = HouseRules(**values, **flags)  # type: ignore[arg-type]  # names are the fields' own
    if rules.most_stick_out < rules.free_stick_out:
        entry.fault("most_stick_out", "less than free_stick_out", f"at least {rules.free_stick_out:g}")
    if rules.finish_depth >= rules.most_depth:
        entry.fault("finish_depth", "no finer than most_depth", f"less than {rules.most_depth:g} mm")
    if rules.thread_swivel > 30.0:  # half of the widest thread's angle
        entry.fault("thread_swivel", "past the flank, which would be cut in steps", "0 to 30 degrees")
    if not 0.2 <= rules.reaction_time <= 10.0 or rules.spring_passes > 10 or rules.spring_passes % 1:
        entry.fault("", "no reaction of a hand, or no count of passes", "0.2 to 10 s; 0 to 10 spring passes")
    return rules


def _proven(entry: Entry) -> Proven:
    if "speed" not in entry and "feed" not in entry:
        entry.fault("", "a proven value without a value", "speed, feed or both")
    return Proven(
        material=entry.get("material", notation.material),
        operation=entry.text("operation"),
        tool=entry.opt("tool", notation.plain, "HSS"),
        speed=entry.get("speed", notation.surface_speed) if "speed" in entry else None,
        feed=entry.get("feed", notation.length) if "feed" in entry else None,
    )
