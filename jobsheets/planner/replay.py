"""Replay: cut the printed numbers, in software, from the bar.

Nothing here knows what the planner meant. A row is turned back from dial to travel, the cut is made where the hand
would make it, and the sizes printed beside the reading must come out. What is left at the end is measured by
planner/inspect.py.
"""

from dataclasses import dataclass, field
from math import radians, tan

from jobsheets.part.profile import Profile, ball_cap, radius_at, step_near
from jobsheets.part.turned import End, TurnedPart
from jobsheets.part.work import CrossBore, ThreadZone, Work
from jobsheets.planner.operation import HoldingKind, Motion, Operation, Place, Row, RowKind, Setup
from jobsheets.shop.dials import travel
from jobsheets.shop.machines import Dial
from jobsheets.shop.shop import Shop

AGREES = 1e-4  # mm; a printed size and its reading differ by rounding of floats only
AIR = 3.0  # mm; cuts begin this far in front of the face
CLEAR = 0.5  # mm; nearest that an edge comes to jaws


class ReplayFault(Exception):
    """The printed numbers do not make the part. A fault of the plan, never of the maker."""

    def __init__(self, operation: str, what: str) -> None:
        super().__init__(f"{operation}: {what}")
        self.operation = operation
        self.what = what


@dataclass(slots=True)
class _Bench:
    """What the replay remembers between operations."""

    part: TurnedPart
    shop: Shop
    facts: set[str] = field(default_factory=set)
    spots: dict[str, float] = field(default_factory=dict)
    setup: str = ""


@dataclass(frozen=True, slots=True)
class _Frame:
    """From a travel counted from the face that stands out to a place on the part."""

    zero: float
    sign: float

    def z(self, at: float) -> float:
        return self.zero + self.sign * at

    def line(self, *points: tuple[float, float]) -> Profile:
        return (
            tuple(sorted((self.z(t), r) for t, r in points))
            if self.sign < 0
            else tuple((self.z(t), r) for t, r in points)
        )


def replay(
    part: TurnedPart, shop: Shop, setups: tuple[Setup, ...], operations: tuple[Operation, ...], bar: Work
) -> tuple[Work, ...]:
    """States of the work: the bar, then after each operation.

    Raises:
        ReplayFault: a row contradicts itself, a need is not met, a tool cannot reach or would hit, or a cut lies
            in the air.
    """
    bench = _Bench(part, shop)
    by_id = {s.id: s for s in setups}
    states = [bar]
    for op in operations:
        setup = by_id[op.setup]
        if bench.setup != setup.id:
            _enter(bench, setup, states[-1], op)
        for need in op.needs:
            if need.fact not in bench.facts:
                raise ReplayFault(op.id, f"'{need.fact}' is not true yet ({need.because})")
        try:
            work = _CUTS[op.motion](bench, setup, op, states[-1])
        except ValueError as exc:
            raise ReplayFault(op.id, str(exc)) from None
        bench.facts.update(op.makes)
        bench.facts.difference_update(n.fact for n in op.spoils)
        states.append(work)
    return tuple(states)


def _enter(bench: _Bench, setup: Setup, work: Work, op: Operation) -> None:
    """Grip the work: what is clamped exists, is parallel, and is there."""
    bench.setup = setup.id
    for need in setup.requires:
        if need.fact not in bench.facts:
            raise ReplayFault(op.id, f"setup '{setup.title}': '{need.fact}' is not true yet ({need.because})")
    if setup.holding.kind in (HoldingKind.HAND, HoldingKind.MANDREL):
        return
    a, b = setup.grip_from, setup.grip_to
    if a < work.front - AGREES or b > work.back + AGREES:
        raise ReplayFault(
            op.id,
            f"the grip from {a:.2f} to {b:.2f} mm is not on the work, {work.front:.2f} to {work.back:.2f} mm",
        )
    radii = [r for z, r in work.outer if a + 1e-6 < z < b - 1e-6]
    radii += [radius_at(work.outer, a + 1e-6), radius_at(work.outer, b - 1e-6)]
    if max(radii) - min(radii) > 0.02:
        edge_only = max(radii) - min(radii) <= 1.0 and setup.holding.on != "bar"
        middle = radius_at(work.outer, (a + b) / 2.0)
        if not (edge_only and abs(max(radii) - middle) < 0.02):
            raise ReplayFault(op.id, "the jaws would grip a step")


