"""The check of a tree against declared fields, and the JSON Schema made of the same table."""

import pytest

from jobsheets.document import parse
from jobsheets.errors import Problem
from jobsheets.fields import Either, Field, ListOf, MapOf, OneOf, Record, Scalar, check, json_schema, nearest


def whole(text: str) -> int:
    if not text.isdigit():
        raise ValueError("not a whole number; want such as 3")
    return int(text)


def vague(text: str) -> str:
    if text != "x":
        raise ValueError("an x")
    return text


TEXT = Scalar(what="a text")
COUNT = Scalar(what="a count", grammar=whole)
COLOUR = Scalar(what="a colour", choices=("black", "white"))
SIZE = Record(
    what="a size", fields=(Field(name="wide", help="how wide", shape=COUNT, required=True, examples=("3",)),)
)
ROUND = Record(what="a ball", fields=(Field(name="ball", help="", shape=COUNT, required=True),))
SQUARE = Record(
    what="a box",
    fields=(
        Field(name="box", help="", shape=COUNT, required=True),
        Field(name="lid", help="", shape=Scalar(what="true or false", choices=("true", "false"))),
    ),
)
THING = Record(
    what="a thing",
    fields=(
        Field(name="colour", help="", shape=COLOUR),
        Field(name="exact", help="", shape=Scalar(what="a letter", grammar=vague)),
        Field(name="tags", help="", shape=ListOf(item=TEXT, least=1, most=2)),
        Field(name="sizes", help="", shape=MapOf(item=SIZE, most=2)),
        Field(
            name="parts",
            help="",
            shape=ListOf(item=OneOf(what="a part", records=(("ball", ROUND), ("box", SQUARE)))),
        ),
        Field(name="either", help="", shape=Either(scalar=COUNT, record=SIZE)),
    ),
)


def found(text: str) -> list[Problem]:
    return check(parse(text, "a.yaml"), THING, "a.yaml")


@pytest.mark.parametrize(
    "text",
    [
        "colour: white",
        "exact: x",
        "tags: [a, b]",
        "sizes: { one: { wide: 3 } }",
        "parts: [{ ball: 3 }, { box: 1, lid: true }]",
        "either: 3",
        "either: { wide: 3 }",
    ],
)
def test_sound(text: str) -> None:
    assert found(text) == []


@pytest.mark.parametrize(
    ("text", "field", "wrong", "right"),
    [
        ("color: white", "color", "not a field of a thing", "colour"),
        ("zzz: 1", "zzz", "not a field of a thing", "one of colour, exact, tags, sizes, parts, either"),
        ("colour: whit", "colour", "not a colour", "white (or one of black, white)"),
        ("colour: 7", "colour", "not a colour", "black, white"),
        ("colour: ''", "colour", "nothing written", "a colour"),
        ("colour: [white]", "colour", "not a single value", "a colour"),
        ("exact: y", "exact", "not a letter", "an x"),
        ("either: many", "either", "not a whole number", "such as 3"),
        ("either: { wid: 3, wide: 2 }", "either.wid", "not a field of a size", "wide"),
        ("either: {}", "either.wide", "missing from a size", "wide: how wide; such as wide: 3"),
        ("either: [1]", "either", "not a size", "the names wide"),
        ("tags: a", "tags", "not a list", "a list: lines that begin with '- '"),
        ("tags: []", "tags", "a list of 0", "1 to 2 entries"),
        ("tags: [a, b, c]", "tags", "a list of 3", "1 to 2 entries"),
        ("tags: [a, [b]]", "tags[2]", "not a single value", "a text"),
        ("sizes: 3", "sizes", "not a mapping", "lines such as name: value"),
        ("sizes: { One: { wide: 3 } }", "sizes", "not a name", "a small letter first"),
        ("sizes: { a: {wide: 1}, b: {wide: 1}, c: {wide: 1} }", "sizes", "3 names", "at most 2"),
        ("sizes: { a: { wide: x } }", "sizes.a.wide", "not a whole number", "such as 3"),
        ("parts: [1]", "parts[1]", "not a part", "a mapping with one of ball, box"),
        ("parts: [{ bal: 3 }]", "parts[1]", "a part that does not say what it is", "ball"),
        ("parts: [{ qq: 3 }]", "parts[1]", "a part that does not say what it is", "one of ball, box"),
        ("parts: [{ ball: 3, lid: true }]", "parts[1].lid", "not a field of a ball", "one of ball"),
        ("tags: [{ long, thin: }]", "tags[1]", "not a single value", "a text"),
        ("either: { wide: 3, thin and long }", "either.thin and long", "not a field", "quotes round a text"),
        (f"tags: [{'x' * 401}]", "tags[1]", "too long a text (401 characters)", "at most 400"),
    ],
)
def test_fault(text: str, field: str, wrong: str, right: str) -> None:
    told = found(f"# a remark\n{text}\n")
    assert [p.field for p in told] == [field]
    assert told[0].line == 2
    assert wrong in told[0].wrong
    assert right in told[0].right


def test_faults_come_in_the_order_of_the_file() -> None:
    told = found("tags:\n  - []\nexact: y\ncolour: green\n")
    assert [p.line for p in told] == [2, 3, 4]


def test_a_fault_reads_as_file_line_field() -> None:
    assert str(found("colour: green")[0]) == "a.yaml:1: colour: not a colour: 'green'\n    want black, white"


def test_nearest() -> None:
    assert nearest("dept", ("depth", "width", "length"))[0] == "depth"
    assert nearest("q", ("depth", "width")) == ()


def test_schema_agrees_with_the_check() -> None:
    from jsonschema import Draft202012Validator

    validator = Draft202012Validator(json_schema(THING))
    assert validator.is_valid(
        {"colour": "white", "parts": [{"box": 1, "lid": True}], "either": {"wide": "3"}}
    )
    for bad in (
        {"color": "white"},
        {"colour": "green"},
        {"tags": []},
        {"tags": ["a", "b", "c"]},
        {"sizes": {"One": {"wide": 3}}},
        {"sizes": {"one": {}}},
        {"parts": [{"x": 1}]},
        {"either": {"wide": [3]}},
    ):
        assert not validator.is_valid(bad), bad
