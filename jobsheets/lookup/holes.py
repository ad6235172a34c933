"""The holes of a screw: clearance, counterbore, countersink, and the drills for tapping its threads."""

from jobsheets.lookup.answer import LENGTH, Answer, Group, Miss, Value, from_error
from jobsheets.lookup.near import size_of
from jobsheets.lookup.tap_values import tap_group
from jobsheets.standards import clearance, screw_names, screw_seats, tap_drills, threads
from jobsheets.standards.clearance import ClearanceHole
from jobsheets.standards.drills import DrillSize
from jobsheets.standards.materials import Material
from jobsheets.standards.thread_catalogue import everything
from jobsheets.standards.thread_values import Thread
from jobsheets.units import thread as read_thread

KIND = "hole"
USUAL_SERIES = ("UNC", "UNF", "coarse", "fine")
HAIR = 0.005  # mm


def answer(
    text: str, material: Material | None = None, owned: tuple[DrillSize, ...] | None = None
) -> Answer | Miss:
    """Holes for a screw that is named by its size or by its thread.

    Args:
        text: "#8", "M5", "1/4 in" or "8-32 UNC".
        material: metal to be tapped; None for metals in general.
        owned: drills of the drawer; None for every drill that is sold.
    """
    try:
        size, tapped = _meant(text)
    except ValueError as exc:
        return from_error(KIND, text, exc, _near(text))
    groups = [group for group in (_clearance(size), _counterbore(size), _countersink(size)) if group.values]
    notes = [] if groups else [f"the standards give no clearance hole or seat for {size}"]
    for thread in tapped:
        try:
            aim = tap_drills.target_percent(material) if material else None
            groups.append(tap_group(thread, aim, owned))
        except ValueError as exc:
            notes.append(f"{thread.name}: {exc}")
    return Answer(
        kind=KIND, name=size, title=_title(size, material), groups=tuple(groups), notes=tuple(notes)
    )


def _title(size: str, material: Material | None) -> str:
    return f"Holes for a {size} screw" + (f", tapped in {material.name}" if material else "")


def _meant(text: str) -> tuple[str, tuple[Thread, ...]]:
    """The screw's size as the tables call it, and the threads to tap."""
    try:
        thread = threads.find(read_thread(text))
    except ValueError:
        major = screw_names.major(text)
        tapped = tuple(
            one for one in everything() if one.series in USUAL_SERIES and abs(one.major - major) < HAIR
        )
        if not tapped:
            raise ValueError(
                f"no screw of the tables is called {text!r}; want such as #8, M5 or 1/4 in"
            ) from None
        return screw_names.plain(text), tapped
    if thread.system == "UN":
        return ("" if "/" in thread.size or thread.size == "1" else "#") + thread.size, (thread,)
    return thread.size if thread.system == "M" else thread.name, (thread,)


def _near(text: str) -> tuple[str, ...]:
    """Screws that have published clearance holes, nearest in size."""
    known = clearance.screws()
    try:
        wanted = screw_names.major(text)
    except ValueError:
        found = size_of(text)
        if found is None:
            return ()
        wanted = found
    return tuple(sorted(known, key=lambda name: abs(screw_names.major(name) - wanted))[:3])


def _clearance(size: str) -> Group:
    values: list[Value] = []
    for fit, word in clearance.FITS.items():
        try:
            values += _limits(clearance.hole(size, fit), word)
        except ValueError:
            continue  # the standards give none; the group stays empty
    return Group(title="Clearance", values=tuple(values))


def _limits(hole: ClearanceHole, word: str) -> list[Value]:
    drill = f", drill {hole.drill}" if hole.drill else ""
    how = f"{hole.standard}, {word if hole.screw.startswith('M') else hole.fit}, {hole.grade}"
    return [
        Value(
            name=f"{hole.fit}, {end}{drill}",
            value=size,
            unit=LENGTH,
            how=how,
            source=hole.source,
            seen=hole.seen,
        )
        for end, size in (("smallest", hole.least), ("largest", hole.most))
    ]


def _counterbore(size: str) -> Group:
    try:
        seat = screw_seats.counterbore(size)
    except ValueError:
        return Group(title="Counterbore", values=())
    named = (
        ("bore", seat.bore),
        ("depth that brings the head flush", seat.head_height),
        ("head diameter", seat.head_diameter),
    )
    return Group(
        title="Counterbore for a socket head",
        values=tuple(
            Value(name=name, value=mm, unit=LENGTH, how=seat.standard, source=seat.source, seen=seat.seen)
            for name, mm in named
        ),
    )


def _countersink(size: str) -> Group:
    try:
        head = screw_seats.countersunk_head(size)
    except ValueError:
        return Group(title="Countersink", values=())
    named: tuple[tuple[str, float, str], ...] = (
        ("largest head diameter", head.head_diameter, LENGTH),
        ("head height", head.head_height, LENGTH),
        ("included angle", head.angle, "deg"),
    )
    return Group(
        title="Countersink for a flat head",
        values=tuple(
            Value(name=name, value=number, unit=unit, how=head.standard, source=head.source, seen=head.seen)
            for name, number, unit in named
        ),
    )
