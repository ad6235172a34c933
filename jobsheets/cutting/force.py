"""Cutting force, power and torque of turning, parting and milling.

Units    N, mm, m/min, rev/min, W, N m; specific force in N/mm2.
Sources  the Kienzle equation and the unit-power method; each function names its own.
Scope    chip thickness up to 2.5 mm. Below 0.05 mm the real force is higher than the Kienzle equation gives
         (`is_lower_bound`); below 0.005 mm a tool rubs and the equation is refused.
"""

from math import pi, radians, sin

from jobsheets.cutting.limits import angle, not_negative, positive

THINNEST, THINNEST_SURE, THICKEST = 0.005, 0.05, 2.5  # mm of chip thickness
# Radial over main cutting force of a sharp HSS tool: from memory; more with a large nose.
PASSIVE_SHARE = (0.3, 0.5)
PARTING_FACTOR = 1.3  # over turning: correction factors of German textbooks, from memory


def chip_thickness(feed: float, edge_angle: float = 90.0) -> float:
    """Thickness of the chip before it is cut.

    Args:
        feed: mm/rev, or mm/tooth.
        edge_angle: of the main edge to the feed, degrees; 90 for a square shoulder.

    Returns:
        mm: h = f sin(kappa).

    Raises:
        ValueError: a feed not above zero, or an angle outside 0 to 90 degrees.

    Source:
        Geometry.
    """
    positive(feed=feed)
    angle(90.0, edge_angle=edge_angle)
    return feed * sin(radians(edge_angle))


def is_lower_bound(thickness: float) -> bool:
    """Whether a chip is so thin (below 0.05 mm) that the real force is higher than computed."""
    return thickness < THINNEST_SURE


def specific_force(kc11: float, mc: float, thickness: float) -> float:
    """Force per area of chip.

    Args:
        kc11: specific force of a chip 1 mm thick and 1 mm wide, N/mm2.
        mc: rise of the specific force with a thinner chip, 0 to 0.5.
        thickness: of the chip, mm.

    Returns:
        N/mm2: kc = kc1.1 h^-mc.

    Raises:
        ValueError: a chip outside 0.005 to 2.5 mm, or constants that no material has.

    Source:
        Kienzle equation, German textbooks, from memory.
    """
    positive(specific_force=kc11)
    if not 0.0 <= mc <= 0.5:
        raise ValueError(f"an exponent mc of {mc:g}: want 0 to 0.5; metals lie between 0.14 and 0.30")
    if not THINNEST <= thickness <= THICKEST:
        raise ValueError(
            f"a chip {thickness:g} mm thick is outside {THINNEST:g} to {THICKEST:g} mm, of the data: "
            f"change the feed"
        )
    return kc11 * float(thickness**-mc)


def cutting_force(
    kc11: float, mc: float, depth: float, feed: float, edge_angle: float = 90.0, factor: float = 1.0
) -> float:
    """Main cutting force in turning.

    Args:
        kc11: N/mm2.
        mc: exponent.
        depth: of cut on the radius, mm.
        feed: mm/rev.
        edge_angle: of the main edge to the feed, degrees.
        factor: product of the corrections that apply: wear, rake, tool material.

    Returns:
        N: Fc = kc b h with b = ap / sin(kappa), h = f sin(kappa); so Fc = kc ap f.

    Raises:
        ValueError: a value that is not above zero, or a chip outside the known range.

    Source:
        Kienzle equation, German textbooks, from memory.
    """
    positive(depth_of_cut=depth, correction_factor=factor)
    return specific_force(kc11, mc, chip_thickness(feed, edge_angle)) * depth * feed * factor


def parting_force(kc11: float, mc: float, blade: float, feed: float) -> float:
    """Main cutting force in parting off or grooving.

    Args:
        kc11: N/mm2.
        mc: exponent.
        blade: width of the blade, mm.
        feed: mm/rev.

    Returns:
        N: 1.3 kc b f.

    Raises:
        ValueError: a value that is not above zero, or a chip outside the known range.

    Source:
        Kienzle equation with the factor 1.3 for parting of German textbooks, from memory.
    """
    return cutting_force(kc11, mc, blade, feed, factor=PARTING_FACTOR)


