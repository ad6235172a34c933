"""Time of cutting, measuring and auditing a plan grows no faster than the number of its operations."""

import pytest

from tests.benchmarks import stairs

ENOUGH = 80  # steps, 243 operations; the report goes to 483
LINEAR, PAIRS = 1.5, 4.0  # times as much for each of many operations


@pytest.mark.timing
@pytest.mark.parametrize("name", stairs.LINEAR)
def test_time_of_an_operation(name):
    assert stairs.growth(stairs.LINEAR[name], ENOUGH) <= LINEAR


@pytest.mark.timing
def test_time_of_an_operation_planned():
    """Not linear by nature: a cut bends every step of the bar; up to twenty steps that does not show."""
    assert stairs.growth(stairs.PAIRS["planned"], 20) <= LINEAR
    assert stairs.growth(stairs.PAIRS["planned"], ENOUGH) <= PAIRS


def test_many_steps_make_many_operations():
    assert len(stairs.planned(ENOUGH).operations) == 3 * ENOUGH + 3
