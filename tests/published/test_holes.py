"""Drills, tap-drill choice, clearance holes, seats, pins, reamers, centre drills against second sources."""

import pytest

from jobsheets import units
from jobsheets.standards import centre_drills, clearance, drills, pins, reaming, screw_seats, tap_drills

from .published import half_last_place, rows

MM_PER_INCH = 25.4
INCH_DRILLS = (*drills.series("number"), *drills.series("letter"), *drills.series("fraction"))
OWNED = {"inch": INCH_DRILLS, "metric": drills.series("metric")}


@pytest.mark.parametrize(
    "row", rows("drill_sizes.csv"), ids=lambda r: f"{r['series']} {r['label']} {r['size_in']}"
)
def test_drill_sizes_match_other_tables(row):
    inches = drills.size(row["series"], row["label"]) / MM_PER_INCH
    assert inches == pytest.approx(float(row["size_in"]), abs=half_last_place(row["size_in"]))


@pytest.mark.parametrize(
    ("text", "name"),
    [("#29", "#29"), ("F", "F"), ("9/64 in", "9/64 in"), ("3.4 mm", "3.4 mm"), ("2.05 mm", "2.05 mm")],
)
def test_the_makers_notation_finds_its_drill(text, name):
    assert drills.find(units.drill(text)).name == name


# Printed with the last place cut off, not rounded, or wrong: series, label, printed size, size in inches.
MISPRINTS = (
    ("metric", "1.5 mm", 0.0590, 0.05906),  # Machinery's Handbook 31st ed. p. 2155 prints 0.0591 elsewhere
    ("metric", "5 mm", 0.1968, 0.19685),  # chart of 2012
    ("number", "#54", 0.0545, 0.0550),  # chart of 2012
)


@pytest.mark.parametrize(("series", "label", "printed", "right"), MISPRINTS)
def test_misprinted_drill_sizes_stay_told_apart(series, label, printed, right):
    inches = drills.size(series, label) / MM_PER_INCH
    assert inches == pytest.approx(right, abs=half_last_place("0.00001"))
    assert inches != pytest.approx(printed, abs=half_last_place("0.0001"))


@pytest.mark.parametrize("row", rows("tap_drill_choice.csv"), ids=lambda r: f"{r['thread']} {r['drill']}")
def test_the_drill_chosen_is_the_printed_one(row):
    wanted = (float(row["low"]), float(row["high"]))
    choice = tap_drills.choose(float(row["major_mm"]), float(row["pitch_mm"]), wanted, OWNED[row["owned"]])
    assert choice.best.drill.name == row["drill"]


@pytest.mark.parametrize(
    ("major", "pitch", "chosen", "printed"),
    [(12.0, 1.75, "10.3 mm", "10.2 mm"), (6.0, 0.75, "5.3 mm", "5.2 mm")],
)
def test_of_two_equally_near_drills_the_larger_is_taken(major, pitch, chosen, printed):
    """Metric charts print the smaller of two tenths equally far from D - P; the larger leaves less to cut."""
    choice = tap_drills.choose(major, pitch, (71.98, 81.98), OWNED["metric"])
    assert choice.best.drill.name == chosen
    assert choice.smaller is not None
    assert choice.smaller.drill.name == printed


@pytest.mark.parametrize("row", rows("reamers.csv"), ids=lambda r: f"{r['nominal_mm']}{r['hole']}")
def test_reamer_limits_match_the_table_that_the_rule_made(row):
    nominal = float(row["nominal_mm"])
    limits = reaming.reamer_limits(nominal, row["hole"])
    assert limits.least - nominal == pytest.approx(float(row["lower_mm"]), abs=half_last_place("0.001"))
    assert limits.most - nominal == pytest.approx(float(row["upper_mm"]), abs=half_last_place("0.001"))


@pytest.mark.parametrize(("kind", "off"), [("nominal", 0.0), ("under", -0.001), ("over", 0.001)])
def test_over_and_under_reamers_lie_a_thousandth_off(kind, off):
    """The thousandth makes or breaks the press of a standard dowel: 0.0002 in over nominal."""
    for reamer in reaming.sold(kind):
        nominal = units.millimetres(reamer.name)
        assert (reamer.mm - nominal) / MM_PER_INCH == pytest.approx(off, abs=1e-9)


def test_drill_before_a_6_mm_reamer():
    """Craft-training reaming table: 5.65 to 5.75 mm, so 5.7 mm."""
    drill = reaming.drill_before_reaming(6.0)
    assert drill.least == pytest.approx(5.65, abs=half_last_place("5.65"))
    assert drill.most == pytest.approx(5.75, abs=half_last_place("5.75"))


def test_drilled_hole_of_an_eighth_drill():
    """AND10387: 0.124 to 0.129 in. Handbook statistics: 0.128 in mean, 0.1295 in average maximum."""
    eighth = MM_PER_INCH / 8.0
    limits, oversize = reaming.drilled_hole(eighth), reaming.oversize(eighth)
    assert limits.least / MM_PER_INCH == pytest.approx(0.124, abs=half_last_place("0.124"))
    assert limits.most / MM_PER_INCH == pytest.approx(0.129, abs=half_last_place("0.129"))
    assert (eighth + oversize.mean) / MM_PER_INCH == pytest.approx(0.128, abs=half_last_place("0.128"))
    assert (eighth + oversize.most) / MM_PER_INCH == pytest.approx(0.1295, abs=half_last_place("0.1295"))


