"""Check values as they were printed: read them, and how near is near enough.

tests/ and tests/published/ are packages, so that a test in this folder writes
`from .published import half_last_place, rows` whatever pytest's import mode and wherever it is started.
"""

import csv
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).parent


def rows(file: str) -> list[dict[str, str]]:
    """Rows of a check file beside this one; each must say where it was printed."""
    with (HERE / file).open(encoding="utf-8", newline="") as opened:
        found = list(csv.DictReader(opened))
    assert found, f"{file} has no rows"
    assert all(row["source"].strip() for row in found), f"{file}: a row without source"
    return found


def half_last_place(text: str) -> float:
    """Half a unit of the last printed place, with a hair for binary numbers: "0.1672" gives 0.00005."""
    exponent = Decimal(text.strip()).as_tuple().exponent
    assert isinstance(exponent, int), f"{text!r} is not a printed number"
    return 0.5 * 10.0**exponent * (1.0 + 1e-6)
