"""Outer edges: chamfers, filed radii, and domes by co-ordinate steps."""

from math import ceil, sqrt

from jobsheets.finding import mm
from jobsheets.part.turned import Edge, EdgeKind, End, Segment
from jobsheets.planner import figures, numbers, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import down, set_to, up, with_a_line
from jobsheets.planner.targets import edge_dials
from jobsheets.planner.turning import FACED, touch


def edge(
    job: JobView, setup: Setup, segment: Segment, which: End, form: Edge, ready: tuple[Need, ...]
) -> Operation:
    """Chamfer, round or dome one outer corner."""
    builders = {EdgeKind.CHAMFER: _chamfer, EdgeKind.RADIUS: _round, EdgeKind.DOME: _dome}
    return builders[form.kind](job, setup, segment, which, form, ready)


def _corner(job: JobView, setup: Setup, segment: Segment, which: End) -> float:
    """Distance of a corner from the face that stands out, mm."""
    front, back = job.targets.span(job.part, segment.id)
    z = front if which is End.FRONT else back
    return z if setup.out is End.FRONT else job.targets.length - z


def _chamfer(
    job: JobView, setup: Setup, segment: Segment, which: End, form: Edge, ready: tuple[Need, ...]
) -> Operation:
    cutter = toolbox.chamfer_tool(job, setup)
    dial = with_a_line(edge_dials(job.lathe, job.lengthwise), form.size) or job.lengthwise
    travel = figures.on_line(dial, form.size)
    rows = (
        Row(
            kind=RowKind.TOUCH,
            touch=segment.id,
            z=set_to(dial, 0.0),
            at=_corner(job, setup, segment, which),
        ),
        Row(kind=RowKind.FINISH, z=set_to(dial, travel), depth=travel, box=True),
    )
    at_end = f"{'front' if which is End.FRONT else 'back'} edge of the {segment.id}"
    at_face = segment is (job.part.segments[0] if which is End.FRONT else job.part.segments[-1])
    inner = not at_face  # the corner stands behind a smaller diameter
    return Operation(
        id=f"{segment.id}.{which}_edge",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.CHAMFER,
        feature=segment.id,
        title=f"Chamfer the {at_end}",
        cutter=cutter,
        rows=rows,
        end=which,
        z_dial=dial.axis,
        figures=(
            numbers.spindle(job, setup, "turn finish", job.targets.diameter(segment.id), cutter.material),
        ),
        needs=(FACED, *ready),
        makes=(f"{segment.id} {which} edge",),
        rank=60,
        why=figures.edge_reason(segment, which),
        hints=(
            f"Touch the corner with the middle of the 45° edge, then advance the {dial.axis} by the reading",
            *(("Use the edge near its tip, and keep the tip off the smaller diameter",) if inner else ()),
        ),
        hazards=("turning",),
        cutting_minutes=0.2,
        handling_minutes=1.5,
    )


def _round(
    job: JobView, setup: Setup, segment: Segment, which: End, form: Edge, ready: tuple[Need, ...]
) -> Operation:
    cutter = toolbox.file_tool()
    at_end = f"{'front' if which is End.FRONT else 'back'} edge of the {segment.id}"
    return Operation(
        id=f"{segment.id}.{which}_edge",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.ROUND,
        feature=segment.id,
        title=f"Round the {at_end}",
        cutter=cutter,
        end=which,
        rows=(Row(kind=RowKind.FINISH, depth=form.size.aim, box=True),),
        figures=(numbers.spindle(job, setup, "file", job.targets.diameter(segment.id), "HSS"),),
        needs=(FACED, *ready),
        makes=(f"{segment.id} {which} edge",),
        rank=62,
        why="a rounded edge is kind to the hand and hides a scratch",
        hints=("Work the file round the corner until the radius gauge shows no light",),
        hazards=("filing",),
        cutting_minutes=1.5,
        handling_minutes=1.0,
    )


def _dome(
    job: JobView, setup: Setup, segment: Segment, which: End, form: Edge, ready: tuple[Need, ...]
) -> Operation:
    cutter = toolbox.turning_tool(job, setup)
    rows = [touch(job, setup, segment.id)]
    across = job.targets.diameter(segment.id)
    deepest = numbers.depth(job, setup, across, "turn rough", tool=cutter.material)
    previous = job.targets.diameters[segment.id].travel
    for at, dia in dome_steps(job, segment, form):
        goal = down(job.cross, (job.targets.rod - dia) / 2.0)
        passes = max(1, ceil((goal - previous) / deepest.value - 1e-9))
        begin = previous
        for k in range(1, passes + 1):
            travel = down(job.cross, begin + (goal - begin) * k / passes)
            rows.append(
                Row(
                    kind=RowKind.STEP,
                    x=set_to(job.cross, travel),
                    z=set_to(job.lengthwise, at),
                    diameter=job.targets.rod - 2.0 * travel,
                    at=at,
                    depth=travel - previous,
                )
            )
            previous = travel
    rows.append(Row(kind=RowKind.FINISH, depth=form.size.aim, box=True))
    speed = numbers.spindle(job, setup, "turn finish", job.targets.diameter(segment.id), cutter.material)
    ball = figures.dome(job, segment, form).value
    return Operation(
        id=f"{segment.id}.{which}_edge",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.DOME,
        feature=segment.id,
        title=f"Dome the {'front' if which is End.FRONT else 'back'} of the {segment.id}",
        cutter=cutter,
        rows=tuple(rows),
        end=which,
        x_dial=job.cross.axis,
        z_dial=job.lengthwise.axis,
        figures=(
            speed,
            numbers.feed(job, "turn finish", cutter, job.lengthwise, speed),
            figures.dome(job, segment, form),
            deepest,
        ),
        holds=(
            job.hold(
                f"{segment.id}.dome",
                f"height of the dome on the {segment.id}: length over all less the straight rim",
                form.size,
                "outside",
                over="file on; try the template after every few strokes",
                under="stop; the crown is too flat, face the end and note the shorter head",
            ),
        ),
        needs=(FACED, *ready),
        makes=(f"{segment.id} {which} edge",),
        rank=64,
        why="steps by co-ordinates leave a staircase just outside the curve; the file takes the corners off",
        hints=(
            "Cut the steps from the largest diameter to the smallest",
            "Blacken the steps, then file until the last of the black is gone",
            f"Try the radius template, {mm(ball)}; finish with cloth only on a part that does not turn",
        ),
        hazards=("filing",),
        cutting_minutes=0.3 * len(rows) + 4.0,
        handling_minutes=0.3 * len(rows),
    )


def dome_steps(job: JobView, segment: Segment, form: Edge) -> tuple[tuple[float, float], ...]:
    """Steps of a ball cap, largest diameter first: (depth from the pole, diameter to cut), mm.

    The edge goes in to the depth and no further than the curve's diameter at that depth, so that every step
    stays outside the curve.
    """
    radius, height = job.targets.diameter(segment.id) / 2.0, form.size.aim
    ball = (radius * radius + height * height) / (2.0 * height)
    step = up(job.lengthwise, job.house.dome_step)
    count = ceil(height / step - 1e-9) - 1
    steps = []
    for k in range(count, 0, -1):
        at = k * step
        steps.append((at, 2.0 * sqrt(max(0.0, 2.0 * ball * at - at * at))))
    return tuple(steps)
