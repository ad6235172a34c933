"""Inputs of a recipe: declared, set from outside, worked out in any order, held to their ranges."""

from collections.abc import Mapping as Readable

from msgspec import Struct

from jobsheets.document import Mapping, Sequence, Text
from jobsheets.fields import leading
from jobsheets.recipe import evaluate, expression, lookups, show
from jobsheets.recipe.expression import Kind, Literal, Tree, Value
from jobsheets.recipe.faults import Faults, parted
from jobsheets.recipe.schema import INPUT, INPUT_KINDS


class Declared(Struct, frozen=True, kw_only=True):
    """One input as the recipe declares it; lengths in mm once worked out."""

    name: str
    kind: Kind
    node: Mapping
    value: Text  # its written value
    help: str
    why: str

    @property
    def path(self) -> str:
        return f"inputs.{self.name}"

    def among(self) -> tuple[Text, ...]:
        node = self.node.entries.get("among")
        items = node.items if isinstance(node, Sequence) else []
        return tuple(item for item in items if isinstance(item, Text))

    def text(self, name: str) -> Text | None:
        node = self.node.entries.get(name)
        return node if isinstance(node, Text) else None


class UnknownValueError(ValueError):
    """A value that has no cause to be told again: its own fault is kept already."""


def declared(top: Mapping) -> dict[str, Declared]:
    """The inputs of a recipe that the check of its fields found sound."""
    node = top.entries.get("inputs")
    found: dict[str, Declared] = {}
    for name, item in node.entries.items() if isinstance(node, Mapping) else ():
        lead = leading(item, INPUT) if isinstance(item, Mapping) else None
        value = item.entries[lead] if isinstance(item, Mapping) and lead else None
        if isinstance(item, Mapping) and lead and isinstance(value, Text):
            found[name] = Declared(
                name=name,
                kind=INPUT_KINDS[lead],
                node=item,
                value=value,
                help=_word(item, "help"),
                why=_word(item, "why"),
            )
    return found


def _word(node: Mapping, name: str) -> str:
    found = node.entries.get(name)
    return found.value if isinstance(found, Text) else ""


def _same(a: Value | None, b: Value | None) -> bool:
    if isinstance(a, float) and isinstance(b, float):
        return abs(a - b) < 1e-9
    return a == b


