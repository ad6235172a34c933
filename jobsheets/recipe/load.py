"""From the file of a recipe to the part it describes. Faults are told all at once, in two passes.

First what is written (names, notation), then what it means (units, names of inputs, sizes that cannot be).
"""

from collections.abc import Mapping as Readable
from pathlib import Path

from msgspec import Struct

from jobsheets import fields
from jobsheets.document import Mapping, Text
from jobsheets.errors import InputError
from jobsheets.part.turned import TurnedPart
from jobsheets.recipe import source
from jobsheets.recipe.inputs import declared
from jobsheets.recipe.resolve import Resolver
from jobsheets.recipe.schema import RECIPE

_NONE: Readable[str, str] = {}


class InputHelp(Struct, frozen=True, kw_only=True):
    """One input as the recipe declares it; texts as written, empty where left out."""

    name: str
    kind: str  # "a length", "a thread"
    text: str
    help: str
    least: str
    most: str
    among: tuple[str, ...]
    why: str


class Described(Struct, frozen=True, kw_only=True):
    """What a list of recipes shows of one."""

    name: str
    title: str
    system: str
    inputs: tuple[InputHelp, ...]
    mates: tuple[tuple[str, str], ...]  # name for --measured, what to measure


def load(
    path: Path,
    *,
    settings: Readable[str, str] = _NONE,
    measured: Readable[str, str] = _NONE,
    shipped: Path | None,
) -> TurnedPart:
    """The part that a recipe describes.

    Args:
        path: file of the recipe.
        settings: values of inputs that win over the recipe's own, by name, as text.
        measured: sizes of mates as measured, by name, as text.
        shipped: folder of the recipes that come with the program, as bases for others.

    Raises:
        InputError: all that is wrong, with file, line, field and what would be right.
    """
    return Resolver(_checked(path, shipped), str(path), settings, measured).part()


def describe(path: Path, *, shipped: Path | None = None) -> Described:
    """Name, title and inputs of a recipe, without working it out.

    Raises:
        InputError: the file cannot be read or is no recipe.
    """
    top = _checked(path, shipped)

    def word(node: Mapping, name: str) -> str:
        found = node.entries.get(name)
        return found.value if isinstance(found, Text) else ""

    fits = source.entries(top, "fits")
    return Described(
        name=word(top, "name"),
        title=word(top, "title"),
        system=word(top, "units") or "mm",
        inputs=tuple(
            InputHelp(
                name=one.name,
                kind=one.kind.value,
                text=one.value.value,
                help=one.help,
                least=word(one.node, "least"),
                most=word(one.node, "most"),
                among=tuple(t.value for t in one.among()),
                why=one.why,
            )
            for one in declared(top).values()
        ),
        mates=tuple((word(fit, "to"), word(fit, "ask")) for fit in fits),
    )


def _checked(path: Path, shipped: Path | None) -> Mapping:
    top = source.read(path, shipped)
    problems = fields.check(top, RECIPE, str(path))
    if problems:
        raise InputError(tuple(problems))
    return top
