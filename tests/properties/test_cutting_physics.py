"""What must hold for every cut, and the beam formulas against a numeric integration of M/(E I)."""

from itertools import pairwise
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

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
    whip,
)
from jobsheets.cutting.deflection import Section

forces = st.floats(1.0, 2000.0)
lengths = st.floats(5.0, 400.0)
diameters = st.floats(2.0, 60.0)
moduli = st.floats(2.0, 600.0)
feeds = st.floats(0.02, 0.8)
shares = st.floats(0.01, 0.99)


def near(value: float) -> object:
    return pytest.approx(value, rel=1e-6)


def deflection_by_integration(force_n: float, load_at: float, end: float, stiffness: float) -> float:
    """Of a cantilever at `end`, by the unit-load theorem: the integral of M m / (E I)."""
    return quad(lambda x: force_n * (load_at - x) * (end - x) / stiffness, 0.0, min(load_at, end))[0]


@given(forces, lengths, shares, moduli, diameters)
def test_cantilever_is_the_integral(load, length, share, modulus, diameter):
    moment = deflection.second_moment(diameter)
    stiffness = 1000.0 * modulus * pi * diameter**4 / 64.0
    at = share * length
    assert deflection.cantilever(load, length, modulus, moment) == near(
        deflection_by_integration(load, length, length, stiffness)
    )
    assert deflection.cantilever_elsewhere(load, length, at, modulus, moment) == near(
        deflection_by_integration(load, length, at, stiffness)
    )
    assert deflection.cantilever_elsewhere(load, at, length, modulus, moment) == near(
        deflection_by_integration(load, at, length, stiffness)
    )


@given(forces, lengths, st.floats(0.02, 0.98), moduli, diameters)
def test_chuck_and_centre_is_the_integral(load, length, share, modulus, diameter):
    """The centre pushes back with the force that brings a cantilever's end to rest on it."""
    stiffness = 1000.0 * modulus * pi * diameter**4 / 64.0
    at = share * length
    free = deflection_by_integration(load, at, length, stiffness)
    reaction = free / deflection_by_integration(1.0, length, length, stiffness)
    expected = deflection_by_integration(load, at, at, stiffness) - deflection_by_integration(
        reaction, length, at, stiffness
    )
    found = deflection.chuck_and_centre(load, at, length, modulus, deflection.second_moment(diameter))
    assert found == pytest.approx(expected, rel=1e-4, abs=1e-6 * free)


@given(forces, lengths, shares, moduli, diameters)
def test_between_centres_is_the_integral(load, length, share, modulus, diameter):
    stiffness = 1000.0 * modulus * pi * diameter**4 / 64.0
    at = share * length
    left, right = load * (length - at) / length, load * at / length  # reactions of the centres
    energy = (
        quad(lambda x: (left * x) ** 2, 0.0, at)[0] + quad(lambda x: (right * x) ** 2, 0.0, length - at)[0]
    )
    found = deflection.between_centres(load, at, length, modulus, deflection.second_moment(diameter))
    assert found == near(energy / (stiffness * load))  # work of the load is the energy of bending


@given(forces, st.lists(st.tuples(lengths, diameters), min_size=1, max_size=4), shares, moduli)
def test_stepped_cantilever_is_the_integral(load, steps, share, modulus):
    sections = [Section(length=length, diameter=diameter) for length, diameter in steps]
    load_at = share * sum(section.length for section in sections)
    expected, start = 0.0, 0.0
    for section in sections:
        stop = min(start + section.length, load_at)
        stiffness = 1000.0 * modulus * pi * section.diameter**4 / 64.0
        if stop > start:
            expected += quad(lambda x, k=stiffness: load * (load_at - x) ** 2 / k, start, stop)[0]
        start += section.length
    assert deflection.stepped_cantilever(load, sections, modulus, load_at) == near(expected)


@given(forces, lengths, lengths, lengths, diameters, moduli)
def test_equal_steps_bend_as_one_bar(load, first, second, third, diameter, modulus):
    steps = [Section(length=length, diameter=diameter) for length in (first, second, third)]
    uniform = deflection.cantilever(load, first + second + third, modulus, deflection.second_moment(diameter))
    assert deflection.stepped_cantilever(load, steps, modulus) == near(uniform)


@given(forces, lengths, st.floats(1.01, 3.0), moduli, diameters)
def test_longer_overhang_bends_more(load, length, longer, modulus, diameter):
    moment = deflection.second_moment(diameter)
    short = deflection.cantilever(load, length, modulus, moment)
    assert deflection.cantilever(load, longer * length, modulus, moment) == near(short * longer**3)
    assert deflection.chuck_and_centre_worst(load, length, modulus, moment) < short
    assert deflection.diameter_error(short) == near(2.0 * short)


