"""A YAML text as a tree that remembers its lines: every scalar stays text, and the work is bounded.

Own composer over PyYAML's events, because the stock one resolves types, expands aliases and keeps the last
of two equal keys in silence. Here a repeated key, an alias, a tag and a second document are faults.
"""

import re
from collections.abc import Iterator

from msgspec import Struct, field

from jobsheets.errors import InputError, Problem

MAX_BYTES = 256 * 1024
MAX_DEPTH = 16
MAX_NODES = 20_000
CONTROL = r"[\x00-\x08\x0b\x0c\x0e-\x1f]"  # all but tab and the ends of lines


class Text(Struct):
    value: str
    line: int
    file: str = ""  # "" where the tree is of one file alone


class Sequence(Struct):
    items: list["Node"]
    line: int
    file: str = ""


class Mapping(Struct):
    entries: dict[str, "Node"]
    line: int
    key_lines: dict[str, int] = field(default_factory=dict)
    file: str = ""


Node = Text | Sequence | Mapping


def _fault(file: str, line: int, found: str, wrong: str, right: str) -> Problem:
    return Problem(file=file, line=line, field="", found=found, wrong=wrong, right=right)


def decode(raw: bytes, file: str) -> str:
    """Text of a file of the maker's, or a clear refusal of what is no text.

    Raises:
        InputError: too big, not UTF-8, or holding characters that no recipe needs.
    """
    if len(raw) > MAX_BYTES:
        raise InputError(
            (_fault(file, 0, f"{len(raw)} bytes or more", "too big a file", f"at most {MAX_BYTES} bytes"),)
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as exc:
        line = raw[: exc.start].count(b"\n") + 1
        raise InputError(
            (
                _fault(
                    file,
                    line,
                    "",
                    "not a text file (bytes that are not UTF-8)",
                    "a YAML text, saved as UTF-8",
                ),
            )
        ) from None
    bad = re.search(CONTROL, text)
    if bad is not None:
        line = text.count("\n", 0, bad.start()) + 1
        raise InputError(
            (
                _fault(
                    file,
                    line,
                    repr(bad[0])[1:-1],
                    "a control character",
                    "plain text without control characters",
                ),
            )
        )
    return text


def parse(text: str, file: str) -> Mapping:
    """The tree of one YAML document whose top is a mapping.

    Args:
        text: the document.
        file: its name, for the faults.

    Raises:
        InputError: every fault that the reader can tell before it loses the thread.
    """
    composer = _Composer(file)
    top = composer.compose(text)
    if not isinstance(top, Mapping):
        composer.problems.append(
            _fault(
                file,
                1,
                "" if top is None else _kind(top),
                "not a mapping of names to values",
                "lines such as name: value",
            )
        )
    if composer.problems:
        raise InputError(tuple(composer.problems))
    assert isinstance(top, Mapping)
    return top


def _kind(node: Node) -> str:
    return {"Text": "a single value", "Sequence": "a list", "Mapping": "a mapping"}[type(node).__name__]


class _Composer:
    """Builds the tree from parser events on a stack of its own: deep nesting cannot exhaust Python's."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []
        self.nodes = 0

    def compose(self, text: str) -> Node | None:
        import yaml

        loader: type = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
        try:
            return self._build(yaml.parse(text, Loader=loader))
        except yaml.MarkedYAMLError as exc:
            mark = exc.problem_mark or exc.context_mark
            line = mark.line + 1 if mark else 1
            what = " ".join(str(exc.problem or exc.context or "unreadable").split())
            if "nesting" in what:  # the scanner looks ahead and may give up before our own bound is met
                raise self._stop(line, "", "nested too deep", f"at most {MAX_DEPTH} levels") from None
            raise InputError(
                (
                    *self.problems,
                    _fault(
                        self.file, line, what, "not readable as YAML", "name: value, two spaces per level"
                    ),
                ),
            ) from None
        except yaml.YAMLError as exc:
            raise InputError(
                (
                    *self.problems,
                    _fault(self.file, 1, str(exc).splitlines()[0], "not readable as YAML", "a YAML text"),
                ),
            ) from None

    def _stop(self, line: int, found: str, wrong: str, right: str) -> InputError:
        return InputError((*self.problems, _fault(self.file, line, found, wrong, right)))

    def _build(self, events: Iterator[object]) -> Node | None:
        top: Node | None = None
        stack: list[tuple[Sequence | Mapping, list[tuple[str, int]]]] = []
        for event in events:
            name = type(event).__name__
            mark = getattr(event, "start_mark", None)
            line = mark.line + 1 if mark else 1
            if name == "DocumentStartEvent" and top is not None:
                raise self._stop(line, "---", "a second document in one file", "one document a file")
            if name == "AliasEvent" or (getattr(event, "anchor", None) is not None):
                raise self._stop(
                    line,
                    f"{'*' if name == 'AliasEvent' else '&'}{getattr(event, 'anchor', '')}",
                    "an anchor or alias",
                    "the value written out again",
                )
            if name in ("SequenceEndEvent", "MappingEndEvent"):
                stack.pop()
                continue
            if name not in ("ScalarEvent", "SequenceStartEvent", "MappingStartEvent"):
                continue
            if getattr(event, "tag", None) not in (None, "!"):
                raise self._stop(line, str(getattr(event, "tag", "")), "a tag", "a plain value")
            self.nodes += 1
            if self.nodes > MAX_NODES:
                raise self._stop(line, "", "too many values in one file", f"at most {MAX_NODES}")
            node = self._node(name, event, line)
            if stack:
                self._put(stack[-1], node, line)
            else:
                top = node
            if not isinstance(node, Text):
                if len(stack) >= MAX_DEPTH:
                    raise self._stop(line, "", "nested too deep", f"at most {MAX_DEPTH} levels")
                stack.append((node, []))
        return top

    def _node(self, name: str, event: object, line: int) -> Node:
        if name == "ScalarEvent":
            return Text(str(getattr(event, "value", "")), line, self.file)
        if name == "SequenceStartEvent":
            return Sequence([], line, self.file)
        return Mapping({}, line, file=self.file)

    def _put(self, holder: tuple[Sequence | Mapping, list[tuple[str, int]]], node: Node, line: int) -> None:
        parent, pending = holder
        if isinstance(parent, Sequence):
            parent.items.append(node)
            return
        if not pending:
            if not isinstance(node, Text):
                raise self._stop(line, "", "a name that is not plain text", "name: value")
            pending.append((node.value, line))
            return
        key, key_line = pending.pop()
        if key in parent.entries:
            self.problems.append(
                Problem(
                    file=self.file,
                    line=key_line,
                    field=key,
                    found=key,
                    wrong="a name given twice",
                    right=f"it once; it stands already on line {parent.key_lines[key]}",
                )
            )
            return
        parent.entries[key] = node
        parent.key_lines[key] = key_line
