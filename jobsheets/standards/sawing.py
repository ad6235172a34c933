"""Speeds of a band saw's blade, to saw the stock off.

Units    m/min; factors are plain numbers.
Sources  data/band_saw_speeds.csv and data/band_saw_factors.csv, row by row.
Scope    bimetal blades, a section of 4 in (100 mm), with coolant; the factors tell of other cases.
"""

from jobsheets.standards import tables
from jobsheets.standards.materials import Material
from jobsheets.value import Frozen

METRES_PER_FOOT = 0.3048


class BladeSpeed(Frozen):
    printed: str  # the materials that the source prints it for
    speed: float  # m/min
    source: str
    seen: str


class BladeFactor(Frozen):
    """What a blade speed is multiplied by, or how many teeth should be in the section."""

    what: str
    low: float
    high: float
    note: str
    source: str
    seen: str


def speed(material: Material) -> BladeSpeed | None:
    """Blade speed of a material; None where no figure was found.

    Source:
        Machinery's Handbook 31st ed., p. 1245.
    """
    for row in tables.load("band_saw_speeds", key=("printed",)):
        if row["material"] == material.id:
            return BladeSpeed(
                printed=row["printed"],
                speed=METRES_PER_FOOT * float(row["speed_ft_min"]),
                source=row["source"],
                seen=row["seen"],
            )
    return None


def factors() -> tuple[BladeFactor, ...]:
    """Factors on the blade speed, and the teeth in the section.

    Source:
        data/band_saw_factors.csv, row by row.
    """
    return tuple(
        BladeFactor(
            what=row["what"],
            low=float(row["low"]),
            high=float(row["high"]),
            note=row["note"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in tables.load("band_saw_factors", key=("what",))
    )
