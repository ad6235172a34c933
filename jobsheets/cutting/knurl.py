"""Blanks for pressed knurls: a whole number of teeth, and the growth that pressing gives.

Units    mm; diametral pitch in teeth to the inch of diameter.
Sources  ASME B94.6 diametral pitches, from memory; circular pitch by geometry.
Scope    pressed (not cut) straight, diagonal and diamond knurls. The growth is a rule of thumb: try it on
         scrap.
"""

from math import floor, pi

from msgspec import Struct

from jobsheets.cutting.limits import positive

DIAMETRAL_PITCHES = (64, 96, 128, 160)  # ASME B94.6, from memory
GROWTH = (1.0 / 3.0, 1.0 / 2.0)  # of the pitch, on the diameter: common practice, from memory
RUN_OUT = 0.03  # mm, most of the blank: operating instructions of a knurling tool
FEWEST = 8  # teeth; below it the blank is too small to track
WHOLE = 1e-9  # a blank this near a whole tooth has it


class Blank(Struct, frozen=True, kw_only=True):
    """A diameter on which the knurl closes on itself."""

    diameter: float  # mm, to turn before knurling
    teeth: int
    pitch: float  # mm along the circumference of the blank
    grown_low: float  # mm, over the knurl
    grown_high: float


def circular_blank(nominal: float, pitch: float) -> Blank:
    """Largest blank up to a diameter that holds whole teeth of a circular pitch.

    Args:
        nominal: largest diameter of the blank, mm.
        pitch: of the knurl along the circumference, mm; 25.4 over the teeth to the inch.

    Returns:
        Blank of diameter N p / pi.

    Raises:
        ValueError: a value that is not above zero, or a blank of fewer than 8 teeth.

    Source:
        Geometry; that the blank must match the pitch is trade knowledge.
    """
    positive(nominal_diameter=nominal, pitch=pitch)
    return _blank(floor(pi * nominal / pitch + WHOLE), pitch, nominal)


def diametral_blank(nominal: float, diametral_pitch: int) -> Blank:
    """Largest blank up to a diameter that holds whole teeth of a diametral pitch.

    Args:
        nominal: largest diameter of the blank, mm.
        diametral_pitch: teeth to the inch of diameter: 64, 96, 128 or 160.

    Returns:
        Blank of diameter 25.4 N / DP.

    Raises:
        ValueError: a pitch that is not one of the four, or a blank of fewer than 8 teeth.

    Source:
        ASME B94.6, from memory.
    """
    positive(nominal_diameter=nominal)
    if diametral_pitch not in DIAMETRAL_PITCHES:
        known = ", ".join(map(str, DIAMETRAL_PITCHES))
        raise ValueError(f"a diametral pitch of {diametral_pitch}: want {known}, or give the circular pitch")
    return _blank(floor(nominal * diametral_pitch / 25.4 + WHOLE), 25.4 * pi / diametral_pitch, nominal)


def growth(pitch: float) -> tuple[float, float]:
    """Least and most that pressing a knurl adds to the diameter, mm: a third to a half of the pitch.

    Args:
        pitch: mm along the circumference.

    Raises:
        ValueError: a pitch not above zero.

    Source:
        Common practice, from memory.
    """
    positive(pitch=pitch)
    return GROWTH[0] * pitch, GROWTH[1] * pitch


def chamfer(pitch: float) -> float:
    """Least width of the chamfer to turn before knurling, mm: half of the pitch, at 30 to 45 degrees.

    Args:
        pitch: mm along the circumference.

    Raises:
        ValueError: a pitch not above zero.

    Source:
        Operating instructions of a knurling tool, maker not named.
    """
    positive(pitch=pitch)
    return pitch / 2.0


def _blank(teeth: int, pitch: float, nominal: float) -> Blank:
    if teeth < FEWEST:
        raise ValueError(f"{nominal:g} mm holds {teeth} teeth, want {FEWEST} or more: take a finer knurl")
    diameter = teeth * pitch / pi
    least, most = growth(pitch)
    return Blank(
        diameter=diameter, teeth=teeth, pitch=pitch, grown_low=diameter + least, grown_high=diameter + most
    )
