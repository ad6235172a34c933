"""The embedded face: how wide words are, how they break, and which characters it has.

Units    widths and heights in mm, sizes of type in points (1/72 in).
Source   the advances were measured from the font files by face/build.py and stand in face/widths.txt,
         so that layout needs no PDF library. docs/sheet-face.md tells where the face comes from.
"""

import re
import unicodedata
from functools import cache, lru_cache
from pathlib import Path

FOLDER = Path(__file__).parent / "face"
FILES = {False: FOLDER / "jobsheet-text.ttf", True: FOLDER / "jobsheet-text-bold.ttf"}  # by "bold"
NAMES = {False: "JobsheetText", True: "JobsheetText-Bold"}

MM_PER_POINT = 25.4 / 72.0
CAPITAL = 0.75  # height of a capital as a share of the size; capitals are drawn 1 % taller
ASCENT = 0.81  # top of the tallest letter above the baseline; accents on capitals rise to 0.965
DESCENT = 0.25
LINE = 1.3  # usual line spacing as a share of the size: 173 % of the capitals less the room below

NOTE_CAPITALS = 2.8  # mm, least at 700 mm reading distance (docs/sheet-face.md)
DIAL_CAPITALS = 4.2  # mm, wanted for numbers that are set on a dial

_BREAK = re.compile(r"(?<=[-/–])(?=\w)")  # a long word may part after a hyphen or a stroke


@cache
def _advances(bold: bool) -> dict[str, int]:
    """Advance of each character in thousandths of the size."""
    column = 2 if bold else 1
    rows = (line.split() for line in (FOLDER / "widths.txt").read_text(encoding="ascii").splitlines())
    return {chr(int(row[0], 16)): int(row[column]) for row in rows}


@lru_cache(maxsize=8192)
def _thousandths(text: str, bold: bool) -> int:
    try:
        return sum(map(_advances(bold).__getitem__, text))
    except KeyError:
        check(text)
        raise


def check(text: str) -> None:
    """Refuse a text that holds a character the face lacks.

    Args:
        text: one line of text.

    Raises:
        ValueError: names the character; on paper it would be a blank or an empty box.
    """
    have = _advances(False)
    for char in text:
        if char not in have:
            name = unicodedata.name(char, "a control character")
            raise ValueError(
                f"no glyph for {char!r} (U+{ord(char):04X}, {name}) in {text!r}: use another "
                "character, or add it to face/build.py and build the face again"
            )


def width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of one line in mm at `size` points. Raises ValueError as `check` does."""
    return _thousandths(text, bold) * size * (MM_PER_POINT / 1000.0)


def size_for_capitals(height: float) -> float:
    """Size in points whose capitals are `height` mm high."""
    return height / (MM_PER_POINT * CAPITAL)


def capitals(size: float) -> float:
    """Height of the capitals in mm at `size` points."""
    return size * MM_PER_POINT * CAPITAL


def line_height(size: float) -> float:
    """Usual distance from baseline to baseline in mm at `size` points."""
    return size * MM_PER_POINT * LINE


def fit(text: str, room: float, size: float, *, bold: bool = False, least: float = 0.0) -> float:
    """Largest size not above `size` at which the text fits.

    Args:
        text: one line.
        room: width to fill, mm.
        size: size wanted, points.
        bold: weight.
        least: smallest size that may be used, points.

    Returns:
        Size in points, rounded down to a tenth when it had to shrink.

    Raises:
        ValueError: the text does not fit even at `least`, or holds a character the face lacks.
    """
    wide = width(text, size, bold=bold)
    if wide <= room:
        return size
    fitting = int(10.0 * size * room / wide) / 10.0
    if fitting < least or fitting <= 0.0:
        raise ValueError(f"{text!r} needs {wide:.1f} mm at {size:g} pt and has {room:.1f} mm: shorten it")
    return fitting


def wrap(text: str, room: float, size: float, *, bold: bool = False) -> list[str]:
    """Break a text into lines that fit.

    A new line in the text stays; a word wider than the room parts after a hyphen or a stroke, else anywhere.

    Args:
        text: any text; runs of blanks count as one.
        room: width of a line, mm.
        size: size, points.
        bold: weight.

    Returns:
        Lines without blanks at their ends; one empty line for an empty text.

    Raises:
        ValueError: a character the face lacks, or a room narrower than one character.
    """
    limit = room / (size * MM_PER_POINT / 1000.0)
    lines: list[str] = []
    for paragraph in text.split("\n"):
        lines.extend(_wrapped(paragraph, limit, bold))
    return lines


def _wrapped(paragraph: str, limit: float, bold: bool) -> list[str]:
    blank = _advances(bold)[" "]
    lines: list[str] = []
    line: list[str] = []
    used = 0
    for word in paragraph.split():
        wide = _thousandths(word, bold)
        if line and used + blank + wide <= limit:
            line.append(word)
            used += blank + wide
            continue
        if line:
            lines.append(" ".join(line))
        pieces = [word] if wide <= limit else _parted(word, limit, bold)
        lines.extend(pieces[:-1])
        line, used = [pieces[-1]], _thousandths(pieces[-1], bold)
    return [*lines, " ".join(line)]


def _parted(word: str, limit: float, bold: bool) -> list[str]:
    """Pieces of a word that is wider than a line."""
    pieces = [""]
    for part in _BREAK.split(word):
        units = [part] if _thousandths(part, bold) <= limit else list(part)
        for unit in units:
            if _thousandths(unit, bold) > limit:
                raise ValueError(f"no room for even {unit!r} of {word!r}: widen the column")
            if _thousandths(pieces[-1] + unit, bold) <= limit:
                pieces[-1] += unit
            else:
                pieces.append(unit)
    return pieces
