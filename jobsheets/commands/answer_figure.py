"""One figure explained: the number, and all that made it."""

from textwrap import wrap

from jobsheets.commands.terminal import BOLD, WIDE, painted
from jobsheets.figure import Figure, Input, Spread
from jobsheets.sheet.view_front import figure as shown
from jobsheets.sheet.view_front import measure
from jobsheets.sheet.view_numbers import Numbers

LEAD = 14  # columns of the word before a line
BAR = 50  # columns of the bar that shows the spread
METRIC = Numbers(system="mm")  # formulas work in mm whatever the sheet prints


def figure(value: Figure, numbers: Numbers) -> str:
    """Formula, inputs, wanted and chosen, the ruling limit, source, spread, and what would change it."""
    chosen = measure(value.value, value.unit, numbers)
    lines = [painted(f"{value.id}  {value.name}: {chosen}", BOLD)]
    if value.wanted is not None:
        wanted = measure(value.wanted, value.unit, numbers)
        lines += _said("wanted", wanted if wanted == chosen else f"{wanted}; {chosen} can be had")
    lines += _said("formula", value.formula)
    for k, one in enumerate(value.inputs):
        lines += _said("" if k else "with", f"{one.name} = {_input(one, numbers)}")
    lines += _said("ruled by", value.ruled_by)
    lines += _said("source", value.source)
    if value.spread is not None:
        view = shown(value, numbers)
        lines += _said("published", view.spread)
        if view.marks is not None:
            lines += _bar(value.spread, view.marks[3], numbers)
    lines += _said("changes it", value.changes)
    return "\n".join(lines) + "\n"


def _said(lead: str, text: str) -> list[str]:
    return wrap(text, WIDE, initial_indent=f"{lead:<{LEAD}}", subsequent_indent=" " * LEAD)


def _input(one: Input, numbers: Numbers) -> str:
    if isinstance(one.value, str):
        return one.value
    worked = measure(one.value, one.unit, METRIC)
    printed = measure(one.value, one.unit, numbers)
    return worked if worked == printed else f"{worked} ({printed})"


def _bar(spread: Spread, taken: float, numbers: Numbers) -> list[str]:
    """The sources from lowest to highest on one line: `[` lowest, `|` median, `]` highest, `o` taken here."""
    least, most = min(spread.low, taken), max(spread.high, taken)
    if most <= least:
        return []

    def column(value: float) -> int:
        return round((BAR - 1) * (value - least) / (most - least))

    marks = [" "] * BAR
    for k in range(column(spread.low), column(spread.high)):
        marks[k] = "-"
    for value, mark in ((spread.low, "["), (spread.high, "]"), (spread.median, "|"), (taken, "o")):
        marks[column(value)] = mark
    low, median, high, here = (
        measure(v, spread.unit, numbers) for v in (spread.low, spread.median, spread.high, taken)
    )
    pad = " " * LEAD
    return [
        pad + "".join(marks).rstrip(),
        f"{pad}[ lowest {low}  | median {median}  ] highest {high}  o taken {here}",
    ]
