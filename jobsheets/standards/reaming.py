"""Reamed and drilled holes: what a reamer measures, what to leave for it, how large a drill really drills.

Units    mm.
Sources  DIN 1420 rule for reamers; data/reaming.csv, data/drill_oversize.csv and
         data/reamer_sizes.csv, row by row.
Scope    H and other ISO 286 holes up to 500 mm; inch reamers to 1-1/2 in; drilled holes to 1 in.
"""

from math import ceil

from jobsheets.standards import fits, tables
from jobsheets.standards.scale import MM_PER_INCH, in_mm, scale
from jobsheets.value import Frozen

UPPER_SHARE = 0.15  # of the hole's tolerance, kept below its upper limit
BAND_SHARE = 0.35  # of the hole's tolerance, given to the making of the reamer
REAMER_KINDS = ("nominal", "under", "over")
DRILL_OVERSIZE = 0.05  # mm; assumed by the trade rule for reaming sums


class Limits(Frozen):
    least: float
    most: float
    source: str
    seen: str


class Oversize(Frozen):
    """How much larger than its drill a drilled hole comes out, mm."""

    least: float
    mean: float
    most: float
    source: str
    seen: str


class ReamerSize(Frozen):
    name: str  # of the nominal hole: "1/8 in", "3 mm"
    kind: str  # "nominal"; "under" presses a nominal pin, "over" lets it slide
    mm: float
    source: str
    seen: str


def sold(kind: str) -> tuple[ReamerSize, ...]:
    """Reamers as they are sold.

    Args:
        kind: "nominal", "under" (a pin of nominal size presses in) or "over" (it slides).

    Raises:
        ValueError: not one of these kinds.

    Source:
        data/reamer_sizes.csv: common practice, from memory.
    """
    if kind not in REAMER_KINDS:
        raise ValueError(f"{kind!r} is not a kind of reamer; want {', '.join(REAMER_KINDS)}")
    rows = tables.load("reamer_sizes", key=("kind", "name"), ascending=("kind", "unit", "size"))
    return tuple(
        ReamerSize(
            name=row["name"],
            kind=kind,
            mm=in_mm(row, "size"),
            source=row["source"],
            seen=row["seen"],
        )
        for row in rows
        if row["kind"] == kind
    )


def reamer_limits(nominal: float, hole: str) -> Limits:
    """Diameter limits of a new reamer made for a hole.

    Args:
        nominal: mm.
        hole: hole symbol, such as "H7" or "D8".

    Raises:
        ValueError: as for `fits.limits`.

    Source:
        DIN 1420 / ISO 522: upper = upper limit of the hole - 0.15 IT, lower = upper - 0.35 IT, each share
        rounded up to 0.001 mm.
    """
    limits = fits.limits(hole, nominal)
    width = limits.upper - limits.lower
    most = limits.upper - _round_up(UPPER_SHARE * width)
    return Limits(
        least=nominal + most - _round_up(BAND_SHARE * width),
        most=nominal + most,
        source="DIN 1420 rule for reamers",
        seen="page",
    )


def inch_reamer_limits(nominal: float) -> Limits:
    """Diameter limits of a new straight-shank chucking reamer in inch sizes.

    Args:
        nominal: mm, up to 1-1/2 in.

    Raises:
        ValueError: a larger reamer.

    Source:
        ASME B94.2, from memory; another page gives other bands, so measure the reamer.
    """
    row = _row("reamer tolerance", nominal)
    return Limits(
        least=nominal + in_mm(row, "low"),
        most=nominal + in_mm(row, "high"),
        source=row["source"],
        seen=row["seen"],
    )


def drill_before_reaming(finished: float) -> Limits:
    """Drill diameters that leave the right stock for a reamer.

    Args:
        finished: reamed diameter, mm, up to 50.

    Raises:
        ValueError: a larger hole.

    Source:
        trade-school reaming table: drill = finished - stock to ream - 0.05 mm for the drill's oversize. Light
        metals take half as much again.
    """
    row = _row("stock to ream", finished)
    return Limits(
        least=finished - float(row["high"]) - DRILL_OVERSIZE,
        most=finished - float(row["low"]) - DRILL_OVERSIZE,
        source=row["source"],
        seen=row["seen"],
    )


def drilled_hole(drill: float) -> Limits:
    """Limits of a hole drilled with jigs or fixtures.

    Args:
        drill: diameter, mm, from 0.0135 in to 1 in.

    Raises:
        ValueError: outside those sizes.

    Source:
        AND10387, aeronautical design standard for drilled holes.
    """
    row = _row("drilled hole", drill)
    return Limits(
        least=drill + in_mm(row, "low"),
        most=drill + in_mm(row, "high"),
        source=row["source"],
        seen=row["seen"],
    )


def oversize(drill: float) -> Oversize:
    """How much larger than the drill an unguided hole comes out: statistics of the next larger tested drill.

    Args:
        drill: diameter, mm, up to 1 in.

    Raises:
        ValueError: a larger drill.

    Source:
        Machinery's Handbook, oversize diameters in drilling, from memory; no interpolation.
    """
    rows = tables.load("drill_oversize", key=("drill_in",), ascending=("drill_in",))
    for row in rows:
        if 0.0 < round(drill / MM_PER_INCH, 6) <= float(row["drill_in"]):
            least, mean, most = (MM_PER_INCH * float(row[c]) for c in ("least_in", "mean_in", "most_in"))
            return Oversize(least=least, mean=mean, most=most, source=row["source"], seen=row["seen"])
    raise ValueError(f"no drill oversize known at {drill:g} mm; want a drill up to {rows[-1]['drill_in']} in")


def _round_up(value: float) -> float:
    """Up to the next 0.001 mm; a whole micrometre stays what it is."""
    return ceil(round(value * 1000.0, 6)) / 1000.0


def _row(kind: str, size: float) -> dict[str, str]:
    rows = [row for row in tables.load("reaming", key=("kind", "over")) if row["kind"] == kind]
    for row in rows:
        if float(row["over"]) < round(size / scale(row), 6) <= float(row["up_to"]):
            return row
    unit = rows[0]["unit"]
    raise ValueError(
        f"no {kind} figure at {size:g} mm; "
        f"want a size over {rows[0]['over']} up to {rows[-1]['up_to']} {unit}"
    )
