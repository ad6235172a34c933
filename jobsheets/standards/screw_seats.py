"""Seats for screw heads: counterbores for socket heads, countersinks for flat heads.

Units    mm and degrees.
Sources  data/screw_seats.csv, row by row; depths of cones by plane geometry.
Scope    the common sizes of ASME B18.3, DIN 974-1 row 1, ASME B18.6.3 and ISO 10642.
"""

from functools import cache
from math import radians, tan

from jobsheets.standards import tables
from jobsheets.standards.scale import in_mm
from jobsheets.standards.screw_names import closest, plain
from jobsheets.value import Frozen


class Counterbore(Frozen):
    standard: str
    screw: str
    head_diameter: float
    head_height: float  # the depth that brings the head flush
    bore: float
    source: str
    seen: str


class CountersunkHead(Frozen):
    standard: str
    screw: str
    head_diameter: float  # largest, to the theoretical sharp edge
    head_height: float
    angle: float
    source: str
    seen: str


def counterbore(screw: str) -> Counterbore:
    """Counterbore for a socket head cap screw.

    Args:
        screw: "M5", "#10" or "1/4 in".

    Raises:
        ValueError: a size that the table does not hold.

    Source:
        ASME B18.3 appendix and DIN 974-1 row 1 (from memory); head sizes ISO 4762.
    """
    row = _find("counterbore", screw)
    return Counterbore(
        standard=row["standard"],
        screw=row["screw"],
        head_diameter=in_mm(row, "head_diameter"),
        head_height=in_mm(row, "head_height"),
        bore=in_mm(row, "bore"),
        source=row["source"],
        seen=row["seen"],
    )


def countersunk_head(screw: str) -> CountersunkHead:
    """Head of a flat-head screw, to countersink for.

    Args:
        screw: "M5", "#10" or "1/4 in".

    Raises:
        ValueError: a size that the table does not hold.

    Source:
        ASME B18.6.3 (82 degrees) and ISO 10642 (90 degrees; from memory). DIN 7991 heads are smaller.
    """
    row = _find("countersink", screw)
    return CountersunkHead(
        standard=row["standard"],
        screw=row["screw"],
        head_diameter=in_mm(row, "head_diameter"),
        head_height=in_mm(row, "head_height"),
        angle=float(row["angle"]),
        source=row["source"],
        seen=row["seen"],
    )


def cone_depth(mouth: float, hole: float, angle: float) -> float:
    """Depth of a countersink from its mouth to the hole below it, mm.

    Args:
        mouth: large diameter, mm.
        hole: diameter that it starts from, mm.
        angle: included angle of the cone, degrees.

    Raises:
        ValueError: a mouth no larger than the hole, or an angle that is no cone.

    Source:
        plane geometry: (mouth - hole) / (2 tan(angle / 2)).
    """
    if not 0.0 < angle < 180.0:
        raise ValueError(f"{angle:g} degrees is not the angle of a countersink; want 60, 82, 90, 100 or 120")
    if not 0.0 <= hole < mouth:
        raise ValueError(f"mouth {mouth:g} mm over a hole of {hole:g} mm; want a mouth larger than the hole")
    return (mouth - hole) / (2.0 * tan(radians(angle) / 2.0))


def _find(kind: str, screw: str) -> dict[str, str]:
    known = _by_screw(kind)
    row = known.get(plain(screw))
    if row is None:
        raise ValueError(f"no {kind} for a screw {screw!r}; want {closest(screw, tuple(known))}")
    return row


@cache
def _by_screw(kind: str) -> dict[str, dict[str, str]]:
    rows = tables.load("screw_seats", key=("kind", "standard", "screw"))
    return {plain(row["screw"]): row for row in rows if row["kind"] == kind}
