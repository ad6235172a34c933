"""Replayed single-point threads: depths add up, the pitch diameter comes out, nothing is struck."""

from math import cos, radians, tan

from msgspec.structs import replace

from jobsheets.part.profile import radius_at
from jobsheets.part.turned import End, Hole, ThreadSpec
from jobsheets.part.work import ThreadZone, Work
from jobsheets.planner.operation import Operation, Row, RowKind, Setup
from jobsheets.planner.replay_axis import open_depth
from jobsheets.planner.replay_frame import (
    AGREES,
    Bench,
    Frame,
    ReplayFault,
    clear_of_jaws,
    dial_of,
    end_frame_of,
    floor_of,
    frame_of,
    touched,
)
from jobsheets.shop.dials import travel
from jobsheets.standards import threads
from jobsheets.standards.thread_depth import pitch_dia_made
from jobsheets.standards.thread_form import root_diameter

SCRATCH = 0.06  # mm; a trace is no deeper, so that it leaves no mark below the thread (common practice)


def scratch(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A trace on the blank: it goes as far as the thread does, and no deeper than a scratch."""
    zero = _touch(bench, op, work)
    row = op.rows[-1]
    depth, _ = _at(bench, op, row, zero)
    if row.kind is not RowKind.INFEED or not 0.0 < depth <= SCRATCH:
        raise ReplayFault(op.id, f"the scratch pass is {depth:.3f} mm deep: want 0 to {SCRATCH:g} mm")
    _agrees(op, row, depth)
    _clear(bench, setup, op, work, row.at or 0.0, 0.0)
    return work


def screwcut(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    spec, hole = _thread(bench, op)
    zero = _touch(bench, op, work)
    deep, shift, ends = 0.0, 0.0, set()
    for row in op.rows[1:]:
        depth, aside = _at(bench, op, row, zero)
        if row.kind not in (RowKind.INFEED, RowKind.SPRING):
            raise ReplayFault(op.id, f"a {row.kind} row among the passes of a thread")
        if (row.kind is RowKind.SPRING) != (abs(depth - deep) < AGREES):
            raise ReplayFault(op.id, "a pass that feeds nothing in, or a spring pass that does")
        _agrees(op, row, depth - deep)
        deep, shift = depth, aside
        ends.add(row.at)
    if len(ends) != 1 or None in ends:
        raise ReplayFault(op.id, "the passes end in different places")
    at = op.rows[-1].at or 0.0
    _pitch_diameter(op, spec, 2.0 * zero[0], deep, inside=hole is not None)
    _clear(bench, setup, op, work, at, shift)
    return replace(work, threads=(*work.threads, _zone(bench, setup, op, work, spec, at + shift)))


def _thread(bench: Bench, op: Operation) -> tuple[ThreadSpec, Hole | None]:
    hole = next((h for h in bench.part.holes if h.id == op.feature), None)
    spec = hole.thread if hole is not None else bench.part.segment(op.feature).thread
    if spec is None:
        raise ReplayFault(op.id, "there is no thread to cut")
    return spec, hole


def _touch(bench: Bench, op: Operation, work: Work) -> tuple[float, float]:
    """Radius that the point touches, and the reading of the cross slide there."""
    hole = next((h for h in bench.part.holes if h.id == op.feature), None)
    if hole is None:
        return touched(bench, op, work)
    row = op.rows[0]
    if row.kind is not RowKind.TOUCH or row.x is None:
        raise ReplayFault(op.id, "the first row must touch the drilled wall")
    frame = end_frame_of(op, work)
    begin = floor_of(bench.part, work, hole, frame)
    wall = radius_at(work.inner, frame.z(begin + min(2.0, ((op.rows[-1].at or 0.0) - begin) / 2.0)))
    if row.diameter is None or abs(2.0 * wall - row.diameter) > AGREES:
        raise ReplayFault(op.id, f"touches ⌀ {2 * wall:.3f} mm, the row says another diameter")
    return wall, travel(dial_of(bench, op, op.x_dial), row.x)


def _at(bench: Bench, op: Operation, row: Row, zero: tuple[float, float]) -> tuple[float, float]:
    """Depth square to the axis of a pass, and how far its point has moved along the work, mm."""
    along = travel(dial_of(bench, op, op.z_dial), row.z) if row.z is not None else 0.0
    if row.x is not None:
        depth = travel(dial_of(bench, op, op.x_dial), row.x) - zero[1]
        _led(bench, op, row, depth, along)
        return depth, along
    swivel = op.figure("swivel")
    if swivel is None:
        raise ReplayFault(op.id, "a pass on the top slide alone, and no angle that it is set to")
    angle = radians(swivel.value)
    return along * cos(angle), along * cos(angle) * tan(angle)


def _led(bench: Bench, op: Operation, row: Row, depth: float, along: float) -> None:
    """Where both slides lead the point, it keeps to its path as near as the lines of the top slide allow."""
    path = op.figure("path")
    if row.z is None and path is None:
        return
    wish = depth * tan(radians(path.value)) if path is not None else 0.0
    step = dial_of(bench, op, op.z_dial).step
    if row.z is None or not wish - step - AGREES < along <= wish + AGREES:
        raise ReplayFault(op.id, f"{along:.3f} mm sideways for {depth:.3f} mm in: {wish:.3f} mm is its path")
    if path is not None and path.value > op.cutter.point / 2.0:
        raise ReplayFault(op.id, f"a path of {path.value:g} degrees goes past the flank")


def _agrees(op: Operation, row: Row, cut: float) -> None:
    if row.depth is None or abs(row.depth - cut) > AGREES:
        raise ReplayFault(op.id, f"the reading feeds {cut:.3f} mm in, the row says {row.depth}")


def _pitch_diameter(op: Operation, spec: ThreadSpec, start: float, depth: float, *, inside: bool) -> None:
    made = pitch_dia_made(
        spec.thread, start, depth, flat=op.cutter.flat, radius=op.cutter.nose, inside=inside
    )
    limits = threads.limits(spec.thread, spec.tolerance_class)
    if op.cutter.point != spec.thread.angle:
        raise ReplayFault(op.id, f"a point of {op.cutter.point:g} degrees in a {spec.thread.angle:g} thread")
    if not limits.pitch_min - AGREES <= made <= limits.pitch_max + AGREES:
        raise ReplayFault(
            op.id,
            f"pitch diameter {made:.4f} mm; {limits.pitch_min:.4f} to {limits.pitch_max:.4f} mm is asked",
        )


def _ends(bench: Bench, setup: Setup, op: Operation) -> tuple[float, float]:
    """Nominal ends of a thread of the outline, from the face that stands out."""
    a, b = bench.part.span(op.feature)
    return (a, b) if setup.out is End.FRONT else (bench.part.length - b, bench.part.length - a)


def beyond(bench: Bench, setup: Setup, op: Operation, work: Work) -> float:
    """Where the side of the tool would strike: a shoulder, or the end of a clear hole; from the face, mm."""
    spec, hole = _thread(bench, op)
    if hole is not None:
        frame = end_frame_of(op, work)
        begin = floor_of(bench.part, work, hole, frame)
        return begin + open_depth(work, frame, begin, hole.diameter.low / 2.0)
    ends = _ends(bench, setup, op)
    return _wall(work, frame_of(setup, work), ends, root_diameter(spec.thread) / 2.0)


def _clear(bench: Bench, setup: Setup, op: Operation, work: Work, at: float, shift: float) -> None:
    """The side of the tool strikes nothing, and stays away from the jaws."""
    far = at + shift + op.cutter.side
    wall = beyond(bench, setup, op, work)
    if far > wall + AGREES:
        raise ReplayFault(op.id, f"the tool comes to {far:.2f} mm, and strikes at {wall:.2f} mm")
    if all(h.id != op.feature for h in bench.part.holes):
        clear_of_jaws(setup, op, frame_of(setup, work).z(far))


def _wall(work: Work, frame: Frame, ends: tuple[float, float], root: float) -> float:
    """Where metal wider than the root stands next beyond the thread, from the face that stands out, mm."""
    points = work.outer if frame.sign > 0 else tuple(reversed(work.outer))
    line = [(frame.sign * (z - frame.zero), r) for z, r in points]
    middle = sum(ends) / 2.0
    blank = radius_at(work.outer, frame.z(middle))
    fallen = False
    for at, radius in line:
        if at <= middle:
            continue
        fallen = fallen or radius <= root
        if radius > (root if fallen else blank) + 1e-6:
            return at
    return line[-1][0]


def _zone(bench: Bench, setup: Setup, op: Operation, work: Work, spec: ThreadSpec, end: float) -> ThreadZone:
    hole = next((h for h in bench.part.holes if h.id == op.feature), None)
    if hole is not None:
        frame = end_frame_of(op, work)
        ends = (floor_of(bench.part, work, hole, frame), min(end, work.back - work.front))
    else:
        frame, (begin, last) = frame_of(setup, work), _ends(bench, setup, op)
        ends = (begin, min(end, last))
    a, b = sorted((frame.z(ends[0]), frame.z(ends[1])))
    return ThreadZone(feature=op.feature, thread=spec.text, internal=hole is not None, start=a, end=b)
