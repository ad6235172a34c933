"""Holes that a screw passes through: ISO 273 and ASME B18.2.8.

Units    mm.
Sources  data/clearance_holes.csv, row by row. The limits of an ISO 273 hole are its nominal and the
         width of its H grade in ISO 286; those of B18.2.8 are printed and do not all follow a formula.
Scope    M1.6 to M16 and #0 to 1/2 in. Charts that add a fixed fraction to the screw are a third set: docs.
"""

from jobsheets.standards import fits, tables
from jobsheets.standards.scale import in_mm
from jobsheets.standards.screw_names import closest, major, plain
from jobsheets.value import Frozen

FITS = {"close": "fine", "normal": "medium", "loose": "coarse"}  # our word: the word of ISO 273
HAIR = 0.005  # mm: screw sizes differ by far more


class ClearanceHole(Frozen):
    standard: str
    screw: str  # "M5", "#10", "1/4"
    fit: str  # "close", "normal" or "loose"
    drill: str  # name of the drill that the standard gives; empty in ISO 273, where the size is the drill
    least: float
    most: float
    grade: str  # "H13"
    source: str
    seen: str


def hole(screw: str, fit: str = "normal") -> ClearanceHole:
    """Clearance hole of a screw by its name.

    Args:
        screw: "M5", "#10", "10", "1/4" or "1/4 in".
        fit: "close", "normal" or "loose"; ISO 273 calls them fine, medium and coarse, which is understood.

    Raises:
        ValueError: a screw or fit that the standards do not hold; the nearest or the range is named.

    Source:
        ISO 273:1979 and ASME B18.2.8-1999 (R2017), data/clearance_holes.csv.
    """
    wanted = _fit(fit)
    for row in _rows():
        if plain(row["screw"]) == plain(screw) and _fit(row["fit"]) == wanted:
            return _hole(row)
    raise ValueError(f"no clearance hole for a screw {screw!r}; want {closest(screw, screws())}")


def hole_for(screw_major: float, fit: str = "normal") -> ClearanceHole:
    """Clearance hole of a screw by its basic major diameter, metric or inch as the diameter tells.

    Args:
        screw_major: mm.
        fit: as for `hole`.

    Raises:
        ValueError: no screw of the tables has this diameter; the nearest ones are named.
    """
    wanted = _fit(fit)
    for row in _rows():
        if _fit(row["fit"]) == wanted and abs(major(row["screw"]) - screw_major) < HAIR:
            return _hole(row)
    known = sorted(screws(), key=lambda name: abs(major(name) - screw_major))
    raise ValueError(
        f"no standard clearance hole for a screw of {screw_major:.3f} mm; want {known[0]} or {known[1]}"
    )


def screws() -> tuple[str, ...]:
    """Screws that have a published clearance hole, in the order of the table."""
    return tuple(dict.fromkeys(row["screw"] for row in _rows()))


def _fit(fit: str) -> str:
    for ours, iso in FITS.items():
        if fit in (ours, iso):
            return ours
    raise ValueError(f"{fit!r} is not a clearance fit; want {', '.join(FITS)}")


def _rows() -> tuple[dict[str, str], ...]:
    return tables.load("clearance_holes", key=("standard", "screw", "fit"))


def _hole(row: dict[str, str]) -> ClearanceHole:
    least = in_mm(row, "hole_min")
    if row["hole_max"]:
        most = in_mm(row, "hole_max")
    else:
        most = least + fits.tolerance(int(row["tolerance"].removeprefix("H")), least)
    return ClearanceHole(
        standard=row["standard"],
        screw=row["screw"],
        fit=_fit(row["fit"]),
        drill=row["drill"],
        least=least,
        most=most,
        grade=row["tolerance"],
        source=row["source"],
        seen=row["seen"],
    )
