"""The base of value classes: frozen, by name, compared by fields, written as JSON like a struct."""

import copy
import pickle

import msgspec
import pytest

from jobsheets.errors import Problem
from jobsheets.standards.drills import DrillSize
from jobsheets.value import Frozen, fields

SIZE = DrillSize(name="F", mm=6.5278, series="letter", source="list")


class Base(Frozen):
    a: int
    b: str = "usual"


class More(Base):
    c: float


class Twin(Frozen):
    a: int
    b: str = "usual"


class Holder(msgspec.Struct):
    one: Base
    many: tuple[Base, ...]


def test_fields_left_out_are_as_usual() -> None:
    assert SIZE.seen == "owned"
    assert (More(a=1, c=2.0).b, More(c=2.0, b="x", a=1).b) == ("usual", "x")


@pytest.mark.parametrize(
    ("given", "wrong"),
    [({}, "a"), ({"b": "x"}, "a"), ({"a": 1, "d": 2}, "d"), ({"d": 1}, "a, d"), ({"A": 1}, "A, a")],
)
def test_fields_missing_or_unknown_are_named(given: dict[str, object], wrong: str) -> None:
    with pytest.raises(TypeError, match=f"^Base: fields missing or unknown: {wrong}$"):
        Base(**given)  # type: ignore[arg-type]


def test_fields_are_given_by_name_alone() -> None:
    with pytest.raises(TypeError):
        Base(1)  # type: ignore[call-arg]


def test_no_field_changes_or_goes() -> None:
    with pytest.raises(AttributeError, match="never changes"):
        SIZE.mm = 7.0  # type: ignore[misc]
    with pytest.raises(AttributeError, match="never changes"):
        SIZE.size = 7.0  # type: ignore[attr-defined]
    with pytest.raises(AttributeError, match="cannot be taken away"):
        del SIZE.mm
    assert SIZE.mm == 6.5278


def test_equal_and_hashed_by_class_and_fields_whatever_their_order() -> None:
    assert Base(a=1, b="x") == Base(b="x", a=1)
    assert hash(Base(a=1, b="x")) == hash(Base(b="x", a=1))
    assert Base(a=1) != Base(a=2)
    assert Base(a=1) != Twin(a=1)
    assert len({Base(a=1), Base(a=1, b="usual"), Base(a=2)}) == 2


def test_a_copy_with_changes_leaves_the_first() -> None:
    assert SIZE.replaced(mm=6.5) == DrillSize(name="F", mm=6.5, series="letter", source="list")
    assert SIZE.mm == 6.5278
    with pytest.raises(TypeError, match="unknown: size"):
        SIZE.replaced(size=1.0)


def test_copies_and_pickles_are_equal() -> None:
    assert copy.deepcopy(SIZE) == copy.copy(SIZE) == pickle.loads(pickle.dumps(SIZE)) == SIZE


def test_shown_as_it_is_written() -> None:
    assert repr(Base(b="x", a=1)) == "Base(a=1, b='x')"


def test_written_as_json_by_its_fields() -> None:
    held = Holder(one=Base(a=1), many=(Base(a=2, b="x"),))
    body = msgspec.json.encode(msgspec.to_builtins(held, enc_hook=fields), order="sorted")
    assert body == b'{"many":[{"a":2,"b":"x"}],"one":{"a":1,"b":"usual"}}'


def test_no_other_thing_passes_for_a_value_when_written() -> None:
    with pytest.raises(TypeError, match="holds no fields by name"):
        fields(object())
    with pytest.raises(TypeError, match="holds no fields by name"):
        msgspec.to_builtins({"one": object()}, enc_hook=fields)


def test_texts_of_a_class_of_its_own_are_its_own() -> None:
    fault = Problem(file="a.yaml", line=2, field="x", found="", wrong="missing", right="x: 1")
    assert str(fault) == "a.yaml:2: x: missing\n    want x: 1"
