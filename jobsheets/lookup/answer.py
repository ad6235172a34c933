"""What a look-up answers: values with their unit and source, or what to ask instead. docs/lookup.md."""

from collections.abc import Iterable

from jobsheets.value import Frozen

COMPUTED = "computed"  # `seen` of a value that a formula gave
LENGTH = "mm"


class Value(Frozen):
    """One line of an answer."""

    name: str
    value: float | str
    unit: str = ""  # "mm", "mm2", "deg", "%", "MPa"; empty for words and counts
    how: str = ""  # formula or rule in short; empty where the value is printed as it is
    source: str
    seen: str  # "page", "memory", "computed"; "owned" for a tool out of a shop file


class Group(Frozen):
    title: str
    values: tuple[Value, ...]


class Answer(Frozen):
    kind: str
    name: str  # as the tables write it
    title: str
    groups: tuple[Group, ...]
    notes: tuple[str, ...] = ()

    def values(self) -> Iterable[Value]:
        for group in self.groups:
            yield from group.values


class Miss(Frozen):
    """A name that the tables do not hold. Never an extrapolation: what is near, and how to tell it apart."""

    kind: str
    asked: str
    wrong: str
    near: tuple[str, ...]  # names that would be found, nearest first
    tell: str = ""  # the measurement that tells the first two apart


def from_error(kind: str, asked: str, error: ValueError, near: Iterable[str] = (), tell: str = "") -> Miss:
    """What a table said about a name it does not hold, with names that it does."""
    return Miss(kind=kind, asked=asked, wrong=str(error), near=tuple(near), tell=tell)
