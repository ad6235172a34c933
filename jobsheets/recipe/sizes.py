"""Sizes with their limits: as written beside them, else by the recipe's default."""

from enum import StrEnum

from msgspec import Struct

from jobsheets import units
from jobsheets.part.size import Size
from jobsheets.recipe.faults import Faults
from jobsheets.recipe.item import Item
from jobsheets.standards import fits, general_tolerance
from jobsheets.units import Tolerance, ToleranceKind

# ISO 2768-1 gives no limits below 0.5 mm. A broken edge is not worth a written limit: common practice.
SMALL_EDGE = 0.05
SMALL_EDGE_SOURCE = "common practice for broken edges below 0.5 mm, where ISO 2768-1 gives none"


class Use(StrEnum):
    """What a size is, which decides what its limits may be."""

    SHAFT = "an outside diameter"
    HOLE = "a hole"
    LENGTH = "a length"
    EDGE = "an edge"


class Sizer(Struct, frozen=True):
    """Gives sizes their limits and keeps the faults."""

    faults: Faults
    system: str  # "in" or "mm"
    default: str  # class of ISO 2768: "m"

    def size(self, item: Item, name: str, limits: str, use: Use) -> Size | None:
        """The size of a value of `item`; None, and the fault kept, where its limits cannot be."""
        return self.sized(item, item.number(name), name, limits, use)

    def sized(self, item: Item, nominal: float, name: str, limits: str, use: Use) -> Size | None:
        """A size that was worked out from the value `name`."""
        node, path = item.at(limits if limits in item else name)
        return self.faults.attempt(
            node, path, lambda: with_limits(nominal, item.text(limits), self.default, use)
        )


def with_limits(nominal: float, text: str, default: str, use: Use) -> Size:
    """A size with its limits.

    Args:
        nominal: mm.
        text: limits as written; empty for the default.
        default: class of ISO 2768-1.
        use: what the size is.

    Raises:
        ValueError: limits that do not suit the size, or none by default.

    Source:
        ISO 286-1 for fit symbols, ISO 2768-1 for classes.
    """
    if not text:
        return general(nominal, default, use)
    found = units.tolerance(text)
    if found.kind is ToleranceKind.GENERAL:
        return general(nominal, found.symbol[-1], use)
    if found.kind is ToleranceKind.FIT:
        return _fitted(nominal, found, use)
    if found.lower_mm is None or found.upper_mm is None:
        raise ValueError(f"a class of threads on {use.value}; want limits such as ±0.05 mm or f8")
    return _between(nominal, found.lower_mm, found.upper_mm, str(found), "written in the recipe")


def general(nominal: float, cls: str, use: Use) -> Size:
    """A size with the limits of a general class.

    Source:
        ISO 2768-1:1989 tables 1 and 2; below 0.5 mm edges have a default of our own.
    """
    if use is Use.EDGE and nominal < general_tolerance.LEAST:
        half = min(SMALL_EDGE, nominal / 2.0)
        return _between(nominal, -half, half, f"±{half:g} mm", SMALL_EDGE_SOURCE)
    look_up = general_tolerance.external_radius if use is Use.EDGE else general_tolerance.linear
    try:
        half = look_up(nominal, cls)
    except ValueError:
        raise ValueError(
            f"{nominal:.2f} mm has no limits in ISO 2768-{cls}; want its limits written, such as ±0.05 mm"
        ) from None
    return _between(nominal, -half, half, f"ISO 2768-{cls}", "ISO 2768-1:1989")


def _fitted(nominal: float, found: Tolerance, use: Use) -> Size:
    symbol = found.symbol
    if use not in (Use.SHAFT, Use.HOLE):
        raise ValueError(f"a fit symbol on {use.value}; want such as ±0.1 mm or +0/-0.1 mm")
    if symbol[0].isupper() is not (use is Use.HOLE):
        small, capital = symbol.lower(), symbol.upper()
        right = capital if use is Use.HOLE else small
        raise ValueError(
            f"a symbol of {'shafts' if use is Use.HOLE else 'holes'} on {use.value}; want {right}"
        )
    limits = fits.limits(symbol, nominal)
    return _between(nominal, limits.lower, limits.upper, symbol, limits.source)


def _between(nominal: float, lower: float, upper: float, text: str, source: str) -> Size:
    if nominal + lower <= 0.0:
        raise ValueError(f"limits that reach {nominal + lower:.3f} mm: nothing is left; want narrower ones")
    return Size(nominal=nominal, low=nominal + lower, high=nominal + upper, limits=text, source=source)


def moved(size: Size, nominal: float) -> Size:
    """The size about another nominal, its deviations kept."""
    by = nominal - size.nominal
    return Size(
        nominal=nominal,
        low=size.low + by,
        high=size.high + by,
        limits=size.limits,
        source=size.source,
    )
