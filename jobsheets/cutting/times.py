"""Time a cut takes. Hand feed is not even: a time is an estimate, and is printed as one.

Units    minutes, mm, mm/rev, rev/min.
Sources  each function names its own.
Scope    the time in the cut; setting, measuring and clearing chips are the planner's.
"""

from math import ceil

from jobsheets.cutting.limits import not_negative, positive

SAME = 1e-9  # mm: below this a last pass has nothing left to cut


def turning_time(
    length: float, feed: float, spindle: float, approach: float = 0.0, overtravel: float = 0.0
) -> float:
    """Time of one pass along the work.

    Args:
        length: cut, mm.
        feed: mm/rev.
        spindle: rev/min.
        approach: before the cut, mm; 2 to 3 is usual.
        overtravel: beyond the cut, mm; none at a shoulder.

    Returns:
        min: (L + a + o) / (f n).

    Raises:
        ValueError: a value that is not above zero, or an approach or overtravel below zero.

    Source:
        IIT Kharagpur manufacturing lesson 25.
    """
    positive(length=length, feed=feed, spindle_speed=spindle)
    not_negative(approach=approach, overtravel=overtravel)
    return (length + approach + overtravel) / (feed * spindle)


def passes(start: float, finish: float, depth: float) -> int:
    """Number of equal passes from one diameter to another; a finishing cut is counted apart.

    Args:
        start: diameter, mm.
        finish: diameter, mm; larger than `start` when boring.
        depth: most on the radius in one pass, mm.

    Returns:
        ceil(|D1 - D2| / (2 ap)); 0 when there is nothing to cut.

    Raises:
        ValueError: a diameter below zero, or a depth not above zero.

    Source:
        IIT Kharagpur manufacturing lesson 25.
    """
    not_negative(start=start, finish=finish)
    positive(depth_of_cut=depth)
    return ceil((abs(start - finish) - SAME) / (2.0 * depth))


def facing_time(outer: float, inner: float, feed: float, spindle: float, approach: float = 0.0) -> float:
    """Time to face once at one spindle speed.

    Args:
        outer: diameter, mm.
        inner: diameter, mm; 0 to the centre.
        feed: mm/rev.
        spindle: rev/min.
        approach: before the cut, mm.

    Returns:
        min: ((Do - Di) / 2 + a) / (f n).

    Raises:
        ValueError: an inner diameter not inside the outer, or a value that is not above zero.

    Source:
        Groover, Fundamentals of Modern Manufacturing, facing problem, from memory.
    """
    positive(outer_diameter=outer)
    not_negative(inner_diameter=inner)
    if inner >= outer:
        raise ValueError(
            f"the inner diameter {inner:g} mm is not inside the outer {outer:g} mm: swap or mend them"
        )
    return turning_time((outer - inner) / 2.0, feed, spindle, approach)


def parting_time(diameter: float, bore: float, feed: float, spindle: float) -> float:
    """Time to part off at one spindle speed.

    Args:
        diameter: of the bar, mm.
        bore: hole that the blade breaks into, mm; 0 for a solid bar.
        feed: mm/rev.
        spindle: rev/min.

    Returns:
        min: as facing.

    Raises:
        ValueError: as `facing_time`.

    Source:
        As `facing_time`; derived.
    """
    return facing_time(diameter, bore, feed, spindle)


def drilling_time(depth: float, feed: float, spindle: float) -> float:
    """Time to drill without pecks.

    Args:
        depth: travel of the tip in the cut, mm: full depth and the point of the drill.
        feed: mm/rev.
        spindle: rev/min.

    Returns:
        min: (t + h) / (f n).

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Groover, Fundamentals of Modern Manufacturing, blind-hole problem, from memory.
    """
    return turning_time(depth, feed, spindle)


def tapping_time(depth: float, pitch: float, spindle: float) -> float:
    """Time to run a tap or a die in and out at one speed.

    Args:
        depth: travel in, mm.
        pitch: mm.
        spindle: rev/min.

    Returns:
        min: 2 depth / (p n).

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Derived: the feed is the pitch.
    """
    return 2.0 * turning_time(depth, pitch, spindle)


def threading_time(passes: int, travel: float, pitch: float, spindle: float, back: float = 0.0) -> float:
    """Time to cut a thread with a single-point tool.

    Args:
        passes: number of cuts.
        travel: of the tool in each, with its runout, mm.
        pitch: mm.
        spindle: rev/min.
        back: minutes to go back and set the next cut; by hand this is most of the time.

    Returns:
        min: i (L / (p n) + back).

    Raises:
        ValueError: no pass, a value that is not above zero, or a time back below zero.

    Source:
        Derived: the feed is the pitch.
    """
    not_negative(time_back=back)
    if passes < 1:
        raise ValueError(f"{passes} passes: want at least one")
    return passes * (turning_time(travel, pitch, spindle) + back)
