"""Values that cannot be are refused, and the refusal names a cure."""

import re
from collections.abc import Callable

import pytest

from jobsheets.cutting import (
    deflection,
    drill,
    finish,
    force,
    hole_force,
    knurl,
    removal,
    shape,
    speeds,
    times,
    torsion,
    unit_power,
    whip,
)
from jobsheets.cutting.deflection import Section

REFUSALS: dict[str, tuple[Callable[[], object], str]] = {
    "no diameter": (lambda: speeds.spindle_speed(20.0, 0.0), "diameter 0: want a number above zero"),
    "not a number": (lambda: speeds.surface_speed(float("nan"), 10.0), "want a number above zero"),
    "chip too thin": (lambda: force.specific_force(2000.0, 0.2, 0.001), "change the feed"),
    "chip too thick": (lambda: force.specific_force(2000.0, 0.2, 3.0), "change the feed"),
    "edge beyond square": (lambda: force.chip_thickness(0.1, 95.0), "up to 90 degrees"),
    "no such exponent": (lambda: force.specific_force(2000.0, 0.7, 0.1), "want 0 to 0.5"),
    "efficiency above 1": (lambda: force.motor_power(100.0, 1.2), "a belt drive has 0.90"),
    "sharper than sharp": (lambda: force.depth_for_motor(500, 0.7, 30, 0.1, 2000, 0.9), "want 1.0"),
    "radial share": (lambda: force.passive_force(100.0, 2.0), "0.3 to 0.5"),
    "feed off the table": (lambda: unit_power.feed_factor(2.0), "use the specific force"),
    "no wall": (lambda: deflection.second_moment(10.0, 10.0), "use a smaller bore"),
    "tool past the centre": (
        lambda: deflection.between_centres(1.0, 11.0, 10.0, 205.0, 1.0),
        "move it back",
    ),
    "no section": (lambda: deflection.stepped_cantilever(1.0, [], 205.0), "at least one"),
    "load past the end": (
        lambda: deflection.stepped_cantilever(1.0, [Section(length=5.0, diameter=5.0)], 205.0, 6.0),
        "add a section",
    ),
    "bar ends": (lambda: whip.critical_speed(500, 12, 205, 7850, "loose"), "cantilever, supported"),
    "flat drill": (lambda: drill.point_length(5.0, 200.0), "usually 118 or 135"),
    "hole too deep": (lambda: drill.peck_schedule(2.0, 100.0), "drill from both ends"),
    "feed off the nose": (lambda: finish.height(0.5, 0.4), "larger nose"),
    "too smooth to be true": (lambda: finish.feed_for(1.6, 0.4, 0.5), "1.2 to 3"),
    "inside out": (lambda: times.facing_time(10.0, 12.0, 0.1, 500.0), "swap or mend"),
    "no pass": (lambda: times.threading_time(0, 10.0, 1.0, 100.0), "at least one"),
    "nothing to turn": (lambda: removal.turning_exact(10.0, 10.0, 0.1, 500.0), "must be the larger"),
    "cut wider than cutter": (lambda: removal.thinning(6.0, 7.0), "take two cuts"),
    "off the ball": (lambda: shape.ball_diameter(5.0, 11.0), "want 0 to 10 mm"),
    "too many steps": (lambda: shape.ball_steps(30.0, 0.01), "take a step of"),
    "steep taper": (lambda: shape.tailstock_offset(30.0, 10.0, 20.0, 100.0), "with the compound"),
    "taper upside down": (lambda: shape.half_angle(5.0, 10.0, 20.0), "swap them"),
    "steep infeed": (lambda: shape.fine_feed_angle(1.5), "usually 0.1"),
    "thick neck": (lambda: shape.cap_height(5.0, 11.0), "make it thinner"),
    "blank too small": (lambda: knurl.circular_blank(2.0, 1.0), "take a finer knurl"),
    "odd knurl": (lambda: knurl.diametral_blank(12.0, 100), "64, 96, 128, 160"),
    "coarse pitch": (lambda: hole_force.tap_torque(4.0, 5.0, 2000.0), "use a finer pitch"),
    "sharper than a new tap": (lambda: hole_force.tap_torque(1.0, 6.0, 2000.0, 0.5), "want 1.0"),
    "drill too large": (lambda: hole_force.drill_torque(24000.0, 0.1, 60.0), "bore the hole"),
    "hollow rod": (lambda: torsion.twist_off(5.0, 300.0, 5.0), "use a smaller bore"),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_refused_with_a_cure(name: str) -> None:
    ask, cure = REFUSALS[name]
    with pytest.raises(ValueError, match=re.escape(cure)):
        ask()
