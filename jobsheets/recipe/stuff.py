"""Material and bar of a recipe, looked up in the tables."""

from jobsheets.document import Mapping, Text
from jobsheets.part.size import Size
from jobsheets.recipe.faults import Faults
from jobsheets.recipe.item import Item
from jobsheets.standards import materials, stock

UNKNOWN_BAR = "EN 10278 drawn round"  # taken where no source says to what standard a material is sold


def material(top: Mapping, faults: Faults) -> str:
    """Name of the material in the table; "" and the fault kept where it is not there."""
    node = top.entries["material"]
    assert isinstance(node, Text)
    found = faults.attempt(node, "material", lambda: materials.find(node.value))
    return found.id if found is not None else ""


def rod(item: Item, of: str, faults: Faults) -> Size | None:
    """The bar with the limits of its standard; None, and the fault kept, where there are none."""
    nominal = item.number("round")
    if "standard" in item:
        node, path = item.at("standard")
        return faults.attempt(node, path, lambda: _bar(nominal, item.text("standard"), ""))
    usual = [bar.name for bar in stock.rounds_of(materials.find(of))] if of else []
    for name in usual:
        try:
            return _bar(nominal, name, "")
        except ValueError:
            continue  # the next standard may hold this size
    node, path = item.at("round")
    doubt = f"; taken because no table gives bars of {of or 'this material'} in this size"
    return faults.attempt(node, path, lambda: _bar(nominal, UNKNOWN_BAR, doubt))


def _bar(nominal: float, standard: str, doubt: str) -> Size:
    found = stock.tolerance(standard, nominal)
    return Size(
        nominal=nominal,
        low=nominal + found.lower,
        high=nominal + found.upper,
        limits=standard,
        source=found.source + doubt,
    )
