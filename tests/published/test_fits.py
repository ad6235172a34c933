"""ISO 286 and ANSI B4.1 against printed limits and clearances."""

import pytest

from jobsheets.standards import fits, fits_inch, general_tolerance

from .published import half_last_place, rows

MM_PER_INCH = 25.4
MM_PER_THOU = 0.0254


@pytest.mark.parametrize("row", rows("fits_iso286.csv"), ids=lambda r: f"{r['nominal_mm']}{r['symbol']}")
def test_limits_of_a_size_match_print(row):
    limits = fits.limits(row["symbol"], float(row["nominal_mm"]))
    assert 1000.0 * limits.lower == pytest.approx(
        float(row["lower_um"]), abs=half_last_place(row["lower_um"])
    )
    assert 1000.0 * limits.upper == pytest.approx(
        float(row["upper_um"]), abs=half_last_place(row["upper_um"])
    )


@pytest.mark.parametrize(
    "row", rows("fits_iso286_clearance.csv"), ids=lambda r: f"{r['nominal_mm']}{r['hole']}/{r['shaft']}"
)
def test_clearances_match_print(row):
    fit = fits.fit(row["hole"], row["shaft"], float(row["nominal_mm"]))
    assert fit.least_clearance == pytest.approx(float(row["least_mm"]), abs=half_last_place("0.001"))
    assert fit.most_clearance == pytest.approx(float(row["most_mm"]), abs=half_last_place("0.001"))


@pytest.mark.parametrize(
    "row", rows("fits_inch_clearance.csv"), ids=lambda r: f"{r['fit']} to {r['nominal_in']} in"
)
def test_inch_clearances_match_print(row):
    fit = fits_inch.fit(row["fit"], MM_PER_INCH * float(row["nominal_in"]))
    least, most = fit.least_clearance / MM_PER_THOU, fit.most_clearance / MM_PER_THOU
    assert least == pytest.approx(float(row["least_thou"]), abs=half_last_place("0.01"))
    assert most == pytest.approx(float(row["most_thou"]), abs=half_last_place("0.01"))


@pytest.mark.parametrize("row", rows("fits_inch_limits.csv"), ids=lambda r: r["fit"])
def test_inch_limits_of_both_parts_match_print(row):
    nominal = MM_PER_INCH * float(row["nominal_in"])
    fit = fits_inch.fit(row["fit"], nominal)
    for side, part in (("hole", fit.hole), ("shaft", fit.shaft)):
        for end, deviation in (("min", part.lower), ("max", part.upper)):
            printed = row[f"{side}_{end}"]
            size = (nominal + deviation) / MM_PER_INCH
            assert size == pytest.approx(float(printed), abs=half_last_place(printed))


@pytest.mark.parametrize("row", rows("fits_deviations.csv"), ids=lambda r: f"{r['nominal_mm']}{r['symbol']}")
def test_fundamental_deviations_of_large_shafts_match_print(row):
    limits = fits.limits(row["symbol"], float(row["nominal_mm"]))
    found = limits.upper if row["side"] == "upper" else limits.lower
    assert 1000.0 * found == pytest.approx(float(row["value_um"]), abs=half_last_place(row["value_um"]))


@pytest.mark.parametrize("row", rows("fits_delta.csv"), ids=lambda r: r["nominal_mm"])
def test_delta_matches_the_column_of_the_standard(row):
    """What a hole N lies above the mirrored shaft n."""
    size = float(row["nominal_mm"])
    for grade in (5, 6, 7, 8):
        delta = fits.limits(f"N{grade}", size).upper + fits.limits("n7", size).lower
        printed = row[f"it{grade}"]
        assert 1000.0 * delta == pytest.approx(float(printed), abs=half_last_place(printed))


@pytest.mark.parametrize(
    "row", rows("general_tolerance.csv"), ids=lambda r: f"{r['kind']} {r['class']} {r['nominal_mm']}"
)
def test_general_tolerances_match_print(row):
    look_up = getattr(general_tolerance, row["kind"])
    found = look_up(float(row["nominal_mm"]), row["class"])
    assert found == pytest.approx(float(row["limit"]), abs=1e-9)  # whole limits, not rounded figures


@pytest.mark.parametrize(
    ("symbol", "nominal", "message"),
    [
        ("H7", 501.0, "over 0 up to 500 mm"),
        ("H7", 0.0, "over 0 up to 500 mm"),
        ("u6", 121.0, "over 0 up to 120 mm"),
        ("K9", 10.0, "over 0 up to 3 mm"),
        ("H15", 10.0, "IT4 to IT14"),
        ("q7", 10.0, "want a letter of"),
        ("7H", 10.0, "want a letter of"),
    ],
)
def test_what_the_tables_do_not_hold_is_refused(symbol, nominal, message):
    with pytest.raises(ValueError, match=message):
        fits.limits(symbol, nominal)


def test_a_shaft_is_not_taken_for_a_hole():
    with pytest.raises(ValueError, match="want the hole first"):
        fits.fit("h7", "H7", 10.0)


def test_an_unknown_inch_fit_or_size_is_refused():
    with pytest.raises(ValueError, match="want RC1"):
        fits_inch.fit("RC10", 10.0)
    with pytest.raises(ValueError, match=r"over 0 up to 1\.97 in"):
        fits_inch.fit("RC4", 60.0)


def test_every_preferred_fit_has_limits_or_asks_for_the_makers_own_number():
    own = 0
    for one in fits.preferred():
        if one.hole:
            assert fits.fit(one.hole, one.shaft, 10.0).most_clearance > -0.05
        else:
            own += 1
            assert "maker's own number" in one.note
        if one.inch:
            assert one.inch in fits_inch.names()
    assert own == 6
