"""A travel set on a dial and read back."""

from hypothesis import given
from hypothesis import strategies as st

from jobsheets.shop.dials import for_diameter_change, overshoot, reading, travel
from jobsheets.shop.machines import Dial, Reads


@st.composite
def dials(draw: st.DrawFn, readout: bool = False) -> Dial:
    return Dial(
        axis="cross slide",
        per_turn=draw(st.sampled_from([1.0, 1.27, 1.5, 1.5875, 2.0, 2.5, 2.54, 3.0, 20.32])),
        divisions=draw(st.sampled_from([40.0, 50.0, 62.5, 80.0, 100.0, 125.0])),
        label="0.001 in",
        reads=draw(st.sampled_from([Reads.RADIUS, Reads.DIAMETER])),
        backlash=draw(st.floats(0.0, 4.0)),
        travel=300.0,
        readout=draw(st.sampled_from([0.005, 0.01, 0.0127])) if readout else None,
    )


TRAVELS = st.floats(0.0, 300.0)


@given(dial=dials(), mm=TRAVELS)
def test_round_trip_within_half_a_division(dial, mm):
    assert abs(travel(dial, reading(dial, mm)) - mm) <= dial.division * 0.5001


@given(dial=dials(), mm=TRAVELS)
def test_setting_read_back_is_the_same_setting(dial, mm):
    once = reading(dial, mm)
    assert reading(dial, travel(dial, once)) == once


@given(dial=dials(), mm=TRAVELS)
def test_divisions_stay_on_the_collar(dial, mm):
    at = reading(dial, mm)
    assert 0.0 <= at.divisions < dial.divisions
    assert at.divisions * 2 == int(at.divisions * 2)


@given(dial=dials(), a=TRAVELS, b=TRAVELS)
def test_more_travel_never_reads_less(dial, a, b):
    low, high = sorted((a, b))
    assert travel(dial, reading(dial, low)) <= travel(dial, reading(dial, high)) + 1e-9


@given(dial=dials(), change=st.floats(0.0, 50.0))
def test_diameter_change_is_twice_the_travel(dial, change):
    assert abs(2.0 * travel(dial, for_diameter_change(dial, change)) - change) <= dial.division * 1.0002


@given(dial=dials(readout=True), mm=TRAVELS)
def test_readout_round_trip_within_half_its_step(dial, mm):
    assert dial.readout is not None
    assert abs(travel(dial, reading(dial, mm)) - mm) <= dial.readout * 0.5001


@given(dial=dials())
def test_overshoot_clears_the_backlash_and_no_more_than_it_must(dial):
    turns = overshoot(dial)
    assert turns * dial.per_turn > dial.backlash
    assert (turns - 0.5) * dial.per_turn <= dial.backlash * (1.0 + 1e-8) + 1e-8
