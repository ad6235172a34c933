"""Tap drills of a thread, each with its percent of thread on every basis by name."""

from jobsheets.lookup.answer import COMPUTED, LENGTH, Group, Value
from jobsheets.standards import tap_drills
from jobsheets.standards.drills import DrillSize, everything, series
from jobsheets.standards.tap_drills import Candidate, PercentRange
from jobsheets.standards.thread_percent import Basis, full_depth, percent
from jobsheets.standards.thread_values import Thread

ONE_BASIS = "full depth of the form"
INCH_SERIES = ("number", "letter", "fraction")
METRIC_SERIES = ("metric", "metric fine")


def tap_group(
    thread: Thread, wanted: PercentRange | None = None, owned: tuple[DrillSize, ...] | None = None
) -> Group:
    """The drill nearest to the middle of a range of percents, and the next one up and down.

    Args:
        thread: to be tapped.
        wanted: percent of thread on the US basis (or of the form's own depth); None for metals in general.
        owned: drills of the drawer; None for every drill that is sold for the thread's own system of units.

    Raises:
        ValueError: no drill leaves any thread; one to buy is named.
    """
    aim = wanted or tap_drills.any_metal_percent()
    full = full_depth(thread, Basis.US) / thread.pitch
    drills = _sold(thread, full) if owned is None else owned
    choice = tap_drills.choose(thread.major, thread.pitch, (aim.low, aim.high), drills, full)
    first = "best" if choice.suits else "nearest, outside the range"
    rows = [(first, choice.best), ("next larger", choice.larger), ("next smaller", choice.smaller)]
    values = [_aim(aim)]
    for label, candidate in rows:
        if candidate is not None:
            values += _drill(thread, label, candidate)
    return Group(title=f"Tap drills for {thread.name}", values=tuple(values))


def _sold(thread: Thread, full: float) -> tuple[DrillSize, ...]:
    """Drills of the thread's own system; of all where that has none so large."""
    names = METRIC_SERIES if thread.system in ("M", "BA") else INCH_SERIES
    own = tuple(drill for name in names for drill in series(name))
    least = tap_drills.drill_for(thread.major, thread.pitch, 100.0, full)
    return own if any(least <= drill.mm < thread.major for drill in own) else everything()


def _aim(aim: PercentRange) -> Value:
    """The range aimed at; every row of its table was read on a page (a test holds it to that)."""
    text = f"{aim.low:g} to {aim.high:g}"
    return Value(name="percent of thread to aim at", value=text, unit="%", source=aim.source, seen="page")


def _drill(thread: Thread, label: str, candidate: Candidate) -> list[Value]:
    drill = candidate.drill
    size = Value(
        name=f"{label}: {drill.name}", value=drill.mm, unit=LENGTH, source=drill.source, seen=drill.seen
    )
    return [size, *(_percent(thread, drill, basis, name) for basis, name in _bases(thread))]


def _bases(thread: Thread) -> tuple[tuple[Basis, str], ...]:
    """The bases that differ: three at 60 degrees, one for the rounded forms."""
    return tuple((basis, str(basis)) for basis in Basis) if thread.angle == 60.0 else ((Basis.US, ONE_BASIS),)


def _percent(thread: Thread, drill: DrillSize, basis: Basis, name: str) -> Value:
    return Value(
        name=f"percent of thread, {name}",
        value=percent(thread, drill.mm, basis),
        unit="%",
        how=f"{drill.name}: (D - drill) / full depth",
        source="docs/threads.md section 6",
        seen=COMPUTED,
    )
