"""Formulas: values, kinds, precedence, look-ups, and what is refused."""

import pytest

from jobsheets.recipe import evaluate, expression
from jobsheets.recipe.expression import Kind, Value
from jobsheets.recipe.lookups import thread

NAMES: dict[str, tuple[Kind, Value]] = {
    "rod": (Kind.LENGTH, 9.525),
    "neck": (Kind.LENGTH, 6.35),
    "screw": (Kind.THREAD, thread("8-32 UNC")),
    "turns": (Kind.NUMBER, 3.0),
    "style": (Kind.WORD, "dome"),
    "slope": (Kind.ANGLE, 30.0),
}


def work_out(text: str) -> tuple[Kind, Value]:
    tree = expression.parse(text)
    kind = evaluate.kind_of(tree, {name: k for name, (k, _) in NAMES.items()})
    return kind, evaluate.evaluate(tree, lambda name: NAMES[name][1])


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("3/8 in", 9.525),
        ("1-1/4 in", 31.75),
        ("1 1/4 in", 31.75),
        ('1/2"', 12.7),
        (".375 in", 9.525),
        ("2 mm", 2.0),
        ("2 thou", 0.0508),
        ("rod - 1/8 in", 6.35),
        ("rod-1/8 in", 6.35),
        ("rod/2", 4.7625),
        ("rod / 2 + 1 mm", 5.7625),
        ("rod − 1 mm", 8.525),  # a minus sign as word processors write it
        ("2 * (1 mm + 1 in)", 52.8),
        ("2 mm * 3 - 1 mm", 5.0),
        ("1 mm - 2 mm - 3 mm", -4.0),
        ("12 mm / 2 / 3", 2.0),
        ("-rod + 10 mm", 0.475),
        ("--2 mm", 2.0),
        ("+2 mm", 2.0),
        ("65 % * 10 mm", 6.5),
        ("turns * pitch(screw)", 2.38125),
        ("min(rod, neck, 7 mm)", 6.35),
        ("max(rod, neck)", 9.525),
        ("abs(neck - rod)", 3.175),
        ("round_to(neck, 0.5 mm)", 6.5),
        ("round_to(2.25 mm, 0.5 mm)", 2.5),
        ("if(rod > neck, rod, neck)", 9.525),
        ("if(style == 'dome', 1 mm, 2 mm)", 1.0),
        ("if(turns == 0, rod / turns, neck)", 6.35),
        ("major(screw)", 0.164 * 25.4),
        ("minor(screw)", 25.4 * (0.164 - 1.08253175 / 32)),
        ("pitch('M5x0.8')", 0.8),
        ("tap_drill(screw)", 0.136 * 25.4),  # #29, as every tap-drill list has it for 8-32
        ("clearance_hole('M5')", 5.5),  # ISO 273 medium, from memory
    ],
)
def test_length(text: str, mm: float) -> None:
    kind, value = work_out(text)
    assert kind is Kind.LENGTH
    assert value == pytest.approx(mm, abs=1e-6)


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("rod > neck", True),
        ("rod <= neck", False),
        ("not rod > neck", False),
        ("not (rod > neck) or turns == 3", True),
        ("rod > neck and turns != 3", False),
        ("rod > neck or turns / 0 == 1", True),  # the second half is not needed
        ("style == 'flat'", False),
        ("screw == '8-32 UNC'", True),
        ("slope < 45 deg", True),
        ("slope == 30°", True),
        ("rod / neck > 1.4", True),
    ],
)
def test_condition(text: str, holds: bool) -> None:
    assert work_out(text) == (Kind.FLAG, holds)


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("rod + 1", "a length \\+ a number; want a unit behind the number, such as 2 mm"),
        ("slope < 45", "an angle < a number; want a unit behind the number, such as 45 deg"),
        ("rod + slope", "a length \\+ an angle; want two values of one kind"),
        ("rod * neck", "a length \\* a length; want a plain number on one side"),
        ("2 / rod", "a number / a length; want a plain number on the right side"),
        ("rod and neck", "a length and a length; want a comparison on both sides"),
        ("not rod", "not a length; want a comparison behind not"),
        ("-screw", "minus a thread"),
        ("screw < screw", "a thread < a thread"),
        ("style == screw", "a word == a thread"),
        ("if(rod, 1, 2)", "if\\(\\) of a length, a number, a number; want if\\(condition, a, b\\)"),
        ("if(turns > 1, rod, 2)", "if\\(\\) of"),
        ("max()", "max\\(\\) of nothing"),
        ("__import__('os')", "is no function; want"),
        ("open('x')", "is no function"),
        ("rod.real", "cannot be read"),
        ("rod ** 2", "where a value should stand"),
        ("lambda: 1", "cannot be read"),
        ("1 / 0", "a division by zero"),
        ("1 % 0", "where the formula should end"),
        ("()", "where a value should stand"),
        ("and", "'and' where a value should stand"),
        ("max(1, 2", "max\\( is not closed"),
        ("'open", "cannot be read"),
        ("1e400", "cannot be read"),
        ("inf", "'inf' is no input"),
        ("3/0 in", "a fraction over zero"),
        ("round_to(rod, -1 mm)", "a step of zero or less"),
        ("pitch(style)", "pitch\\(\\) of a word; want pitch\\(thread\\)"),
        ("clearance_hole('2 BA')", "no standard clearance hole"),
    ],
)
def test_refused(text: str, wrong: str) -> None:
    with pytest.raises(ValueError, match=wrong):
        work_out(text)


def test_a_value_beyond_all_numbers_is_refused() -> None:
    big = "*".join(["9" * 30] * 5)
    tree = expression.parse(big)
    for _ in range(3):
        tree = expression.Binary("*", tree, tree)
    with pytest.raises(ValueError, match="not finite"):
        evaluate.evaluate(tree, lambda _: 0.0)


def test_bounds() -> None:
    assert work_out("+".join(["1"] * 30)) == (Kind.NUMBER, 30.0)
    with pytest.raises(ValueError, match="more than 60 parts"):
        expression.parse("+".join(["1"] * 31))
    assert work_out("(" * 10 + "1" + ")" * 10) == (Kind.NUMBER, 1.0)
    for text in ("(" * 25 + "1" + ")" * 25, "-" * 40 + "1", "not " * 30 + "1 < 2"):
        with pytest.raises(ValueError, match="nested deeper than 20"):
            expression.parse(text)
    with pytest.raises(ValueError, match="201 characters"):
        expression.parse("1" * 201)


def test_names_in_order_once() -> None:
    assert expression.names(expression.parse("b + max(a, -b) * c")) == ("b", "a", "c")
