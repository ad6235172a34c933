"""Every kind of fault of a recipe: what is told, at which line and field, with what would be right."""

from pathlib import Path

import pytest

from jobsheets.errors import InputError, Problem
from jobsheets.recipe.load import load

NUT = """\
recipe: 1
name: nut
title: A nut
kind: turned
units: mm
inputs:
  rod: { length: 10 mm, least: 8 mm, most: 16 mm, why: no head is left }
  thread: { thread: M4x0.7, among: [M4x0.7, M5x0.8] }
  neck: { length: rod - 3 mm }
  style: { choice: flat, among: [flat, dome], why: both are seen }
rules:
  - { need: neck >= major(thread) + 2 mm, why: no wall round the thread, change: neck }
material: stainless-303
stock: { round: rod }
features:
  - { id: neck, turn: neck, length: 8 mm, limits: f8, front: { chamfer: 0.4 mm } }
  - { id: head, turn: rod, length: 6 mm, back: { chamfer: 0.5 mm } }
  - { id: thread, tap: thread, depth: 7 mm, mouth: 4.5 mm }
  - { id: grip, cross_hole: 2.5 mm, at: head }
  - { id: pattern, knurl: diamond, on: head, pitch: 1 mm }
fits:
  - { size: neck, to: counterbore, allowance: -0.08 mm, ask: diameter of the counterbore }
pins:
  - { operation: grip, before: part_off, why: the bar is the handle }
limits: { default: ISO 2768-m }
overall: { limits: ±0.1 mm }
"""


def problems(tmp_path: Path, text: str, **options: dict[str, str]) -> tuple[Problem, ...]:
    path = tmp_path / "nut.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        load(path, settings=options.get("settings", {}), measured=options.get("measured", {}), shipped=None)
    return caught.value.problems


def line_of(text: str, part: str) -> int:
    return next(n for n, line in enumerate(text.splitlines(), start=1) if part in line)


def test_the_nut_itself_is_sound(tmp_path: Path) -> None:
    path = tmp_path / "nut.yaml"
    path.write_text(NUT, encoding="utf-8")
    part = load(path, shipped=None)
    assert [s.id for s in part.segments] == ["neck", "head"]
    assert part.pins[0].before == "part_off"
    assert part.overall is not None
    assert part.overall.low == pytest.approx(13.9)