def _dial(bench: _Bench, op: Operation, axis: str) -> Dial:
    lathe, mill = bench.shop.lathe, bench.shop.mill
    dials: list[Dial | None] = [lathe.cross, lathe.carriage, lathe.top_slide, lathe.quill.dial]
    if op.place is Place.MILL and mill is not None:
        dials = [mill.table_x, mill.table_y, mill.quill]
    for dial in dials:
        if dial is not None and dial.axis == axis:
            return dial
    raise ReplayFault(op.id, f"no dial is called '{axis}'")


def _z(bench: _Bench, op: Operation, row: Row) -> float:
    """Lengthwise travel of a row, and proof that the printed distance agrees with it."""
    if row.z is None:
        raise ReplayFault(op.id, f"a {row.kind} row without a lengthwise reading")
    at = travel(_dial(bench, op, op.z_dial), row.z)
    if row.at is not None and abs(at - row.at) > AGREES:
        raise ReplayFault(op.id, f"the reading makes {at:.3f} mm, the row says {row.at:.3f} mm")
    return at


def _frame(setup: Setup, work: Work) -> _Frame:
    return _Frame(work.front, 1.0) if setup.out is End.FRONT else _Frame(work.back, -1.0)


def _end_frame(op: Operation, work: Work) -> _Frame:
    return _Frame(work.front, 1.0) if op.end is End.FRONT else _Frame(work.back, -1.0)


def _touched(bench: _Bench, op: Operation, work: Work) -> tuple[float, float]:
    """Radius of the touched surface and the cross-slide travel that its row gives it."""
    row = op.rows[0]
    if row.kind is not RowKind.TOUCH or row.x is None:
        raise ReplayFault(op.id, "the first row must touch a known diameter")
    if row.touch == "bar":
        radius = max(r for _, r in work.outer)
    else:
        a, b = bench.part.span(row.touch)
        radius = radius_at(work.outer, (a + b) / 2.0)
    if row.diameter is not None and abs(2.0 * radius - row.diameter) > AGREES:
        raise ReplayFault(op.id, f"touches {2 * radius:.3f} mm, the row says {row.diameter:.3f} mm")
    return radius, travel(_dial(bench, op, op.x_dial), row.x)


def _radius(bench: _Bench, op: Operation, row: Row, zero: tuple[float, float], sign: float = -1.0) -> float:
    if row.x is None:
        raise ReplayFault(op.id, f"a {row.kind} row without a cross-slide reading")
    radius = zero[0] + sign * (travel(_dial(bench, op, op.x_dial), row.x) - zero[1])
    if row.diameter is not None and row.diameter > 0.0 and abs(2.0 * radius - row.diameter) > AGREES:
        raise ReplayFault(
            op.id, f"the reading makes ⌀ {2 * radius:.3f} mm, the row says {row.diameter:.3f} mm"
        )
    return radius


def _clear_of_jaws(setup: Setup, op: Operation, z: float) -> None:
    room = setup.grip_from - z if setup.out is End.FRONT else z - setup.grip_to
    if setup.holding.kind is not HoldingKind.MANDREL and room < CLEAR - AGREES:
        raise ReplayFault(op.id, f"the tool comes within {room:.2f} mm of the jaws")


