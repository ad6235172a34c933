"""The text of a recipe as one tree: read within bounds, and put together where it is based on another.

Nodes keep the file they came from, so that a fault is told where it was written.
"""

from pathlib import Path

from jobsheets import document
from jobsheets.document import Mapping, Node, Sequence, Text
from jobsheets.errors import InputError, Problem
from jobsheets.fields import nearest
from jobsheets.recipe.schema import INPUTS
from jobsheets.recipe.schema_features import FEATURES

MAX_CHAIN = 4
_LEADS = {"inputs": tuple(lead for lead, _ in INPUTS), "features": tuple(lead for lead, _ in FEATURES)}
# Lists merged entry by entry, and the names that tell which entry is meant.
_KEYS = {"features": ("id",), "fits": ("size",), "pins": ("operation", "before")}
_OWN = ("recipe", "name")  # never taken from the base: a recipe says its version and its own name


def read(path: Path, shipped: Path | None) -> Mapping:
    """Tree of the recipe at `path`.

    Args:
        path: the file.
        shipped: folder of the recipes that come with the program, as bases.

    Raises:
        InputError: a file that is missing, no text, no YAML, or based on what it may not be based on.
    """
    return _read(path, shipped, ())


def _read(path: Path, shipped: Path | None, above: tuple[Path, ...]) -> Mapping:
    tree = document.parse(document.decode(_bytes(path), str(path)), str(path))
    base = tree.entries.get("based_on")
    if not isinstance(base, Text):
        return tree
    chain = (*above, path.resolve())
    base_path = _base_path(base, path, shipped)
    if base_path.resolve() in chain:
        ring = " -> ".join(p.name for p in (*chain[chain.index(base_path.resolve()) :], base_path))
        raise _refused(base, f"recipes in a ring: {ring}", "one that stands alone")
    if len(chain) > MAX_CHAIN:
        raise _refused(base, f"more than {MAX_CHAIN} recipes based on each other", "the values written out")
    return _Merge(_read(base_path, shipped, chain), tree).merged()


def _bytes(path: Path) -> bytes:
    """At most one byte more than a recipe may have: a huge or endless file costs nothing."""

    def fault(wrong: str, right: str) -> InputError:
        return InputError((Problem(file=str(path), line=0, field="", found="", wrong=wrong, right=right),))

    try:
        if path.exists() and not path.is_file():
            raise fault("a folder" if path.is_dir() else "not a file", "the path of a recipe (.yaml)")
        with path.open("rb") as file:
            return file.read(document.MAX_BYTES + 1)
    except FileNotFoundError:
        beside = sorted(p.name for p in path.parent.glob("*.yaml")) if path.parent.is_dir() else []
        close = nearest(path.name, tuple(beside))
        raise fault("no such file", " or ".join(close) or "the path of a recipe (.yaml)") from None
    except (OSError, ValueError) as exc:  # ValueError: a path with a null character
        raise fault(
            f"cannot be read ({getattr(exc, 'strerror', None) or exc})", "a file that may be read"
        ) from None


def _base_path(base: Text, path: Path, shipped: Path | None) -> Path:
    """Where a base lies: beside the recipe, else among those shipped; nowhere else."""
    name = base.value
    if "\0" in name or Path(name).is_absolute() or ".." in Path(name).parts:
        raise _refused(base, "a path that leaves the recipe's folder", "a recipe in the same folder")
    found: list[str] = []
    for folder in (path.parent, *([shipped] if shipped else [])):
        candidate = folder / name
        if candidate.is_file():
            if not candidate.resolve().is_relative_to(folder.resolve()):
                raise _refused(base, "a path that leaves the recipe's folder", "a recipe in the same folder")
            return candidate
        found += [p.name for p in folder.glob("*.yaml")]
    close = nearest(name, tuple(found)) or tuple(sorted(set(found)))[:8]
    raise _refused(base, "no such recipe to be based on", " or ".join(close) or "a recipe in the same folder")


def _refused(base: Text, wrong: str, right: str) -> InputError:
    problem = Problem(
        file=base.file, line=base.line, field="based_on", found=base.value, wrong=wrong, right=right
    )
    return InputError((problem,))


