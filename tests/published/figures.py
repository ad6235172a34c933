"""Every printed figure of the check tables beside ours: what the page docs/validation.md is made from.

The tests judge; this only lists. A table whose checks are no plain numbers (a name that must find its
material, a drill that must be chosen) is counted in its rows.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from jobsheets.cutting.unit_power import power_of_removal
from jobsheets.standards import (
    cutting_data,
    drills,
    fits,
    fits_inch,
    general_tolerance,
    reaming,
    stock,
    threads,
)
from jobsheets.standards.cutting_rows import PublishedRange
from jobsheets.standards.thread_form import best_wire, compound_infeed, over_wires
from jobsheets.standards.thread_percent import Basis, percent
from jobsheets.standards.thread_strength import shear_areas, stress_area, worst_sizes

from .published import rows
from .test_thread_form import NATIONAL_PITCH_LINE, drill_of, thread_of

IN = 25.4
WATTS_PER_HP = 745.699872
LIMITS = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")
Row = dict[str, str]


class Pair(NamedTuple):
    """A printed figure and ours, in the unit of the print."""

    what: str
    printed: str
    ours: float


def _unified(row: Row) -> Iterator[Pair]:
    thread = threads.lookup("UN", row["size"], tpi=float(row["tpi"]), series=row["series"])
    limits = threads.limits(thread, row["class"])
    for name in ("allowance", *LIMITS):
        if row[name]:
            rounded = name == "minor_max" and limits.external
            ours = limits.minor_round_max if rounded else getattr(limits, name)
            yield Pair(f"{thread.name}-{row['class']} {name}, in", row[name], ours / IN)


def _metric(row: Row) -> Iterator[Pair]:
    thread = threads.lookup("M", row["nominal_mm"], pitch=float(row["pitch_mm"]))
    limits = threads.limits(thread, row["class"])
    for name in LIMITS:
        if row[name]:
            yield Pair(f"{thread.name}-{row['class']} {name}, mm", row[name], getattr(limits, name))


def _tap_percent(row: Row) -> Iterator[Pair]:
    if row["percent_printed"].isdigit():
        ours = percent(thread_of(row["thread"]), drill_of(row), Basis.US)
        yield Pair(f"{row['thread']}, drill {row['drill_name']}, %", row["percent_printed"], ours)


def _over_wires(row: Row) -> Iterator[Pair]:
    pitch, mean = IN / float(row["tpi"]), IN * float(row["diameter_in"])
    mean -= NATIONAL_PITCH_LINE * pitch if row["given"] == "major" else 0.0
    ours = over_wires(mean, pitch, IN * float(row["wire_in"])) / IN
    yield Pair(f"{row['diameter_in']}-{row['tpi']}, wire {row['wire_in']}, in", row["reading_in"], ours)


def _best_wire(row: Row) -> Iterator[Pair]:
    ours = best_wire(1.0 / float(row["tpi"]), float(row["angle"]))
    yield Pair(f"{row['tpi']} tpi, {row['angle']} degrees, in", row["wire_in"], ours)


def _compound(row: Row) -> Iterator[Pair]:
    pitch = IN / float(row["tpi"])
    depth = NATIONAL_PITCH_LINE * pitch
    ours = compound_infeed(depth, float(row["swivel_deg"])) / IN
    yield Pair(f"{row['tpi']} tpi at {row['swivel_deg']} degrees, in", row["infeed_in"], ours)


def _shear(row: Row) -> Iterator[Pair]:
    """Areas over an engagement of one diameter, as the handbook prints them."""
    thread = thread_of(row["size"])
    unit = IN * IN if row["unit"] == "in2" else 1.0
    screw, nut = (threads.limits(thread, row[name]) for name in ("screw_class", "nut_class"))
    areas = shear_areas(thread, worst_sizes(thread, screw, nut), thread.major)
    for name, ours in (
        ("stress_area", stress_area(thread)),
        ("screw_area", areas.screw),
        ("nut_area", areas.nut),
    ):
        yield Pair(f"{thread.name} {screw.tolerance_class} {name}, {row['unit']}", row[name], ours / unit)


def _drill_size(row: Row) -> Iterator[Pair]:
    yield Pair(f"drill {row['label']}, in", row["size_in"], drills.size(row["series"], row["label"]) / IN)


def _iso_limits(row: Row) -> Iterator[Pair]:
    limits = fits.limits(row["symbol"], float(row["nominal_mm"]))
    for name, ours in (("lower_um", limits.lower), ("upper_um", limits.upper)):
        yield Pair(
            f"{row['nominal_mm']} {row['symbol']} {name.removesuffix('_um')}, um", row[name], 1000.0 * ours
        )


def _iso_deviation(row: Row) -> Iterator[Pair]:
    limits = fits.limits(row["symbol"], float(row["nominal_mm"]))
    ours = limits.upper if row["side"] == "upper" else limits.lower
    yield Pair(f"{row['nominal_mm']} {row['symbol']} {row['side']}, um", row["value_um"], 1000.0 * ours)


def _iso_clearance(row: Row) -> Iterator[Pair]:
    fit = fits.fit(row["hole"], row["shaft"], float(row["nominal_mm"]))
    for name, ours in (("least_mm", fit.least_clearance), ("most_mm", fit.most_clearance)):
        yield Pair(
            f"{row['nominal_mm']} {row['hole']}/{row['shaft']} {name[:-3]} clearance, mm", row[name], ours
        )


def _inch_clearance(row: Row) -> Iterator[Pair]:
    fit = fits_inch.fit(row["fit"], IN * float(row["nominal_in"]))
    for name, ours in (("least_thou", fit.least_clearance), ("most_thou", fit.most_clearance)):
        yield Pair(f"{row['fit']} at {row['nominal_in']} in {name[:-5]}, thou", row[name], 1000.0 * ours / IN)


def _general(row: Row) -> Iterator[Pair]:
    ask = {
        "linear": general_tolerance.linear,
        "external radius": general_tolerance.external_radius,
        "angular": general_tolerance.angular,
    }.get(row["kind"])
    if ask is not None and row["kind"] != "angular":
        ours = ask(float(row["nominal_mm"]), row["class"])
        yield Pair(f"ISO 2768-{row['class']} {row['kind']} {row['nominal_mm']}, mm", row["limit"], ours)


def _reamer(row: Row) -> Iterator[Pair]:
    nominal = float(row["nominal_mm"])
    limits = reaming.reamer_limits(nominal, row["hole"])
    for name, ours in (("lower_mm", limits.least), ("upper_mm", limits.most)):
        yield Pair(f"reamer {row['nominal_mm']} {row['hole']} {name[:-3]}, mm", row[name], ours - nominal)


def _bar(row: Row) -> Iterator[Pair]:
    unit = IN if row["unit"] == "in" else 1.0
    found = stock.tolerance(row["standard"], unit * float(row["nominal"]))
    for name, ours in (("lower", found.lower), ("upper", found.upper)):
        yield Pair(f"{row['standard']} {row['nominal']} {name}, {row['unit']}", row[name], ours / unit)


def _speed(row: Row) -> Iterator[Pair]:
    found = cutting_data.speed(row["cutting_id"], row["operation"], row["tool"])
    if row["kind"] == "range" and isinstance(found, PublishedRange) and not (found.basis or found.excluded):
        what = f"{row['cutting_id']} {row['operation']} {row['tool']}"
        for name, ours in (("low", found.low), ("typical", found.median), ("high", found.high)):
            yield Pair(f"{what} {name}, m/min", row[name], ours)


def _unit_power(row: Row) -> Iterator[Pair]:
    ours = power_of_removal(float(row["kp_kw"]), IN**3) / WATTS_PER_HP
    yield Pair(f"{row['material']} {row['condition']}, hp/(in3/min)", row["kp_hp"], ours)


# Area, check table, how its figures are had from us; None where the checks are no plain numbers.
TABLES: tuple[tuple[str, str, Callable[[Row], Iterator[Pair]] | None], ...] = (
    ("Threads", "thread_un_limits.csv", _unified),
    ("Threads", "thread_iso_limits.csv", _metric),
    ("Threads", "thread_tap_drills.csv", _tap_percent),
    ("Threads", "thread_over_wires.csv", _over_wires),
    ("Threads", "thread_best_wire.csv", _best_wire),
    ("Threads", "thread_compound.csv", _compound),
    ("Threads", "thread_shear.csv", _shear),
    ("Holes and drills", "drill_sizes.csv", _drill_size),
    ("Holes and drills", "reamers.csv", _reamer),
    ("Holes and drills", "tap_drill_choice.csv", None),
    ("Fits", "fits_iso286.csv", _iso_limits),
    ("Fits", "fits_deviations.csv", _iso_deviation),
    ("Fits", "fits_iso286_clearance.csv", _iso_clearance),
    ("Fits", "fits_inch_clearance.csv", _inch_clearance),
    ("Fits", "general_tolerance.csv", _general),
    ("Stock and materials", "bar_tolerances.csv", _bar),
    ("Stock and materials", "material_properties.csv", None),
    ("Stock and materials", "material_designations.csv", None),
    ("Cutting", "cutting_speed_ranges.csv", _speed),
    ("Cutting", "cutting_unit_power.csv", _unit_power),
    ("Cutting", "cutting_worked.csv", None),
)


def pairs(file: str, ours: Callable[[Row], Iterator[Pair]]) -> list[Pair]:
    """Every figure of a check table beside ours."""
    return [pair for row in rows(file) for pair in ours(row)]
