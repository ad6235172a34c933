"""One door to every kind of look-up. Each kind is a module of its own, imported when it is asked for."""

from collections.abc import Callable
from functools import lru_cache

from jobsheets.lookup.answer import Answer, Miss
from jobsheets.value import TYPE_CHECKING

if TYPE_CHECKING:
    from jobsheets.standards.drills import DrillSize
    from jobsheets.standards.materials import Material

REMEMBERED = 4096  # answers kept in a process; there are fewer names in the tables


def _thread(name: str) -> Answer | Miss:
    from jobsheets.lookup import threads

    return threads.answer(name)


def _drill(name: str) -> Answer | Miss:
    from jobsheets.lookup import drills

    return drills.answer(name)


def _hole(name: str) -> Answer | Miss:
    from jobsheets.lookup import holes

    return holes.answer(name)


def _fit(name: str) -> Answer | Miss:
    from jobsheets.lookup import fits

    return fits.answer(name)


def _pin(name: str) -> Answer | Miss:
    from jobsheets.lookup import pins

    return pins.answer(name)


def _stock(name: str) -> Answer | Miss:
    from jobsheets.lookup import stock

    return stock.answer(name)


def _material(name: str) -> Answer | Miss:
    from jobsheets.lookup import materials

    return materials.answer(name)


# Kind, how to ask it, what a name looks like.
KINDS: dict[str, tuple[Callable[[str], Answer | Miss], str]] = {
    "thread": (_thread, "8-32 UNC, 8-32 UNC-2B, M5x0.8-6H, 2 BA"),
    "drill": (_drill, "#29, F, 9/64 in, 3.4 mm"),
    "hole": (_hole, "the screw it is for: #8, M5, 1/4 in, 8-32 UNC"),
    "fit": (_fit, "H7/g6 10 mm, f7 12 mm, RC4 1/2 in, ISO 2768-m 12 mm"),
    "pin": (_pin, "1/8 in, dowel 1/8 in, 3 mm"),
    "stock": (_stock, "3/8 in, hexagon 10 mm, round 1/2 in stainless-303"),
    "material": (_material, "303, brass-360, 1.4305, S30300"),
}


@lru_cache(maxsize=REMEMBERED)
def look_up(kind: str, name: str) -> Answer | Miss:
    """All that the tables say of a name.

    Args:
        kind: one of `KINDS`.
        name: as the trade writes it, such as "8-32 UNC-2B" or "H7/g6 10 mm".

    Returns:
        Values with source and how they were seen, or a `Miss` that names what is near.

    Raises:
        ValueError: not one of the kinds.
    """
    if kind not in KINDS:
        raise ValueError(f"{kind!r} is not a kind of look-up; want one of {', '.join(KINDS)}")
    return KINDS[kind][0](name.strip())


def tap_drills(
    name: str, material: "Material | None", owned: "tuple[DrillSize, ...] | None"
) -> Answer | Miss:
    """The drills for tapping a thread in a material, of those owned where a drawer is given.

    Args:
        name: a thread or the screw's size, as for `look_up("hole", name)`.
        material: metal to be tapped; None for metals in general.
        owned: drills of the drawer; None for every drill that is sold.

    Returns:
        As `look_up("hole", name)`, the tap drills chosen for the material out of the drawer.
    """
    from jobsheets.lookup import holes

    return holes.answer(name.strip(), material, owned)
