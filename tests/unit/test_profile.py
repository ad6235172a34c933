"""Profiles and the work against closed forms, and what they refuse."""

from itertools import pairwise
from math import hypot, pi, sqrt

import pytest

from jobsheets.part.profile import (
    ARC_CHORD,
    ball_cap,
    cut_above,
    cut_below,
    cylinder,
    extreme,
    radius_at,
    step_near,
    trimmed,
    volume,
)
from jobsheets.part.work import ThreadZone, Work, bar, touch_depth

ROD = cylinder(0.0, 30.0, 6.0)
SOLID = cylinder(0.0, 30.0, 0.0)


@pytest.mark.parametrize("end", [0.0, -1.0])
def test_a_profile_without_length_is_refused(end):
    with pytest.raises(ValueError, match="a profile needs length"):
        cylinder(0.0, end, 6.0)


def test_volume_of_a_cylinder():
    assert volume(ROD, SOLID) == pytest.approx(pi * 36.0 * 30.0, rel=1e-12)


def test_volume_of_a_tube():
    assert volume(ROD, cylinder(0.0, 30.0, 2.5)) == pytest.approx(pi * (36.0 - 6.25) * 30.0, rel=1e-12)


def test_volume_of_a_whole_cone():
    cone = cut_below(ROD, ((0.0, 0.0), (30.0, 6.0)))
    assert cone == ((0.0, 0.0), (30.0, 6.0))
    assert volume(cone, SOLID) == pytest.approx(pi * 36.0 * 30.0 / 3.0, rel=1e-12)


def test_volume_of_a_drilled_hole_with_its_point():
    """A cylinder and a cone: 8 mm deep at 2 mm radius, point 1.2 mm long."""
    inner = cut_above(SOLID, ((-3.0, 2.0), (8.0, 2.0), (9.2, 0.0)))
    wanted = pi * 36.0 * 30.0 - pi * 4.0 * 8.0 - pi * 4.0 * 1.2 / 3.0
    assert volume(ROD, inner) == pytest.approx(wanted, rel=1e-12)


def test_a_shoulder_is_a_step_with_two_radii():
    stepped = cut_below(ROD, ((-3.0, 4.0), (12.0, 4.0)))
    assert stepped == ((0.0, 4.0), (12.0, 4.0), (12.0, 6.0), (30.0, 6.0))
    assert radius_at(stepped, 12.0) == 6.0
    assert radius_at(stepped, 12.0, before=True) == 4.0
    assert radius_at(stepped, 0.0, before=True) == 4.0
    assert radius_at(stepped, 30.0) == 6.0


def test_radius_on_a_taper():
    taper = cut_below(ROD, ((0.0, 3.0), (30.0, 6.0)))
    assert radius_at(taper, 10.0) == pytest.approx(4.0)


@pytest.mark.parametrize("z", [-0.001, 30.001])
def test_a_place_off_the_work_is_refused(z):
    with pytest.raises(ValueError, match="lies outside the work"):
        radius_at(ROD, z)


def test_a_cut_in_the_air_leaves_the_work_as_it_was():
    assert cut_below(ROD, ((-5.0, 1.0), (-1.0, 1.0))) == ROD
    assert cut_below(ROD, ((5.0, 7.0), (9.0, 7.0))) == ROD
    assert cut_above(SOLID, ((31.0, 2.0), (35.0, 2.0))) == SOLID


def test_a_pass_over_finished_work_adds_no_points():
    """Two passes that meet leave one stretch, not two."""
    first = cut_below(ROD, ((0.0, 5.0), (10.0, 5.0)))
    both = cut_below(first, ((10.0, 5.0), (20.0, 5.0)))
    assert both == ((0.0, 5.0), (20.0, 5.0), (20.0, 6.0), (30.0, 6.0))


def test_trimmed_takes_the_sides_of_the_steps_that_stay():
    stepped = cut_below(ROD, ((0.0, 4.0), (12.0, 4.0)))
    assert trimmed(stepped, 2.0, 12.0) == ((2.0, 4.0), (12.0, 4.0))
    assert trimmed(stepped, 12.0, 20.0) == ((12.0, 6.0), (20.0, 6.0))


def test_the_extremes_of_a_stretch():
    stepped = cut_below(ROD, ((10.0, 4.0), (12.0, 4.0)))
    assert extreme(stepped, 0.0, 30.0, largest=False) == 4.0
    assert extreme(stepped, 10.0, 12.0, largest=True) == 4.0
    assert extreme(stepped, 12.0, 30.0, largest=False) == 6.0


def test_the_tallest_step_in_reach():
    work = cut_below(ROD, ((0.0, 2.0), (10.0, 2.0), (10.0, 5.0), (11.0, 5.0)))
    assert step_near(work, 10.6, 1.0) == (10.0, 2.0, 5.0)
    assert step_near(work, 11.2, 0.5) == (11.0, 5.0, 6.0)
    assert step_near(work, 20.0, 1.0) is None
    assert step_near(work, 9.0, 1.0) == (10.0, 2.0, 5.0)