class _Merge:
    """One recipe laid over its base. What does not fit is left for the check of the fields to tell."""

    def __init__(self, base: Mapping, over: Mapping) -> None:
        self.base = base
        self.over = over
        self.problems: list[Problem] = []

    def merged(self) -> Mapping:
        entries: dict[str, Node] = {
            name: node for name, node in self.base.entries.items() if name not in (*_OWN, "based_on")
        }
        result = Mapping(entries, self.over.line, dict(self.base.key_lines), self.over.file)
        for name, node in self.over.entries.items():
            result.entries[name] = self._laid(name, self.base.entries.get(name), node)
            result.key_lines[name] = self.over.key_lines[name]
        if self.problems:
            raise InputError(tuple(self.problems))
        return result

    def _laid(self, name: str, base: Node | None, over: Node) -> Node:
        if name == "inputs" and isinstance(base, Mapping) and isinstance(over, Mapping):
            return self._inputs(base, over)
        if name in _KEYS and isinstance(base, Sequence) and isinstance(over, Sequence):
            return self._entries(name, base, over)
        return over

    def _inputs(self, base: Mapping, over: Mapping) -> Mapping:
        result = Mapping(dict(base.entries), over.line, dict(base.key_lines), over.file)
        for name, node in over.entries.items():
            below = base.entries.get(name)
            result.entries[name] = _over(below, node, _LEADS["inputs"])
            result.key_lines[name] = over.key_lines[name]
        return result

    def _entries(self, name: str, base: Sequence, over: Sequence) -> Sequence:
        items = list(base.items)
        keys = [_key(item, _KEYS[name]) for item in items]
        leads = _LEADS.get(name, ())
        for number, item in enumerate(over.items, start=1):
            key = _key(item, _KEYS[name])
            if key is not None and key in keys:
                at = keys.index(key)
                items[at] = _over(items[at], item, leads)
            elif key is not None and leads and isinstance(item, Mapping) and not _leading(item, leads):
                self._unknown(f"{name}[{number}]", item, key[0], [k[0] for k in keys if k])
            else:
                items.append(item)
        return Sequence(items, over.line, over.file)

    def _unknown(self, path: str, item: Mapping, found: str, known: list[str]) -> None:
        close = " or ".join(nearest(found, tuple(known))) or ", ".join(known)
        wrong = f"no feature of {Path(self.base.file).name}, and it does not say what it is"
        problem = Problem(
            file=item.file, line=item.line, field=f"{path}.id", found=found, wrong=wrong, right=close
        )
        self.problems.append(problem)


def _key(item: Node, names: tuple[str, ...]) -> tuple[str, ...] | None:
    if not isinstance(item, Mapping):
        return None
    values = tuple(node.value for node in map(item.entries.get, names) if isinstance(node, Text))
    return values if len(values) == len(names) else None


def _leading(item: Mapping, leads: tuple[str, ...]) -> str | None:
    return next((lead for lead in leads if lead in item.entries), None)


def _over(base: Node | None, over: Node, leads: tuple[str, ...]) -> Node:
    """One entry laid over another name by name; one that says anew what it is replaces it whole."""
    if not isinstance(base, Mapping) or not isinstance(over, Mapping):
        return over
    lead = _leading(over, leads)
    if lead is not None and lead not in base.entries:
        return over
    result = Mapping(
        {**base.entries, **over.entries}, over.line, {**base.key_lines, **over.key_lines}, over.file
    )
    # a hole that was through and now has a depth, or the other way round, has only the new one
    for new, old in (("depth", "through"), ("through", "depth")):
        if new in over.entries and old not in over.entries:
            result.entries.pop(old, None)
            result.key_lines.pop(old, None)
    return result


def entries(top: Mapping, name: str) -> tuple[Mapping, ...]:
    """The mappings of a list of the recipe; none where it is left out."""
    node = top.entries.get(name)
    items = node.items if isinstance(node, Sequence) else []
    return tuple(item for item in items if isinstance(item, Mapping))
