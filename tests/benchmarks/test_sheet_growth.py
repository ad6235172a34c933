"""Time and memory of laying out and printing grow no faster than the number of operations."""

import pytest

from tests.benchmarks import growth

ENOUGH = 150  # operations; the report goes to 500


@pytest.mark.timing
@pytest.mark.parametrize("name", growth.WORK)
def test_time_of_an_operation(name):
    assert growth.time(name, ENOUGH) <= growth.MOST


@pytest.mark.parametrize("name", growth.WORK)
def test_memory_of_an_operation(name):
    assert growth.memory(name, ENOUGH) <= growth.MOST
