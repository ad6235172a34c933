"""Measure the work that the replay left, as an inspector would, and hold every size against its limits.

The outline is then drawn again from what was measured; anything that stands or is missing beyond that drawing
is a cut that no dimension asked for.
"""

from bisect import bisect_left, bisect_right
from itertools import pairwise
from math import radians, tan

from msgspec.structs import replace

from jobsheets.part.profile import Profile, ball_cap, cut_above, cut_below, cylinder, radius_at, step_near
from jobsheets.part.size import Size
from jobsheets.part.turned import (
    Bottom,
    Edge,
    EdgeKind,
    End,
    Hole,
    HoleKind,
    Segment,
    SegmentKind,
    TurnedPart,
)
from jobsheets.part.work import Work
from jobsheets.planner.replay_frame import ReplayFault

HIDDEN = 0.02  # mm; a shoulder lower than this cannot be seen
STRAY = 2e-3  # mm; nothing may differ from the outline drawn again by more
FLANK = 0.1  # mm; a countersink is set by the quill, whose lines are coarser than limits on a mouth
PROBE = 0.95  # share of its own depth at which a blind hole is gauged
DIE_LEAD = 4.0  # pitches; a die leaves its lead unfinished at a shoulder, and a check tells the maker so


def prove(part: TurnedPart, work: Work, *, threads_clean: bool) -> None:
    """Every size of the part, within its limits.

    Args:
        part: what was asked for.
        work: what the replay left.
        threads_clean: a thread that a cross hole burred must have been run through again.

    Raises:
        ReplayFault: a size is out, a feature is missing, or something was cut that should stand.
    """
    at = shoulders(part, work)
    for i, segment in enumerate(part.segments):
        _segment(segment, at[i], at[i + 1], work)
    if part.overall is not None:
        _hold("part", "length over all", work.back - work.front, part.overall)
    _outline(part, at, work)
    for hole in part.holes:
        _hole(part, hole, work)
        _mouth(part, hole, work)
    _bores(part, work)
    _crossings(part, work)
    for thread in work.threads:
        if threads_clean and not thread.clean:
            raise ReplayFault(thread.feature, "a burr is left in the thread")
    for knurl in part.knurls:
        _knurl(part, work, knurl.id, knurl.segment)


def _hold(feature: str, what: str, value: float, size: Size) -> None:
    if not size.low - 1e-6 <= value <= size.high + 1e-6:
        raise ReplayFault(feature, f"{what} is {value:.4f} mm; {size.low:.4f} to {size.high:.4f} mm is asked")


def shoulders(part: TurnedPart, work: Work) -> list[float]:
    """Front face, shoulders and back face as they are, mm; those between equal diameters are shared out."""
    seen = {0: work.front, len(part.segments): work.back}
    for i, (left, right) in enumerate(pairwise(part.segments), start=1):
        if not hidden(left, right):
            seen[i] = _shoulder(part, i, work)
    at = [work.front]
    known = sorted(seen)
    for a, b in pairwise(known):
        run = [s.length for s in part.segments[a:b]]
        over = seen[b] - seen[a] - sum(size.nominal for size in run)
        give = sum(size.width for size in run)
        for size in run[:-1]:
            at.append(at[-1] + size.nominal + over * size.width / give)
        at.append(seen[b])
    return at


def hidden(left: Segment, right: Segment) -> bool:
    """Whether no shoulder can be seen between two segments: they are made by one cut."""
    one_size = left.diameter.nominal == right.diameter.nominal
    return one_size or abs(left.diameter.aim - right.diameter.aim) < HIDDEN


