"""Thrust and torque of drilling and tapping.

Units    N, N m, mm, mm/rev; the work material factor Kd is that of the inch tables and is the same in both
         systems.
Sources  Machinery's Handbook 31st ed., p. 1152, equations (1) to (7); tapping from German textbooks, from
         memory.
Scope    standard twist drills up to 50 mm. The printed metric constants (0.05, 0.007, 1/40000) are the inch
         equations rounded; here the inch equations are converted exactly, up to 1.5 % from the printed metric
         form.
"""

from math import radians, sin

from jobsheets.cutting.force import specific_force
from jobsheets.cutting.limits import positive

NEWTONS_PER_POUND = 4.4482216152605
MM_PER_INCH = 25.4
LARGEST = 50.0  # mm
THRUST_EDGES = 2.0 * NEWTONS_PER_POUND * float(MM_PER_INCH**-1.6)
THRUST_CHISEL = NEWTONS_PER_POUND / MM_PER_INCH**2
TORQUE = NEWTONS_PER_POUND * MM_PER_INCH / 1000.0 * float(MM_PER_INCH**-2.6)
DULL_TAP = 2.0  # highest printed factor of a dull tap or a tap near the bottom of a hole


def feed_term(feed: float) -> float:
    """Feed factor Ff of the drill equations: f^0.8, f in the unit of the equation (in/rev, or mm/rev)."""
    positive(feed=feed)
    return float(feed**0.8)


def thrust_term(diameter: float) -> float:
    """Diameter factor FT of the thrust equation: D^0.8, D in the unit of the equation."""
    positive(diameter=diameter)
    return float(diameter**0.8)


def torque_term(diameter: float) -> float:
    """Diameter factor FM of the torque equation: D^1.8, D in the unit of the equation."""
    positive(diameter=diameter)
    return float(diameter**1.8)


def drill_thrust(
    kd: float,
    feed: float,
    diameter: float,
    chisel_b: float = 1.355,
    chisel_j: float = 0.030,
    wear: float = 1.3,
) -> float:
    """Force that pushes a twist drill into the work.

    Args:
        kd: work material factor: 24000 for steel of 200 HB, 7000 for most aluminium alloys.
        feed: mm/rev.
        diameter: of the drill, mm.
        chisel_b: chisel edge factor B; 1.355 for a standard drill.
        chisel_j: chisel edge factor J; 0.030 for a standard drill, 0.001 for a split point.
        wear: 1.3 in normal drilling, 1.5 in hard-to-cut material or with a very dull drill.

    Returns:
        N: 2 Kd Ff FT B W + Kd D^2 J W, converted from pounds and inches.

    Raises:
        ValueError: a value that is not above zero, or a drill above 50 mm.

    Source:
        Machinery's Handbook 31st ed., p. 1152, equation (1) and Tables 7 to 9.
    """
    _drill(kd, feed, diameter)
    positive(chisel_factor_B=chisel_b, chisel_factor_J=chisel_j, wear_factor=wear)
    edges = THRUST_EDGES * feed_term(feed) * thrust_term(diameter) * chisel_b
    return kd * wear * (edges + THRUST_CHISEL * diameter**2 * chisel_j)


def drill_torque(
    kd: float, feed: float, diameter: float, chisel_a: float = 1.085, wear: float = 1.3
) -> float:
    """Torque on a twist drill.

    Args:
        kd: work material factor.
        feed: mm/rev.
        diameter: of the drill, mm.
        chisel_a: chisel edge factor A; 1.085 for a standard drill, 1.0 for a split point.
        wear: 1.3 in normal drilling, 1.5 in hard-to-cut material or with a very dull drill.

    Returns:
        N m: Kd Ff FM A W, converted from inch pounds.

    Raises:
        ValueError: a value that is not above zero, or a drill above 50 mm.

    Source:
        Machinery's Handbook 31st ed., p. 1152, equation (2) and Tables 7 to 9.
    """
    _drill(kd, feed, diameter)
    positive(chisel_factor_A=chisel_a, wear_factor=wear)
    return TORQUE * kd * feed_term(feed) * torque_term(diameter) * chisel_a * wear


def drill_torque_kienzle(kc11: float, mc: float, feed: float, diameter: float, point: float = 118.0) -> float:
    """Torque on a twist drill from the specific cutting force, for materials without a factor Kd.

    Args:
        kc11: N/mm2.
        mc: exponent.
        feed: mm/rev.
        diameter: of the drill, mm.
        point: included angle, degrees.

    Returns:
        N m: kc f D^2 / 8000, kc at h = f/2 sin(point/2).

    Raises:
        ValueError: a value that is not above zero, or a chip outside the known range.

    Source:
        German textbooks, from memory.
    """
    positive(feed=feed, diameter=diameter, point_angle=point)
    thickness = feed / 2.0 * sin(radians(point / 2.0))
    return specific_force(kc11, mc, thickness) * feed * diameter**2 / 8000.0


def tap_torque(pitch: float, diameter: float, specific: float, dulling: float = 1.0) -> float:
    """Torque on a tap that cuts a 60-degree thread.

    Args:
        pitch: mm.
        diameter: nominal, mm.
        specific: specific cutting force, N/mm2.
        dulling: 1.0 for a sharp tap; 1.3 to 2 for a dull one or near the bottom of a hole.

    Returns:
        N m: p^2 d kc / 8000 times the dulling.

    Raises:
        ValueError: a value that is not above zero, a pitch that the diameter cannot carry, or a dulling below
            1.

    Source:
        Tschätsch, thread cutting, from memory.
    """
    positive(pitch=pitch, diameter=diameter, specific_force=specific)
    if pitch >= diameter / 1.5:
        raise ValueError(f"a pitch of {pitch:g} mm on {diameter:g} mm leaves no core: use a finer pitch")
    if dulling < 1.0:
        raise ValueError(
            f"a dulling of {dulling:g}: want 1.0 for a sharp tap, up to {DULL_TAP:g} for a dull one"
        )
    return pitch**2 * diameter * specific / 8000.0 * dulling


def _drill(kd: float, feed: float, diameter: float) -> None:
    positive(material_factor_Kd=kd, feed=feed, diameter=diameter)
    if diameter > LARGEST:
        raise ValueError(f"a drill of {diameter:g} mm is above {LARGEST:g} mm: bore the hole instead")
