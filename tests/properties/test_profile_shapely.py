"""Profiles against polygons in the half plane of z and r: another way of cutting the same work."""

from itertools import pairwise
from math import pi, radians, tan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box
from shapely.affinity import translate

from jobsheets.part.profile import (
    Profile,
    cut_above,
    cut_below,
    cylinder,
    extreme,
    radius_at,
    step_near,
    trimmed,
    volume,
)
from jobsheets.part.work import bar, touch_depth

LENGTH, RADIUS = 40.0, 10.0  # mm, of the bar
TALL = 50.0  # beyond every radius
AREA = 1e-6  # mm^2; places closer than 1e-9 mm are one place, along at most a hundred millimetres of line

places = st.one_of(
    st.integers(-50, 450).map(lambda n: n / 10),  # as makers choose them, so that shoulders coincide
    st.floats(-5.0, 45.0, allow_nan=False).map(lambda z: round(z, 4)),
)
radii = st.one_of(st.integers(0, 130).map(lambda n: n / 10), st.floats(0.0, 13.0).map(lambda r: round(r, 4)))


@st.composite
def lines(draw: st.DrawFn) -> Profile:
    """A path of a cutting edge with slopes, flats and steps, partly in the air."""
    zs = sorted(draw(st.sets(places, min_size=2, max_size=5)))
    points = []
    for z in zs:
        points.append((z, draw(radii)))
        if draw(st.booleans()):
            points.append((z, draw(radii)))
    return tuple(points)


few = settings(max_examples=40, deadline=None)
cuts = st.lists(lines(), min_size=1, max_size=6)
SOLID = cylinder(0.0, LENGTH, RADIUS)
HOLLOW = cylinder(0.0, LENGTH, 0.0)


def under(profile: Profile) -> Polygon:
    """What lies between the axis and a profile."""
    return Polygon([(profile[0][0], 0.0), *profile, (profile[-1][0], 0.0)]).buffer(0.0)


def above(line: Profile) -> Polygon:
    return Polygon([(line[0][0], TALL), *line, (line[-1][0], TALL)]).buffer(0.0)


def apart(profile: Profile, other: Polygon) -> float:
    """Area that only one of the two covers."""
    return under(profile).symmetric_difference(other).area


def outside(line_list: list[Profile]) -> Profile:
    profile = SOLID
    for line in line_list:
        profile = cut_below(profile, line)
    return profile


def inside(line_list: list[Profile]) -> Profile:
    profile = HOLLOW
    for line in line_list:
        profile = cut_above(profile, line)
    return profile


@few
@given(cuts)
def test_outside_cuts_take_away_what_lies_above_the_edge(line_list):
    left = under(SOLID)
    for line in line_list:
        left = left.difference(above(line))
    assert apart(outside(line_list), left) < AREA


@few
@given(cuts)
def test_inside_cuts_open_what_lies_below_the_edge(line_list):
    opened = under(HOLLOW)
    for line in line_list:
        opened = opened.union(under(line))
    assert apart(inside(line_list), opened.intersection(box(0.0, 0.0, LENGTH, TALL))) < AREA


@pytest.mark.parametrize("cut", [outside, inside])
@few
@given(st.data())
def test_the_order_of_cuts_does_not_matter(cut, data):
    line_list = data.draw(cuts)
    shuffled = data.draw(st.permutations(line_list))
    assert apart(cut(line_list), under(cut(shuffled))) < AREA


@pytest.mark.parametrize("cut", [outside, inside])
@few
@given(cuts)
def test_a_cut_made_twice_is_the_cut_made_once(cut, line_list):
    once, twice = cut(line_list), cut([*line_list, line_list[-1]])
    assert apart(once, under(twice)) < AREA
    assert len(twice) <= len(once) + 2  # nor does the profile grow by passes that cut nothing


@pytest.mark.parametrize("cut", [outside, inside])
@few
@given(cuts)
def test_points_rise_in_z_from_end_to_end(cut, line_list):
    profile = cut(line_list)
    assert (profile[0][0], profile[-1][0]) == (0.0, LENGTH)
    assert all(a[0] <= b[0] for a, b in pairwise(profile))


