"""A plan with one number changed, one operation dropped or two swapped is caught, in every shipped recipe."""

from collections.abc import Iterator

import pytest
from msgspec.structs import replace

from jobsheets.part.turned import End
from jobsheets.planner.operation import Motion, Operation, Plan, Row, RowKind
from jobsheets.planner.order import order
from jobsheets.planner.plan import prove
from jobsheets.planner.replay_frame import Bench, ReplayFault, dial_of
from jobsheets.shop.dials import Reading, reading, travel
from jobsheets.shop.machines import Dial
from tests.properties.planned import RECIPES, planned

CHANGES = (-2.5, -1.0, 1.0)  # mm
PRINTED = (("diameter", 0.1), ("at", -0.1), ("depth", 0.1), ("turns", 0.25), ("turns", -1.0))
every_recipe = pytest.mark.parametrize("recipe", RECIPES)


def with_operation(plan: Plan, op: Operation) -> Plan:
    return replace(plan, operations=tuple(op if o.id == op.id else o for o in plan.operations))


def with_row(plan: Plan, op: Operation, k: int, row: Row) -> Plan:
    return with_operation(plan, replace(op, rows=(*op.rows[:k], row, *op.rows[k + 1 :])))


def caught(plan: Plan) -> bool:
    try:
        prove(plan)
    except ReplayFault:
        return True
    return False


def survivors(mutants: Iterator[tuple[str, Plan]]) -> list[str]:
    """Names of the broken plans that passed; an empty run is no proof."""
    names = [(name, caught(plan)) for name, plan in mutants]
    assert names
    return [name for name, found in names if not found]


def dial(plan: Plan, op: Operation, axis: str) -> Dial:
    return dial_of(Bench(plan.part, plan.shop), op, axis)


def moved(dial: Dial, at: Reading, divisions: int) -> Reading | None:
    far = travel(dial, at) + divisions * dial.step
    return reading(dial, far) if far >= 0.0 else None


@every_recipe
def test_every_plan_proves_itself(recipe):
    assert len(prove(planned(recipe))) == len(planned(recipe).operations) + 1


def one_number(plan: Plan) -> Iterator[tuple[str, Plan]]:
    """Each number of each row, changed alone by a little and by more."""
    for op in plan.operations:
        for k, row in enumerate(op.rows):
            for axis, name in (("x", op.x_dial), ("z", op.z_dial)):
                at = getattr(row, axis)
                for by in (-2, 1, 3) if at is not None else ():
                    other = moved(dial(plan, op, name), at, by)
                    if other is not None:
                        yield (
                            f"{op.id}[{k}].{axis}{by:+d}",
                            with_row(plan, op, k, replace(row, **{axis: other})),
                        )
            for what, by in (
                ("diameter", 0.1),
                ("at", -0.1),
                ("depth", 0.1),
                ("turns", 0.25),
                ("turns", -1.0),
            ):
                value = getattr(row, what)
                if value is not None:
                    yield f"{op.id}[{k}].{what}", with_row(plan, op, k, replace(row, **{what: value + by}))


@every_recipe
def test_one_number_changed_in_a_row_is_caught(recipe):
    assert survivors(one_number(planned(recipe))) == []


def reading_with_print(plan: Plan) -> Iterator[tuple[str, Plan]]:
    """The reading of a last cut changed together with every size printed beside it.

    The changes are wider than the limits of any size in the shipped recipes, and wider than the margins of
    their holes. Nothing but the geometry of the part can object.
    """
    for op in plan.operations:
        k, row = len(op.rows) - 1, op.rows[-1]
        for by in CHANGES:
            if row.z is not None and row.kind is not RowKind.TOUCH:
                lengthwise = dial(plan, op, op.z_dial)
                far = travel(lengthwise, row.z) + round(by / lengthwise.step) * lengthwise.step
                if far <= 0.0:
                    continue
                told = {"z": reading(lengthwise, far)}
                if row.at is not None:
                    told["at"] = far
                if row.depth is not None and op.motion in (Motion.SPOT, Motion.MOUTH, Motion.CHAMFER):
                    told["depth"] = far
                yield f"{op.id}.z{by:+g}", with_row(plan, op, k, replace(row, **told))
            if row.x is not None and row.diameter:
                cross = dial(plan, op, op.x_dial)
                steps = round(by / cross.step) * cross.step
                if travel(cross, row.x) + steps < 0.0:
                    continue
                grows = op.motion is Motion.BORE
                told = {
                    "x": reading(cross, travel(cross, row.x) + steps),
                    "diameter": row.diameter + (2.0 if grows else -2.0) * steps,
                    "depth": (row.depth or 0.0) + steps,
                }
                yield f"{op.id}.x{by:+g}", with_row(plan, op, k, replace(row, **told))


