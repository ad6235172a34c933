"""Which drill goes before the tap: percent of thread by metal, and the owned drill that comes nearest.

Units    mm; percents of a full thread on the basis named.
Sources  percents: data/tap_percent.csv, row by row. Depths of full threads: thread_percent.
Scope    cut and formed threads. A percent of one basis is not comparable with one of another.
"""

from math import sqrt

from jobsheets.standards import tables
from jobsheets.standards.drills import DrillSize, everything
from jobsheets.standards.thread_percent import FORMING, SHARE_OF_HEIGHT, Basis
from jobsheets.value import TYPE_CHECKING, Frozen

if TYPE_CHECKING:
    from jobsheets.standards.materials import Material

# What a full (100 %) thread takes off the diameter, in pitches.
CUT_60 = SHARE_OF_HEIGHT[Basis.US] * sqrt(3.0)
FORMED_60 = 100.0 * FORMING
NON_METALS = ("wood", "animal", "laminate", "plastic")


class PercentRange(Frozen):
    low: float
    high: float
    source: str


class Candidate(Frozen):
    drill: DrillSize
    percent: float


class TapDrillChoice(Frozen):
    best: Candidate
    suits: bool  # the percent of the best one lies in the range asked for
    larger: Candidate | None  # the next owned drill up: less thread, an easier tap
    smaller: Candidate | None  # the next owned drill down: more thread, a harder tap
    wanted: tuple[float, float]  # diameters at the high and the low end of the range, mm


def target_percent(material: "Material", *, forming: bool = False) -> PercentRange:
    """Percent of thread to aim at when tapping by hand, with its source.

    Args:
        material: metal to be tapped.
        forming: for a forming tap, whose percents are on a basis of their own.

    Raises:
        ValueError: no figure was found for this kind of material.

    Source:
        data/tap_percent.csv, row by row: a by-metal list, else general figures for metals.
    """
    if material.family in NON_METALS:
        raise ValueError(
            f"no published percent of thread was found for {material.name}; want the maker's own number, "
            "a coarse thread or a metal insert"
        )
    rows = {(row["scope"], row["name"]): row for row in tables.load("tap_percent", key=("scope", "name"))}
    order = [("material", material.id), ("family", material.family), ("family", "any metal")]
    row = rows["tap", "forming"] if forming else next(rows[key] for key in order if key in rows)
    return PercentRange(low=float(row["low"]), high=float(row["high"]), source=row["source"])


def any_metal_percent() -> PercentRange:
    """Percent of thread to aim at where the metal is not said, with its source: general figures.

    Source:
        data/tap_percent.csv.
    """
    rows = {(row["scope"], row["name"]): row for row in tables.load("tap_percent", key=("scope", "name"))}
    row = rows["family", "any metal"]
    return PercentRange(low=float(row["low"]), high=float(row["high"]), source=row["source"])


def percent(major: float, pitch: float, hole: float, full: float = CUT_60) -> float:
    """Percent of thread left by a drilled hole.

    Args:
        major: basic major diameter of the thread, mm.
        pitch: mm.
        hole: diameter, mm.
        full: what a full thread takes off the diameter, in pitches: CUT_60, FORMED_60, or the thread's own.

    Source:
        Machinery's Handbook: percent = (D - d) / (1.299038 P) x 100 for a cut 60 degree thread.
    """
    return 100.0 * (major - hole) / (full * pitch)


def drill_for(major: float, pitch: float, wanted: float, full: float = CUT_60) -> float:
    """Diameter that leaves `wanted` percent of thread, mm: the inverse of `percent`, with its arguments."""
    return major - full * pitch * wanted / 100.0


def choose(
    major: float,
    pitch: float,
    percent_range: tuple[float, float],
    owned: tuple[DrillSize, ...],
    full: float = CUT_60,
) -> TapDrillChoice:
    """The owned drill whose percent of thread lies nearest to the middle of the range.

    One in the range wins over one outside; of two equally near ones the larger wins, because a tap breaks in
    a tight hole and not in a wide one.

    Args:
        major: basic major diameter of the thread, mm.
        pitch: mm.
        percent_range: lowest and highest percent of thread wanted.
        owned: drills in the drawer.
        full: as for `percent`.

    Raises:
        ValueError: an empty range, or no owned drill that leaves any thread and no more than a full one; a
            drill to buy is named.

    Source:
        percent of thread as for `percent`; the preference is common practice.
    """
    low, high = percent_range
    if not 0.0 < low <= high <= 100.0:
        raise ValueError(f"{low:g} to {high:g} is not a range of percents; want such as 55 to 65")
    wanted = (drill_for(major, pitch, high, full), drill_for(major, pitch, low, full))
    found = _candidates(major, pitch, owned, full)
    if not found:
        middle = sum(wanted) / 2.0
        buy = min(everything(), key=lambda drill: abs(drill.mm - middle))
        raise ValueError(
            f"no owned drill leaves a thread of {major:.3f} x {pitch:.3f} mm; "
            f"want one of {wanted[0]:.2f} to {wanted[1]:.2f} mm, such as {buy.name}"
        )
    middle = (low + high) / 2.0
    best = min(
        range(len(found)),
        key=lambda i: (
            not low <= found[i].percent <= high,
            round(abs(found[i].percent - middle), 6),
            found[i].percent,
        ),
    )
    return TapDrillChoice(
        best=found[best],
        suits=low <= found[best].percent <= high,
        smaller=found[best - 1] if best > 0 else None,
        larger=found[best + 1] if best + 1 < len(found) else None,
        wanted=wanted,
    )


def _candidates(
    major: float, pitch: float, owned: tuple[DrillSize, ...], full: float
) -> tuple[Candidate, ...]:
    """Owned drills that leave some thread and at most a full one, smallest first, each diameter once."""
    by_size = {
        round(drill.mm, 6): drill for drill in sorted(owned, key=lambda d: (d.mm, d.name), reverse=True)
    }
    return tuple(
        Candidate(drill=by_size[mm], percent=value)
        for mm in sorted(by_size)
        if 0.0 < (value := percent(major, pitch, by_size[mm].mm, full)) <= 100.0
    )
