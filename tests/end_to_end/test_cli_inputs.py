"""Bad input to the installed command: a clear message with line and cure, no traceback, nothing left."""

import re
from pathlib import Path

import pytest

BIG = """\
recipe: 1
name: long-collar
title: Collar from a long bar
kind: turned
units: in
material: stainless-303
stock: { round: 1 in }
features:
  - { id: small, turn: 7/8 in, length: 4 in }
  - { id: large, turn: 1 in, length: 9 in }
"""
BOMB = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"a{k}: &a{k} [{', '.join([f'*a{k - 1}'] * 9)}]\n" for k in range(1, 9)
)

# What is spoiled in the shipped recipe: (written, instead), and what must be told of it.
SPOILED = {
    "wrong YAML": ("inputs:\n", "inputs: [\n", r"r\.yaml:\d+: not readable as YAML"),
    "wrong key": ("title:", "tittle:", r"r\.yaml:\d+: tittle: not a field of a recipe.*\n\s+want title"),
    "wrong unit": (
        "length: 1/4 in",
        "length: 1/4 furlong",
        r"r\.yaml:\d+: inputs\.head_length.*'1/4 furlong'",
    ),
    "no unit": (
        "length: 1/4 in",
        "length: 0.25",
        r"r\.yaml:\d+: inputs\.head_length: a length without a unit",
    ),
    "neck too thin": ("rod - 1/8 in", "0.2 in", r"r\.yaml:\d+: .*neck thinner.*\n\s+want neck: 0\.244 in or"),
    "unknown material": ("stainless-303", "unobtanium", r"r\.yaml:\d+: material: .*not a known material"),
    "not a number": ("length: 1/4 in", "length: .nan", r"r\.yaml:\d+: inputs\.head_length"),
    "infinite": ("length: 1/4 in", "length: 1e999 in", r"r\.yaml:\d+: inputs\.head_length"),
    "divided by zero": ("rod - 1/8 in", "rod / 0", r"r\.yaml:\d+: inputs\.neck: a division by zero"),
    "path above": (
        "kind:",
        "based_on: ../../secret.yaml\nkind:",
        r"r\.yaml:\d+: based_on: a path that leaves",
    ),
    "path from the root": (
        "kind:",
        "based_on: /etc/passwd\nkind:",
        r"r\.yaml:\d+: based_on: a path that leaves",
    ),
    "control character": ("Stepped", "Stepped \x07", r"r\.yaml:\d+: a control character"),
    "letter the face lacks": ("Stepped end nut", "階段ナット", r"r\.yaml:\d+: no glyph for '階'"),
}


def told(result, pattern: str, code: int = 2) -> None:
    """It ended as it should: the code, the words with a cure, nothing printed, no traceback."""
    assert result.returncode == code, result.stderr
    assert re.search(pattern, result.stderr), result.stderr
    assert "want " in result.stderr or "cure " in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


@pytest.fixture
def refuses(jobsheets, tmp_path):
    """A recipe text that must be refused, leaving nothing behind."""

    def check(content: str | bytes, pattern: str, *words: str, code: int = 2) -> None:
        raw = content if isinstance(content, bytes) else content.encode()
        (tmp_path / "r.yaml").write_bytes(raw)
        before = sorted(tmp_path.iterdir())
        told(jobsheets("sheet", "r.yaml", *words), pattern, code)
        assert sorted(tmp_path.iterdir()) == before
        assert (tmp_path / "r.yaml").read_bytes() == raw

    return check


@pytest.mark.parametrize("name", SPOILED)
def test_a_spoiled_recipe_is_refused_with_line_and_cure(refuses, recipe, name):
    old, new, pattern = SPOILED[name]
    assert old in recipe
    refuses(recipe.replace(old, new, 1), pattern)


def test_all_faults_are_told_at_once(refuses, recipe):
    spoiled = recipe.replace("title:", "tittle:", 1).replace("length: neck_length", "lenght: neck_length", 1)
    refuses(spoiled, r"(?s)tittle.*lenght")


@pytest.mark.parametrize(
    ("content", "pattern"),
    [
        (bytes(range(256)) * 8, r"r\.yaml:\d+: not a text file"),
        (b"# " + b"x" * 3_000_000, r"r\.yaml: too big a file"),
        ("a: " + "[" * 5000 + "]" * 5000, r"r\.yaml:\d+: nested too deep"),
        ("a:\n" + "".join(" " * k + "b:\n" for k in range(1, 300)), r"r\.yaml:\d+: nested too deep"),
        (BOMB, r"r\.yaml:1: an anchor or alias"),
        ("a: !!python/object/apply:os.system [id]", r"r\.yaml:1: a tag"),
        ("", r"r\.yaml:1: not a mapping"),
        ("a: 1\n---\nb: 2\n", r"r\.yaml:\d+: a second document"),
    ],
    ids=["binary", "huge", "deep brackets", "deep lines", "alias bomb", "tag", "empty", "two documents"],
)
def test_a_hostile_file_is_refused(refuses, content, pattern):
    refuses(content, pattern)


def test_a_file_that_is_not_there(jobsheets, tmp_path):
    told(jobsheets("sheet", "missing.yaml"), r"missing\.yaml: no such file")
    told(jobsheets("sheet", tmp_path), "a folder")
    told(jobsheets("sheet", "/dev/zero"), "not a file")


