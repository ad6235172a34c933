"""Display list: bounding boxes, margins, shifting; hatching stays inside its outline."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely import Polygon as Area

from jobsheets.sheet import face
from jobsheets.sheet.display import (
    Arc,
    Box,
    Circle,
    Hatch,
    Line,
    Page,
    Polygon,
    Polyline,
    Text,
    bounds,
    extent,
    moved,
    outside,
)
from jobsheets.sheet.hatching import PATTERNS, hatch_lines

ITEMS = (
    Text(x=50.0, y=60.0, text="⌀6.350", size=11.0),
    Line(x1=30.0, y1=20.0, x2=10.0, y2=40.0),
    Polyline(points=((1.0, 2.0), (3.0, 9.0)), style="visible"),
    Polygon(points=((1.0, 2.0), (3.0, 9.0), (5.0, 5.0)), fill="black"),
    Hatch(rings=(((0.0, 0.0), (9.0, 0.0), (9.0, 9.0)),)),
    Arc(cx=10.0, cy=10.0, r=5.0, start=0.0, sweep=90.0),
    Circle(cx=10.0, cy=10.0, r=5.0),
    Box(x=3.0, y=4.0, width=10.0, height=2.0, frame="double"),
)


def test_items_are_plain_values():
    assert ITEMS[0] == Text(x=50.0, y=60.0, text="⌀6.350", size=11.0)
    assert len({*ITEMS}) == len(ITEMS)


@pytest.mark.parametrize(
    ("item", "box"),
    [
        (ITEMS[1], (10.0, 20.0, 30.0, 40.0)),
        (ITEMS[3], (1.0, 2.0, 5.0, 9.0)),
        (ITEMS[5], (10.0, 5.0, 15.0, 10.0)),
        (ITEMS[6], (5.0, 5.0, 15.0, 15.0)),
        (ITEMS[7], (3.0, 4.0, 13.0, 6.0)),
    ],
    ids=lambda value: type(value).__name__,
)
def test_bounds(item, box):
    assert bounds(item) == pytest.approx(box)


def test_bounds_of_text_follow_anchor_and_turn():
    wide = face.width("neck", 20.0)
    x0, y0, x1, y1 = bounds(Text(x=100.0, y=50.0, text="neck", size=20.0, anchor="middle"))
    assert (x0, x1) == pytest.approx((100.0 - wide / 2.0, 100.0 + wide / 2.0))
    assert y0 < 50.0 < y1
    up = bounds(Text(x=100.0, y=50.0, text="neck", size=20.0, rotate=90.0))
    assert up[3] - up[1] == pytest.approx(wide)
    assert up[3] == pytest.approx(50.0)  # it runs upwards from its anchor
    assert up[0] < 100.0 < up[2]


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: type(item).__name__)
def test_moving_moves_the_bounds_and_back(item):
    (there,) = moved((item,), 7.0, -3.0)
    x0, y0, x1, y1 = bounds(item)
    assert bounds(there) == pytest.approx((x0 + 7.0, y0 - 3.0, x1 + 7.0, y1 - 3.0))
    assert there != item


def test_extent_of_nothing_is_refused():
    with pytest.raises(ValueError, match="draw something"):
        extent(())


def test_outside_names_what_reaches_into_the_margin():
    fine = Line(x1=6.0, y1=6.0, x2=204.0, y2=273.4)
    stray = Text(x=200.0, y=100.0, text="too far", size=11.0)
    assert outside(Page(items=(fine, stray))) == (stray,)


corner = st.tuples(st.floats(0.0, 60.0), st.floats(0.0, 40.0))


@settings(max_examples=100)
@given(ring=st.lists(corner, min_size=3, max_size=7), pattern=st.sampled_from(sorted(PATTERNS)))
def test_hatching_lies_inside_its_outline(ring, pattern):
    area = Area(ring)
    if not area.is_valid or area.area < 1.0:
        return
    room = area.buffer(1e-6)
    for x1, y1, x2, y2 in hatch_lines(Hatch(rings=(tuple(ring),), pattern=pattern)):
        assert room.covers(LineString([(x1, y1), (x2, y2)]))


def test_hatching_leaves_a_hole_and_fills_the_rest():
    outer = ((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0))
    hole = ((20.0, 10.0), (40.0, 10.0), (40.0, 30.0), (20.0, 30.0))
    lines = hatch_lines(Hatch(rings=(outer, hole)))
    inside = Area(hole).buffer(-1e-6)
    assert not any(LineString([line[:2], line[2:]]).intersects(inside) for line in lines)
    spacing = PATTERNS["steel"][0].spacing
    length = sum(LineString([line[:2], line[2:]]).length for line in lines)
    assert length * spacing == pytest.approx(60.0 * 40.0 - 20.0 * 20.0, rel=0.05)


def test_patterns_differ_and_keep_lines_apart():
    assert len({*PATTERNS.values()}) == len(PATTERNS)
    for rules in PATTERNS.values():
        assert all(rule.spacing >= 0.7 for rule in rules)  # ISO 128-2, from memory
