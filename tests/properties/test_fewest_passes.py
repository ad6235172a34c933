"""Roughing in the fewest passes, so in the least time: against every other schedule on the dial."""

from functools import cache
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from jobsheets.cutting.times import turning_time
from jobsheets.part.turned import SegmentKind
from jobsheets.planner import turning
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Operation, RowKind
from jobsheets.planner.plan import _view
from jobsheets.shop.dials import travel
from tests.properties.planned import RECIPES, planned

MOST_LINES = 400  # of stock in the trial; more would only take longer


@cache
def best_schedules(lines: int, most: int) -> tuple[list[float], list[float]]:
    """For each stock in lines: fewest passes, and over those schedules the least deepest pass, by trial.

    Every pass takes 1 to `most` whole lines. All schedules are covered: the last pass is tried at each depth
    on top of the best of what is left.
    """
    fewest: list[float] = [0.0]
    deepest: list[float] = [0.0]
    for stock in range(1, lines + 1):
        tried = [
            (fewest[stock - last] + 1.0, max(deepest[stock - last], float(last)))
            for last in range(1, min(most, stock) + 1)
        ]
        passes, cut = min(tried, default=(inf, inf))
        fewest.append(passes)
        deepest.append(cut)
    return fewest, deepest


@cache
def bench(recipe: str, most_depth: float, rigidity: float) -> JobView:
    done = planned(recipe)
    house = replace(done.shop.house, most_depth=most_depth)
    shop = replace(done.shop, house=house, lathe=replace(done.shop.lathe, rigidity=rigidity))
    return _view(done.part, shop)[0]


def roughed(view: JobView, recipe: str) -> list[Operation]:
    setup = planned(recipe).setups[0]
    segments = [s for s in view.part.segments if not s.as_stock and s.kind is not SegmentKind.GROOVE]
    found = [turning.rough(view, setup, s, view.targets.rod, ()) for s in segments if s.id in view.first]
    return [op for op in found if op is not None]


@pytest.mark.parametrize("recipe", RECIPES)
@settings(max_examples=20)
@given(
    most_depth=st.sampled_from([0.2, 0.3, 0.45, 0.75, 1.1, 2.0]), rigidity=st.sampled_from([0.2, 0.4, 1.0])
)
def test_roughing_takes_the_fewest_passes_that_its_depth_allows(recipe, most_depth, rigidity):
    view = bench(recipe, most_depth, rigidity)
    step = view.cross.step
    for op in roughed(view, recipe):
        cuts = [row for row in op.rows if row.kind is RowKind.ROUGH]
        ends = [round(travel(view.cross, row.x) / step) for row in cuts]
        depths = [b - a for a, b in zip([0, *ends], ends, strict=False)]
        limit = round(op.figure("depth_of_cut").value / step)
        assert ends[-1] <= MOST_LINES
        fewest, deepest = best_schedules(MOST_LINES, limit)
        assert len(cuts) == fewest[ends[-1]]
        assert max(depths) == deepest[ends[-1]] <= limit  # equal: no schedule so short loads the tool less


@pytest.mark.parametrize("recipe", RECIPES)
def test_the_printed_time_is_that_of_the_fewest_passes(recipe):
    """A pass costs (L + a) / (f n) however deep it is, so fewer passes are less time and nothing else is."""
    for op in planned(recipe).operations:
        if not op.id.endswith(".rough"):
            continue
        cuts = [row for row in op.rows if row.kind is RowKind.ROUGH]
        once = turning_time(cuts[-1].at + 2.0, op.figure("feed").value, op.figure("speed").value)
        assert op.cutting_minutes == pytest.approx(len(cuts) * once)


def test_that_is_shown_on_schedules_of_several_passes():
    counts = [
        sum(row.kind is RowKind.ROUGH for row in op.rows)
        for recipe in RECIPES
        for op in roughed(bench(recipe, 0.3, 0.4), recipe)
    ]
    assert len(counts) >= len(RECIPES) / 2
    assert max(counts) >= 8


def test_the_trial_itself_by_hand():
    """7 lines, 3 at most: 3 + 2 + 2 is three passes; two passes reach 6 lines only."""
    fewest, deepest = best_schedules(7, 3)
    assert (fewest[7], deepest[7]) == (3.0, 3.0)
    assert (fewest[6], deepest[6]) == (2.0, 3.0)
    assert (fewest[4], deepest[4]) == (2.0, 2.0)
