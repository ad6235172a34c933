"""A blind thread in an end nut and a collar that is not what it says: printed figures beside ours.

Settings of other collars, worked by hand, are in tests/unit/test_shop_dials.py.
"""

from collections.abc import Callable

import pytest

from jobsheets.cutting.drill import blind_depth, point_length, tip_depth
from jobsheets.shop.dials import Reading, travel
from jobsheets.shop.machines import Dial, Reads
from jobsheets.standards import threads
from jobsheets.standards.thread_blank import die_blank

from .published import half_last_place, rows
from .test_thread_form import thread_of

IN = 25.4
TABLE = rows("stack_and_dials.csv")
Given = dict[str, str]


def size(given: Given, name: str) -> float:
    """A given size in mm; the table has inches."""
    return IN * float(given[name])


def full_diameter(given: Given, margin: float = 1.0) -> float:
    return blind_depth(size(given, "full"), float(given["threads"]), IN / float(given["tpi"]), margin)


def lead(given: Given) -> float:
    """What the lead adds to a hole: its depth with the lead, less its depth without."""
    pitch = IN / float(given["tpi"])
    return blind_depth(IN, float(given["threads"]), pitch, 1.0) - blind_depth(IN, 0.0, pitch, 1.0)


def tip(given: Given) -> float:
    return tip_depth(full_diameter(given), size(given, "drill"), float(given["angle"]))


def wall(given: Given) -> float:
    return size(given, "head") + size(given, "spigot") - tip(given)


def blank(given: Given) -> float:
    thread = thread_of(given["thread"])
    return die_blank(thread, threads.limits(thread, threads.default_class(thread, external=True))).target


def point(given: Given) -> float:
    return point_length(size(given, "drill"), float(given["angle"]))


def collar(given: Given) -> Dial:
    return Dial(
        axis="cross slide",
        per_turn=float(given["screw"]),
        divisions=float(given["divisions"]),
        label="0.001 in",
        reads=Reads.RADIUS,
        backlash=0.1,
        travel=100.0,
    )


def turn(given: Given) -> float:
    return travel(collar(given), Reading(turns=1, divisions=0.0))


def division(given: Given) -> float:
    return travel(collar(given), Reading(turns=0, divisions=1.0))


OURS: dict[str, Callable[[Given], float]] = {
    "lead of a bottoming tap": lead,
    "point of the drill": point,
    "depth of the drill's tip": tip,
    "wall over the point": wall,
    "blank of an 8-32 rod": blank,
    "depth of a blind hole": full_diameter,
    "point of a drill of one unit": point,
    "one turn of a 1 mm screw": turn,
    "one division of a 1 mm screw": division,
}


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row["case"])
def test_figure_as_printed(row):
    given = dict(pair.split("=") for pair in row["given"].split())
    ours = OURS[row["what"]](given) / IN
    assert ours == pytest.approx(float(row["printed"]), abs=half_last_place(row["printed"]), rel=0.0)


def test_the_rows_are_all_there():
    assert {row["what"] for row in TABLE} == set(OURS)
    assert len({row["case"] for row in TABLE}) == len(TABLE)
