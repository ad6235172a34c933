"""Bar as sold against printed and worked tolerances."""

import pytest

from jobsheets.standards import fits_inch, materials, stock

from .published import half_last_place, rows

MM_PER_INCH = 25.4


@pytest.mark.parametrize("row", rows("bar_tolerances.csv"), ids=lambda r: f"{r['standard']} {r['nominal']}")
def test_bar_tolerance_matches_print(row):
    scale = MM_PER_INCH if row["unit"] == "in" else 1.0
    found = stock.tolerance(row["standard"], scale * float(row["nominal"]))
    assert found.lower / scale == pytest.approx(float(row["lower"]), abs=half_last_place(row["lower"]))
    assert found.upper / scale == pytest.approx(float(row["upper"]), abs=half_last_place(row["upper"]))


def test_drawn_bar_in_an_rc4_hole():
    """Worked example: 1/2 in A108 bar in an RC4 hole has 0 to 0.003 in, wider than RC4 (0.0006 to 0.0023)."""
    half = MM_PER_INCH / 2.0
    fit = fits_inch.fit("RC4", half)
    bar = stock.tolerance("ASTM A108 round, low carbon", half)
    assert (fit.hole.lower - bar.upper) / MM_PER_INCH == pytest.approx(0.0, abs=half_last_place("0.000"))
    assert (fit.hole.upper - bar.lower) / MM_PER_INCH == pytest.approx(0.003, abs=half_last_place("0.003"))
    assert fit.least_clearance / MM_PER_INCH == pytest.approx(0.0006, abs=half_last_place("0.0006"))
    assert fit.most_clearance / MM_PER_INCH == pytest.approx(0.0023, abs=half_last_place("0.0023"))


def test_the_sign_of_a_standard_is_that_of_its_table():
    for bar in stock.bars():
        nominal = {"EN 10060 round": 12.0, "ASTM A29 round": 12.0}.get(bar.name, 12.7)
        found = stock.tolerance(bar.name, nominal)
        assert found.lower < 0.0
        assert (found.upper == 0.0) == (bar.sign == "minus only")


def test_every_material_named_by_a_standard_exists():
    named = {name for bar in stock.bars() for name in bar.materials}
    assert named <= set(materials.names())
    assert [bar.sign for bar in stock.rounds_of(materials.find("303"))] == ["plus and minus"]


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: stock.tolerance("ASTM A484 round", 100.0), "1.5 to 3"),
        (lambda: stock.tolerance("EN 10060 round", 15.5), "10 to 15, 16 to 25"),
        (lambda: stock.tolerance("EN 10278 drawn round", 130.0), "1 to 120"),
        (lambda: stock.tolerance("A484", 10.0), "want ASTM A484 round"),
        (lambda: stock.bars("triangle"), "want round"),
        (lambda: stock.round_sizes("cm"), "want in, mm"),
    ],
)
def test_what_no_standard_holds_is_refused_with_the_range(call, message):
    with pytest.raises(ValueError, match=message):
        call()
