"""Pins of a size: their limits, the hole that their standard gives, and the reamers that are sold for it."""

from jobsheets.lookup.answer import LENGTH, Answer, Group, Miss, Value, from_error
from jobsheets.lookup.near import by_size
from jobsheets.standards import pin_details, pins, reaming
from jobsheets.standards.pin_details import PinDetail
from jobsheets.standards.pins import Pin
from jobsheets.units import as_bought, millimetres

KIND = "pin"
SAME = 0.002  # mm: 1/8 in is 3.175 mm
WANTED = "a size with its unit, a kind of pin before it or not: 1/8 in, dowel 3 mm"


def answer(text: str) -> Answer | Miss:
    """Every pin of a size, or those of one kind."""
    try:
        kind, size = _parted(text)
    except ValueError as exc:
        return from_error(KIND, text, exc, _offers("", None))
    found = [pin for pin in pins.every() if kind in ("", pin.kind) and abs(pin.nominal - size) < SAME]
    if not found:
        sizes = sorted(pin.nominal for pin in pins.every() if kind in ("", pin.kind))
        run = f"they run from {as_bought(sizes[0])} to {as_bought(sizes[-1])}"
        wrong = ValueError(f"no {kind + ' ' if kind else ''}pin of {as_bought(size)}: {run}")
        return from_error(KIND, text, wrong, _offers(kind, size))
    name = found[0].size
    groups = (*map(_pin, found), *_holes(kind, size), *_reamers(size))
    return Answer(kind=KIND, name=f"{kind} {name}".strip(), title=f"Pins of {name}", groups=groups)


def _parted(text: str) -> tuple[str, float]:
    """Kind of pin, empty for all, and size in mm."""
    words = text.split()
    for cut in range(len(words)):
        kind = " ".join(words[:cut]).removesuffix(" pin")
        if cut and kind not in pins.kinds():
            continue
        try:
            size = millimetres(" ".join(words[cut:]))
        except ValueError:
            continue
        if size > 0.0:
            return kind, size
    raise ValueError(f"{text!r} names no pin; want {WANTED}; kinds: {', '.join(pins.kinds())}")


def _offers(kind: str, size: float | None) -> tuple[str, ...]:
    known = [(pin.size, pin.nominal) for pin in pins.every() if kind in ("", pin.kind)]
    prefix = f"{kind} " if kind else ""
    return tuple(prefix + name for name in (by_size(size, known) if size is not None else ("1/8 in", "3 mm")))


def _pin(pin: Pin) -> Group:
    series = f", {pin.series}" if pin.series else ""
    return Group(
        title=f"{pin.kind.capitalize()} pin {pin.size}{series} ({pin.standard})",
        values=(
            *_ends("pin", pin.least, pin.most, "", pin.source, pin.seen),
            *(value for one in pin_details.of(pin.standard, pin.kind, pin.size) for value in _detail(one)),
        ),
    )


def _detail(one: PinDetail) -> tuple[Value, ...]:
    ends = [(one.what, one.least)]
    if one.least != one.most:
        ends = [(f"{one.what}, least", one.least), (f"{one.what}, most", one.most)]
    return tuple(
        Value(name=name, value=number, unit=one.unit, how=one.note, source=one.source, seen=one.seen)
        for name, number in ends
    )


def _ends(what: str, least: float, most: float, how: str, source: str, seen: str) -> tuple[Value, ...]:
    return tuple(
        Value(name=f"{word} {what}", value=mm, unit=LENGTH, how=how, source=source, seen=seen)
        for word, mm in (("smallest", least), ("largest", most))
    )


def _holes(kind: str, size: float) -> tuple[Group, ...]:
    return tuple(
        Group(
            title=f"Hole for a {one.kind} pin ({one.standard})",
            values=_ends("hole", one.least, one.most, one.note, one.source, one.seen),
        )
        for one in pins.holes()
        if kind in ("", one.kind) and abs(one.nominal - size) < SAME
    )


def _reamers(size: float) -> tuple[Group, ...]:
    """Reamers sold for a nominal hole of this size: under presses, over lets the pin slide."""
    values = tuple(
        Value(
            name=f"{kind} reamer {reamer.name}",
            value=reamer.mm,
            unit=LENGTH,
            source=reamer.source,
            seen=reamer.seen,
        )
        for kind in reaming.REAMER_KINDS
        for reamer in reaming.sold(kind)
        if abs(millimetres(reamer.name) - size) < SAME
    )
    return (Group(title="Reamers as they are sold", values=values),) if values else ()
