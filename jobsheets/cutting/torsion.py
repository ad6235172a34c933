"""Twisting off: what a rod, a thread root or a tap bears against what the cut asks.

Units    mm, MPa (N/mm2), N m.
Sources  torsion of a round bar, any strength textbook, from memory.
Scope    static twist of a round section, without the notch of the thread; a tap of hard steel breaks without
         yielding, so its limit is the elastic one.
"""

from math import pi

from jobsheets.cutting.limits import not_negative, positive


def twist_off(diameter: float, shear: float, bore: float = 0.0) -> float:
    """Torque at which the outside of a round section begins to yield.

    Args:
        diameter: of the section that is weakest, mm: the root of a thread, the core of a tap.
        shear: strength in shear, MPa.
        bore: hole through the axis, mm.

    Returns:
        N m: pi (D^4 - d^4) / (16 D) times the shear strength.

    Raises:
        ValueError: a value that is not above zero, or a bore that leaves no wall.

    Source:
        Torsion of a round bar, from memory.
    """
    positive(diameter=diameter, shear_strength=shear)
    not_negative(bore=bore)
    if bore >= diameter:
        raise ValueError(f"a bore of {bore:g} mm leaves no wall in {diameter:g} mm: use a smaller bore")
    return pi * (diameter**4 - bore**4) / (16.0 * diameter) * shear / 1000.0


def twisted_through(diameter: float, shear: float) -> float:
    """Torque at which a ductile solid section is yielding right through and parts.

    Args:
        diameter: mm.
        shear: strength in shear, MPa.

    Returns:
        N m: pi D^3 / 12 times the shear strength, 4/3 of `twist_off`.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Fully plastic torsion, from memory.
    """
    return 4.0 / 3.0 * twist_off(diameter, shear)


def margin(bears: float, asked: float) -> float:
    """How many times the torque that is asked a section bears.

    Args:
        bears: torque that twists it off, N m.
        asked: torque of the tap or die, N m.

    Returns:
        Ratio; below 1 it twists off, and 2 is common practice for a hand tap.

    Raises:
        ValueError: a torque that is not above zero.

    Source:
        Definition; the 2 is common practice, from memory.
    """
    positive(torque_borne=bears, torque_asked=asked)
    return bears / asked
