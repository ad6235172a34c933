"""Findings as lines of a terminal."""

from collections import Counter
from collections.abc import Iterable
from textwrap import wrap

from jobsheets.commands.terminal import BOLD, RED, WIDE, YELLOW, painted
from jobsheets.finding import Finding, Severity
from jobsheets.sheet.view_numbers import Numbers

COLOURS = {Severity.STOP: RED, Severity.CAUTION: YELLOW, Severity.NOTE: BOLD}


def told(findings: Iterable[Finding], system: str, *, colour: bool = True) -> str:
    """What each finding says, why, and what would help; the gravest first.

    Args:
        findings: of one plan.
        system: "in" or "mm", for the lengths.
        colour: where the terminal has it; off for text that does not go to stdout.
    """
    order, numbers = list(Severity), Numbers(system=system)
    return "".join(_one(f, numbers, colour) for f in sorted(findings, key=lambda f: order.index(f.severity)))


def counted(findings: Iterable[Finding]) -> str:
    """How many of each kind, in words."""
    counts = Counter(f.severity for f in findings)
    parts = [f"{n} {kind}{'s' if n > 1 else ''}" for kind in Severity if (n := counts[kind])]
    return " and ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:]))) or "nothing to say"


def _one(finding: Finding, numbers: Numbers, colour: bool) -> str:
    label = f"{finding.severity.upper():<8}"
    head = painted(label, COLOURS[finding.severity]) if colour else label
    lines = wrap(f"{finding.where}: {numbers.said(finding.what)}", WIDE - 9, subsequent_indent=" " * 9)
    for lead, text in (("why ", finding.why), ("cure", finding.remedy)):
        lines += wrap(
            numbers.said(text), WIDE, initial_indent=f"         {lead}  ", subsequent_indent=" " * 15
        )
    return f"{head} " + "\n".join(lines) + "\n"
