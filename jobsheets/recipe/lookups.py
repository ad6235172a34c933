"""What formulas may look up about a thread, mm."""

from jobsheets import units
from jobsheets.standards import thread_form, threads
from jobsheets.standards.threads import Thread

# Percent of thread of a usual tap drill, whatever the metal: the span of general figures, common practice.
# The planner knows the metal and the drawer, and chooses its own drill by them.
USUAL_PERCENT = (55.0, 75.0)
SERIES = {True: ("metric",), False: ("number", "letter", "fraction")}  # by whether the thread is metric


def thread(text: str) -> Thread:
    """The thread that a text names, without class and hand, which have fields of their own.

    Raises:
        ValueError: no thread of the tables, or more than its name.
    """
    name = units.thread(text)
    if name.tolerance_class or name.left or name.starts != 1:
        raise ValueError("more than a thread; want its name alone, with class: and hand: beside it")
    try:
        return threads.find(name)
    except ValueError as error:
        raise ValueError(f"not in the tables of threads; want {error}") from None


def major(of: Thread) -> float:
    """Basic major diameter, mm."""
    return of.major


def pitch(of: Thread) -> float:
    """Distance from thread to thread, mm."""
    return of.pitch


def minor(of: Thread) -> float:
    """Basic minor diameter of the nut, mm.

    Source:
        as `thread_form.minor_diameter`.
    """
    return thread_form.minor_diameter(of)


def tap_drill(of: Thread) -> float:
    """Diameter of a usual tap drill, mm: a metric one for metric threads, else a number, letter or fraction.

    Raises:
        ValueError: no drill of the table suits.

    Source:
        percent of thread as in `standards.tap_drills`; 55 to 75 percent is common practice.
    """
    from jobsheets.standards import drills, tap_drills  # few recipes ask

    full = tap_drills.CUT_60 if of.angle == 60.0 else 2.0 * thread_form.DEPTH[of.angle]
    sold = [d for name in SERIES[of.system == "M"] for d in drills.series(name)]
    return tap_drills.choose(of.major, of.pitch, USUAL_PERCENT, tuple(sold), full).best.drill.mm


def clearance_hole(of: Thread) -> float:
    """Hole of the normal series that a screw of this thread passes through, mm: its least size.

    Raises:
        ValueError: the standards have none for it.

    Source:
        ISO 273 and ASME B18.2.8.
    """
    from jobsheets.standards import clearance  # few recipes ask

    return clearance.hole_for(of.major).least
