"""Torque and thrust of drills, and torque of taps and dies: what they ask of motor, quill and work.

The drill equations of Machinery's Handbook where the material has a printed factor; else the torque alone,
from the specific force, and no thrust: no published figure, no number. No published figure was found of what
a quill or a grip bears against thrust, so the thrust is printed and not judged.
"""

from math import pi, radians, sin

from jobsheets.cutting import hole_force
from jobsheets.cutting.force import specific_force
from jobsheets.figure import Figure, Input
from jobsheets.planner.cutting_choice import specific
from jobsheets.planner.operation import Cutter
from jobsheets.shop.machines import Lathe, Mill
from jobsheets.standards.cutting_constants import drill_factor, factor
from jobsheets.standards.cutting_rows import NoData
from jobsheets.standards.materials import Material

THINNEST = 0.02  # mm/rev; below it the tables are no guide, so the feed is counted no finer
CHIP = 0.1  # mm; chip at which the specific force of tapping is taken
HANDBOOK_POWER = 0.8  # exponent of the feed in the drill equations


def torque(material: Material, cutter: Cutter, feed: float) -> tuple[float, str, str]:
    """Torque of a drill that has begun to dull: N m, formula, source."""
    per_turn = max(feed, THINNEST)
    found = drill_factor(material.cutting_id)
    if isinstance(found, NoData):
        kc11, mc, source = specific(material)
        wear = factor("wear", "drill").high
        sharp = hole_force.drill_torque_kienzle(kc11, mc, per_turn, cutter.diameter, cutter.point or 118.0)
        return wear * sharp, "M = kc f D² W / 8000", source
    return hole_force.drill_torque(found.torque, per_turn, cutter.diameter), "M = Kd Ff FM A W", found.source


def power(moment: float, rpm: float, efficiency: float) -> float:
    """Power asked of the motor by a torque at the spindle, W."""
    return moment * 2.0 * pi * rpm / 60.0 / efficiency


def feed_for_motor(
    material: Material, cutter: Cutter, feed: float, rpm: float, machine: Lathe | Mill
) -> float:
    """Coarsest feed up to `feed` that the motor turns a drill at, mm/rev."""
    asked = power(torque(material, cutter, feed)[0], rpm, machine.efficiency)
    if asked <= machine.power:
        return feed
    exponent = HANDBOOK_POWER
    if isinstance(drill_factor(material.cutting_id), NoData):
        exponent = 1.0 - specific(material)[1]
    return feed * float((machine.power / asked) ** (1.0 / exponent))


def figures(
    material: Material, cutter: Cutter, feed: Figure, speed: Figure, machine: Lathe | Mill
) -> tuple[Figure, ...]:
    """Torque with the power it asks, and the thrust where a factor is printed."""
    value, formula, source = torque(material, cutter, feed.value)
    given = (
        Input(name="f", value=feed.value, unit="mm/rev"),
        Input(name="D", value=cutter.diameter, unit="mm"),
    )
    twist = Figure(
        id="torque",
        name="torque of the drill",
        value=value,
        unit="N m",
        formula=formula,
        inputs=(*given, Input(name="motor", value=machine.power, unit="W")),
        ruled_by="feed and diameter",
        source=source,
        changes="a smaller feed, a pilot, a sharp drill",
    )
    asked = Figure(
        id="power",
        name="power asked of the motor",
        value=power(value, speed.value, machine.efficiency),
        unit="W",
        formula="P = 2 π n M / (60 E)",
        inputs=(
            Input(name="M", value=value, unit="N m"),
            Input(name="n", value=speed.value, unit="rev/min"),
            Input(name="E, drive", value=machine.efficiency),
            Input(name="motor", value=machine.power, unit="W"),
        ),
        ruled_by="feed and diameter",
        source=source,
        changes="a smaller feed, a slower belt",
    )
    found = drill_factor(material.cutting_id)
    if isinstance(found, NoData):
        return twist, asked
    thrust = Figure(
        id="thrust",
        name="thrust of the drill",
        value=hole_force.drill_thrust(found.thrust, max(feed.value, THINNEST), cutter.diameter),
        unit="N",
        formula="T = 2 Kd Ff FT B W + Kd D² J W",
        inputs=given,
        ruled_by="feed and diameter; no published figure of what a quill or a grip bears was found",
        source=found.source,
        changes="a smaller feed; a pilot takes the chisel edge's share away",
    )
    return twist, asked, thrust


def tap_torque(material: Material, pitch: float, diameter: float) -> Figure:
    """Torque of a sharp tap, or of a die, which cuts the same chip."""
    kc11, mc, source = specific(material)
    kc = specific_force(kc11, mc, CHIP)
    return Figure(
        id="torque",
        name="torque to turn it, sharp and oiled",
        value=hole_force.tap_torque(pitch, diameter, kc),
        unit="N m",
        formula="M = p² d kc / 8000",
        inputs=(
            Input(name="p", value=pitch, unit="mm"),
            Input(name="d", value=diameter, unit="mm"),
            Input(name="kc at a chip of 0.1 mm", value=kc, unit="N/mm²"),
        ),
        ruled_by="pitch and diameter; a dull tap, or one near the bottom, asks 1.3 to 2 times as much",
        source=f"Tschätsch, thread cutting, from memory; a die is taken to ask the same; {source}",
        changes="a larger tap drill, oil, a sharp tap",
    )


def thinnest_chip(cutter: Cutter, chip: float) -> float:
    """Feed at which each edge of a tool takes a chip of a thickness, mm/rev.

    Args:
        cutter: a twist drill has two edges at half its point angle; any other tool is taken square, with one.
        chip: thickness, mm.
    """
    if cutter.group != "twist drill":
        return chip
    return 2.0 * chip / sin(radians(cutter.point / 2.0))
