"""Centre drills: sizes by number or pilot, and which one suits a work diameter.

Units    mm.
Sources  ASME B94.11M plain type and ISO 866 type A, in data/centre_drills.csv, row by row (from memory).
Scope    60 degree centres without a protecting chamfer.
"""

from functools import cache

from jobsheets.standards import tables
from jobsheets.standards.scale import in_mm, scale
from jobsheets.value import Frozen


class StandardCentreDrill(Frozen):
    name: str  # "No. 2", "2.5 mm"
    pilot: float
    body: float
    pilot_length: float
    work: tuple[float, float] | None  # work diameters it suits; None where no source gives them
    mouth: float | None  # mouth of the finished centre at those diameters
    source: str
    seen: str


def names() -> tuple[str, ...]:
    """Names of the standard centre drills, inch numbers first."""
    return tuple(drill.name for drill in _all())


def find(name: str) -> StandardCentreDrill | None:
    """The centre drill called so, or None; "2", "#2" and "No. 2" are one.

    Source:
        data/centre_drills.csv, row by row.
    """
    return {_plain(drill.name): drill for drill in _all()}.get(_plain(name))


def for_work(diameter: float) -> StandardCentreDrill:
    """The inch centre drill that a workshop text gives for a bar; between two ranges the smaller one.

    Args:
        diameter: of the work, mm.

    Raises:
        ValueError: smaller than the smallest work diameter of the table.

    Source:
        Krar, Gill and Smid, Technology of Machine Tools, centre drill sizes, from memory.
    """
    usable = [drill for drill in _all() if drill.work is not None]
    fitting = [drill for drill in usable if drill.work and drill.work[0] <= round(diameter, 6)]
    if not fitting:
        least = min(drill.work[0] for drill in usable if drill.work)
        raise ValueError(
            f"no centre drill given for work of {diameter:g} mm; want {least:g} mm or more, "
            "or spot it and hold it without a centre"
        )
    return fitting[-1]


def _plain(name: str) -> str:
    return name.lower().removeprefix("no.").removeprefix("#").strip().replace(" ", "")


@cache
def _all() -> tuple[StandardCentreDrill, ...]:
    rows = tables.load("centre_drills", key=("name",), ascending=("system", "pilot"))
    return tuple(_drill(row) for row in rows)


def _drill(row: dict[str, str]) -> StandardCentreDrill:
    work = None
    if row["work_from"]:
        work = (in_mm(row, "work_from"), scale(row) * float(row["work_to"] or "inf"))
    return StandardCentreDrill(
        name=row["name"],
        pilot=in_mm(row, "pilot"),
        body=in_mm(row, "body"),
        pilot_length=in_mm(row, "pilot_length"),
        work=work,
        mouth=in_mm(row, "mouth") if row["mouth"] else None,
        source=row["source"],
        seen=row["seen"],
    )
