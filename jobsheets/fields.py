"""What fields a file may hold, as data: one table reads it, publishes the schema and feeds the docs.

A shape describes one place of the tree. `check` walks tree and shape together and gathers every fault:
unknown names with the nearest known one, missing names, wrong kinds, texts that the notation refuses.
"""

from collections.abc import Callable, Iterator

from msgspec import Struct

from jobsheets.document import Mapping, Node, Sequence, Text
from jobsheets.errors import Problem

MAX_TEXT = 400


class Scalar(Struct, frozen=True, kw_only=True):
    """One value. `grammar` raises ValueError with what is wanted when the text cannot be read."""

    what: str  # "a length", "a thread"
    grammar: Callable[[str], object] | None = None
    choices: tuple[str, ...] = ()
    pattern: str = ""


class ListOf(Struct, frozen=True, kw_only=True):
    item: "Shape"
    most: int = 500
    least: int = 0


class MapOf(Struct, frozen=True, kw_only=True):
    """Names of the maker's own choice, each with the same shape."""

    item: "Shape"
    names: str = r"^[a-z][a-z0-9_]{0,30}$"
    most: int = 200


class Field(Struct, frozen=True, kw_only=True):
    name: str
    help: str
    shape: "Shape"
    required: bool = False
    examples: tuple[str, ...] = ()


class Record(Struct, frozen=True, kw_only=True):
    """A mapping with known names."""

    what: str  # "a tapped hole"
    fields: tuple[Field, ...]

    def names(self) -> tuple[str, ...]:
        return tuple(f.name for f in self.fields)


class OneOf(Struct, frozen=True, kw_only=True):
    """A mapping whose kind is told by which of its leading names it holds, such as `turn:` or `tap:`."""

    what: str
    records: tuple[tuple[str, Record], ...]  # leading name -> record that holds it


class Either(Struct, frozen=True, kw_only=True):
    """A single value, or a mapping that says more."""

    scalar: Scalar
    record: Record


Shape = Scalar | ListOf | MapOf | Record | OneOf | Either


def nearest(name: str, known: tuple[str, ...], most: int = 3) -> tuple[str, ...]:
    """Known names that look like `name`, likeliest first."""
    import difflib

    return tuple(difflib.get_close_matches(name, known, n=most, cutoff=0.5))


def check(node: Node, shape: Shape, file: str, path: str = "") -> list[Problem]:
    """Every fault of `node` against `shape`, in the order of the file."""
    return sorted(_walk(node, shape, file, path), key=lambda p: (p.file, p.line))


def _problem(file: str, node: Node, path: str, wrong: str, right: str, found: str = "") -> Problem:
    return Problem(file=node.file or file, line=node.line, field=path, found=found, wrong=wrong, right=right)


def _walk(node: Node, shape: Shape, file: str, path: str) -> Iterator[Problem]:
    match shape:
        case Scalar():
            yield from _scalar(node, shape, file, path)
        case ListOf():
            yield from _list(node, shape, file, path)
        case MapOf():
            yield from _map(node, shape, file, path)
        case Record():
            yield from _record(node, shape, file, path)
        case OneOf():
            yield from _one_of(node, shape, file, path)
        case Either():
            inner: Shape = shape.scalar if isinstance(node, Text) else shape.record
            yield from _walk(node, inner, file, path)


def _scalar(node: Node, shape: Scalar, file: str, path: str) -> Iterator[Problem]:
    if not isinstance(node, Text):
        yield _problem(file, node, path, "not a single value", shape.what)
        return
    text = node.value
    if not text.strip():
        yield _problem(file, node, path, "nothing written", shape.what)
    elif len(text) > MAX_TEXT:
        yield _problem(file, node, path, f"too long a text ({len(text)} characters)", f"at most {MAX_TEXT}")
    elif shape.choices and text not in shape.choices:
        close = nearest(text, shape.choices)
        want = f"{close[0]} (or one of {', '.join(shape.choices)})" if close else ", ".join(shape.choices)
        yield _problem(file, node, path, f"not {shape.what}", want, text)
    elif shape.grammar is not None:
        try:
            shape.grammar(text)
        except ValueError as exc:
            wrong, _, right = str(exc).partition("; want ")
            yield _problem(file, node, path, wrong if right else f"not {shape.what}", right or wrong, text)


def _list(node: Node, shape: ListOf, file: str, path: str) -> Iterator[Problem]:
    if not isinstance(node, Sequence):
        yield _problem(
            file,
            node,
            path,
            "not a list",
            "a list: lines that begin with '- '",
            node.value if isinstance(node, Text) else "",
        )
        return
    if not shape.least <= len(node.items) <= shape.most:
        yield _problem(
            file, node, path, f"a list of {len(node.items)}", f"{shape.least} to {shape.most} entries"
        )
    for number, item in enumerate(node.items[: shape.most], start=1):
        yield from _walk(item, shape.item, file, f"{path}[{number}]")


