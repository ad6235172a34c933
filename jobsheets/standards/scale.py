"""Lengths of a published row in mm, whatever unit it is printed in."""

MM_PER_INCH = 25.4


def scale(row: dict[str, str]) -> float:
    """How many mm one printed unit of the row is: its column `unit` says "in" or "mm"."""
    return MM_PER_INCH if row["unit"] == "in" else 1.0


def in_mm(row: dict[str, str], column: str) -> float:
    """The printed length of one column, mm."""
    return scale(row) * float(row[column])
