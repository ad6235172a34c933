"""What was found in the drawer for a wish: the tool, or the next best with what that changes, or none."""

from typing import Generic, TypeVar

from msgspec import Struct

T = TypeVar("T")


class Pick(Struct, Generic[T], frozen=True, kw_only=True):
    """A tool for a wish. `tool` None: nothing owned will do, and `consequence` says what to buy or borrow."""

    tool: T | None
    wanted: str  # in the maker's words: "#29", "reamer 6.00 to 6.01 mm"
    instead: bool = False  # the tool is not the wanted one
    consequence: str = ""  # what the substitution changes


def missing(wanted: str, otherwise: str = "") -> Pick[T]:
    """Nothing owned will do."""
    ways = f", or {otherwise}" if otherwise else ""
    return Pick(tool=None, wanted=wanted, instead=True, consequence=f"buy or borrow: {wanted}{ways}")


def size(mm: float, system: str) -> str:
    """A size in the shop's units, with the places that a caliper tells apart."""
    if system != "in":
        return f"{mm:.2f} mm"
    return f"{mm / 25.4:.4f} in"


def between(low: float, high: float, system: str) -> str:
    """A span of sizes in the shop's units; one size where both ends read alike."""
    least, most = size(low, system), size(high, system)
    return most if least == most else f"{least.rsplit(' ', 1)[0]} to {most}"
