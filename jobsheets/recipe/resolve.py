"""A checked tree becomes a part: inputs, rules, stock, features, fits, pins; every fault is kept."""

from collections.abc import Mapping as Readable

from msgspec.structs import replace

from jobsheets.document import Mapping, Sequence, Text
from jobsheets.part.size import Size
from jobsheets.part.turned import (
    CrossHole,
    Hole,
    InputValue,
    Knurl,
    Pin,
    Segment,
    TurnedPart,
)
from jobsheets.recipe import holes, impossible, item, mates, outline, rules, show, source, stuff
from jobsheets.recipe.evaluate import offer
from jobsheets.recipe.expression import Kind, Value
from jobsheets.recipe.faults import Faults
from jobsheets.recipe.inputs import Inputs, declared
from jobsheets.recipe.item import Item
from jobsheets.recipe.schema import STOCK
from jobsheets.recipe.schema_features import FEATURE
from jobsheets.recipe.sizes import Sizer, Use, moved, with_limits

RESERVED = ("front", "back", "bar")  # what the planner calls the faces and the stock
# Steps that a pin may name beside features: the planner's words for what it does.
STEPS = (
    "face",
    "turn",
    "groove",
    "part_off",
    "chamfer",
    "round",
    "dome",
    "spot",
    "drill",
    "bore",
    "ream",
    "counterbore",
    "mouth",
    "tap",
    "die",
    "knurl",
    "cross_drill",
    "chase",
    "deburr",
)


