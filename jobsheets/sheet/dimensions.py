"""Stacks dimensions beside an outline so that no text meets another text, a line or the outline.

A span is measured along u and stands off along v, away from the part. For lengths u is x and v is y; for
diameters of a part lying on its axis u is y and v is x. Text always reads from the bottom of the sheet, as
ASME Y14.5 asks and ISO allows: the sheet is read standing at the machine.
"""

from collections.abc import Callable, Iterable
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from jobsheets.sheet.display import Drawing, Line, Point
from jobsheets.sheet.drafting import (
    ARROW,
    NOTE,
    PAD,
    Label,
    System,
    arrow,
    extension,
    label,
    label_height,
    label_width,
)

FIRST = 10.0  # outline to the first dimension line, at least (ASME Y14.5)
NEXT = 6.0  # between dimension lines, at least
CLEAR = 6.0  # outline to the first text: a centre line runs 4 mm past the outline
OUTSIDE = ARROW + 2.0  # length of a dimension line beyond an arrow that points inwards


class Span(Struct, frozen=True, kw_only=True):
    """A dimension to place, on paper: from `low` to `high` along u; its extension lines start at these v."""

    low: float
    high: float
    text: Label
    start_low: float = 0.0
    start_high: float = 0.0


class Placed(Struct, frozen=True, kw_only=True):
    """A dimension with its place: distance `v` of its line, middle `at` of its text along u."""

    span: Span
    v: float
    at: float
    inside: bool  # the arrows point outwards from between the extension lines


class _Seat(Struct, frozen=True, kw_only=True):
    """A place in a row, with the stretch of u that is taken there."""

    placed: Placed
    low: float
    high: float

    def meets(self, other: "_Seat") -> bool:
        return self.low < other.high and other.low < self.high


def stack(spans: Iterable[Span], *, upright: bool, first: float = FIRST) -> tuple[Placed, ...]:
    """Give each dimension a row: the shortest nearest the part, numbers staggered.

    Args:
        spans: dimensions on one side of the part.
        upright: the spans run up the page (diameters), so that the height of a text lies along u.
        first: least distance of the first dimension line from v = 0.

    Returns:
        The same dimensions, placed, innermost first.
    """
    waiting = sorted(spans, key=lambda s: (s.high - s.low, s.low))
    ends = sorted({end for span in waiting for end in (span.low, span.high)})
    rows: list[list[_Seat]] = []
    for index, span in enumerate(waiting):
        # Only this one and longer ones, further out, can lay an extension line across its text.
        later = {end for other in waiting[index:] for end in (other.low, other.high)}
        seats = _seats(span, later, ends, upright)
        for k, row in enumerate(rows):
            # A shorter one over the same stretch must stay nearer the part: look at the rows beyond as well.
            held = [seat for further in rows[k:] for seat in further]
            free = next((seat for seat in seats if not any(seat.meets(other) for other in held)), None)
            if free:
                row.append(free)
                break
        else:
            rows.append([seats[0]])
    return _set_off(rows, upright, first)


def _seats(span: Span, later: set[float], ends: list[float], upright: bool) -> list[_Seat]:
    """Places for the text in an empty row, best first, where no extension line crosses it."""
    half = (label_height(span.text) if upright else label_width(span.text)) / 2.0 + PAD
    middle = (span.low + span.high) / 2.0
    if 2.0 * half + 2.0 * ARROW <= span.high - span.low:
        placed = Placed(span=span, v=0.0, at=middle, inside=True)
        return [_Seat(placed=placed, low=span.low, high=span.high)]
    if 2.0 * half <= span.high - span.low:  # room for the number, not for the arrows as well
        return [_from_outside(span, middle, half, ends)]
    beyond = OUTSIDE + half
    places = [span.low - beyond, ends[0] - beyond]
    if not upright:  # diameters keep to the upper side: below them the lengths are stacked
        places = [span.high + beyond, places[0], ends[-1] + beyond, places[1]]
    free = [at for at in places if not any(at - half < end < at + half for end in later)]
    return [_from_outside(span, at, half, ends) for at in free]  # the last place lies beyond all ends


def _from_outside(span: Span, at: float, half: float, ends: list[float]) -> _Seat:
    """A seat with its arrows outside the extension lines.

    It claims the stretch up to the next end on both sides: an arrow of another dimension there would make
    the number read as the size of what lies between.
    """
    low, high = min(span.low - OUTSIDE, at - half), max(span.high + OUTSIDE, at + half)
    return _Seat(
        placed=Placed(span=span, v=0.0, at=at, inside=False),
        low=max((end for end in ends if end <= low), default=low),
        high=min((end for end in ends if end >= high), default=high),
    )


def _set_off(rows: list[list[_Seat]], upright: bool, first: float) -> tuple[Placed, ...]:
    """Distances of the rows: each as far from the one before as its texts are deep."""
    depths = [max(_deep(seat.placed.span, upright) for seat in row) + 2.0 * PAD for row in rows]
    distances = [max(first, depths[0] / 2.0 + CLEAR)] if rows else []
    for before, after in pairwise(depths):
        distances.append(distances[-1] + max(NEXT, (before + after) / 2.0))
    return tuple(replace(seat.placed, v=v) for row, v in zip(rows, distances, strict=True) for seat in row)


def _deep(span: Span, upright: bool) -> float:
    """Size of a text along v."""
    return label_width(span.text) if upright else label_height(span.text)


def draw(placed: Placed, *, base: float, away: int, upright: bool, system: System) -> Drawing:
    """Draw one placed dimension.

    Args:
        placed: from `stack`.
        base: where v = 0 lies on paper: a y for lengths, an x for diameters.
        away: 1 when v runs down or to the right, -1 when up or to the left.
        upright: as in `stack`.
        system: ISO starts extension lines at the outline, ASME leaves a gap.
    """
    span, v = placed.span, base + away * placed.v

    def at(u: float, w: float) -> Point:
        return (w, u) if upright else (u, w)

    lines = [
        extension(at(u, base + away * start), at(u, v), system)
        for u, start in ((span.low, span.start_low), (span.high, span.start_high))
    ]
    half = ((label_height(span.text) if upright else label_width(span.text)) + 2.0 * PAD) / 2.0
    arrows = _arrows(placed, at, v, upright)
    strokes = _pieces(placed, half)
    dimension = [
        Line(x1=a[0], y1=a[1], x2=b[0], y2=b[1]) for a, b in ((at(u0, v), at(u1, v)) for u0, u1 in strokes)
    ]
    return (*lines, *dimension, *arrows, *label(span.text, *at(placed.at, v), NOTE))


def _arrows(placed: Placed, at: Callable[[float, float], Point], v: float, upright: bool) -> Drawing:
    low, high = placed.span.low, placed.span.high
    to_low, to_high = (90.0, 270.0) if upright else (180.0, 0.0)  # directions on paper
    if not placed.inside:
        to_low, to_high = to_high, to_low
    return (arrow(*at(low, v), to_low), arrow(*at(high, v), to_high))


def _pieces(placed: Placed, half: float) -> list[tuple[float, float]]:
    """Stretches of the dimension line, broken for the text."""
    low, high, at = placed.span.low, placed.span.high, placed.at
    if placed.inside:
        return [(low, at - half), (at + half, high)]
    # Arrows from outside: a piece beyond each end, the one at the text drawn up to it; nothing between.
    up_to = (min(low - OUTSIDE, at + half), low) if at < low else (low - OUTSIDE, low)
    from_high = (high, max(high + OUTSIDE, at - half)) if at > high else (high, high + OUTSIDE)
    return [up_to, from_high]
