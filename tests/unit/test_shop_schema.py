"""The published schema and the reference follow the declared fields."""

import json
from collections.abc import Iterator
from pathlib import Path

import jsonschema
import pytest
import yaml
from msgspec.structs import fields as struct_fields

from jobsheets import fields
from jobsheets.shop.schema import SHOP
from jobsheets.shop.shop import HouseRules

ROOT = Path(__file__).parents[2]
SCHEMA = ROOT / "docs" / "shop.schema.json"
WRITE = "python -m tests.unit.test_shop_schema"


def schema_text() -> str:
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Shop file",
        **fields.json_schema(SHOP),
    }
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def records(shape: fields.Shape) -> Iterator[fields.Record]:
    match shape:
        case fields.Record():
            yield shape
            for field in shape.fields:
                yield from records(field.shape)
        case fields.ListOf() | fields.MapOf():
            yield from records(shape.item)
        case fields.Either():
            yield from records(shape.record)


def test_published_schema_is_current():
    assert SCHEMA.read_text(encoding="utf-8") == schema_text(), f"run: {WRITE}"


@pytest.mark.parametrize("name", ["inch-workshop", "metric-workshop"])
def test_demo_shops_meet_the_published_schema(name):
    text = (ROOT / "recipes" / "shops" / f"{name}.yaml").read_text(encoding="utf-8")
    jsonschema.validate(yaml.safe_load(text), json.loads(schema_text()))


def test_published_schema_refuses_an_unknown_name():
    text = (ROOT / "recipes" / "shops" / "inch-workshop.yaml").read_text(encoding="utf-8")
    with pytest.raises(jsonschema.ValidationError, match="lathes"):
        jsonschema.validate(yaml.safe_load(text) | {"lathes": {}}, json.loads(schema_text()))


def test_every_field_has_help():
    assert [f.name for record in records(SHOP) for f in record.fields if len(f.help) < 5] == []


def test_every_example_is_one_that_its_notation_reads():
    for record in records(SHOP):
        for field in record.fields:
            shape = field.shape.item if isinstance(field.shape, fields.ListOf) else field.shape
            if isinstance(shape, fields.Scalar) and shape.grammar is not None:
                for example in field.examples:
                    shape.grammar(example)


def test_reference_names_every_field():
    text = (ROOT / "docs" / "shop-files.md").read_text(encoding="utf-8")
    names = {f.name for record in records(SHOP) if record.what != "the house rules" for f in record.fields}
    assert [name for name in sorted(names) if f"`{name}`" not in text] == []


def test_every_house_rule_is_explained_with_its_default():
    text = (ROOT / "docs" / "house-rules.md").read_text(encoding="utf-8")
    rows = {line.split("|")[1].strip(): line for line in text.splitlines() if line.startswith("| `")}
    for rule in struct_fields(HouseRules):
        row = rows[f"`{rule.name}`"]
        default = rule.default
        shown = str(default).lower() if isinstance(default, bool) else f"{default:g}"
        assert row.split("|")[2].strip().split()[0] == shown, row


if __name__ == "__main__":
    SCHEMA.write_text(schema_text(), encoding="utf-8")
