"""More of pins than their limits: points and chamfers, tolerance of length, what they carry in shear.

Units    mm and N.
Sources  data/pin_details.csv, row by row.
Scope    dowels of ASME B18.8.2 and B18.8.5M, chamfers of ISO 2338 and 8734. Loads are the standard's computed
         ones, no allowance for shock or for a soft hole.
"""

from functools import cache

from jobsheets.standards import tables
from jobsheets.standards.scale import MM_PER_INCH
from jobsheets.value import Frozen

ALL = "all"
# Newton or mm in one printed unit; 4.4482216 N to the pound-force.
UNITS = {"in": MM_PER_INCH, "mm": 1.0, "lbf": 4.4482216, "kN": 1000.0}


class PinDetail(Frozen):
    standard: str
    kind: str  # of pin, as in `pins`
    size: str  # "1/8 in", "3 mm"; "all" for every size of the standard
    what: str  # "point diameter", "chamfer length", "length tolerance", "single shear load, steel"
    least: float
    most: float
    unit: str  # "mm" or "N"
    note: str
    source: str
    seen: str


def of(standard: str, kind: str, size: str) -> tuple[PinDetail, ...]:
    """What the standard says of a pin besides its diameter; nothing where it says nothing.

    Args:
        standard: "ASME B18.8.2".
        kind: "dowel".
        size: "1/8 in".

    Source:
        data/pin_details.csv, row by row.
    """
    return tuple(
        one for one in _all() if (one.standard, one.kind) == (standard, kind) and one.size in (size, ALL)
    )


@cache
def _all() -> tuple[PinDetail, ...]:
    return tuple(
        PinDetail(
            standard=row["standard"],
            kind=row["kind"],
            size=row["size"],
            what=row["what"],
            least=UNITS[row["unit"]] * float(row["least"]),
            most=UNITS[row["unit"]] * float(row["most"]),
            unit="mm" if row["unit"] in ("in", "mm") else "N",
            note=row["note"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in tables.load("pin_details", key=("standard", "kind", "size", "what"))
    )
