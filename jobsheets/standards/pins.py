"""Dowel, parallel, soft and spring pins: their limits, and the holes that their standards give.

Units    mm.
Sources  data/pins.csv and data/pin_holes.csv, row by row.
Scope    1/16 to 1/2 in and 0.6 to 12 mm. A hole of no standard is the maker's own number.
"""

from functools import cache

from jobsheets.standards import tables
from jobsheets.standards.scale import in_mm
from jobsheets.value import Frozen


class Pin(Frozen):
    standard: str
    kind: str  # "dowel", "hardened parallel", "soft parallel", "soft rod", "spring"
    size: str  # "1/8 in", "3 mm"
    series: str  # "standard", "oversize", "m6", "h8"; "free" for a spring pin before it is driven
    nominal: float
    least: float
    most: float
    source: str
    seen: str


class PinHole(Frozen):
    standard: str
    kind: str
    size: str
    nominal: float
    least: float
    most: float
    note: str
    source: str
    seen: str


def find(kind: str, size: str, series: str = "") -> Pin:
    """A pin by kind and size.

    Args:
        kind: as in `kinds()`.
        size: "1/8 in" or "3 mm".
        series: where the kind comes in several; empty takes the first of the table.

    Raises:
        ValueError: a kind, size or series that the table does not hold; those it holds are named.

    Source:
        data/pins.csv, row by row.
    """
    of_kind = [pin for pin in _pins() if pin.kind == kind]
    if not of_kind:
        raise ValueError(f"{kind!r} is not a kind of pin; want {', '.join(kinds())}")
    of_series = [pin for pin in of_kind if not series or pin.series == series]
    if not of_series:
        known = dict.fromkeys(pin.series for pin in of_kind)
        raise ValueError(f"no {series!r} series of {kind} pins; want {', '.join(known)}")
    for pin in of_series:
        if pin.size == size:
            return pin
    raise ValueError(f"no {kind} pin {size!r}; want {', '.join(dict.fromkeys(p.size for p in of_series))}")


def hole(kind: str, size: str) -> PinHole:
    """The hole that the pin's standard gives: a press fit for a dowel, a driven fit for a spring pin.

    Args:
        kind: "dowel" or "spring".
        size: "1/8 in" or "3 mm".

    Raises:
        ValueError: no published hole.

    Source:
        data/pin_holes.csv, row by row.
    """
    of_kind = [one for one in _holes() if one.kind == kind]
    for one in of_kind:
        if one.size == size:
            return one
    known = ", ".join(one.size for one in of_kind) or "a dowel or spring pin, or the maker's own number"
    raise ValueError(f"no published hole for a {kind} pin {size!r}; want {known}")


def kinds() -> tuple[str, ...]:
    """Kinds of pin in the table."""
    return tuple(dict.fromkeys(pin.kind for pin in _pins()))


def every() -> tuple[Pin, ...]:
    """All pins of the table."""
    return _pins()


def holes() -> tuple[PinHole, ...]:
    """All published pin holes of the table."""
    return _holes()


@cache
def _pins() -> tuple[Pin, ...]:
    rows = tables.load(
        "pins",
        key=("standard", "kind", "series", "size"),
        ascending=("standard", "kind", "series", "nominal"),
    )
    return tuple(
        Pin(
            standard=row["standard"],
            kind=row["kind"],
            size=row["size"],
            series=row["series"],
            nominal=in_mm(row, "nominal"),
            least=in_mm(row, "pin_min"),
            most=in_mm(row, "pin_max"),
            source=row["source"],
            seen=row["seen"],
        )
        for row in rows
    )


@cache
def _holes() -> tuple[PinHole, ...]:
    rows = tables.load(
        "pin_holes", key=("standard", "kind", "size"), ascending=("standard", "kind", "nominal")
    )
    return tuple(
        PinHole(
            standard=row["standard"],
            kind=row["kind"],
            size=row["size"],
            nominal=in_mm(row, "nominal"),
            least=in_mm(row, "hole_min"),
            most=in_mm(row, "hole_max"),
            note=row["note"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in rows
    )
