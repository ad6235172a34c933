"""One computed number that can answer "why?"."""

from msgspec import Struct


class Input(Struct, frozen=True, kw_only=True):
    """One value that went into a figure."""

    name: str
    value: float | str
    unit: str = ""


class Spread(Struct, frozen=True, kw_only=True):
    """What the published sources say: lowest, median and highest, and how many there are."""

    low: float
    median: float
    high: float
    unit: str
    count: int
    sources: tuple[str, ...]


class Figure(Struct, frozen=True, kw_only=True):
    """A number of the plan, with its formula, its inputs and the limit that ruled.

    `value` is the number as printed and as replayed: already on a step of the machine, a line of the dial
    or an owned size. `wanted` is the number before that rounding.
    """

    id: str  # unique in a plan: "20.speed", "thread.depth"
    name: str  # trade words: "spindle speed"
    value: float
    unit: str  # "mm", "rev/min", "mm/rev", "m/min", "%", "N", "W", "min", "turns"
    formula: str
    inputs: tuple[Input, ...]
    ruled_by: str
    source: str
    wanted: float | None = None
    spread: Spread | None = None
    changes: str = ""  # what would change it, in the maker's words
