"""Drawings: dimensions keep clear of each other and of the part, threads and holes follow the convention."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box

from jobsheets.sheet import dimensioned, dimensions, drafting, face, half_section, symbols
from jobsheets.sheet.dimensions import Span
from jobsheets.sheet.display import Hatch, Line, Page, Polygon, Polyline, Text, bounds, extent, outside
from jobsheets.sheet.shape import Across, Bore, Corner, Remark, Rolled, Shape, Step, inside, outline

NUT = Shape(  # invented: a stepped end nut with a blind thread
    steps=(
        Step(
            length=7.94,
            diameter=6.35,
            front=Corner(form="chamfer", size=0.4),
            length_text=("7.99", "7.89"),
            diameter_text=("⌀6.337", "⌀6.315"),
        ),
        Step(
            length=6.35,
            diameter=9.525,
            back=Corner(form="chamfer", size=0.5),
            length_text=("6.45", "6.25"),
            diameter_text=("⌀9.525", "⌀9.475"),
        ),
    ),
    bores=(Bore(diameter=3.45, depth=11.8, mouth=4.6, thread=10.0, major=4.166),),
    remarks=(
        Remark(text=("8-32 UNC-2B ↧ 10.0", "drill ⌀3.45 ↧ 11.8"), z=5.0, r=1.725),
        Remark(text=("0.5 × 45°",), z=14.0, r=4.5),
    ),
    overall_text=("(14.29)",),
    pattern="stainless",
)
FINIAL = Shape(  # invented: eight features on 27.5 mm, with grooves that are seen from neither end
    steps=(
        Step(length=4.0, diameter=5.0, minor=4.1, length_text=("4.1", "3.9"), diameter_text=("M5×0.8-6g",)),
        Step(length=1.5, diameter=3.8, length_text=("1.6", "1.4"), diameter_text=("⌀3.80", "⌀3.70")),
        Step(length=5.0, diameter=8.0, length_text=("5.05", "4.95"), diameter_text=("⌀8.000", "⌀7.985")),
        Step(length=2.0, diameter=6.0, length_text=("2.1", "1.9"), diameter_text=("⌀6.05", "⌀5.95")),
        Step(length=9.0, diameter=12.0, length_text=("9.1", "8.9"), diameter_text=("⌀12.00", "⌀11.90")),
        Step(
            length=6.0,
            diameter=10.0,
            back=Corner(form="dome", size=2.5),
            length_text=("6.1", "5.9"),
            diameter_text=("⌀10.05", "⌀9.95"),
        ),
    ),
    across=(Across(at=17.5, diameter=3.2),),
    rolled=(Rolled(start=12.5, end=21.5),),
    remarks=(Remark(text=("⌀3.2 THRU",), z=19.1, r=4.5),),
    overall_text=("(27.5)",),
    pattern="brass",
)


def ink(text: Text):
    """The letters alone: from the baseline to the top of the capitals."""
    x0, _, x1, _ = bounds(text)
    return box(x0, text.y - face.capitals(text.size), x1, text.y)


def texts(drawing) -> list[Text]:
    return [item for item in drawing if isinstance(item, Text)]


def strokes(drawing):
    """Every straight stroke and filled arrow, as shapes."""
    for item in drawing:
        if isinstance(item, Line):
            yield LineString([(item.x1, item.y1), (item.x2, item.y2)])
        elif isinstance(item, Polyline):
            yield LineString(item.points)
        elif isinstance(item, Polygon):
            yield LineString((*item.points, item.points[0]))


def crowded(drawing) -> list[str]:
    """Texts that meet another text or a line."""
    letters = [(text.text, ink(text)) for text in texts(drawing)]
    lines = list(strokes(drawing))
    met = [f"{a[0]} on {b[0]}" for a, b in combinations(letters, 2) if a[1].intersects(b[1])]
    return met + [name for name, area in letters for line in lines if line.intersects(area)]


@pytest.mark.parametrize("system", ["iso", "asme"])
@pytest.mark.parametrize("scale", [5.0, 4.0, 3.0, 2.0, 1.0])
@pytest.mark.parametrize("shape", [NUT, FINIAL], ids=["nut", "finial"])
def test_no_text_meets_a_line_or_another_text(shape, scale, system):
    drawing = dimensioned.draw(shape, 400.0, 400.0, system=system, scales=(scale,))
    written = {text.text for text in texts(drawing)}
    for step in shape.steps:
        assert written >= {*step.length_text, *step.diameter_text}
    assert crowded(drawing) == []


lengths = st.lists(
    st.tuples(st.floats(1.0, 9.0), st.sampled_from(["1", "12.5", "12.50"])), min_size=2, max_size=8
)


@settings(max_examples=100, deadline=None)
@given(steps=lengths, scale=st.sampled_from([1.0, 2.0, 5.0]), upright=st.booleans())
def test_stacked_dimensions_keep_clear_of_each_other_and_of_the_outline(steps, scale, upright):
    at, spans = 0.0, []
    for length, text in steps:
        spans.append(Span(low=at, high=at + length * scale, text=(text, text)))
        at += length * scale
    spans.append(Span(low=0.0, high=at, text=("(whole)",)))
    placed = dimensions.stack(spans, upright=upright)
    drawing = [
        item
        for one in placed
        for item in dimensions.draw(one, base=0.0, away=1, upright=upright, system="iso")
    ]
    assert sorted(one.span.text for one in placed) == sorted(span.text for span in spans)
    assert crowded(drawing) == []
    least = min(bounds(text)[0 if upright else 1] for text in texts(drawing))
    assert least > 2.0
    for inner, outer in combinations(placed, 2):
        if inner.span.low >= outer.span.low and inner.span.high <= outer.span.high:
            assert inner.v <= outer.v  # the shorter one stands nearer the part


def test_arrows_from_outside_never_frame_a_foreign_stretch():
    """Two short dimensions side by side may not share a row: the space between would look measured."""
    spans = [Span(low=10.0, high=14.0, text=("4",)), Span(low=34.0, high=38.0, text=("4.0",))]
    spans += [Span(low=0.0, high=60.0, text=("60",))]
    first, second, _ = dimensions.stack(spans, upright=False)
    assert not first.inside
    assert first.v != second.v


def test_drawing_fills_its_room_at_the_largest_scale_and_stays_inside():
    drawing = dimensioned.draw(NUT, 180.0, 110.0, system="asme", at=(12.0, 20.0))
    assert "SCALE 5:1" in {text.text for text in texts(drawing)}
    x0, y0, x1, y1 = extent(drawing)
    assert x0 >= 12.0
    assert y0 >= 20.0
    assert x1 <= 192.0
    assert y1 <= 130.0
    assert outside(Page(items=drawing)) == ()


def test_notes_without_room_become_letters_with_a_list():
    many = tuple(Remark(text=(f"note number {k} of many",), z=float(k), r=3.0) for k in range(1, 8))
    shape = Shape(steps=NUT.steps, remarks=many)
    drawing = dimensioned.draw(shape, 180.0, 140.0)
    written = [text.text for text in texts(drawing)]
    assert "A" in written
    assert "G  note number 7 of many" in written
    assert crowded(drawing) == []


def test_a_room_too_small_is_refused_with_what_is_needed():
    with pytest.raises(ValueError, match=r"needs \d+ x \d+ mm at 1:5 and has 30 x 30 mm"):
        dimensioned.draw(NUT, 30.0, 30.0)


@pytest.mark.parametrize("item", texts(dimensioned.draw(NUT, 180.0, 110.0)), ids=lambda text: text.text)
def test_text_is_large_enough_for_the_machine(item):
    assert face.capitals(item.size) >= 2.8 - 1e-9


def test_lines_come_in_two_widths_for_the_part_and_its_dimensions():
    drawing = dimensioned.draw(NUT, 180.0, 110.0)
    styles = {item.style for item in drawing if isinstance(item, Line | Polyline)}
    assert styles == {"visible", "thin", "centre"}


def test_outline_and_wall_are_the_part():
    assert outline(NUT)[0] == pytest.approx((0.0, 6.35 / 2.0 - 0.4))
    assert outline(NUT)[-1] == pytest.approx((14.29, 9.525 / 2.0 - 0.5))
    wall = inside(NUT)
    assert wall[0] == pytest.approx((0.0, 2.3), abs=1e-6)  # chamfered mouth
    assert (11.8, pytest.approx(1.725, abs=1e-6)) in [(round(z, 6), r) for z, r in wall]
    tip = 11.8 + 1.725 / 1.6642795  # tan 59 degrees
    assert any(z == pytest.approx(tip) and r == 0.0 for z, r in wall)


def test_section_hatches_metal_only():
    """The hatched area is the half section less the hole, and the cross hole parts it."""
    (hatch,) = [item for item in half_section.body(NUT, 1.0) if isinstance(item, Hatch)]
    assert hatch.pattern == "stainless"
    pieces = [item for item in half_section.body(FINIAL, 1.0) if isinstance(item, Hatch)]
    assert [piece.pattern for piece in pieces] == ["brass", "brass", "knurl"]
    left, right = (extent((piece,)) for piece in pieces[:2])
    assert left[2] == pytest.approx(17.5 - 1.6)
    assert right[0] == pytest.approx(17.5 + 1.6)


def test_from_outside_nothing_is_hatched_as_cut():
    drawing = half_section.body(NUT, 2.0, cut=False)
    assert not any(isinstance(item, Hatch) for item in drawing)
    x0, y0, x1, y1 = extent([item for item in drawing if isinstance(item, Polyline)])
    assert (x1 - x0, y1 - y0) == pytest.approx((2.0 * 14.29, 2.0 * 9.525))


def test_thread_lines_stay_apart_on_paper():
    assert drafting.thread_root(6.0, 5.8) == pytest.approx(5.0)  # ISO 6410-1: twice the wide line
    assert drafting.thread_root(6.0, 4.0) == 4.0
    assert drafting.thread_root(5.0, 5.2) == pytest.approx(6.0)


def test_thread_end_view_is_open_at_the_upper_right():
    crest, root = drafting.thread_end_view(0.0, 0.0, 8.0, 6.5)
    assert (crest.style, root.style) == ("visible", "thin")
    assert 240.0 <= root.sweep <= 280.0
    covered = [(root.start + root.sweep * k / 100.0) % 360.0 for k in range(101)]
    assert not any(5.0 < angle < 85.0 for angle in covered)


@pytest.mark.parametrize(("inch", "length"), [(False, 100.0), (True, 101.6)])
@pytest.mark.parametrize("upright", [False, True])
def test_scale_bars_are_true(upright, inch, length):
    bar = drafting.scale_bar(20.0, 30.0, upright=upright, inch=inch)
    (main,) = [item for item in bar if isinstance(item, Line) and item.style == "visible"]
    assert (main.x2 - main.x1, main.y2 - main.y1) == ((0.0, length) if upright else (length, 0.0))
    assert "measure before use" in texts(bar)[0].text
    assert crowded(bar) == []


def test_extension_lines_follow_the_system():
    iso = drafting.extension((0.0, 0.0), (0.0, 20.0), "iso")
    asme = drafting.extension((0.0, 0.0), (0.0, 20.0), "asme")
    assert (iso.y1, iso.y2) == (0.0, 22.0)
    assert (asme.y1, asme.y2) == (1.5, 23.0)


def test_arrowhead_is_three_times_as_long_as_wide():
    x0, y0, x1, y1 = bounds(drafting.arrow(10.0, 10.0, 0.0))
    assert x1 == 10.0
    assert (x1 - x0) / (y1 - y0) == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("drawing", "tip"),
    [
        (symbols.drill(30.0, 20.0, 3.0), (30.0, 20.0)),
        (symbols.turning_tool(30.0, 20.0), (30.0, 20.0)),
        (symbols.parting_blade(30.0, 20.0, 2.0), (30.0, 20.0)),
        (symbols.live_centre(30.0, 20.0), (30.0, 20.0)),
    ],
)
def test_tools_touch_the_work_with_their_tip(drawing, tip):
    corners = [point for item in drawing if isinstance(item, Polygon) for point in item.points]
    assert tip in corners
    assert min(y for _, y in corners) >= 20.0 or min(x for x, _ in corners) >= 30.0


def test_jaws_grip_the_round():
    drawing = symbols.chuck(60.0, 40.0, 5.0, jaw=12.0)
    upper, lower, _ = (extent((item,)) for item in drawing)
    assert upper[3] == 35.0
    assert lower[1] == 45.0
    assert upper[2] == lower[2] == 60.0
