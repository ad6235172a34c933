"""Any part that a maker may write, in any shop: planned and proven, or stopped with a cure; nothing else."""

from math import isclose

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from jobsheets.finding import Finding, Severity
from jobsheets.part.turned import TurnedPart
from jobsheets.planner.audit_figures import exists
from jobsheets.planner.operation import Place, Plan
from jobsheets.planner.order import broken
from jobsheets.planner.plan import plan, prove
from jobsheets.planner.stop import Stopped
from jobsheets.shop.shop import Shop
from tests.properties.random_jobs import parts, shops

SLOW = (HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large)
# The same draws every time, so that a change of the planner turns this red; dice are thrown at night.
usual = settings(max_examples=150, deadline=None, derandomize=True, suppress_health_check=SLOW)
long = settings(max_examples=2000, deadline=None, suppress_health_check=SLOW)


def planned_or_stopped(part: TurnedPart, shop: Shop) -> Plan | tuple[Finding, ...]:
    """A plan, or the findings that stop it; anything else that is raised fails the test that asks."""
    try:
        return plan(part, shop)
    except Stopped as stopped:
        return stopped.findings


def holds_what_it_promises(part: TurnedPart, shop: Shop) -> None:
    made = planned_or_stopped(part, shop)
    if not isinstance(made, Plan):
        assert made
        assert all(f.severity is Severity.STOP and f.why and f.remedy for f in made)
        return
    assert prove(made) == made.states  # the printed rows cut the part, and every other number agrees
    assert broken(made.operations, made.order) == ()
    for op in made.operations:
        speed = op.figure("speed")
        machine = shop.mill if op.place is Place.MILL else shop.lathe
        assert speed is None or (machine is not None and exists(machine, speed.value))
        for hold in op.holds:
            assert hold.low - 1e-6 <= hold.aim <= hold.high + 1e-6  # rounding never leaves the limits
    for finding in made.findings:
        assert finding.why
        assert finding.remedy


@usual
@given(parts(), shops())
def test_random_parts_are_planned_and_proven_or_stopped(part, shop):
    holds_what_it_promises(part, shop)


@pytest.mark.nightly
@long
@given(parts(), shops())
def test_random_parts_by_the_thousand(part, shop):
    holds_what_it_promises(part, shop)


@usual
@given(parts(), shops())
def test_a_longer_stick_out_never_raises_depth_or_speed(part, shop):
    """Ten millimetres more between blade and jaws, everything else the same."""
    wide = replace(shop, house=replace(shop.house, jaw_clearance=shop.house.jaw_clearance + 10.0))
    short, far = planned_or_stopped(part, shop), planned_or_stopped(part, wide)
    if not isinstance(short, Plan) or not isinstance(far, Plan):
        return
    one, two = short.setups[0], far.setups[0]
    if one.holding.kind is not two.holding.kind or one.live_centre is not two.live_centre:
        return  # another holding, or the live centre that comes in where the work stands far out
    after = {op.id: op for op in far.operations}
    for op in short.in_setup(short.setups[0].id):
        other = after.get(op.id)
        if other is None or other.setup != op.setup:
            continue
        for name in ("speed", "depth_of_cut"):
            one, two = op.figure(name), other.figure(name)
            if one is not None and two is not None:
                assert two.value <= one.value or isclose(two.value, one.value)


@usual
@given(parts(), shops())
def test_a_plan_is_the_same_every_time(part, shop):
    assert planned_or_stopped(part, shop) == planned_or_stopped(part, shop)