def test_a_head_too_short_for_its_cross_hole(refuses):
    text = BIG.replace("round: 1 in", "round: 3/8 in").replace("7/8 in, length: 4", "1/4 in, length: 1/2")
    text = text.replace("turn: 1 in, length: 9", "turn: 3/8 in, length: 1/8")
    refuses(
        text + "  - { id: grip, cross_hole: 3/32 in, at: large }\n",
        r"r\.yaml:11: .*large is 0\.125 in long.*\n\s+want large at least",
    )


def test_a_bar_that_is_too_big_for_the_spindle_and_too_long_to_hold(refuses):
    refuses(BIG, r"STOP\s+bar: \S+ in stand out of the jaws", code=1)


def test_a_thread_that_no_owned_tap_cuts(refuses, recipe):
    text = recipe.replace("thread: 8-32 UNC", "thread: 12-24 UNC").replace("[6-32 UNC,", "[12-24 UNC,")
    text = text.replace("rod - 1/8 in", "rod - 1/16 in").replace("length: 5/16 in", "length: 7/16 in")
    refuses(text, r"(?s)STOP\s+thread.tap: no tap for.*cure\s+buy or borrow", code=1)


def test_a_speed_below_the_slowest_belt(jobsheets, tmp_path, shop):
    slowest = re.sub(r"rpm: (130|300|400|600),", r"rpm: 1\1,", shop).replace("rpm: 1000,", "rpm: 1900,")
    (tmp_path / "shop.yaml").write_text(slowest, encoding="utf-8")
    result = jobsheets("sheet", "stepped-end-nut", "--shop", "shop.yaml")
    told(result, r"STOP\s+\S+: the slowest speed is 1130 rev/min, \d+ rev/min is wanted", 1)
    assert [p.name for p in tmp_path.iterdir()] == ["shop.yaml"]


@pytest.mark.parametrize(
    ("words", "pattern"),
    [
        (("--set", "rod=3/8"), r"--set: rod: a length without a unit: '3/8'"),
        (("--set", "rod=3in"), r"--set: rod: 3\.000 in, larger than rod may be.*\n\s+want 0\.625 in or less"),
        (("--set", "rodd=3/8in"), r"--set: rodd: no input of this recipe.*\n\s+want rod"),
        (("--set", "rod"), r"--set: not a name with a value: 'rod'"),
        (("--set", "rod=1/2in", "--set", "rod=3/8in"), r"--set: a name given twice"),
        (("--set", "rod=inf"), r"--set: rod: "),
        (("--measured", "counterbor=0.25in"), r"--measured: counterbor: no mate of this recipe"),
        (("--measured", "counterbore=0.25"), r"--measured: counterbore: a length without a unit"),
        (("--shop", "missing.yaml"), r"missing\.yaml: No such file"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_a_value_on_the_command_line_that_cannot_be(jobsheets, tmp_path, words, pattern):
    told(jobsheets("sheet", "stepped-end-nut", *words), pattern)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "pattern"),
    [
        (("shet", "stepped-end-nut"), "no such command: 'shet'\n    want sheet"),
        (("--sheet",), "no such option before the command: '--sheet'\n    want sheet"),
        (("sheet", "steped-end-nut"), "no such recipe; want stepped-end-nut"),
        (("sheet", "stepped-end-nut.yaml"), "want stepped-end-nut, without .yaml"),
        (("sheet", "stepped-end-nut", "--unit", "mm"), "no such option: '--unit'; want --units"),
        (("sheet", "stepped-end-nut", "--units", "cm"), "invalid choice: 'cm'"),
        (("sheet", "stepped-end-nut", "mm"), "one word too many: 'mm'"),
        (("sheet",), "RECIPE"),
        (("schema", "shops"), "invalid choice: 'shops'"),
        (("why", "stepped-end-nut", "10", "20", "30"), "at most two"),
        (
            ("why", "stepped-end-nut", "20.sped"),
            r"no such figure or operation in this plan: '20.sped'\n    want 20.speed",
        ),
        (("why", "stepped-end-nut", "10", "77"), r"no such operation in this plan: '77'\n    want "),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_a_typing_mistake_gets_the_nearest_word(jobsheets, words, pattern):
    result = jobsheets(*words)
    assert result.returncode == 2
    assert re.search(pattern, result.stderr), result.stderr
    assert result.stdout == ""
    assert "Traceback" not in result.stderr


def test_every_line_told_is_the_line_in_the_file(refuses, recipe):
    at = recipe[: recipe.index("material:")].count("\n") + 1
    refuses(recipe.replace("stainless-303", "unobtanium"), rf"r\.yaml:{at}: material:")


def test_nothing_of_the_checkout_is_needed(installed):
    """The wheel brought its own recipes, templates and face."""
    (packages,) = (installed.parent / "lib").glob("python*/site-packages/jobsheets")
    for part in ("recipes/stepped-end-nut.yaml", "recipes/shops/inch-workshop.yaml", "templates/sheet.j2"):
        assert (packages / part).is_file()
    assert any(Path(packages / "sheet" / "face").glob("*.ttf"))
