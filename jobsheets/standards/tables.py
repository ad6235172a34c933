"""Published tables: CSV files in data/, read once, and refused when they are not fit to trust.

Every row names its source. A repeated key or a size out of order is a slip of the pen that would give a wrong
number at the machine, so it stops the program when the table is read.
"""

import csv
import os.path
from collections.abc import Iterator
from functools import cache
from operator import itemgetter

# A plain text: the import of pathlib is half of a bare start of the interpreter.
DATA = os.path.join(os.path.dirname(__file__), "data")  # noqa: PTH118, PTH120


@cache
def load(
    name: str, key: tuple[str, ...], ascending: tuple[str, ...] | None = None
) -> tuple[dict[str, str], ...]:
    """All rows of data/NAME.csv in the order of the file, cells as text.

    Args:
        name: file name without its ending.
        key: columns that together tell one row from every other.
        ascending: columns of which the last holds numbers that never fall from row to row, as long as the
            columns before it stay the same: ("system", "major").

    Returns:
        One dict per row, shared between callers: read it, never change it.

    Raises:
        ValueError: a row without source, a cell too few or too many, a repeated key, a size out of order.
        FileNotFoundError: no such table.
    """
    with open(f"{DATA}/{name}.csv", encoding="utf-8", newline="") as file:  # noqa: PTH123
        rows = tuple(_rows(name, csv.reader(file)))
    _check(name, rows, key)
    if ascending:
        _check_order(name, rows, ascending)
    return rows


def _rows(name: str, lines: Iterator[list[str]]) -> Iterator[dict[str, str]]:
    columns = next(lines, [])
    for cells in lines:
        if len(cells) != len(columns):
            raise ValueError(f"data/{name}.csv: more or fewer cells than columns in {cells}")
        yield dict(zip(columns, cells, strict=True))


def _check(name: str, rows: tuple[dict[str, str], ...], key: tuple[str, ...]) -> None:
    of = itemgetter(*key)
    seen: set[object] = set()
    for row in rows:
        this = of(row)
        sourced = row.get("source", "").strip()
        if sourced and this not in seen:
            seen.add(this)
            continue
        told = ", ".join(row[column] for column in key)
        if sourced:
            raise ValueError(f"data/{name}.csv: two rows for {told}; keep one")
        raise ValueError(f"data/{name}.csv: no source for {told}; name where it was published")


def _check_order(name: str, rows: tuple[dict[str, str], ...], ascending: tuple[str, ...]) -> None:
    *group, size = ascending
    before: tuple[list[str], float] | None = None
    for row in rows:
        this = [row[column] for column in group], float(row[size])
        if before and this[0] == before[0] and this[1] < before[1]:
            raise ValueError(f"data/{name}.csv: {size} {row[size]} follows {before[1]:g}; put it in order")
        before = this