class Resolver:
    """One recipe on its way to a part."""

    def __init__(
        self, top: Mapping, file: str, settings: Readable[str, str], measured: Readable[str, str]
    ) -> None:
        self.top = top
        self.settings = settings
        self.faults = Faults(file)
        self.system = self._word("units") or "mm"
        self.known = declared(top)
        self.features = source.entries(top, "features")
        for name in settings:
            if name not in self.known:
                right = (
                    offer(name, tuple(self.known)) if self.known else "nothing set: the recipe has no inputs"
                )
                self.faults.given("--set", name, settings[name], "no input of this recipe", right)
        plain = Inputs(self.known, self.faults, settings)
        self.mates = mates.fitted(source.entries(top, "fits"), self.features, plain, measured, self.faults)
        self.forced = mates.forced(self.mates)
        readings = mates.readings(self.mates, measured)
        self.inputs = Inputs(self.known, self.faults, settings, self.forced, readings) if readings else plain
        self.sizer = Sizer(self.faults, self.system, self._default_class())

    def part(self) -> TurnedPart:
        """The part.

        Raises:
            InputError: all that was found wrong.
        """
        self.inputs.check(self.system)
        rules.check(self.top, self.inputs, self.faults, self.system, self._retry)
        material = stuff.material(self.top, self.faults)
        rod = self._rod(material)
        items = self._items()
        pins = self._pins()
        self.faults.stop()  # what follows would only repeat what is wrong already
        assert rod is not None
        segments = self._segments(items, rod)
        found = self._holes(items)
        self.faults.stop()
        cross, knurls = self._on_segments(items, segments)
        impossible.check(segments, found, rod, {one.text("id"): one for one in items}, self.sizer)
        overall = self._overall(sum(s.length.nominal for s in segments))
        self.faults.stop()
        return TurnedPart(
            name=self._word("name"),
            title=self._word("title"),
            material=material,
            rod=rod,
            segments=segments,
            holes=found,
            cross_holes=cross,
            knurls=knurls,
            mates=tuple(one.mate for one in self.mates),
            pins=pins,
            inputs=self._used(),
            notes=self._notes(),
            overall=overall,
            system=self.system,
        )

    def _word(self, name: str) -> str:
        found = self.top.entries.get(name)
        return found.value.strip() if isinstance(found, Text) else ""

    def _default_class(self) -> str:
        node = self.top.entries.get("limits")
        found = node.entries.get("default") if isinstance(node, Mapping) else None
        return found.value[-1] if isinstance(found, Text) else "m"

    def _retry(self, name: str, value: Value) -> Inputs | None:
        """The inputs with one of them changed; its own faults are nobody's concern."""
        return Inputs(self.known, Faults(""), self.settings, {**self.forced, name: value})

    def _rod(self, material: str) -> Size | None:
        found = item.read(self.top.entries["stock"], STOCK, "stock", self.inputs, self.faults)
        return stuff.rod(found, material, self.faults) if found is not None else None

    def _items(self) -> tuple[Item, ...]:
        found: list[Item] = []
        seen: dict[str, str] = {}
        for number, node in enumerate(self.features, start=1):
            path = f"features[{number}]"
            name = node.entries["id"]
            assert isinstance(name, Text)
            if name.value in seen:
                wrong = f"an id that {seen[name.value]} has already"
                self.faults.add(name, f"{path}.id", wrong, f"another, such as {name.value}_2")
            elif name.value in RESERVED:
                wrong = "an id that stands for a face or the stock"
                self.faults.add(name, f"{path}.id", wrong, f"another, such as {name.value}_1")
            seen.setdefault(name.value, path)
            one = item.read(node, FEATURE, path, self.inputs, self.faults)
            if one is not None:
                found.append(one)
        if not any(one.lead in outline.LEADS for one in found) and len(found) == len(self.features):
            self.faults.add(
                self.top.entries["features"], "features", "no outline", "at least one of turn, groove or die"
            )
        return tuple(found)

    def _segments(self, items: tuple[Item, ...], rod: Size) -> tuple[Segment, ...]:
        found: list[Segment] = []
        for one in items:
            if one.lead in outline.LEADS:
                segment = outline.segment(self._as_drawn(one), rod, self.sizer)
                if segment is not None:
                    found.append(self._fitted_segment(segment, one))
        return tuple(found)

    def _mate(self, name: str) -> mates.Fitted | None:
        return next((m for m in self.mates if m.mate.size == name), None)

    def _as_drawn(self, one: Item) -> Item:
        """The feature with the diameter that its recipe gives: limits belong to that one."""
        mate = self._mate(one.text("id"))
        if mate is None or mate.mate.measured is None:
            return one
        return replace(one, values={**one.values, one.lead: mate.mate.expected + mate.mate.allowance})

    def _fitted_segment(self, segment: Segment, one: Item) -> Segment:
        mate = self._mate(segment.id)
        if mate is None:
            return segment
        if segment.as_stock:
            node, path = one.at("turn")
            self.faults.add(
                node,
                path,
                f"the bar as bought, but {mate.path} cuts it to fit",
                "less than the bar's diameter",
            )
            return segment
        return replace(segment, diameter=moved(segment.diameter, mate.nominal))

    def _holes(self, items: tuple[Item, ...]) -> tuple[Hole, ...]:
        found: list[Hole] = []
        for one in items:
            if one.lead not in holes.LEADS:
                continue
            hole = holes.hole(self._as_drawn(one), self.sizer)
            mate = self._mate(one.text("id"))
            if hole is not None:
                found.append(
                    replace(hole, diameter=moved(hole.diameter, mate.nominal)) if mate is not None else hole
                )
        return tuple(found)

    def _on_segments(
        self, items: tuple[Item, ...], segments: tuple[Segment, ...]
    ) -> tuple[tuple[CrossHole, ...], tuple[Knurl, ...]]:
        cross = [holes.cross_hole(one, segments, self.sizer) for one in items if one.lead == "cross_hole"]
        knurls = [holes.knurl(one, segments, self.sizer) for one in items if one.lead == "knurl"]
        return tuple(c for c in cross if c is not None), tuple(k for k in knurls if k is not None)

    def _pins(self) -> tuple[Pin, ...]:
        ids = tuple(one.value for f in self.features if isinstance(one := f.entries.get("id"), Text))
        known = (*ids, *RESERVED, *STEPS)
        found: list[Pin] = []
        for number, node in enumerate(source.entries(self.top, "pins"), start=1):
            words = {key: word.value for key, word in node.entries.items() if isinstance(word, Text)}
            for end in ("operation", "before"):
                if words[end] not in known and words[end].partition(".")[0] not in (*ids, *RESERVED):
                    self.faults.add(
                        node.entries[end],
                        f"pins[{number}].{end}",
                        "no feature or step of this recipe",
                        offer(words[end], known),
                    )
            found.append(Pin(operation=words["operation"], before=words["before"], why=words["why"]))
        return tuple(found)

    def _overall(self, length: float) -> Size | None:
        node = self.top.entries.get("overall")
        text = node.entries.get("limits") if isinstance(node, Mapping) else None
        if not isinstance(text, Text):
            return None
        return self.faults.attempt(
            text,
            "overall.limits",
            lambda: with_limits(length, text.value, self.sizer.default, Use.LENGTH),
        )

    def _used(self) -> tuple[InputValue, ...]:
        return tuple(
            InputValue(
                name=one.name,
                text=self._text(one.name, one.kind),
                help=one.help,
                given=one.name in self.settings or one.name in self.forced,
            )
            for one in self.known.values()
        )

    def _text(self, name: str, kind: Kind) -> str:
        """An input as it was written where that is a plain value, else as worked out."""
        written = self.settings.get(name, self.known[name].value.value).strip()
        formula = kind is not Kind.WORD and not self.inputs.plain(written, kind)
        if name in self.forced or formula:
            return show.value(self.inputs.value(name), kind, self.system)
        return written

    def _notes(self) -> tuple[str, ...]:
        """Choices with their reasons, then the notes as written."""
        chosen = [
            f"{one.help or one.name}: {self.inputs.value(one.name)}{f'. {one.why}' if one.why else ''}"
            for one in self.known.values()
            if one.kind is Kind.WORD
        ]
        node = self.top.entries.get("notes")
        items = node.items if isinstance(node, Sequence) else []
        return (*chosen, *(n.value for n in items if isinstance(n, Text)))
