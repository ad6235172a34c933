"""Passes add up and keep their limits; the thread dial agrees with counting turns; speeds stop in time."""

from fractions import Fraction
from itertools import pairwise
from math import ceil, gcd

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from jobsheets.cutting import screwcutting as cut

depths = st.floats(0.1, 3.0)
firsts = st.floats(0.05, 0.5)


@given(depth=depths, first=firsts)
def test_constant_area_takes_equal_areas_and_reaches_the_depth(depth, first):
    passes = cut.passes_for(depth, first)
    assume(passes <= cut.MOST_PASSES)
    reached = (0.0, *cut.constant_area(depth, passes))
    areas = [b * b - a * a for a, b in pairwise(reached)]
    assert reached[-1] == pytest.approx(depth)
    assert areas == pytest.approx([depth * depth / passes] * passes)
    assert reached[1] <= first * (1.0 + 1e-6)
    assert passes == 1 or cut.constant_area(depth, passes - 1)[0] > first * (1.0 - 1e-6)


@given(depth=depths, first=firsts, share=st.floats(0.05, 1.0))
def test_falling_cuts_fall_and_add_up(depth, first, share):
    reached = (0.0, *cut.falling(depth, first, first * share))
    cuts = [b - a for a, b in pairwise(reached)]
    assert sum(cuts) == pytest.approx(depth)
    assert cuts[0] <= first * (1.0 + 1e-9)
    assert all(b <= a * (1.0 + 1e-6) for a, b in pairwise(cuts))


@given(
    steps=st.integers(1, 120),
    step=st.sampled_from((0.01, 0.02, 0.0254, 0.05)),
    first=firsts,
    least=st.floats(0.005, 0.05),
    even=st.booleans(),
)
def test_passes_on_lines_end_at_the_depth_and_keep_the_limit(steps, step, first, least, even):
    reached = (0, *cut.on_lines(steps, step, first, least, even=even))
    cuts = [b - a for a, b in pairwise(reached)]
    assert reached[-1] == steps
    assert sum(cuts) == steps
    assert all(c >= 1 for c in cuts)
    for before, c in zip(reached, cuts, strict=False):
        assert c == 1 or c * step <= first * (1.0 + 1e-6)
        if not even:
            most = cut.next_depth(before * step, first, least)
            assert c == 1 or (before + c) * step <= most * (1.0 + 1e-6)


@given(n=st.integers(1, 40), p=st.integers(1, 80), q=st.sampled_from((1, 2, 4)), teeth=st.integers(1, 48))
def test_thread_dial_agrees_with_counting_turns(n, p, q, teeth):
    """Screws of n and p/q threads an inch agree after the shortest whole number of both."""
    ratio = Fraction(n * q, p)
    inches = Fraction(q, gcd(n * q, p))  # the formula in words: the shortest travel with whole turns of both
    assert (inches * n).denominator == 1
    assert (inches * p / q).denominator == 1
    assert cut.dial_repeat(ratio) == inches * n
    for marks in {1, 2, 4, 8, teeth}:
        every = cut.dial_every(ratio, teeth, marks)
        good = [k for k in range(1, marks + 1) if _whole(k, teeth, marks, ratio)]
        if ratio.numerator == 1:
            assert every == 0
        elif every is None:
            assert marks not in good  # after a turn of the dial its marks no longer mean the same
        else:
            assert good[0] == every
            assert all(k % every == 0 for k in good)


def _whole(k: int, teeth: int, marks: int, ratio: Fraction) -> bool:
    """After k marks the leadscrew, and the work, have made whole turns."""
    threads = Fraction(k * teeth, marks)
    return threads.denominator == 1 and (threads / ratio).denominator == 1


@given(room=st.floats(0.0, 10.0), lead=st.floats(0.2, 5.0), reaction=st.floats(0.3, 3.0))
def test_at_the_stopping_speed_the_tool_travels_just_the_room(room, lead, reaction):
    speed = cut.stopping_speed(room, lead, reaction)
    assert speed / 60.0 * reaction * lead == pytest.approx(room, abs=1e-12)


@given(starts=st.integers(1, 8), gear=st.integers(16, 127))
def test_starts_index_by_whole_teeth_or_not_at_all(starts, gear):
    teeth = cut.index_teeth(starts, gear)
    assert (teeth is None) == (ceil(gear / starts) * starts != gear)
    assert teeth is None or teeth * starts == gear


@pytest.mark.parametrize(
    ("call", "match"),
    [
        (lambda: cut.constant_area(0.0, 3), "above zero"),
        (lambda: cut.constant_area(1.0, 0), "1 to 400"),
        (lambda: cut.falling(1.0, 0.1, 0.2), "no deeper"),
        (lambda: cut.on_lines(0, 0.02, 0.1, 0.02), "at least one"),
        (lambda: cut.dial_every(Fraction(2, 3), 0, 8), "at least one of each"),
        (lambda: cut.dial_repeat(Fraction(0)), "more than 0"),
        (lambda: cut.stopping_speed(-1.0, 1.0, 1.0), "zero or more"),
        (lambda: cut.stopping_speed(1.0, 1.0, 0.0), "above zero"),
        (lambda: cut.index_teeth(0, 40), "one or more"),
    ],
)
def test_what_cannot_be_is_refused_with_a_cure(call, match):
    with pytest.raises(ValueError, match=match):
        call()
