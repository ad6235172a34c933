"""Bar of a size: whether it is a usual one, and how far it may lie from its nominal by its standard."""

from jobsheets.lookup.answer import LENGTH, Answer, Group, Miss, Value, from_error
from jobsheets.lookup.near import by_size
from jobsheets.standards import materials, stock
from jobsheets.standards.materials import Material
from jobsheets.standards.stock import BarStandard, StockSize
from jobsheets.units import as_bought, millimetres

KIND = "stock"
SHAPES = ("round", "hexagon", "square", "flat")
SYSTEMS = ("in", "mm", "EN 10060")
SAME = 0.0005  # mm
WANTED = "a size with its unit, a shape before and a material behind it or not: round 3/8 in stainless-303"


def answer(text: str) -> Answer | Miss:
    """Standards that give limits for a bar of this size, of all shapes and materials or of those named."""
    try:
        shape, size, material = _parted(text)
    except ValueError as exc:
        return from_error(KIND, text, exc, ("3/8 in", "hexagon 10 mm", "round 1/2 in stainless-303"))
    bars = [bar for bar in stock.bars(shape) if material is None or material.id in bar.materials]
    groups = [group for bar in bars if (group := _bar(bar, size))]
    usual = _usual(size) if shape in ("", "round") else ()
    if not groups and not usual:
        near = by_size(size, _known_sizes())
        what = " ".join(filter(None, (shape, "bar", material.id if material else "")))
        wrong = (
            f"no standard of the tables gives limits for {what} of {as_bought(size)}, and it is no usual size"
        )
        return from_error(KIND, text, ValueError(wrong), near)
    name = as_bought(size)
    return Answer(
        kind=KIND,
        name=" ".join(filter(None, (shape, name, material.id if material else ""))),
        title=f"Bar of {name}" + (f", {material.name}" if material else ""),
        groups=(Group(title="Usual sizes of round bar", values=(*usual, *_neighbours(size))), *groups),
        notes=() if usual else (f"{name} is no usual size of round bar",),
    )


def _parted(text: str) -> tuple[str, float, Material | None]:
    """Shape, size in mm and material; what is not written is empty or None."""
    words = text.split()
    shape = words.pop(0) if words and words[0] in SHAPES else ""
    for cut in range(len(words), 0, -1):
        try:
            size = millimetres(" ".join(words[:cut]))
        except ValueError:
            continue
        if size <= 0.0:
            raise ValueError(f"a bar of {size:g} mm; want a size above 0")
        return shape, size, materials.find(" ".join(words[cut:])) if words[cut:] else None
    raise ValueError(f"{text!r} names no bar; want {WANTED}; shapes: {', '.join(SHAPES)}")


def _sizes() -> tuple[tuple[str, StockSize], ...]:
    return tuple((system, one) for system in SYSTEMS for one in stock.round_sizes(system))


def _known_sizes() -> tuple[tuple[str, float], ...]:
    return tuple((one.name, one.mm) for _, one in _sizes())


def _value(name: str, one: StockSize) -> Value:
    return Value(name=name, value=one.mm, unit=LENGTH, source=one.source, seen=one.seen)


def _usual(size: float) -> tuple[Value, ...]:
    return tuple(
        _value(f"{one.name}, a usual size ({system})", one)
        for system, one in _sizes()
        if abs(one.mm - size) < SAME
    )


def _neighbours(size: float) -> tuple[Value, ...]:
    """The next usual size down and up, which is what a job falls back on."""
    smaller = [one for _, one in _sizes() if one.mm < size - SAME]
    larger = [one for _, one in _sizes() if one.mm > size + SAME]
    found = []
    if smaller:
        below = max(smaller, key=lambda one: one.mm)
        found.append(_value(f"next smaller: {below.name}", below))
    if larger:
        above = min(larger, key=lambda one: one.mm)
        found.append(_value(f"next larger: {above.name}", above))
    return tuple(found)


def _bar(bar: BarStandard, size: float) -> Group | None:
    try:
        limits = stock.tolerance(bar.name, size)
    except ValueError:
        return None  # the standard's table does not hold this size
    how = f"{bar.sign}; {bar.note}" if bar.note else bar.sign
    return Group(
        title=bar.name,
        values=tuple(
            Value(name=name, value=mm, unit=LENGTH, how=how, source=limits.source, seen=limits.seen)
            for name, mm in (("largest bar", size + limits.upper), ("smallest bar", size + limits.lower))
        ),
    )
