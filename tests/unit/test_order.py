"""The order of work: edges from facts, the maker's pins, rings, fewest changes of tool and machine."""

from itertools import pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobsheets.part.turned import End, Pin
from jobsheets.planner.operation import (
    Because,
    Cutter,
    Holding,
    HoldingKind,
    Motion,
    Need,
    Operation,
    Place,
    Setup,
)
from jobsheets.planner.order import Ordered, OrderError, broken, edges, order

HAND = Holding(
    kind=HoldingKind.CHUCK,
    name="chuck",
    on="bar",
    grip=10.0,
    stick_out=20.0,
    diameter=12.0,
    runout=0.05,
    max_rpm=2000.0,
)


def setup(name: str = "bar", place: Place = Place.LATHE, requires: tuple[str, ...] = ()) -> Setup:
    return Setup(
        id=name,
        place=place,
        machine=place.value,
        title=name,
        holding=HAND,
        out=End.FRONT,
        grip_from=0.0,
        grip_to=10.0,
        requires=tuple(Need(fact=fact, because=f"{name} wants {fact}") for fact in requires),
    )


def op(
    name: str,
    needs: tuple[str, ...] = (),
    makes: tuple[str, ...] = (),
    spoils: tuple[str, ...] = (),
    tool: str = "knife tool",
    where: str = "bar",
    rank: int = 0,
    motion: Motion = Motion.TURN,
) -> Operation:
    """An operation called feature.verb."""
    return Operation(
        id=name,
        setup=where,
        place=Place.LATHE,
        motion=motion,
        feature=name.split(".")[0],
        title=name,
        cutter=Cutter(name=tool, group="turning tool"),
        needs=tuple(Need(fact=fact, because=f"{name} needs {fact}") for fact in needs),
        makes=makes,
        spoils=tuple(Need(fact=fact, because=f"{name} spoils {fact}") for fact in spoils),
        rank=rank,
    )


BAR = setup()


def ids(ordered: Ordered) -> list[str]:
    return [one.id for one in ordered.operations]


# Edges.


def test_a_maker_stands_before_who_needs_its_fact():
    ops = (op("neck.finish", needs=("neck roughed",)), op("neck.rough", makes=("neck roughed",)))
    (edge,) = edges(ops, (BAR,), ())
    assert edge == Because(before="neck.rough", after="neck.finish", why="neck.finish needs neck roughed")
    assert ids(order(ops, (BAR,))) == ["neck.rough", "neck.finish"]


def test_all_makers_of_a_fact_stand_before_who_needs_it():
    ops = (op("a.cut", makes=("hole",)), op("b.cut", makes=("hole",)), op("c.tap", needs=("hole",)))
    assert {(e.before, e.after) for e in edges(ops, (BAR,), ())} == {("a.cut", "c.tap"), ("b.cut", "c.tap")}


def test_who_spoils_a_fact_stands_after_who_needs_it():
    ops = (
        op("bar.part_off", spoils=("held",)),
        op("neck.turn", needs=("held",)),
        op("front.face", makes=("held",)),
    )
    found = {(e.before, e.after): e.why for e in edges(ops, (BAR,), ())}
    assert found["neck.turn", "bar.part_off"] == "bar.part_off spoils held"
    assert ids(order(ops, (BAR,))) == ["front.face", "neck.turn", "bar.part_off"]


def test_an_operation_does_not_wait_for_itself():
    ops = (op("a.cut", needs=("x",), makes=("x",), spoils=("x",)),)
    assert edges(ops, (BAR,), ()) == ()


def test_a_setup_asks_its_facts_of_every_operation_in_it():
    turned = setup("turned", requires=("parted",))
    ops = (op("a.face", where="turned"), op("b.edge", where="turned"), op("bar.part", makes=("parted",)))
    found = edges(ops, (BAR, turned), ())
    assert [(e.before, e.after, e.why) for e in found] == [
        ("bar.part", "a.face", "turned wants parted"),
        ("bar.part", "b.edge", "turned wants parted"),
    ]


def test_a_fact_that_nothing_makes_is_refused():
    with pytest.raises(OrderError, match=r"neck\.finish needs 'neck roughed' and nothing makes it"):
        edges((op("neck.finish", needs=("neck roughed",)),), (BAR,), ())


# Pins.

GRIP = (
    op("grip.spot", makes=("grip spotted",)),
    op("grip.drill", needs=("grip spotted",), makes=("grip made",)),
    op("grip.deburr", needs=("grip made",), makes=("grip deburred",)),
    op("bar.part_off", makes=("parted off",), motion=Motion.PART_OFF),
)


@pytest.mark.parametrize("before", ["bar.part_off", "part_off"])
def test_a_pin_by_id_or_by_step_of_the_trade(before):
    pin = Pin(operation="grip.drill", before=before, why="the bar is the handle")
    found = edges(GRIP, (BAR,), (pin,))
    assert Because(before="grip.drill", after="bar.part_off", why="the bar is the handle") in found


def test_a_pin_by_feature_takes_what_makes_the_feature_stand():
    """Its spot and its burr are no feature."""
    pin = Pin(operation="grip", before="part_off", why="the bar is the handle")
    found = [e for e in edges(GRIP, (BAR,), (pin,)) if e.why == pin.why]
    assert [(e.before, e.after) for e in found] == [("grip.drill", "bar.part_off")]
    sequence = ids(order(GRIP, (BAR,), (pin,)))
    assert sequence.index("grip.drill") < sequence.index("bar.part_off")


