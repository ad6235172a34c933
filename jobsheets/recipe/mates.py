"""Sizes that are cut to fit a measured mate."""

from collections.abc import Mapping as Readable

from msgspec import Struct

from jobsheets.document import Mapping, Text
from jobsheets.fields import leading, nearest
from jobsheets.part.turned import Mate
from jobsheets.recipe import item as items
from jobsheets.recipe.evaluate import offer
from jobsheets.recipe.expression import NAME, Value
from jobsheets.recipe.faults import Faults, parted
from jobsheets.recipe.inputs import Inputs
from jobsheets.recipe.item import LONGEST, Item
from jobsheets.recipe.schema import FIT
from jobsheets.recipe.schema_features import FEATURE
from jobsheets.units import millimetres

FITTED = ("turn", "groove", "drill", "bore", "ream", "counterbore")


class Fitted(Struct, frozen=True, kw_only=True):
    """A mate, the diameter it asks for, and the input that stands for this diameter, if one does."""

    mate: Mate
    nominal: float  # mm: as measured where it was, else as in the recipe
    input: str  # "" where the diameter is no plain input
    path: str


def fitted(
    fits: tuple[Mapping, ...],
    features: tuple[Mapping, ...],
    inputs: Inputs,
    measured: Readable[str, str],
    faults: Faults,
) -> tuple[Fitted, ...]:
    """The fits of a recipe, worked out with the recipe's own inputs; faults are kept."""
    found: list[Fitted] = []
    for number, node in enumerate(fits, start=1):
        item = items.read(node, FIT, f"fits[{number}]", inputs, faults)
        one = _fitted(item, features, inputs, measured, faults) if item is not None else None
        if item is None or one is None:
            continue
        for other in found:
            for name, mine, theirs in (
                ("size", one.mate.size, other.mate.size),
                ("to", one.mate.to, other.mate.to),
            ):
                if mine == theirs:
                    faults.add(*item.at(name), f"used by two fits, also by {other.path}", "another name")
        found.append(one)
    _unknown(measured, tuple(_to(node) for node in fits), faults)
    return tuple(found)


def _to(node: Mapping) -> str:
    found = node.entries.get("to")
    return found.value if isinstance(found, Text) else ""


def _unknown(measured: Readable[str, str], known: tuple[str, ...], faults: Faults) -> None:
    for name, text in measured.items():
        if name not in known:
            right = offer(name, known) if known else "no --measured: this recipe has no fits"
            faults.given("--measured", name, text, "no mate of this recipe", right)


def _fitted(
    item: Item,
    features: tuple[Mapping, ...],
    inputs: Inputs,
    measured: Readable[str, str],
    faults: Faults,
) -> Fitted | None:
    written = _diameters(features)
    size, to = item.text("size"), item.text("to")
    if size not in written:
        node, path = item.at("size")
        right = " or ".join(nearest(size, tuple(written))) or ", ".join(written) or "a turned length"
        faults.add(node, path, "no turned length or hole", right)
        return None
    text, path = written[size]
    try:
        nominal = inputs.length(text.value)
    except ValueError:
        return None  # told where the diameter is written
    try:
        reading = _reading(measured[to]) if to in measured else None
    except ValueError as error:
        faults.given("--measured", to, measured[to], *parted(error))
        return None
    allowance = item.number("allowance")
    cut = round(nominal if reading is None else reading + allowance, 9)
    if nominal - allowance <= 0.0 or cut <= 0.0:
        faults.add(*item.at("allowance"), "an allowance that leaves nothing", "a few hundredths of a mm")
        return None
    mate = Mate(
        size=size,
        to=to,
        ask=item.text("ask"),
        allowance=allowance,
        expected=nominal - allowance,
        measured=reading,
    )
    plain = text.value.strip() if NAME.fullmatch(text.value.strip()) else ""
    return Fitted(mate=mate, nominal=cut, input=plain, path=item.path)


def _reading(text: str) -> float:
    value = millimetres(text)
    if not 0.0 < value <= LONGEST:
        raise ValueError("no size of a mate; want a length above zero, such as 0.250 in")
    return value


def _diameters(features: tuple[Mapping, ...]) -> dict[str, tuple[Text, str]]:
    """What is written as the diameter of each feature that can be cut to fit."""
    found: dict[str, tuple[Text, str]] = {}
    for number, node in enumerate(features, start=1):
        lead, name = leading(node, FEATURE), node.entries.get("id")
        value = node.entries.get(lead) if lead in FITTED and lead is not None else None
        if isinstance(value, Text) and isinstance(name, Text):
            found[name.value] = (value, f"features[{number}].{lead}")
    return found


def forced(mates: tuple[Fitted, ...]) -> dict[str, Value]:
    """Inputs that a measured mate decides, so that all that depends on them follows."""
    return {one.input: one.nominal for one in mates if one.input and one.mate.measured is not None}


def readings(mates: tuple[Fitted, ...], measured: Readable[str, str]) -> dict[str, tuple[str, str]]:
    """Name and written reading of the mate that decides each of those inputs."""
    return {
        one.input: (one.mate.to, measured[one.mate.to])
        for one in mates
        if one.input and one.mate.measured is not None
    }
