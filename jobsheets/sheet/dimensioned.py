"""The dimensioned drawing of a turned part, at the largest scale that fits its room.

Units    the part in mm, the drawing in mm on paper from the top left corner of its room.
"""

from itertools import accumulate, pairwise
from math import inf
from string import ascii_uppercase

from msgspec.structs import replace

from jobsheets.sheet import dimensions, drafting, half_section
from jobsheets.sheet.dimensions import Span
from jobsheets.sheet.display import Bounds, Drawing, Point, Polyline, Text, around, extent, moved
from jobsheets.sheet.drafting import NOTE, PAD, SHOULDER, System, label_height, label_width
from jobsheets.sheet.shape import Remark, Shape, depth, drop, face_radius

# ISO 5455 has 5, 2, 1, 1:2 and 1:5; 4 and 3 fill the room better (common practice).
SCALES = (5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.2)
ABOVE = 7.0  # room between the outline and the notes
ASIDE = 4.0  # how far a leader may stand off beside the part
BETWEEN = SHOULDER + 4.0  # clear room between two notes, with a leader of each in it


def draw(
    shape: Shape,
    width: float,
    height: float,
    *,
    system: System = "iso",
    at: Point = (0.0, 0.0),
    scales: tuple[float, ...] = SCALES,
) -> Drawing:
    """Draw a part in half section with its dimensions, in the middle of its room.

    Args:
        shape: the part with its texts.
        width: of the room, mm.
        height: of the room, mm.
        system: drawing practice, "iso" or "asme".
        at: upper left corner of the room on paper.
        scales: tried in this order.

    Returns:
        Primitives inside the room, the scale named under the part. Notes that find no room beside each
        other are replaced by letters, and listed under the scale.

    Raises:
        ValueError: the drawing fits at none of the scales.
    """
    needs = ""
    left, right, hidden = _sides(shape)
    remarks = sorted((*shape.remarks, *hidden), key=lambda remark: (remark.z, remark.text))
    for scale in scales:
        core = _dimensioned(shape, scale, system, left, right)
        box = extent(core)
        for lettered in (False, True):
            words = _words(remarks, scale, box, shape.starts[-1] * scale, lettered)
            x0, y0, x1, y1 = around(box, extent(words))
            clear = lettered or _over_the_part(words, shape.starts[-1] * scale)
            if clear and x1 - x0 <= width and y1 - y0 <= height:
                dx, dy = (width - x1 - x0) / 2.0, (height - y1 - y0) / 2.0
                return moved((*core, *words), at[0] + dx, at[1] + dy)
        needs = f"{x1 - x0:.0f} x {y1 - y0:.0f} mm at {scale_name(scale)}"
    raise ValueError(
        f"the drawing needs {needs} and has {width:.0f} x {height:.0f} mm: "
        "give it more room or shorten its notes"
    )


def _over_the_part(words: Drawing, length: float) -> bool:
    """No leader comes down beside the part, where the diameters stand."""
    elbows = [item.points[1][0] for item in words if isinstance(item, Polyline)]
    return all(-ASIDE <= x <= length + ASIDE for x in elbows)


def scale_name(scale: float) -> str:
    return f"{scale:g}:1" if scale >= 1.0 else f"1:{1.0 / scale:g}"


def _words(remarks: list[Remark], scale: float, box: Bounds, length: float, lettered: bool) -> Drawing:
    """The notes above the drawing; under it the scale, and the list of the notes when they are lettered."""
    lines = [f"SCALE {scale_name(scale)}"]
    if lettered:
        named = list(zip(ascii_uppercase, remarks, strict=False))
        lines += [f"{letter}  {', '.join(remark.text)}" for letter, remark in named]
        remarks = [replace(remark, text=(letter,)) for letter, remark in named]
    under = box[3] + 2.0
    listed = (
        Text(x=box[0], y=under + drafting.LINE * (k + 1), text=line, size=NOTE)
        for k, line in enumerate(lines)
    )
    return (*_notes(remarks, scale, box[1], length), *listed)


