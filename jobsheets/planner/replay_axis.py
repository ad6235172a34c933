"""Replayed cuts on the axis and across it: spots, drills, bores, mouths, taps, cross holes."""

from math import inf, radians, tan

from msgspec.structs import replace

from jobsheets.part.profile import extreme, radius_at
from jobsheets.part.turned import Hole
from jobsheets.part.work import CrossBore, ThreadZone, Work, touch_depth
from jobsheets.planner.operation import Operation, Place, Setup
from jobsheets.planner.replay_frame import (
    AGREES,
    AIR,
    Bench,
    Frame,
    ReplayFault,
    dial_of,
    end_frame_of,
    floor_of,
    lengthwise,
    radius_of,
)
from jobsheets.shop.dials import travel


def spot(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A spot on the axis, or the place of a cross hole."""
    depth = lengthwise(bench, op, op.rows[-1])
    if op.place is Place.MILL:
        along = next((row for row in op.rows if row.x is not None), None)
        hole = next(h for h in bench.part.cross_holes if h.id == op.feature)
        if along is None or along.x is None:
            bench.spots[op.feature] = hole.at.aim  # laid out with a scriber where the table has no dial
        else:
            place = travel(dial_of(bench, op, op.x_dial), along.x)
            if along.at is not None and abs(place - along.at) > AGREES:
                raise ReplayFault(op.id, f"the reading makes {place:.3f} mm, the row says {along.at:.3f} mm")
            bench.spots[op.feature] = work.front + place
        return work
    frame = end_frame_of(op, work)
    return work.cut_inside(frame.line((-AIR, op.cutter.diameter / 2.0), (depth, op.cutter.diameter / 2.0)))


def drill(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A drilled hole, counted from where its point really touches."""
    frame, radius = end_frame_of(op, work), op.cutter.diameter / 2.0
    # The quill counts from where the point really touched, not from where the plan thinks the face is.
    open_to = tuple((abs(z - frame.zero), r) for z, r in work.inner)
    begin = touch_depth(open_to, radius, op.cutter.point)
    deepest = max(lengthwise(bench, op, row) for row in op.rows)
    tip = begin + deepest - lengthwise(bench, op, op.rows[0])
    point = (
        radius / tan(radians(op.cutter.point / 2.0)) if op.cutter.point < 180.0 else 0.0
    )  # a flat end has none
    if tip - point > op.cutter.reach + AGREES:
        raise ReplayFault(
            op.id, f"the flutes are {op.cutter.reach:.1f} mm long, {tip - point:.1f} mm deep is asked"
        )
    return work.cut_inside(frame.line((-AIR, radius), (tip - point, radius), (tip, 0.0)))


def ream(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    depth, radius = max(lengthwise(bench, op, row) for row in op.rows), op.cutter.diameter / 2.0
    return work.cut_inside(end_frame_of(op, work).line((-AIR, radius), (depth, radius)))


def bore(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A bore opened outward from its drilled wall."""
    frame, first = end_frame_of(op, work), op.rows[0]
    if first.x is None or first.diameter is None:
        raise ReplayFault(op.id, "the first row must touch the drilled wall")
    zero = (first.diameter / 2.0, travel(dial_of(bench, op, op.x_dial), first.x))
    deepest = max(lengthwise(bench, op, row) for row in op.rows[1:])
    wall = radius_at(work.inner, frame.z(min(0.3, deepest / 3.0)))
    if wall < zero[0] - 0.05:
        raise ReplayFault(op.id, f"touches ⌀ {2 * wall:.3f} mm, the row says {first.diameter:.3f} mm")
    for row in op.rows[1:]:
        radius, at = radius_of(bench, op, row, zero, sign=1.0), lengthwise(bench, op, row)
        if at > op.cutter.reach + AGREES:
            raise ReplayFault(op.id, f"the bar reaches {op.cutter.reach:.1f} mm, {at:.1f} mm is asked")
        work = work.cut_inside(frame.line((-AIR, radius), (at, radius)))
    return work


def mouth(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    frame, row = end_frame_of(op, work), op.rows[-1]
    begin = floor_of(bench.part, work, _mouthed(bench, op), frame)
    deep = lengthwise(bench, op, row)
    a, b = sorted((frame.z(begin + 1e-6), frame.z(begin + deep + 0.05)))
    hole = extreme(work.inner, a, b, largest=False)
    flank = tan(radians(op.cutter.point / 2.0))
    wide = hole + deep * flank
    if row.diameter is not None and abs(2.0 * wide - row.diameter) > 0.05:
        raise ReplayFault(
            op.id, f"the reading opens the mouth to {2 * wide:.2f} mm, the row says {row.diameter:.2f} mm"
        )
    return work.cut_inside(frame.line((begin, wide), (begin + deep, hole)))


def _mouthed(bench: Bench, op: Operation) -> Hole:
    """The hole whose mouth is cut, as seen from the end that the cutter enters."""
    hole = next(h for h in bench.part.holes if h.id == op.feature)
    return replace(hole, end=op.end)


def tap(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A thread cut by counted turns; the tap must not bottom."""
    hole = next(h for h in bench.part.holes if h.id == op.feature)
    assert hole.thread is not None
    pitch, turns = hole.thread.thread.pitch, op.rows[-1].turns or 0.0
    deep = turns * pitch
    if op.rows[-1].at is not None and abs(op.rows[-1].at - deep) > AGREES:
        raise ReplayFault(op.id, f"{turns:g} turns are {deep:.2f} mm, the row says {op.rows[-1].at:.2f} mm")
    frame = end_frame_of(op, work)
    begin = floor_of(bench.part, work, hole, frame)
    room = open_depth(work, frame, begin, hole.diameter.low / 2.0)
    if deep > room + AGREES:
        raise ReplayFault(op.id, f"the tap bottoms: {deep:.2f} mm is asked of {room:.2f} mm of hole")
    a, b = sorted((frame.z(begin), frame.z(begin + max(deep - op.cutter.lead, 0.0))))
    zone = ThreadZone(feature=hole.id, thread=hole.thread.text, internal=True, start=a, end=b)
    others = tuple(t for t in work.threads if t.feature != hole.id)
    return replace(work, threads=(*others, zone))


def _with_threads(work: Work, threads: tuple[ThreadZone, ...]) -> Work:
    return Work(
        outer=work.outer, inner=work.inner, threads=threads, cross_bores=work.cross_bores, knurls=work.knurls
    )


def open_depth(work: Work, frame: Frame, begin: float, bore: float) -> float:
    """Depth of a hole from `begin`, as far as its radius is no less than `bore`; endless when through."""
    points = work.inner if frame.sign > 0 else tuple(reversed(work.inner))
    reach = 0.0
    for z, r in points:
        at = frame.sign * (z - frame.zero) - begin
        if r >= bore - 1e-6:
            reach = max(reach, at)
        elif at > 0.5:
            break
    open_end = begin + reach > work.back - work.front - 1e-6
    return inf if open_end else reach


def cross_drill(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A hole across the axis, at the place that was spotted."""
    hole = next(h for h in bench.part.cross_holes if h.id == op.feature)
    tip = max(lengthwise(bench, op, row) for row in op.rows)
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


def chase(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
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
    return replace(work, threads=threads)


def deburr(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    return work
