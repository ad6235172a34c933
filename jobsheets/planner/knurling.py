"""Knurls."""

from jobsheets.part.turned import End, Knurl
from jobsheets.planner import figures, numbers, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import HoldPoint, Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import near, set_to
from jobsheets.planner.turning import touch


def knurl(job: JobView, setup: Setup, feature: Knurl, ready: tuple[Need, ...]) -> Operation:
    """Roll a pattern on a segment while the bar is still stiff in front of it."""
    segment = job.part.segment(feature.segment)
    front, back = job.targets.span(job.part, segment.id)
    cutter = toolbox.knurling_tool(job, feature)
    if setup.out is End.BACK:
        front, back = job.targets.length - back, job.targets.length - front
    start, stop = near(job.lengthwise, front), near(job.lengthwise, back)
    diameter = job.targets.diameter(segment.id)
    speed = numbers.spindle(job, setup, "knurl", diameter, cutter.material)
    return Operation(
        id=f"{feature.id}.knurl",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.KNURL,
        feature=feature.id,
        title=f"Knurl the {segment.id}, {feature.form}",
        cutter=cutter,
        x_dial=job.cross.axis,
        z_dial=job.lengthwise.axis,
        rows=(
            touch(job, setup, segment.id if job.targets.diameters[segment.id].travel else "bar"),
            Row(kind=RowKind.STEP, z=set_to(job.lengthwise, start), at=start),
            Row(kind=RowKind.FINISH, z=set_to(job.lengthwise, stop), at=stop, box=True),
        ),
        figures=(
            speed,
            numbers.feed(job, "knurl", cutter, job.lengthwise, speed),
            figures.knurl_teeth(feature, diameter),
        ),
        holds=(
            HoldPoint(
                id=f"{feature.id}.pattern",
                what="one clean track, points not yet sharp",
                low=0.0,
                high=0.0,
                aim=0.0,
                gauge="by eye, with a glass",
                unit="fit",
                if_over="double track: turn it off at once and take the next diameter of the figure",
                if_under="weak print: in again by a tenth of the pitch, with oil",
            ),
        ),
        needs=ready,
        makes=(f"{feature.id} knurled",),
        rank=40,
        why="rolled while the bar is thick and stiff: the force bends or pushes away a slim neck",
        hints=(
            "Press in lightly, turn the chuck by hand one turn and look at the track",
            "Then full pressure, slow speed, oil, and feed along without stopping",
        ),
        hazards=("knurling",),
        cutting_minutes=2.0,
        handling_minutes=4.0,
    )
