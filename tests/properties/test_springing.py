"""Spring passes of turned sizes: where they stand, that they cut nothing by the readings, and their audit."""

from functools import cache

import pytest
from msgspec.structs import replace

from jobsheets import job
from jobsheets.planner import replay
from jobsheets.planner.operation import Motion, Operation, Plan, RowKind
from jobsheets.planner.plan import plan, prove
from jobsheets.planner.replay_frame import Bench, ReplayFault
from tests.properties import test_planner_mutation as mutation
from tests.properties.planned import RECIPES, planned

SLIM = "threaded-mandrel"
STRICT = 0.002  # share of the limits that bending may take: far less than this stud gives


@cache
def strict(count: int = 2) -> Plan:
    done = planned(SLIM)
    house = replace(done.shop.house, bend_share=STRICT, spring_passes=count)
    return plan(done.part, replace(done.shop, house=house))


def sprung(done: Plan) -> list[Operation]:
    return [
        op
        for op in done.operations
        if op.motion is Motion.TURN and any(row.kind is RowKind.SPRING for row in op.rows)
    ]


@pytest.mark.parametrize("count", [1, 2, 3])
def test_both_last_cuts_are_sprung_alike_and_read_after_the_last_pass(count):
    (op,) = sprung(strict(count))
    again = [RowKind.SPRING] * count
    assert [row.kind for row in op.rows] == [
        RowKind.TOUCH, RowKind.MEASURE, *again, RowKind.FINISH, *again,
    ]  # fmt: skip
    for above, row in zip(op.rows[1:], op.rows[2:], strict=False):
        if row.kind is RowKind.SPRING:
            assert (row.x, row.z, row.diameter, row.depth) == (above.x, above.z, above.diameter, 0.0)
    assert [n for n, row in enumerate(op.rows) if row.box] == [1 + count, 2 + count]
    bending = op.figure("bending")
    assert bending.value > bending.wanted * 1.02
    assert len(prove(strict(count))) == len(strict(count).operations) + 1


def test_a_spring_pass_leaves_the_work_as_it_was_and_costs_its_time():
    done = strict()
    (op,) = sprung(done)
    k = done.operations.index(op)
    plain = replace(op, rows=tuple(row for row in op.rows if row.kind is not RowKind.SPRING))
    work, bench, setup = done.states[k], Bench(done.part, done.shop), done.setup(op.setup)
    assert replay.replay_outside.turn(bench, setup, op, work) == replay.replay_outside.turn(
        bench, setup, plain, work
    )
    (none,) = [o for o in strict(0).operations if o.id == op.id]
    assert op.cutting_minutes == pytest.approx(3.0 * none.cutting_minutes)  # 2 cuts and 4 springs


def test_no_spring_pass_where_the_limits_have_room_or_the_house_wants_none():
    assert sprung(strict(0)) == []
    for recipe in RECIPES:
        for op in sprung(planned(recipe)):
            assert op.figure("bending").value > op.figure("bending").wanted


def test_a_number_of_a_spring_pass_changed_is_caught():
    assert mutation.survivors(mutation.one_number(strict())) == []


@pytest.mark.parametrize("gone", [2, 3, 5, 6])
def test_a_spring_pass_dropped_is_caught(gone):
    (op,) = sprung(strict())
    assert op.rows[gone].kind is RowKind.SPRING
    short = replace(op, rows=(*op.rows[:gone], *op.rows[gone + 1 :]))
    with pytest.raises(ReplayFault, match="asks for 2 spring passes"):
        prove(mutation.with_operation(strict(), short))


def test_a_spring_pass_that_nothing_asks_for_is_caught():
    done = planned(SLIM)
    op = next(op for op in done.operations if op.id.endswith(".finish"))
    again = replace(op.rows[-1], kind=RowKind.SPRING, depth=0.0, box=False)
    with pytest.raises(ReplayFault, match="asks for 0 spring passes"):
        prove(mutation.with_operation(done, replace(op, rows=(*op.rows, again))))


def test_the_sheet_prints_them_and_the_caution_names_them():
    text = " ".join(job.printed(strict(), form="text", system="in").decode().split())
    assert text.count("[ ] spring;") == 4
    assert "read the size after the last of them" in text
    assert "A keen edge and the spring passes of the rows" in text
