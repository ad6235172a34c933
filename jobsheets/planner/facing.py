"""Facing: the sawn end that becomes the zero of all lengths, and the parted end that sets the length."""

from math import ceil

from jobsheets.finding import mm
from jobsheets.part.size import Size
from jobsheets.part.turned import End
from jobsheets.planner import figures, numbers, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import HoldingKind, Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import down, set_to, up

READ_OUT = {  # by whether a mandrel holds the part: its front end is hidden in either case
    True: "For the length over all stop, run the part off, measure, run it back on",
    False: "For the length over all stop, take the part out, measure, put it back",
}


def face_front(job: JobView, setup: Setup) -> Operation:
    """Clean the sawn end and make it the zero of all lengths."""
    dial, total = job.lengthwise, up(job.lengthwise, job.house.facing)
    cutter = toolbox.turning_tool(job, setup)
    depth = numbers.depth(job, setup, job.part.rod.nominal, "face", tool=cutter.material)
    speed = numbers.spindle(job, setup, "face", job.part.rod.nominal, cutter.material)
    rows = (
        Row(kind=RowKind.TOUCH, z=set_to(dial, 0.0), at=0.0),
        *_advance(job, total, depth.value, dial.step),
    )
    return Operation(
        id="front.face",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.FACE,
        feature="front",
        title="Face the end",
        cutter=cutter,
        rows=rows,
        z_dial=dial.axis,
        figures=(
            speed,
            numbers.feed(job, "face", cutter, job.cross, speed),
            depth,
        ),
        makes=("front faced", "held by the bar"),
        rank=0,
        why="a true face to start the drill and to count lengths from",
        hints=(
            "Lock the carriage and face from outside to centre",
            "Set the collar to zero on the finished face",
        ),
        hazards=("facing",),
        cutting_minutes=len(rows) * 0.3,
        handling_minutes=3.0,
    )


def _advance(job: JobView, total: float, most: float, step: float) -> tuple[Row, ...]:
    """Equal advances along the axis on lines, none deeper than `most`; at least two, the last for finish."""
    grains = round(total / step)
    passes = max(2, ceil(total / max(most, step) - 1e-9))
    ends = [round(grains * k / passes) for k in range(1, passes + 1)]
    rows = []
    last = 0
    for k, end in enumerate(ends):
        if end == last:
            continue
        kind = RowKind.FINISH if k == len(ends) - 1 else RowKind.ROUGH
        rows.append(
            Row(kind=kind, z=set_to(job.lengthwise, end * step), at=end * step, depth=(end - last) * step)
        )
        last = end
    return tuple(rows)


def face_back(job: JobView, setup: Setup, ready: tuple[Need, ...]) -> Operation:
    """Face the parted end to length."""
    dial = job.lengthwise
    cutter = toolbox.turning_tool(job, setup)
    depth = numbers.depth(job, setup, setup.holding.diameter, "face", tool=cutter.material)
    total = job.targets.faced.travel
    last = job.part.segments[-1]
    speed = numbers.spindle(job, setup, "face", job.targets.diameter(last.id), cutter.material)
    front = job.targets.span(job.part, last.id)[0]
    overall = Size(
        nominal=job.targets.length,
        low=front + last.length.low,
        high=front + last.length.high,
        limits=last.length.limits,
    )
    if job.part.overall is not None:
        overall = job.part.overall
    return Operation(
        id="back.face",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.FACE,
        feature="back",
        title="Face the back to length",
        cutter=cutter,
        z_dial=dial.axis,
        rows=(Row(kind=RowKind.TOUCH, z=set_to(dial, 0.0), at=0.0), *_facing(job, total, depth.value)),
        figures=(
            speed,
            numbers.feed(job, "face", cutter, job.cross, speed),
            figures.overall(job, overall),
        ),
        holds=(
            job.hold(
                "part.length",
                "length over all",
                overall,
                "outside",
                aim=job.targets.length,
                over="put it back and face again by what is over",
                under="stop; the part is short",
            ),
        ),
        needs=ready,
        makes=("back faced",),
        rank=0,
        end=End.BACK,
        why="the parted face is rough and a little dished; facing makes it square to the thread "
        "and sets the length",
        hints=(
            f"The rows are for {mm(job.targets.parted)} before facing: take off as much more or less as "
            "yours was measured longer or shorter",
            READ_OUT[setup.holding.kind is HoldingKind.MANDREL],
            "Set the collar to zero on the finished face",
        ),
        hazards=("facing",),
        cutting_minutes=1.0,
        handling_minutes=3.0,
    )


def _facing(job: JobView, total: float, most: float) -> tuple[Row, ...]:
    rows = _advance(job, down(job.lengthwise, total), most, job.lengthwise.step)
    if not rows:
        return (Row(kind=RowKind.FINISH, z=set_to(job.lengthwise, total), at=total, depth=total, box=True),)
    last = rows[-1]
    end = Row(
        kind=RowKind.FINISH,
        z=set_to(job.lengthwise, total),
        at=total,
        depth=total - (last.at or 0.0) + (last.depth or 0.0),
        box=True,
    )
    return (*rows[:-1], end)