@few
@given(cuts)
def test_volume_is_the_area_carried_round_by_its_centroid(line_list):
    """The theorem of Pappus: area times the path of its centroid."""
    outer, inner = outside(line_list), cylinder(0.0, LENGTH, 0.0)
    area = under(outer)
    ring = 2.0 * pi * area.centroid.y * area.area if area.area > 0.0 else 0.0
    assert volume(outer, inner) == pytest.approx(ring, abs=1e-4)


@few
@given(cuts, st.floats(0.01, LENGTH - 0.01))
def test_radius_is_where_a_line_across_leaves_the_work(line_list, z):
    profile = outside(line_list)
    assume(min(abs(z - p[0]) for p in profile) > 1e-6)  # both sides of a step are in the unit tests
    across = LineString([(z, 0.0), (z, TALL)]).intersection(under(profile)).length
    assert radius_at(profile, z) == pytest.approx(across, abs=1e-6)
    assert radius_at(profile, z, before=True) == pytest.approx(across, abs=1e-6)


@few
@given(cuts, st.integers(0, 390), st.integers(1, 100))
def test_trimmed_is_what_a_saw_leaves(line_list, start, length):
    a, b = start / 10, min((start + length) / 10, LENGTH)
    profile = outside(line_list)
    left = under(profile).intersection(box(a, 0.0, b, TALL))
    assert apart(trimmed(profile, a, b), left) < AREA
    work = bar(2.0 * RADIUS, 0.0, LENGTH)
    for line in line_list:
        work = work.cut_outside(line)
    kept = work.kept(a, b)
    assert (kept.front, kept.back) == (a, b)
    assert apart(kept.outer, left) < AREA


@few
@given(cuts, st.integers(0, 390), st.integers(1, 100))
def test_the_extremes_are_those_of_the_outline_between(line_list, start, length):
    """A hair within both ends, where a step may stand; the steepest slope drawn rises 0.002 mm in it."""
    a, b = start / 10, min((start + length) / 10, LENGTH)
    profile = outside(line_list)
    between = LineString(profile).intersection(box(a + 1e-8, -1.0, b - 1e-8, TALL))
    _, least, _, most = between.bounds
    assert extreme(profile, a, b, largest=True) == pytest.approx(most, abs=0.002)
    assert extreme(profile, a, b, largest=False) == pytest.approx(least, abs=0.002)


@few
@given(cuts, st.integers(0, 400), st.floats(0.05, 6.0))
def test_the_tallest_step_in_reach_is_found(line_list, place, reach):
    profile, z = outside(line_list), place / 10
    steps = [(a[0], a[1], b[1]) for a, b in pairwise(profile) if b[0] - a[0] < 1e-9]
    near = [s for s in steps if abs(s[0] - z) <= reach]
    found = step_near(profile, z, reach)
    tallest = max((abs(after - before) for _, before, after in near), default=None)
    if tallest is None:
        assert found is None
    else:
        assert found in near
        assert abs(found[2] - found[1]) == tallest


@st.composite
def stepped_holes(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """What is open under a face: each stretch narrower than the one before, solid below the last."""
    count = draw(st.integers(0, 4))
    depths = sorted(draw(st.sets(st.integers(1, 200), min_size=count, max_size=count)))
    opened = sorted(draw(st.sets(st.integers(1, 80), min_size=count, max_size=count)), reverse=True)
    tops = [0.0, *(d / 10 for d in depths)]
    return tuple(zip(tops, [*(r / 10 for r in opened), 0.0], strict=True))


@few
@given(stepped_holes(), st.integers(5, 70), st.sampled_from([90.0, 118.0, 135.0, 180.0]))
def test_a_drill_touches_where_it_first_meets_metal(holes, tenths, point):
    radius = tenths / 10 + 0.05  # never the radius of a hole: a drill of its very size rubs and does not cut
    metal = box(0.0, 0.0, 60.0, TALL)
    for (top, opened), below in zip(holes, [*(z for z, _ in holes[1:]), None], strict=True):
        if below is not None:
            metal = metal.difference(box(top, 0.0, below, opened))
    rise = radius / tan(radians(point / 2.0)) if point < 180.0 else 0.0
    drill = Polygon([(0.0, 0.0), (-rise, radius), (-90.0, radius), (-90.0, 0.0)])
    touch = touch_depth(holes, radius, point)
    assert translate(drill, touch - 1e-3).intersection(metal).area < AREA
    assert translate(drill, touch + 1e-2).intersection(metal).area > 1e-6
