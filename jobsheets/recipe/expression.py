"""Formulas of a recipe: `neck - 1 mm`, `max(rod / 2, major(thread) + 0.08 in)`; no code is run.

Text becomes tokens, tokens a tree; `evaluate` checks the tree's units and works it out. Lengths carry their
unit in the text and are mm in the tree, angles degrees, `65 %` is 0.65.
"""

import re
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple

from jobsheets import units
from jobsheets.recipe import lookups
from jobsheets.standards.threads import Thread
from jobsheets.units.text import tidy

MAX_TOKENS = 60
MAX_DEPTH = 20

Value = float | bool | str | Thread


class Kind(StrEnum):
    """What a value is; the words stand in messages."""

    LENGTH = "a length"
    ANGLE = "an angle"
    NUMBER = "a number"
    THREAD = "a thread"
    FLAG = "yes or no"
    WORD = "a word"


class Literal(NamedTuple):
    kind: Kind
    value: Value
    text: str


class Name(NamedTuple):
    name: str


class Unary(NamedTuple):
    sign: str  # "-", "not"
    of: "Tree"


class Binary(NamedTuple):
    sign: str
    left: "Tree"
    right: "Tree"


class Call(NamedTuple):
    name: str
    args: tuple["Tree", ...]


Tree = Literal | Name | Unary | Binary | Call

NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*", re.ASCII)
_NUMBER = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_UNITS = "mm|inches|inch|in|thou|cm"
_TOKEN = re.compile(
    rf"""\s*(?:
    (?P<length>(?:(?:[0-9]+[-\ ])?[0-9]+/[0-9]+|{_NUMBER})\ ?(?:(?:{_UNITS})\b|"))
  | (?P<angle>{_NUMBER}\ ?(?:deg\b|°))
  | (?P<share>{_NUMBER}\ ?%)
  | (?P<number>{_NUMBER})
  | (?P<name>[A-Za-z_][A-Za-z0-9_]*)
  | '(?P<word>[^']*)'
  | (?P<sign><=|>=|==|!=|[-+*/()<>,])
  )""",
    re.VERBOSE | re.ASCII,
)
# A second letter or figure right behind a number or unit is a slip such as 3in4 or 2x, not two tokens.
_RUN_ON = re.compile(r"[A-Za-z0-9_.]")

LEVELS: tuple[tuple[str, ...], ...] = (
    ("or",),
    ("and",),
    ("not",),
    ("<", "<=", ">", ">=", "==", "!="),
    ("+", "-"),
    ("*", "/"),
)
_WORDS = ("and", "or", "not")
_NOT_LEVEL, _COMPARE_LEVEL = 2, 3


class _Token(NamedTuple):
    kind: str
    text: str


@lru_cache(
    maxsize=512
)  # the same text is read when it is checked, when it is used and when a rule seeks a cure
def parse(text: str) -> Tree:
    """Tree of a formula.

    Args:
        text: at most 200 characters, 60 tokens, 20 levels deep.

    Raises:
        ValueError: not a formula; the message says what is wrong and, behind "; want ", what would be right.
    """
    tokens = _tokens(tidy(text))
    reader = _Reader(tokens)
    tree = reader.level(0, 1)
    if reader.ahead is not None:
        if reader.ahead.text == "," and not isinstance(tree, Call):
            raise ValueError("a comma in a number; want a point, such as 9.5 mm")
        raise ValueError(f"{reader.ahead.text!r} where the formula should end; want {_AFTER_VALUE}")
    return tree


_AFTER_VALUE = "one of + - * / and a value, or nothing more"


def names(tree: Tree) -> tuple[str, ...]:
    """Names of inputs that a formula uses, each once, in the order of the text."""
    return tuple(dict.fromkeys(_names(tree)))


def _names(tree: Tree) -> tuple[str, ...]:
    match tree:
        case Literal():
            return ()
        case Name(name):
            return (name,)
        case Unary(_, of):
            return _names(of)
        case Binary(_, left, right):
            return _names(left) + _names(right)
        case Call(_, args):
            return tuple(name for arg in args for name in _names(arg))


