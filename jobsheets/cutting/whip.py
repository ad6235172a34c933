"""Whip of a bar that turns: its first critical speed.

Units    mm, GPa, kg/m3, rev/min.
Sources  lateral vibration of a uniform beam, vibration textbooks, from memory.
Scope    a straight bar of one size without imbalance. A bent bar whips sooner, and a bar that has begun to
         whip bends at once: never let one stand out behind the spindle unguarded (ISO 23125, from memory).
"""

from math import pi, sqrt

from jobsheets.cutting.limits import not_negative, positive

# Square of the first root of the frequency equation, by how the ends are held.
ENDS = {"cantilever": 3.516, "supported": 9.870, "fixed and supported": 15.418, "fixed": 22.373}
SAFE_SHARE = 0.5  # common practice: half of the first critical speed


def critical_speed(
    length: float,
    diameter: float,
    modulus: float,
    density: float,
    ends: str = "cantilever",
    bore: float = 0.0,
) -> float:
    """First critical speed of a round bar or tube.

    Args:
        length: free length, mm.
        diameter: outside, mm.
        modulus: GPa.
        density: kg/m3.
        ends: "cantilever" (a bar free behind the headstock), "supported", "fixed and supported" or "fixed".
        bore: hole through the axis, mm.

    Returns:
        rev/min: (60 / 2 pi) (lambda^2 / L^2) sqrt(E I / (rho A)).

    Raises:
        ValueError: a value that is not above zero, a bore that leaves no wall, or ends not named above.

    Source:
        Vibration textbooks, from memory; lambda^2 3.516, 9.870, 15.418, 22.373.
    """
    positive(length=length, diameter=diameter, modulus=modulus, density=density)
    not_negative(bore=bore)
    if ends not in ENDS:
        raise ValueError(f"ends {ends!r}: want one of {', '.join(ENDS)}")
    if bore >= diameter:
        raise ValueError(f"a bore of {bore:g} mm leaves no wall in {diameter:g} mm: use a smaller bore")
    gyration = sqrt(diameter**2 + bore**2) / 4000.0  # m
    wave = sqrt(modulus * 1e9 / density)  # m/s
    return 60.0 / (2.0 * pi) * ENDS[ends] / (length / 1000.0) ** 2 * gyration * wave


def safe_speed(
    length: float,
    diameter: float,
    modulus: float,
    density: float,
    ends: str = "cantilever",
    bore: float = 0.0,
) -> float:
    """Fastest speed at which the bar may turn, rev/min: half of the first critical speed.

    Args:
        length: free length, mm.
        diameter: outside, mm.
        modulus: GPa.
        density: kg/m3.
        ends: as for `critical_speed`.
        bore: hole through the axis, mm.

    Returns:
        rev/min.

    Raises:
        ValueError: as `critical_speed`.

    Source:
        Common practice, from memory.
    """
    return SAFE_SHARE * critical_speed(length, diameter, modulus, density, ends, bore)


def free_length(speed: float, diameter: float, modulus: float, density: float) -> float:
    """Free length behind the headstock at which a speed is half of the first critical one.

    Args:
        speed: of the spindle, rev/min.
        diameter: of the bar, mm.
        modulus: GPa.
        density: kg/m3.

    Returns:
        mm; a longer end whips sooner, and so does a bent one.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        `safe_speed` solved for the length; derived.
    """
    positive(spindle_speed=speed)
    return sqrt(safe_speed(1.0, diameter, modulus, density) / speed)
