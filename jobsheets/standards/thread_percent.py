"""Percent of thread: how deep a tapped hole's thread is, on one of three bases that must be named.

Units    mm and percent.
Sources  docs/threads.md; the same hole is 77 % on one base, 82 % and 92 % on the others.
Scope    cut threads of every system; forming taps have a percent of their own, comparable with none of these.
"""

from enum import StrEnum
from math import sqrt

from jobsheets.standards.thread_form import minor_diameter
from jobsheets.standards.thread_values import Thread


class Basis(StrEnum):
    """What counts as 100 percent, on the diameter. Whitworth, ME and BA have one depth for all three."""

    US = "US tap-drill tables, 3/4 H"  # 1.299038 P
    EXTERNAL = "depth of the screw, 17/24 H"  # 1.226869 P
    ISO = "ISO basic depth, 5/8 H"  # 1.082532 P


SHARE_OF_HEIGHT = {Basis.US: 3.0 / 4.0, Basis.EXTERNAL: 17.0 / 24.0, Basis.ISO: 5.0 / 8.0}
FORMING = 0.0068  # percent of a forming tap: drill = D - 0.0068 x percent x P
FORMING_MOST = 100.0


def full_depth(thread: Thread, basis: Basis) -> float:
    """Twice the depth that counts as 100 percent, mm.

    Source:
        US: tap-drill tables of Machinery's Handbook 31st ed.; external: UNI 4535-64 in a tapping guide, as UK
        model-engineering texts reckon; ISO: ISO 68-1. Whitworth and ME 1.280655 P, BA 1.2 P.
    """
    if thread.angle == 60.0:
        return 2.0 * SHARE_OF_HEIGHT[basis] * sqrt(3.0) / 2.0 * thread.pitch
    return thread.major - minor_diameter(thread)


def percent(thread: Thread, drill: float, basis: Basis) -> float:
    """Percent of thread that a hole leaves.

    Args:
        thread: to be tapped.
        drill: diameter of the hole before tapping, mm.
        basis: what counts as 100 percent; print it beside the result.

    Raises:
        ValueError: a hole as large as the thread, or one so small that the tap's root would cut.

    Source:
        (D - drill) / full depth.
    """
    least = thread.major - full_depth(thread, Basis.US)
    if not least - 1e-9 <= drill < thread.major:
        usual = thread.major - 0.7 * (thread.major - least)
        raise ValueError(
            f"a hole of {drill:.3f} mm does not suit {thread.name}: want {least:.3f} mm (smaller, and the "
            f"tap's root cuts) to less than {thread.major:.3f} mm; {usual:.3f} mm leaves 70 %"
        )
    return 100.0 * (thread.major - drill) / full_depth(thread, basis)


def drill_for_percent(thread: Thread, wanted: float, basis: Basis) -> float:
    """Hole that leaves a percent of thread, mm; not yet a drill that exists.

    Raises:
        ValueError: a percent that no hole gives.

    Source:
        D - percent x full depth; on the US base D - 0.01299 x percent / n in inches.
    """
    most = 100.0 * full_depth(thread, Basis.US) / full_depth(thread, basis)
    if not 0.0 < wanted <= most + 1e-9:
        raise ValueError(
            f"{wanted:g} % of thread ({basis}); want above 0 and up to {most:.0f} %, usually 50 to 75 %"
        )
    return thread.major - wanted / 100.0 * full_depth(thread, basis)


def forming_percent(thread: Thread, drill: float) -> float:
    """Percent of thread that a forming tap raises in a hole; compares with no percent of a cut thread.

    Raises:
        ValueError: a form that is not 60 degrees, or a hole out of the range of the rule.

    Source:
        common practice, inch rule of a forum note and chart: drill = D - 0.0068 x percent / n.
    """
    _forming_form(thread)
    found = (thread.major - drill) / (FORMING * thread.pitch)
    if not 0.0 < found <= FORMING_MOST + 1e-9:
        raise ValueError(
            f"a hole of {drill:.3f} mm does not suit a forming tap for {thread.name}: drill "
            f"{thread.major - FORMING * FORMING_MOST * thread.pitch:.3f} to less than {thread.major:.3f} mm"
        )
    return found


def forming_drill(thread: Thread, wanted: float) -> float:
    """Hole for a forming tap at a percent of its own, mm. Errors and source as `forming_percent`."""
    _forming_form(thread)
    if not 0.0 < wanted <= FORMING_MOST:
        raise ValueError(f"{wanted:g} % for a forming tap; want above 0 and up to 100 %, usually 65 %")
    return thread.major - FORMING * wanted * thread.pitch


def _forming_form(thread: Thread) -> None:
    if thread.angle != 60.0:
        raise ValueError(f"the forming-tap rule is for 60 degree threads, not {thread.name}; cut that thread")
