"""Published cutting data: one printed row, and the range that several rows make.

Units    those of the range: m/min, mm/rev, mm/tooth or mm.
Sources  each row names its own; a range keeps its rows, and the rows left out with the reason.
Scope    no row, no number: where nothing was found the answer is `NoData`, never a guess.
"""

from collections.abc import Sequence

from jobsheets.value import Frozen

NOT_FOUND = "no published figure found"


class PublishedRow(Frozen):
    """What one source prints: a range, one typical value, or both."""

    low: float
    high: float
    typical: float  # as printed, else the middle of low and high
    source: str
    seen: str  # "page" or "memory"
    note: str


class PublishedRange(Frozen):
    """Lowest, median and highest of the sources for one material, operation and tool material."""

    cutting_id: str
    operation: str
    tool: str
    unit: str
    low: float
    median: float  # of the typical values of the rows
    high: float
    rows: tuple[PublishedRow, ...]
    excluded: tuple[PublishedRow, ...] = ()  # each says why in its note
    basis: str = ""  # "0.5 x turn rough" where a rule was applied to figures of another operation
    basis_source: str = ""
    basis_seen: str = "page"
    note: str = ""

    @property
    def count(self) -> int:
        return len(self.rows)

    @property
    def sources(self) -> tuple[str, ...]:
        """Each source once, the rule that was applied last."""
        return tuple(dict.fromkeys(filter(None, (*(row.source for row in self.rows), self.basis_source))))

    @property
    def seen(self) -> str:
        """Set to "memory" as soon as one of the figures is from memory."""
        return "memory" if "memory" in (self.basis_seen, *(row.seen for row in self.rows)) else "page"

    @property
    def spread(self) -> float:
        """Highest over lowest: how far the sources disagree."""
        return self.high / self.low


class NoData(Frozen):
    """Nothing was found. The maker's own figure is wanted."""

    cutting_id: str
    operation: str
    tool: str
    instead: str = ""  # an operation on the same material that has figures, to start from with care
    excluded: tuple[PublishedRow, ...] = ()
    note: str = NOT_FOUND


def row_of(cells: dict[str, str], factor: float = 1.0, take_low: bool = False) -> PublishedRow:
    """Row of a table with columns low, typical and high, of which one pair or one may be empty.

    Args:
        cells: as the loader gives them.
        factor: on all values, as a row asks that holds in full only from some size.
        take_low: the source bids the harder metals keep to the low end.
    """
    printed = [float(cells[name]) * factor for name in ("low", "typical", "high") if cells[name]]
    low, high = min(printed), max(printed)
    typical = float(cells["typical"]) * factor if cells["typical"] else (low + high) / 2.0
    return PublishedRow(
        low=low,
        high=high,
        typical=low if take_low else typical,
        source=cells["source"],
        seen=cells["seen"],
        note=cells["note"],
    )


def combine(
    cutting_id: str,
    operation: str,
    tool: str,
    unit: str,
    rows: Sequence[PublishedRow],
    excluded: Sequence[PublishedRow] = (),
) -> PublishedRange:
    """Range of at least one row."""
    return PublishedRange(
        cutting_id=cutting_id,
        operation=operation,
        tool=tool,
        unit=unit,
        low=min(row.low for row in rows),
        median=_median([row.typical for row in rows]),
        high=max(row.high for row in rows),
        rows=tuple(rows),
        excluded=tuple(excluded),
        note="; ".join(dict.fromkeys(row.note for row in rows if row.note)),
    )


def derate(base: PublishedRange, operation: str, rule: dict[str, str]) -> PublishedRange:
    """Range of an operation that takes a share of another's: a row of cutting_derating.csv applied."""
    low, default, high = (float(rule[f"factor_{name}"]) for name in ("low", "default", "high"))
    return base.replaced(
        operation=operation,
        low=base.low * low,
        median=base.median * default,
        high=base.high * high,
        basis=f"{default:g} x {base.operation}",
        basis_source=rule["source"],
        basis_seen=rule["seen"],
        note="; ".join(filter(None, (rule["why"], base.note))),
    )


def _median(values: list[float]) -> float:
    """Middle value; the statistics module of Python would cost every cold start its import."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2.0
