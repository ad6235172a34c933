"""Cutting a thread with a single point: passes, thread dial, speed at which one can still stop, more starts.

Units    mm, rev/min, seconds.
Sources  each function names its own.
Scope    depths are square to the axis of the work; what a swivelled slide is fed for them is
         standards/thread_form.py.
"""

from fractions import Fraction
from math import ceil, floor, gcd, sqrt

from jobsheets.cutting.limits import not_negative, positive

MOST_PASSES = 400  # more is no thread that anyone cuts by hand
HAIR = 1e-9


def passes_for(depth: float, first: float) -> int:
    """Passes of constant chip area when the first may be no deeper than `first`.

    Source:
        n = ceil((d / t)^2): the area of a V grows with the square of its depth; textbooks, from memory.
    """
    positive(depth=depth, first_cut=first)
    return max(1, ceil((depth / first) ** 2 - HAIR))


def constant_area(depth: float, passes: int) -> tuple[float, ...]:
    """Depths reached by passes that each take away the same area, mm; the last is `depth`.

    Raises:
        ValueError: a depth that is not above zero, or no sensible number of passes.

    Source:
        d sqrt(i / n); textbooks, from memory.
    """
    positive(depth=depth)
    _sensible(passes)
    return tuple(depth * sqrt(i / passes) for i in range(1, passes + 1))


def falling(depth: float, first: float, last: float) -> tuple[float, ...]:
    """Depths reached by cuts that fall evenly from the first to the last, mm; they add up to `depth`.

    Args:
        depth: to reach, mm.
        first: limit of the first cut, mm.
        last: wished last cut, mm, at most the first.

    Returns:
        Depth after each pass. No cut is deeper than the one before it, none deeper than `first`.

    Raises:
        ValueError: a last cut deeper than the first, or too many passes.

    Source:
        common practice: each cut lighter, because the tool cuts on more and more of its flanks.
    """
    positive(depth=depth, first_cut=first, last_cut=last)
    if last > first:
        raise ValueError(f"a last cut of {last:g} mm after a first of {first:g} mm: want it no deeper")
    if depth <= first:
        return (depth,)
    count = ceil(2.0 * depth / (first + last) - HAIR)
    _sensible(count)
    share = depth * 2.0 / (count * (first + last))  # at most 1: whole passes take a little less each
    cuts = [share * (first + (last - first) * i / (count - 1)) for i in range(count)]
    at, reached = 0.0, []
    for cut in cuts:
        at += cut
        reached.append(at)
    return (*reached[:-1], depth)


def _sensible(passes: int) -> None:
    if not 1 <= passes <= MOST_PASSES:
        raise ValueError(f"{passes} passes: want 1 to {MOST_PASSES}; allow a deeper first cut")


def next_depth(at: float, first: float, least: float) -> float:
    """Deepest that the pass after one at depth `at` may go, mm.

    It takes no more area than the first cut did, and no less depth than the smallest chip that still cuts.

    Source:
        constant chip area, as `constant_area`; a cut below the smallest chip rubs: common practice.
    """
    not_negative(depth=at)
    positive(first_cut=first, least_chip=least)
    return max(sqrt(at * at + first * first), at + min(least, first))


def on_lines(steps: int, step: float, first: float, least: float, *, even: bool = False) -> tuple[int, ...]:
    """Passes as whole steps of a dial, cumulative; the last is `steps`.

    Args:
        steps: of the dial, to the full depth.
        step: depth that one step makes, mm.
        first: limit of the first cut, mm.
        least: smallest chip that still cuts, mm.
        even: cuts fall evenly to `least`, as `falling`, instead of keeping the area of the chip.

    Returns:
        Steps from zero after each pass. No cut is deeper than `first`; with the area kept none goes beyond
        `next_depth`; only a dial too coarse for that makes a cut of one step instead.

    Raises:
        ValueError: no steps, or too many passes.

    Source:
        the schedules above, rounded down to lines of the dial.
    """
    if steps < 1:
        raise ValueError(f"{steps} steps of the dial: want at least one")
    positive(step=step, first_cut=first, least_chip=least)
    most = max(floor(first / step + HAIR), 1)
    wishes = iter(falling(steps * step, first, min(least, first)) if even else ())
    reached: list[int] = []
    at = 0
    while at < steps:
        wish = next(wishes, steps * step) if even else next_depth(at * step, first, least)
        line = max(floor(wish / step + HAIR), at + 1)
        at = min(line, at + most, steps)
        reached.append(at)
        _sensible(len(reached))
    return tuple(reached)


def dial_repeat(ratio: Fraction) -> int:
    """Threads of the leadscrew after which it and the work stand as they stood: there half-nuts may close.

    Args:
        ratio: lead that is really cut over the pitch of the leadscrew.

    Raises:
        ValueError: a ratio that is not above zero.

    Source:
        F. D. Jones, Turning and Boring (1914), principle of the thread indicator: both screws must have made
        whole turns. The least such travel is the numerator of the ratio in lowest terms.
    """
    if ratio <= 0:
        raise ValueError(f"a lead of {ratio} leadscrew pitches: want more than 0")
    return ratio.numerator


def dial_every(ratio: Fraction, teeth: int, marks: int) -> int | None:
    """Every which mark of a threading dial will do: 0 anywhere, 1 any mark, 2 every second; None: no mark.

    None means that the dial goes round more than once before the screws agree again, so that a mark says
    nothing: the half-nuts stay closed and the spindle is reversed.

    Args:
        ratio: lead that is really cut over the pitch of the leadscrew.
        teeth: of the dial's gear that meshes with the leadscrew.
        marks: on the dial, evenly spaced.

    Raises:
        ValueError: no teeth or no marks.

    Source:
        F. D. Jones, Turning and Boring (1914); marks are teeth / marks leadscrew threads apart.
    """
    if teeth < 1 or marks < 1:
        raise ValueError(f"a threading dial of {teeth} teeth and {marks} marks: want at least one of each")
    repeat = dial_repeat(ratio)
    if repeat == 1:
        return 0
    every = marks * repeat // gcd(teeth, marks * repeat)
    return every if marks % every == 0 else None


def stopping_speed(room: float, lead: float, reaction: float) -> float:
    """Fastest spindle speed at which a hand opens the half-nuts inside the run-out, rev/min.

    Args:
        room: length that the tool may still travel, mm.
        lead: advance in one turn, mm.
        reaction: from seeing the mark to the half-nuts open, s.

    Returns:
        rev/min; 0 where there is no room: turn the spindle by hand.

    Raises:
        ValueError: room below zero, lead or reaction not above it.

    Source:
        60 room / (lead reaction): travel in the time that a hand takes.
    """
    not_negative(room=room)
    positive(lead=lead, reaction=reaction)
    return 60.0 * room / (lead * reaction)


def index_teeth(starts: int, stud_gear: int) -> int | None:
    """Teeth of the stud gear from one start to the next; None where they do not divide.

    The gear on the stud is marked in as many places as there are starts, taken out of mesh, the spindle
    turned from one mark to the next, and meshed again. The stud must turn once with the spindle.

    Raises:
        ValueError: no start, or no gear.

    Source:
        F. D. Jones, Turning and Boring (1914), cutting multiple threads: the first gear's teeth must be a
        multiple of the starts.
    """
    if starts < 1 or stud_gear < 1:
        raise ValueError(f"{starts} starts on a gear of {stud_gear}: want one or more of each")
    return stud_gear // starts if stud_gear % starts == 0 else None
