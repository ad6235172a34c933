"""What a recipe may say: one table that checks it, publishes its JSON Schema and feeds its reference."""

from msgspec.structs import replace

from jobsheets.fields import Field, ListOf, MapOf, OneOf, Record, Scalar, Shape, json_schema
from jobsheets.recipe.expression import Kind
from jobsheets.recipe.schema_features import FEATURE
from jobsheets.recipe.shapes import (
    ANGLE,
    CONDITION,
    GENERAL,
    ID,
    LENGTH,
    LIMITS,
    NAME,
    NUMBER,
    SHARE,
    STEP_NAME,
    TEXT,
    THREAD,
    may,
    need,
)


def _input(lead: str, shape: Scalar, what: str, ranged: bool, *examples: str) -> tuple[str, Record]:
    help_ = may("help", TEXT, "what it is, printed beside it", "bar diameter as bought")
    among = Field(name="among", help="all that it may be", shape=ListOf(item=shape, least=1, most=40))
    why = may("why", TEXT, "reason for the range or the choice, printed", "smaller leaves no head")
    ends = (
        may("least", shape, "smallest value that it may have", *examples[:1]),
        may("most", shape, "largest value that it may have", *examples[:1]),
    )
    fields = (need(lead, shape, "its value unless another is set", *examples), help_, among)
    return lead, Record(what=what, fields=(*fields, *(ends if ranged else ()), why))


INPUTS: tuple[tuple[str, Record], ...] = (
    _input("length", LENGTH, "a length as input", True, "3/8 in", "rod - 1/8 in"),
    _input("thread", THREAD, "a thread as input", False, "8-32 UNC"),
    _input("angle", ANGLE, "an angle as input", True, "45 deg"),
    _input("number", NUMBER, "a number as input", True, "3"),
    _input("share", SHARE, "a share as input", True, "65 %", "0.65"),
    _input("choice", TEXT, "a choice on which good makers disagree", False, "first"),
)
INPUT_KINDS: dict[str, Kind] = {
    "length": Kind.LENGTH,
    "thread": Kind.THREAD,
    "angle": Kind.ANGLE,
    "number": Kind.NUMBER,
    "share": Kind.NUMBER,
    "choice": Kind.WORD,
}
INPUT = OneOf(what="an input", records=INPUTS)

RULE = Record(
    what="a rule",
    fields=(
        need("need", CONDITION, "comparison that must hold", "neck < rod"),
        need("why", TEXT, "what goes wrong where it does not hold", "no shoulder is left"),
        may("change", ID, "the input to change; left out: the first one in the comparison", "neck"),
    ),
)
STOCK = Record(
    what="the stock",
    fields=(
        need("round", LENGTH, "diameter of the bar as bought", "rod", "3/8 in"),
        may("standard", TEXT, "tolerance of the bar; left out: h9, the usual one of drawn bar", "h11"),
    ),
)
FIT = Record(
    what="a fit to a measured mate",
    fields=(
        need("size", ID, "the turned length or hole whose diameter is cut to fit", "neck"),
        need("to", ID, "name of the mate, for --measured", "counterbore"),
        need(
            "allowance",
            LENGTH,
            "added to the size of the mate; below zero: smaller",
            "-0.003 in",
        ),
        need("ask", TEXT, "what to measure", "diameter of the counterbore, measured"),
    ),
)
PIN = Record(
    what="a pin of the order",
    fields=(
        need("operation", STEP_NAME, "feature, or step of one, that comes first", "grip"),
        need("before", STEP_NAME, "feature or step that it comes before", "part_off"),
        need("why", TEXT, "reason, printed", "the bar is the handle"),
    ),
)
DEFAULTS = Record(
    what="the default limits",
    fields=(
        need(
            "default",
            Scalar(what="a general tolerance", choices=GENERAL),
            "limits of every size that has none of its own",
            "ISO 2768-m",
        ),
    ),
)
OVERALL = Record(
    what="the overall length",
    fields=(need("limits", LIMITS, "limits of the length over all", "±0.1 mm"),),
)

_ALWAYS = ("recipe", "name")
RECIPE = Record(
    what="a recipe",
    fields=(
        need("recipe", Scalar(what="the version of the recipe language", choices=("1",)), "version", "1"),
        need("name", NAME, "short name, as its sheets are filed", "stepped-end-nut"),
        need("title", TEXT, "heading of the sheet", "Stepped end nut, blind thread"),
        need("kind", Scalar(what="a kind of part", choices=("turned",)), "how the part is made", "turned"),
        may(
            "units",
            Scalar(what="a unit system", choices=("in", "mm")),
            "system of the sheet unless another is asked for; left out: mm",
            "in",
        ),
        may(
            "based_on",
            TEXT,
            "recipe in the same folder; this one states what differs",
            "nut.yaml",
        ),
        may("inputs", MapOf(item=INPUT, most=60), "values that may be set for each part"),
        may("rules", ListOf(item=RULE, most=40), "what must hold among the inputs"),
        need("material", TEXT, "a material of the table, by any of its names", "stainless-303"),
        need("stock", STOCK, "the bar"),
        need(
            "features",
            ListOf(item=FEATURE, least=1, most=60),
            "what the part has; turn, groove and die from the front end to the back",
        ),
        may("fits", ListOf(item=FIT, most=20), "sizes that are cut to a measured mate"),
        may("pins", ListOf(item=PIN, most=20), "order that the maker insists on"),
        may("limits", DEFAULTS, "limits where none are written; left out: ISO 2768-m"),
        may("overall", OVERALL, "limits of the whole length; left out: the sum of the lengths"),
        may("notes", ListOf(item=TEXT, most=30), "printed on the sheet"),
    ),
)


def json() -> dict[str, object]:
    """JSON Schema (draft 2020-12) of recipes, for editors.

    A recipe that is based on another may leave out all but its version and name, and states of each input,
    feature, fit and pin only what differs.
    """
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A recipe of jobsheets",
        "type": "object",
        "if": {"required": ["based_on"]},
        "then": json_schema(replace(RECIPE, fields=tuple(_loosened(f) for f in RECIPE.fields))),
        "else": json_schema(RECIPE),
    }


def text() -> str:
    """The JSON Schema as it is published in docs/recipe.schema.json."""
    from json import dumps

    return dumps(json(), indent=1, ensure_ascii=False) + "\n"


def _loosened(field: Field) -> Field:
    return replace(field, required=field.name in _ALWAYS, shape=_differing(field.name, field.shape))


def _differing(name: str, shape: Shape) -> Shape:
    """The shape of a part of a recipe that may state only what differs."""
    match name, shape:
        case "inputs", MapOf(item=OneOf() as kinds):
            return replace(shape, item=_any_of(kinds, ()))
        case "features", ListOf(item=OneOf() as kinds):
            return replace(shape, item=_any_of(kinds, ("id",)))
        case "fits", ListOf(item=Record() as record):
            return replace(shape, item=_needing(record, ("size",)))
        case _:
            return shape


def _any_of(kinds: OneOf, needed: tuple[str, ...]) -> Record:
    """All fields of all kinds in one record: which of them suit depends on what it is based on."""
    fields = {f.name: f for _, record in kinds.records for f in record.fields}
    return _needing(Record(what=kinds.what, fields=tuple(fields.values())), needed)


def _needing(record: Record, needed: tuple[str, ...]) -> Record:
    return replace(record, fields=tuple(replace(f, required=f.name in needed) for f in record.fields))
