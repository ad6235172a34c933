"""Short sums done by hand, for the formulas that no textbook example of ours reaches."""

from math import cos, cosh, pi, tan, tanh

import pytest
from scipy.optimize import brentq

from jobsheets.cutting import (
    deflection,
    drill,
    finish,
    force,
    hole_force,
    knurl,
    removal,
    shape,
    times,
    torsion,
    whip,
)

SUMS = {
    "100 x 10^3 / 12": (deflection.second_moment_rectangle(100.0, 10.0), 8333.333),
    "a bar is a cantilever": (
        deflection.boring_bar(50.0, 40.0, 10.0, 205.0),
        50.0 * 40.0**3 / (3.0 * 205000.0 * 490.8739),
    ),
    "half of a force": (force.passive_force(300.0), 150.0),
    "0.3 of a force": (force.passive_force(300.0, 0.3), 90.0),
    "parting 12 mm at 0.05 and 400": (times.parting_time(12.0, 0.0, 0.05, 400.0), 0.3),
    "parting into a 4 mm hole": (times.parting_time(12.0, 4.0, 0.05, 400.0), 0.2),
    "tap in and out, 10 mm at 1 mm and 100": (times.tapping_time(10.0, 1.0, 100.0), 0.2),
    "5 passes of 20 mm at 1 mm and 100, half a minute back": (
        times.threading_time(5, 20.0, 1.0, 100.0, 0.5),
        3.5,
    ),
    "a quarter of 12": (drill.pilot_diameter(12.0), 3.0),
    "web of 10": (drill.web_thickness(10.0), 1.55),
    "half a pitch": (knurl.chamfer(0.8), 0.4),
    "3-4-5 flat": (shape.flat_width(10.0, 2.0), 8.0),
    "3-4-5 face mill": (removal.face_approach(10.0, 8.0), 2.0),
    "drill of 8 at 0.2, kc 1000 whatever the chip": (
        hole_force.drill_torque_kienzle(1000.0, 0.0, 0.2, 8.0),
        1.6,
    ),
    "nose of 1 mm, end edge at 30 degrees": (finish.largest_feed(1.0, 30.0), 1.0),
    "twist of 10 mm at 100 MPa": (torsion.twist_off(10.0, 100.0), 19.6350),
}


@pytest.mark.parametrize("name", SUMS)
def test_sum(name: str) -> None:
    found, expected = SUMS[name]
    assert found == pytest.approx(expected, rel=1e-5)


def test_thin_chip_is_told_to_be_a_lower_bound() -> None:
    assert force.is_lower_bound(0.049)
    assert not force.is_lower_bound(0.05)


def test_growth_is_a_third_to_a_half_of_the_pitch() -> None:
    assert knurl.growth(0.9) == pytest.approx((0.3, 0.45))


def test_pecks_as_the_rule_reads() -> None:
    # 3 mm drill to 24 mm: 2 diameters, then 1 to 6 diameters, then a half.
    assert drill.peck_schedule(3.0, 24.0) == (6.0, 9.0, 12.0, 15.0, 18.0, 19.5, 21.0, 22.5, 24.0)
    assert drill.peck_schedule(3.0, 6.0, drill.WORK_HARDENING) == (3.0, 4.5, 6.0)
    assert drill.peck_schedule(5.0, 10.4) == (10.4,)  # 0.4 mm more is no peck of its own


@pytest.mark.parametrize(
    ("ends", "equation", "low", "high"),
    [
        ("cantilever", lambda x: cos(x) * cosh(x) + 1.0, 1.5, 2.5),
        ("supported", lambda x: x - pi, 3.0, 3.5),
        ("fixed and supported", lambda x: tan(x) - tanh(x), 3.5, 4.5),
        ("fixed", lambda x: cos(x) * cosh(x) - 1.0, 4.0, 5.5),
    ],
)
def test_whip_root_solves_its_frequency_equation(ends, equation, low, high) -> None:
    assert whip.ENDS[ends] == pytest.approx(brentq(equation, low, high) ** 2, abs=5e-4)


@pytest.mark.parametrize("teeth", [30, 47, 96])
def test_blank_that_already_holds_whole_teeth_stays(teeth: int) -> None:
    assert knurl.circular_blank(teeth * 0.8 / pi, 0.8).teeth == teeth
    assert knurl.diametral_blank(teeth * 25.4 / 96.0, 96).teeth == teeth
