"""A screwcut thread with one number changed is caught, however it is fed in and wherever it ends."""

from functools import cache

import pytest
from msgspec.structs import replace

from jobsheets.planner.operation import Plan
from jobsheets.planner.plan import plan
from tests.properties import test_planner_mutation as mutation
from tests.unit import test_screwcutting as case

HOUSES = {
    "straight": {"thread_swivel": 0.0},
    "side shift": {"thread_side_shift": True},
    "falling": {"thread_falling": True},
}


def nut(through: bool) -> Plan:
    body = case.nut("M10x1", through=through)
    head = replace(body.segments[0], diameter=body.rod, as_stock=True)
    return plan(replace(body, segments=(head,)), case.longer(case.shop("mm")))


CASES = {
    **{
        f"{name}, {system}": lambda house=house, system=system: plan(
            case.part(case.INCH if system == "in" else case.METRIC),
            case.with_house(case.shop(system), **house),
        )
        for name, house in HOUSES.items()
        for system in ("in", "mm")
    },
    "shoulder": lambda: plan(case.without_groove(case.part(case.METRIC)), case.slim_tool(case.shop("mm"))),
    "near train": lambda: plan(case.part(case.METRIC), case.shop("in")),
    "two starts": lambda: plan(case.with_thread(case.part(case.METRIC), starts=2), case.shop("mm")),
    "left hand": lambda: plan(case.with_thread(case.part(), left=True), case.shop("in")),
    "blind nut": lambda: nut(False),
    "through nut": lambda: nut(True),
}
planned = cache(lambda name: CASES[name]())
every_case = pytest.mark.parametrize("name", CASES)


@every_case
def test_one_number_changed_in_a_row_is_caught(name):
    assert mutation.survivors(mutation.one_number(planned(name))) == []


@every_case
def test_a_figure_changed_is_caught(name):
    assert mutation.survivors(mutation.figures_changed(planned(name))) == []


@every_case
def test_a_limit_or_aim_changed_is_caught(name):
    assert mutation.survivors(mutation.hold_points_changed(planned(name))) == []
