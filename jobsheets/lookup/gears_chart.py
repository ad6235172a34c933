"""Wall chart of change gears: which train of the owned gears cuts which thread, and how far it is off.

Units    threads an inch, or pitches in mm; error in inches to the inch, or in mm to 100 mm.
Source   drivers over driven = lead over leadscrew (cutting/gear_train.py, docs/screwcutting.md).
Scope    single starts, the pitches that small work uses. A train farther off than a chart may be
         (shop/gear_chart.NEAR) is not printed: the note names such a pitch.
"""

from typing import TypeGuard

from msgspec import Struct

from jobsheets.cutting.gear_train import Train
from jobsheets.shop import gear_chart
from jobsheets.shop.machines import LeadScrew
from jobsheets.shop.shop import Shop

MM_PER_INCH = 25.4
# Pitches of a chart, by the system that comes first on it: the other one has fewer.
PER_INCH = {
    "in": (8, 10, 11, 12, 13, 14, 16, 18, 20, 24, 28, 32, 36, 40, 44, 48, 56, 64, 72, 80),
    "mm": (11, 12, 13, 14, 16, 18, 20, 24, 28, 32, 36, 40, 44, 48),
}
PITCHES = {
    "in": (0.5, 0.6, 0.7, 0.75, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0),
    "mm": (0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5),
}


class GearTable(Struct, frozen=True, kw_only=True):
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


def table(shop: Shop, system: str) -> GearTable:
    """Trains for the usual pitches: those of the chart's own system first.

    Args:
        shop: whose leadscrew, change gears and banjo.
        system: "in" or "mm": what comes first, and the unit of the error.

    Raises:
        ValueError: a lathe whose leadscrew or change gears are not told.
    """
    screw = shop.lathe.leadscrew
    if screw is None or not screw.gears:
        raise ValueError(
            "the shop file tells no change gears; want leadscrew: with pitch: and gears: under the lathe"
        )
    inch = [(f"{count} tpi", MM_PER_INCH / count) for count in PER_INCH[system]]
    metric = [(f"{pitch:g} mm", pitch) for pitch in PITCHES[system]]
    wanted = inch + metric if system == "in" else metric + inch
    lines = gear_chart.chart(screw, [lead for _, lead in wanted])
    found = [(name, line) for (name, _), line in zip(wanted, lines, strict=True)]
    return GearTable(
        title="Change gears",
        head=("thread", "gears", "idler", "off"),
        rows=tuple((name, *_cells(line.train, system)) for name, line in found if _near(line.train)),
        notes=_notes(shop, screw, system, [name for name, line in found if not _near(line.train)]),
    )


def _near(train: Train | None) -> TypeGuard[Train]:
    return train is not None and abs(train.error) <= gear_chart.NEAR


def _cells(train: Train, system: str) -> tuple[str, str, str]:
    """Gears from the stud to the leadscrew, the idler of a simple train, and the error."""
    off = f"{train.error:+.4f}".replace("0.", ".") if system == "in" else f"{train.error * 100.0:+.2f}"
    return pairs(train.gears), f"{train.idler}" if train.idler else "", "exact" if train.exact else off


def pairs(gears: tuple[int, ...]) -> str:
    """A train as it is read along the drive: driver/driven, and again where it is compound."""
    return " × ".join(f"{a}/{b}" for a, b in zip(gears[::2], gears[1::2], strict=True))


def _notes(shop: Shop, screw: LeadScrew, system: str, lacking: list[str]) -> tuple[str, ...]:
    """How the train is set up, what the error is counted in, and what was not looked at."""
    unit = "in to the inch" if system == "in" else "mm to 100 mm"
    room = "All fit the banjo." if screw.banjo is not None else "The banjo is not known: try for room."
    none = f"Not with these gears: {', '.join(lacking)}." if lacking else ""
    return (
        f"{shop.lathe.name}, leadscrew {said(screw.pitch)}. Driver/driven, from the stud to the leadscrew. "
        f"{room}",
        f"Off: {unit}, + is too long. A scratch pass and the pitch gauge first. {none}".rstrip(),
    )


def said(pitch: float) -> str:
    """A leadscrew as it is counted: in threads an inch where that is a whole or half number, else in mm.

    Args:
        pitch: mm.
    """
    count = MM_PER_INCH / pitch
    return f"{count:g} tpi" if abs(count * 2.0 - round(count * 2.0)) < 1e-6 else f"{pitch:.4g} mm"