def test_the_reason_of_a_pin_stands_where_the_facts_had_one():
    pin = Pin(operation="grip.spot", before="grip.drill", why="so I was taught")
    assert [e.why for e in edges(GRIP, (BAR,), (pin,)) if e.after == "grip.drill"] == ["so I was taught"]


def test_a_pin_that_names_nothing_is_refused_with_what_there_is():
    pin = Pin(operation="collar", before="part_off", why="habit")
    with pytest.raises(OrderError, match="'collar', which is no operation; features are bar, grip"):
        edges(GRIP, (BAR,), (pin,))


# Rings.


def test_a_ring_names_those_that_wait_and_no_other():
    ops = (
        op("front.face", makes=("faced",)),
        op("a.cut", needs=("b", "faced"), makes=("a",)),
        op("b.cut", needs=("a",), makes=("b",)),
    )
    with pytest.raises(OrderError, match=r"wait for each other: a\.cut, b\.cut$"):
        order(ops, (BAR,))


def test_a_pin_against_the_facts_is_a_ring():
    pin = Pin(operation="grip.deburr", before="grip.spot", why="habit")
    with pytest.raises(OrderError, match=r"wait for each other: grip\.spot, grip\.drill, grip\.deburr$"):
        order(GRIP, (BAR,), (pin,))


def test_a_setup_that_must_be_left_and_entered_again_is_refused():
    ops = (
        op("a.cut", makes=("a",)),
        op("b.cut", needs=("a",), makes=("b",), where="other"),
        op("c.cut", needs=("b",)),
    )
    with pytest.raises(OrderError, match="left and come back to; split it in two"):
        order(ops, (BAR, setup("other")))


def test_broken_names_the_rules_that_an_order_breaks():
    rules = edges(GRIP, (BAR,), ())
    assert broken(GRIP, rules) == ()
    spot, drill, deburr, part = GRIP
    assert [(b.before, b.after) for b in broken((drill, spot, deburr, part), rules)] == [
        ("grip.spot", "grip.drill")
    ]
    assert broken((drill, deburr), rules) == ()  # an operation that is not there breaks nothing


# Fewest changes.


def test_the_habit_of_the_trade_decides_between_equals():
    ops = (op("b.turn", rank=50), op("a.turn", rank=30), op("c.turn", rank=30))
    assert ids(order(ops, (BAR,))) == ["a.turn", "c.turn", "b.turn"]


def test_a_tool_is_not_put_away_while_it_can_still_cut():
    ops = (
        op("a.turn", rank=1),
        op("h.drill", tool="drill", rank=2),
        op("b.turn", rank=3),
    )
    found = order(ops, (BAR,))
    assert ids(found) == ["a.turn", "b.turn", "h.drill"]
    assert found.tool_changes == 2


def test_an_empty_setup_is_not_entered():
    found = order((op("a.turn"),), (BAR, setup("vice", Place.MILL)))
    assert [s.id for s in found.setups] == ["bar"]


@st.composite
def nets(draw: st.DrawFn) -> tuple[Operation, ...]:
    """Operations whose needs point only at earlier ones, given in any order: there is always an order."""
    count = draw(st.integers(2, 6))
    ops = []
    for k in range(count):
        needs = draw(st.sets(st.integers(0, k - 1), max_size=2)) if k else set()
        tool = draw(st.sampled_from(["knife tool", "drill", "blade"]))
        ops.append(
            op(
                f"f{k}.cut",
                tuple(f"fact {n}" for n in sorted(needs)),
                (f"fact {k}",),
                tool=tool,
                rank=draw(st.integers(0, 5)),
            )
        )
    return tuple(draw(st.permutations(ops)))


def changes(sequence: tuple[Operation, ...]) -> int:
    """Tools put in, the first one among them."""
    return 1 + sum(a.cutter.name != b.cutter.name for a, b in pairwise(sequence))


@settings(max_examples=80, deadline=None)
@given(nets())
def test_no_permutation_that_obeys_has_fewer_tool_changes(ops):
    found = order(ops, (BAR,))
    assert sorted(ids(found)) == sorted(one.id for one in ops)
    assert broken(found.operations, found.because) == ()
    assert found.tool_changes == changes(found.operations)
    obeying = [p for p in permutations(ops) if not broken(p, found.because)]
    assert found.tool_changes == min(changes(p) for p in obeying)


@settings(max_examples=50, deadline=None)
@given(nets())
def test_the_same_operations_give_the_same_order(ops):
    assert ids(order(ops, (BAR,))) == ids(order(ops, (BAR,)))


PLACES = st.lists(st.sampled_from(list(Place)), min_size=2, max_size=5)


@settings(max_examples=80, deadline=None)
@given(PLACES, st.data())
def test_no_order_of_setups_that_obeys_has_fewer_machine_changes(places, data):
    setups, ops = [], []
    for k, place in enumerate(places):
        waits = data.draw(st.sets(st.integers(0, k - 1), max_size=1)) if k else set()
        setups.append(setup(f"s{k}", place, tuple(f"fact {n}" for n in waits)))
        ops.append(op(f"f{k}.cut", (), (f"fact {k}",), where=f"s{k}"))
    mixed = tuple(data.draw(st.permutations(setups)))
    found = order(tuple(ops), mixed)
    moves = [a.place is not b.place for a, b in pairwise(found.setups)]
    by_setup = {one.setup: one for one in ops}

    def obeys(chosen: tuple[Setup, ...]) -> bool:
        return not broken(tuple(by_setup[s.id] for s in chosen), found.because)

    assert obeys(found.setups)
    least = min(sum(a.place is not b.place for a, b in pairwise(p)) for p in permutations(setups) if obeys(p))
    assert sum(moves) == least
