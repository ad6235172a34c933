"""From a resolved part to its drawing: which sizes are written where, and how.

Every size is written once, as its limits: the largest over the smallest, as a caliper shows them. An inch
size has no leading zero and an inch drawing follows ASME Y14.5; a metric drawing follows ISO 129-1.
"""

from collections.abc import Iterable
from itertools import groupby

from jobsheets.part.size import Size
from jobsheets.part.turned import Bottom, Edge, EdgeKind, End, Hole, HoleKind, Segment, TurnedPart
from jobsheets.sheet import dimensioned
from jobsheets.sheet.display import Drawing, Pattern
from jobsheets.sheet.drafting import DRILL_POINT, Label, System
from jobsheets.sheet.shape import Across, Bore, Corner, Remark, Rolled, Shape, Step
from jobsheets.sheet.view_numbers import Numbers

SYSTEMS: dict[str, System] = {"in": "asme", "mm": "iso"}
DRAWN_DEPTH = 0.6  # height of a thread as drawn, in pitches: a convention of the drawing, never a size to cut
TAP_ROOM = 2.5  # pitches below the full thread to which the hole is drawn; the planner settles the depth
PATTERNS: tuple[tuple[str, Pattern], ...] = (  # first word found in the name of the material
    ("stainless", "stainless"),
    ("nickel", "nickel_silver"),
    ("brass", "brass"),
    ("bronze", "bronze"),
    ("copper", "bronze"),
    ("alumin", "aluminium"),
    ("steel", "steel"),
    ("wood", "wood"),
)


def draw(
    part: TurnedPart,
    system: str,
    x: float,
    y: float,
    width: float,
    height: float,
    scales: tuple[float, ...] = dimensioned.SCALES,
) -> Drawing:
    """The dimensioned drawing of a turned part in its room.

    Args:
        part: resolved part.
        system: "in" or "mm", the one unit system of the sheet.
        x: left edge of the room on paper, mm.
        y: top edge.
        width: of the room.
        height: of the room.
        scales: tried in this order.

    Returns:
        Primitives inside the room.

    Raises:
        KeyError: a unit system that is neither of the two.
        ValueError: the drawing fits at none of the scales.
    """
    shape = _shape(part, _Words(system))
    return dimensioned.draw(shape, width, height, system=SYSTEMS[system], at=(x, y), scales=scales)


def pattern(material: str) -> Pattern:
    """Hatch pattern of a material; one pattern for those that the table does not know."""
    return next((found for word, found in PATTERNS if word in material.lower()), "other")


class _Words:
    """Writes sizes for the drawing."""

    def __init__(self, system: str) -> None:
        self.numbers = Numbers(system=system)

    def _bare(self, text: str) -> str:
        return text[1:] if self.numbers.system == "in" and text.startswith("0.") else text

    def limits(self, size: Size, sign: str = "") -> Label:
        low, high = (self._bare(text) for text in self.numbers.limits(size))
        return (f"{sign}{high}",) if low == high else (f"{sign}{high}", f"{sign}{low}")

    def short(self, size: Size, sign: str = "") -> str:
        """Limits on one line, for notes."""
        return sign + "/".join(self.limits(size))

    def length(self, mm: float) -> str:
        text = self.numbers.length(mm)
        return self._bare(text) if self.numbers.system == "in" else text.rstrip("0").rstrip(".")


def _shape(part: TurnedPart, words: _Words) -> Shape:
    whole = words.limits(part.overall) if part.overall else (f"({words.length(part.length)})",)
    return Shape(
        steps=tuple(_step(segment, words) for segment in part.segments),
        bores=tuple(_bore(hole, part.length) for hole in part.holes),
        across=tuple(
            Across(at=hole.at.nominal, diameter=hole.diameter.nominal, through=hole.through)
            for hole in part.cross_holes
        ),
        rolled=tuple(
            Rolled(start=a, end=b, diamond=k.form == "diamond")
            for k in part.knurls
            for a, b in (part.span(k.segment),)
        ),
        remarks=(*_edge_notes(part, words), *_hole_notes(part, words), *_other_notes(part, words)),
        overall_text=whole if len(part.segments) > 1 or part.overall else (),
        pattern=pattern(part.material),
    )