def _shoulder(part: TurnedPart, index: int, work: Work) -> float:
    """Place of the shoulder in front of a segment, mm; an edge may have taken the whole of it."""
    left, right = part.segments[index - 1], part.segments[index]
    nominal = part.starts[index]
    reach = min(left.length.nominal, right.length.nominal) / 2.0
    rises = right.diameter.aim > left.diameter.aim
    step = step_near(work.outer, nominal, reach)
    if step is not None:
        return step[0]
    low = min(radius_at(work.outer, nominal - reach), radius_at(work.outer, nominal + reach))
    foot = [z for z, r in work.outer if abs(z - nominal) <= reach and r <= low + 1e-6]
    if not foot:
        raise ReplayFault(left.id, f"no shoulder stands near {nominal:.2f} mm")
    return max(foot) if rises else min(foot)


def _segment(segment: Segment, front: float, back: float, work: Work) -> None:
    _hold(segment.id, "length", back - front, segment.length)
    lead = _leg(segment.front)
    tail = _leg(segment.back)
    a, b = front + lead + 1e-6, back - tail - 1e-6
    size = segment.diameter
    if a < b:
        for z in (a, (a + b) / 2.0, b):
            _hold(segment.id, "diameter", 2.0 * radius_at(work.outer, z), size)
    if segment.kind is SegmentKind.THREAD:
        zone = next((t for t in work.threads if t.feature == segment.id), None)
        if zone is None:
            raise ReplayFault(segment.id, "has no thread")
        pitch = segment.thread.thread.pitch if segment.thread is not None else 0.0
        if (back - front) - (zone.end - zone.start) > DIE_LEAD * pitch:
            raise ReplayFault(
                segment.id, f"only {zone.end - zone.start:.2f} mm of {back - front:.2f} mm is threaded"
            )


def _leg(edge: Edge | None) -> float:
    return 0.0 if edge is None else edge.size.high


def _z(point: tuple[float, float]) -> float:
    return point[0]


def _edge_size(edge: Edge, segment: Segment, z: float, radius: float, work: Work, front: bool) -> float:
    """Leg of a chamfer, radius, or height of a dome, as cut: how far along the axis the corner is missing."""
    begin = bisect_left(work.outer, z - 1e-9, key=_z) if front else bisect_right(work.outer, z + 1e-9, key=_z)
    places = range(begin, len(work.outer)) if front else range(begin - 1, -1, -1)
    full = next((work.outer[k] for k in places if work.outer[k][1] >= radius - 1e-7), None)
    return 0.0 if full is None else abs(full[0] - z)


def _outline(part: TurnedPart, at: list[float], work: Work) -> None:
    """Draw the outside again from what was measured, edges included, and compare."""
    drawn: Profile = cylinder(work.front, work.back, max(r for _, r in work.outer) + 1.0)
    for i, segment in enumerate(part.segments):
        front, back = at[i], at[i + 1]
        middle = radius_at(work.outer, _middle(segment, front, back))
        drawn = cut_below(drawn, ((front, middle), (back, middle)))
        for edge, z, at_front in ((segment.front, front, True), (segment.back, back, False)):
            if edge is not None:
                size = _edge_size(edge, segment, z, middle, work, at_front)
                _hold(segment.id, f"{edge.kind} at its {'front' if at_front else 'back'}", size, edge.size)
                drawn = cut_below(drawn, _edge_line(edge, size, z, middle, at_front))
    _same(part, drawn, work)


def _middle(segment: Segment, front: float, back: float) -> float:
    return (front + _leg(segment.front) + back - _leg(segment.back)) / 2.0


def _edge_line(edge: Edge, size: float, z: float, radius: float, at_front: bool) -> Profile:
    if edge.kind is EdgeKind.DOME:
        return ball_cap(z, size, radius, toward_back=not at_front)
    if edge.kind is EdgeKind.RADIUS:
        arc = ball_cap(0.0, size, size, toward_back=False)
        if at_front:
            return tuple((z + t, radius - size + r) for t, r in arc)
        return tuple(sorted((z - t, radius - size + r) for t, r in arc))
    if at_front:
        return ((z, radius - size), (z + size, radius))
    return ((z - size, radius), (z, radius - size))