def cutting_power(force: float, speed: float) -> float:
    """Power at the spindle.

    Args:
        force: main cutting force, N.
        speed: surface speed, m/min.

    Returns:
        W: Fc v / 60.

    Raises:
        ValueError: a force below zero or a speed not above zero.

    Source:
        Definition of power; Groover, Fundamentals of Modern Manufacturing, power example, from memory.
    """
    not_negative(force=force)
    positive(surface_speed=speed)
    return force * speed / 60.0


def motor_power(power: float, efficiency: float) -> float:
    """Power at the motor.

    Args:
        power: at the spindle, W.
        efficiency: of the drive, above 0 up to 1: belt 0.90, back gear 0.75, geared head 0.70 to 0.80.

    Returns:
        W: Pc / E.

    Raises:
        ValueError: a power below zero, or an efficiency outside 0 to 1.

    Source:
        Machinery's Handbook 31st ed., p. 1152; the efficiencies from the 27th ed., from memory.
    """
    not_negative(power=power)
    if not 0.0 < efficiency <= 1.0:
        raise ValueError(f"a drive efficiency of {efficiency:g}: want above 0 up to 1; a belt drive has 0.90")
    return power / efficiency


def torque(power: float, spindle: float) -> float:
    """Torque at a spindle.

    Args:
        power: W.
        spindle: rev/min.

    Returns:
        N m: 30 P / (pi n), printed as 9550 P / n with P in kW.

    Raises:
        ValueError: a power below zero or a speed not above zero.

    Source:
        Definition of power; Machinery's Handbook 31st ed., p. 1152.
    """
    not_negative(power=power)
    positive(spindle_speed=spindle)
    return 30.0 * power / (pi * spindle)


def depth_for_motor(
    motor: float, efficiency: float, speed: float, feed: float, specific: float, wear: float = 1.3
) -> float:
    """Deepest cut that a motor can take in turning: a limit of power alone.

    Args:
        motor: power of the motor, W.
        efficiency: of the drive, above 0 up to 1.
        speed: surface speed, m/min.
        feed: mm/rev.
        specific: specific force at that feed, N/mm2.
        wear: of the tool; 1.3 for roughing, 1.1 for finishing.

    Returns:
        mm on the radius: 60 P E / (v f kc W). On a light lathe belt, slides and stick-out stop the cut
        earlier.

    Raises:
        ValueError: a value that is not above zero, an efficiency above 1, or a wear factor below 1.

    Source:
        Derived from the unit-power method of Machinery's Handbook; wear factors from the 27th ed., from
        memory.
    """
    positive(motor_power=motor, surface_speed=speed, feed=feed, specific_force=specific)
    motor_power(0.0, efficiency)  # refuses an efficiency that cannot be
    if wear < 1.0:
        raise ValueError(f"a wear factor of {wear:g}: want 1.0 for a sharp tool or more")
    return 60.0 * motor * efficiency / (speed * feed * specific * wear)


def milling_power(width: float, depth: float, table_feed: float, specific: float) -> float:
    """Mean power at the spindle in milling.

    Args:
        width: of the cut across the feed, mm.
        depth: along the cutter axis, mm.
        table_feed: mm/min.
        specific: specific force at the mean chip thickness, N/mm2.

    Returns:
        W: ae ap vf kc / 60000.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Textbook formula, from memory.
    """
    positive(width=width, depth=depth, table_feed=table_feed, specific_force=specific)
    return width * depth * table_feed * specific / 60000.0


def passive_force(cutting_force: float, share: float = PASSIVE_SHARE[1]) -> float:
    """Force that pushes work and tool apart, N.

    Args:
        cutting_force: main cutting force, N.
        share: radial over main force; 0.3 to 0.5 for a sharp HSS tool, more for a large nose radius.

    Returns:
        N.

    Raises:
        ValueError: a force below zero, or a share that is not above zero up to 1.5.

    Source:
        Common practice, from memory. The high end is the default, for it bends more.
    """
    not_negative(cutting_force=cutting_force)
    if not 0.0 < share <= 1.5:
        raise ValueError(f"a radial share of {share:g}: want 0.3 to 0.5 for a sharp tool, at most 1.5")
    return share * cutting_force
