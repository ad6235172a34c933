"""A drill by its name: diameter, its neighbours, and the hole that it really makes."""

from jobsheets.lookup.answer import COMPUTED, LENGTH, Answer, Group, Miss, Value, from_error
from jobsheets.lookup.near import by_name
from jobsheets.standards import drills, reaming
from jobsheets.standards.drills import DrillSize
from jobsheets.units import drill as read_drill

KIND = "drill"


def answer(text: str) -> Answer | Miss:
    """A drill that is sold."""
    try:
        drill = drills.find(read_drill(text))
    except ValueError as exc:
        return from_error(KIND, text, exc, by_name(text, ((one.name, one.mm) for one in drills.everything())))
    return Answer(
        kind=KIND,
        name=drill.name,
        title=f"{drill.name}: twist drill of the {drill.series} series",
        groups=(
            Group(title="Size", values=(_size("diameter", drill),)),
            Group(title="Next drills that are sold", values=_neighbours(drill)),
            Group(title="The hole that it drills", values=_hole(drill)),
        ),
    )


def _size(name: str, drill: DrillSize) -> Value:
    return Value(name=name, value=drill.mm, unit=LENGTH, source=drill.source, seen=drill.seen)


def _neighbours(drill: DrillSize) -> tuple[Value, ...]:
    """The next smaller and larger drill of all series and of its own."""
    everything = drills.everything()
    found: dict[str, DrillSize] = {}
    for where, sizes in (
        ("of all series", everything),
        (f"of the {drill.series} series", drills.series(drill.series)),
    ):
        smaller = [one for one in sizes if one.mm < drill.mm - 1e-9]
        larger = [one for one in sizes if one.mm > drill.mm + 1e-9]
        for word, one in (("smaller", smaller[-1:]), ("larger", larger[:1])):
            if one:
                found[f"next {word} {where}: {one[0].name}"] = one[0]
    return tuple(_size(name, one) for name, one in found.items())


def _hole(drill: DrillSize) -> tuple[Value, ...]:
    """Limits with a jig and what a free-hand hole comes out at; a size outside those tables has none."""
    values: list[Value] = []
    try:
        limits = reaming.drilled_hole(drill.mm)
        for name, size in (("smallest hole, guided", limits.least), ("largest hole, guided", limits.most)):
            values.append(Value(name=name, value=size, unit=LENGTH, source=limits.source, seen=limits.seen))
        over = reaming.oversize(drill.mm)
        how = f"drill + {over.least:.3f} to {over.most:.3f} mm, mean of tests"
        values.append(
            Value(
                name="usual hole, not guided",
                value=drill.mm + over.mean,
                unit=LENGTH,
                how=how,
                source=over.source,
                seen=over.seen,
            )
        )
    except ValueError as exc:
        values.append(Value(name="no figure", value=str(exc), source="data/reaming.csv", seen=COMPUTED))
    return tuple(values)
