"""What lies near a name that no table holds: by spelling, or by size where the name is one."""

from collections.abc import Iterable

from jobsheets.units import millimetres, nearest

MOST = 3


def size_of(text: str) -> float | None:
    """A text as a length, mm; None where it is none or has no unit."""
    try:
        return millimetres(text)
    except ValueError:
        return None


def by_size(mm: float, sizes: Iterable[tuple[str, float]], most: int = MOST) -> tuple[str, ...]:
    """Names of the sizes that lie nearest to a length, nearest first; one name for each."""
    ranked = sorted(dict(sizes).items(), key=lambda pair: (round(abs(pair[1] - mm), 9), pair[1]))
    return tuple(name for name, _ in ranked[:most])


def by_name(text: str, sizes: Iterable[tuple[str, float]], most: int = MOST) -> tuple[str, ...]:
    """Names that a text may have meant: by its size, or with its mark or unit added, or by spelling."""
    known = dict(sizes)
    mm = size_of(text)
    if mm is not None:
        return by_size(mm, known.items(), most)
    marked = tuple(name for name in (f"#{text}", f"{text} in", f"{text} mm", text.upper()) if name in known)
    return marked or nearest(text, known, most)
