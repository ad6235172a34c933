"""A lathe's printed gear chart, held against its leadscrew row by row; and a chart worked out anew.

Units    mm.
Source   each row implies a leadscrew: lead over drivers / driven. One machine has one leadscrew at a time, so
         rows that imply another are wrong on it. Charts with two leadscrews in them are in print.
"""

from collections.abc import Iterable

from msgspec import Struct

from jobsheets.cutting import gear_train
from jobsheets.cutting.gear_train import Train
from jobsheets.shop.machines import ChartRow, LeadScrew

NEAR = 0.002  # share; a chart rounds to whole teeth, and its near trains are off by up to this much


class Verdict(Struct, frozen=True, kw_only=True):
    """One row of a chart, recomputed."""

    row: ChartRow
    implies: float  # leadscrew for which the row would be exact, mm
    cuts: float  # lead that it cuts on the leadscrew that is there, mm
    error: float  # share by which that is too long
    good: bool


class Line(Struct, frozen=True, kw_only=True):
    """One thread of a chart worked out from the owned gears."""

    lead: float  # mm
    train: Train | None  # best; None where nothing owned comes within 5 %


def audit(screw: LeadScrew) -> tuple[Verdict, ...]:
    """What each row of the printed chart cuts on the leadscrew as it was counted."""
    return tuple(_verdict(row, screw) for row in screw.chart)


def _verdict(row: ChartRow, screw: LeadScrew) -> Verdict:
    ratio = float(Train(gears=row.gears).ratio)
    cuts = gear_train.lead_cut(ratio, screw.pitch, screw.stud)
    error = cuts / row.lead - 1.0
    return Verdict(
        row=row,
        implies=row.lead / (ratio * screw.stud),
        cuts=cuts,
        error=error,
        good=abs(error) <= NEAR,
    )


def implied(verdicts: Iterable[Verdict]) -> tuple[tuple[float, int], ...]:
    """Leadscrews that a chart needs, mm, with the number of rows that need each; the commonest first.

    Rows whose screws differ by less than a near train does count as one.
    """
    groups: list[list[float]] = []
    for verdict in sorted(verdicts, key=lambda v: v.implies):
        if groups and verdict.implies <= groups[-1][0] * (1.0 + 2.0 * NEAR):
            groups[-1].append(verdict.implies)
        else:
            groups.append([verdict.implies])
    middles = [(sorted(group)[len(group) // 2], len(group)) for group in groups]
    return tuple(sorted(middles, key=lambda g: -g[1]))


def chart(screw: LeadScrew, leads: Iterable[float]) -> tuple[Line, ...]:
    """The best train of the owned gears for each lead, mm."""
    lines = []
    for lead in leads:
        ratio = gear_train.ratio_for(lead, screw.pitch, screw.stud)
        found = gear_train.best(ratio, screw.gears, screw.banjo)
        lines.append(Line(lead=lead, train=found[0] if found else None))
    return tuple(lines)
