"""Diameter to turn a rod to before a die cuts its thread.

Units    mm.
Sources  common practice: 10 % of the pitch below nominal; one article gives 12 to 22 % (M3 from 2.89 to
         2.94 mm, M2 from 1.93 to 1.95 mm). Lower half of the major limits: common practice.
Scope    hand dies, which raise the crest a little. A rolled thread starts near the pitch diameter instead.
"""

from jobsheets.standards.thread_values import Thread, ThreadLimits
from jobsheets.value import Frozen

UNDER_TARGET, UNDER_MOST = 0.10, 0.22  # of the pitch, below the basic major diameter
SOURCE = (
    "common practice: 10 % of the pitch under nominal, down to 22 %, within the major limits of the class"
)


class Blank(Frozen):
    """What to turn before the die, mm."""

    target: float
    smallest: float
    largest: float
    ruled_by: str  # which rule set the target
    source: str


def die_blank(thread: Thread, limits: ThreadLimits) -> Blank:
    """Blank for a die-cut screw: common practice, kept within the major limits of the class.

    Args:
        thread: to be cut.
        limits: of its external class.

    Raises:
        ValueError: limits of a nut, or of another thread.

    Source:
        common practice, see the head of this module.
    """
    least, most = limits.major_min, limits.major_max
    if most is None or not limits.external or limits.thread != thread.name:
        raise ValueError(
            f"want external limits of {thread.name}, got {limits.thread} {limits.tolerance_class}"
        )
    target = thread.major - UNDER_TARGET * thread.pitch
    smallest = thread.major - UNDER_MOST * thread.pitch
    if least < target <= most:
        rule = "10 % of the pitch under nominal (common practice)"
        return Blank(
            target=target, smallest=max(smallest, least), largest=target, ruled_by=rule, source=SOURCE
        )
    return Blank(
        target=least + (most - least) / 4.0,
        smallest=least,
        largest=(least + most) / 2.0,
        ruled_by=f"lower half of the major limits of class {limits.tolerance_class} (common practice)",
        source=SOURCE,
    )
