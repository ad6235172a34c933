"""Faults of a shop file: each told with its line and its cure, all at once."""

import pytest

from jobsheets.errors import InputError
from jobsheets.shop.load import load, read
from tests.unit.small_shop import SMALL


def faults(text: str) -> list[tuple[int, str, str, str]]:
    with pytest.raises(InputError) as told:
        read(text, "shop.yaml")
    return [(p.line, p.field, p.wrong, p.right) for p in told.value.problems]


def changed(old: str, new: str) -> str:
    assert SMALL.count(old) == 1
    return SMALL.replace(old, new)


def line_of(text: str, part: str) -> int:
    return next(n for n, line in enumerate(text.splitlines(), start=1) if part in line)


@pytest.mark.parametrize(
    ("old", "new", "field", "wrong", "right"),
    [
        ("room: 12 in", "room: 12", "lathe.room", "a length without a unit", "a length with its unit"),
        ("power: 1/2 hp", "power: 550", "lathe.power", "not a power with its unit", "such as 550 W"),
        ("system: in", "system: inch", "system", "not a system of units", "in"),
        (
            "single: [7/64 in]",
            "singel: [7/64 in]",
            "tools.drills.singel",
            "not a field of the drills",
            "single",
        ),
        ("rpm: 200", "rpm: 0", "lathe.speeds[1].rpm", "not a spindle speed", "more than 0"),
        ("rpm: 600", "rpm: 150", "lathe.speeds", "speeds out of order", "smallest to the largest"),
        ("position: high", "position: low", "lathe.speeds", "a position given twice", "each position once"),
        (
            "divisions: 50,",
            "divisions: 0,",
            "lathe.carriage.divisions",
            "not the divisions",
            "a whole number",
        ),
        ("divisions: 50,", "divisions: 49.3,", "lathe.carriage.divisions", "not the divisions", "62.5"),
        ("to: 3 in", "to: 1/16 in", "lathe.chucks[1].to", "a chuck that grips nothing", "larger than from"),
        (
            "usable_from: 0.5 in",
            "usable_from: 2 in",
            "lathe.tailstock.usable_from",
            "pushes its taper out",
            "less than travel",
        ),
        (
            "reads: radius",
            "reads: half",
            "lathe.cross_slide.reads",
            "not what a division stands for",
            "radius",
        ),
        ("backlash: 0.02 in", "backlash: 2 in", "lathe.carriage.backlash", "more backlash", "adjust the nut"),
        (
            "travel: 3 in",
            "travel: 0.05 in",
            "lathe.cross_slide.travel",
            "less travel than one turn",
            "usable travel",
        ),
        (
            "missing: [3/32 in]",
            "missing: [5/64 in]",
            "tools.drills.missing",
            "not a drill of the sets",
            "5/32 in",
        ),
        (
            "single: [7/64 in]",
            "single: [1/4 in]",
            "tools.drills.single[1].size",
            "holds already",
            "each drill once",
        ),
        (
            "single: [7/64 in]",
            "single: ['#7x']",
            "tools.drills.single[1].size",
            "no drill is called #7x",
            "#29",
        ),
        (
            "from: 1/16 in",
            "from: '#1'",
            "tools.drills.sets[1].from",
            "a drill of the number series",
            "fraction series",
        ),
        (
            "series: fraction",
            "series: inches",
            "tools.drills.sets[1].series",
            "not a drill series",
            "fraction",
        ),
    ],
)
def test_one_fault_is_told_with_its_line_and_cure(old, new, field, wrong, right):
    text = changed(old, new)
    told = faults(text)
    assert len(told) == 1, told
    line, at, what, cure = told[0]
    assert at == field
    assert wrong in what
    assert right in cure
    if not field.startswith("lathe.speeds") or "rpm" in field:
        assert line == line_of(text, new)