def test_clearance_hole_of_an_m5_screw():
    """ISO 273 medium with H13 of ISO 286: 5.500 to 5.680 mm; ASME B18.2.8 #10 normal: 0.221 to 0.228 in."""
    metric, inch = clearance.hole("M5"), clearance.hole("#10", "normal")
    assert (metric.least, metric.most) == pytest.approx((5.5, 5.68), abs=half_last_place("5.680"))
    assert inch.drill == "#2"
    assert (inch.least / MM_PER_INCH, inch.most / MM_PER_INCH) == pytest.approx((0.221, 0.228), abs=5e-4)


def test_position_left_by_m3_clearance_holes():
    """ASME Y14.5 floating fastener: T = H - F = 0.4 mm."""
    assert clearance.hole("M3").least - 3.0 == pytest.approx(0.4, abs=half_last_place("0.4"))


@pytest.mark.parametrize(
    ("screw", "fit", "inches"),
    [("1/2", "close", 17 / 32), ("1/2", "normal", 9 / 16), ("1/2", "loose", 39 / 64)],
)
def test_half_inch_row_is_that_of_the_standard_and_not_of_the_charts(screw, fit, inches):
    """Charts that add 1/64, 1/32 and 3/64 in print 33/64, 17/32 and 35/64."""
    assert clearance.hole(screw, fit).least / MM_PER_INCH == pytest.approx(
        inches, abs=half_last_place("0.001")
    )


@pytest.mark.parametrize(("screw", "bs4186"), [("M12", 14.0), ("M14", 16.0), ("M16", 18.0)])
def test_iso_273_is_not_bs_4186(screw, bs4186):
    """Machinery's Handbook 31st ed. p. 2173: BS 4186:1967 medium is half a millimetre larger from M12 on."""
    assert bs4186 - clearance.hole(screw, "medium").least == pytest.approx(0.5, abs=1e-9)


@pytest.mark.parametrize(
    ("mouth", "hole", "angle", "depth"), [(8.96, 4.5, 90.0, "2.23"), (0.362, 0.196, 82.0, "0.0955")]
)
def test_depth_of_a_cone(mouth, hole, angle, depth):
    """Worked examples of an ISO 10642 M4 and an ASME B18.6.3 #10 head."""
    assert screw_seats.cone_depth(mouth, hole, angle) == pytest.approx(
        float(depth), abs=half_last_place(depth)
    )


@pytest.mark.parametrize(("screw", "least"), [("M4", 8.96), ("#10", MM_PER_INCH * 0.362)])
def test_countersunk_heads_of_the_worked_examples(screw, least):
    assert screw_seats.countersunk_head(screw).head_diameter == pytest.approx(least, abs=5e-4)


@pytest.mark.parametrize(("series", "basic"), [("standard", 0.0002), ("oversize", 0.0010)])
def test_inch_dowels_follow_the_rule_of_their_standard(series, basic):
    """ASME B18.8.2: basic diameter = nominal + 0.0002 (oversize + 0.0010) in, limits 0.0001 in a side."""
    sizes = [
        p for p in pins.every() if p.standard == "ASME B18.8.2" and p.kind == "dowel" and p.series == series
    ]
    assert len(sizes) == 11
    for pin in sizes:
        for limit, side in ((pin.least, -0.0001), (pin.most, 0.0001)):
            # 5/64 and 5/32 in are printed from a nominal rounded to four places
            assert (limit - pin.nominal) / MM_PER_INCH == pytest.approx(basic + side, abs=0.6e-4)


def test_centre_drill_of_a_bar():
    """Workshop text: 3/8 to 1/2 in bar takes No. 2, with a mouth of 9/64 in."""
    drill = centre_drills.for_work(MM_PER_INCH * 7 / 16)
    assert drill.name == "No. 2"
    assert drill.mouth == pytest.approx(MM_PER_INCH * 9 / 64)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: drills.size("number", "98"), "run from #97 to #1; want #97"),
        (lambda: drills.size("metric", "13.1"), "want 13 mm"),
        (lambda: drills.nearest(30.0), "bore or ream"),
        (lambda: clearance.hole("M18"), "want M16"),
        (lambda: clearance.hole("M5", "snug"), "want close, normal, loose"),
        (lambda: clearance.hole_for(5.5), "want M5 or M6"),
        (lambda: screw_seats.counterbore("M7"), "want M6"),
        (lambda: screw_seats.cone_depth(4.0, 5.0, 90.0), "want a mouth larger"),
        (lambda: pins.find("dowel", "1/3 in"), "want 1/16 in"),
        (lambda: pins.hole("soft rod", "1/8 in"), "maker's own number"),
        (lambda: reaming.sold("big"), "want nominal, under, over"),
        (lambda: reaming.oversize(30.0), "want a drill up to 1 in"),
        (lambda: reaming.drilled_hole(0.1), r"over 0\.0134 up to 1 in"),
        (lambda: centre_drills.for_work(3.0), r"want 4\.7625 mm or more"),
        (
            lambda: tap_drills.choose(4.1656, 0.79375, (60.0, 70.0), drills.series("number")[:3]),
            "want one of",
        ),
        (lambda: tap_drills.choose(4.1656, 0.79375, (70.0, 60.0), INCH_DRILLS), "not a range"),
    ],
)
def test_what_no_standard_holds_is_refused_with_a_way_out(call, message):
    with pytest.raises(ValueError, match=message):
        call()
