"""Change gears for a thread: every train that the owned gears make on a banjo, exact ones first.

Units    mm; a ratio is turns of the leadscrew for one turn of the stud.
Sources  drivers over driven = lead over leadscrew: F. D. Jones, Turning and Boring (1914), change gears. The
         distances are geometry: two gears mesh at half the sum of their teeth times the module.
Scope    one driver and one driven gear with an idler between (simple), or two pairs on one banjo stud
         (compound). Each owned gear is used once. Double compounds on two studs are not searched.
"""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from jobsheets.cutting.banjo import Banjo
from jobsheets.cutting.limits import not_negative, positive

EXACT = 1e-11  # share; a ratio of whole teeth that is not the wanted one is never so near to it
MOST_ERROR = 0.05  # share; nothing farther off is offered at all
WIDER = (EXACT, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2, MOST_ERROR)  # shares searched one after the other


class Train(Struct, frozen=True, kw_only=True):
    """One train, in the order of the drive from the stud to the leadscrew."""

    gears: tuple[int, ...]  # driver, driven; or driver, driven, driver, driven
    idler: int = 0  # simple train: the gear between, which changes nothing but the direction
    error: float = 0.0  # share by which the lead comes out too long; 0.0 is exact

    @property
    def ratio(self) -> Fraction:
        """Turns of the leadscrew for one turn of the stud."""
        found = Fraction(self.gears[0], self.gears[1])
        return found * Fraction(self.gears[2], self.gears[3]) if len(self.gears) == 4 else found

    @property
    def exact(self) -> bool:
        return self.error == 0.0


def ratio_for(lead: float, leadscrew: float, stud: float = 1.0) -> float:
    """Ratio of drivers to driven gears that cuts a lead.

    Args:
        lead: advance of the thread in one turn, mm: pitch times starts.
        leadscrew: its pitch, mm.
        stud: turns of the stud for one turn of the spindle.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        drivers / driven = lead / leadscrew, over any fixed ratio of the headstock: F. D. Jones, Turning and
        Boring (1914).
    """
    positive(lead=lead, leadscrew=leadscrew, stud=stud)
    return lead / (leadscrew * stud)


def lead_cut(ratio: float | Fraction, leadscrew: float, stud: float = 1.0) -> float:
    """Lead that a ratio cuts, mm: the converse of `ratio_for`."""
    positive(leadscrew=leadscrew, stud=stud, ratio=float(ratio))
    return float(ratio) * leadscrew * stud


def error_over(train: Train, lead: float, length: float) -> tuple[float, float]:
    """Error of the lead in one turn, and summed over an engaged length, mm; above zero is too long.

    Raises:
        ValueError: a lead that is not above zero, or a length below it.
    """
    positive(lead=lead)
    not_negative(length=length)
    return train.error * lead, train.error * length


def best(ratio: float, gears: tuple[int, ...], banjo: Banjo | None = None) -> tuple[Train, ...]:
    """The exact trains; where there is none, those nearest to the ratio. Best first, empty past 5 %."""
    for within in WIDER:
        found = search(ratio, gears, banjo, within)
        if found:
            return found
    return ()


def search(
    ratio: float, gears: tuple[int, ...], banjo: Banjo | None = None, within: float = EXACT
) -> tuple[Train, ...]:
    """Every train whose ratio is near enough, best first: exact before near, simple before compound.

    Args:
        ratio: of `ratio_for`.
        gears: teeth of each owned gear; a gear owned twice stands twice.
        banjo: where the shafts stand; None: trains are not held against it.
        within: share by which the ratio may be off.

    Raises:
        ValueError: a ratio that is not above zero, or a share above one half.
    """
    positive(ratio=ratio)
    if not 0.0 <= within <= 0.5:
        raise ValueError(f"a ratio off by {within:g}: want 0 to 0.5")
    owned = Counter(gears)
    found = [*_simple(ratio, owned, banjo, within), *_compound(ratio, owned, banjo, within)]
    return tuple(sorted(found, key=_rank))


def _rank(train: Train) -> tuple[float, int, int, int, tuple[int, ...]]:
    """Small gears are loud and wear, so of like trains the one whose smallest gear is largest comes first."""
    return abs(train.error), len(train.gears), -min(train.gears), sum(train.gears), train.gears


