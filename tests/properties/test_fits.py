"""What must hold of fits and general tolerances whatever the size."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jobsheets.standards import fits, general_tolerance

SIZES = st.floats(0.1, 500.0)
GRADES = st.integers(4, 14)
RANGE_ENDS = (3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
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
