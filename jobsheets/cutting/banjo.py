"""Where change gears can stand: known to shop files, and to the search for trains."""

from msgspec import Struct


class Banjo(Struct, frozen=True, kw_only=True):
    """Where the shafts of a gear train stand, mm, measured on the machine."""

    module: float  # pitch diameter over teeth; 25.4 over the diametral pitch
    span: float  # stud to leadscrew, centre to centre
    slot_from: float  # banjo stud to leadscrew, nearest
    slot_to: float  # and farthest
    shaft: float  # largest diameter that stands in a gear's way at the end of a shaft: bush, nut or washer