def _error(made: float, ratio: float, within: float) -> float | None:
    """Share by which a ratio is off; 0.0 where it is exact, None where it is off by more than `within`."""
    error = made / ratio - 1.0
    if abs(error) <= EXACT:
        return 0.0
    return error if abs(error) <= within else None


def _simple(ratio: float, owned: Counter[int], banjo: Banjo | None, within: float) -> Iterator[Train]:
    sizes = sorted(owned)
    for first in sizes:
        lowest, highest = _window(first, ratio, within)
        for last in sizes[bisect_left(sizes, lowest) : bisect_right(sizes, highest)]:
            if first == last and owned[first] < 2:
                continue
            error = _error(first / last, ratio, within)
            idler = _idler(first, last, sizes, owned, banjo)
            if idler and error is not None:
                yield Train(gears=(first, last), idler=idler, error=error)


def _idler(first: int, last: int, sizes: list[int], owned: Counter[int], banjo: Banjo | None) -> int:
    """The smallest gear left that spans from the driver to the driven gear; 0 where none does."""
    for teeth in sizes:
        spare = owned[teeth] - (teeth == first) - (teeth == last)
        if spare > 0 and (banjo is None or fits_simple(first, teeth, last, banjo)):
            return teeth
    return 0


def _window(product: int, ratio: float, within: float) -> tuple[float, float]:
    """Least and most product of driven teeth that a product of drivers may stand over, a hair wider."""
    room = within + EXACT
    return product / (ratio * (1.0 + room)), product / (ratio * (1.0 - room))


def _compound(ratio: float, owned: Counter[int], banjo: Banjo | None, within: float) -> Iterator[Train]:
    """Pairs are sorted by their product once, so each pair of drivers finds its driven pairs by bisection."""
    sizes = sorted(owned)
    pairs = sorted((a * c, a, c) for k, a in enumerate(sizes) for c in sizes[k:] if a != c or owned[a] > 1)
    products = [p for p, _, _ in pairs]
    for product, a, c in pairs:
        lowest, highest = _window(product, ratio, within)
        for k in range(bisect_left(products, lowest), bisect_right(products, highest)):
            under, b, d = pairs[k]
            error = _error(product / under, ratio, within)
            if error is None or not _enough(owned, a, b, c, d):
                continue
            for order in {(a, b, c, d), (c, b, a, d), (a, d, c, b), (c, d, a, b)}:
                if banjo is None or fits_compound(*order, banjo):
                    yield Train(gears=order, error=error)


def _enough(owned: Counter[int], a: int, b: int, c: int, d: int) -> bool:
    """Whether a gear that stands in both pairs is owned so often."""
    if a not in (b, d) and c not in (b, d):
        return True
    wanted = (a, b, c, d)
    return all(owned[teeth] >= wanted.count(teeth) for teeth in wanted)


def _closes(first: float, second: float, banjo: Banjo) -> bool:
    """Whether the banjo stud finds a place at both distances: from the stud, and from the leadscrew."""
    return banjo.slot_from <= second <= banjo.slot_to and abs(first - second) <= banjo.span <= first + second


def _clears(teeth: int, distance: float, banjo: Banjo) -> bool:
    """Whether the tips of a gear pass a shaft that stands `distance` from its centre, mm."""
    return banjo.module * (teeth + 2) / 2.0 + banjo.shaft / 2.0 <= distance


def fits_simple(first: int, idler: int, last: int, banjo: Banjo) -> bool:
    """Whether driver, idler and driven gear mesh on a banjo, and the outer two do not touch."""
    half = banjo.module / 2.0
    return (
        _closes(half * (first + idler), half * (idler + last), banjo)
        and half * (first + last + 4) <= banjo.span
    )


def fits_compound(a: int, b: int, c: int, d: int, banjo: Banjo) -> bool:
    """Whether a drives b and, on the same stud, c drives d, and no gear fouls a shaft that passes it."""
    half = banjo.module / 2.0
    near, far = half * (a + b), half * (c + d)
    return (
        _closes(near, far, banjo)
        and _clears(b, far, banjo)  # b turns beside the leadscrew's end
        and _clears(c, near, banjo)  # c turns beside the stud's end
        and _clears(a, banjo.span, banjo)
        and _clears(d, banjo.span, banjo)
    )