# was, becomes, field, part of what is wrong, part of what would be right
FAULTS = [
    # names and notation
    ("recipe: 1", "recipe: 2", "recipe", "not the version of the recipe language", "1"),
    ("kind: turned", "kind: tuned", "kind", "not a kind of part", "turned"),
    ("name: nut", "name: My Nut", "name", "not a name", "small letters"),
    ("title: A nut", "titel: A nut", "titel", "not a field of a recipe", "title"),
    ("title: A nut", "title:", "title", "nothing written", "a short text"),
    ("units: mm", "units: cm", "units", "not a unit system", "in, mm"),
    ("length: 8 mm, limits: f8", "lenght: 8 mm, limits: f8", "features[1].lenght", "not a field", "length"),
    (
        "length: 8 mm, limits: f8",
        "limits: f8",
        "features[1].length",
        "missing from a turned length",
        "length:",
    ),
    ("limits: f8", "limits: tight", "features[1].limits", "not limits", "±0.05 mm"),
    ("limits: f8", "limits: ±0.05", "features[1].limits", "without a unit", "mm"),
    ("tap: thread", "tap: M4x", "features[3].tap", "not the name of a thread", "M5x0.8"),
    ("tap: thread", "tap: M4x0.7-6H", "features[3].tap", "more than a thread", "class:"),
    ("knurl: diamond", "knurl: star", "features[5].knurl", "not a form of knurl", "diamond"),
    ("id: grip, cross_hole", "id: grip, crosshole", "features[4]", "does not say what it is", "cross_hole"),
    ("id: grip,", "id: Grip,", "features[4].id", "not a name", "small letter"),
    ("style: { choice", "Style: { choice", "inputs", "not a name", "a small letter first"),
    ("ISO 2768-m }", "ISO 2768-x }", "limits.default", "not a general tolerance", "ISO 2768-m"),
    ("depth: 7 mm", "depth: [7 mm]", "features[3].depth", "not a single value", "a length"),
    ("front: { chamfer: 0.4 mm }", "front: 0.4 mm", "features[1].front", "not a form of an edge", "chamfer"),
    (
        "back: { chamfer: 0.5 mm }",
        "back: { chamfer: 0.5 mm, limits: }",
        "features[2].back.limits",
        "nothing",
        "limits",
    ),
    # formulas
    (
        "length: rod - 3 mm",
        "length: rod - 3",
        "inputs.neck",
        "a length - a number",
        "a unit behind the number",
    ),
    ("length: rod - 3 mm", "length: 7", "inputs.neck", "a length without a unit", "12 mm"),
    ("length: rod - 3 mm", "length: rood - 3 mm", "inputs.neck", "'rood' is no input", "rod"),
    ("length: rod - 3 mm", "length: rod * rod", "inputs.neck", "a length * a length", "a plain number"),
    ("length: rod - 3 mm", "length: rod / (1 - 1)", "inputs.neck", "a division by zero", "not zero"),
    ("length: rod - 3 mm", "length: rod - neck", "inputs.neck", "neck -> neck", "a plain value"),
    ("length: rod - 3 mm", "length: rod < 3 mm", "inputs.neck", "yes or no, not a length", "a length"),
    ("length: rod - 3 mm", "length: mini(rod)", "inputs.neck", "'mini' is no function", "min"),
    ("length: rod - 3 mm", "length: min(rod)", "inputs.neck", "min() of a length", "min(a, b, ...)"),
    ("length: rod - 3 mm", "length: major(rod)", "inputs.neck", "major() of a length", "major(thread)"),
    ("length: rod - 3 mm", "length: (rod - 3 mm", "inputs.neck.length", "not closed", ")"),
    ("length: rod - 3 mm", "length: rod - ", "inputs.neck.length", "breaks off", "lengths"),
    ("length: rod - 3 mm", "length: rod - 3 mm $", "inputs.neck.length", "cannot be read", "lengths"),
    ("length: rod - 3 mm", "length: 2x", "inputs.neck.length", "cannot be read", "lengths"),
    (
        "length: rod - 3 mm",
        "length: rod 3 mm",
        "inputs.neck.length",
        "where the formula should end",
        "+ - * /",
    ),
    ("length: rod - 3 mm", 'length: "7,5 mm"', "inputs.neck.length", "a comma in a number", "9.5 mm"),
    ("length: rod - 3 mm", "length: 'round_to(rod, 0 mm)'", "inputs.neck", "a step of zero", "above zero"),
    (
        "length: rod - 3 mm",
        f"length: rod * {'9' * 190} * {'9' * 3}",
        "inputs.neck.length",
        "characters",
        "200",
    ),
    ("length: rod - 3 mm", "length: " + "-" * 30 + "rod", "inputs.neck.length", "nested deeper", "simpler"),
    ("length: rod - 3 mm", "length: rod" + "+1mm" * 31, "inputs.neck.length", "60 parts", "split"),
    (
        "neck >= major(thread) + 2 mm",
        "neck < rod < 9 mm",
        "rules[1].need",
        "two comparisons",
        "a < b and b < c",
    ),
    ("neck >= major(thread) + 2 mm", "neck + 2 mm", "rules[1].need", "a length, not yes or no", "neck < rod"),
    ("neck >= major(thread) + 2 mm", "neck >= 2", "rules[1].need", "a length >= a number", "a unit"),
    # inputs and rules
    (
        "length: 10 mm, least",
        "length: 7 mm, least",
        "inputs.rod",
        "smaller than rod may be: no head",
        "8.00 mm",
    ),
    (
        "length: 10 mm, least",
        "length: 17 mm, least",
        "inputs.rod",
        "larger than rod may be: no head",
        "16.00 mm",
    ),
    (
        "thread: M4x0.7, among",
        "thread: M6, among",
        "inputs.thread",
        "not one that thread may be",
        "M4x0.7 or M5x0.8",
    ),
    ("choice: flat, among", "choice: flt, among", "inputs.style", "(both are seen)", "flat or dome"),
    ("among: [flat, dome], ", "", "inputs.style.among", "no choice", "among: ["),
    ("least: 8 mm", "least: 8", "inputs.rod.least", "a length without a unit", "12 mm"),
    (
        "major(thread) + 2 mm",
        "major(thread) + 4 mm",
        "rules[1].need",
        "no wall round the thread (7.00 mm >= 8.00 mm",
        "neck: 8.00",
    ),
    ("change: neck", "change: nek", "rules[1].change", "no input of this recipe", "neck"),
    # looked up
    (
        "material: stainless-303",
        "material: stainles-303",
        "material",
        "not a known material",
        "stainless-303",
    ),
    (
        "stock: { round: rod }",
        "stock: { round: rod, standard: A108 }",
        "stock.standard",
        "not a bar standard",
        "ASTM A108",
    ),
    ("tap: thread", "tap: M4x0.61", "features[3].tap", "not in the tables of threads", "M4x0.7"),
    (
        "depth: 7 mm, mouth",
        "depth: 7 mm, class: 2B, mouth",
        "features[3].class",
        "no class of a nut for M4x0.7",
        "6H",
    ),
    # sizes that cannot be
    (
        "turn: neck, length",
        "turn: 11 mm, length",
        "features[1].turn",
        "11.00 mm, larger than the bar (10.00 mm)",
        "10.00 mm",
    ),
    ("length: 8 mm, limits", "length: 0 mm, limits", "features[1].length", "a size of 0.00 mm", "above zero"),
    (
        "length: 8 mm, limits",
        "length: 1 mm - 3 mm, limits",
        "features[1].length",
        "a size of -2.00 mm",
        "above zero",
    ),
    ("length: 8 mm, limits", "length: 3000 mm, limits", "features[1].length", "longer than any part", "2 m"),
    ("limits: f8", "limits: H8", "features[1].limits", "a symbol of holes", "h8"),
    ("limits: f8", "length_limits: f8", "features[1].length_limits", "a fit symbol on a length", "±0.1 mm"),
    ("limits: f8", "limits: 6g", "features[1].limits", "a class of threads", "f8"),
    ("limits: f8", "limits: ±7 mm", "features[1].limits", "nothing is left", "narrower"),
    (
        "turn: rod, length: 6 mm",
        "turn: rod, limits: h9, length: 6 mm",
        "features[2].limits",
        "no stock to turn",
        "smaller diameter",
    ),
    (
        "depth: 7 mm",
        "depth: 14 mm",
        "features[3].depth",
        "14.00 mm, and the part is 14.00 mm long",
        "less than 14.00 mm, or through",
    ),
    ("depth: 7 mm, ", "", "features[3].depth", "no depth", "through: true"),
    (
        "depth: 7 mm",
        "depth: 7 mm, through: true",
        "features[3].depth",
        "a depth of a through hole",
        "one of the two",
    ),
    (
        "tap: thread, depth",
        "tap: M8x1, depth",
        "features[3].tap",
        "M8x1 (8.00 mm) leaves no wall in neck, which is 7.00 mm",
        "7.00 mm",
    ),
    ("mouth: 4.5 mm", "mouth: 8 mm", "features[3].mouth", "does not lie between", "less than 7.00 mm"),
    ("mouth: 4.5 mm", "mouth: 0.4 mm", "features[3].mouth", "no limits in ISO 2768-m", "±0.05 mm"),
    (
        "cross_hole: 2.5 mm",
        "cross_hole: 5.5 mm",
        "features[4].cross_hole",
        "takes 6.50 mm",
        "head at least 6.50 mm long, or a hole of 5.00 mm",
    ),
    (
        "at: head }",
        "at: head, offset: 1 mm }",
        "features[4].offset",
        "centre at 1.00 mm",
        "1.75 mm to 4.25 mm, nearest 1.75 mm",
    ),
    ("at: head }", "at: haed }", "features[4].at", "not a turned length", "head"),
    ("on: head", "on: grip", "features[5].on", "not a turned length", "head"),
    (
        "chamfer: 0.4 mm",
        "chamfer: 1.6 mm",
        "features[1].front.chamfer",
        "larger than neck has room for (1.50 mm)",
        "at most 1.50 mm",
    ),
    (
        "front: { chamfer: 0.4 mm }",
        "back: { chamfer: 0.4 mm }",
        "features[1].back.chamfer",
        "no outer corner at the back of neck",
        "no chamfer",
    ),
    (
        "turn: rod, length: 6 mm",
        "turn: rod, front: { dome: 1 mm }, length: 6 mm",
        "features[2].front.dome",
        "a dome inside the part",
        "chamfer",
    ),
    (
        "back: { chamfer: 0.5 mm }",
        "back: { dome: 5.5 mm }",
        "features[2].back.dome",
        "has room for (5.00 mm)",
        "at most 5.00 mm",
    ),
    (
        "back: { chamfer: 0.5 mm }",
        "front: { chamfer: 1.4 mm }, back: { radius: 4.9 mm }",
        "features[2].length",
        "shorter than its two edges together (6.30 mm)",
        "6.30 mm",
    ),
    (
        "knurl: diamond, on: head, pitch: 1 mm",
        "groove: 12 mm, width: 2 mm",
        "features[5].groove",
        "larger than the bar",
        "less than 10.00 mm",
    ),
    (
        "knurl: diamond, on: head, pitch: 1 mm",
        "groove: 10 mm, width: 2 mm",
        "features[5].groove",
        "that of the bar: nothing to cut",
        "less than 10.00 mm",
    ),
    (
        "id: head, turn: rod, length: 6 mm, back: { chamfer: 0.5 mm }",
        "id: head, groove: 8 mm, width: 6 mm",
        "features[2].groove",
        "not smaller than neck (7.00 mm)",
        "less than 7.00 mm",
    ),
    (
        "knurl: diamond, on: head, pitch: 1 mm",
        "counterbore: 4 mm, depth: 8 mm, from: back",
        "features[3].depth",
        "runs into pattern",
        "less than 6.00 mm",
    ),
    (
        "knurl: diamond, on: head, pitch: 1 mm",
        "die: M12, length: 5 mm",
        "features[5].die",
        "12.00 mm, larger than the bar",
        "at most 10.00 mm",
    ),
    # names among features
    ("id: pattern", "id: grip", "features[5].id", "an id that features[4] has", "grip_2"),
    ("id: pattern", "id: bar", "features[5].id", "stands for a face or the stock", "bar_1"),
    ("size: neck", "size: nekc", "fits[1].size", "no turned length or hole", "neck"),
    ("size: neck", "size: head", "features[2].turn", "the bar as bought, but fits[1]", "less than the bar"),
    ("size: neck", "size: thread", "fits[1].size", "no turned length or hole", "head"),
    ("allowance: -0.08 mm", "allowance: 8 mm", "fits[1].allowance", "leaves nothing", "hundredths"),
    ("before: part_off", "before: part_of", "pins[1].before", "no feature or step", "part_off"),
    ("limits: ±0.1 mm", "limits: h9", "overall.limits", "a fit symbol on a length", "±0.1 mm"),
]
# what is told at the other of two features that do not go together
ELSEWHERE = {"the bar as bought, but fits[1]": 17, "runs into pattern": 18}