def _dimensioned(shape: Shape, scale: float, system: System, left: list[Span], right: list[Span]) -> Drawing:
    """The part with its dimensions at one scale; front face and axis at the origin."""
    parts: list[Drawing] = [half_section.body(shape, scale)]
    largest = max(step.diameter for step in shape.steps) / 2.0 * scale
    length = shape.starts[-1] * scale
    for spans, base, away in ((left, 0.0, -1), (right, length, 1)):
        placed = dimensions.stack((_scaled(span, scale) for span in spans), upright=True)
        parts.extend(dimensions.draw(p, base=base, away=away, upright=True, system=system) for p in placed)
    placed = dimensions.stack(_lengths(shape, scale, largest), upright=False)
    parts.extend(dimensions.draw(p, base=largest, away=1, upright=False, system=system) for p in placed)
    return tuple(item for part in parts for item in part)


def _sides(shape: Shape) -> tuple[list[Span], list[Span], list[Remark]]:
    """Diameters by the end they can be seen from: left, right, or neither (a leader from above).

    A diameter can be shown beside an end when nothing between it and that end is as large, so that its
    extension lines stay clear of the outline. Spans in mm of the part; `start` is the way to the end face.
    """
    left: list[Span] = []
    right: list[Span] = []
    hidden: list[Remark] = []
    starts, sizes = shape.starts, [step.diameter for step in shape.steps]
    before = [0.0, *accumulate(sizes, max)]
    after = [*list(accumulate(reversed(sizes), max))[-2::-1], 0.0]
    for k, step in enumerate(shape.steps):
        if not step.diameter_text:
            continue
        z0, z1, r = starts[k], starts[k + 1], step.diameter / 2.0
        ways = []
        if before[k] < step.diameter:
            ways.append((z0 + depth(step.front), left))
        if after[k] < step.diameter:
            ways.append((starts[-1] - z1 + depth(step.back), right))
        if not ways:
            hidden.append(Remark(text=step.diameter_text, z=(z0 + z1) / 2.0, r=r))
            continue
        way, side = min(ways, key=lambda option: option[0])
        side.append(Span(low=-r, high=r, text=step.diameter_text, start_low=-way, start_high=-way))
    return left, right, hidden


def _scaled(span: Span, scale: float) -> Span:
    return Span(
        low=span.low * scale,
        high=span.high * scale,
        text=span.text,
        start_low=span.start_low * scale,
        start_high=span.start_high * scale,
    )


def _lengths(shape: Shape, scale: float, largest: float) -> list[Span]:
    """Lengths of the steps and over all, their extension lines from the lower outline."""
    starts, steps = shape.starts, shape.steps
    radii = [step.diameter / 2.0 * scale for step in steps]
    first, last = drop(steps[0].front), drop(steps[-1].back)
    # At a shoulder the extension line starts from the larger diameter, or it would cross that step.
    outer = [
        radii[0] - first * scale,
        *(max(pair) for pair in pairwise(radii)),
        face_radius(steps[-1].back, radii[-1] - last * scale),
    ]
    outer[0] = face_radius(steps[0].front, outer[0])
    begin = [r - largest for r in outer]
    spans = [
        Span(
            low=starts[k] * scale,
            high=starts[k + 1] * scale,
            text=step.length_text,
            start_low=begin[k],
            start_high=begin[k + 1],
        )
        for k, step in enumerate(steps)
        if step.length_text
    ]
    if shape.overall_text:
        end = starts[-1] * scale
        spans.append(
            Span(low=0.0, high=end, text=shape.overall_text, start_low=begin[0], start_high=begin[-1])
        )
    return spans


def _notes(row: list[Remark], scale: float, top: float, length: float) -> Drawing:
    """Notes in one row above the drawing, in the order of what they point at, so that no leaders cross."""
    if not row:
        return ()
    # Each text wants to begin right of its tip; then they are pushed apart, and the row is set back.
    wishes = [remark.z * scale + SHOULDER + 4.0 for remark in row]
    lefts: list[float] = []
    free = -inf
    for wish, remark in zip(wishes, row, strict=True):
        lefts.append(max(wish, free))
        free = lefts[-1] + label_width(remark.text) + SHOULDER + PAD + BETWEEN
    back = sum(left - wish for left, wish in zip(lefts, wishes, strict=True)) / len(row)
    back = max(back, lefts[-1] - PAD - SHOULDER - length - ASIDE)  # beside the ends stand the diameters
    middle = top - ABOVE - max(label_height(remark.text) for remark in row) / 2.0
    return tuple(
        item
        for remark, left in zip(row, lefts, strict=True)
        for item in drafting.note(remark.text, (remark.z * scale, -remark.r * scale), left - back, middle)
    )
