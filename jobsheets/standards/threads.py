"""Screw threads by name: basic sizes, classes and limits of every system through one door.

Units    mm and degrees.
Sources  carried by each value; docs/threads.md lists them and where they disagree.
Scope    see thread_catalogue; geometry is in thread_form, strength in thread_strength, percent of thread in
         thread_percent, blanks for dies in thread_blank, naming an unknown thread in thread_identify.
"""

from jobsheets.standards.thread_catalogue import everything, lookup
from jobsheets.standards.thread_values import Thread, ThreadLimits
from jobsheets.units import ThreadName

__all__ = ["Thread", "ThreadLimits", "classes", "default_class", "everything", "find", "limits", "lookup"]


USUAL = (
    "2A",
    "2B",
    "6g",
    "6H",
    "medium bolt",
    "medium nut",
    "normal bolt",
    "normal nut",
)
USUAL_FINEST = ("6h", "6H", "5H", "4H")


def find(name: ThreadName) -> Thread:
    """The standard thread that a written name means; M5 is completed to M5x0.8, 8 UNC to 8-32 UNC.

    Raises:
        ValueError: no such standard thread, or more than one (the nearest are named); more than one start.

    Source:
        data/thread_sizes.csv.
    """
    if name.starts != 1:
        raise ValueError(
            f"{name} has {name.starts} starts: the tables are of single-start threads; want one of those"
        )
    size = name.size
    if name.system == "UN":  # No. 1 and 1 in are both written 1
        size = f"#{size}" if name.major_mm is None else f"{size} in"
    return lookup(name.system, size, tpi=name.tpi, pitch=name.pitch_mm, series=name.series)


def classes(thread: Thread, external: bool) -> tuple[str, ...]:
    """Tolerance classes that the standard knows for a thread."""
    if thread.system == "UN":
        from jobsheets.standards import thread_un

        return thread_un.classes(thread, external)
    if thread.system == "M":
        from jobsheets.standards import thread_iso

        return thread_iso.classes(thread, external)
    from jobsheets.standards import thread_whitworth

    return thread_whitworth.classes(thread, external)


def default_class(thread: Thread, external: bool) -> str:
    """The class that is meant when none is written.

    Source:
        2A/2B: ASME B1.1 general use. 6g/6H: ISO 965-1, and its 6h, 5H, 4H for the finest pitches.
        BA "normal": BS 93. BSW, BSF and ME "medium": BS 84.
    """
    known = classes(thread, external)
    finest = thread.system == "M" and thread.pitch < 0.35  # up to M1.4 the standard prefers no allowance
    usual = USUAL_FINEST if finest else USUAL
    return next(name for name in usual if name in known)


def limits(thread: Thread, tolerance_class: str) -> ThreadLimits:
    """Limits of size of a thread in one class; the class says whether it is a screw or a nut.

    Args:
        thread: from `find` or `lookup`.
        tolerance_class: "2A", "3B", "6g", "5g6g", "6H"; for BA, BSW, BSF and ME "normal bolt", "medium nut".

    Raises:
        ValueError: the standard has no such class for this thread; those that exist are named.

    Source:
        carried by the result.
    """
    if thread.system == "UN":
        from jobsheets.standards import thread_un

        return thread_un.limits(thread, tolerance_class)
    if thread.system == "M":
        from jobsheets.standards import thread_iso

        return thread_iso.limits(thread, tolerance_class)
    from jobsheets.standards import thread_whitworth

    return thread_whitworth.limits(thread, tolerance_class)
