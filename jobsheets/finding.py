"""What a check says about a plan."""

import re
from collections.abc import Callable
from enum import StrEnum

from msgspec import Struct

_LENGTH = re.compile(r"⟨(-?\d+\.\d+)⟩")


def mm(value: float) -> str:
    """A length inside a sentence, left open until the sheet knows its unit system."""
    return f"⟨{value:.5f}⟩"


def told(text: str, say: Callable[[float], str]) -> str:
    """A sentence with its lengths written out.

    Args:
        text: with lengths put in by `mm`.
        say: from mm to text with its unit.
    """
    return _LENGTH.sub(lambda found: say(float(found.group(1))), text)


class Severity(StrEnum):
    STOP = "stop"  # scrap or injury: no sheet is printed
    CAUTION = "caution"  # printed in the box above the operations it guards
    NOTE = "note"  # printed in the margin


class Finding(Struct, frozen=True, kw_only=True):
    code: str  # stable; explained in docs/checks.md
    severity: Severity
    where: str  # feature id, operation id or setup id
    what: str  # these three may hold lengths put in by `mm`; `told` writes them out
    why: str
    remedy: str