def _map(node: Node, shape: MapOf, file: str, path: str) -> Iterator[Problem]:
    import re

    if not isinstance(node, Mapping):
        yield _problem(file, node, path, "not a mapping", "lines such as name: value")
        return
    if len(node.entries) > shape.most:
        yield _problem(file, node, path, f"{len(node.entries)} names", f"at most {shape.most}")
    for name, item in node.entries.items():
        if not re.fullmatch(shape.names, name):
            yield Problem(
                file=item.file or file,
                line=node.key_lines[name],
                field=path,
                found=name[:60],
                wrong="not a name",
                right="a small letter first, then small letters, digits and _, at most 31",
            )
        yield from _walk(item, shape.item, file, f"{path}.{name}" if path else name)


def _record(node: Node, shape: Record, file: str, path: str) -> Iterator[Problem]:
    if not isinstance(node, Mapping):
        yield _problem(
            file,
            node,
            path,
            f"not {shape.what}",
            f"the names {', '.join(shape.names())}",
            node.value if isinstance(node, Text) else "",
        )
        return
    known = {f.name: f for f in shape.fields}
    for name, item in node.entries.items():
        at = f"{path}.{name}" if path else name
        if name in known:
            yield from _walk(item, known[name].shape, file, at)
            continue
        close = nearest(name, shape.names())
        right = close[0] if close else f"one of {', '.join(shape.names())}"
        found = item.value if isinstance(item, Text) else ""
        if " " in name and not found:  # { help: long, thin } reads as two names
            right = 'quotes round a text that holds a comma, such as "long, thin"'
        yield Problem(
            file=item.file or file,
            line=node.key_lines[name],
            field=at,
            found=found,
            wrong=f"not a field of {shape.what}",
            right=right,
        )
    for f in shape.fields:
        if f.required and f.name not in node.entries:
            example = f"; such as {f.name}: {f.examples[0]}" if f.examples else ""
            yield _problem(
                file,
                node,
                f"{path}.{f.name}" if path else f.name,
                f"missing from {shape.what}",
                f"{f.name}: {f.help}{example}",
            )


def leading(node: Mapping, shape: OneOf) -> str | None:
    """The leading name that tells which record `node` is, or None."""
    found = [name for name, _ in shape.records if name in node.entries]
    return found[0] if found else None


def _one_of(node: Node, shape: OneOf, file: str, path: str) -> Iterator[Problem]:
    leads = tuple(name for name, _ in shape.records)
    if not isinstance(node, Mapping):
        yield _problem(file, node, path, f"not {shape.what}", f"a mapping with one of {', '.join(leads)}")
        return
    lead = leading(node, shape)
    if lead is None:
        close = [c for name in node.entries for c in nearest(name, leads, 1)]
        right = close[0] if close else f"one of {', '.join(leads)}"
        yield _problem(
            file,
            node,
            path,
            f"{shape.what} that does not say what it is",
            right,
            ", ".join(node.entries)[:80],
        )
        return
    yield from _record(node, dict(shape.records)[lead], file, path)


def json_schema(shape: Shape) -> dict[str, object]:
    """The shape as JSON Schema (draft 2020-12), for editors. Scalars may be text, number or boolean."""
    match shape:
        case Scalar():
            return _scalar_schema(shape)
        case ListOf():
            return {
                "type": "array",
                "items": json_schema(shape.item),
                "minItems": shape.least,
                "maxItems": shape.most,
            }
        case MapOf():
            return {
                "type": "object",
                "patternProperties": {shape.names: json_schema(shape.item)},
                "additionalProperties": False,
                "maxProperties": shape.most,
            }
        case Record():
            return _record_schema(shape)
        case OneOf():
            return {"description": shape.what, "anyOf": [json_schema(r) for _, r in shape.records]}
        case Either():
            return {"anyOf": [json_schema(shape.scalar), json_schema(shape.record)]}


def _scalar_schema(shape: Scalar) -> dict[str, object]:
    schema: dict[str, object] = {"description": shape.what}
    if shape.choices:
        schema["enum"] = [
            *shape.choices,
            *(int(c) for c in shape.choices if c.isdigit()),
            *(c == "true" for c in shape.choices if c in ("true", "false")),
        ]
        return schema
    schema["type"] = ["string", "number", "boolean"]
    if shape.pattern:
        schema["pattern"] = shape.pattern
    return schema


def _record_schema(shape: Record) -> dict[str, object]:
    properties: dict[str, object] = {}
    for f in shape.fields:
        inner = json_schema(f.shape)
        inner["description"] = f.help
        if f.examples:
            inner["examples"] = list(f.examples)
        properties[f.name] = inner
    schema: dict[str, object] = {
        "type": "object",
        "description": shape.what,
        "properties": properties,
        "additionalProperties": False,
    }
    required = [f.name for f in shape.fields if f.required]
    if required:
        schema["required"] = required
    return schema
