"""From files to parts: sizes, limits, fits to mates, bases, and files that are no recipe."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace

from jobsheets.errors import InputError, Problem
from jobsheets.part.turned import Bottom, EdgeKind, End, HoleKind, SegmentKind, TurnedPart
from jobsheets.recipe import source
from jobsheets.recipe.load import describe, load

RECIPES = Path(__file__).parents[2] / "recipes"
SHIPPED = sorted(RECIPES.glob("*.yaml"))
PARTS = (
    "capped-nut-body",
    "domed-end-nut",
    "ferrule-ring",
    "knurled-end-nut",
    "plain-end-nut",
    "screwcut-end-stud",
    "spacer-bushing",
    "stepped-end-nut",
    "threaded-mandrel",
)


NUT = """\
recipe: 1
name: nut
title: Nut
kind: turned
units: in
inputs:
  rod: { length: 3/8 in, help: bar }
  thread: { thread: 8-32 UNC }
  neck: { length: rod - 1/8 in }
rules:
  - { need: neck <= rod - 1/16 in, why: the shoulder is too narrow }
material: stainless-303
stock: { round: rod }
features:
  - id: neck
    turn: neck
    length: 5/16 in
    limits: f8
    length_limits: +0/-0.005 in
    front: { chamfer: 0.015 in }
  - { id: head, turn: rod, length: 1/4 in, back: { chamfer: 0.020 in } }
  - { id: thread, tap: thread, depth: 9/32 in, mouth: major(thread) + 0.015 in }
  - { id: grip, cross_hole: 3/32 in, at: head }
fits:
  - { size: neck, to: counterbore, allowance: -0.003 in, ask: "diameter of the counterbore, measured" }