@pytest.mark.parametrize("row", FAULTS, ids=lambda row: f"{row[2]}: {row[3]}"[:60])
def test_fault_is_told_where_it_stands(tmp_path: Path, row: tuple[str, str, str, str, str]) -> None:
    was, becomes, field, wrong, right = row
    assert NUT.count(was) >= 1
    text = NUT.replace(was, becomes, 1)
    found = problems(tmp_path, text)
    told = [p for p in found if p.field == field and wrong in p.wrong]
    assert told, "\n".join(map(str, found))
    assert told[0].line == ELSEWHERE.get(wrong, line_of(NUT, was))
    assert right in told[0].right
    assert told[0].file.endswith("nut.yaml")


def test_no_outline(tmp_path: Path) -> None:
    head = NUT[: NUT.index("features:")]
    found = problems(tmp_path, head + "features:\n  - { id: bore, drill: 3 mm, through: true }\n")
    assert [(p.line, p.field, p.wrong) for p in found] == [(16, "features", "no outline")]


def test_all_faults_of_a_pass_are_told_at_once(tmp_path: Path) -> None:
    text = NUT.replace("title: A nut", "titel: A nut").replace("limits: f8", "limits: tight")
    found = problems(tmp_path, text.replace("depth: 7 mm", "dept: 7 mm"))
    assert [p.line for p in found] == [1, 3, 16, 18]
    text = NUT.replace("rod - 3 mm", "rood - 3").replace("stainless-303", "wool").replace("at: head", "at: 2")
    found = problems(tmp_path, text.replace("at: 2", "at: head").replace("depth: 7 mm", "depth: 7"))
    assert [p.line for p in found] == [9, 13, 18]