def _face(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    cuts = [_z(bench, op, row) for row in op.rows if row.kind is not RowKind.TOUCH]
    if not cuts:
        raise ReplayFault(op.id, "faces nothing")
    end = _frame(setup, work).z(max(cuts))
    return work.kept(end, work.back) if setup.out is End.FRONT else work.kept(work.front, end)


def _turn(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    zero, frame = _touched(bench, op, work), _frame(setup, work)
    for row in op.rows[1:]:
        if row.x is None and row.z is None:
            continue
        radius, at = _radius(bench, op, row, zero), _z(bench, op, row)
        if radius <= 0.0:
            raise ReplayFault(op.id, "cuts beyond the middle")
        _clear_of_jaws(setup, op, frame.z(at))
        work = work.cut_outside(frame.line((-AIR, radius), (at, radius)))
    return work


def _groove(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    zero, frame = _touched(bench, op, work), _frame(setup, work)
    for row in op.rows[1:]:
        radius, at = _radius(bench, op, row, zero), _z(bench, op, row)
        _clear_of_jaws(setup, op, frame.z(at))
        if zero[0] - radius > op.cutter.reach + AGREES:
            raise ReplayFault(
                op.id, f"the blade reaches {op.cutter.reach:.2f} mm, {zero[0] - radius:.2f} mm is asked"
            )
        work = work.cut_outside(frame.line((at - op.cutter.width, radius), (at, radius)))
    return work


def _part_off(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    zero, frame = _touched(bench, op, work), _frame(setup, work)
    row = op.rows[-1]
    radius, at = _radius(bench, op, row, zero), _z(bench, op, row)
    _clear_of_jaws(setup, op, frame.z(at))
    end = frame.z(at - op.cutter.width)
    if radius > radius_at(work.inner, end) + AGREES:
        raise ReplayFault(op.id, "the blade does not reach through")
    standing = radius_at(work.outer, end)
    if standing - max(radius, 0.0) > op.cutter.reach + AGREES:
        raise ReplayFault(
            op.id, f"the blade reaches {op.cutter.reach:.2f} mm into a radius of {standing:.2f} mm"
        )
    return work.kept(work.front, end)


def _corner(bench: _Bench, op: Operation, work: Work) -> tuple[float, float]:
    """Place and radius of an outer corner as it stands."""
    a, b = bench.part.span(op.feature)
    nominal = a if op.end is End.FRONT else b
    near_front, near_back = abs(nominal) < 1e-9, abs(nominal - bench.part.length) < 1e-9
    if op.end is End.FRONT and near_front:
        z = work.front
    elif op.end is End.BACK and near_back:
        z = work.back
    else:
        step = step_near(work.outer, nominal, min(1.0, (b - a) / 2.0))
        if step is None:
            raise ReplayFault(op.id, "there is no corner to break")
        z = step[0]
    middle = radius_at(work.outer, (a + b) / 2.0)
    return z, middle


def _chamfer(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    z, radius = _corner(bench, op, work)
    leg = travel(_dial(bench, op, op.z_dial), op.rows[-1].z) if op.rows[-1].z is not None else 0.0
    if op.rows[-1].depth is not None and abs(op.rows[-1].depth - leg) > AGREES:
        raise ReplayFault(op.id, f"the reading makes {leg:.3f} mm, the row says {op.rows[-1].depth:.3f} mm")
    if op.end is End.FRONT:
        return work.cut_outside(((z, radius - leg), (z + leg, radius)))
    return work.cut_outside(((z - leg, radius), (z, radius - leg)))


def _round(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    z, radius = _corner(bench, op, work)
    size = op.rows[-1].depth or 0.0
    arc = ball_cap(0.0, size, size, toward_back=False)  # a quarter circle: height r over radius r
    if op.end is End.FRONT:
        return work.cut_outside(tuple((z + t, radius - size + r) for t, r in arc))
    return work.cut_outside(tuple(sorted((z - t, radius - size + r) for t, r in arc)))


def _dome(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    frame, height = _frame(setup, work), op.rows[-1].depth or 0.0
    a, b = bench.part.span(op.feature)
    base = radius_at(work.outer, (a + b) / 2.0 if height < (b - a) / 2.0 else frame.z(height))
    work = _turn(bench, setup, op, work)
    cap = ball_cap(frame.zero, height, base, toward_back=setup.out is End.BACK)
    _proud(bench, op, work, cap, frame)
    return work.cut_outside(cap)


def _proud(bench: _Bench, op: Operation, work: Work, cap: Profile, frame: _Frame) -> None:
    """The staircase stands outside the curve everywhere, and nowhere by more than the file takes."""
    most = 2.0 * bench.shop.house.dome_step
    for z, r in cap:
        if not work.front <= z <= work.back:
            continue
        lowest = min(radius_at(work.outer, z), radius_at(work.outer, z, before=True))
        if lowest < r - AGREES:
            raise ReplayFault(op.id, f"a step cuts {r - lowest:.3f} mm into the dome")
    steps = sorted({round(abs(z - frame.zero), 6) for row in op.rows if row.at for z in (frame.z(row.at),)})
    deepest = abs(cap[0][0] - cap[-1][0])
    gaps = [b - a for a, b in zip([0.0, *steps], [*steps, deepest], strict=True)]
    if gaps and max(gaps) > most + AGREES:
        raise ReplayFault(op.id, f"steps {max(gaps):.2f} mm apart leave too much to file")


def _spot(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    depth = _z(bench, op, op.rows[-1])
    if op.place is Place.MILL:
        along = next((row for row in op.rows if row.x is not None), None)
        hole = next(h for h in bench.part.cross_holes if h.id == op.feature)
        if along is None or along.x is None:
            bench.spots[op.feature] = hole.at.aim  # laid out with a scriber where the table has no dial
        else:
            place = travel(_dial(bench, op, op.x_dial), along.x)
            if along.at is not None and abs(place - along.at) > AGREES:
                raise ReplayFault(op.id, f"the reading makes {place:.3f} mm, the row says {along.at:.3f} mm")
            bench.spots[op.feature] = work.front + place
        return work
    frame = _end_frame(op, work)
    return work.cut_inside(frame.line((-AIR, op.cutter.diameter / 2.0), (depth, op.cutter.diameter / 2.0)))


def _drill(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    tip = max(_z(bench, op, row) for row in op.rows)
    radius = op.cutter.diameter / 2.0
    point = radius / tan(radians(op.cutter.point / 2.0)) if op.cutter.point < 180.0 else 0.0
    if tip - point > op.cutter.reach + AGREES:
        raise ReplayFault(
            op.id, f"the flutes are {op.cutter.reach:.1f} mm long, {tip - point:.1f} mm deep is asked"
        )
    frame = _end_frame(op, work)
    return work.cut_inside(frame.line((-AIR, radius), (tip - point, radius), (tip, 0.0)))


def _ream(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    depth, radius = max(_z(bench, op, row) for row in op.rows), op.cutter.diameter / 2.0
    return work.cut_inside(_end_frame(op, work).line((-AIR, radius), (depth, radius)))


def _bore(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    frame, first = _end_frame(op, work), op.rows[0]
    if first.x is None or first.diameter is None:
        raise ReplayFault(op.id, "the first row must touch the drilled wall")
    zero = (first.diameter / 2.0, travel(_dial(bench, op, op.x_dial), first.x))
    deepest = max(_z(bench, op, row) for row in op.rows[1:])
    wall = radius_at(work.inner, frame.z(min(0.3, deepest / 3.0)))
    if wall < zero[0] - 0.05:
        raise ReplayFault(op.id, f"touches ⌀ {2 * wall:.3f} mm, the row says {first.diameter:.3f} mm")
    for row in op.rows[1:]:
        radius, at = _radius(bench, op, row, zero, sign=1.0), _z(bench, op, row)
        if at > op.cutter.reach + AGREES:
            raise ReplayFault(op.id, f"the bar reaches {op.cutter.reach:.1f} mm, {at:.1f} mm is asked")
        work = work.cut_inside(frame.line((-AIR, radius), (at, radius)))
    return work


def _mouth(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    frame, row = _end_frame(op, work), op.rows[-1]
    deep = _z(bench, op, row)
    hole = radius_at(work.inner, frame.z(deep + 0.05))
    flank = tan(radians(op.cutter.point / 2.0))
    wide = hole + deep * flank
    if row.diameter is not None and abs(2.0 * wide - row.diameter) > 0.05:
        raise ReplayFault(
            op.id, f"the reading opens the mouth to {2 * wide:.2f} mm, the row says {row.diameter:.2f} mm"
        )
    return work.cut_inside(frame.line((0.0, wide), (deep, hole)))


def _tap(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    hole = next(h for h in bench.part.holes if h.id == op.feature)
    assert hole.thread is not None
    pitch, turns = hole.thread.thread.pitch, op.rows[-1].turns or 0.0
    deep = turns * pitch
    if op.rows[-1].at is not None and abs(op.rows[-1].at - deep) > AGREES:
        raise ReplayFault(op.id, f"{turns:g} turns are {deep:.2f} mm, the row says {op.rows[-1].at:.2f} mm")
    frame = _end_frame(op, work)
    room = _open_depth(work, frame)
    if deep > room + AGREES:
        raise ReplayFault(op.id, f"the tap bottoms: {deep:.2f} mm is asked of {room:.2f} mm of hole")
    a, b = sorted((frame.z(0.0), frame.z(max(deep - op.cutter.lead, 0.0))))
    zone = ThreadZone(feature=hole.id, thread=hole.thread.text, internal=True, start=a, end=b)
    others = tuple(t for t in work.threads if t.feature != hole.id)
    return _with_threads(work, (*others, zone))


def _with_threads(work: Work, threads: tuple[ThreadZone, ...]) -> Work:
    return Work(
        outer=work.outer, inner=work.inner, threads=threads, cross_bores=work.cross_bores, knurls=work.knurls
    )


def _open_depth(work: Work, frame: _Frame) -> float:
    """Depth at full diameter of the hole under a face: as far as the radius does not fall below the bore's."""
    bore = radius_at(work.inner, frame.z(min(2.0, (work.back - work.front) / 3.0)))
    points = work.inner if frame.sign > 0 else tuple(reversed(work.inner))
    reach = 0.0
    for z, r in points:
        if r >= bore - 1e-6:
            reach = max(reach, abs(z - frame.zero))
        elif reach > 0.0 and abs(z - frame.zero) > 0.5:
            break
    return reach


def _die(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    segment = bench.part.segment(op.feature)
    assert segment.thread is not None
    pitch, turns = segment.thread.thread.pitch, op.rows[-1].turns or 0.0
    deep = turns * pitch
    if op.rows[-1].at is not None and abs(op.rows[-1].at - deep) > AGREES:
        raise ReplayFault(op.id, f"{turns:g} turns are {deep:.2f} mm, the row says {op.rows[-1].at:.2f} mm")
    a, b = bench.part.span(segment.id)
    if deep > (b - a) + pitch + AGREES:
        raise ReplayFault(op.id, f"the die runs into the shoulder: {deep:.2f} mm is asked of {b - a:.2f} mm")
    frame = _frame(setup, work)
    begin = a if setup.out is End.FRONT else bench.part.length - b
    ends = sorted((frame.z(begin), frame.z(begin + deep)))
    zone = ThreadZone(
        feature=segment.id, thread=segment.thread.text, internal=False, start=ends[0], end=ends[1]
    )
    return _with_threads(work, (*work.threads, zone))


def _knurl(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    places = [_z(bench, op, row) for row in op.rows if row.z is not None and row.kind is not RowKind.TOUCH]
    frame = _frame(setup, work)
    a, b = sorted((frame.z(min(places)), frame.z(max(places))))
    _clear_of_jaws(setup, op, b if setup.out is End.FRONT else a)
    return Work(
        outer=work.outer,
        inner=work.inner,
        threads=work.threads,
        cross_bores=work.cross_bores,
        knurls=(*work.knurls, (op.feature, a, b)),
    )


def _cross_drill(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    hole = next(h for h in bench.part.cross_holes if h.id == op.feature)
    tip = max(_z(bench, op, row) for row in op.rows)
    z = bench.spots.get(op.feature)
    if z is None:
        raise ReplayFault(op.id, "nothing is spotted there")
    across, radius = 2.0 * radius_at(work.outer, z), op.cutter.diameter / 2.0
    point = radius / tan(radians(op.cutter.point / 2.0))
    if hole.through and tip - point < across - AGREES:
        raise ReplayFault(
            op.id, f"the drill stops at {tip:.2f} mm, the far side is out at {across + point:.2f} mm"
        )
    if tip > across + point + 6.0:
        raise ReplayFault(op.id, f"the drill goes {tip - across:.2f} mm beyond the work")
    threads = tuple(
        ThreadZone(
            feature=t.feature,
            thread=t.thread,
            internal=t.internal,
            start=t.start,
            end=t.end,
            clean=t.clean and not t.start - radius < z < t.end + radius,
        )
        for t in work.threads
    )
    bore = CrossBore(feature=op.feature, z=z, diameter=op.cutter.diameter, through=hole.through)
    return Work(
        outer=work.outer,
        inner=work.inner,
        threads=threads,
        cross_bores=(*work.cross_bores, bore),
        knurls=work.knurls,
    )


def _chase(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    threads = tuple(
        ThreadZone(
            feature=t.feature,
            thread=t.thread,
            internal=t.internal,
            start=t.start,
            end=t.end,
            clean=t.clean or t.feature == op.feature,
        )
        for t in work.threads
    )
    return _with_threads(work, threads)


def _deburr(bench: _Bench, setup: Setup, op: Operation, work: Work) -> Work:
    return work


_CUTS = {
    Motion.FACE: _face,
    Motion.TURN: _turn,
    Motion.GROOVE: _groove,
    Motion.PART_OFF: _part_off,
    Motion.CHAMFER: _chamfer,
    Motion.ROUND: _round,
    Motion.DOME: _dome,
    Motion.SPOT: _spot,
    Motion.DRILL: _drill,
    Motion.BORE: _bore,
    Motion.REAM: _ream,
    Motion.COUNTERBORE: _bore,
    Motion.MOUTH: _mouth,
    Motion.TAP: _tap,
    Motion.DIE: _die,
    Motion.KNURL: _knurl,
    Motion.CROSS_DRILL: _cross_drill,
    Motion.CHASE: _chase,
    Motion.DEBURR: _deburr,
}
