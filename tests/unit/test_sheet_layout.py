"""Pages: inside the margins, nothing too small, every number printed, room to write, the same every time."""

import re
from itertools import combinations

import pytest
from msgspec.structs import replace

from jobsheets import job
from jobsheets.sheet import display, face, layout, layout_setup, page, plain
from jobsheets.sheet.display import Box, Text
from jobsheets.sheet.layout import BOTTOM, DIAL, LEFT, NOTE, RIGHT, TOP
from jobsheets.sheet.setup_sketch import sketch
from jobsheets.sheet.view import view

NAMES = ("stepped-end-nut", "domed-end-nut-metric", "threaded-mandrel-metric")
STRANGE = 'A note with <b>bold</b>, {{ braces }}, {% raw %} and "quotes" & more'


def planned(name):
    part = job.load_part(name)
    return job.work_out(part, job.load_shop(None, part.system)).plan


@pytest.fixture(scope="module", params=NAMES)
def plan(request):
    return planned(request.param)


@pytest.fixture(scope="module")
def pages(plan):
    return page.pages(plan, plan.part.system, fingerprint="F00D-0001", figures=True)


@pytest.fixture(scope="module")
def sheet(plan):
    return view(plan, plan.part.system, "F00D-0001")


def texts(one):
    return [item for item in one.items if isinstance(item, Text)]


def test_nothing_reaches_into_the_margins(pages):
    for one in pages:
        assert display.outside(one) == ()
        x0, y0, x1, y1 = display.extent(one.items)
        assert x0 >= LEFT - 1e-6  # the punch
        assert x1 <= RIGHT + 1e-6
        assert y0 >= TOP - 1.0
        assert y1 <= BOTTOM + 1.0


def test_no_letter_is_smaller_than_a_note(pages):
    for item in (item for one in pages for item in texts(one)):
        assert face.capitals(item.size) >= face.NOTE_CAPITALS - 1e-6, item.text


def test_dial_numbers_and_speeds_have_the_large_size(pages, sheet):
    large = {
        item.text for one in pages for item in texts(one) if face.capitals(item.size) >= face.DIAL_CAPITALS
    }
    for op in (op for setup in sheet.setups for op in setup.operations):
        rows = [row for row in op.rows if not row.touches]  # a touch is told in a sentence
        for cell in (cell for row in rows for cell in (row.x, row.z) if cell is not None):
            assert cell.divisions in large
            assert not cell.turns or cell.turns in large
        if op.speed:
            assert {op.speed, op.position} <= large


def test_each_page_says_where_it_belongs_and_where_the_work_stopped(pages):
    for n, one in enumerate(pages, start=1):
        said = " ".join(item.text for item in texts(one))
        assert f"page {n} of {len(pages)}" in said
        assert "F00D-0001" in said
        assert "DRAFT" in said
        assert "Stopped at operation" in said


def test_every_setup_has_its_sketch_on_the_page_of_its_start_list(pages, sheet):
    for setup in (s for s in sheet.setups if s.sketch is not None):
        begins = setup.title.split(",")[0]
        home = [p for p in pages if any(t.bold and t.text.startswith(begins) for t in texts(p))]
        assert len(home) == 1
        assert any(t.text == "zero face" for t in texts(home[0]))
        start = " ".join(t.text for t in texts(home[0]))
        assert all(line.removesuffix(": ____").split()[-1] in start for line in setup.start)


def test_a_sketch_keeps_inside_its_frame(sheet):
    width, height = layout_setup.SKETCH_WIDTH, layout_setup.SKETCH_HEIGHT
    for setup in (s for s in sheet.setups if s.sketch is not None):
        x0, y0, x1, y1 = display.extent(sketch(setup.sketch, 0.0, 0.0, width, height))
        assert x0 >= 0.0
        assert y0 >= 0.0
        assert x1 <= width
        assert y1 <= height


def test_operations_stand_in_their_order(pages, sheet):
    size = 18.0  # points: only the numbers of operations are as large, and the letters of setups
    printed = [t.text for one in pages for t in texts(one) if t.size >= size and t.text.isdigit()]
    assert list(dict.fromkeys(printed)) == [op.number for setup in sheet.setups for op in setup.operations]


