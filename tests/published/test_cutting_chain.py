"""One turning cut from surface speed to diameter error, worked by hand step by step, and met at each step."""

from collections.abc import Callable

import pytest

from jobsheets.cutting import deflection, force, speeds, stepped, unit_power
from jobsheets.cutting.deflection import Section

from .published import half_last_place, rows

Given = dict[str, float]


def _plain(g: Given) -> float:
    return deflection.cantilever(g["F"], g["L"], g["E"], deflection.second_moment(g["D"]))


def _stepped(g: Given) -> float:
    steps = (Section(length=g["L1"], diameter=g["D1"]), Section(length=g["L2"], diameter=g["D2"]))
    return g["F"] * stepped.under_load(steps, g["E"], g["L1"] + g["L2"])


STEPS: dict[str, Callable[[Given], float]] = {
    "speed": lambda g: speeds.spindle_speed(g["v"], g["D"]),
    "specific": lambda g: unit_power.unit_power_to_specific_force(g["Kp"], g["f"]),
    "force": lambda g: force.cutting_force(g["kc"], 0.0, g["ap"], g["f"]),
    "power": lambda g: force.cutting_power(g["Fc"], g["v"]),
    "motor": lambda g: force.motor_power(g["Pc"], g["E"]),
    "torque": lambda g: force.torque(g["P"], g["n"]),
    "radial": lambda g: force.passive_force(g["Fc"]),
    "plain": _plain,
    "error": lambda g: deflection.diameter_error(g["delta"]),
    "stepped": _stepped,
}
CHAIN = rows("cutting_chain.csv")


@pytest.mark.parametrize("row", CHAIN, ids=lambda row: row["step"])
def test_a_step_of_the_chain(row):
    given = {name: float(value) for name, value in (pair.split("=") for pair in row["given"].split())}
    assert STEPS[row["step"]](given) == pytest.approx(
        float(row["printed"]), abs=half_last_place(row["printed"])
    )


def test_every_step_is_checked():
    assert {row["step"] for row in CHAIN} == set(STEPS)


def test_torque_is_force_times_radius_too():
    """The same torque by the other way round: 125.82 N on a radius of 10 mm."""
    assert force.torque(force.cutting_power(125.82, 30.0), 477.4648) == pytest.approx(1.2582, abs=5e-5)
