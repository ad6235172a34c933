"""Dial readings against worked cases, and the edges of a collar."""

import pytest

from jobsheets.shop.dials import Reading, for_diameter_change, overshoot, reading, text, travel
from jobsheets.shop.machines import Dial, Reads

INCH = 25.4


def dial(per_turn: float, divisions: float, reads: Reads = Reads.TRAVEL, **more: float) -> Dial:
    values: dict[str, float] = {"backlash": 0.1, "travel": 500.0} | more
    return Dial(
        axis="cross slide" if reads is not Reads.TRAVEL else "quill",
        per_turn=per_turn,
        divisions=divisions,
        label="0.001 in",
        reads=reads,
        **values,
    )


# The four cases below are worked by hand from common dials: 1 mm screw with "thou" divisions, 1/16 in screw,
# quills of 0.100 in and 2.5 mm, and a direct-reading 0.050 in cross slide.


def test_collar_marked_in_thou_on_a_millimetre_screw_takes_too_little():
    slide = dial(1.0, 40, Reads.RADIUS)
    exact = 0.0600 * INCH / 2.0 / slide.division
    assert exact == pytest.approx(30.5, abs=0.05)
    set_to = for_diameter_change(slide, 0.0600 * INCH)
    assert set_to == Reading(turns=0, divisions=30)
    taken = 2.0 * travel(slide, set_to) / INCH
    assert taken == pytest.approx(0.0591, abs=0.00005)
    assert 0.0600 - taken == pytest.approx(0.0009, abs=0.00005)


@pytest.mark.parametrize(("inches", "turns", "divisions"), [(0.300, 4, 50), (0.875, 14, 0)])
def test_sixteenth_screw_with_sixty_two_and_a_half_divisions(inches, turns, divisions):
    table = dial(0.0625 * INCH, 62.5)
    assert reading(table, inches * INCH) == Reading(turns=turns, divisions=divisions)


def test_quill_of_a_tenth_of_an_inch():
    assert reading(dial(0.100 * INCH, 100), 0.539 * INCH) == Reading(turns=5, divisions=39)


def test_quill_of_two_and_a_half_millimetres():
    quill = dial(2.5, 50)
    set_to = reading(quill, 13.7)
    assert set_to == Reading(turns=5, divisions=24)
    assert set_to.divisions * quill.division == pytest.approx(1.2)


def test_direct_reading_cross_slide():
    slide = dial(0.050 * INCH, 50, Reads.RADIUS)
    set_to = for_diameter_change(slide, (1.000 - 0.876) * INCH)
    assert set_to == Reading(turns=1, divisions=12)
    assert text(slide, set_to) == "1 turn + 12 div"


def test_diameter_collar_counts_the_same_lines_for_the_same_true_travel():
    radius = dial(1.0, 100, Reads.RADIUS)
    diameter = dial(1.0, 100, Reads.DIAMETER)
    assert (
        for_diameter_change(radius, 2.5)
        == for_diameter_change(diameter, 2.5)
        == Reading(turns=1, divisions=25)
    )


@pytest.mark.parametrize(
    ("divisions", "turns", "shown"),
    [
        (0.0, 0, "0 div"),
        (0.0, 1, "1 turn"),
        (0.0, 14, "14 turns"),
        (12.5, 0, "12.5 div"),
        (3.0, 2, "2 turns + 3 div"),
    ],
)
def test_words_of_a_setting(divisions, turns, shown):
    assert text(dial(1.0, 40), Reading(turns=turns, divisions=divisions)) == shown


def test_midway_between_two_lines_is_kept_and_anything_else_is_not():
    slide = dial(1.0, 50)
    assert reading(slide, 12.5 * slide.division).divisions == 12.5
    assert reading(slide, 12.4 * slide.division).divisions == 12.0
    assert reading(slide, 12.6 * slide.division).divisions == 13.0


def test_just_below_a_full_turn_is_the_turn():
    assert reading(dial(1.0, 50), 0.995) == Reading(turns=1, divisions=0)
    assert reading(dial(1.0, 50), 3.0 - 1e-12) == Reading(turns=3, divisions=0)


def test_cut_short_last_division_goes_to_the_nearer_line():
    table = dial(0.0625 * INCH, 62.5)
    assert reading(table, 0.0621 * INCH) == Reading(turns=0, divisions=62)
    assert reading(table, 0.0624 * INCH) == Reading(turns=1, divisions=0)


def test_readout_gives_the_value_and_the_nearest_line_beside_it():
    table = dial(1.5, 60, readout=0.01)
    set_to = reading(table, 4.567)
    assert set_to.value == pytest.approx(4.57)
    assert (set_to.turns, set_to.divisions) == (3, 3.0)
    assert travel(table, set_to) == pytest.approx(4.57)
    assert text(table, set_to) == "4.570 mm"


def test_readout_on_a_diameter_axis_is_told_as_a_diameter():
    slide = dial(1.0, 100, Reads.DIAMETER, readout=0.005)
    assert text(slide, for_diameter_change(slide, 3.0)) == "3.000 mm"


def test_travel_below_zero_is_refused_with_a_cure():
    with pytest.raises(ValueError, match="set zero where the numbers climb from"):
        reading(dial(1.0, 50), -0.5)


def test_lengthwise_dial_sets_no_diameter():
    with pytest.raises(ValueError, match="want a dial that reads radius or diameter"):
        for_diameter_change(dial(1.0, 50), 1.0)


@pytest.mark.parametrize(
    ("backlash", "turns"), [(0.0, 0.5), (0.1, 0.5), (0.49, 0.5), (0.5, 1.0), (0.7, 1.0), (1.2, 1.5)]
)
def test_overshoot_is_the_least_half_turn_beyond_the_backlash(backlash, turns):
    assert overshoot(dial(1.0, 50, backlash=backlash)) == turns
