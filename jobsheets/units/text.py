"""What every notation shares: tidy text, plain decimals, bounds, and a near spelling.

Patterns stay text: `re` compiles one at its first use and keeps it, so that importing costs nothing.
"""

import re
from collections.abc import Iterable
from math import isfinite

MOST_TEXT = 200
MOST_MM = 1e6  # a kilometre: beyond it lies a slip of the pen
MM_PER_INCH = 25.4
DECIMAL = r"(?:[0-9]{1,20}(?:[.,][0-9]{1,20})?|[.,][0-9]{1,20})"

_THOUSANDS = r"[1-9][0-9]{0,2},[0-9]{3}"
_SIGNS = str.maketrans({"\u2212": "-", "\u2013": "-", "×": "x"})  # minus sign, en dash


def tidy(text: str) -> str:
    """One space for any white space, none at the ends; a hyphen for a minus sign, x for ×.

    Raises:
        ValueError: longer than 200 characters, or empty.
    """
    if len(text) > MOST_TEXT:
        raise ValueError(f"a text of {len(text)} characters; want at most {MOST_TEXT}")
    plain = " ".join(text.translate(_SIGNS).split())
    if not plain:
        raise ValueError("nothing written; want a value")
    return plain


def decimal(text: str) -> tuple[int, int]:
    """A decimal as numerator and denominator, so that the one division that follows is rounded once.

    Args:
        text: what `DECIMAL` matches, with point or comma.

    Raises:
        ValueError: a comma that may part thousands or decimals.
    """
    if re.fullmatch(_THOUSANDS, text):
        plain = text.replace(",", "")
        raise ValueError(
            f"a comma that may part thousands or decimals; want {text.replace(',', '.')} or {plain}"
        )
    whole, _, part = text.replace(",", ".").partition(".")
    return int(whole + part), 10 ** len(part)


def number(text: str) -> float:
    """A decimal as a float."""
    top, below = decimal(text)
    return top / below


def checked(mm: float) -> float:
    """A length that is a number of believable size, mm.

    Raises:
        ValueError: not finite, or above 1e6 mm.
    """
    if not isfinite(mm):
        raise ValueError("not a finite length; want a number")
    if abs(mm) > MOST_MM:
        raise ValueError(f"a length of {abs(mm):.3g} mm; want at most {MOST_MM:.0f} mm")
    return mm + 0.0  # no negative zero


def nearest(name: str, choices: Iterable[str], n: int = 3) -> tuple[str, ...]:
    """At most `n` choices that are spelled like `name`, likeliest first."""
    import difflib  # wanted only when something was refused

    return tuple(difflib.get_close_matches(name, tuple(choices), n=n, cutoff=0.5))
