"""One mapping of a recipe with every formula worked out: numbers in mm and degrees, threads, words."""

from msgspec import Struct

from jobsheets.document import Mapping, Node, Text
from jobsheets.fields import OneOf, Record, Scalar, Shape, leading
from jobsheets.recipe import show
from jobsheets.recipe.expression import Kind, Value
from jobsheets.recipe.faults import Faults
from jobsheets.recipe.inputs import Inputs, UnknownValueError
from jobsheets.recipe.shapes import KINDS
from jobsheets.standards.threads import Thread

LONGEST = 2000.0  # mm; no part of a small lathe is longer
_SIGNED = ("allowance",)


class Item(Struct, frozen=True, kw_only=True):
    """Values by name; the builders know from the check of the fields which are there."""

    lead: str  # name that tells the kind: "turn", "chamfer"; "" where there is only one kind
    node: Mapping
    path: str
    values: dict[str, "Value | Item"]

    def __contains__(self, name: str) -> bool:
        return name in self.values

    def number(self, name: str) -> float:
        """Value of a formula that yields a measure, mm."""
        found = self.values[name]
        assert isinstance(found, float)
        return found

    def thread(self, name: str) -> Thread:
        found = self.values[name]
        assert isinstance(found, Thread)
        return found

    def text(self, name: str, default: str = "") -> str:
        found = self.values.get(name, default)
        assert isinstance(found, str)
        return found

    def item(self, name: str) -> "Item | None":
        found = self.values.get(name)
        return found if isinstance(found, Item) else None

    def at(self, name: str) -> tuple[Node, str]:
        """Where a value is written, for a fault; the mapping itself where it is left out."""
        if name in self.node.entries:
            return self.node.entries[name], f"{self.path}.{name}"
        return self.node, self.path


def read(node: Node, shape: Shape, path: str, inputs: Inputs, faults: Faults) -> Item | None:
    """The mapping with its formulas worked out; None, and the faults kept, where one cannot be."""
    if not isinstance(node, Mapping):
        return None
    lead = (leading(node, shape) or "") if isinstance(shape, OneOf) else ""
    record = dict(shape.records)[lead] if isinstance(shape, OneOf) and lead else shape
    if not isinstance(record, Record):
        return None
    values: dict[str, Value | Item] = {}
    sound = True
    for field in record.fields:
        inner = node.entries.get(field.name)
        if inner is None:
            continue
        found = _value(inner, field.shape, f"{path}.{field.name}", field.name, inputs, faults)
        if found is None:
            sound = False
        else:
            values[field.name] = found
    return Item(lead=lead, node=node, path=path, values=values) if sound else None


def _value(
    node: Node, shape: Shape, path: str, name: str, inputs: Inputs, faults: Faults
) -> "Value | Item | None":
    if not isinstance(node, Text):
        return read(node, shape, path, inputs, faults)
    kind = KINDS.get(shape) if isinstance(shape, Scalar) else None
    if kind is None:
        return node.value
    try:
        found = inputs.worked_out(node.value, kind)
    except UnknownValueError:
        return None
    except ValueError as error:
        faults.tell(node, path, error)
        return None
    if kind is Kind.LENGTH and isinstance(found, float) and name not in _SIGNED:
        return _size(found, node, path, faults)
    return found


def _size(found: float, node: Text, path: str, faults: Faults) -> float | None:
    if 0.0 < found <= LONGEST:
        return round(found, 9)  # a hair of float noise must not lift 6 mm into the next range of a fit table
    got = show.length(found, "mm")
    wrong = f"a size of {got}" if found <= 0.0 else f"a size of {got}, longer than any part here"
    faults.add(node, path, wrong, "a length above zero, at most 2 m")
    return None
