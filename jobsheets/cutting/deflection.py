"""How far work or tool bends under the cut.

Units    N, mm, GPa for Young's modulus (as the material table has it); deflection in mm.
Sources  Bernoulli-Euler beam formulas, from memory; each is proved in the tests against a numeric
         integration.
Scope    small bending of a straight, elastic beam held rigidly. A real chuck and a real spindle give too, so
         a computed deflection is a lower bound: docs/cutting.md says how it is used.
"""

from collections.abc import Sequence
from math import pi, sqrt

from msgspec import Struct

from jobsheets.cutting.limits import not_negative, positive

# Effective diameter of a fluted shank over its outside: Kops and Vo (1990), from memory.
END_MILL_EQUIVALENT = 0.8
# Longest overhang over diameter before a bar chatters: textbook rule, from memory.
BORING_BAR_RATIO = {"steel": 4.0, "carbide": 6.0}
# Where a bar in chuck and live centre gives most, as a share of the free length.
WORST_FROM_CENTRE = sqrt(2.0) - 1.0


class Section(Struct, frozen=True, kw_only=True):
    """One length of a stepped bar."""

    length: float  # mm
    diameter: float  # mm
    bore: float = 0.0  # mm


def second_moment(diameter: float, bore: float = 0.0) -> float:
    """Second moment of area of a round bar or tube.

    Args:
        diameter: outside, mm.
        bore: hole through the axis, mm.

    Returns:
        mm4: pi (D^4 - d^4) / 64.

    Raises:
        ValueError: a diameter not above zero, or a bore that leaves no wall.

    Source:
        Geometry.
    """
    positive(diameter=diameter)
    not_negative(bore=bore)
    if bore >= diameter:
        raise ValueError(f"a bore of {bore:g} mm leaves no wall in {diameter:g} mm: use a smaller bore")
    return pi * (diameter**4 - bore**4) / 64.0


def second_moment_rectangle(width: float, height: float) -> float:
    """Second moment of area of a rectangle that bends in the direction of its height.

    Args:
        width: across the load, mm.
        height: along the load, mm.

    Returns:
        mm4: b h^3 / 12.

    Raises:
        ValueError: a size that is not above zero.

    Source:
        Geometry.
    """
    positive(width=width, height=height)
    return width * height**3 / 12.0


def cantilever(force: float, overhang: float, modulus: float, moment: float) -> float:
    """Deflection under the load of a bar held at one end: work in a chuck, a tool in its post.

    Args:
        force: across the bar, N.
        overhang: from the jaws to the load, mm.
        modulus: GPa.
        moment: second moment of area, mm4.

    Returns:
        mm: F a^3 / (3 E I).

    Raises:
        ValueError: a value that is not above zero (a force may be zero).

    Source:
        Beam formula, from memory.
    """
    return cantilever_elsewhere(force, overhang, overhang, modulus, moment)


def cantilever_elsewhere(force: float, load_at: float, at: float, modulus: float, moment: float) -> float:
    """Deflection of a bar held at one end, at another place than the load.

    Args:
        force: N.
        load_at: from the jaws to the load, mm.
        at: from the jaws to the place asked about, mm.
        modulus: GPa.
        moment: second moment of area, mm4.

    Returns:
        mm: F x^2 (3 a - x) / (6 E I) inside the load, F a^2 (3 x - a) / (6 E I) beyond it.

    Raises:
        ValueError: a value that is not above zero (force and place may be zero).

    Source:
        Beam formula, from memory.
    """
    not_negative(force=force, place=at)
    positive(distance_to_the_load=load_at, modulus=modulus, second_moment=moment)
    near, far = min(load_at, at), max(load_at, at)
    return force * near**2 * (3.0 * far - near) / (6.0 * _stiffness(modulus, moment))


def chuck_and_centre(force: float, from_chuck: float, length: float, modulus: float, moment: float) -> float:
    """Deflection under the load of a bar in a chuck and on a live centre.

    Args:
        force: N.
        from_chuck: from the jaws to the tool, mm.
        length: from the jaws to the centre, mm.
        modulus: GPa.
        moment: second moment of area, mm4.

    Returns:
        mm: F a^3 b^2 (3 L + b) / (12 E I L^3), b from the centre; 7 F L^3 / (768 E I) at mid-span.

    Raises:
        ValueError: a value that is not above zero, or a tool beyond the centre.

    Source:
        Beam fixed at one end and supported at the other, from memory.
    """
    _within(from_chuck, length)
    not_negative(force=force)
    positive(modulus=modulus, second_moment=moment)
    a, b = from_chuck, length - from_chuck
    return force * a**3 * b**2 * (3.0 * length + b) / (12.0 * _stiffness(modulus, moment) * length**3)


