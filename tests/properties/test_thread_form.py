"""What must hold for every thread: wires, depth of cut, percent, strength, blanks, and naming a screw."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobsheets.standards import thread_form, threads
from jobsheets.standards.thread_blank import die_blank
from jobsheets.standards.thread_identify import identify, pitch_of_count, tell_apart
from jobsheets.standards.thread_percent import (
    Basis,
    drill_for_percent,
    forming_drill,
    forming_percent,
    full_depth,
    percent,
)
from jobsheets.standards.thread_strength import engagement_length, shear_areas, strip_load, worst_sizes

EVERY = threads.everything()
some_thread = st.sampled_from(EVERY)
some_angle = st.sampled_from((60.0, 55.0, 47.5))
some_pitch = st.floats(0.2, 6.0)
share = st.floats(0.0, 1.0)


def engaged(thread):
    screw = threads.limits(thread, threads.default_class(thread, external=True))
    nut = threads.limits(thread, threads.default_class(thread, external=False))
    return worst_sizes(thread, screw, nut)


@given(pitch=some_pitch, angle=some_angle)
def test_usable_wires_touch_flanks_and_the_best_is_among_them(pitch, angle):
    least, most = thread_form.wire_range(pitch, angle)
    by_flank = thread_form.flank_wires(pitch, angle)
    assert by_flank[0] <= least < thread_form.best_wire(pitch, angle) < most <= by_flank[1]


@given(pitch=some_pitch, angle=some_angle, part=share)
def test_a_wire_reading_gives_its_pitch_diameter_back(pitch, angle, part):
    least, most = thread_form.wire_range(pitch, angle)
    wire = least + part * (most - least)
    reading = thread_form.over_wires(20.0, pitch, wire, angle)
    assert thread_form.pitch_from_wires(reading, pitch, wire, angle) == pytest.approx(20.0, abs=1e-9)
    if angle == 60.0:
        bare = thread_form.over_wires(20.0, pitch, least, angle)
        assert reading - bare == pytest.approx(3.0 * (wire - least), abs=1e-9)


@given(pitch=some_pitch, angle=some_angle, lead=st.floats(0.0, 6.0))
def test_the_lead_angle_lifts_the_wires_a_little(pitch, angle, lead):
    wire = thread_form.best_wire(pitch, angle)
    lifted = thread_form.over_wires(20.0, pitch, wire, angle, lead)
    assert 0.0 <= lifted - thread_form.over_wires(20.0, pitch, wire, angle) < 0.01 * pitch


@pytest.mark.parametrize("factor", [0.4, 1.1])
def test_a_wire_that_does_not_suit_is_refused(factor):
    with pytest.raises(ValueError, match=r"use 0\.560 to 0\.900 mm, best 0\.577 mm"):
        thread_form.over_wires(10.0, 1.0, factor)


@given(thread=some_thread, part=share, under=st.floats(0.0, 0.2))
def test_a_flatter_nose_and_a_smaller_blank_need_less_depth(thread, part, under):
    flat = part * thread.pitch / 7.0
    full = thread_form.depth_of_cut(thread, nose_flat=0.0)
    assert thread_form.depth_of_cut(thread, nose_flat=flat) <= full
    small = thread_form.depth_of_cut(thread, nose_flat=flat, outside=thread.major - under * thread.pitch)
    saved = thread_form.depth_of_cut(thread, nose_flat=flat) - small
    assert saved == pytest.approx(under * thread.pitch / 2.0)


def test_a_blunt_or_unsaid_nose_is_refused():
    thread = threads.lookup("M", "6")
    with pytest.raises(ValueError, match=r"grind a flat of 0 to 0\.250 mm or a radius of 0 to 0\.217 mm"):
        thread_form.depth_of_cut(thread, nose_flat=0.3)
    with pytest.raises(ValueError, match="either its flat or its radius"):
        thread_form.depth_of_cut(thread)
    with pytest.raises(ValueError, match="no crest left"):
        thread_form.depth_of_cut(thread, nose_flat=0.1, outside=5.0)


@given(depth=st.floats(0.1, 3.0), swivel=st.floats(0.0, 30.0))
def test_compound_feed_and_shift_make_the_depth(depth, swivel):
    feed = thread_form.compound_infeed(depth, swivel)
    assert feed**2 == pytest.approx(depth**2 + thread_form.side_shift(depth, swivel) ** 2)


def test_a_swivel_past_the_flank_is_refused():
    with pytest.raises(ValueError, match="shows 60 for 30"):
        thread_form.compound_infeed(1.0, 60.0)


@given(
    thread=some_thread,
    basis=st.sampled_from(Basis),
    wanted=st.floats(10.0, 99.0),
    more=st.floats(0.001, 0.02),
)
def test_percent_falls_as_the_drill_grows(thread, basis, wanted, more):
    drill = drill_for_percent(thread, wanted, basis)
    assert percent(thread, drill, basis) == pytest.approx(wanted)
    assert percent(thread, drill + more * thread.pitch, basis) < wanted


@given(thread=some_thread, drop=st.floats(0.1, 0.9))
def test_one_hole_has_its_percents_in_the_order_of_the_bases(thread, drop):
    drill = thread.major - drop * full_depth(thread, Basis.ISO)
    us, external, iso = (percent(thread, drill, basis) for basis in Basis)
    assert us <= external + 1e-9
    assert external <= iso + 1e-9


@given(wanted=st.floats(1.0, 100.0))
def test_forming_percent_and_drill_agree(wanted):
    thread = threads.lookup("M", "5")
    assert forming_percent(thread, forming_drill(thread, wanted)) == pytest.approx(wanted)


@pytest.mark.parametrize("drill", [4.0, 2.5])
def test_a_hole_that_makes_no_thread_is_refused(drill):
    with pytest.raises(ValueError, match=r"does not suit M4x0\.7: want 3\.091 mm"):
        percent(threads.lookup("M", "4"), drill, Basis.US)


def test_forming_a_whitworth_thread_is_refused():
    with pytest.raises(ValueError, match="for 60 degree threads"):
        forming_drill(threads.lookup("BSW", "1/4"), 65.0)


@given(thread=some_thread, length=st.floats(1.0, 30.0), more=st.floats(0.1, 10.0))
def test_strength_grows_with_engagement(thread, length, more):
    sizes = engaged(thread)
    short, long = shear_areas(thread, sizes, length), shear_areas(thread, sizes, length + more)
    assert 0.0 < short.screw < long.screw
    assert 0.0 < short.nut < long.nut
    assert strip_load(long.nut, 100.0) > strip_load(short.nut, 100.0)


@given(thread=some_thread, soft=st.floats(50.0, 1500.0))
def test_at_the_needed_length_the_screw_breaks_first(thread, soft):
    """Shear strength is taken as half the tensile here, as in the formula."""
    sizes, hard = engaged(thread), 500.0
    needed = engagement_length(thread, sizes, hard, soft)
    areas = shear_areas(thread, sizes, needed.length)
    pull = needed.stress_area * hard
    weakest = min(strip_load(areas.screw, hard / 2.0), strip_load(areas.nut, soft / 2.0))
    assert weakest == pytest.approx(pull) or weakest > pull
    assert (needed.weaker == "nut") == (needed.ratio > 1.0)


def test_limits_of_another_thread_are_refused():
    five, six = threads.lookup("M", "5"), threads.lookup("M", "6")
    with pytest.raises(ValueError, match=r"for M5x0\.8, got M6x1 6g and M5x0\.8 6H"):
        worst_sizes(five, threads.limits(six, "6g"), threads.limits(five, "6H"))


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_blanks_lie_within_the_major_limits(thread):
    for cls in threads.classes(thread, external=True):
        limits = threads.limits(thread, cls)
        blank = die_blank(thread, limits)
        assert blank.smallest < blank.largest < thread.major
        assert blank.smallest <= blank.target <= blank.largest
        assert limits.major_min - 1e-9 <= blank.smallest
        assert blank.largest <= limits.major_max + 1e-9


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_a_screw_measured_within_its_limits_is_found(thread):
    limits = threads.limits(thread, threads.default_class(thread, external=True))
    found = identify((limits.major_min + limits.major_max) / 2.0, pitch=thread.pitch, most=8)
    mine = [candidate for candidate in found if candidate.thread == thread]
    assert mine
    assert mine[0].likely
    assert [c.misfit for c in found] == sorted(c.misfit for c in found)


@given(one=some_thread, other=some_thread)
def test_some_measurement_is_named_for_every_pair(one, other):
    if one != other:
        assert one.name in (text := tell_apart(one, other)) or "wires" in text
        assert tell_apart(other, one).split()[0] == text.split()[0]


def test_look_alikes_are_told_apart():
    """10-24 and 10-32 by count, 1/4 UNC and BSW by flank angle, BSF and ME of one size not at all."""
    coarse, fine = threads.lookup("UN", "10", tpi=24), threads.lookup("UN", "10", tpi=32)
    assert tell_apart(coarse, fine) == "count the threads over 5 mm: 10-24 UNC 4.7, 10-32 UNF 6.3"
    unified, whitworth = threads.lookup("UN", "1/4", tpi=20), threads.lookup("BSW", "1/4")
    assert "60 degrees" in tell_apart(unified, whitworth)
    assert tell_apart(threads.lookup("BSF", "3/16"), threads.lookup("ME", "3/16", tpi=32)).startswith("no")


def test_ways_of_telling_the_pitch():
    assert pitch_of_count(25.0, 20.0) == pytest.approx(0.8)
    assert identify(4.1, count=25.0, length=25.0 * 25.4 / 32.0)[0].thread.name == "8-32 UNC"
    assert identify(4.1, tpi=32)[0].thread.name == "8-32 UNC"
    with pytest.raises(ValueError, match="want one of"):
        identify(4.1, tpi=32, pitch=0.8)
    with pytest.raises(ValueError, match="outside the tables"):
        identify(60.0, tpi=4)
    with pytest.raises(ValueError, match="count at least 2"):
        identify(4.1, count=1.0, length=1.0)
