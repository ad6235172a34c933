"""What stands on the first and the last page: stock, inputs, mates, tools, sizes to inspect, figures."""

import re
from collections.abc import Callable
from math import isclose

from jobsheets.figure import Figure, Input
from jobsheets.part.size import Size
from jobsheets.part.turned import Hole, HoleKind, Mate, Segment, TurnedPart
from jobsheets.planner.operation import Kit, Plan, StockCut
from jobsheets.planner.times import whole
from jobsheets.sheet.view_numbers import COARSE, INCH, Numbers
from jobsheets.sheet.view_values import (
    FigureView,
    InputView,
    InspectionView,
    KitView,
    MateView,
    Pair,
    StockView,
    TimesView,
)
from jobsheets.units import fraction_text

PLAIN_LIMITS = re.compile(r"[0-9] ?(?:mm|in)\b")
PLAIN_GROUPS = frozenset({"gauge", "bench tool", "holding"})
Adder = Callable[[str, Size, str], None]

ROOM = "jaws to blade"
READINGS = 3  # of a mate on each side of the expected one, in the table of readings and targets
READING_STEP = {"in": 0.001 * INCH, "mm": 0.02}
INCH_UNITS = {
    "m/min": ("ft/min", 1.0 / 0.3048),
    "N": ("lbf", 1.0 / 4.4482216152605),
    "W": ("hp", 1.0 / 745.7),
}


def bought(diameter: float, name: str, system: str) -> str:
    """Bar as bought, in both systems: the one place where they stand side by side."""
    inch = fraction_text(diameter) or f"{diameter / INCH:.4g} in"
    metric = f"{diameter:.4g} mm"
    first, second = (inch, metric) if system == "in" else (metric, inch)
    return f"{name} round, {first} ({second})"


def stock(cut: StockCut, numbers: Numbers) -> StockView:
    """The sum as printed adds up: rounding goes to the room between jaws and blade, which is free."""
    places = COARSE[numbers.system]
    terms = (
        ("grip", cut.grip),
        (ROOM, cut.clearance),
        ("parting blade", cut.kerf),
        ("left for facing the back", cut.part_off),
        ("part", cut.part),
        ("facing the front", cut.facing),
    )
    printed = {label: numbers.plain(value) for label, value in terms if value > 0.0}
    rest = sum(float(text) for label, text in printed.items() if label != ROOM)
    printed[ROOM] = f"{float(numbers.plain(cut.length)) - rest:.{places}f}"
    return StockView(
        length=f"{numbers.plain(cut.length)} {numbers.system}",
        terms=tuple(Pair(label=label, value=text) for label, text in printed.items()),
        saw=f"{numbers.plain(cut.saw)} {numbers.system}",
        may_stay_long=cut.may_stay_long,
    )


def inputs(part: TurnedPart) -> tuple[InputView, ...]:
    return tuple(InputView(name=i.name, value=i.text, given=i.given) for i in part.inputs)


def mate(value: Mate, numbers: Numbers) -> MateView:
    step = READING_STEP[numbers.system]
    readings = [value.expected + k * step for k in range(-READINGS, READINGS + 1)]
    return MateView(
        size=value.size,
        to=value.to,
        ask=value.ask,
        sign="-" if value.allowance < 0.0 else "+",
        allowance=numbers.length(abs(value.allowance)),
        table=tuple((numbers.length(r), numbers.length(r + value.allowance)) for r in readings),
        measured="" if value.measured is None else numbers.length(value.measured),
        unit=numbers.system,
    )


def kit(value: Kit, numbers: Numbers) -> KitView:
    return KitView(
        label=numbers.said(tool_name(value.group, value.name)),
        used_by=", ".join(map(str, value.used_by)),
        note=numbers.said(value.note),
        measures=value.group == "gauge",
    )


def tool_name(group: str, name: str) -> str:
    """Name of a tool with its kind, unless the name says the kind already or the kind says nothing."""
    first, _, rest = name.partition(" ")
    name = rest if rest.startswith(f"{first} ") else name
    words = group.split()
    return name if not words or words[-1] in name or group in PLAIN_GROUPS else f"{group} {name}"


def times(plan: Plan) -> TimesView:
    """Minutes of the plan: cutting, handling and hand work apart, and each setup together."""
    total = whole(plan.times)
    letters = {setup.id: setup.letter for setup in plan.setups}
    return TimesView(
        cutting=f"{total.cutting:.0f}",
        handling=f"{total.handling:.0f}",
        hand=f"{total.hand:.0f}",
        setups=tuple(
            Pair(label=letters[t.setup], value=f"{t.cutting + t.handling + t.hand:.0f}") for t in plan.times
        ),
    )


