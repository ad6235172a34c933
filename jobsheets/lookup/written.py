"""An answer as text for a terminal and as JSON; docs/lookup.md describes both."""

from collections.abc import Iterator

from jobsheets.lookup.answer import LENGTH, Answer, Miss, Value

LOOKUP_VERSION = 1  # of the JSON form
MM_PER_INCH = 25.4
JSON_PLACES = 6  # of numbers; a micro-inch is 0.0000254 mm
WIDE = 96
PLACES = {LENGTH: 4, "mm2": 3, "deg": 2, "%": 1, "N": 0, "m/min": 0}
SEEN = (
    "seen: page, read on a page; memory, remembered from the source; computed, worked out by the rule named; "
    "owned, out of the shop file"
)


def as_text(found: Answer | Miss) -> str:
    """Lines of a look-up, ending with a new line; every value carries the number of its source."""
    if isinstance(found, Miss):
        return "\n".join(_miss(found)) + "\n"
    sources = tuple(dict.fromkeys(value.source for value in found.values()))
    lines = [found.title]
    for group in found.groups:
        lines += ["", group.title]
        for value, after in zip(group.values, (*group.values[1:], None), strict=True):
            same = after is not None and after.how == value.how
            lines += _value(value, 1 + sources.index(value.source), how="" if same else value.how)
    if found.notes:
        lines += ["", "Notes", *(line for note in found.notes for line in _folded(note, "  "))]
    lines += ["", "Sources"]
    for number, source in enumerate(sources, start=1):
        lines += _folded(source, f"  [{number}] ")
    return "\n".join([*lines, *_folded(SEEN, "  ")]) + "\n"


def _miss(miss: Miss) -> Iterator[str]:
    yield from _folded(f"{miss.kind} {miss.asked!r}: {miss.wrong}", "")
    if miss.near:
        *others, last = miss.near
        yield from _folded(f"did you mean {', '.join(others)}{' or ' if others else ''}{last}?", "  ")
    if miss.tell:
        yield from _folded(f"they look alike: {miss.tell}", "  ")


def _value(value: Value, source: int, how: str) -> list[str]:
    """A value, and below it how it came about, once for values that follow each other and share it."""
    mark = f"{value.seen} [{source}]"
    if isinstance(value.value, str) and not value.unit:
        return _folded(
            f"{value.value} ({value.how}) {mark}" if value.how else f"{value.value} {mark}",
            f"  {value.name}: ",
        )
    first = f"  {value.name:<52} {_number(value):>22}   {mark}"
    return [first, *(_folded(how, "      ") if how else ())]


def _number(value: Value) -> str:
    if isinstance(value.value, str):
        return f"{value.value} {value.unit}"
    if value.unit == LENGTH:
        return f"{value.value:.4f} mm {value.value / MM_PER_INCH:.4f} in"
    places = PLACES.get(value.unit)
    text = f"{value.value:g}" if places is None else f"{value.value:.{places}f}"
    return f"{text} {value.unit}".rstrip()


def _folded(text: str, lead: str) -> list[str]:
    """A text in lines of at most `WIDE`, those after the first set in under its beginning."""
    lines, room, hang = [lead], WIDE, " " * min(len(lead), 8)
    for word in text.split():
        if len(lines[-1]) + len(word) + 1 > room and lines[-1].strip():
            lines.append(hang)
        lines[-1] += word if lines[-1].endswith(" ") or not lines[-1] else f" {word}"
    return lines


def as_json(found: Answer | Miss) -> str:
    """A look-up as JSON with its version, keys in a fixed order; ends with a new line."""
    import json

    return json.dumps(body(found), ensure_ascii=False, indent=1) + "\n"


def body(found: Answer | Miss) -> dict[str, object]:
    """What the JSON holds, before it is written."""
    head: dict[str, object] = {
        "lookup": LOOKUP_VERSION,
        "kind": found.kind,
        "found": isinstance(found, Answer),
    }
    if isinstance(found, Miss):
        return {
            **head,
            "asked": found.asked,
            "wrong": found.wrong,
            "near": list(found.near),
            "tell": found.tell,
        }
    groups = [
        {"title": group.title, "values": [_json_value(value) for value in group.values]}
        for group in found.groups
    ]
    return {**head, "name": found.name, "title": found.title, "groups": groups, "notes": list(found.notes)}


def _json_value(value: Value) -> dict[str, object]:
    number = value.value if isinstance(value.value, str) else round(value.value, JSON_PLACES)
    inches = {}
    if value.unit == LENGTH and not isinstance(value.value, str):
        inches = {"inches": round(value.value / MM_PER_INCH, JSON_PLACES)}
    return {
        "name": value.name,
        "value": number,
        "unit": value.unit,
        **inches,
        "how": value.how,
        "source": value.source,
        "seen": value.seen,
    }