def _step(segment: Segment, words: _Words) -> Step:
    if segment.thread:
        text: Label = (segment.thread.text,)
    elif segment.as_stock:
        text = (f"⌀{words.length(segment.diameter.nominal)} stock",)
    else:
        text = words.limits(segment.diameter, "⌀")
    minor = None
    if segment.thread:
        minor = segment.diameter.nominal - 2.0 * DRAWN_DEPTH * segment.thread.thread.pitch
    return Step(
        length=segment.length.nominal,
        diameter=segment.diameter.nominal,
        front=_corner(segment.front),
        back=_corner(segment.back),
        minor=minor,
        length_text=words.limits(segment.length),
        diameter_text=text,
    )


def _corner(edge: Edge | None) -> Corner | None:
    return Corner(form=edge.kind.value, size=edge.size.nominal) if edge else None


def _bore(hole: Hole, length: float) -> Bore:
    depth = hole.depth.nominal if hole.depth else None
    thread = major = None
    if hole.thread:
        major, thread = hole.thread.thread.major, length if depth is None else depth
        if depth is not None and hole.bottom is not Bottom.FLAT:
            depth = min(depth + TAP_ROOM * hole.thread.thread.pitch, length)
    return Bore(
        diameter=hole.diameter.nominal,
        depth=None if hole.bottom is Bottom.THROUGH else depth,
        from_front=hole.end is End.FRONT,
        point=180.0 if hole.bottom is Bottom.FLAT else DRILL_POINT,
        mouth=hole.mouth.nominal if hole.mouth else None,
        thread=thread,
        major=major,
    )


def _edge_notes(part: TurnedPart, words: _Words) -> Iterable[Remark]:
    """Notes of the corners; corners of one form and size share a note that says how many they are."""
    corners: list[tuple[str, float, float]] = []
    for (z0, z1), segment in zip(zip(part.starts, part.starts[1:], strict=False), part.segments, strict=True):
        r = segment.diameter.nominal / 2.0
        for edge, z, into in ((segment.front, z0, 1.0), (segment.back, z1, -1.0)):
            if edge:
                half = edge.size.nominal / 2.0
                corners.append((_edge_text(edge, words), z + into * half, r - half))
    corners.sort(key=lambda corner: corner[0])
    for text, group in groupby(corners, key=lambda corner: corner[0]):
        places = sorted(corner[1:] for corner in group)
        count = f"{len(places)}X " if len(places) > 1 else ""
        z, r = places[-1]
        yield Remark(text=(count + text,), z=z, r=r)


def _edge_text(edge: Edge, words: _Words) -> str:
    size = words.length(edge.size.nominal)
    return {
        EdgeKind.CHAMFER: f"{size} × 45°",
        EdgeKind.RADIUS: f"R {size}",
        EdgeKind.DOME: f"dome {size} high",
    }[edge.kind]


def _hole_notes(part: TurnedPart, words: _Words) -> Iterable[Remark]:
    for hole in part.holes:
        if hole.thread:
            head = hole.thread.text
        else:
            sign = "⌴ ⌀" if hole.kind is HoleKind.COUNTERBORE else "⌀"
            head = words.short(hole.diameter, sign)
        depth = f"↧ {words.short(hole.depth)}" if hole.depth else "THRU"
        mouth: Label = (f"⌵ {words.short(hole.mouth, '⌀')} × 90°",) if hole.mouth else ()
        reach = hole.depth.nominal if hole.depth else part.length
        z = 0.6 * min(reach, part.length)
        z = z if hole.end is End.FRONT else part.length - z
        yield Remark(text=(f"{head} {depth}", *mouth), z=z, r=hole.diameter.nominal / 2.0)


def _other_notes(part: TurnedPart, words: _Words) -> Iterable[Remark]:
    for hole in part.cross_holes:
        r = part.segment(hole.segment).diameter.nominal / 2.0
        size = words.short(hole.diameter, "⌀") + (" THRU" if hole.through else "")
        place = f"{words.short(hole.at)} from front face"
        yield Remark(text=(size, place), z=hole.at.nominal + hole.diameter.nominal / 2.0, r=0.8 * r)
    for knurl in part.knurls:
        z0, z1 = part.span(knurl.segment)
        r = part.segment(knurl.segment).diameter.nominal / 2.0
        text = f"knurl {knurl.form}, pitch {words.length(knurl.pitch)}"
        yield Remark(text=(text,), z=z0 + 0.25 * (z1 - z0), r=r)
