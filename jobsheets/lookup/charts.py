"""Wall charts as tables of texts, made from the same tables as the look-ups.

Units    the texts are in inches or mm, as the chart's system says.
Scope    few rows and short ones: a chart is read from a metre away (sheet/chart.py lays it out).
"""

from collections.abc import Callable, Iterable
from fractions import Fraction

from msgspec import Struct

from jobsheets.shop.shop import Shop
from jobsheets.standards import clearance, drills, tap_drills, thread_form
from jobsheets.standards.drills import DrillSize
from jobsheets.standards.materials import Material
from jobsheets.standards.thread_catalogue import everything
from jobsheets.standards.thread_percent import Basis, full_depth
from jobsheets.standards.thread_values import Thread

MM_PER_INCH = 25.4
SIXTY_FOURTHS = 64
# Threads of a chart where no shop is given: those of small fitted parts.
USUAL = {
    "in": (
        *(
            "4-40 UNC",
            "5-40 UNC",
            "6-32 UNC",
            "8-32 UNC",
            "10-24 UNC",
            "10-32 UNF",
            "1/4-20 UNC",
            "1/4-28 UNF",
        ),
        *("5/16-18 UNC", "5/16-24 UNF", "3/8-16 UNC", "3/8-24 UNF"),
    ),
    "mm": (
        *("M2x0.4", "M2.5x0.45", "M3x0.5", "M3.5x0.6", "M4x0.7", "M5x0.8", "M6x1", "M8x1", "M8x1.25"),
        *("M10x1", "M10x1.25", "M10x1.5"),
    ),
}
# Drills of a chart where no shop is given: name of a series, smallest and largest, mm.
DRAWER = {
    "in": (("number", 1.0, 25.0), ("letter", 1.0, 25.0), ("fraction", 1.5, 12.8)),
    "mm": (("metric", 1.0, 10.0), ("metric preferred", 10.4, 13.0)),
}


class Chart(Struct, frozen=True, kw_only=True):
    """One page: equal rows under a head, in as many columns of rows as the page takes."""

    kind: str
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]  # what the numbers are, and where they come from


class Wanted(Struct, frozen=True, kw_only=True):
    """What a chart is limited to."""

    system: str  # "in" or "mm"
    threads: tuple[Thread, ...] | None = None  # of the shop's taps; None for the usual ones
    drills: tuple[DrillSize, ...] | None = None  # of the drawer; None for those that are sold
    material: Material | None = None  # that is cut; None for metals in general, or for those on the rack
    shop: Shop | None = None  # whose belts the speeds are for


def chart(kind: str, wanted: Wanted) -> Chart:
    """A chart by its kind.

    Raises:
        ValueError: not one of `KINDS`, a unit system that is neither "in" nor "mm", or nothing to print.
    """
    if kind not in KINDS:
        raise ValueError(f"{kind!r} is not a kind of chart; want one of {', '.join(KINDS)}")
    if wanted.system not in USUAL:
        raise ValueError(f"{wanted.system!r} is not a unit system; want in or mm")
    made = KINDS[kind][0](wanted)
    if not made.rows:
        raise ValueError(f"the shop has nothing to print on a chart of {kind}; want the chart without a shop")
    return made


def _length(mm: float, wanted: Wanted, places: int = 4) -> str:
    """A length in the chart's system, without its leading zero in inches."""
    if wanted.system == "mm":
        return f"{mm:.{places - 1}f}"
    text = f"{mm / MM_PER_INCH:.{places}f}"
    return text.removeprefix("0") if text.startswith("0.") else text


def _threads(wanted: Wanted) -> tuple[Thread, ...]:
    if wanted.threads is not None:
        return tuple(sorted(wanted.threads, key=lambda thread: (thread.major, thread.pitch)))
    by_name = {thread.name: thread for thread in everything()}
    return tuple(by_name[name] for name in USUAL[wanted.system])


def _drills(wanted: Wanted) -> tuple[DrillSize, ...]:
    if wanted.drills is not None:
        return wanted.drills
    return tuple(
        drill
        for name, least, most in DRAWER[wanted.system]
        for drill in drills.series(name)
        if least <= drill.mm <= most
    )


def _whose(wanted: Wanted) -> str:
    return "drills of your own drawer" if wanted.drills is not None else "drills as they are sold"


def _tap_drills(wanted: Wanted) -> Chart:
    aim = tap_drills.target_percent(wanted.material) if wanted.material else tap_drills.any_metal_percent()
    inches = wanted.system == "in"
    rows = []
    for thread in _threads(wanted):
        full = full_depth(thread, Basis.US) / thread.pitch
        try:
            choice = tap_drills.choose(thread.major, thread.pitch, (aim.low, aim.high), _drills(wanted), full)
        except ValueError:
            rows.append((thread.name, "none owned", *(("",) if inches else ()), "", "", ""))
            continue
        best, larger = choice.best, choice.larger
        size = (_length(best.drill.mm, wanted),) if inches else ()
        after = (_short(larger.drill.name), f"{larger.percent:.0f} %") if larger else ("", "")
        rows.append((thread.name, _short(best.drill.name), *size, f"{best.percent:.0f} %", *after))
    metal = wanted.material.name if wanted.material else "metals in general"
    return Chart(
        kind="tap-drills",
        title=f"Tap drills, {wanted.system}",
        head=("thread", "drill", *(("in",) if inches else ()), "percent", "next", "percent"),
        rows=tuple(rows),
        notes=(
            f"Percent of thread for {metal}: {aim.low:g} to {aim.high:g}, on the US basis: "
            "100 takes 1.299 P off the diameter (round forms: their full depth). "
            f"Next: the next larger drill. {_whose(wanted).capitalize()}.",
        ),
    )


