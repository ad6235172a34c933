"""A size with its limits: what a dimension of a part is."""

from msgspec import Struct

ROOM = 1e-9  # mm; sums of floats may stray by this much and still be on the limit


class Size(Struct, frozen=True, kw_only=True):
    """One dimension, mm. `low` and `high` are the limits of size, not deviations.

    `aim` is where to aim inside the limits: the nominal where it lies well inside, else the middle. A nominal
    that is itself a limit (+0/-0.05, H7) leaves the cutter and the gauge no room on one side.
    """

    nominal: float
    low: float
    high: float
    limits: str  # as written: "±0.05 mm", "f8", "ISO 2768-m"
    source: str = ""  # where the limits come from
    aimed: float | None = None  # where to aim when a rule says so

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"limits crossed: {self.low:.4f} mm is above {self.high:.4f} mm")

    @property
    def aim(self) -> float:
        if self.aimed is not None:
            return self.aimed
        room = self.width / 4.0
        inside = self.low + room <= self.nominal <= self.high - room
        return self.nominal if inside else (self.low + self.high) / 2.0

    @property
    def width(self) -> float:
        return self.high - self.low

    def holds(self, value: float) -> bool:
        return self.low - ROOM <= value <= self.high + ROOM
