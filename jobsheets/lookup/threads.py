"""All that a bench asks of a thread: sizes, limits, root, wires, depth of cut, blank, drills, strength."""

import re

from jobsheets.lookup import thread_values
from jobsheets.lookup.answer import Answer, Miss, from_error
from jobsheets.standards import threads
from jobsheets.standards.thread_catalogue import everything
from jobsheets.standards.thread_values import Thread, ThreadLimits
from jobsheets.units import ThreadName
from jobsheets.units import thread as read_thread

KIND = "thread"
FAMILY = {
    "UN": "Unified",
    "M": "ISO metric",
    "BA": "British Association",
    "BSW": "British Standard Whitworth",
    "BSF": "British Standard Fine",
    "ME": "Model Engineer",
}
MOST_NEAR = 3
FRACTIONS = 100.0  # beyond every screw number and metric size


def answer(text: str) -> Answer | Miss:
    """All that is known of a thread; a class in the name replaces the usual one on its side."""
    try:
        name = read_thread(text)
        thread = threads.find(name)
    except ValueError as exc:
        close = near(text)
        wrong = ValueError(str(exc).partition(": did you mean")[0])  # the nearest follow, better ranked
        return from_error(KIND, text, wrong, (one.name for one in close), _tell(close))
    try:
        screw, nut = _limits(thread, name)
    except ValueError as exc:
        side = name.tolerance_class[-1:].islower() or name.tolerance_class.endswith("A")
        return from_error(KIND, text, exc, (f"{thread.name}-{one}" for one in threads.classes(thread, side)))
    return Answer(
        kind=KIND,
        name=thread.name,
        title=f"{thread.name}: {FAMILY[thread.system]}{_series(thread)}, {thread.angle:g} degrees",
        groups=thread_values.groups(thread, screw, nut),
        notes=_notes(thread, name),
    )


def near(text: str) -> tuple[Thread, ...]:
    """At most three standard threads that a name may have meant, likeliest first.

    The system that the name speaks of comes first, then the nearest diameter, then the nearest pitch.
    """
    upper = text.upper()
    numbers = re.findall(r"\d+/\d+|\d*\.\d+|\d+", upper.replace(",", "."))[:2]
    if not numbers:
        return _alike(text)
    system = next((one for one in ("BSW", "BSF", "ME", "BA", "UN") if one in upper), "")
    system = system or ("M" if upper.lstrip().startswith("M") else "UN")
    size = _number(numbers[0])
    written = _number(numbers[1]) if len(numbers) > 1 else 0.0
    series = next((one for one in ("UNC", "UNF", "UNEF", "UNS") if one in upper), "")

    def apart(thread: Thread) -> tuple[float, bool, float]:
        own = _number(thread.size.removeprefix("M"))
        count = thread.pitch if thread.tpi is None else thread.tpi
        return (
            abs(own - size),
            bool(series) and thread.series != series,
            abs(count - written) if written else 0.0,
        )

    ranked = sorted(threads_of(system), key=apart)
    first = apart(ranked[0])[0]
    return tuple(thread for thread in ranked if apart(thread)[0] <= first + 1e-9)[:MOST_NEAR]


def threads_of(system: str) -> tuple[Thread, ...]:
    return tuple(thread for thread in everything() if thread.system == system)


def _number(label: str) -> float:
    """A size as a number for ordering; a fraction of an inch counts apart from a screw number."""
    top, _, below = label.partition("/")
    if below and float(below):
        return FRACTIONS + float(top) / float(below)
    return float(top) + (FRACTIONS if label.startswith(("0.", ".")) else 0.0)


def _alike(text: str) -> tuple[Thread, ...]:
    from jobsheets.units import nearest

    by_name = {thread.name: thread for thread in everything()}
    return tuple(by_name[name] for name in nearest(text, by_name, MOST_NEAR))


def _tell(close: tuple[Thread, ...]) -> str:
    """The measurement that tells the two nearest threads apart."""
    if len(close) < 2:
        return ""
    from jobsheets.standards.thread_identify import tell_apart

    return tell_apart(close[0], close[1])


def _limits(thread: Thread, name: ThreadName) -> tuple[ThreadLimits, ThreadLimits]:
    """Limits of screw and nut: the class that was written on its side, the usual one on the other."""
    screw = threads.limits(thread, threads.default_class(thread, external=True))
    nut = threads.limits(thread, threads.default_class(thread, external=False))
    if not name.tolerance_class:
        return screw, nut
    written = threads.limits(thread, name.tolerance_class)
    return (written, nut) if written.external else (screw, written)


def _series(thread: Thread) -> str:
    return "" if thread.series == thread.system else f" {thread.series}"


def _notes(thread: Thread, name: ThreadName) -> tuple[str, ...]:
    classes = [", ".join(threads.classes(thread, side)) for side in (True, False)]
    notes = [f"classes: screw {classes[0]}; nut {classes[1]}"]
    if name.left:
        notes.append("left hand: the sizes are those of the right-hand thread")
    return tuple(notes)
