"""What a material or an operation can do to the maker, the control first, and steps a material forbids.

Sources  each row of data/hazards.csv, data/forbidden_steps.csv and data/operation_cautions.csv names its
         document; a figure from memory says so. Nothing here replaces the document.
"""

from jobsheets.standards import tables
from jobsheets.standards.materials import Material
from jobsheets.units import nearest
from jobsheets.value import Frozen


class Hazard(Frozen):
    id: str
    hazard: str
    control: str
    document: str  # identifier; "none located" where none was found
    source: str
    seen: str


class ForbiddenStep(Frozen):
    step: str  # "abrasive", "dry grinding", "dry cutting", "blow down", "dry sweeping"
    why: str
    document: str
    source: str
    seen: str


class Caution(Frozen):
    text: str  # control first, in our own words
    document: str  # identifier; empty where the text names none
    source: str
    seen: str


def for_material(material: Material) -> tuple[Hazard, ...]:
    """Hazards of `material`, in the order of its row.

    Source:
        data/hazards.csv, row by row.
    """
    rows = {row["id"]: row for row in tables.load("hazards", key=("id",))}
    return tuple(_hazard(rows[name]) for name in material.hazards)


def forbidden(material: Material) -> tuple[ForbiddenStep, ...]:
    """Steps that are not to be planned on `material`.

    Source:
        data/forbidden_steps.csv, row by row.
    """
    return tuple(
        ForbiddenStep(
            step=row["step"],
            why=row["why"],
            document=row["document"],
            source=row["source"],
            seen=row["seen"],
        )
        for row in tables.load("forbidden_steps", key=("material", "step"))
        if row["material"] == material.id
    )


def for_operation(kind: str) -> tuple[Caution, ...]:
    """Cautions to print before an operation of `kind`.

    Args:
        kind: one of `operations()`, such as "parting" or "hand tapping".

    Raises:
        ValueError: a kind that the table does not hold; the nearest ones are named.

    Source:
        data/operation_cautions.csv, row by row.
    """
    known = operations()
    if kind not in known:
        offer = nearest(kind, known) or known
        raise ValueError(f"no cautions for {kind!r}; want one of {', '.join(offer)}")
    return tuple(
        Caution(text=row["caution"], document=row["document"], source=row["source"], seen=row["seen"])
        for row in _operation_rows()
        if row["operation"] == kind
    )


def operations() -> tuple[str, ...]:
    """Kinds of operation that have cautions."""
    return tuple(dict.fromkeys(row["operation"] for row in _operation_rows()))


def _operation_rows() -> tuple[dict[str, str], ...]:
    return tables.load("operation_cautions", key=("operation", "order"), ascending=("operation", "order"))


def _hazard(row: dict[str, str]) -> Hazard:
    return Hazard(
        id=row["id"],
        hazard=row["hazard"],
        control=row["control"],
        document=row["document"],
        source=row["source"],
        seen=row["seen"],
    )
