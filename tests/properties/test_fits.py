"""What must hold of fits and general tolerances whatever the size."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jobsheets.standards import fits, general_tolerance

SIZES = st.floats(0.1, 500.0)
GRADES = st.integers(4, 14)
RANGE_ENDS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
FINE_ENDS = (
    3,
    6,
    10,
    14,
    18,
    24,
    30,
    40,
    50,
    65,
    80,
    100,
    120,
    140,
    160,
    180,
    200,
    225,
    250,
    280,
    315,
    355,
    400,
    450,
    500,
)
MULTIPLES = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40, 10: 64, 11: 100, 12: 160, 13: 250, 14: 400}  # of the unit i


@given(grade=GRADES, size=SIZES, letter=st.sampled_from(("js", "JS")))
def test_js_is_symmetric(grade, size, letter):
    limits = fits.limits(f"{letter}{grade}", size)
    assert limits.lower == -limits.upper
    assert limits.upper - limits.lower == pytest.approx(fits.tolerance(grade, size))


@given(grade=GRADES, size=SIZES)
def test_basic_hole_and_basic_shaft_touch_the_nominal_size(grade, size):
    assert fits.limits(f"H{grade}", size).lower == 0.0
    assert fits.limits(f"h{grade}", size).upper == 0.0


@given(letter=st.sampled_from("defghkmnprs"), grade=GRADES, size=SIZES)
def test_limits_are_as_wide_as_their_grade(letter, grade, size):
    limits = fits.limits(f"{letter}{grade}", size)
    assert limits.upper - limits.lower == pytest.approx(fits.tolerance(grade, size))


@given(letter=st.sampled_from("KMNP"), grade=st.integers(5, 8), size=st.floats(3.001, 500.0))
def test_delta_makes_the_mirrored_fits_equal(letter, grade, size):
    """A hole with delta and a basic shaft leave what the basic hole and the same-letter shaft leave."""
    assume(letter != "P" or grade <= 7)
    finer = grade - 1
    shaft_letter = letter.lower()
    mirrored = fits.fit(f"H{grade}", f"{shaft_letter}{finer}", size)
    fit = fits.fit(f"{letter}{grade}", f"h{finer}", size)
    assert fit.least_clearance == pytest.approx(mirrored.least_clearance, abs=1e-9)
    assert fit.most_clearance == pytest.approx(mirrored.most_clearance, abs=1e-9)


@given(letter=st.sampled_from("defg"), grade=GRADES, size=SIZES)
def test_clearance_holes_mirror_their_shafts(letter, grade, size):
    hole, shaft = fits.limits(f"{letter.upper()}{grade}", size), fits.limits(f"{letter}{grade}", size)
    assert hole.lower == -shaft.upper
    assert hole.upper == -shaft.lower


@pytest.mark.parametrize(("over", "end"), list(pairwise(FINE_ENDS)))
def test_shaft_letters_follow_the_formulas_of_the_standard(over, end):
    """ISO 286-1, from 3 mm (the first range is smoothed by hand), with the geometric mean D of a range.

    m = IT7 - IT6; p = IT7 + 0 to 5; s = IT8 + 1 to 4 up to 50 mm, then IT7 + 0.4 D; r = the mean of p and s;
    u = IT7 + D from 24 mm.
    """
    it6, it7, it8 = (1000.0 * fits.tolerance(grade, end) for grade in (6, 7, 8))
    m, p, r, s = (1000.0 * fits.limits(f"{letter}7", end).lower for letter in "mprs")
    assert m == pytest.approx(it7 - it6)
    assert -1e-6 < p - it7 < 5.5
    assert s == pytest.approx(it8 + 2.5 if end <= 50 else it7 + 0.4 * math.sqrt(over * end), abs=2.5)
    assert r == pytest.approx(math.sqrt(p * s), abs=1.5)
    if over >= 24 and end <= 120:
        u = 1000.0 * fits.limits("u7", end).lower
        assert u == pytest.approx(it7 + math.sqrt(over * end), abs=1.5)


@pytest.mark.parametrize("end", FINE_ENDS)
def test_holes_without_delta_mirror_their_shafts(end):
    for letter, grades in (("M", (9, 10)), ("P", (8, 9, 10))):
        for grade in grades:
            shaft = fits.limits(f"{letter.lower()}7", end).lower
            assert fits.limits(f"{letter}{grade}", end).upper == -shaft
    assert fits.limits("N9", end).upper == (-0.004 if end <= 3.0 else 0.0)


@pytest.mark.parametrize("end", FINE_ENDS)
@pytest.mark.parametrize("grade", [5, 6, 7, 8])
def test_delta_makes_the_mirrored_fits_equal_in_every_range(end, grade):
    for letter in "KMN" if grade == 8 else "KMNP":
        if end <= 3.0:
            continue
        mirrored = fits.fit(f"H{grade}", f"{letter.lower()}{grade - 1}", end)
        assert fits.fit(f"{letter}{grade}", f"h{grade - 1}", end).least_clearance == pytest.approx(
            mirrored.least_clearance, abs=1e-9
        )


@pytest.mark.parametrize("end", RANGE_ENDS)
def test_five_grades_on_a_tolerance_is_tenfold(end):
    """R5 series of ISO 286-1; IT11 over 3 to 6 mm is printed 75, not 80."""
    for grade in (6, 7, 8, 9):
        tenfold = 10.0 * fits.tolerance(grade, end)
        printed = 0.075 if (grade, end) == (6, 6) else tenfold
        assert fits.tolerance(grade + 5, end) == pytest.approx(printed)


@given(grade=st.integers(4, 13), size=SIZES)
def test_tolerance_grows_with_the_grade(grade, size):
    assert fits.tolerance(grade, size) < fits.tolerance(grade + 1, size)


@given(grade=GRADES, small=SIZES, large=SIZES)
def test_tolerance_never_falls_with_the_size(grade, small, large):
    small, large = sorted((small, large))
    assert fits.tolerance(grade, small) <= fits.tolerance(grade, large)


@given(
    letters=st.sampled_from(("cd", "de", "ef", "fg", "gh", "km", "mn", "np", "pr", "rs")),
    size=st.floats(0.1, 120.0),
)
def test_later_letters_lie_higher(letters, size):
    first, second = (fits.limits(f"{letter}7", size) for letter in letters)
    assert first.lower < second.lower


@pytest.mark.parametrize("end", RANGE_ENDS)
def test_a_range_holds_its_upper_end_and_not_its_lower(end):
    assert fits.tolerance(7, float(end)) == fits.tolerance(7, end - 0.001)
    if end < 500:
        assert fits.tolerance(7, end + 0.001) > fits.tolerance(7, float(end))


@pytest.mark.parametrize("grade", MULTIPLES)
def test_the_table_of_grades_follows_its_formula(grade):
    """ISO 286-1 rule: i = 0.45 cbrt(D) + 0.001 D um at the geometric mean D of a range.

    The standard rounds its values, the first range the most (IT6 up to 3 mm is 6, by the formula 5.4).
    """
    low = 1.0
    for high in RANGE_ENDS:
        mean = math.sqrt(low * high)
        unit = 0.45 * mean ** (1.0 / 3.0) + 0.001 * mean
        printed = 1000.0 * fits.tolerance(grade, float(high))
        assert printed == pytest.approx(MULTIPLES[grade] * unit, rel=0.16 if high == 3 else 0.1)
        low = high


@given(classes=st.sampled_from(("fm", "mc", "cv")), size=st.floats(3.1, 2000.0))
def test_a_coarser_general_class_allows_more(classes, size):
    fine, coarse = classes
    assert general_tolerance.linear(size, fine) < general_tolerance.linear(size, coarse)
    assert general_tolerance.external_radius(size, fine) <= general_tolerance.external_radius(size, coarse)
    assert general_tolerance.angular(size, fine) <= general_tolerance.angular(size, coarse)


@given(cls=st.sampled_from("fmcv"), small=st.floats(3.1, 2000.0), large=st.floats(3.1, 2000.0))
def test_general_lengths_widen_and_angles_narrow_with_the_size(cls, small, large):
    small, large = sorted((small, large))
    assert general_tolerance.linear(small, cls) <= general_tolerance.linear(large, cls)
    assert general_tolerance.angular(small, cls) >= general_tolerance.angular(large, cls)


@pytest.mark.parametrize(("size", "cls"), [(0.49, "m"), (2000.1, "f"), (3.0, "v"), (4000.1, "c")])
def test_general_tolerance_ends_where_the_standard_ends(size, cls):
    with pytest.raises(ValueError, match="write the limits at the dimension"):
        general_tolerance.linear(size, cls)
