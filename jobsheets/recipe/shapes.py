"""The single values of a recipe as shapes: formulas by the kind they must yield, names, limits."""

import re

from jobsheets import units
from jobsheets.fields import Field, Scalar, Shape
from jobsheets.recipe import expression, lookups
from jobsheets.recipe.expression import Kind

IDENTIFIER = r"^[a-z][a-z0-9_]{0,30}$"
STEP = r"^[a-z][a-z0-9_]{0,30}(\.[a-z][a-z0-9_]{0,30})?$"
GENERAL = ("ISO 2768-f", "ISO 2768-m", "ISO 2768-c", "ISO 2768-v")


def _matching(pattern: str, want: str) -> Scalar:
    found = re.compile(pattern)

    def grammar(text: str) -> str:
        if not found.fullmatch(text):
            raise ValueError(f"not a name; want {want}")
        return text

    return Scalar(what="a name", grammar=grammar, pattern=pattern)


def _thread(text: str) -> object:
    """A thread as written, or a formula that yields one."""
    if expression.NAME.fullmatch(text.strip()):
        return text
    try:
        return lookups.thread(text)
    except ValueError:
        if any(sign in text for sign in "(,'"):
            return expression.parse(text)
        raise


LENGTH = Scalar(what="a length with its unit, or a formula that yields one", grammar=expression.parse)
ANGLE = Scalar(what="an angle with its unit, or a formula that yields one", grammar=expression.parse)
NUMBER = Scalar(what="a number, or a formula that yields one", grammar=expression.parse)
SHARE = Scalar(what="a share such as 65 % or 0.65, or a formula that yields one", grammar=expression.parse)
CONDITION = Scalar(what="a comparison, such as neck < rod", grammar=expression.parse)
THREAD = Scalar(what="a thread such as 8-32 UNC or M5x0.8, or the input that holds one", grammar=_thread)
KINDS: dict[Scalar, Kind] = {
    LENGTH: Kind.LENGTH,
    ANGLE: Kind.ANGLE,
    NUMBER: Kind.NUMBER,
    SHARE: Kind.NUMBER,
    CONDITION: Kind.FLAG,
    THREAD: Kind.THREAD,
}

ID = _matching(IDENTIFIER, "a small letter first, then small letters, digits and _, at most 31")
STEP_NAME = _matching(STEP, "a feature such as grip, a step of one such as grip.drill, or part_off")
NAME = _matching(r"^[a-z][a-z0-9-]{0,40}$", "small letters, digits and -, such as stepped-end-nut")
TEXT = Scalar(what="a short text")
FLAG = Scalar(what="true or false", choices=("true", "false"))
LIMITS = Scalar(what="limits such as ±0.05 mm, +0.002/-0.000 in, f8 or ISO 2768-m", grammar=units.tolerance)


def need(name: str, shape: Shape, help_: str, *examples: str) -> Field:
    """A field that must be written."""
    return Field(name=name, help=help_, shape=shape, required=True, examples=examples)


def may(name: str, shape: Shape, help_: str, *examples: str) -> Field:
    """A field that may be left out; its help says what then holds."""
    return Field(name=name, help=help_, shape=shape, examples=examples)
