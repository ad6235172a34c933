"""How far a stepped bar bends: in a chuck, or in a chuck and on a live centre.

Units    N, mm, GPa; flexibility in mm/N, which is the deflection under one newton.
Sources  Castigliano's theorem on a straight elastic beam, integrated exactly over each section; derived here,
         and proved in the tests against numeric integration and against the uniform bars of `deflection`.
Scope    small bending of a bar held rigidly; a real chuck and spindle give too: a lower bound.
"""

from collections.abc import Sequence
from math import pi

from jobsheets.cutting.deflection import Section, second_moment
from jobsheets.cutting.limits import not_negative, positive


def flexibility(sections: Sequence[Section], modulus: float, load_at: float, at: float) -> float:
    """Deflection at one place of a bar held at one end, for each newton at another.

    Args:
        sections: from the jaws outward.
        modulus: GPa.
        load_at: from the jaws to the load, mm.
        at: from the jaws to the place asked about, mm.

    Returns:
        mm/N: the sum over the sections of the integral of (a - s)(x - s) / (E I), up to the nearer of the
        two; the same with load and place exchanged (Maxwell).

    Raises:
        ValueError: no section, a value that is not above zero (places may be zero), or a place beyond the
            end.

    Source:
        Castigliano's theorem; derived.
    """
    if not sections:
        raise ValueError("a stepped bar without sections: give at least one, from the jaws outward")
    positive(modulus=modulus)
    not_negative(place_of_the_load=load_at, place=at)
    far, near = max(load_at, at), min(load_at, at)
    total, start = 0.0, 0.0
    for section in sections:
        stop = start + section.length
        if near > start:
            reach = min(stop, near)
            moment = second_moment(section.diameter, section.bore)
            total += (_area(reach, far, near) - _area(start, far, near)) / (1000.0 * modulus * moment)
        start = stop
    if far > start + 1e-9:
        raise ValueError(f"a place at {far:g} mm is beyond the end at {start:g} mm: add a section")
    return total


def _area(s: float, far: float, near: float) -> float:
    """Integral of (far - s)(near - s) from zero to s, mm3."""
    return s * (far * near - s * (far + near) / 2.0 + s * s / 3.0)


def under_load(
    sections: Sequence[Section], modulus: float, load_at: float, *, live_centre: bool = False
) -> float:
    """Deflection under the load for each newton.

    Args:
        sections: from the jaws outward, to the live centre where there is one.
        modulus: GPa.
        load_at: from the jaws to the load, mm.
        live_centre: the far end is held by a centre that does not give.

    Returns:
        mm/N: c(a, a), less c(a, L)^2 / c(L, L) with a centre at L, c being `flexibility`.

    Raises:
        ValueError: as `flexibility`.

    Source:
        Castigliano's theorem; the reaction of the centre is the redundant force. Derived.
    """
    free = flexibility(sections, modulus, load_at, load_at)
    if not live_centre:
        return free
    end = sum(section.length for section in sections)
    across = flexibility(sections, modulus, load_at, end)
    return max(free - across**2 / flexibility(sections, modulus, end, end), 0.0)


def slenderness(sections: Sequence[Section], modulus: float) -> float:
    """Length over diameter of the plain bar that gives as much at its free end.

    Args:
        sections: from the jaws outward.
        modulus: GPa; it falls out of the result.

    Returns:
        L / D of a uniform solid bar of the same length and flexibility.

    Raises:
        ValueError: as `flexibility`.

    Source:
        F L^3 / (3 E I) with I = pi D^4 / 64, solved for D; derived.
    """
    length = sum(section.length for section in sections)
    positive(length=length)
    moment = length**3 / (3000.0 * modulus * flexibility(sections, modulus, length, length))
    return length / float((64.0 * moment / pi) ** 0.25)
