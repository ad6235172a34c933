"""The gear plate of a lathe held against its leadscrew, row by row, as text.

Units    threads an inch or mm, as each row of the plate is printed.
Source   shop/gear_chart.py: each row implies a leadscrew; docs/screwcutting.md, "Change gears".
"""

from textwrap import wrap

from jobsheets.lookup.gears_chart import MM_PER_INCH, pairs, said
from jobsheets.shop import gear_chart
from jobsheets.shop.gear_chart import Verdict
from jobsheets.shop.shop import Shop

WIDE = 96  # columns
HEAD = ("plate says", "gears", "needs a screw of", "cuts on yours", "off", "verdict")
SAME = 2.0 * gear_chart.NEAR  # share; leadscrews nearer to each other than this count as one


def text(shop: Shop) -> str:
    """Each row of the plate with the leadscrew that it needs and what it cuts, then what that comes to.

    Args:
        shop: whose lathe, with the rows of its plate under `leadscrew: chart:`.

    Raises:
        ValueError: the shop file has no such rows.
    """
    screw = shop.lathe.leadscrew
    if screw is None or not screw.chart:
        raise ValueError("the shop file has no gear plate; want its rows under leadscrew: chart:")
    verdicts = gear_chart.audit(screw)
    rows = [HEAD, *(_row(verdict) for verdict in verdicts)]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    lines = [f"Gear plate of the {shop.lathe.name}; leadscrew as counted: {said(screw.pitch)}", ""]
    lines += [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    ]
    lines += ["", *(line for one in _sentences(verdicts, screw.pitch) for line in wrap(one, WIDE))]
    return "\n".join(lines) + "\n"


def _row(verdict: Verdict) -> tuple[str, ...]:
    row = verdict.row
    inch = row.cuts.endswith("tpi")
    cuts = f"{MM_PER_INCH / verdict.cuts:.2f} tpi" if inch else f"{verdict.cuts:.4f} mm"
    exact = abs(verdict.error) < 1e-9
    word = "right" if exact else "near, as a chart may be" if verdict.good else "WRONG"
    return (
        row.cuts,
        pairs(row.gears),
        said(verdict.implies),
        cuts,
        "" if exact else f"{verdict.error:+.2%}",
        word,
    )


def _sentences(verdicts: tuple[Verdict, ...], pitch: float) -> list[str]:
    """Whether the plate agrees with itself, and with the screw that is there."""
    screws = gear_chart.implied(verdicts)
    wrong = [verdict.row.cuts for verdict in verdicts if not verdict.good]
    found = []
    if len(screws) > 1:
        needs = ", ".join(f"{_rows(count)} one of {said(size)}" for size, count in screws)
        found.append(
            f"The plate contradicts itself: a lathe has one leadscrew, and its rows need {len(screws)}: "
            f"{needs}. They cannot all be right on any lathe."
        )
    if not any(abs(size / pitch - 1.0) <= SAME for size, _ in screws):
        found.append(
            f"No row needs a screw of {said(pitch)}: count the threads of the leadscrew again, over as long "
            "a piece as a rule reaches."
        )
    if wrong:
        found.append(
            f"Do not use: {', '.join(wrong)}. 'jobsheets chart gears' works out trains for your screw."
        )
    return found or [f"Every row agrees with a leadscrew of {said(pitch)}."]


def _rows(count: int) -> str:
    return f"{count} row{'s need' if count > 1 else ' needs'}"
