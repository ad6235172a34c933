"""Speeds that exist, chosen for a speed that is wanted."""

from dataclasses import dataclass

import pytest

from jobsheets.shop.machines import SpeedRange, SpeedStep
from jobsheets.shop.speeds import at_or_below


@dataclass(frozen=True)
class Drive:
    """As much of a machine as its speeds."""

    name: str = "lathe"
    speeds: tuple[SpeedStep, ...] = ()
    ranges: tuple[SpeedRange, ...] = ()


BELTS = Drive(
    speeds=tuple(
        SpeedStep(rpm=rpm, position=position)
        for rpm, position in [
            (130.0, "A1"),
            (300.0, "A2"),
            (400.0, "A3"),
            (600.0, "B1"),
            (1000.0, "B2"),
            (2000.0, "B3"),
        ]
    )
)
STEPLESS = Drive(
    ranges=(
        SpeedRange(least=100.0, most=1100.0, step=10.0, position="lever L"),
        SpeedRange(least=205.0, most=2200.0, step=10.0, position="lever H"),
    )
)


@pytest.mark.parametrize(
    ("wanted", "rpm", "position"),
    [
        (1100.0, 1000.0, "B2"),
        (999.9, 600.0, "B1"),
        (600.0, 600.0, "B1"),
        (130.0, 130.0, "A1"),
        (299.0, 130.0, "A1"),
    ],
)
def test_belt_below_the_wanted_speed(wanted, rpm, position):
    chosen = at_or_below(BELTS, wanted)
    assert (chosen.rpm, chosen.position, chosen.too_fast) == (rpm, position, False)
    assert "rounded down" in chosen.ruled_by


def test_fastest_belt_rules_above_it():
    chosen = at_or_below(BELTS, 5000.0)
    assert (chosen.rpm, chosen.ruled_by) == (2000.0, "fastest speed of the machine")


@pytest.mark.parametrize("machine", [BELTS, STEPLESS])
def test_slowest_still_too_fast_is_told_apart(machine):
    chosen = at_or_below(machine, 40.0)
    assert chosen.too_fast
    assert chosen.rpm in (130.0, 100.0)
    assert chosen.ruled_by == "slowest speed of the machine"


def test_stepless_speed_is_rounded_down_to_its_step():
    assert at_or_below(STEPLESS, 1234.0).rpm == 1230.0
    assert at_or_below(STEPLESS, 1234.0).position == "lever H"


def test_of_two_ranges_the_slower_one_for_its_force():
    assert at_or_below(STEPLESS, 800.0).position == "lever L"


def test_end_of_a_range_that_is_no_multiple_of_its_step():
    odd = Drive(ranges=(SpeedRange(least=55.0, most=1005.0, step=10.0, position="L"),))
    assert at_or_below(odd, 57.0).rpm == 55.0
    assert at_or_below(odd, 1006.0).rpm == 1005.0


def test_wanted_speed_a_rounding_below_a_step_is_that_step():
    assert at_or_below(BELTS, 600.0 * (1.0 - 1e-12)).rpm == 600.0


def test_no_speed_and_no_machine_are_refused():
    with pytest.raises(ValueError, match="want more than 0"):
        at_or_below(BELTS, 0.0)
    with pytest.raises(ValueError, match="want speeds or ranges"):
        at_or_below(Drive(), 100.0)
