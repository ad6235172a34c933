"""Wall chart of spindle speeds: which belt or lever position for which diameter, on the lathe of a shop.

Units    diameters as the chart's system says; speeds in rev/min.
Sources  data/cutting_speeds.csv at the median, or the maker's own proven value; docs/cutting.md.
Scope    cutting speed and the speeds that exist. What a job adds (overhang, chuck, deep holes) is on its
         sheet.
"""

from fractions import Fraction

from msgspec import Struct

from jobsheets.cutting.speeds import spindle_speed
from jobsheets.shop.machines import Lathe
from jobsheets.shop.shop import Shop
from jobsheets.shop.speeds import at_or_below
from jobsheets.standards import cutting_data, materials
from jobsheets.standards.cutting_rows import NoData
from jobsheets.standards.materials import Material

MM_PER_INCH = 25.4
DIAMETERS = {
    "in": tuple(Fraction(n, 16) for n in (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32)),
    "mm": tuple(Fraction(n) for n in (2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 50)),
}
MOST = 4  # materials beside each other that can be read from a metre away
USUAL = ("steel-1018", "stainless-303", "brass-360", "aluminium-6061")  # where the rack holds no bar
ROUGH = "turn rough"
OPERATIONS = (("rough", ROUGH), ("finish", "turn finish"), ("drill", "drill"), ("part", "part-off"))
NONE = "by hand"  # the slowest speed that there is is too fast


class Column(Struct, frozen=True, kw_only=True):
    """Head of a column and the surface speed in it, m/min."""

    head: str
    speed: float


class SpeedTable(Struct, frozen=True, kw_only=True):
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


def table(shop: Shop, system: str, material: Material | None) -> SpeedTable:
    """Positions by diameter, for roughing in each metal of the rack, or for each operation in one metal.

    Args:
        shop: whose lathe, rack and proven values.
        system: "in" or "mm".
        material: one column for each operation in it; None: roughing, a column for each material.

    Raises:
        ValueError: no published or proven speed for any column.
    """
    columns = _of_materials(shop) if material is None else _of_operations(shop, material)
    if not columns:
        raise ValueError("no speed was published for this; want a material with figures, or a proven value")
    what = "roughing" if material is None else material.id
    rows = tuple(
        (_said(d, system), *(_cell(shop.lathe, c, _mm(d, system)) for c in columns))
        for d in DIAMETERS[system]
    )
    return SpeedTable(
        title=f"Spindle speeds, {what}",
        head=(f"⌀ {system}", *(c.head for c in columns)),
        rows=rows,
        notes=(
            f"{shop.lathe.name}: {_positions(shop.lathe)}.",
            "HSS; median of the published speeds, or your own proven value. Long work, deep holes and the "
            "chuck may ask for less.",
        ),
    )


def _of_materials(shop: Shop) -> list[Column]:
    names = tuple(dict.fromkeys(bar.material for bar in shop.stock)) or USUAL
    found = [(materials.find(name), _speed(shop, materials.find(name), ROUGH)) for name in names]
    return [Column(head=m.id, speed=v) for m, v in found if v is not None][:MOST]


def _of_operations(shop: Shop, material: Material) -> list[Column]:
    found = [(head, _speed(shop, material, operation)) for head, operation in OPERATIONS]
    return [Column(head=head, speed=v) for head, v in found if v is not None]


def _speed(shop: Shop, material: Material, operation: str) -> float | None:
    """The maker's own speed, held to the highest published one, else the median."""
    found = cutting_data.speed(material.cutting_id, operation)
    for own in shop.proven:
        if (own.material, own.operation, own.tool) == (material.id, operation, "HSS") and own.speed:
            return own.speed if isinstance(found, NoData) else min(own.speed, found.high)
    return None if isinstance(found, NoData) else found.median


def _mm(diameter: Fraction, system: str) -> float:
    return float(diameter) * (MM_PER_INCH if system == "in" else 1.0)


def _said(diameter: Fraction, system: str) -> str:
    whole, part = divmod(diameter, 1)
    if system == "mm" or not part:
        return str(diameter)
    return f"{whole}-{part}" if whole else str(part)


def _cell(lathe: Lathe, column: Column, diameter: float) -> str:
    chosen = at_or_below(lathe, spindle_speed(column.speed, diameter))
    if chosen.too_fast:
        return NONE
    position = chosen.position.removeprefix("belt ").removeprefix("lever ")
    return position if lathe.speeds else f"{position} {chosen.rpm:.0f}"


def _positions(lathe: Lathe) -> str:
    steps = [f"{s.position.removeprefix('belt ')} {s.rpm:.0f}" for s in lathe.speeds]
    ranges = [f"{r.position} {r.least:.0f} to {r.most:.0f}" for r in lathe.ranges]
    return ", ".join(steps + ranges) + " rev/min"
