"""Printed numbers: lengths of a row in mm, whatever unit it is printed in, and fractions."""

MM_PER_INCH = 25.4


def scale(row: dict[str, str]) -> float:
    """How many mm one printed unit of the row is: its column `unit` says "in" or "mm"."""
    return MM_PER_INCH if row["unit"] == "in" else 1.0


def in_mm(row: dict[str, str], column: str) -> float:
    """The printed length of one column, mm."""
    return scale(row) * float(row[column])


def ratio(text: str) -> tuple[int, int] | None:
    """A printed fraction or decimal as two whole numbers, "3.4" as 34 over 10; None for another text."""
    top, _, below = text.partition("/")
    if not below:
        whole, _, part = text.partition(".")
        top, below = f"{whole}{part}", f"1{'0' * len(part)}"
    if not (top.isdecimal() and below.isdecimal() and int(below)):
        return None
    return int(top), int(below)
