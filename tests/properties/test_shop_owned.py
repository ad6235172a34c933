"""Whatever is wished for, a choice is honest: inside the limits, or it says what it changes."""

from functools import cache
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from jobsheets.shop import owned
from jobsheets.shop.load import load
from jobsheets.shop.shop import HouseRules, Shop

SHOPS = Path(__file__).parents[2] / "recipes" / "shops"
NAMES = st.sampled_from(["inch-workshop", "metric-workshop"])


@cache
def shop(name: str) -> Shop:
    return load(SHOPS / f"{name}.yaml")


@given(name=NAMES, low=st.floats(0.3, 20.0), width=st.floats(0.0, 2.0), share=st.floats(0.0, 1.0))
def test_drill_is_inside_the_limits_or_says_that_it_is_not(name, low, width, share):
    aim = min(low + width * share, low + width)
    pick = owned.drill_within(shop(name).tooling, low, low + width, aim)
    assert pick.tool is not None
    inside = low - 0.001 <= pick.tool.diameter <= low + width + 0.001
    assert inside == ("too small" not in pick.consequence and "too large" not in pick.consequence)
    assert pick.instead == bool(pick.consequence)
    nearest = min(abs(d.diameter - aim) for d in shop(name).tooling.drills)
    assert abs(pick.tool.diameter - aim) <= nearest + 1e-6 or inside


@given(name=NAMES, limit=st.floats(0.3, 20.0))
def test_largest_drill_below_has_no_larger_one_below(name, limit):
    pick = owned.largest_drill_below(shop(name).tooling, limit)
    larger = [d for d in shop(name).tooling.drills if d.diameter < limit - 0.001]
    assert (pick.tool is None) == (not larger)
    if pick.tool is not None:
        assert pick.tool.diameter == max(d.diameter for d in larger)


@given(
    name=NAMES,
    size=st.floats(0.5, 140.0),
    width=st.floats(0.002, 2.0),
    ratio=st.floats(1.0, 20.0),
    where=st.sampled_from(["outside", "inside", "depth"]),
)
def test_gauge_resolves_the_limits_or_says_how_far(name, size, width, ratio, where):
    pick = owned.gauge_for(shop(name).tooling, size, width, HouseRules(gauge_ratio=ratio), where)
    if pick.tool is None:
        assert "buy or borrow" in pick.consequence
        return
    assert pick.tool.least <= size <= pick.tool.most
    assert pick.instead == (pick.tool.resolution * ratio > width * (1.0 + 1e-9))


@given(name=NAMES, bore=st.floats(1.0, 30.0), depth=st.floats(1.0, 60.0))
def test_boring_bar_always_enters(name, bore, depth):
    pick = owned.boring_bar_for(shop(name).tooling, bore, depth)
    if pick.tool is not None:
        assert pick.tool.least_bore <= bore + 0.001
        assert pick.instead == (pick.tool.reach < depth - 0.001)
    else:
        assert pick.consequence.startswith("buy or borrow")


@given(diameter=st.floats(2.0, 14.0))
def test_collet_grips_within_its_squeeze(diameter):
    lathe = shop("inch-workshop").lathe
    assert lathe.collets is not None
    pick = owned.collet_for(lathe, diameter)
    if pick.tool is not None:
        assert pick.tool - lathe.collets.squeeze - 0.001 <= diameter <= pick.tool + 0.001
    else:
        assert "buy or borrow" in pick.consequence
