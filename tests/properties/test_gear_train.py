"""The gear search against trying everything, and what must hold of every train."""

from itertools import permutations
from math import hypot, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobsheets.cutting.gear_train import Banjo, Train, best, error_over, lead_cut, ratio_for, search

BANJO = Banjo(module=1.0, span=90.0, slot_from=30.0, slot_to=80.0, shaft=16.0)
gear = st.sampled_from((20, 21, 24, 25, 28, 30, 35, 40, 45, 50, 55, 57, 60, 63, 65, 70, 75, 80, 100, 127))
boxes = st.lists(gear, min_size=3, max_size=7).map(tuple)
leads = st.sampled_from((0.5, 0.7, 0.75, 0.8, 1.0, 1.25, 1.5, 25.4 / 20, 25.4 / 24, 25.4 / 32, 25.4 / 13))
screws = st.sampled_from((1.5, 2.0, 3.0, 25.4 / 16, 25.4 / 8))


def meets(first: float, second: float, banjo: Banjo) -> bool:
    """The banjo stud as a point: on a circle round the stud and on one round the leadscrew, in the slot."""
    if not banjo.slot_from <= second <= banjo.slot_to:
        return False
    along = (first * first - second * second + banjo.span * banjo.span) / (2.0 * banjo.span)
    beside = first * first - along * along
    return beside >= 0.0 and abs(hypot(along - banjo.span, sqrt(beside)) - second) < 1e-6


def tips(teeth: int, banjo: Banjo) -> float:
    return banjo.module * (teeth + 2) / 2.0


def apart(a: int, b: int, banjo: Banjo) -> float:
    return banjo.module * (a + b) / 2.0


def possible(order: tuple[int, ...], banjo: Banjo | None) -> bool:
    if banjo is None:
        return True
    free = banjo.shaft / 2.0
    if len(order) == 3:
        a, idler, d = order
        near, far = apart(a, idler, banjo), apart(idler, d, banjo)
        return meets(near, far, banjo) and tips(a, banjo) + tips(d, banjo) <= banjo.span
    a, b, c, d = order
    near, far = apart(a, b, banjo), apart(c, d, banjo)
    clear = (
        tips(b, banjo) + free <= far,
        tips(c, banjo) + free <= near,
        tips(a, banjo) + free <= banjo.span,
        tips(d, banjo) + free <= banjo.span,
    )
    return meets(near, far, banjo) and all(clear)


def by_trying(
    ratio: float, owned: tuple[int, ...], banjo: Banjo | None, within: float
) -> set[tuple[int, ...]]:
    """Every train there is: all ways to take three gears, one an idler, and all ways to take four."""
    room = max(within, 1e-11)
    simple = {
        (a, d)
        for a, idler, d in set(permutations(owned, 3))
        if abs(a / d / ratio - 1.0) <= room and possible((a, idler, d), banjo)
    }
    compound = {
        order
        for order in set(permutations(owned, 4))
        if abs(order[0] * order[2] / (order[1] * order[3]) / ratio - 1.0) <= room and possible(order, banjo)
    }
    return simple | compound


@given(owned=boxes, lead=leads, screw=screws, within=st.sampled_from((0.0, 1e-3, 0.05, 0.4)))
@pytest.mark.parametrize("banjo", [None, BANJO], ids=["any banjo", "this banjo"])
@settings(max_examples=120, deadline=None)
def test_search_finds_every_train_that_trying_finds(banjo, owned, lead, screw, within):
    ratio = ratio_for(lead, screw)
    found = [t.gears for t in search(ratio, owned, banjo, within)]
    assert len(found) == len(set(found))
    assert set(found) == by_trying(ratio, owned, banjo, within)


def test_trying_finds_something_on_this_banjo():
    """The test above would be empty if the invented banjo took no train at all."""
    owned = (20, 30, 35, 40, 45, 50, 60, 65, 75, 80)
    assert len(by_trying(0.8, owned, BANJO, 0.0)) > 3
    assert len(by_trying(0.8, owned, BANJO, 0.0)) < len(by_trying(0.8, owned, None, 0.0))


@given(owned=boxes, lead=leads, screw=screws, stud=st.sampled_from((1.0, 0.5, 2.0)))
@settings(max_examples=150, deadline=None)
def test_best_is_exact_where_it_can_be_and_never_uses_a_gear_twice(owned, lead, screw, stud):
    ratio = ratio_for(lead, screw, stud)
    found = best(ratio, owned)
    everything = by_trying(ratio, owned, None, 0.05)
    assert bool(found) == bool(everything)
    for train in found:
        used = (*train.gears, train.idler) if train.idler else train.gears
        assert all(owned.count(teeth) >= used.count(teeth) for teeth in used)
        made = lead_cut(train.ratio, screw, stud)
        assert made == pytest.approx(lead * (1.0 + train.error), rel=1e-9)
    if found:
        nearest = min(abs(_made(order) / ratio - 1.0) for order in everything)
        assert abs(found[0].error) == pytest.approx(nearest, abs=2e-11)
        assert [abs(t.error) for t in found] == sorted(abs(t.error) for t in found)


def _made(order: tuple[int, ...]) -> float:
    return order[0] / order[1] if len(order) == 2 else order[0] * order[2] / (order[1] * order[3])


@given(error=st.floats(-0.01, 0.01), lead=st.floats(0.2, 6.0), turns=st.integers(1, 50))
def test_error_grows_with_the_engaged_length(error, lead, turns):
    train = Train(gears=(40, 50), error=error)
    one, over = error_over(train, lead, lead * turns)
    assert over == pytest.approx(one * turns, rel=1e-9, abs=1e-15)


@pytest.mark.parametrize("ratio", [0.0, -1.0, float("nan"), float("inf")])
def test_a_ratio_that_cannot_be_is_refused(ratio):
    with pytest.raises(ValueError, match="above zero"):
        search(ratio, (20, 30, 40))


def test_too_wide_a_share_is_refused():
    with pytest.raises(ValueError, match="want 0 to"):
        search(1.0, (20, 30, 40), within=0.6)


def test_nothing_near_gives_no_train():
    assert best(7.0, (20, 21, 22, 23)) == ()