def test_lines_of_text_do_not_run_into_each_other(pages):
    for one in pages:
        boxes = []
        for item in texts(one):
            if item.rotate:
                continue
            x0, _, x1, _ = display.bounds(item)
            boxes.append((x0, item.y - face.capitals(item.size), x1, item.y, item.text))
        for a, b in combinations(boxes, 2):
            apart = a[2] <= b[0] + 0.05 or b[2] <= a[0] + 0.05 or a[3] <= b[1] + 0.05 or b[3] <= a[1] + 0.05
            assert apart, (one.title, a[4], b[4])


def test_a_fifth_of_the_sheet_at_least_is_room_to_write(plan):
    """Ruled stretches, records, lines and boxes for readings, against the area inside the margins."""
    pages = page.pages(plan, plan.part.system, fingerprint="x")
    room = 0.0
    for one in pages:
        begin = [t.y for t in texts(one) if t.text in ("What was really run", "Room to write")]
        if begin:
            room += (BOTTOM - page.FOOT - min(begin)) * (RIGHT - LEFT)
        room += sum(i.width * i.height for i in one.items if isinstance(i, Box) and 15.0 < i.width < 45.0)
    room += len(pages) * page.FOOT * (RIGHT - LEFT)  # where the work was stopped
    assert room >= len(pages) * (RIGHT - LEFT) * (BOTTOM - TOP) / 5.0


@pytest.mark.parametrize(
    ("name", "most"),
    [
        ("stepped-end-nut", 10),
        ("stepped-end-nut-metric", 10),
        ("plain-end-nut", 6),
        ("plain-end-nut-metric", 6),
    ],
)
def test_a_sheet_is_short(name, most):
    plan = planned(name)
    assert len(page.pages(plan, plan.part.system, fingerprint="x")) <= most


def test_one_unit_system_on_a_sheet(plan, pages):
    """Tools keep their names, bars are named as bought, and formulas have units of their own."""
    other = "mm" if plan.part.system == "in" else "in"
    names = {op.cutter.name.lower() for op in plan.operations}
    names |= {h.gauge.lower() for op in plan.operations for h in op.holds} | {
        name.lower() for s in plan.setups for name in (s.holding.name, s.holding.holder) if name
    }
    foreign = re.compile(rf"[0-9] {other}\b(?!/)")
    for one in pages:
        if any("Figures:" in t.text for t in texts(one)):
            break
        for said in (t.text.lower() for t in texts(one)):
            for name in sorted(names, key=len, reverse=True):
                said = said.replace(name, "")
            if "25.4" not in said and " round, " not in said:
                assert not foreign.search(said), said


def test_a_long_operation_parts_between_rows_and_says_that_it_goes_on():
    plan = planned("threaded-mandrel-metric")
    long = next(op for op in plan.operations if len(op.rows) > 4)
    many = replace(long, rows=(*long.rows[:2], *([long.rows[2]] * 40), *long.rows[-2:]))
    operations = tuple(many if op.id == long.id else op for op in plan.operations)
    pages = page.pages(replace(plan, operations=operations), "mm", fingerprint="x")
    said = [t.text for one in pages for t in texts(one)]
    assert f"{long.title}, continued" in said
    assert all(display.outside(one) == () for one in pages)


def test_a_note_is_printed_as_it_was_written():
    plan = planned("stepped-end-nut")
    strange = replace(plan, part=replace(plan.part, notes=(STRANGE,), title="Nut <i>&amp;</i> {{ 7 * 7 }}"))
    pages = page.pages(strange, "in", fingerprint="x")
    said = " ".join(t.text for one in pages for t in texts(one))
    assert STRANGE in said
    assert "Nut <i>&amp;</i> {{ 7 * 7 }}" in said
    assert "Nut <i>&amp;</i> {{ 7 * 7 }}" in plain.text(strange, "in", "x")