def inspection(plan: Plan, numbers: Numbers) -> tuple[InspectionView, ...]:
    """Every limited size of the finished part, with the gauge of the hold point that proved it on the way."""
    gauges = {hold.id: hold.gauge for op in plan.operations for hold in op.holds}
    rows: list[InspectionView] = []

    def add(name: str, size: Size, gauge: str) -> None:
        low, high = numbers.limits(size)
        found = gauges.get(gauge, "")
        # A fit, a class or a standard is named; deviations are not, for the two limits say them already.
        named = "" if PLAIN_LIMITS.search(size.limits) else size.limits
        rows.append(InspectionView(what=name, low=low, high=high, limits=named, gauge=found))

    for segment in plan.part.segments:
        _segment(segment, add)
    for hole in plan.part.holes:
        _hole(hole, add)
    for cross in plan.part.cross_holes:
        add(f"⌀ {cross.id}", cross.diameter, f"{cross.id}.diameter")
        add(f"{cross.id}: centre from the front", cross.at, f"{cross.id}.at")
    if plan.part.overall is not None:
        add("length over all", plan.part.overall, "part.length")
    return tuple(rows)


def _segment(segment: Segment, add: Adder) -> None:
    if not segment.as_stock:
        add(f"⌀ {segment.id}", segment.diameter, f"{segment.id}.diameter")
    add(f"{segment.id}: length", segment.length, f"{segment.id}.length")
    for edge, end in ((segment.front, "front"), (segment.back, "back")):
        if edge is not None:
            gauge = f"{segment.id}.{edge.kind}"
            add(f"{segment.id}: {edge.kind} at the {end}", edge.size, gauge)


def _hole(hole: Hole, add: Adder) -> None:
    if hole.kind is HoleKind.TAP and hole.thread is not None:
        add(f"{hole.id} {hole.thread.text}: minor ⌀", hole.diameter, f"{hole.id}.thread")
    else:
        add(f"⌀ {hole.id}", hole.diameter, f"{hole.id}.diameter")
    if hole.depth is not None:
        full = "full thread" if hole.kind is HoleKind.TAP else "depth"
        add(f"{hole.id}: {full}", hole.depth, f"{hole.id}.depth")


def figure(value: Figure, numbers: Numbers) -> FigureView:
    """A figure with its formula. Inputs keep the unit the formula works in; the value has the sheet's own."""
    spread = value.spread
    marks = None
    said = ""
    if spread is not None:
        texts = [measure(v, spread.unit, numbers) for v in (spread.low, spread.median, spread.high)]
        sources = "1 source" if spread.count == 1 else f"{spread.count} sources"
        said = f"{texts[0]} to {texts[2]}, median {texts[1]}; {sources}"
        used = next(
            (i.value for i in value.inputs if i.unit == spread.unit and isinstance(i.value, float)), None
        )
        if value.unit == spread.unit:
            used = value.value
        marks = None if used is None else (spread.low, spread.median, spread.high, used)
    return FigureView(
        id=value.id,
        name=value.name,
        value=measure(value.value, value.unit, numbers),
        formula=value.formula,
        inputs=", ".join(_input(i) for i in value.inputs),
        ruled_by=_ruled(value, numbers),
        source=value.source,
        spread=said,
        marks=marks,
    )


def _ruled(value: Figure, numbers: Numbers) -> str:
    """The limit that ruled, and what was wanted before it where that is another number."""
    if value.wanted is None or isclose(value.wanted, value.value, rel_tol=1e-3):
        return value.ruled_by
    return f"{value.ruled_by}; wanted {measure(value.wanted, value.unit, numbers)}"


def measure(value: float, unit: str, numbers: Numbers) -> str:
    """A value with its unit in the sheet's system."""
    if unit == "mm":
        return numbers.united(value)
    if unit == "mm/rev":
        return f"{numbers.per_rev(value)} {numbers.system}/rev"
    if not unit:
        return f"{value:.4g}"  # a ratio
    if numbers.system == "in" and unit in INCH_UNITS:
        unit, factor = INCH_UNITS[unit]
        value *= factor
    return f"{value:.3g} {unit}" if value < 100.0 else f"{value:.0f} {unit}"


def _input(value: Input) -> str:
    if isinstance(value.value, str):
        return f"{value.name} = {value.value}"
    return f"{value.name} = {value.value:.4g} {value.unit}".rstrip()
