"""Depth of a single point: the groove is half a pitch wide at the pitch line, and lets the mate in."""

from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobsheets.standards import thread_depth, threads
from jobsheets.standards.thread_form import depth_of_cut, minor_diameter, pitch_diameter
from jobsheets.units import thread as thread_name

NAMES = (
    "M3x0.5",
    "M6x1",
    "M10x1.5",
    "1/4-20 UNC",
    "5/16-24 UNF",
    "8-32 UNC",
    "1/4-20 BSW",
    "1/4-40 ME",
    "2 BA",
)
named = st.sampled_from(NAMES).map(lambda n: threads.find(thread_name(n)))


def width_at(thread, tip: float, diameter: float) -> float:
    """Width of a groove at a diameter; its tip, where the flanks would meet, stands at `tip` diameter."""
    return abs(diameter - tip) * tan(radians(thread.angle / 2.0))


@given(
    thread=named,
    share=st.floats(0.0, 1.0),
    radius=st.booleans(),
    inside=st.booleans(),
    off=st.floats(-0.04, 0.04),
)
def test_groove_is_half_a_pitch_wide_at_the_pitch_line(thread, share, radius, inside, off):
    spare = thread_depth.room(thread, inside=inside)
    per = thread_depth.lost(thread, 0.0, 1.0) if radius else thread_depth.lost(thread, 1.0, 0.0)
    nose = share * spare / per
    flat, round_ = (0.0, nose) if radius else (nose, 0.0)
    mean = pitch_diameter(thread) + off * thread.pitch
    start = minor_diameter(thread) if inside else thread.major
    deep = thread_depth.feed_in(thread, start, mean, flat=flat, radius=round_, inside=inside)
    # The sharp point of the flanks lies beyond the blunt nose by what the nose lacks.
    sharp = deep + thread_depth.lost(thread, flat, round_)
    tip = start + 2.0 * sharp if inside else start - 2.0 * sharp
    assert width_at(thread, tip, mean) == pytest.approx(thread.pitch / 2.0)
    back = thread_depth.pitch_dia_made(thread, start, deep, flat=flat, radius=round_, inside=inside)
    assert back == pytest.approx(mean)


@given(thread=named, share=st.floats(0.0, 1.0), under=st.floats(0.0, 0.1))
def test_a_screw_is_as_deep_as_the_thread_form_says(thread, share, under):
    flat = share * 2.0 * thread_depth.room(thread, inside=False) * tan(radians(thread.angle / 2.0))
    start = thread.major - under * thread.pitch
    ours = thread_depth.feed_in(thread, start, pitch_diameter(thread), flat=flat, radius=0.0, inside=False)
    assert ours == pytest.approx(depth_of_cut(thread, nose_flat=flat, outside=start))


@given(thread=named, inside=st.booleans(), more=st.floats(0.01, 1.0))
def test_a_nose_that_keeps_the_mate_out_is_refused_with_what_to_grind(thread, inside, more):
    most = 2.0 * thread_depth.room(thread, inside=inside) * tan(radians(thread.angle / 2.0))
    assert thread_depth.blunt(thread, most, 0.0, inside=inside) is None
    told = thread_depth.blunt(thread, most * (1.0 + more), 0.0, inside=inside)
    assert told is not None
    assert f"{most:.3f} mm" in told
    with pytest.raises(ValueError, match="grind a flat"):
        thread_depth.feed_in(
            thread, thread.major, pitch_diameter(thread), flat=most * (1.0 + more), radius=0.0, inside=inside
        )


def test_widest_flats_are_those_of_the_basic_profile():
    """P/4 on the root of a screw, P/8 on that of a nut, as ISO 68-1 draws them."""
    thread = threads.find(thread_name("M10x1.5"))
    wide = 2.0 * tan(radians(30.0))
    assert thread_depth.room(thread, inside=False) * wide == pytest.approx(1.5 / 4.0)
    assert thread_depth.room(thread, inside=True) * wide == pytest.approx(1.5 / 8.0)


@pytest.mark.parametrize(("flat", "radius"), [(-0.1, 0.0), (0.0, -0.1), (0.1, 0.1)])
def test_a_nose_that_cannot_be_is_refused(flat, radius):
    thread = threads.find(thread_name("M10x1.5"))
    with pytest.raises(ValueError, match="want one of them"):
        thread_depth.lost(thread, flat, radius)


def test_a_blank_without_a_crest_is_refused():
    thread = threads.find(thread_name("M10x1.5"))
    with pytest.raises(ValueError, match="a larger blank"):
        thread_depth.feed_in(thread, 9.0, pitch_diameter(thread), flat=0.1, radius=0.0, inside=False)
    with pytest.raises(ValueError, match="a smaller hole"):
        thread_depth.feed_in(thread, 9.1, pitch_diameter(thread), flat=0.1, radius=0.0, inside=True)