def _same(part: TurnedPart, drawn: Profile, work: Work) -> None:
    places = sorted({z for z, _ in drawn} | {z for z, _ in work.outer})
    for left, right in pairwise(places):
        if right - left < 1e-6:
            continue
        z = (left + right) / 2.0
        stray = radius_at(work.outer, z) - radius_at(drawn, z)
        if abs(stray) > STRAY:
            at = next(
                (s.id for i, s in enumerate(part.segments) if part.starts[i] <= z <= part.starts[i + 1]),
                "part",
            )
            kind = "too much stands" if stray > 0 else "metal is missing"
            raise ReplayFault(at, f"{kind} at {z:.2f} mm: {abs(stray):.3f} mm on the radius")


def _from(hole: Hole, work: Work, depth: float) -> float:
    return work.front + depth if hole.end is End.FRONT else work.back - depth


def _hole(part: TurnedPart, hole: Hole, work: Work) -> None:
    length = work.back - work.front
    if hole.depth is None or hole.bottom is Bottom.THROUGH:
        narrowest = min(r for _, r in work.inner)
        if narrowest <= 0.0:
            raise ReplayFault(hole.id, "is not through")
        _hold(hole.id, "diameter", 2.0 * _narrowest_of(hole, work), hole.diameter)
        if hole.kind is HoleKind.TAP:
            opened = sum(part.opened_at(replace(hole, end=end)) for end in End)
            _thread(hole, work, length - opened)
        return
    if hole.kind is HoleKind.TAP:
        _thread(hole, work, hole.depth.low - part.opened_at(hole))
        probe = _from(hole, work, _probe(part, hole))
    else:
        deep = _depth(part, hole, work)
        _hold(hole.id, "depth", deep, hole.depth)
        probe = _from(hole, work, _probe(part, hole))
    _hold(hole.id, "diameter", 2.0 * radius_at(work.inner, probe), hole.diameter)


def _mouth(part: TurnedPart, hole: Hole, work: Work) -> None:
    """Chamfer at the mouth: as asked for, or over the crests of a thread so that a tap starts straight."""
    if any(
        h is not hole and h.end is hole.end and h.diameter.nominal > hole.diameter.nominal for h in part.holes
    ):
        return  # the mouth lies on the floor of the larger hole
    wide = 2.0 * radius_at(work.inner, _from(hole, work, 0.0), before=hole.end is End.BACK)
    if hole.mouth is not None and not hole.mouth.low - FLANK <= wide <= hole.mouth.high + FLANK:
        raise ReplayFault(hole.id, f"its mouth is {wide:.3f} mm wide; {hole.mouth.aim:.3f} mm is asked")
    if hole.thread is not None and wide < hole.thread.thread.major:
        raise ReplayFault(hole.id, f"its mouth is {wide:.3f} mm wide, less than the thread")


def _narrowest_of(hole: Hole, work: Work) -> float:
    """Radius of a through hole: the stretch that matches it best, since larger holes may open on it."""
    return min((r for _, r in work.inner), key=lambda r: abs(2.0 * r - hole.diameter.aim))


def _probe(part: TurnedPart, hole: Hole) -> float:
    """Depth at which a blind hole is gauged: below its mouth, above its floor, mm."""
    low, begin = (hole.depth.low if hole.depth is not None else 1.0), part.opened_at(hole)
    return begin + PROBE * (low - begin) if begin < low else low


def _depth(part: TurnedPart, hole: Hole, work: Work) -> float:
    """Depth at full diameter; a hole that opens on a wider one has the depth that was asked of it."""
    radius = radius_at(work.inner, _from(hole, work, _probe(part, hole)))
    points = work.inner if hole.end is End.FRONT else tuple(reversed(work.inner))
    face = work.front if hole.end is End.FRONT else work.back
    reach = 0.0
    for z, r in points:
        if abs(r - radius) < 1e-6:
            reach = abs(z - face)
        elif r < radius - 1e-6 and reach > 0.0:
            break
        elif (
            r > radius + 1e-6 and reach > 0.0 and hole.depth is not None and abs(z - face) <= hole.depth.high
        ):
            return hole.depth.aim
    return reach


