"""The YAML tree: text stays text, lines are kept, work is bounded."""

import pytest

from jobsheets.document import MAX_BYTES, MAX_DEPTH, MAX_NODES, Mapping, Sequence, Text, decode, parse
from jobsheets.errors import InputError, Problem


def refused(text: str) -> tuple[Problem, ...]:
    with pytest.raises(InputError) as caught:
        parse(text, "a.yaml")
    return caught.value.problems


def test_every_scalar_stays_text() -> None:
    top = parse("a: 010\nb: on\nc: 1:30\nd: 1e3\ne: ~\nf: '2'\ng: .5\n", "a.yaml")
    assert {k: v.value for k, v in top.entries.items() if isinstance(v, Text)} == {
        "a": "010",
        "b": "on",
        "c": "1:30",
        "d": "1e3",
        "e": "~",
        "f": "2",
        "g": ".5",
    }


def test_lines_and_file_are_kept() -> None:
    top = parse("# head\n\na: 1\nb:\n  - x\n  - { c: 2,\n      d: 3 }\n", "a.yaml")
    items = top.entries["b"]
    assert isinstance(items, Sequence)
    inner = items.items[1]
    assert isinstance(inner, Mapping)
    assert (top.entries["a"].line, top.key_lines["b"], items.line, inner.line) == (3, 4, 5, 6)
    assert inner.entries["d"].line == 7
    assert {top.file, items.file, inner.entries["d"].file} == {"a.yaml"}


@pytest.mark.parametrize(
    ("text", "line", "wrong"),
    [
        ("a: 1\nb: 2\na: 3\n", 3, "a name given twice"),
        ("a: &x 1\nb: 2\n", 1, "an anchor or alias"),
        ("a: 1\nb: *x\n", 2, "an anchor or alias"),
        ("a: !!python/object/apply:os.system [ls]\n", 1, "a tag"),
        ("a: !!int 3\n", 1, "a tag"),
        ("a: 1\n---\nb: 2\n", 2, "a second document in one file"),
        ("a: 1\n? [b]\n: 2\n", 2, "a name that is not plain text"),
        ("- a\n", 1, "not a mapping of names to values"),
        ("just text\n", 1, "not a mapping of names to values"),
        ("", 1, "not a mapping of names to values"),
        ("# only a remark\n", 1, "not a mapping of names to values"),
        ("a: [1, 2\n", 2, "not readable as YAML"),
        ("a: 1\n b: 2\n", 2, "not readable as YAML"),
        ("a: b: c\n", 1, "not readable as YAML"),
        ("a:\n\t- 1\n", 2, "not readable as YAML"),
        ("a: 'open\n", 2, "not readable as YAML"),
        ("a: @x\n", 1, "not readable as YAML"),
    ],
)
def test_refused(text: str, line: int, wrong: str) -> None:
    found = refused(text)
    assert [(p.file, p.line, p.wrong) for p in found] == [("a.yaml", line, wrong)]
    assert found[0].right


def test_a_repeated_name_says_where_the_first_one_is() -> None:
    assert refused("a: 1\nb: { c: 1, d: 2,\n c: 3 }\n")[0].right == "it once; it stands already on line 2"


@pytest.mark.parametrize("open_", ["[", "{a: ", "- "])
def test_deep_nesting_is_refused(open_: str) -> None:
    text = "a: " + open_ * 5000 if open_ != "- " else "a:\n  " + open_ * 5000
    assert refused(text)[0].wrong == "nested too deep"


def test_as_deep_as_is_allowed() -> None:
    parse("a: " + "[" * (MAX_DEPTH - 1) + "]" * (MAX_DEPTH - 1), "a.yaml")
    assert refused("a: " + "[" * MAX_DEPTH + "]" * MAX_DEPTH)[0].wrong == "nested too deep"


def test_an_alias_bomb_is_refused_at_its_first_anchor() -> None:
    bomb = "a: &a [x, x]\n" + "".join(
        f"{c}: &{c} [*{p}, *{p}]\n" for p, c in zip("abcdefgh", "bcdefghi", strict=True)
    )
    assert [(p.line, p.wrong) for p in refused(bomb)] == [(1, "an anchor or alias")]


def test_too_many_values_are_refused() -> None:
    assert refused("a: [" + "1," * MAX_NODES + "]")[0].wrong == "too many values in one file"


@pytest.mark.parametrize(
    ("raw", "line", "wrong"),
    [
        (b"a: 1\nb: \xff\xfe\n", 2, "not a text file (bytes that are not UTF-8)"),
        (b"\x89PNG\r\n\x1a\n", 1, "not a text file (bytes that are not UTF-8)"),
        (b"a: 1\nb: x\x00y\n", 2, "a control character"),
        (b"%PDF-1.4\n\x01\x02", 2, "a control character"),
        (b"a" * (MAX_BYTES + 1), 0, "too big a file"),
    ],
)
def test_bytes_that_are_no_text(raw: bytes, line: int, wrong: str) -> None:
    with pytest.raises(InputError) as caught:
        decode(raw, "a.yaml")
    assert [(p.line, p.wrong) for p in caught.value.problems] == [(line, wrong)]


def test_a_byte_order_mark_does_no_harm() -> None:
    assert decode(b"\xef\xbb\xbfa: \xc2\xb1", "a.yaml") == "a: ±"