@given(forces, lengths, st.floats(0.0, 1.0), moduli, diameters)
def test_no_place_is_worse_than_the_worst(load, length, share, modulus, diameter):
    moment = deflection.second_moment(diameter)
    worst = deflection.chuck_and_centre_worst(load, length, modulus, moment)
    assert deflection.chuck_and_centre(load, share * length, length, modulus, moment) <= worst * (1 + 1e-9)
    assert worst == pytest.approx(0.009812 * load * length**3 / (1000.0 * modulus * moment), rel=1e-3)


@given(diameters, shares)
def test_a_bore_takes_its_own_moment_away(diameter, share):
    bore = share * diameter
    whole, hole = deflection.second_moment(diameter), deflection.second_moment(bore)
    assert deflection.second_moment(diameter, bore) == near(whole - hole)


@given(st.floats(300.0, 3000.0), st.floats(1.01, 2.0), st.floats(0.1, 0.3), st.floats(0.1, 3.0), feeds)
def test_harder_to_cut_asks_more_force(kc11, harder, mc, depth, feed):
    soft = force.cutting_force(kc11, mc, depth, feed)
    assert force.cutting_force(harder * kc11, mc, depth, feed) == near(harder * soft)
    assert force.parting_force(kc11, mc, depth, feed) == near(1.3 * soft)
    assert force.specific_force(kc11, mc, feed / 2.0) > force.specific_force(kc11, mc, feed)


@given(st.floats(100.0, 2000.0), st.floats(0.5, 1.0), st.floats(5.0, 300.0), feeds, st.floats(500.0, 4000.0))
def test_deepest_cut_uses_just_the_motor(motor, efficiency, speed, feed, specific):
    depth = force.depth_for_motor(motor, efficiency, speed, feed, specific, wear=1.0)
    power = force.cutting_power(specific * depth * feed, speed)
    assert force.motor_power(power, efficiency) == near(motor)


@given(st.floats(0.5, 500.0), diameters)
def test_spindle_and_surface_speed_are_inverse(surface, diameter):
    spindle = speeds.spindle_speed(surface, diameter)
    assert spindle > 0.0
    assert speeds.surface_speed(spindle, diameter) == near(surface)
    short = speeds.in_the_head_factor_320(surface, diameter)
    assert short == near(spindle * (1.0 + speeds.FACTOR_320_ERROR))
    feet, inches = surface / 0.3048, diameter / 25.4
    assert speeds.in_the_head_factor_4(feet, inches) == near(spindle * (1.0 + speeds.FACTOR_4_ERROR))
    assert speeds.in_the_head_factor_382(feet, inches) == near(spindle * (1.0 + speeds.FACTOR_382_ERROR))


@given(st.floats(0.5, 20.0), st.floats(0.1, 39.0), st.sampled_from([drill.USUAL, drill.WORK_HARDENING]))
def test_pecks_rise_to_the_depth(diameter, ratio, rule):
    depth = ratio * diameter
    ends = drill.peck_schedule(diameter, depth, rule)
    steps = [end - start for start, end in zip((0.0, *ends), ends, strict=False)]
    assert ends[-1] == depth
    assert sum(steps) == near(depth)
    assert min(steps) > 0.0
    slack = drill.SHORTEST_LAST * diameter * (1 + 1e-9)
    assert steps[0] <= rule.first * diameter + slack
    assert all(step <= rule.step * diameter + slack for step in steps[1:])
    deep = [step for start, step in zip(ends, steps[1:], strict=False) if start >= rule.deep_from * diameter]
    assert all(step <= rule.deep_step * diameter + slack for step in deep)


@given(st.floats(1.0, 30.0), st.floats(0.25, 3.0), st.floats(0.0, 10.0), st.floats(0.0, 3.0))
def test_blind_depth_holds_thread_lead_and_margin(full, pitch, lead, margin):
    depth = drill.blind_depth(full, lead, pitch, margin)
    assert depth - full == pytest.approx((lead + margin) * pitch)
    assert drill.tip_depth(depth, 4.0, 118.0) - depth == near(drill.point_length(4.0, 118.0))


@given(st.floats(0.1, 1.2), st.floats(6.0, 60.0))
def test_knurl_blank_holds_whole_teeth(pitch, nominal):
    if nominal * pi / pitch < knurl.FEWEST + 1:
        return
    blank = knurl.circular_blank(nominal, pitch)
    assert pi * blank.diameter / pitch == near(blank.teeth)
    assert nominal - pitch / pi < blank.diameter + 1e-9
    assert blank.diameter <= nominal * (1 + 1e-9)
    assert blank.diameter < blank.grown_low < blank.grown_high


