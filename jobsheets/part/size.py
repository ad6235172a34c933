"""A size with its limits: what a dimension of a part is."""

from msgspec import Struct

ROOM = 1e-9  # mm; sums of floats may stray by this much and still be on the limit


class Size(Struct, frozen=True, kw_only=True):
    """One dimension, mm. `low` and `high` are the limits of size, not deviations.

    `aim` is where to aim inside the limits: the nominal where it lies inside, else the middle
    (the nominal of a size with a fit symbol often lies outside its own limits).
    """

    nominal: float
    low: float
    high: float
    limits: str  # as written: "±0.05 mm", "f8", "ISO 2768-m"
    source: str = ""  # where the limits come from

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"limits crossed: {self.low:.4f} mm is above {self.high:.4f} mm")

    @property
    def aim(self) -> float:
        return self.nominal if self.low <= self.nominal <= self.high else (self.low + self.high) / 2.0

    @property
    def width(self) -> float:
        return self.high - self.low

    def holds(self, value: float) -> bool:
        return self.low - ROOM <= value <= self.high + ROOM
