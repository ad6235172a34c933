"""What a check says about a plan."""

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    STOP = "stop"  # scrap or injury: no sheet is printed
    CAUTION = "caution"  # printed in the box above the operations it guards
    NOTE = "note"  # printed in the margin


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    code: str  # stable; explained in docs/checks.md
    severity: Severity
    where: str  # feature id, operation id or setup id
    what: str
    why: str
    remedy: str
