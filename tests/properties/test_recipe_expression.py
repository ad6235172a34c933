"""Formulas of any shape: well formed ones work out as Python does; any other text is refused in peace."""

import math
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from jobsheets.errors import InputError, Problem
from jobsheets.part.turned import Segment
from jobsheets.recipe import evaluate, expression
from jobsheets.recipe.expression import Kind, Value
from jobsheets.recipe.load import load

ALPHABET = "rodneck _0123456789.,/+-*()<>=!'%°\"mind "
VALUES: dict[str, Value] = {"rod": 9.525, "neck": 6.35}

Pair = tuple[str, Callable[[], float]]  # text of a formula, and the same in Python


def _number() -> st.SearchStrategy[Pair]:
    return st.decimals("0", "1000", places=3).map(lambda d: (str(d), lambda d=d: float(d)))


def _grown(inner: st.SearchStrategy[Pair]) -> st.SearchStrategy[Pair]:
    def both(args: tuple[Pair, Pair, str]) -> Pair:
        (a, left), (b, right), sign = args
        work: dict[str, Callable[[], float]] = {
            "+": lambda: left() + right(),
            "-": lambda: left() - right(),
            "*": lambda: left() * right(),
            "/": lambda: left() / right(),
            "min": lambda: min(left(), right()),
            "max": lambda: max(left(), right()),
        }
        return (f"{sign}({a}, {b})" if sign in ("min", "max") else f"({a}) {sign} ({b})"), work[sign]

    pairs = st.tuples(inner, inner, st.sampled_from(["+", "-", "*", "/", "min", "max"])).map(both)
    return pairs | inner.map(lambda p: (f"-({p[0]})", lambda: -p[1]()))


@given(st.recursive(_number(), _grown, max_leaves=7))
def test_a_tree_works_out_as_python_floats_do(pair: Pair) -> None:
    text, python = pair
    try:
        expected = python()
    except ZeroDivisionError:
        with pytest.raises(ValueError, match="division by zero"):
            evaluate.evaluate(expression.parse(text), VALUES.__getitem__)
        return
    except OverflowError:
        return
    tree = expression.parse(text)
    assert evaluate.kind_of(tree, {}) is Kind.NUMBER
    assert evaluate.evaluate(tree, VALUES.__getitem__) == expected


_terms = st.sampled_from(["2", "3.5", "rod", "neck", "0.25"])


@given(st.lists(st.tuples(_terms, st.sampled_from("+-*")), min_size=1, max_size=12), _terms)
def test_precedence_is_that_of_python(pairs: list[tuple[str, str]], last: str) -> None:
    text = " ".join(f"{term} {sign}" for term, sign in pairs) + f" {last}"
    expected = eval(text, {"__builtins__": {}}, dict(VALUES))  # text of our own making: the point of the test
    assert evaluate.evaluate(expression.parse(text), VALUES.__getitem__) == expected


@given(st.floats(0.01, 500.0), st.floats(0.01, 20.0))
def test_round_to_is_a_multiple_no_farther_than_half_a_step(value: float, step: float) -> None:
    found = evaluate.evaluate(
        expression.parse("round_to(value, step)"), {"value": value, "step": step}.__getitem__
    )
    assert isinstance(found, float)
    assert math.isclose(found / step, round(found / step), abs_tol=1e-6)
    assert abs(found - value) <= step / 2.0 + 1e-9


@given(st.text(max_size=250) | st.text(ALPHABET, max_size=80))
def test_any_text_is_read_or_refused_with_a_cure(text: str) -> None:
    told = "; want "
    try:
        tree = expression.parse(text)
        evaluate.kind_of(tree, {"rod": Kind.LENGTH, "neck": Kind.LENGTH})
        evaluate.evaluate(tree, VALUES.__getitem__)
    except ValueError as error:
        told = str(error)
    assert "; want " in told


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(raw=st.binary(max_size=300) | st.text(max_size=300).map(str.encode))
def test_any_bytes_are_refused_as_faults_of_the_maker(tmp_path: Path, raw: bytes) -> None:
    path = tmp_path / "any.yaml"
    path.write_bytes(raw)
    with pytest.raises(InputError):
        load(path, shipped=None)


RECIPE = (Path(__file__).parents[2] / "recipes" / "capped-nut-body.yaml").read_text(encoding="utf-8")
PIECES = [
    "0",
    "-",
    "1e9 in",
    "rod",
    "'",
    "{",
    "}",
    "]",
    ":",
    "\n",
    "  ",
    "#",
    "true",
    "/ 0",
    "(((",
    "M5",
    "±",
    "deg",
    "%",
]


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    st.integers(0, len(RECIPE)),
    st.integers(0, 12),
    st.sampled_from(PIECES) | st.text(max_size=6),
)
def test_a_recipe_with_a_slip_is_a_part_or_a_fault(tmp_path: Path, at: int, gone: int, put: str) -> None:
    path = tmp_path / "slip.yaml"
    path.write_text(RECIPE[:at] + put + RECIPE[at + gone :], encoding="utf-8", errors="replace")
    segments: tuple[Segment, ...] = ()
    told: tuple[Problem, ...] = ()
    try:
        segments = load(path, shipped=None).segments
    except InputError as error:
        told = error.problems
    assert bool(segments) is not bool(told)
    assert all(p.wrong and p.right for p in told)
    assert all(0.0 < s.diameter.low <= s.diameter.high for s in segments)