def harmless(plan: Plan, op: Operation, by: float) -> bool:
    """Changes that leave the same part, each by rule and not by name."""
    if op.motion is Motion.SPOT:
        return True  # the drill that follows takes the trace of the spot away
    if op.motion is Motion.TURN and not any(hold.id.endswith(".length") for hold in op.holds):
        # No shoulder is made here: what lies behind is parted off, turned smaller later, or cut once more.
        a, b = plan.part.span(op.feature)
        end = b if plan.setup(op.setup).out is End.FRONT else plan.part.length - a
        return by > 0.0 or (op.rows[-1].at or 0.0) + by > end - 0.1
    through = {hole.id for hole in plan.part.holes if hole.depth is None}
    # Behind a through hole too; and a cut that still comes out of the parted face has made the hole.
    return op.feature in through and (op.rows[-1].at or 0.0) + by > plan.stock.part - 0.1


@every_recipe
def test_a_reading_changed_with_what_is_printed_beside_it_is_caught(recipe):
    plan = planned(recipe)
    allowed = {f"{op.id}.z{by:+g}" for op in plan.operations for by in CHANGES if harmless(plan, op, by)}
    assert [name for name in survivors(reading_with_print(plan)) if name not in allowed] == []


@every_recipe
def test_an_operation_dropped_is_caught(recipe):
    """A gap in the numbers would give it away, so the rest is numbered anew."""
    plan = planned(recipe)

    def without(gone: Operation) -> Plan:
        left = [op for op in plan.operations if op is not gone]
        setups = tuple(s for s in plan.setups if any(op.setup == s.id for op in left))
        numbered = tuple(replace(op, number=10 * k) for k, op in enumerate(left, start=1))
        return replace(plan, operations=numbered, setups=setups)

    assert survivors((op.id, without(op)) for op in plan.operations) == []


@every_recipe
def test_two_operations_swapped_against_their_order_are_caught(recipe):
    plan = planned(recipe)
    at = {op.id: k for k, op in enumerate(plan.operations)}

    def swapped(before: str, after: str) -> Plan:
        ops = list(plan.operations)
        i, j = at[before], at[after]
        ops[i], ops[j] = ops[j], ops[i]
        return replace(
            plan, operations=tuple(replace(op, number=10 * k) for k, op in enumerate(ops, start=1))
        )

    assert survivors((f"{b.before} > {b.after}", swapped(b.before, b.after)) for b in plan.order) == []


def figures_changed(plan: Plan) -> Iterator[tuple[str, Plan]]:
    for op in plan.operations:
        for k, figure in enumerate(op.figures):
            for share in (0.93, 1.07):
                other = replace(figure, value=figure.value * share)
                changed = (*op.figures[:k], other, *op.figures[k + 1 :])
                yield f"{figure.id} x {share}", with_operation(plan, replace(op, figures=changed))


@every_recipe
def test_a_figure_changed_is_caught(recipe):
    """Speeds that the machine lacks, feeds it has no gear for, sizes that the rows do not make."""
    assert survivors(figures_changed(planned(recipe))) == []


def hold_points_changed(plan: Plan) -> Iterator[tuple[str, Plan]]:
    for op in plan.operations:
        for k, hold in enumerate(op.holds):
            for what in ("low", "high", "aim") if hold.unit == "mm" else ():
                other = replace(hold, **{what: getattr(hold, what) + 0.15})
                changed = (*op.holds[:k], other, *op.holds[k + 1 :])
                yield f"{hold.id}.{what}", with_operation(plan, replace(op, holds=changed))


@every_recipe
def test_a_limit_or_aim_changed_is_caught(recipe):
    assert survivors(hold_points_changed(planned(recipe))) == []


def stock_and_holding_changed(plan: Plan) -> Iterator[tuple[str, Plan]]:
    for what in ("diameter", "length", "grip", "facing", "part", "part_off", "kerf", "clearance", "saw"):
        yield (
            f"stock.{what}",
            replace(plan, stock=replace(plan.stock, **{what: getattr(plan.stock, what) + 0.4})),
        )
    for k, setup in enumerate(plan.setups):
        for what in ("grip", "stick_out", "diameter") if setup.place.value == "lathe" else ():
            if setup.holding.kind.value == "threaded mandrel" and what != "stick_out":
                continue  # the mandrel's own sizes, from the shop file; no work is gripped on them
            held = replace(setup.holding, **{what: getattr(setup.holding, what) + 0.4})
            changed = (*plan.setups[:k], replace(setup, holding=held), *plan.setups[k + 1 :])
            yield f"{setup.id}.{what}", replace(plan, setups=changed)


@every_recipe
def test_a_number_of_stock_or_holding_changed_is_caught(recipe):
    assert survivors(stock_and_holding_changed(planned(recipe))) == []


def test_a_speed_that_the_lathe_lacks_is_named():
    plan = planned("plain-end-nut")
    op = next(o for o in plan.operations if o.id == "front.face")
    figures = tuple(replace(f, value=640.0) if f.id.endswith(".speed") else f for f in op.figures)
    with pytest.raises(ReplayFault, match="has no speed of 640 rev/min"):
        prove(with_operation(plan, replace(op, figures=figures)))


def test_the_order_search_is_given_back_by_the_plan():
    plan = planned("capped-nut-body")
    again = order(plan.operations, plan.setups, plan.part.pins)
    assert [op.id for op in again.operations] == [op.id for op in plan.operations]