def test_what_waits_for_a_faulty_input_says_nothing(tmp_path: Path) -> None:
    found = problems(tmp_path, NUT.replace("length: 10 mm, least", "length: wide, least"))
    assert [p.field for p in found] == ["inputs.rod"]


def test_inputs_in_a_ring_are_named(tmp_path: Path) -> None:
    text = NUT.replace("length: 10 mm, least", "length: neck + 3 mm, least")
    found = problems(tmp_path, text)
    assert [(p.line, p.wrong) for p in found] == [(7, "inputs in a ring: rod -> neck -> rod")]


def test_a_rule_over_threads_offers_those_that_work(tmp_path: Path) -> None:
    text = NUT.replace("change: neck", "change: thread").replace(
        "thread: M4x0.7, among", "thread: M5x0.8, among"
    )
    found = problems(tmp_path, text.replace("length: rod - 3 mm", "length: 6.5 mm"))
    assert [p.right for p in found] == ["thread: M4x0.7"]


@pytest.mark.parametrize("own", ["2 mm", "5.9 mm", "5.999 mm"])
def test_the_nearest_value_that_a_rule_offers_does_work(tmp_path: Path, own: str) -> None:
    found = problems(tmp_path, NUT, settings={"neck": own})
    offered = found[0].right.removeprefix("neck: ").removesuffix(" or a little more")
    assert offered == "6.00 mm"
    (tmp_path / "nut.yaml").write_text(NUT, encoding="utf-8")
    part = load(tmp_path / "nut.yaml", settings={"neck": offered}, shipped=None)
    assert part.segment("neck").diameter.nominal == pytest.approx(6.0)


