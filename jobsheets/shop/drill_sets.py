"""Owned drills out of a shop file: sets written shortly, those missing, and those bought singly."""

from functools import cache, lru_cache

from jobsheets import units
from jobsheets.fields import nearest
from jobsheets.shop import notation
from jobsheets.shop.build_machines import grid
from jobsheets.shop.entry import Entry
from jobsheets.shop.flutes import jobber_flute
from jobsheets.shop.tools import Drill, ToolMaterial
from jobsheets.standards import drills

POINT = 118.0
METRIC_STEP = 0.1
FRACTION_STEP = 25.4 / 64.0
MOST = 300
NAMED = ("number", "letter", "fraction")
HAIR = 1e-4  # mm: drills are told apart by far more


def owned_drills(entry: Entry) -> tuple[Drill, ...]:
    """Every drill of the shop, smallest first.

    Args:
        entry: the `drills` of a checked shop file.
    """
    found: dict[str, Drill] = {}
    before = len(entry.faults)
    for one in entry.entries("sets"):
        for drill in _set(one):
            found.setdefault(drill.name, drill)
    sound = len(entry.faults) == before
    for name in _names(entry, "missing"):
        if found.pop(name, None) is None and sound:  # else the drill may be in the very set that is at fault
            close = ", ".join(nearest(name, tuple(found))) or "a drill of the sets"
            entry.fault("missing", f"not a drill of the sets: {name}", close)
    for one in entry.either("single", "size"):
        single = _single(one)
        if single is None:
            continue
        if single.name in found and "flute" not in one:
            one.fault("size", "a drill that a set or a line above holds already", "each drill once")
        found[single.name] = single  # one with its own flute length stands in for the set's
    return tuple(sorted(found.values(), key=lambda d: d.diameter))


@cache
def _named(series: str) -> dict[str, float]:
    return {size.name: size.mm for size in drills.series(series)}


def tidy(text: str) -> str:
    """The name of a drill as the drill lists have it."""
    text = " ".join(text.split())
    return (
        f"{float(text[:-2]):g} mm"
        if text.endswith("mm") and notation.NUMBER.fullmatch(text[:-2].strip())
        else text
    )


def find(text: str) -> tuple[str, str, float]:
    """Name, series and diameter (mm) of a drill as it is called.

    Raises:
        ValueError: no drill is called so.
    """
    name = tidy(text)
    for series in NAMED:
        size = _named(series).get(name)
        if size is not None:
            return name, series, size
    if not name.endswith("mm"):
        raise ValueError(f"no drill is called {name}; want such as #29, F, 9/64 in or 3.4 mm")
    return name, "metric", units.millimetres(name)


def _names(entry: Entry, name: str) -> tuple[str, ...]:
    return tuple(tidy(text) for text in entry.values(name, notation.plain))


def _end(entry: Entry, name: str, series: str) -> float | None:
    try:
        _, kind, size = find(entry.text(name))
    except ValueError as exc:
        wrong, _, right = str(exc).partition("; want ")
        entry.fault(name, wrong, right)
        return None
    if kind != series:
        entry.fault(name, f"a drill of the {kind} series", f"a drill of the {series} series")
        return None
    return size


def _set(entry: Entry) -> tuple[Drill, ...]:
    series = entry.text("series")
    ends = _end(entry, "from", series), _end(entry, "to", series)
    if ends[0] is None or ends[1] is None:
        return ()
    least, most = min(ends[0], ends[1]), max(ends[0], ends[1])
    if "step" in entry and series in ("number", "letter"):
        entry.fault("step", f"a step in a {series} set", "no step: every drill from one end to the other")
    step = entry.opt("step", notation.length, METRIC_STEP if series == "metric" else FRACTION_STEP)
    if (most - least) / step > MOST:
        entry.fault("step", f"more than {MOST} drills in a set", "a coarser step, such as 0.1 mm")
        return ()
    if _flute(entry, "to", most, series) is None:
        return ()
    point = entry.opt("point", notation.angle, POINT)
    return _drills(series, least, most, step, point, entry.opt("material", ToolMaterial, ToolMaterial.HSS))


@lru_cache(maxsize=64)
def _drills(
    series: str, least: float, most: float, step: float, point: float, material: ToolMaterial
) -> tuple[Drill, ...]:
    """The drills of a set; remembered, because few sets are sold and each is a hundred drills."""
    if series == "metric":
        sizes = [(f"{mm:g} mm", mm) for mm in grid(least, most, step)]
    else:
        sizes = [(name, mm) for name, mm in _named(series).items() if least - HAIR <= mm <= most + HAIR]
    if series == "fraction":
        sizes = [(name, mm) for name, mm in sizes if abs((mm - least) / step % 1.0 - 0.5) > 0.499]
    return tuple(
        Drill(
            name=name,
            diameter=mm,
            series=series,
            flute=jobber_flute(mm, series == "metric"),
            point=point,
            material=material,
        )
        for name, mm in sizes
    )


def _flute(entry: Entry, name: str, diameter: float, series: str) -> float | None:
    try:
        return jobber_flute(diameter, series == "metric")
    except ValueError as exc:
        wrong, _, right = str(exc).partition("; want ")
        entry.fault(name, wrong, right)
        return None


def _single(entry: Entry) -> Drill | None:
    try:
        name, series, diameter = find(entry.text("size"))
    except ValueError as exc:
        wrong, _, right = str(exc).partition("; want ")
        entry.fault("size", wrong, right)
        return None
    written = entry.get("flute", notation.length) if "flute" in entry else None
    flute = written if written is not None else _flute(entry, "size", diameter, series)
    if flute is None:
        return None
    return Drill(
        name=name,
        diameter=diameter,
        series=series,
        flute=flute,
        point=entry.opt("point", notation.angle, POINT),
        material=entry.opt("material", ToolMaterial, ToolMaterial.HSS),
    )
