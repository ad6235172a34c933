"""docs/validation.md says what the check tables say, and there are enough of them."""

import csv
from pathlib import Path

from jobsheets.standards import tables

from .figures import TABLES, pairs
from .published import HERE, rows
from .validation_page import PAGE, text

LEAST = 400


def test_the_page_is_current() -> None:
    current = text()
    assert PAGE.read_text(encoding="utf-8") == current, "run: python -m tests.published.validation_page"


def test_there_are_enough_published_check_values() -> None:
    """Read on a page or remembered from a named source; what was worked out apart does not count."""
    published = 0
    for _, file, ours in TABLES:
        if ours is not None:
            seen = {row.get("seen") for row in rows(file)} - {"computed"}
            published += len(pairs(file, ours)) if seen and file != "cutting_speed_ranges.csv" else 0
    assert published >= LEAST


def test_data_and_its_check_are_never_the_same_row() -> None:
    """No check row repeats the cells of a data row."""
    data = {
        frozenset(cell for cell in cells if cell)
        for path in Path(tables.DATA).glob("*.csv")
        for cells in _cells(path)
    }
    for path in sorted(HERE.glob("*.csv")):
        same = [cells for cells in _cells(path) if frozenset(cell for cell in cells if cell) in data]
        assert same == [], path.name


def _cells(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))[1:]