def test_long_names_and_texts_are_wrapped_and_not_cut_off():
    plan = planned("stepped-end-nut")
    word = "unbroken" * 40
    part = replace(
        plan.part, name="a-very-long-name-" * 8, title=f"Long {'title ' * 30}", notes=(word, "note " * 300)
    )
    operations = tuple(
        replace(
            op,
            title=f"{op.title} {'and so on ' * 12}",
            hints=(word, *op.hints),
            why=f"{op.why} {'why ' * 60}",
        )
        for op in plan.operations
    )
    setups = tuple(
        replace(s, title=s.title * 4, machine=s.machine * 9, start=(*s.start, word)) for s in plan.setups
    )
    pages = page.pages(replace(plan, part=part, operations=operations, setups=setups), "in", fingerprint="x")
    for one in pages:
        assert display.outside(one) == ()
        assert display.extent(one.items)[2] <= RIGHT + 1e-6
    said = "".join(t.text for one in pages for t in texts(one))
    assert word in said


def test_the_same_plan_gives_the_same_pages_and_text():
    one, two = planned("stepped-end-nut"), planned("stepped-end-nut")
    assert page.pages(one, "in", fingerprint="x") == page.pages(two, "in", fingerprint="x")
    assert plain.text(one, "in", "x") == plain.text(two, "in", "x")


def test_plain_text_keeps_to_its_width_and_names_every_operation(plan, sheet):
    text = plain.text(plan, plan.part.system, "F00D-0001")
    assert max(map(len, text.splitlines())) <= plain.WIDE
    for op in (op for setup in sheet.setups for op in setup.operations):
        assert f"{op.number:>3} {op.title[:30]}" in text


def test_sizes_of_type_are_the_promised_ones():
    assert face.capitals(NOTE) >= 2.8
    assert face.capitals(DIAL) >= 4.2


def jaws(view):
    """Left and right end of the jaws in the sketch of a vice, mm of paper, in a frame from 0 to 84."""
    items = sketch(view, 0.0, 0.0, layout_setup.SKETCH_WIDTH, layout_setup.SKETCH_HEIGHT)
    ends = [x for x, _ in next(i for i in items if isinstance(i, display.Polygon)).points]
    return min(ends), max(ends)


def test_jaws_of_a_vice_are_drawn_as_wide_as_they_are():
    setup = next(s for s in view(planned("stepped-end-nut"), "in", "x").setups if s.kind == "vice")
    plain_ = replace(
        setup.sketch, before=((0.0, 4.0), (20.0, 4.0)), after=((0.0, 4.0), (20.0, 4.0)), grip=(5.0, 15.0)
    )
    narrow, wide = (replace(plain_, jaw_width=w) for w in (12.0, 300.0))
    near, far = jaws(narrow)
    scale = (far - near) / 12.0
    assert (near + far) / 2.0 == pytest.approx(layout_setup.SKETCH_WIDTH / 2.0)
    assert jaws(wide) == (0.0, layout_setup.SKETCH_WIDTH)
    shoulder = ((0.0, 4.0), (15.0, 4.0), (15.0, 6.0), (20.0, 6.0))
    beside = replace(narrow, before=shoulder, after=shoulder, front_out=True)
    near, far = jaws(beside)  # the larger end is at the left, and the jaws end before it
    at_rest = jaws(replace(beside, jaw_width=0.0))
    assert near == pytest.approx(at_rest[0])
    assert far - near > at_rest[1] - at_rest[0]
    assert scale > 0.0


def test_the_size_asked_for_in_a_start_list_has_a_box_to_write_it_in(sheet):
    for setup in (s for s in sheet.setups if s.place == "lathe"):
        asked = [line for line in setup.start if line.endswith(": ____")]
        ink = layout.Ink([])
        layout_setup.head(setup).draw(ink, 0.0)
        boxes = [i for i in ink.items if isinstance(i, display.Box) and i.width == layout_setup.WRITE]
        assert len(boxes) == len(asked)
        assert bool(asked) == (setup is not sheet.setups[0] and "ack end out" in setup.title)