# option, name, text, part of what is wrong, part of what would be right
OPTIONS = [
    ("settings", "rood", "9 mm", "no input of this recipe", "rod"),
    ("settings", "rod", "9", "a length without a unit", "12 mm"),
    ("settings", "rod", "20 mm", "larger than rod may be", "16.00 mm or less"),
    ("settings", "rod", "1e400 mm", "cannot be read", "lengths"),
    ("settings", "rod", "nan", "'nan' is no input", "one of"),
    ("settings", "thread", "M6", "not one that thread may be", "M4x0.7 or M5x0.8"),
    ("settings", "style", "oval", "not one that style may be", "flat or dome"),
    ("measured", "conterbore", "7 mm", "no mate of this recipe", "counterbore"),
    ("measured", "counterbore", "7", "a length without a unit", "12 mm"),
    ("measured", "counterbore", "-7 mm", "no size of a mate", "above zero"),
    ("measured", "counterbore", "0.01 mm", "leaves nothing", "hundredths"),
]


@pytest.mark.parametrize("row", OPTIONS, ids=lambda row: f"{row[1]}={row[2]}")
def test_fault_of_the_command_line(tmp_path: Path, row: tuple[str, str, str, str, str]) -> None:
    option, name, text, wrong, right = row
    found = problems(tmp_path, NUT, **{option: {name: text}})
    assert wrong in found[0].wrong
    assert right in found[0].right
    if "leaves nothing" not in wrong:
        assert (found[0].file, found[0].line) == ("--set" if option == "settings" else "--measured", 0)
        assert found[0].field == name


def test_a_measured_mate_out_of_range_is_told_as_measured(tmp_path: Path) -> None:
    text = NUT.replace("length: rod - 3 mm }", "length: rod - 3 mm, most: 8 mm }")
    found = problems(tmp_path, text, measured={"counterbore": "9 mm"})
    assert (found[0].file, found[0].field) == ("--measured", "counterbore")
    assert "it makes neck 8.92 mm, larger than neck may be" in found[0].wrong
