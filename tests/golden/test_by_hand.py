"""Plans of three shipped recipes against numbers worked by hand from the recipe, the shop and printed tables.

Every row of by_hand.csv was worked without the program, with its sum and source beside it; none was copied
from output. A number is met to half its last written place.
"""

import csv
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from jobsheets import job
from jobsheets.part.turned import Hole, Segment
from jobsheets.planner.operation import Operation, Plan, Row, RowKind
from jobsheets.sheet.view_numbers import pace

HERE = Path(__file__).parent


def rows() -> list[dict[str, str]]:
    with (HERE / "by_hand.csv").open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


@cache
def planned(recipe: str) -> Plan:
    part = job.load_part(recipe)
    outcome = job.work_out(part, job.load_shop(None, part.system))
    assert outcome.plan is not None, f"{recipe} is not planned"
    return outcome.plan


def live(plan: Plan, figure: str) -> float:
    """The number of the plan that a row names, `where: what`, in the base units."""
    where, what = figure.split(": ")
    kind, _, name = where.partition(" ")
    if where == "stock":
        return float(getattr(plan.stock, what))
    if kind == "setup":
        return float(getattr(next(s for s in plan.setups if s.letter == name).holding, what))
    if kind in ("segment", "hole"):
        pieces: tuple[Segment | Hole, ...] = plan.part.segments if kind == "segment" else plan.part.holes
        return float(getattr(next(p for p in pieces if p.id == name).diameter, what))
    return of_operation(plan, next(op for op in plan.operations if op.id == where), what)


def of_operation(plan: Plan, op: Operation, what: str) -> float:
    if what.startswith("row "):
        return of_row([r for r in op.rows if r.kind is not RowKind.TOUCH], *what.split()[1:])
    if what == "minutes":
        return op.cutting_minutes
    if what == "pace":
        return seconds_a_turn(plan, op)
    wanted, _, name = what.rpartition(" ")
    found = op.figure(name)
    assert found is not None, f"{op.id} has no figure {name}"
    value = found.wanted if wanted else found.value
    assert value is not None
    return value


def of_row(cuts: list[Row], number: str, *what: str) -> float:
    """Of the nth cut: its diameter or place, its turns by hand, or what is set on a handwheel."""
    value = cuts[int(number) - 1]
    for part in what:
        value = getattr(value, part)
    assert isinstance(value, int | float), f"{what} of row {number} is no number"
    return float(value)


def seconds_a_turn(plan: Plan, op: Operation) -> float:
    """As the sheet prints it, for the handwheel that feeds."""
    feed, speed = op.figure("feed"), op.figure("speed")
    assert feed is not None
    assert speed is not None
    lathe = plan.shop.lathe
    dials = (lathe.quill.dial, lathe.top_slide, lathe.carriage)
    dial = next(d for d in dials if d is not None and d.axis == op.z_dial)
    return float(pace(dial, feed.value, speed.value))


def half_last_place(text: str) -> float:
    exponent = Decimal(text).as_tuple().exponent
    assert isinstance(exponent, int), f"{text!r} is not a written number"
    return 0.5 * 10.0**exponent * (1.0 + 1e-6)


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['recipe']} {row['figure']}")
def test_worked_by_hand(row: dict[str, str]) -> None:
    assert row["sum"].strip(), "a number worked by hand shows its sum"
    assert row["source"].strip(), "a number worked by hand names its source"
    got = live(planned(row["recipe"]), row["figure"])
    assert got == pytest.approx(float(row["value"]), rel=0, abs=half_last_place(row["value"])), row["sum"]


def test_each_recipe_and_kind_is_worked() -> None:
    """A row that went missing would be no failure of its own."""
    worked = rows()
    assert {row["recipe"] for row in worked} == {
        "stepped-end-nut",
        "domed-end-nut-metric",
        "threaded-mandrel",
    }
    kinds = ("speed", "feed", "pace", "force", "power", "torque", "thrust", "bending", "turns", "diameter")
    assert all(any(kind in row["figure"] for row in worked) for kind in kinds)
    assert len({(row["recipe"], row["figure"]) for row in worked}) == len(worked) >= 40
