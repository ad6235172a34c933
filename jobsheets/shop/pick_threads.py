"""Owned taps, dies, threaded mandrels and thread gauges for a thread."""

from msgspec import Struct

from jobsheets.shop.pick import Pick, missing, size
from jobsheets.shop.tools import Die, Gauge, GaugeKind, Mandrel, Tap, TapKind, Tooling
from jobsheets.standards.threads import Thread

# Chamfered threads of a tap that is not owned yet; common practice, middle of what is sold.
USUAL_LEAD = {TapKind.TAPER: 8.0, TapKind.SECOND: 4.0, TapKind.BOTTOMING: 1.5}
STARTERS = (TapKind.SECOND, TapKind.TAPER, TapKind.BOTTOMING)  # first choice first; common practice


class TapSet(Struct, frozen=True, kw_only=True):
    """Taps of one thread in the order of use; with none owned `consequence` says what to get."""

    taps: tuple[Tap, ...]
    wanted: str
    lead_threads: float  # chamfered threads of the last tap: threads of hole that it leaves unfinished
    instead: bool = False
    consequence: str = ""


def hand(left: bool) -> str:
    return " left-hand" if left else ""


def tap_for(tooling: Tooling, thread: Thread, blind: bool, left: bool = False) -> TapSet:
    """Taps for a hole: a second tap for one that is open, followed by a bottoming tap in a blind one.

    Args:
        tooling: what is owned.
        thread: the thread to cut.
        blind: the thread must come near the bottom of the hole.
        left: left-hand thread.
    """
    owned = {t.kind: t for t in tooling.taps if t.thread.name == thread.name and t.left is left}
    usual = USUAL_LEAD[TapKind.BOTTOMING if blind else TapKind.SECOND]
    name = f"{thread.name}{hand(left)}"
    wanted = f"second and bottoming taps {name}" if blind else f"second tap {name}"
    if not owned:
        other = any(t.thread.name == thread.name for t in tooling.taps)
        only = f"only {'right' if left else 'left'}-hand taps are owned; " if other else ""
        told = f"{only}buy or borrow: {wanted}"
        return TapSet(taps=(), wanted=wanted, lead_threads=usual, instead=True, consequence=told)
    first = next(owned[kind] for kind in STARTERS if kind in owned)
    bottoming = owned.get(TapKind.BOTTOMING)
    taps = (first, bottoming) if blind and bottoming is not None and bottoming is not first else (first,)
    told = _told(first, bottoming, blind, thread, tooling.system)
    return TapSet(
        taps=taps, wanted=wanted, lead_threads=taps[-1].lead_threads, instead=bool(told), consequence=told
    )


def _told(first: Tap, bottoming: Tap | None, blind: bool, thread: Thread, system: str) -> str:
    """What the taps in the drawer change against the wanted ones; nothing where they are the wanted ones."""
    if first.kind is TapKind.BOTTOMING:
        return (
            "only a bottoming tap: it starts hard; chamfer the mouth to the major diameter and keep it square"
        )
    if blind and bottoming is None:
        more = first.lead_threads - USUAL_LEAD[TapKind.BOTTOMING]
        return (
            f"no bottoming tap: the {first.kind.value} tap needs {more:g} more threads of hole"
            f" ({size(more * thread.pitch, system)}), or buy or borrow: bottoming tap {thread.name}"
        )
    if not blind and first.kind is TapKind.TAPER:
        more = first.lead_threads - USUAL_LEAD[TapKind.SECOND]
        threads = f"{more:g} more threads ({size(more * thread.pitch, system)})"
        return f"no second tap: the taper tap must run {threads} past the end of the thread"
    return ""


def die_for(tooling: Tooling, thread: Thread, left: bool = False) -> Pick[Die]:
    """The owned die of a thread; an adjustable one first."""
    wanted = f"die {thread.name}{hand(left)}"
    owned = [d for d in tooling.dies if d.thread.name == thread.name and d.left is left]
    if not owned:
        return missing(wanted)
    best = max(owned, key=lambda d: d.adjustable)
    told = (
        [] if best.adjustable else ["a solid die cuts to size at one go: turn the blank to its smaller limit"]
    )
    if not tooling.die_holder:
        told.append("no die holder: start the die flat against the nose of the tailstock chuck")
    return Pick(tool=best, wanted=wanted, instead=bool(told), consequence="; ".join(told))


def mandrel_for(tooling: Tooling, thread: Thread, most: float) -> Pick[Mandrel]:
    """The owned threaded mandrel of a thread, with the longest stud on which a nut still seats.

    Args:
        tooling: what is owned.
        thread: of the nut.
        most: longest stud that enters the nut up to the shoulder, mm.
    """
    mine = [m for m in tooling.mandrels if m.thread.name == thread.name]
    short = [m for m in mine if m.length <= most + 1e-9]
    if short:
        best = max(short, key=lambda m: m.length)
        return Pick(tool=best, wanted=best.name)
    if mine:
        least, longest = min(m.length for m in mine), size(most, tooling.system)
        told = f"its stud of {size(least, tooling.system)} jams before the nut seats: shorten it to {longest}"
        return Pick(tool=None, wanted=mine[0].name, instead=True, consequence=told)
    has_die = any(d.thread.name == thread.name and not d.left for d in tooling.dies)
    make = "turn one with the owned die and use it before it leaves the chuck" if has_die else ""
    return missing(f"threaded mandrel {thread.name}", make)


def thread_gauge_for(tooling: Tooling, thread: Thread) -> Pick[Gauge]:
    """The owned gauge of a thread: a plug gauge, else a mating thread kept for trying."""
    owned = [g for g in tooling.gauges if any(t.name == thread.name for t in g.threads)]
    plug = next((g for g in owned if g.kind is GaugeKind.THREAD_PLUG), None)
    if plug is not None:
        return Pick(tool=plug, wanted=plug.name)
    wanted = f"thread plug gauge {thread.name}"
    if not owned:
        return missing(wanted, "try with the very screw or nut that it must fit")
    told = f"{owned[0].name}: shows that it fits, not that it is inside the limits"
    return Pick(tool=owned[0], wanted=wanted, instead=True, consequence=told)
