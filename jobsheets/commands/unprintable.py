"""Finds the line of a maker's file that holds a letter the face of the sheet lacks."""

from collections.abc import Iterator
from pathlib import Path

from jobsheets import document, shipped
from jobsheets.document import Mapping, Node, Sequence, Text
from jobsheets.errors import InputError, Problem
from jobsheets.recipe import source
from jobsheets.sheet import face


def blame(recipe: str, shop: str | None) -> None:
    """Look for letters that cannot be printed in a recipe (with what it is based on) and a shop file.

    Raises:
        InputError: there are some: each text with its line.
    """
    path = shipped.find_recipe(recipe)
    trees = [source.read(path, shipped.folder())]
    if shop is not None:
        trees.append(document.parse(document.decode(Path(shop).read_bytes(), shop), shop))
    problems = [p for tree in trees for text in _texts(tree) for p in _problem(text, str(path))]
    if problems:
        raise InputError(tuple(problems))


def _texts(node: Node) -> Iterator[Text]:
    match node:
        case Text():
            yield node
        case Sequence():
            for item in node.items:
                yield from _texts(item)
        case Mapping():
            for item in node.entries.values():
                yield from _texts(item)


def _problem(text: Text, file: str) -> Iterator[Problem]:
    try:
        face.check(text.value)
    except ValueError as exc:
        wrong = str(exc).partition(" in ")[0]
        right = "letters of the Latin alphabet, digits and the usual marks"
        yield Problem(
            file=text.file or file, line=text.line, field="", found=text.value, wrong=wrong, right=right
        )