def _tokens(text: str) -> list[_Token]:
    found: list[_Token] = []
    at = 0
    end = len(text.rstrip())
    while at < end:
        m = _TOKEN.match(text, at, end)
        if m is None:
            raise ValueError(f"{text[at:end].strip()[:12]!r} cannot be read; want {_WANTED}")
        kind = m.lastgroup or ""
        stop = m.end()
        if kind in ("length", "angle", "share", "number") and stop < end and _RUN_ON.match(text, stop):
            raise ValueError(f"{m[0].strip() + text[stop:end].split()[0]!r} cannot be read; want {_WANTED}")
        found.append(_Token(kind, m[kind]))
        if len(found) > MAX_TOKENS:
            raise ValueError(f"a formula of more than {MAX_TOKENS} parts; want it split over several inputs")
        at = stop
    return found


_WANTED = "lengths with their unit (3/8 in, 2 mm), angles (45 deg), numbers, names of inputs and + - * / ( )"


class _Reader:
    """Precedence parser: one level of `LEVELS` at a time, loosest first."""

    def __init__(self, tokens: list[_Token]) -> None:
        self.tokens = tokens
        self.at = 0

    @property
    def ahead(self) -> _Token | None:
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def take(self, *signs: str) -> str | None:
        """The next token if it is one of `signs`; it is then behind us."""
        token = self.ahead
        if token is None or token.text not in signs or token.kind not in ("sign", "name"):
            return None
        self.at += 1
        return token.text

    def level(self, number: int, depth: int) -> Tree:
        if depth > MAX_DEPTH:
            raise ValueError(f"brackets or signs nested deeper than {MAX_DEPTH}; want a simpler formula")
        if number == len(LEVELS):
            return self.signed(depth)
        if number == _NOT_LEVEL:
            if self.take("not"):
                return Unary("not", self.level(_NOT_LEVEL, depth + 1))
            return self.level(number + 1, depth)
        left = self.level(number + 1, depth)
        while sign := self.take(*LEVELS[number]):
            right = self.level(number + 1, depth)
            left = Binary(sign, left, right)
            if number == _COMPARE_LEVEL and self.take(*LEVELS[number]):
                raise ValueError("two comparisons in a row; want a < b and b < c")
        return left

    def signed(self, depth: int) -> Tree:
        if depth > MAX_DEPTH:
            raise ValueError(f"brackets or signs nested deeper than {MAX_DEPTH}; want a simpler formula")
        if self.take("-"):
            return Unary("-", self.signed(depth + 1))
        if self.take("+"):
            return self.signed(depth + 1)
        return self.single(depth)

    def single(self, depth: int) -> Tree:
        token = self.ahead
        if token is None:
            raise ValueError(f"the formula breaks off; want {_WANTED}")
        self.at += 1
        if token.kind == "sign":
            if token.text != "(":
                raise ValueError(f"{token.text!r} where a value should stand; want {_WANTED}")
            tree = self.level(0, depth + 1)
            if not self.take(")"):
                raise ValueError("a bracket that is not closed; want ) at its end")
            return tree
        if token.kind == "name":
            return self.named(token.text, depth)
        return _literal(token)

    def named(self, name: str, depth: int) -> Tree:
        if name in _WORDS:
            raise ValueError(f"{name!r} where a value should stand; want {_WANTED}")
        if not self.take("("):
            return Name(name)
        args: list[Tree] = []
        if not self.take(")"):
            args.append(self.level(0, depth + 1))
            while self.take(","):
                args.append(self.level(0, depth + 1))
            if not self.take(")"):
                raise ValueError(f"{name}( is not closed; want ) behind its last value")
        return Call(name, tuple(args))


def _literal(token: _Token) -> Literal:
    text = token.text
    match token.kind:
        case "length":
            return Literal(Kind.LENGTH, units.millimetres(text), text)
        case "angle":
            return Literal(Kind.ANGLE, units.degrees(text), text)
        case "share":
            return Literal(Kind.NUMBER, float(text.rstrip("%")) / 100.0, text)
        case "word":
            return _word(text)
        case _:
            return Literal(Kind.NUMBER, float(text), text)


def _word(text: str) -> Literal:
    """Quoted text: a thread where it reads as one, else a word to compare a choice with."""
    try:
        return Literal(Kind.THREAD, lookups.thread(text), text)
    except ValueError:
        return Literal(Kind.WORD, text, text)