"""


@pytest.fixture
def nut(tmp_path: Path) -> Callable[..., TurnedPart]:
    path = put(tmp_path, "nut.yaml", NUT)
    return lambda **measured: load(path, measured=measured, shipped=None)


def problems(path: Path, shipped: Path | None = None) -> tuple[Problem, ...]:
    with pytest.raises(InputError) as caught:
        load(path, shipped=shipped)
    return caught.value.problems


def put(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_nine_parts_ship_in_inches_and_in_millimetres() -> None:
    assert [p.stem for p in SHIPPED] == sorted(
        (f"{name}{tail}" for name in PARTS for tail in ("", "-metric")), key=lambda n: f"{n}.yaml"
    )


@pytest.mark.parametrize("path", SHIPPED, ids=lambda p: p.stem)
def test_shipped_recipe(path: Path) -> None:
    part = load(path, shipped=RECIPES)
    assert part.name == path.stem
    assert part.system == ("mm" if path.stem.endswith("-metric") else "in")
    assert "INVENTED" in path.read_text(encoding="utf-8").splitlines()[0]
    sizes = [s for seg in part.segments for s in (seg.diameter, seg.length)]
    sizes += [h.diameter for h in part.holes]
    assert all(0.0 < s.low < s.high and s.source for s in sizes)
    assert part.length < 40.0


@pytest.mark.parametrize("name", PARTS)
def test_both_systems_make_the_same_kind_of_part(name: str) -> None:
    inch, metric = (load(RECIPES / f"{name}{tail}.yaml", shipped=RECIPES) for tail in ("", "-metric"))
    assert [(s.id, s.kind, s.as_stock) for s in inch.segments] == [
        (s.id, s.kind, s.as_stock) for s in metric.segments
    ]
    assert inch.material == metric.material
    assert metric.rod.nominal == pytest.approx(round(metric.rod.nominal))


def test_stepped_end_nut(nut: Callable[..., TurnedPart]) -> None:
    part = nut()
    neck, head = part.segments
    # f8 over 6 up to 10 mm: -13 and -35 micrometres, ISO 286
    assert (neck.diameter.low, neck.diameter.high) == pytest.approx((6.35 - 0.035, 6.35 - 0.013))
    assert (neck.diameter.limits, neck.diameter.nominal) == ("f8", 6.35)
    assert (neck.length.low, neck.length.high) == pytest.approx((7.9375 - 0.127, 7.9375))
    assert neck.front is not None
    assert neck.front.kind is EdgeKind.CHAMFER
    assert "common practice" in neck.front.size.source  # 0.381 mm is below the tables of ISO 2768
    assert head.as_stock
    assert head.diameter == part.rod
    assert (head.length.low, head.length.high) == pytest.approx(
        (6.15, 6.55)
    )  # ISO 2768-m over 6 up to 30: 0.2
    assert head.back is not None
    assert (head.back.size.low, head.back.size.high) == pytest.approx(
        (0.308, 0.708)
    )  # table 2, 0.5 to 3: 0.2
    thread = part.holes[0]
    assert (thread.kind, thread.bottom, thread.end) == (HoleKind.TAP, Bottom.BLIND, End.FRONT)
    # minor diameter of 8-32 UNC-2B: 0.1300 to 0.1390 in, ASME B1.1
    assert (thread.diameter.low / 25.4, thread.diameter.high / 25.4) == pytest.approx(
        (0.1300, 0.1390), abs=5e-5
    )
    assert thread.thread is not None
    assert thread.thread.text == "8-32 UNC-2B"
    assert part.cross_holes[0].at.nominal == pytest.approx(7.9375 + 3.175)
    assert [(i.name, i.text, i.given) for i in part.inputs] == [
        ("rod", "3/8 in", False),
        ("thread", "8-32 UNC", False),
        ("neck", "0.250 in", False),
    ]


def test_external_thread_and_relief() -> None:
    part = load(RECIPES / "threaded-mandrel.yaml", shipped=RECIPES)
    stud, relief, shank = part.segments
    # major diameter of 8-32 UNC-2A: 0.1631 to 0.1571 in, ASME B1.1
    assert (stud.diameter.low / 25.4, stud.diameter.high / 25.4) == pytest.approx((0.1571, 0.1631), abs=5e-5)
    assert (stud.kind, relief.kind, shank.as_stock) == (SegmentKind.THREAD, SegmentKind.GROOVE, True)
    assert stud.diameter.nominal == pytest.approx(0.164 * 25.4)


def test_a_choice_is_printed_with_its_reason_and_moves_the_thread() -> None:
    closed = load(RECIPES / "capped-nut-body.yaml", shipped=RECIPES)
    opened = load(RECIPES / "capped-nut-body.yaml", settings={"seal": "open"}, shipped=RECIPES)
    assert closed.notes[0].startswith(
        "whether the thread goes on into the cup: closed. closed keeps glue out"
    )
    assert opened.holes[0].depth is not None
    assert closed.holes[0].depth is not None
    assert opened.holes[0].depth.nominal > closed.holes[0].depth.nominal
    assert [i.given for i in opened.inputs if i.name == "seal"] == [True]


def test_settings_are_worked_through(tmp_path: Path) -> None:
    path = put(tmp_path, "nut.yaml", NUT)
    part = load(path, settings={"rod": "1/2 in", "neck": "rod * 0.75"}, shipped=None)
    assert part.segment("neck").diameter.nominal == pytest.approx(9.525)
    assert part.segment("head").diameter.nominal == pytest.approx(12.7)
    assert [(i.text, i.given) for i in part.inputs] == [
        ("1/2 in", True),
        ("8-32 UNC", False),
        ("0.375 in", True),
    ]


def test_a_measured_mate_moves_the_size_and_what_depends_on_it(nut: Callable[..., TurnedPart]) -> None:
    plain, fitted = nut(), nut(counterbore="0.2480 in")
    assert plain.mates[0].measured is None
    assert plain.mates[0].expected == pytest.approx(0.253 * 25.4)
    assert fitted.mates == (replace(plain.mates[0], measured=pytest.approx(0.248 * 25.4)),)
    before, after = plain.segment("neck").diameter, fitted.segment("neck").diameter
    assert after.nominal == pytest.approx(0.245 * 25.4)
    assert (after.low - after.nominal, after.high - after.nominal) == pytest.approx(
        (before.low - before.nominal, before.high - before.nominal)
    )
    assert [i.given for i in fitted.inputs if i.name == "neck"] == [True]
    assert plain.segment("head") == fitted.segment("head")


def test_deviations_stay_even_across_a_range_of_the_fit_table(nut: Callable[..., TurnedPart]) -> None:
    """5.9 mm is another range of ISO 286 than 6.35 mm; the limits were chosen for the size as drawn."""
    after = nut(counterbore="5.9762 mm").segment("neck").diameter
    assert (after.nominal, after.low, after.high) == pytest.approx((5.9, 5.9 - 0.035, 5.9 - 0.013))


def test_rules_hold_for_measured_sizes_too(nut: Callable[..., TurnedPart]) -> None:
    with pytest.raises(InputError, match="the shoulder is too narrow"):
        nut(counterbore="0.340 in")


def test_a_mate_of_a_formula_moves_its_size_alone(tmp_path: Path) -> None:
    path = put(tmp_path, "a.yaml", NUT.replace("turn: neck\n", "turn: neck * 1\n"))
    part = load(path, measured={"counterbore": "0.248 in"}, shipped=None)
    assert part.segment("neck").diameter.nominal == pytest.approx(0.245 * 25.4)
    assert [i.text for i in part.inputs if i.name == "neck"] == ["0.250 in"]


def test_left_hand_and_class_and_back(tmp_path: Path) -> None:
    path = put(
        tmp_path,
        "a.yaml",
        "recipe: 1\nname: a\ntitle: A\nkind: turned\nmaterial: brass-360\n"
        "stock: { round: 10 mm, standard: EN 10278 drawn round }\n"
        "limits: { default: ISO 2768-f }\nfeatures:\n"
        "  - { id: a, turn: 8 mm, length: 10 mm, limits: ISO 2768-c }\n"
        "  - { id: t, tap: M5, class: 5H, hand: left, depth: 4 mm, from: back, bottom: flat }\n"
        "  - { id: r, ream: 3 mm, depth: 3 mm, limits: H7 }\n",
    )
    part = load(path, shipped=None)
    assert part.rod.limits == "EN 10278 drawn round"
    assert part.system == "mm"
    tap, ream = part.holes
    assert tap.thread is not None
    assert (tap.thread.text, tap.end, tap.bottom) == ("M5x0.8-5H-LH", End.BACK, Bottom.FLAT)
    assert (ream.bottom, ream.diameter.low, ream.diameter.high) == (Bottom.BLIND, 3.0, pytest.approx(3.010))
    # ISO 2768-1 table 1: c over 6 up to 30 is 0.5; f is 0.1
    assert part.segments[0].diameter.high == pytest.approx(8.5)
    assert part.segments[0].length.high == pytest.approx(10.1)


def test_the_examples_of_the_reference_hold(tmp_path: Path) -> None:
    reference = (RECIPES.parent / "docs" / "recipe-language.md").read_text(encoding="utf-8")
    example = reference.split("```yaml\n")[1].split("```")[0]
    path = put(tmp_path, "nut.yaml", example)
    assert load(path, shipped=None).name == "plain-nut"
    told = reference.split("```text\n")[1].split("```")[0]
    wrong = example.replace(
        "thread: { thread: M4x0.7 }", "thread: { thread: M4x0.7 }\n  neck: { length: rod - 3 }"
    )
    assert str(problems(put(tmp_path, "nut.yaml", wrong))[0]).removeprefix(f"{tmp_path}/") == told.strip()


def test_describe() -> None:
    found = describe(RECIPES / "stepped-end-nut.yaml")
    assert (found.name, found.title, found.system) == (
        "stepped-end-nut",
        "Stepped end nut, blind thread",
        "in",
    )
    thread = next(i for i in found.inputs if i.name == "thread")
    assert (thread.kind, thread.text, thread.among[1]) == ("a thread", "8-32 UNC", "8-32 UNC")
    assert next(i for i in found.inputs if i.name == "rod").least == "5/16 in"
    assert found.mates == (("counterbore", "diameter of the counterbore, measured"),)
    assert describe(RECIPES / "plain-end-nut-metric.yaml").title == "Plain end nut, through thread"


BASE = """\
recipe: 1
name: base
title: Base
kind: turned
inputs:
  rod: { length: 10 mm, help: bar, most: 12 mm }