class Inputs:
    """Values of all inputs. `settings` win over the recipe, and `forced` over both.

    Args:
        known: the inputs as declared.
        faults: keeps what is found wrong.
        settings: texts set on the command line, by name.
        forced: values that a measured mate decides.
        readings: name and text of that mate, by the input that it decides.
    """

    def __init__(
        self,
        known: dict[str, Declared],
        faults: Faults,
        settings: Readable[str, str],
        forced: Readable[str, Value] | None = None,
        readings: Readable[str, tuple[str, str]] | None = None,
    ) -> None:
        self.known = known
        self.faults = faults
        self.settings = settings
        self.readings = dict(readings or {})
        self.kinds = {name: one.kind for name, one in known.items()}
        self.values: dict[str, Value] = dict(forced or {})
        self._work_out_all()

    def read(self, text: str, kind: Kind) -> Tree:
        """Tree of a text that must yield `kind`.

        Raises:
            ValueError: it cannot be read, or yields something else.
        """
        if kind is Kind.WORD:
            return Literal(kind, text, text)
        tree = self._thread(text) if kind is Kind.THREAD else expression.parse(text)
        found = evaluate.kind_of(tree, self.kinds)
        if found is not kind:
            bare = found is Kind.NUMBER and kind in (Kind.LENGTH, Kind.ANGLE)
            wrong = f"{kind.value} without a unit" if bare else f"{found.value}, not {kind.value}"
            raise ValueError(f"{wrong}; want {kind.value}, such as {show.EXAMPLES[kind]}")
        return tree

    def _thread(self, text: str) -> Tree:
        if text.strip() in self.known or any(sign in text for sign in "(,'"):
            return expression.parse(text)
        return Literal(Kind.THREAD, lookups.thread(text), text)

    def worked_out(self, text: str, kind: Kind) -> Value:
        """Value of a text that must yield `kind`.

        Raises:
            ValueError: as `read`, or it cannot be worked out.
        """
        return evaluate.evaluate(self.read(text, kind), self.value)

    def plain(self, text: str, kind: Kind) -> bool:
        """Whether a text that was read before is a value and no formula."""
        return isinstance(self.read(text, kind), Literal)

    def length(self, text: str) -> float:
        """Value of a text that must yield a length, mm; errors as `worked_out`."""
        found = self.worked_out(text, Kind.LENGTH)
        assert isinstance(found, float)
        return found

    def value(self, name: str) -> Value:
        """Value of an input.

        Raises:
            UnknownValueError: it has none, and why is among the faults.
        """
        if name not in self.values:
            raise UnknownValueError(name)
        return self.values[name]

    def _work_out_all(self) -> None:
        """Each input once those that it uses have values: no recursion, so that no chain is too long."""
        trees = {one.name: self._tree(one) for one in self.known.values() if one.name not in self.values}
        waiting = {name: tree for name, tree in trees.items() if tree is not None}
        while ready := [name for name, tree in waiting.items() if self._ready(tree)]:
            for name in ready:
                tree, one = waiting.pop(name), self.known[name]
                try:
                    self.values[name] = evaluate.evaluate(tree, self.value)
                except ValueError as error:
                    self._tell(one, *parted(error))
        self._rings(waiting)

    def _ready(self, tree: Tree) -> bool:
        return all(name in self.values for name in expression.names(tree))

    def _tree(self, one: Declared) -> Tree | None:
        try:
            return self.read(self.settings.get(one.name, one.value.value), one.kind)
        except ValueError as error:
            self._tell(one, *parted(error))
            return None

    def _rings(self, waiting: dict[str, Tree]) -> None:
        """Name each ring of inputs that wait for each other; those that wait for a faulty one say nothing."""
        seen: set[str] = set()
        for start in waiting:
            path: list[str] = []
            name: str | None = start
            while name is not None and name not in seen:
                seen.add(name)
                path.append(name)
                name = next((n for n in expression.names(waiting[name]) if n in waiting), None)
            if name in path:
                chain = " -> ".join((*path[path.index(name) :], name))
                self._tell(
                    self.known[name],
                    f"inputs in a ring: {chain}",
                    "one of them as a plain value",
                )

    def _tell(self, one: Declared, wrong: str, right: str) -> None:
        if one.name in self.readings:
            mate, text = self.readings[one.name]
            self.faults.given("--measured", mate, text, f"it makes {one.name} {wrong}", right)
        elif one.name in self.settings:
            self.faults.given("--set", one.name, self.settings[one.name], wrong, right)
        else:
            self.faults.add(one.value, one.path, wrong, right)

    def check(self, system: str) -> None:
        """Hold every input to its range; faults are kept."""
        for one in self.known.values():
            if one.name in self.values:
                self._among(one, self.values[one.name])
                self._ends(one, self.values[one.name], system)

    def _among(self, one: Declared, value: Value) -> None:
        allowed = one.among()
        if one.kind is Kind.WORD and not allowed:
            self.faults.add(one.node, f"{one.path}.among", "no choice", "among: [the words to choose from]")
            return
        values = [self._part(one, item, "among") for item in allowed]
        if allowed and None not in values and not any(_same(value, v) for v in values):
            because = f" ({one.why})" if one.why else ""
            self._tell(one, f"not one that {one.name} may be{because}", " or ".join(t.value for t in allowed))

    def _ends(self, one: Declared, value: Value, system: str) -> None:
        for name, beyond in (("least", "smaller"), ("most", "larger")):
            node = one.text(name)
            end = self._part(one, node, name) if node is not None else None
            if not isinstance(end, float) or not isinstance(value, float):
                continue
            over = end - value if name == "least" else value - end
            if over > 1e-9:
                because = f": {one.why}" if one.why else ""
                got = show.value(value, one.kind, system)
                self._tell(
                    one,
                    f"{got}, {beyond} than {one.name} may be{because}",
                    f"{show.value(end, one.kind, system)} or {'more' if name == 'least' else 'less'}",
                )

    def _part(self, one: Declared, node: Text, name: str) -> Value | None:
        try:
            return self.worked_out(node.value, one.kind)
        except UnknownValueError:
            return None
        except ValueError as error:
            self.faults.tell(node, f"{one.path}.{name}", error)
            return None
