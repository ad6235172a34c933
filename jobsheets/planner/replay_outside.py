"""Replayed cuts on the outside: facing, turning, grooving, parting, edges, dies and knurls."""

from msgspec.structs import replace

from jobsheets.part.profile import Profile, ball_cap, radius_at, step_near
from jobsheets.part.turned import End, TurnedPart
from jobsheets.part.work import ThreadZone, Work
from jobsheets.planner.operation import Operation, RowKind, Setup
from jobsheets.planner.replay_frame import (
    AGREES,
    AIR,
    Bench,
    Frame,
    ReplayFault,
    clear_of_jaws,
    dial_of,
    frame_of,
    lengthwise,
    radius_of,
    touched,
)
from jobsheets.shop.dials import travel

STANDS_PROUD = 0.1  # mm over the thread on the radius: more is a shoulder to the die


def face(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    cuts = [lengthwise(bench, op, row) for row in op.rows if row.kind is not RowKind.TOUCH]
    if not cuts:
        raise ReplayFault(op.id, "faces nothing")
    end = frame_of(setup, work).z(max(cuts))
    return work.kept(end, work.back) if setup.out is End.FRONT else work.kept(work.front, end)


def turn(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    zero, frame = touched(bench, op, work), frame_of(setup, work)
    for row in op.rows[1:]:
        if row.x is None and row.z is None:
            continue
        radius, at = radius_of(bench, op, row, zero), lengthwise(bench, op, row)
        if radius <= 0.0:
            raise ReplayFault(op.id, "cuts beyond the middle")
        clear_of_jaws(setup, op, frame.z(at))
        work = work.cut_outside(frame.line((-AIR, radius), (at, radius)))
    return work


def groove(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    zero, frame = touched(bench, op, work), frame_of(setup, work)
    for row in op.rows[1:]:
        radius, at = radius_of(bench, op, row, zero), lengthwise(bench, op, row)
        clear_of_jaws(setup, op, frame.z(at))
        if zero[0] - radius > op.cutter.reach + AGREES:
            raise ReplayFault(
                op.id, f"the blade reaches {op.cutter.reach:.2f} mm, {zero[0] - radius:.2f} mm is asked"
            )
        work = work.cut_outside(frame.line((at - op.cutter.width, radius), (at, radius)))
    return work


def part_off(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """The piece cut from the bar: through, and within reach of the blade."""
    zero, frame = touched(bench, op, work), frame_of(setup, work)
    row = op.rows[-1]
    radius, at = radius_of(bench, op, row, zero), lengthwise(bench, op, row)
    clear_of_jaws(setup, op, frame.z(at))
    end = frame.z(at - op.cutter.width)
    if radius > radius_at(work.inner, end) + AGREES:
        raise ReplayFault(op.id, "the blade does not reach through")
    standing = radius_at(work.outer, end)
    if standing - max(radius, 0.0) > op.cutter.reach + AGREES:
        raise ReplayFault(
            op.id, f"the blade reaches {op.cutter.reach:.2f} mm into a radius of {standing:.2f} mm"
        )
    return work.kept(work.front, end)


NEAR = 0.06  # mm; a touched corner is found at least this well


def _beside_a_plunge(part: TurnedPart, op: Operation) -> bool:
    """Whether the corner was left by a blade, whose other corner was set on a line of the dial."""
    index = part.index(op.feature)
    beside = index - 1 if op.end is End.FRONT else index + 1
    if not 0 < beside < len(part.segments) - 1:
        return False
    return part.plunged(part.segments[beside])


def _corner(bench: Bench, op: Operation, work: Work) -> tuple[float, float]:
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


def chamfer(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A corner broken at 45 degrees by the reading."""
    z, radius = _corner(bench, op, work)
    frame, told = frame_of(setup, work), op.rows[0].at
    near = bench.shop.lathe.carriage.step + NEAR if _beside_a_plunge(bench.part, op) else NEAR
    if told is None or abs(frame.z(told) - z) > near:
        raise ReplayFault(
            op.id, f"the corner stands at {frame.sign * (z - frame.zero):.3f} mm, not where the row says"
        )
    leg = travel(dial_of(bench, op, op.z_dial), op.rows[-1].z) if op.rows[-1].z is not None else 0.0
    if op.rows[-1].depth is not None and abs(op.rows[-1].depth - leg) > AGREES:
        raise ReplayFault(op.id, f"the reading makes {leg:.3f} mm, the row says {op.rows[-1].depth:.3f} mm")
    if op.end is End.FRONT:
        return work.cut_outside(((z, radius - leg), (z + leg, radius)))
    return work.cut_outside(((z - leg, radius), (z, radius - leg)))


def round_edge(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    z, radius = _corner(bench, op, work)
    size = op.rows[-1].depth or 0.0
    arc = ball_cap(0.0, size, size, toward_back=False)  # a quarter circle: height r over radius r
    if op.end is End.FRONT:
        return work.cut_outside(tuple((z + t, radius - size + r) for t, r in arc))
    return work.cut_outside(tuple(sorted((z - t, radius - size + r) for t, r in arc)))


def dome(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    frame, height = frame_of(setup, work), op.rows[-1].depth or 0.0
    a, b = bench.part.span(op.feature)
    base = radius_at(work.outer, (a + b) / 2.0 if height < (b - a) / 2.0 else frame.z(height))
    work = turn(bench, setup, op, work)
    cap = ball_cap(frame.zero, height, base, toward_back=setup.out is End.BACK)
    _proud(bench, op, work, cap, frame)
    return work.cut_outside(cap)


def _proud(bench: Bench, op: Operation, work: Work, cap: Profile, frame: Frame) -> None:
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


def die(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """An external thread by counted turns; the die must not run into the shoulder."""
    segment = bench.part.segment(op.feature)
    assert segment.thread is not None
    pitch, turns = segment.thread.thread.pitch, op.rows[-1].turns or 0.0
    deep = turns * pitch
    if op.rows[-1].at is not None and abs(op.rows[-1].at - deep) > AGREES:
        raise ReplayFault(op.id, f"{turns:g} turns are {deep:.2f} mm, the row says {op.rows[-1].at:.2f} mm")
    a, b = bench.part.span(segment.id)
    frame = frame_of(setup, work)
    begin = a if setup.out is End.FRONT else bench.part.length - b
    over = segment.thread.thread.major / 2.0 + STANDS_PROUD
    beyond = [abs(z - frame.zero) for z, r in work.outer if r > over]
    shoulder = min((at for at in beyond if at > begin + (b - a) / 2.0), default=begin + deep)
    if begin + deep > shoulder + AGREES:
        raise ReplayFault(
            op.id, f"the die runs into the shoulder: {deep:.2f} mm is asked of {shoulder - begin:.2f} mm"
        )
    full = min(max(deep - op.cutter.lead, 0.0), b - a)  # the lead of the die leaves no full thread
    ends = sorted((frame.z(begin), frame.z(begin + full)))
    zone = ThreadZone(
        feature=segment.id, thread=segment.thread.text, internal=False, start=ends[0], end=ends[1]
    )
    return replace(work, threads=(*work.threads, zone))


def knurl(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    """A stretch rolled between two readings."""
    places = [
        lengthwise(bench, op, row) for row in op.rows if row.z is not None and row.kind is not RowKind.TOUCH
    ]
    frame = frame_of(setup, work)
    a, b = sorted((frame.z(min(places)), frame.z(max(places))))
    clear_of_jaws(setup, op, b if setup.out is End.FRONT else a)
    return Work(
        outer=work.outer,
        inner=work.inner,
        threads=work.threads,
        cross_bores=work.cross_bores,
        knurls=(*work.knurls, (op.feature, a, b)),
    )