def _thread(hole: Hole, work: Work, needed: float) -> None:
    zone = next((t for t in work.threads if t.feature == hole.id), None)
    if zone is None:
        raise ReplayFault(hole.id, "has no thread")
    if zone.end - zone.start < needed - 1e-6 and not (
        zone.start <= work.front + 1e-6 and zone.end >= work.back - 1e-6
    ):
        raise ReplayFault(hole.id, f"{zone.end - zone.start:.2f} mm of full thread; {needed:.2f} mm is asked")


def _bores(part: TurnedPart, work: Work) -> None:
    """No hole where none is asked: the bores drawn again from the part's holes cover what is there."""
    drawn: Profile = cylinder(work.front, work.back, 0.0)
    for hole in part.holes:
        drawn = cut_above(drawn, _hole_line(part, hole, work))
    for left, right in pairwise(work.inner):
        if right[0] - left[0] < 1e-6:
            continue
        for share in (0.02, 0.5, 0.98):
            z = left[0] + share * (right[0] - left[0])
            extra = radius_at(work.inner, z) - radius_at(drawn, z)
            if extra > 0.02:
                raise ReplayFault(
                    "holes", f"the bore is {2 * extra:.3f} mm too wide at {z:.2f} mm from the front"
                )


def _hole_line(part: TurnedPart, hole: Hole, work: Work) -> Profile:
    """Most that a hole may take away: its high diameter, its deepest depth, its point and its mouth."""
    face, sign = (work.front, 1.0) if hole.end is End.FRONT else (work.back, -1.0)
    radius = hole.diameter.high / 2.0 + 0.001
    crests = hole.thread.thread.major / 2.0 if hole.thread is not None else 0.0
    wide = max((hole.mouth.high if hole.mouth is not None else 0.0) / 2.0, crests, radius) + 0.5
    length = work.back - work.front
    if hole.depth is None or hole.bottom is Bottom.THROUGH:
        near, far = (part.opened_at(replace(hole, end=end)) for end in (End.FRONT, End.BACK))
        if sign < 0:
            near, far = far, near
        points = [
            (0.0, wide),
            (near, wide),
            (near + wide - radius, radius),
            (length - far - (wide - radius), radius),
            (length - far, wide),
            (length, wide),
        ]
    else:
        extra = 12.0 * hole.thread.thread.pitch if hole.thread is not None else 0.0
        floor = hole.depth.high + extra
        point = 0.0 if hole.bottom is Bottom.FLAT else radius / tan(radians(59.0))
        near = part.opened_at(hole)
        points = [
            (0.0, wide),
            (near, wide),
            (near + wide - radius, radius),
            (floor, radius),
            (floor + point + 1e-6, 0.0),
        ]
    line = [(face + sign * t, r) for t, r in points]
    return tuple(line) if sign > 0 else tuple(reversed(line))


def _crossings(part: TurnedPart, work: Work) -> None:
    for hole in part.cross_holes:
        bore = next((b for b in work.cross_bores if b.feature == hole.id), None)
        if bore is None:
            raise ReplayFault(hole.id, "is not drilled")
        _hold(hole.id, "diameter", bore.diameter, hole.diameter)
        _hold(hole.id, "distance from the front face", bore.z - work.front, hole.at)


def _knurl(part: TurnedPart, work: Work, knurl: str, segment: str) -> None:
    rolled = next((k for k in work.knurls if k[0] == knurl), None)
    if rolled is None:
        raise ReplayFault(knurl, "is not rolled")
    a, b = part.span(segment)
    if rolled[1] > a + 0.6 or rolled[2] < b - 0.6 or rolled[1] < a - 0.6 or rolled[2] > b + 0.6:
        raise ReplayFault(
            knurl, f"is rolled from {rolled[1]:.2f} to {rolled[2]:.2f} mm; {a:.2f} to {b:.2f} mm is asked"
        )
