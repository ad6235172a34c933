"""The published JSON Schema: current, accepting what the program accepts, refusing what it refuses."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from jobsheets.document import parse
from jobsheets.fields import Field, ListOf, MapOf, OneOf, Record, check
from jobsheets.recipe import schema
from jobsheets.recipe.expression import Kind
from jobsheets.recipe.functions import FUNCTIONS

ROOT = Path(__file__).parents[2]
PUBLISHED = ROOT / "docs" / "recipe.schema.json"
REFERENCE = (ROOT / "docs" / "recipe-language.md").read_text(encoding="utf-8")
SHIPPED = sorted((ROOT / "recipes").glob("*.yaml"))


class Yaml12(yaml.SafeLoader):
    """Plain YAML as editors read it: true and false alone are booleans, `on` is a word."""


Yaml12.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in pairs if tag != "tag:yaml.org,2002:bool" or first in "tTfF"]
    for first, pairs in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def read(text: str) -> Any:
    return yaml.load(text, Loader=Yaml12)


VALIDATOR = Draft202012Validator(schema.json())


def test_published_schema_is_current() -> None:
    """Written anew by: python -c "from jobsheets.recipe import schema; print(schema.text(), end='')"."""
    assert PUBLISHED.read_text(encoding="utf-8") == schema.text()


def test_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(json.loads(schema.text()))


@pytest.mark.parametrize("path", SHIPPED, ids=lambda p: p.stem)
def test_shipped_recipe_is_accepted_as_plain_yaml(path: Path) -> None:
    recipe = read(path.read_text(encoding="utf-8"))
    assert [e.message for e in VALIDATOR.iter_errors(recipe)] == []


def plain() -> Any:
    return read((ROOT / "recipes" / "stepped-end-nut.yaml").read_text(encoding="utf-8"))


def _set(*path: str | int, to: object) -> Any:
    recipe = plain()
    inner = recipe
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = to
    return recipe


def _without(*path: str | int) -> Any:
    recipe = plain()
    inner = recipe
    for step in path[:-1]:
        inner = inner[step]
    del inner[path[-1]]
    return recipe


MUTANTS = {
    "unknown key": _set("tittle", to="x"),
    "wrong version": _set("recipe", to=2),
    "wrong kind": _set("kind", to="milled"),
    "wrong units": _set("units", to="cm"),
    "no title": _without("title"),
    "no stock": _without("stock"),
    "no features": _set("features", to=[]),
    "feature without id": _without("features", 0, "id"),
    "feature without length": _without("features", 0, "length"),
    "feature with unknown key": _set("features", 0, "lenght", to="1 mm"),
    "feature of no kind": _set("features", 0, to={"id": "a"}),
    "bad end": _set("features", 2, "from", to="left"),
    "input of no kind": _set("inputs", "rod", to={"help": "x"}),
    "bad name of an input": _set("inputs", "Rod", to={"length": "1 mm"}),
    "rule without why": _without("rules", 0, "why"),
    "limits of no class": _set("limits", to={"default": "ISO 2768-x"}),
    "list for a value": _set("features", 0, "length", to=["1 mm"]),
    "empty edge": _set("features", 0, "front", to={}),
}


@pytest.mark.parametrize("name", MUTANTS)
def test_mutant_is_refused_by_schema_and_by_program(name: str) -> None:
    mutant = MUTANTS[name]
    assert not VALIDATOR.is_valid(mutant)
    assert check(parse(yaml.safe_dump(mutant, allow_unicode=True), "m.yaml"), schema.RECIPE, "m.yaml")


def test_a_recipe_based_on_another_states_only_what_differs() -> None:
    based = {"recipe": 1, "name": "a", "based_on": "b.yaml", "features": [{"id": "neck", "limits": "f7"}]}
    assert VALIDATOR.is_valid(based)
    for wrong in (
        {"nam": "a"},
        {"features": [{"limits": "f7"}]},
        {"features": [{"id": "neck", "limit": "f7"}]},
    ):
        assert not VALIDATOR.is_valid({**deepcopy(based), **wrong})


def _fields(shape: object) -> list[Field]:
    match shape:
        case Record(fields=fields):
            return [inner for f in fields for inner in (f, *_fields(f.shape))]
        case OneOf(records=records):
            return [inner for _, record in records for inner in _fields(record)]
        case ListOf(item=item) | MapOf(item=item):
            return _fields(item)
        case _:
            return []


def test_reference_names_every_field_and_every_function() -> None:
    missing = {f.name for f in _fields(schema.RECIPE) if f"`{f.name}`" not in REFERENCE}
    missing |= {f.form for f in FUNCTIONS if f"`{f.form}`" not in REFERENCE}
    assert missing == set()


def test_every_field_has_help_that_ends_without_a_stop() -> None:
    assert [f.name for f in _fields(schema.RECIPE) if not f.help or f.help.endswith(".")] == []


def test_every_input_has_a_kind() -> None:
    assert set(schema.INPUT_KINDS) == {lead for lead, _ in schema.INPUTS}
    assert set(schema.INPUT_KINDS.values()) == set(Kind) - {Kind.FLAG}