def _short(drill: str) -> str:
    """A drill's name without its unit, which the chart's title says."""
    return drill.removesuffix(" in").removesuffix(" mm")


def _drill_sizes(wanted: Wanted) -> Chart:
    """Every drill with its decimal inches: two cells a row, so that a drawer of a hundred drills fits."""
    sizes = sorted({drill.name: drill for drill in _drills(wanted)}.values(), key=lambda d: (d.mm, d.name))
    rows = tuple((_short(drill.name), _inches(drill.mm)) for drill in sizes)
    metric = all(drill.series.startswith("metric") for drill in sizes)
    return Chart(
        kind="drills",
        title="Drill sizes",
        head=("mm" if metric else "drill", "in"),
        rows=rows,
        notes=(f"ANSI B94.11M and ISO 235; {_whose(wanted)}.",),
    )


def _inches(mm: float) -> str:
    return f"{mm / MM_PER_INCH:.4f}".removeprefix("0")


def _clearance(wanted: Wanted) -> Chart:
    rows = []
    for screw in clearance.screws():
        if screw.startswith("M") != (wanted.system == "mm") or not _wants_screw(screw, wanted):
            continue
        holes = [clearance.hole(screw, fit) for fit in clearance.FITS]
        rows.append((screw, *(_short(hole.drill) or _length(hole.least, wanted, 2) for hole in holes)))
    standard = "ISO 273 (fine, medium, coarse)" if wanted.system == "mm" else "ASME B18.2.8"
    return Chart(
        kind="clearance",
        title=f"Clearance holes, {wanted.system}",
        head=("screw", *clearance.FITS),
        rows=tuple(rows),
        notes=(f"Drill to use: {standard}.",),
    )


def _wants_screw(screw: str, wanted: Wanted) -> bool:
    """Whether the shop has a tap of this size; every screw where no shop is given."""
    from jobsheets.standards.screw_names import major

    if wanted.threads is None:
        return True
    return any(abs(thread.major - major(screw)) < clearance.HAIR for thread in wanted.threads)


def _decimals(wanted: Wanted) -> Chart:
    rows = []
    for count in range(1, SIXTY_FOURTHS + 1):
        part = Fraction(count, SIXTY_FOURTHS)
        rows.append((str(part), f"{float(part):.4f}".removeprefix("0"), f"{float(part) * MM_PER_INCH:.3f}"))
    return Chart(
        kind="decimals",
        title="Fractions of an inch",
        head=("inch", "decimal", "mm"),
        rows=tuple(rows),
        notes=("25.4 mm to the inch, exactly. Rounded to 0.0001 in and 0.001 mm.",),
    )


def _thread_data(wanted: Wanted) -> Chart:
    rows = []
    for thread in _threads(wanted):
        flat = thread_form.root_flat(thread)
        radius = None if flat is not None else thread_form.root_radius(thread)
        depth = thread_form.depth_of_cut(thread, nose_flat=flat, nose_radius=radius)
        lengths = (
            thread.major,
            thread_form.pitch_diameter(thread),
            depth,
            thread_form.best_wire(thread.pitch, thread.angle),
        )
        rows.append((thread.name, *(_length(mm, wanted) for mm in lengths)))
    return Chart(
        kind="threads",
        title=f"Threads, {wanted.system}",
        head=("thread", "major", "pitch dia.", "cut", "best wire"),
        rows=tuple(rows),
        notes=(
            "Basic sizes. Cut: single depth from the basic major diameter, nose with a flat of P/8 "
            "(round forms: with the root radius).",
        ),
    )


def _speeds(wanted: Wanted) -> Chart:
    from jobsheets.lookup.speeds_chart import table

    if wanted.shop is None:
        raise ValueError("belt positions are a shop's own; want --shop FILE")
    made = table(wanted.shop, wanted.system, wanted.material)
    return Chart(kind="speeds", title=made.title, head=made.head, rows=made.rows, notes=made.notes)


def _gears(wanted: Wanted) -> Chart:
    from jobsheets.lookup.gears_chart import table

    if wanted.shop is None:
        raise ValueError("change gears are a shop's own; want --shop FILE")
    made = table(wanted.shop, wanted.system)
    return Chart(kind="gears", title=made.title, head=made.head, rows=made.rows, notes=made.notes)


# The kinds of chart, each with what it shows.
KINDS: dict[str, tuple[Callable[[Wanted], Chart], str]] = {
    "tap-drills": (_tap_drills, "drill before the tap, with the percent of thread it leaves"),
    "drills": (_drill_sizes, "drills by size, every series in one order"),
    "clearance": (_clearance, "holes that a screw passes through: close, normal, loose"),
    "decimals": (_decimals, "64ths of an inch as decimals and mm"),
    "speeds": (_speeds, "belt or lever position by diameter, on the lathe of a shop"),
    "gears": (_gears, "change gears for each pitch, out of those that a shop owns"),
    "threads": (_thread_data, "major and pitch diameter, depth of cut, best wire"),
}


def of_taps(taps: Iterable[Thread]) -> tuple[Thread, ...]:
    """The threads of a shop's taps and dies, each once."""
    return tuple({thread.name: thread for thread in taps}.values())