@given(st.sampled_from(knurl.DIAMETRAL_PITCHES), st.floats(6.0, 60.0))
def test_diametral_blank_holds_whole_teeth(pitch, nominal):
    blank = knurl.diametral_blank(nominal, pitch)
    assert blank.diameter / 25.4 * pitch == near(blank.teeth)
    assert pi * blank.diameter / blank.pitch == near(blank.teeth)
    assert nominal - 25.4 / pitch < blank.diameter + 1e-9
    assert blank.diameter <= nominal * (1 + 1e-9)


@given(st.floats(0.5, 30.0), st.floats(0.0, 1.0))
def test_ball_diameter_lies_on_the_ball(radius, share):
    x = 2.0 * radius * share
    diameter = shape.ball_diameter(radius, x)
    assert (diameter / 2.0) ** 2 + (radius - x) ** 2 == pytest.approx(radius**2)
    if x <= radius:
        assert shape.cap_height(radius, diameter) == pytest.approx(x, abs=1e-6 * radius)


@given(st.floats(1.0, 30.0), st.floats(0.2, 1.0))
def test_ball_steps_end_at_the_middle(radius, step):
    steps = shape.ball_steps(radius, step)
    assert steps[-1] == (radius, 2.0 * radius)
    places = [0.0, *(place for place, _ in steps)]
    assert all(0.0 < b - a <= step * (1 + 1e-6) for a, b in pairwise(places))


@given(st.floats(1.0, 30.0), st.floats(0.1, 60.0), st.floats(1.0, 100.0))
def test_taper_comes_back_to_its_large_end(small, grows, length):
    half = shape.half_angle(small + grows, small, length)
    assert shape.taper_diameter(small, half, length) == near(small + grows)


@given(st.floats(0.1, 6.0), st.floats(0.05, 1.0))
def test_feed_for_a_roughness_gives_it(target, nose):
    feed = finish.feed_for(target, nose)
    if feed < finish.largest_feed(nose) * (1 - 1e-9):
        assert finish.roughness(feed, nose) == near(target)
        assert finish.height(feed, nose) == near(4.0 * target)
    assert finish.feed_for(target, nose, 2.0) <= feed


@given(st.floats(1.0, 50.0), st.floats(50.0, 800.0))
def test_twist_through_is_a_third_more_than_first_yield(diameter, shear):
    first = torsion.twist_off(diameter, shear)
    integral = quad(lambda r: 2.0 * pi * r**2 * shear * r / (diameter / 2.0), 0.0, diameter / 2.0)[0] / 1000.0
    plastic = quad(lambda r: 2.0 * pi * r**2 * shear, 0.0, diameter / 2.0)[0] / 1000.0
    assert first == near(integral)
    assert torsion.twisted_through(diameter, shear) == near(plastic)
    assert torsion.twist_off(diameter, shear, diameter / 2.0) == near(first * (1.0 - 0.5**4))
    assert torsion.margin(first, first / 2.0) == near(2.0)


@given(lengths, st.floats(1.01, 3.0), diameters, st.sampled_from(sorted(whip.ENDS)))
def test_longer_bar_whips_sooner(length, longer, diameter, ends):
    fast = whip.critical_speed(length, diameter, 205.0, 7850.0, ends)
    assert whip.critical_speed(longer * length, diameter, 205.0, 7850.0, ends) == near(fast / longer**2)
    assert whip.safe_speed(length, diameter, 205.0, 7850.0, ends) == near(fast / 2.0)


@given(st.floats(1.0, 60.0), st.floats(0.5, 40.0), st.floats(0.1, 5.0))
def test_passes_are_just_enough(start, finish_at, depth):
    count = times.passes(start, finish_at, depth)
    apart = abs(start - finish_at)
    assert count * 2.0 * depth >= apart - 1e-8
    assert (count - 1) * 2.0 * depth < apart or count == 0


@given(diameters, st.floats(0.01, 1.0))
def test_thinning_keeps_the_chip_of_a_half_width_cut(diameter, share):
    factor = removal.thinning(diameter, share * diameter)
    assert factor >= 1.0
    if share < 0.5:
        assert factor * 2.0 * (share * (1.0 - share)) ** 0.5 == near(1.0)


@given(st.floats(1.0, 12.0), st.floats(0.02, 0.2), st.floats(7000.0, 34000.0))
def test_larger_drill_asks_more(diameter, feed, kd):
    bigger = 1.1 * diameter
    assert hole_force.drill_thrust(kd, feed, bigger) > hole_force.drill_thrust(kd, feed, diameter)
    assert hole_force.drill_torque(kd, feed, bigger) > hole_force.drill_torque(kd, feed, diameter)
    assert hole_force.drill_torque(kd, feed, diameter, wear=1.5) > hole_force.drill_torque(kd, feed, diameter)
