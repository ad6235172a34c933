"""One mapping of a checked shop file: its values by name, and faults of meaning with their line."""

from collections.abc import Callable
from typing import TypeVar

from msgspec import Struct

from jobsheets.document import Mapping, Node, Sequence, Text
from jobsheets.errors import Problem

T = TypeVar("T")
Grammar = Callable[[str], T]


class Entry(Struct):
    """A mapping that `fields.check` found sound. `faults` is shared by all entries of a file."""

    node: Mapping
    path: str
    file: str
    faults: list[Problem]

    def __contains__(self, name: str) -> bool:
        return name in self.node.entries

    def get(self, name: str, grammar: Grammar[T]) -> T:
        """Value of a required name."""
        return grammar(self.text(name))

    def opt(self, name: str, grammar: Grammar[T], default: T) -> T:
        """Value of a name that may be left out."""
        return grammar(self.text(name)) if name in self.node.entries else default

    def text(self, name: str) -> str:
        return _text(self.node.entries[name])

    def values(self, name: str, grammar: Grammar[T]) -> tuple[T, ...]:
        """Values of a list; none where the name is left out."""
        return tuple(grammar(_text(item)) for item in self._items(name))

    def entry(self, name: str) -> "Entry":
        """The mapping under `name`; an empty one where it is left out."""
        node = self.node.entries.get(name)
        inner = node if isinstance(node, Mapping) else Mapping({}, self.node.line)
        return Entry(inner, self._at(name), self.file, self.faults)

    def entries(self, name: str) -> tuple["Entry", ...]:
        """The mappings of a list."""
        return tuple(
            Entry(item, f"{self._at(name)}[{n}]", self.file, self.faults)
            for n, item in enumerate(self._items(name), start=1)
            if isinstance(item, Mapping)
        )

    def either(self, name: str, short: str) -> tuple["Entry", ...]:
        """The mappings of a list in which a single value stands for a mapping that says `short` alone."""
        found = []
        for n, item in enumerate(self._items(name), start=1):
            node = (
                item if isinstance(item, Mapping) else Mapping({short: item}, item.line, {short: item.line})
            )
            found.append(Entry(node, f"{self._at(name)}[{n}]", self.file, self.faults))
        return tuple(found)

    def fault(self, name: str, wrong: str, right: str) -> None:
        """Keep a fault of meaning, at the line of `name` where that was written."""
        node = self.node.entries.get(name, self.node)
        found = node.value if isinstance(node, Text) else ""
        path = self._at(name) if name else self.path
        self.faults.append(
            Problem(file=self.file, line=node.line, field=path, found=found, wrong=wrong, right=right)
        )

    def _at(self, name: str) -> str:
        return f"{self.path}.{name}" if self.path else name

    def _items(self, name: str) -> list[Node]:
        node = self.node.entries.get(name)
        return node.items if isinstance(node, Sequence) else []


def _text(node: Node) -> str:
    return node.value if isinstance(node, Text) else ""