# Height of the cap and radius of its cylinder: flat, usual, half a ball, and more than half.
CAPS = [(0.5, 6.0), (3.0, 6.0), (6.0, 6.0), (9.0, 6.0)]


@pytest.mark.parametrize(("height", "radius"), CAPS)
@pytest.mark.parametrize("toward_back", [False, True])
def test_a_ball_cap_lies_on_its_ball(height, radius, toward_back):
    ball = (radius**2 + height**2) / (2.0 * height)
    cap = ball_cap(20.0, height, radius, toward_back=toward_back)
    centre = 20.0 - ball if toward_back else 20.0 + ball
    assert all(hypot(z - centre, r) == pytest.approx(ball, abs=1e-9) for z, r in cap)
    for (z0, r0), (z1, r1) in pairwise(cap):
        assert z0 < z1
        assert ball - hypot((z0 + z1) / 2.0 - centre, (r0 + r1) / 2.0) <= ARC_CHORD * (1.0 + 1e-9)
    pole, rim = (cap[-1], cap[0]) if toward_back else (cap[0], cap[-1])
    assert pole == (20.0, 0.0)
    assert rim == pytest.approx((20.0 - height if toward_back else 20.0 + height, radius))


@pytest.mark.parametrize(("height", "radius"), CAPS)
def test_volume_of_a_ball_cap(height, radius):
    """Chords lie inside the ball, by no more than their sagitta over the whole surface."""
    ball = (radius**2 + height**2) / (2.0 * height)
    cap = ball_cap(0.0, height, radius, toward_back=False)
    missing = pi * height**2 * (3.0 * ball - height) / 3.0 - volume(cap, cylinder(0.0, height, 0.0))
    assert 0.0 < missing < 2.0 * pi * ball * height * ARC_CHORD


def test_a_dome_on_a_rod_is_rod_and_cap():
    domed = cut_below(ROD, ball_cap(30.0, 2.0, 6.0, toward_back=True))
    ball = (36.0 + 4.0) / 4.0
    wanted = pi * 36.0 * 28.0 + pi * 4.0 * (3.0 * ball - 2.0) / 3.0
    assert volume(domed, SOLID) == pytest.approx(wanted, abs=2.0 * pi * ball * 2.0 * ARC_CHORD)


# Work.


def test_facing_and_cutting_off_keep_the_stretch_between():
    work = bar(12.0, -0.5, 40.0).cut_inside(((-3.0, 2.0), (10.0, 2.0)))
    left = work.kept(0.0, 25.0)
    assert (left.front, left.back) == (0.0, 25.0)
    assert left.outer == ((0.0, 6.0), (25.0, 6.0))
    assert left.inner == ((0.0, 2.0), (10.0, 2.0), (10.0, 0.0), (25.0, 0.0))
    assert left.wall(5.0) == 4.0
    assert left.wall(20.0) == 6.0


@pytest.mark.parametrize(("front", "back"), [(-0.6, 20.0), (0.0, 40.1), (20.0, 20.0), (21.0, 20.0)])
def test_a_cut_in_the_air_or_through_nothing_is_refused(front, back):
    with pytest.raises(ValueError, match="has no stretch from"):
        bar(12.0, -0.5, 40.0).kept(front, back)


def test_cuts_leave_threads_and_the_other_side_alone():
    zone = ThreadZone(feature="thread", thread="M4", internal=True, start=0.0, end=8.0)
    work = Work(outer=cylinder(0.0, 40.0, 6.0), inner=cylinder(0.0, 40.0, 0.0), threads=(zone,))
    cut = work.cut_outside(((0.0, 5.0), (10.0, 5.0)))
    assert cut.threads == (zone,)
    assert cut.inner == work.inner
    assert cut.cut_inside(((0.0, 1.0), (10.0, 1.0))).outer == cut.outer


# Where a drill of 3 mm radius touches; a point of 90 degrees is as long as the drill's radius.


@pytest.mark.parametrize(
    ("holes", "point", "depth"),
    [
        (((0.0, 0.0),), 118.0, 0.0),  # whole face
        (((0.0, 1.0), (5.0, 0.0)), 90.0, 1.0),  # rim of a pilot hole
        (((0.0, 1.0), (5.0, 0.0)), 60.0, sqrt(3.0)),
        (((0.0, 1.0), (5.0, 0.0)), 180.0, 0.0),  # a flat end stands on the face around it
        (((0.0, 4.0), (5.0, 0.0)), 118.0, 5.0),  # floor of a wider hole
        (((0.0, 4.0), (5.0, 2.0), (9.0, 0.0)), 90.0, 7.0),  # rim of a pilot in that floor
        (((0.0, 2.5), (0.5, 0.0)), 90.0, 0.5),  # a shallow spot: its floor is met before its rim
        (((0.0, 3.0), (5.0, 0.0)), 90.0, 5.0),  # its own hole again
        ((), 90.0, 0.0),
    ],
)
def test_depth_at_which_a_drill_touches(holes, point, depth):
    assert touch_depth(holes, 3.0, point) == pytest.approx(depth)
