"""Faults of meaning, gathered while a recipe is resolved."""

from collections.abc import Callable
from typing import TypeVar

from jobsheets.document import Node, Text
from jobsheets.errors import InputError, Problem

T = TypeVar("T")


class Faults:
    """Keeps every fault, so that all are told at once."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def add(self, node: Node, field: str, wrong: str, right: str, found: str | None = None) -> None:
        """Keep a fault at the line of `node`."""
        if found is None:
            found = node.value if isinstance(node, Text) else ""
        self.problems.append(
            Problem(
                file=node.file or self.file,
                line=node.line,
                field=field,
                found=found,
                wrong=wrong,
                right=right,
            )
        )

    def given(self, option: str, name: str, found: str, wrong: str, right: str) -> None:
        """Keep a fault of the command line."""
        self.problems.append(Problem(file=option, line=0, field=name, found=found, wrong=wrong, right=right))

    def tell(self, node: Node, field: str, error: ValueError) -> None:
        """Keep what a reader of text or a formula found wrong."""
        wrong, right = parted(error)
        self.add(node, field, wrong, right)

    def attempt(self, node: Node, field: str, work: Callable[[], T]) -> T | None:
        """What `work` yields; None, and the fault kept, where it raises ValueError."""
        try:
            return work()
        except ValueError as error:
            self.tell(node, field, error)
            return None

    def stop(self) -> None:
        """Raise if anything was found.

        Raises:
            InputError: all that was found, each once, in the order of the files.
        """
        if self.problems:
            known = dict.fromkeys(self.problems)
            raise InputError(tuple(sorted(known, key=lambda p: (p.file, p.line))))


def parted(error: ValueError) -> tuple[str, str]:
    """What is wrong and what would be right, of a message that has both."""
    wrong, _, right = str(error).partition("; want ")
    return wrong, right or "a value that suits"
