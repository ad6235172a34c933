"""Change gears searched among twenty owned ones, against the drawing of two pages."""

import pytest

from jobsheets.cutting import gear_train
from jobsheets.cutting.gear_train import Banjo
from tests.benchmarks import floor, one_job
from tests.benchmarks.measure import in_turns, warm

OWNED = (20, 20, 21, 25, 28, 30, 35, 40, 45, 50, 55, 57, 60, 63, 65, 70, 75, 80, 100, 127)
BANJO = Banjo(module=1.0, span=96.0, slot_from=32.0, slot_to=82.0, shaft=16.0)
THREADS = {  # lead and leadscrew, mm
    "exact, inch on inch": (25.4 / 20, 25.4 / 16),
    "exact by the 127": (1.25, 25.4 / 16),
    "exact, metric on metric": (0.75, 1.5),
    "near only, widest search": (25.4 / 27, 1.5),
}
MOST = 1.0  # times SHEET


@pytest.mark.timing
@pytest.mark.parametrize("name", THREADS)
def test_search_takes_less_than_drawing_two_pages(name):
    lead, screw = THREADS[name]
    ratio = gear_train.ratio_for(lead, screw)
    positions = one_job.two_pages()
    floor.register(positions["faces"])
    found = gear_train.best(ratio, OWNED, BANJO)
    assert found
    took = in_turns(
        {
            "sheet": warm(lambda: one_job.drawn(positions)),
            "search": warm(lambda: gear_train.best(ratio, OWNED, BANJO)),
        },
        rounds=7,
    )
    assert took["search"] < MOST * took["sheet"]


def test_search_over_a_bench(benchmark):
    ratio = gear_train.ratio_for(*THREADS["exact by the 127"])
    assert benchmark(lambda: gear_train.best(ratio, OWNED, BANJO))
