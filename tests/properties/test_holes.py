"""What must hold of drills, tap drills, pins and clearance holes whatever the size."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jobsheets.standards import (
    clearance,
    drills,
    fits,
    materials,
    pins,
    reaming,
    screw_names,
    screw_seats,
    stock,
)
from jobsheets.standards import tap_drills as tapping

DRAWERS = st.lists(st.sampled_from(drills.everything()), min_size=1, max_size=40).map(tuple)
MAJORS, PITCHES = st.floats(1.0, 20.0), st.floats(0.2, 2.5)
INCH_GRADES = {"H12": 12, "H13": 13, "H14": 14}
# Printed maxima that are not minimum + IT: screw, fit, and by how much of an inch the print is smaller.
OWN_MAXIMA = {
    ("#4", "close"): 0.0007,
    ("#10", "loose"): 0.0022,
    ("5/16", "normal"): -0.0013,
    ("3/8", "loose"): 0.001,
    ("7/16", "loose"): 0.001,
    ("1/2", "loose"): 0.001,
}


@given(drawer=DRAWERS, major=MAJORS, pitch=PITCHES, low=st.floats(30.0, 80.0), width=st.floats(0.0, 20.0))
def test_an_unowned_drill_is_never_chosen(drawer, major, pitch, low, width):
    if not any(0.0 < tapping.percent(major, pitch, d.mm) <= 100.0 for d in drawer):
        with pytest.raises(ValueError, match="no owned drill"):
            tapping.choose(major, pitch, (low, low + width), drawer)
        return
    choice = tapping.choose(major, pitch, (low, low + width), drawer)
    offered = [c for c in (choice.best, choice.larger, choice.smaller) if c is not None]
    assert all(candidate.drill in drawer for candidate in offered)
    assert choice.suits == (low <= choice.best.percent <= low + width)


@given(drawer=DRAWERS, major=MAJORS, pitch=PITCHES, low=st.floats(30.0, 80.0))
def test_one_in_the_range_is_taken_when_there_is_one(drawer, major, pitch, low):
    suits = [d for d in drawer if low <= tapping.percent(major, pitch, d.mm) <= low + 10.0]
    if suits:
        assert tapping.choose(major, pitch, (low, low + 10.0), drawer).suits


@given(drawer=DRAWERS, major=MAJORS, pitch=PITCHES)
def test_neighbours_lie_on_either_side(drawer, major, pitch):
    assume(any(0.0 < tapping.percent(major, pitch, d.mm) <= 100.0 for d in drawer))
    choice = tapping.choose(major, pitch, (50.0, 70.0), drawer)
    if choice.larger is not None:
        assert choice.larger.drill.mm > choice.best.drill.mm
        assert choice.larger.percent < choice.best.percent
    if choice.smaller is not None:
        assert choice.smaller.drill.mm < choice.best.drill.mm
        assert choice.smaller.percent > choice.best.percent


@given(major=MAJORS, pitch=PITCHES, small=st.floats(0.1, 20.0), more=st.floats(0.01, 5.0))
def test_percent_falls_as_the_drill_grows(major, pitch, small, more):
    assert tapping.percent(major, pitch, small + more) < tapping.percent(major, pitch, small)


@given(
    major=MAJORS,
    pitch=PITCHES,
    wanted=st.floats(1.0, 100.0),
    full=st.sampled_from((tapping.CUT_60, tapping.FORMED_60)),
)
def test_drill_for_a_percent_leaves_that_percent(major, pitch, wanted, full):
    drill = tapping.drill_for(major, pitch, wanted, full)
    assert tapping.percent(major, pitch, drill, full) == pytest.approx(wanted)


@pytest.mark.parametrize("name", materials.names())
def test_every_metal_has_a_percent_and_nothing_else_has(name):
    material = materials.find(name)
    if material.family in tapping.NON_METALS:
        with pytest.raises(ValueError, match="no published percent"):
            tapping.target_percent(material)
        return
    aim = tapping.target_percent(material)
    assert 40.0 <= aim.low < aim.high <= 75.0
    assert aim.source


@given(mm=st.floats(0.1, 25.4))
def test_the_nearest_drill_has_no_nearer_rival(mm):
    found = drills.nearest(mm)
    assert abs(found.mm - mm) <= min(abs(one.mm - mm) for one in drills.everything())


@pytest.mark.parametrize("series", drills.SERIES)
def test_a_series_rises_and_its_names_read_back(series):
    sizes = drills.series(series)
    assert all(low.mm < high.mm for low, high in pairwise(sizes))
    for one in sizes:
        assert drills.named(series, one.name) == one
        assert drills.named(series, one.name.lower()) == one


@pytest.mark.parametrize(
    ("series", "count"), [("number", 97), ("letter", 26), ("fraction", 64), ("metric", 130)]
)
def test_a_series_is_whole(series, count):
    assert len(drills.series(series)) == count


@pytest.mark.parametrize("fit", ["close", "normal", "loose"])
@pytest.mark.parametrize("size", [1.6, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0])
def test_clearance_grows_with_the_fit(size, fit):
    fitted = clearance.hole_for(size, fit)
    assert size < fitted.least < fitted.most
    looser = {"close": "normal", "normal": "loose"}.get(fit)
    if looser:
        assert fitted.least < clearance.hole_for(size, looser).least


@pytest.mark.parametrize("fit", ["close", "normal", "loose"])
@pytest.mark.parametrize(
    "screw", ["#0", "#1", "#2", "#3", "#4", "#5", "#6", "#8", "#10", "1/4", "5/16", "3/8", "7/16", "1/2"]
)
def test_inch_clearance_holes_are_a_grade_wide_but_for_six(screw, fit):
    """ASME B18.2.8: maximum = minimum + H12, H13 or H14, to a thousandth; the six above are otherwise."""
    hole = clearance.hole(screw, fit)
    width = fits.tolerance(INCH_GRADES[hole.grade], hole.least)
    short = 25.4 * OWN_MAXIMA.get((screw, fit), 0.0)
    assert hole.most - hole.least == pytest.approx(width - short, abs=25.4 * 0.0007)


@pytest.mark.parametrize("pin", [p for p in pins.every() if p.standard in ("ISO 2338", "ISO 8734")], ids=str)
def test_iso_pins_have_the_limits_of_their_symbol(pin):
    limits = fits.limits(pin.series, pin.nominal)
    assert pin.least - pin.nominal == pytest.approx(limits.lower, abs=1e-6)
    assert pin.most - pin.nominal == pytest.approx(limits.upper, abs=1e-6)


@pytest.mark.parametrize("hole", pins.holes(), ids=lambda h: f"{h.standard} {h.size}")
def test_a_published_hole_holds_its_pin(hole):
    """A dowel or an undriven spring pin is larger than the largest hole: both grip."""
    series = "standard" if hole.kind == "dowel" else "free"
    pin = pins.find(hole.kind, hole.size, series)
    assert hole.least < hole.most < pin.least + 1e-9


def test_metric_oversize_dowels_lie_22_micrometres_above_standard_ones():
    """ASME B18.8.5M."""
    standard = [p for p in pins.every() if p.standard == "ASME B18.8.5M" and p.series == "standard"]
    assert len(standard) == 7
    for pin in standard:
        oversize = pins.find("dowel", pin.size, "oversize")
        assert oversize.least - pin.least == pytest.approx(0.022, abs=1e-9)
        assert oversize.most - pin.most == pytest.approx(0.022, abs=1e-9)


def test_soft_rod_pins_are_two_thousandths_wide_and_never_over_size():
    """ASME B18.8.2 straight pins; nominal sizes are printed to four places."""
    for pin in (p for p in pins.every() if p.kind == "soft rod"):
        assert (pin.most - pin.least) / 25.4 == pytest.approx(0.002, abs=1e-9)
        assert abs(pin.most - pin.nominal) / 25.4 < 1e-4


@pytest.mark.parametrize(
    ("shape", "size"), [(bar.name, 10.0) for bar in stock.bars() if bar.name.startswith("ASTM A108")]
)
def test_cold_finished_tolerance_widens_by_a_thousandth_a_range(shape, size):
    """ASTM A108 table A1.1: each range of size adds 0.001 in, the last range of flats 0.001 or 0.002 in."""
    found = [stock.tolerance(shape, size)]
    for size in (20.0, 40.0, 60.0, 70.0, 80.0, 100.0):
        try:
            found.append(stock.tolerance(shape, size))
        except ValueError:
            break
    widened = [round((low.lower - high.lower) / 0.0254, 6) for low, high in pairwise(found)]
    steps = [step for step in widened if step]
    assert len(steps) >= 2
    assert set(steps[:-1]) == {1.0}
    assert steps[-1] in (1.0, 2.0)


@pytest.mark.parametrize("bar", stock.bars(), ids=lambda bar: bar.name)
def test_a_bar_is_never_over_size_or_as_much_over_as_under(bar):
    found = 0
    for size in (2.0, 5.0, 9.0, 10.0, 12.0, 17.0, 20.0, 30.0, 36.0, 40.0, 53.0, 60.0, 90.0):
        try:
            tolerance = stock.tolerance(bar.name, size)
        except ValueError:
            continue
        found += 1
        assert tolerance.upper == (0.0 if bar.sign == "minus only" else -tolerance.lower)
    assert found >= 3


@given(size=st.floats(1.0, 50.0), symbol=st.sampled_from(("H6", "H7", "H8", "F8", "D8", "K7")))
def test_a_new_reamer_stays_inside_the_hole(size, symbol):
    limits, reamer = fits.limits(symbol, size), reaming.reamer_limits(size, symbol)
    assert limits.lower + size < reamer.least < reamer.most < limits.upper + size


@given(
    hole=st.floats(0.0, 10.0),
    more=st.floats(0.1, 10.0),
    angle=st.sampled_from((60.0, 82.0, 90.0, 100.0, 120.0)),
)
def test_cones_add_up(hole, more, angle):
    whole = screw_seats.cone_depth(hole + 2.0 * more, hole, angle)
    parts = screw_seats.cone_depth(hole + 2.0 * more, hole + more, angle) + screw_seats.cone_depth(
        hole + more, hole, angle
    )
    assert whole == pytest.approx(parts)


@pytest.mark.parametrize(
    "screw",
    ["#4", "#6", "#8", "#10", "1/4", "5/16", "3/8", "1/2", "M3", "M4", "M5", "M6", "M8", "M10", "M12"],
)
def test_a_head_goes_into_its_counterbore_and_rests_on_the_hole(screw):
    seat = screw_seats.counterbore(screw)
    assert clearance.hole(screw).most < seat.head_diameter < seat.bore
    assert seat.head_height == pytest.approx(screw_names.major(screw), rel=0.01)


@pytest.mark.parametrize("system", ["in", "mm", "EN 10060"])
def test_stock_sizes_rise(system):
    sizes = [one.mm for one in stock.round_sizes(system)]
    assert sizes == sorted(set(sizes))