def chuck_and_centre_worst(force: float, length: float, modulus: float, moment: float) -> float:
    """Most that a bar in a chuck and on a live centre gives, wherever along it the tool stands.

    Args:
        force: N.
        length: from the jaws to the centre, mm.
        modulus: GPa.
        moment: second moment of area, mm4.

    Returns:
        mm: 0.00981 F L^3 / (E I), with the tool at 0.414 L from the centre.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Derived from `chuck_and_centre`: its slope is zero where b^2 + 2 b L = L^2.
    """
    positive(length=length)
    return chuck_and_centre(force, length * (1.0 - WORST_FROM_CENTRE), length, modulus, moment)


def between_centres(force: float, at: float, length: float, modulus: float, moment: float) -> float:
    """Deflection under the load of a bar between centres.

    Args:
        force: N.
        at: from either centre to the tool, mm.
        length: between the centres, mm.
        modulus: GPa.
        moment: second moment of area, mm4.

    Returns:
        mm: F a^2 b^2 / (3 E I L); F L^3 / (48 E I) at mid-span, where it is most.

    Raises:
        ValueError: a value that is not above zero, or a tool beyond a centre.

    Source:
        Simply supported beam, from memory.
    """
    _within(at, length)
    not_negative(force=force)
    positive(modulus=modulus, second_moment=moment)
    return force * (at * (length - at)) ** 2 / (3.0 * _stiffness(modulus, moment) * length)


def stepped_cantilever(
    force: float, sections: Sequence[Section], modulus: float, load_at: float | None = None
) -> float:
    """Deflection under the load of a stepped bar held at one end.

    Args:
        force: N.
        sections: from the jaws outward.
        modulus: GPa.
        load_at: from the jaws to the load, mm; the free end when left out.

    Returns:
        mm: sum over the sections of F (s2^3 - s1^3) / (3 E I), s measured from the load back to each end.

    Raises:
        ValueError: no section, a value that is not above zero, or a load beyond the end.

    Source:
        Castigliano's theorem, M^2/(2 E I) integrated exactly over each section; derived.
    """
    if not sections:
        raise ValueError("a stepped bar without sections: give at least one, from the jaws outward")
    end = sum(section.length for section in sections)
    load = end if load_at is None else load_at
    not_negative(force=force)
    positive(
        modulus=modulus,
        distance_to_the_load=load,
        **{f"section_{i + 1}": s.length for i, s in enumerate(sections)},
    )
    if load > end:
        raise ValueError(
            f"the load at {load:g} mm is beyond the end at {end:g} mm: move it back or add a section"
        )
    total, start = 0.0, 0.0
    for section in sections:
        stop = min(start + section.length, load)
        if stop > start:
            stiffness = _stiffness(modulus, second_moment(section.diameter, section.bore))
            total += force * ((load - start) ** 3 - (load - stop) ** 3) / (3.0 * stiffness)
        start += section.length
    return total


def end_mill(force: float, stick_out: float, diameter: float, modulus: float) -> float:
    """Deflection of an end mill at its tip.

    Args:
        force: across the cutter, N.
        stick_out: from the collet to the tip, mm.
        diameter: of the cutter, mm.
        modulus: of the cutter, GPa: HSS 210 to 225, tungsten carbide 580 to 620 (from memory).

    Returns:
        mm: a cantilever of 0.8 times the cutter diameter over its whole stick-out.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Equivalent diameter of Kops and Vo (1990), from memory.
    """
    return cantilever(force, stick_out, modulus, second_moment(END_MILL_EQUIVALENT * diameter))


def boring_bar(force: float, overhang: float, diameter: float, modulus: float) -> float:
    """Deflection of a round boring bar at its tip.

    Args:
        force: across the bar, N.
        overhang: from the holder to the tip, mm.
        diameter: of the bar, mm.
        modulus: of the bar, GPa.

    Returns:
        mm. Beyond 4 diameters a steel bar chatters, beyond 6 a carbide one: `BORING_BAR_RATIO`.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Beam formula; the limits are the textbook boring-bar rule, from memory.
    """
    return cantilever(force, overhang, modulus, second_moment(diameter))


def diameter_error(deflection: float) -> float:
    """What a deflection of the work adds to its diameter, mm: twice the deflection."""
    return 2.0 * deflection


def _stiffness(modulus: float, moment: float) -> float:
    return 1000.0 * modulus * moment  # GPa to N/mm2: gives N mm2


def _within(at: float, length: float) -> None:
    positive(length=length)
    not_negative(place_of_the_tool=at)
    if at > length:
        raise ValueError(
            f"a tool at {at:g} mm is beyond the {length:g} mm between the supports: move it back"
        )
