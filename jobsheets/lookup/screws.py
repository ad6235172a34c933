"""Which thread is that screw? The candidates of the identifier as an answer, with what tells them apart."""

from jobsheets.lookup.answer import COMPUTED, LENGTH, Answer, Group, Value
from jobsheets.standards.thread_identify import Candidate, identify

KIND = "screw"
SOURCE = (
    "data/thread_sizes.csv and the limits of each thread's usual class; misfit: docs/threads.md section 9"
)


def answer(
    major: float,
    *,
    pitch: float | None = None,
    tpi: float | None = None,
    count: float | None = None,
    length: float | None = None,
) -> Answer:
    """Standard threads that a measured screw may be, likeliest first.

    Args:
        major: measured over the crests, mm.
        pitch: mm; or give `tpi`, or `count` and `length`.
        tpi: threads per inch.
        count: pitches counted over `length`.
        length: mm.

    Raises:
        ValueError: as for `thread_identify.identify`.
    """
    found = identify(major, pitch=pitch, tpi=tpi, count=count, length=length)
    sure = found[0].likely
    return Answer(
        kind=KIND,
        name=found[0].thread.name if sure else "",
        title=f"A screw of {major:.3f} mm: "
        + ("likeliest first" if sure else "no thread of the tables explains it"),
        groups=tuple(map(_group, found)),
        notes=(
            "misfit 0: within its limits and on its pitch; 1: off by about as much as a reading is unsure; "
            "up to 3 is likely",
        ),
    )


def _group(candidate: Candidate) -> Group:
    values = [
        _value("misfit", round(candidate.misfit, 2)),
        _value("major diameter outside its limits", candidate.major_off, LENGTH),
        _value("pitch off the standard's", candidate.pitch_off, LENGTH),
    ]
    if candidate.tell:
        values.append(_value("what tells", candidate.tell))
    title = f"{candidate.thread.name}{'' if candidate.likely else ' (unlikely)'}"
    return Group(title=title, values=tuple(values))


def _value(name: str, value: float | str, unit: str = "") -> Value:
    return Value(name=name, value=value, unit=unit, source=SOURCE, seen=COMPUTED)