@pytest.mark.parametrize(
    ("more", "field", "wrong", "right"),
    [
        (
            "  taps: [{ threads: [8-33 UNC], leads: { second: 4 } }]",
            "tools.taps[1].threads[1]",
            "no standard",
            "8-32",
        ),
        (
            "  taps: [{ threads: [8-32 UNC], leads: { bottoming: 4 } }]",
            "tools.taps[1].leads.bottoming",
            "not the lead",
            "second: 4",
        ),
        (
            "  taps: [{ threads: [8-32 UNC], leads: { plug: 4 } }]",
            "tools.taps[1].leads.plug",
            "not a field",
            "taper, second, bottoming",
        ),
        (
            "  taps: [{ threads: [8-32 UNC], leads: {} }]",
            "tools.taps[1].leads",
            "no tap named",
            "taper, second or bottoming",
        ),
        (
            "  taps: [{ threads: [8-32 UNC, 8-32 UNC], leads: { second: 4 } }]",
            "tools.taps[1].threads",
            "listed already",
            "once",
        ),
        ("  dies: [{ threads: [8-32 UNC, 8-32 UNC] }]", "tools.dies[1].threads", "listed already", "once"),
        (
            "  reamers: [{ diameter: 1/4 in, flute: 1 in }, { diameter: 0.25 in, flute: 1 in }]",
            "tools.reamers[2].diameter",
            "listed already",
            "once",
        ),
        ("  centre_drills: [No. 99]", "tools.centre_drills[1].name", "no standard centre drill", "No. 2"),
        (
            "  drill_chuck: { from: 1/2 in, to: 1/2 in, stands_out: 2 in }",
            "tools.drill_chuck.to",
            "grips nothing",
            "more than from",
        ),
        ("gauges: [{ kind: caliper }]", "gauges[1].resolution", "without its resolution", "0.02 mm"),
        (
            "gauges: [{ kind: thread plug gauge }]",
            "gauges[1].threads",
            "without a thread",
            "sizes that are owned",
        ),
        ("house: { most_stick_out: 2 }", "house.most_stick_out", "less than free_stick_out", "at least 3"),
        (
            "house: { finish_depth: 1 mm }",
            "house.finish_depth",
            "no finer than most_depth",
            "less than 0.75 mm",
        ),
        (
            "stock: [{ material: stainles-303, diameter: 3/8 in, length: 1 in }]",
            "stock[1].material",
            "not a known material",
            "stainless-303",
        ),
    ],
)
def test_fault_of_a_tool_is_told_with_its_cure(more, field, wrong, right):
    told = faults(SMALL + more + "\n")
    assert len(told) == 1, told
    line, at, what, cure = told[0]
    assert line == len(SMALL.splitlines()) + 1
    assert at == field
    assert wrong in what
    assert right in cure


def test_all_faults_at_once_in_the_order_of_the_file():
    text = SMALL.replace("room: 12 in", "room: 12").replace("reads: radius", "reads: half")
    text = text.replace("taper: MT2", "tapper: MT2")
    told = faults(text)
    assert [field for _, field, _, _ in told] == [
        "lathe.room", "lathe.cross_slide.reads", "lathe.tailstock.tapper", "lathe.tailstock.taper",
    ]  # fmt: skip
    assert [line for line, *_ in told] == sorted(line for line, *_ in told)


def test_speeds_and_ranges_exclude_each_other():
    both = SMALL.replace(
        "  chucks:\n", "  ranges: [{ from: 100, to: 900, step: 10, position: H }]\n  chucks:\n"
    )
    assert [w for _, _, w, _ in faults(both)] == ["speeds and ranges together"]
    start, end = SMALL.index("  speeds:"), SMALL.index("  chucks:")
    assert [w for _, _, w, _ in faults(SMALL[:start] + SMALL[end:])] == ["neither speeds nor ranges"]


def test_repeated_key_is_refused():
    assert "a name given twice" in [w for _, _, w, _ in faults(SMALL + "name: again\n")]


def test_missing_file_is_an_input_fault(tmp_path):
    with pytest.raises(InputError, match="a shop file"):
        load(tmp_path / "none.yaml")


def test_huge_file_is_refused_without_reading_it_all(tmp_path):
    path = tmp_path / "big.yaml"
    path.write_bytes(b"#" * 300_000)
    with pytest.raises(InputError, match="too big a file"):
        load(path)


def test_set_of_a_million_drills_is_refused():
    text = changed("step: 1/32 in", "step: 0.0000001 in")
    assert [field for _, field, _, _ in faults(text)] == ["tools.drills.sets[1].step"]
