"""A material by any of its names: properties, percent of thread, hazards and controls, steps not done."""

from jobsheets.lookup.answer import Answer, Group, Miss, Value, from_error
from jobsheets.standards import hazards, materials, sawing, tap_drills
from jobsheets.standards.materials import Material
from jobsheets.units import nearest

KIND = "material"


def answer(text: str) -> Answer | Miss:
    """What the tables know of a material; a property that no source gives is left out and named in a note."""
    try:
        material = materials.find(text)
    except ValueError as exc:
        known = tuple(dict.fromkeys(name for one in materials.names() for name in _names(one)))
        wrong = ValueError(str(exc).partition("; want")[0])
        return from_error(KIND, text, wrong, nearest(text, known) or materials.names()[:3])
    groups = (
        _properties(material),
        _tapping(material),
        _sawing(material),
        _hazards(material),
        _forbidden(material),
    )
    return Answer(
        kind=KIND,
        name=material.id,
        title=f"{material.name} ({material.condition})" if material.condition else material.name,
        groups=tuple(group for group in groups if group.values),
        notes=_notes(material),
    )


def _names(name: str) -> tuple[str, ...]:
    return (name, *materials.aliases(materials.find(name)))


def _numbers(material: Material) -> tuple[tuple[str, float | None, str], ...]:
    return (
        ("density", material.density, "kg/m3"),
        ("tensile strength", material.tensile, "MPa"),
        ("yield strength", material.yield_strength, "MPa"),
        ("shear strength", material.shear, "MPa"),
        ("modulus of elasticity", material.modulus, "GPa"),
        ("thermal conductivity", material.conductivity, "W/(m K)"),
        ("thermal expansion", material.expansion, "1e-6/K"),
        ("limit in long service", material.heat_limit, "C"),
    )


def _properties(material: Material) -> Group:
    words = (
        ("family", material.family),
        ("ISO cutting group", material.iso_group),
        ("hardness", material.hardness),
    )
    said = tuple((name, text, "") for name, text in words if text)
    numbers = tuple((name, number, unit) for name, number, unit in _numbers(material) if number is not None)
    rows: tuple[tuple[str, float | str, str], ...] = (*said, *numbers)
    return Group(
        title="Properties",
        values=tuple(
            Value(name=name, value=value, unit=unit, source=material.source, seen=material.seen)
            for name, value, unit in rows
        ),
    )


def _tapping(material: Material) -> Group:
    try:
        aim = tap_drills.target_percent(material)
    except ValueError:
        return Group(title="Tapping", values=())  # no figure for wood, horn and plastics
    value = Value(
        name="percent of thread to aim at",
        value=f"{aim.low:g} to {aim.high:g}",
        unit="%",
        how="on the US basis, 3/4 H",
        source=aim.source,
        seen="page",
    )
    return Group(title="Tapping", values=(value,))


def _sawing(material: Material) -> Group:
    """Blade speed of a band saw, with the factors for other sections and blades."""
    blade = sawing.speed(material)
    if blade is None:
        return Group(title="Band saw", values=())
    first = Value(
        name="blade speed",
        value=blade.speed,
        unit="m/min",
        how=f"bimetal blade, 4 in section, coolant; printed for {blade.printed}",
        source=blade.source,
        seen=blade.seen,
    )
    more = tuple(
        Value(
            name=one.what,
            value=one.low if one.low == one.high else f"{one.low:g} to {one.high:g}",
            how=one.note,
            source=one.source,
            seen=one.seen,
        )
        for one in sawing.factors()
    )
    return Group(title="Band saw", values=(first, *more))


def _hazards(material: Material) -> Group:
    return Group(
        title="Hazards, with the control first",
        values=tuple(
            Value(
                name=one.id,
                value=f"{one.control} {one.hazard}",
                how=one.document,
                source=one.source,
                seen=one.seen,
            )
            for one in hazards.for_material(material)
        ),
    )


def _forbidden(material: Material) -> Group:
    return Group(
        title="Steps that are not done on it",
        values=tuple(
            Value(name=one.step, value=one.why, how=one.document, source=one.source, seen=one.seen)
            for one in hazards.forbidden(material)
        ),
    )


def _notes(material: Material) -> tuple[str, ...]:
    missing = [name for name, number, _ in _numbers(material) if number is None]
    return tuple(
        filter(
            None,
            (
                f"also called {', '.join(materials.aliases(material))}"
                if materials.aliases(material)
                else "",
                material.notes,
                f"no published figure found for: {', '.join(missing)}" if missing else "",
            ),
        )
    )