material: brass-360
stock: { round: rod }
features:
  - { id: body, turn: 8 mm, length: 10 mm, limits: h9 }
  - { id: hole, drill: 3 mm, depth: 5 mm }
pins:
  - { operation: hole, before: part_off, why: first }
notes: [one]
"""


def test_based_on_states_only_what_differs(tmp_path: Path) -> None:
    put(tmp_path, "base.yaml", BASE)
    path = put(
        tmp_path,
        "over.yaml",
        "recipe: 1\nname: over\nbased_on: base.yaml\n"
        "inputs:\n  rod: { length: 11 mm }\n  more: { number: 2 }\n"
        "features:\n  - { id: body, length: 12 mm }\n  - { id: hole, through: true }\n"
        "  - { id: extra, turn: rod, length: 3 mm }\npins:\n"
        "  - { operation: hole, before: part_off, why: second }\nnotes: [two]\n",
    )
    part = load(path, shipped=None)
    assert (part.name, part.title, part.rod.nominal) == ("over", "Base", 11.0)
    assert (part.segments[0].length.nominal, part.segments[0].diameter.limits) == (12.0, "h9")
    assert [s.id for s in part.segments] == ["body", "extra"]
    assert part.holes[0].bottom is Bottom.THROUGH
    assert [p.why for p in part.pins] == ["second"]
    assert part.notes == ("two",)
    assert [i.name for i in part.inputs] == ["rod", "more"]
    assert part.inputs[0].help == "bar"


def test_a_feature_that_says_anew_what_it_is_replaces_the_other(tmp_path: Path) -> None:
    put(tmp_path, "base.yaml", BASE)
    over = (
        "recipe: 1\nname: over\nbased_on: base.yaml\nfeatures:\n  - { id: hole, bore: 4 mm, through: true }\n"
    )
    part = load(put(tmp_path, "over.yaml", over), shipped=None)
    assert (part.holes[0].kind, part.holes[0].diameter.nominal) == (HoleKind.BORE, 4.0)


def test_faults_are_told_in_the_file_where_they_stand(tmp_path: Path) -> None:
    put(tmp_path, "base.yaml", BASE.replace("limits: h9", "limits: tight"))
    over = "recipe: 1\nname: over\nbased_on: base.yaml\nfeatures:\n"
    over += "  - { id: body, length: wide }\n  - { id: hole, dept: 2 mm }\n"
    found = problems(put(tmp_path, "over.yaml", over))
    assert [(Path(p.file).name, p.line, p.field) for p in found] == [
        ("base.yaml", 10, "features[1].limits"),
        ("over.yaml", 6, "features[2].dept"),
    ]
    put(tmp_path, "base.yaml", BASE.replace("turn: 8 mm", "turn: 18 mm"))
    found = problems(put(tmp_path, "over.yaml", over.replace("wide", "9 mm").replace("dept:", "depth:")))
    assert [(Path(p.file).name, p.line, p.field) for p in found] == [("base.yaml", 10, "features[1].turn")]


@pytest.mark.parametrize(
    ("line", "wrong", "right"),
    [
        ("based_on: bas.yaml", "no such recipe to be based on", "base.yaml"),
        ("based_on: ../base.yaml", "a path that leaves the recipe's folder", "same folder"),
        ("based_on: /etc/passwd", "a path that leaves the recipe's folder", "same folder"),
        ("based_on: link.yaml", "a path that leaves the recipe's folder", "same folder"),
        ("based_on: over.yaml", "recipes in a ring: over.yaml -> over.yaml", "one that stands alone"),
        ('based_on: "a\\0b"', "a path that leaves the recipe's folder", "same folder"),
        ("based_on: base.yaml\nfeatures: [{ id: bodi, length: 3 mm }]", "no feature of base.yaml", "body"),
    ],
)
def test_bases_that_are_refused(tmp_path: Path, line: str, wrong: str, right: str) -> None:
    outside = put(tmp_path, "outside.yaml", BASE)
    folder = tmp_path / "mine"
    put(folder, "base.yaml", BASE)
    (folder / "link.yaml").symlink_to(outside)
    found = problems(put(folder, "over.yaml", f"recipe: 1\nname: over\n{line}\n"))
    assert [p.line for p in found] == [4 if "bodi" in line else 3]
    assert wrong in found[0].wrong
    assert right in found[0].right


def test_a_ring_of_two_and_a_chain_too_long(tmp_path: Path) -> None:
    put(tmp_path, "a.yaml", "recipe: 1\nname: a\nbased_on: b.yaml\n")
    path = put(tmp_path, "b.yaml", "recipe: 1\nname: b\nbased_on: a.yaml\n")
    assert problems(path)[0].wrong == "recipes in a ring: b.yaml -> a.yaml -> b.yaml"
    put(tmp_path, "n0.yaml", BASE)
    for n in range(1, 7):
        put(tmp_path, f"n{n}.yaml", f"recipe: 1\nname: n\nbased_on: n{n - 1}.yaml\n")
    assert load(tmp_path / f"n{source.MAX_CHAIN}.yaml", shipped=None).title == "Base"
    found = problems(tmp_path / f"n{source.MAX_CHAIN + 1}.yaml")
    assert (found[0].wrong, found[0].line) == ("more than 4 recipes based on each other", 3)


def test_a_base_may_be_one_of_those_shipped(tmp_path: Path) -> None:
    path = put(tmp_path, "mine.yaml", "recipe: 1\nname: mine\nbased_on: plain-end-nut-metric.yaml\n")
    assert load(path, shipped=RECIPES).name == "mine"
    assert problems(path)[0].wrong == "no such recipe to be based on"


def test_name_and_version_are_never_taken_over(tmp_path: Path) -> None:
    put(tmp_path, "base.yaml", BASE)
    found = problems(put(tmp_path, "over.yaml", "based_on: base.yaml\n"))
    assert [p.field for p in found] == ["recipe", "name"]


def test_files_that_are_no_recipe(tmp_path: Path) -> None:
    put(tmp_path, "nut.yaml", BASE)
    found = problems(tmp_path / "nutt.yaml")
    assert [(p.line, p.wrong, p.right) for p in found] == [(0, "no such file", "nut.yaml")]
    assert problems(tmp_path / "gone" / "nut.yaml")[0].wrong == "no such file"
    assert problems(tmp_path)[0].wrong == "a folder"
    assert problems(tmp_path / "a\0b")[0].wrong.startswith("cannot be read")
    (tmp_path / "binary.yaml").write_bytes(os.urandom(64) + b"\xff\x00")
    assert problems(tmp_path / "binary.yaml")[0].right
    (tmp_path / "huge.yaml").write_bytes(b"# " + b"x" * 300_000)
    assert problems(tmp_path / "huge.yaml")[0].wrong == "too big a file"
    assert problems(Path("/dev/zero"))[0].wrong == "not a file"
    found = problems(put(tmp_path, "empty.yaml", ""))
    assert found[0].wrong == "not a mapping of names to values"
    found = problems(put(tmp_path, "shop.yaml", "shop: 1\nname: x\n"))
    assert found[0].wrong == "not a field of a recipe"


def test_a_long_chain_of_inputs_is_no_burden(tmp_path: Path) -> None:
    chain = "".join(
        f"  n{i}: {{ length: {'(' * 15}n{i - 1}{')' * 15} + 0.01 mm }}\n" for i in range(58, 0, -1)
    )
    text = BASE.replace("inputs:\n", "inputs:\n" + chain + "  n0: { length: 1 mm }\n").replace(
        "length: 10 mm, limits", "length: n58, limits"
    )
    text = text.replace("depth: 5 mm", "depth: 1 mm")
    part = load(put(tmp_path, "a.yaml", text), shipped=None)
    assert part.segments[0].length.nominal == pytest.approx(1.58)
