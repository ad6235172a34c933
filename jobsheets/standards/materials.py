"""Metals and handle materials of the trade: one table, looked up by any of their usual names.

Units    kg/m3, MPa, GPa, W/(m K), 1e-6 per K, degrees C.
Sources  each row of data/materials.csv and data/material_names.csv names its own; a row from memory says so.
Scope    a value that no source gives is None, never a guess. Strengths are those of the condition named.
"""

from functools import cache

from jobsheets.standards import tables
from jobsheets.units import nearest
from jobsheets.value import Frozen


class Material(Frozen):
    id: str  # "stainless-303"
    name: str
    family: str  # "stainless steel", "brass", "wood"
    iso_group: str  # "P", "M", "K", "N", "S", "P/M", else "plastic", "composite", "wood", "organic"
    cutting_id: str  # name of the material in the cutting-speed table; empty where no figures were found
    condition: str  # that the strengths are for
    density: float | None  # kg/m3
    tensile: float | None  # MPa
    yield_strength: float | None  # MPa
    shear: float | None  # MPa; along the grain in wood
    modulus: float | None  # GPa; along the grain in wood
    hardness: str  # as a table prints it: "126 HB"
    conductivity: float | None  # W/(m K)
    expansion: float | None  # 1e-6 per K
    heat_limit: float | None  # long service, degrees C
    hazards: tuple[str, ...]  # ids of hazards.csv
    notes: str
    source: str
    seen: str


def find(name: str) -> Material:
    """Material of an id, a trade name or a designation (AISI, UNS, EN, NEMA).

    Args:
        name: as the maker writes it; case, spaces, dots and hyphens do not matter.

    Raises:
        ValueError: no such name; the nearest known ones are named.

    Source:
        data/materials.csv and data/material_names.csv, row by row.
    """
    known = _by_name()
    found = known.get(_plain(name))
    if found is not None:
        return found
    written = tuple(dict.fromkeys((*names(), *(row["alias"] for row in _aliases()))))
    by_plain = {_plain(text): text for text in written}
    close = tuple(by_plain[plain] for plain in nearest(_plain(name), tuple(by_plain)))
    raise ValueError(f"{name!r} is not a known material; want {' or '.join(close or names())}")


def names() -> tuple[str, ...]:
    """Ids of all materials, in the order of the table."""
    return tuple(material.id for material in _all())


def aliases(material: Material) -> tuple[str, ...]:
    """Other names under which `material` is found."""
    return tuple(row["alias"] for row in _aliases() if row["id"] == material.id)


def _plain(name: str) -> str:
    return "".join(c for c in name.lower() if c.isalnum())


@cache
def _by_name() -> dict[str, Material]:
    by_id = {material.id: material for material in _all()}
    known = {_plain(material.id): material for material in _all()}
    known.update({_plain(row["alias"]): by_id[row["id"]] for row in _aliases()})
    return known


def _aliases() -> tuple[dict[str, str], ...]:
    return tables.load("material_names", key=("alias",))


def _number(text: str) -> float | None:
    return float(text) if text else None


@cache
def _all() -> tuple[Material, ...]:
    return tuple(
        Material(
            id=row["id"],
            name=row["name"],
            family=row["family"],
            iso_group=row["iso_group"],
            cutting_id=row["cutting_id"],
            condition=row["condition"],
            density=_number(row["density"]),
            tensile=_number(row["tensile"]),
            yield_strength=_number(row["yield_strength"]),
            shear=_number(row["shear"]),
            modulus=_number(row["modulus"]),
            hardness=row["hardness"],
            conductivity=_number(row["conductivity"]),
            expansion=_number(row["expansion"]),
            heat_limit=_number(row["heat_limit"]),
            hazards=tuple(filter(None, row["hazards"].split(";"))),
            notes=row["notes"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in tables.load("materials", key=("id",))
    )
