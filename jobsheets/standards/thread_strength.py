"""Strength of engaged threads: stress area, shear areas of both sides, length so that the rod breaks first.

Units    mm, mm2, N, MPa.
Sources  FED-STD-H28/2B and ASME B1.1 appendix B, ISO 898-1; formulas in docs/threads.md.
Scope    parallel threads at their worst sizes in the class (thinnest screw, widest nut), static load.
"""

from math import pi, radians, tan

from jobsheets.standards.thread_form import pitch_diameter, root_diameter
from jobsheets.standards.thread_values import Thread, ThreadLimits
from jobsheets.value import Frozen

SHEAR_SHARE = 3.0**-0.5  # shear strength of a ductile metal as a share of its tensile strength (von Mises)


class WorstSizes(Frozen):
    """The sizes that leave the least metal in shear, mm."""

    major_min: float  # of the screw
    screw_pitch_min: float
    nut_pitch_max: float
    minor_max: float  # of the nut


class ShearAreas(Frozen):
    """Metal in shear over a length of engagement, mm2."""

    screw: float  # cut off at the nut's minor diameter
    nut: float  # cut off at the screw's major diameter


class Engagement(Frozen):
    """Least full thread that makes the screw break rather than strip."""

    length: float  # mm
    stress_area: float  # of the screw, mm2
    ratio: float  # J: strength of the screw's thread over that of the nut's, at equal length
    weaker: str  # "screw" or "nut": which thread would strip first


def stress_area(thread: Thread) -> float:
    """Area that carries the pull of a screw, mm2.

    Source:
        ASME B1.1: pi/4 (D - 0.974279 P)^2, for metals up to 690 MPa (100 ksi). ISO 898-1:
        pi/4 (d - 0.938194 P)^2, the mean of pitch and root diameter; so taken for Whitworth, BA and ME too.
    """
    if thread.system == "UN":
        mean = thread.major - 0.974279 * thread.pitch
    else:
        mean = (pitch_diameter(thread) + root_diameter(thread)) / 2.0
    return pi / 4.0 * mean**2


def worst_sizes(thread: Thread, screw: ThreadLimits, nut: ThreadLimits) -> WorstSizes:
    """Sizes of the weakest screw and nut of two classes.

    Raises:
        ValueError: limits of another thread, or screw and nut changed over.
    """
    if screw.thread != thread.name or nut.thread != thread.name or not screw.external or nut.external:
        raise ValueError(
            f"want limits of a screw and of a nut for {thread.name}, got {screw.thread} "
            f"{screw.tolerance_class} and {nut.thread} {nut.tolerance_class}"
        )
    return WorstSizes(
        major_min=screw.major_min,
        screw_pitch_min=screw.pitch_min,
        nut_pitch_max=nut.pitch_max,
        minor_max=nut.minor_max,
    )


def shear_areas(thread: Thread, sizes: WorstSizes, length: float) -> ShearAreas:
    """Shear areas of both threads over a length of full engagement.

    Args:
        thread: for its pitch and flank angle.
        sizes: from `worst_sizes`.
        length: full threads engaged, mm.

    Raises:
        ValueError: a length that is not above zero.

    Source:
        FED-STD-H28/2B: screw pi n L K [1/(2n) + tan a (E_s - K)], nut pi n L D [1/(2n) + tan a (D - E_n)];
        printed with tan 30 = 0.57735, other flank angles by the same geometry (derived).
    """
    if length <= 0.0:
        raise ValueError(f"engagement of {length:g} mm; want a length above 0")
    slope = tan(radians(thread.angle / 2.0))
    half = thread.pitch / 2.0
    turns = pi * length / thread.pitch
    screw = turns * sizes.minor_max * (half + slope * (sizes.screw_pitch_min - sizes.minor_max))
    nut = turns * sizes.major_min * (half + slope * (sizes.major_min - sizes.nut_pitch_max))
    return ShearAreas(screw=screw, nut=nut)


def engagement_length(
    thread: Thread, sizes: WorstSizes, screw_tensile: float, nut_tensile: float
) -> Engagement:
    """Least length of full thread so that the screw breaks in its shank before either thread strips.

    Args:
        thread: basic sizes.
        sizes: from `worst_sizes`.
        screw_tensile: tensile strength of the screw, MPa.
        nut_tensile: tensile strength of the tapped metal, MPa.

    Raises:
        ValueError: a strength that is not above zero.

    Source:
        ASME B1.1 appendix B and handbooks: 2 At over the screw's shear area a mm, times J where J > 1; the 2
        stands for a shear strength of half the tensile, on the safe side of the 0.577 of ductile metals.
    """
    if screw_tensile <= 0.0 or nut_tensile <= 0.0:
        raise ValueError(f"tensile strengths {screw_tensile:g} and {nut_tensile:g} MPa; want both above 0")
    per_mm = shear_areas(thread, sizes, 1.0)
    ratio = per_mm.screw * screw_tensile / (per_mm.nut * nut_tensile)
    area = stress_area(thread)
    return Engagement(
        length=2.0 * area / per_mm.screw * max(ratio, 1.0),
        stress_area=area,
        ratio=ratio,
        weaker="nut" if ratio > 1.0 else "screw",
    )


def strip_load(area: float, shear_strength: float) -> float:
    """Pull at which a thread strips, N: shear area (mm2) times shear strength (MPa).

    Raises:
        ValueError: an area or strength that is not above zero.

    Source:
        definition; where only a tensile strength is known take SHEAR_SHARE of it (ductile metals).
    """
    if area <= 0.0 or shear_strength <= 0.0:
        raise ValueError(f"{area:g} mm2 at {shear_strength:g} MPa holds nothing; want both above 0")
    return area * shear_strength


def length_to_hold(load: float, shear_strength: float, area_per_mm: float) -> float:
    """Engagement that holds a pull, mm: load (N) over shear strength (MPa) and shear area a mm (mm2).

    Source:
        definition; worked example M10 in aluminium in docs/threads.md.
    """
    return load / strip_load(area_per_mm, shear_strength)
