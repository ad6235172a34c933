"""Grooving and parting off: plunges whose place counts the width of the blade."""

from math import ceil

from jobsheets.part.size import Size
from jobsheets.part.turned import Segment
from jobsheets.planner import figures, numbers, rigidity, toolbox
from jobsheets.planner.checks.measuring import too_coarse
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import inside, near, set_to, up
from jobsheets.planner.stop import Stopped
from jobsheets.planner.targets import Unreachable
from jobsheets.planner.turning import FACED, touch


def groove(job: JobView, setup: Setup, segment: Segment, ready: tuple[Need, ...]) -> Operation:
    """Plunge a recess: a groove, an undercut, or a neck that a turning tool cannot reach."""
    front, back = job.targets.span(job.part, segment.id)
    width = back - front
    cutter = toolbox.grooving_tool(
        job, setup, width, (job.part.rod.nominal - job.targets.diameter(segment.id)) / 2.0
    )
    setting, out = job.targets.diameters[segment.id], front
    count = (
        max(1, ceil((width - cutter.width) / (0.8 * cutter.width) - 1e-9) + 1) if cutter.width < width else 1
    )
    rows = [touch(job, setup)]
    leads = _places(job, segment, out, width, cutter.width, count)
    for k, at in enumerate(leads):
        rows.append(
            Row(
                kind=RowKind.PLUNGE,
                x=set_to(job.cross, setting.travel),
                z=set_to(job.lengthwise, at),
                diameter=job.targets.diameter(segment.id),
                at=at,
                depth=setting.travel,
                box=k == count - 1,
            )
        )
    speed = numbers.spindle(job, setup, "groove", job.part.rod.nominal, cutter.material)
    feed = numbers.feed(job, "groove", cutter, job.cross, speed)
    forces = rigidity.force_figures(job, "groove", cutter, rows, feed, speed)
    return Operation(
        id=f"{segment.id}.groove",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.GROOVE,
        feature=segment.id,
        title=f"Cut the {segment.id}",
        cutter=cutter,
        rows=tuple(rows),
        x_dial=job.cross.axis,
        z_dial=job.lengthwise.axis,
        figures=(speed, feed, figures.target(job, segment, segment.diameter, setting), *forces),
        holds=(
            job.hold(
                f"{segment.id}.diameter",
                f"⌀ {segment.id}",
                segment.diameter,
                "outside",
                aim=job.targets.diameter(segment.id),
                over="plunge again to the reading",
                under="stop; the section here is weaker than planned",
            ),
        ),
        needs=(FACED, *ready),
        makes=(f"{segment.id} finished", f"{segment.id} roughed"),
        rank=55,
        why="room for the die to run out and for the mate to seat",
        hints=(
            "Lock the carriage at each place",
            "Touch the tool's chuck-side corner: its width is in the reading",
            "Clear the chip often; oil on steel and stainless",
        ),
        hazards=("grooving",),
        cutting_minutes=0.5 * count,
        handling_minutes=2.0,
    )


def _places(
    job: JobView, segment: Segment, out: float, width: float, blade: float, count: int
) -> tuple[float, ...]:
    """Readings of the blade's chuck-side corner, nearest the free end first, each on a line of the dial, mm.

    The last makes the far wall, which is on a line. The first makes the near wall with its other corner: few
    lines keep both lengths beside that wall within their limits.

    Raises:
        Stopped: no line does.
    """
    segments, dial = job.part.segments, job.lengthwise
    index = job.part.index(segment.id)
    if count == 1:
        return (out + width,)
    before = segments[index - 1].length if index else segment.length
    begin = job.targets.span(job.part, segments[index - 1].id)[0] if index else out
    low = max(begin + before.low, out + width - segment.length.high)
    high = min(begin + before.high, out + width - segment.length.low)
    if index and job.part.plunged(segments[index - 1]):
        high = min(high, out)  # no thin disc is left between two plunges
    aim = min(max(out, low), high)
    first = inside(low + blade, high + blade, aim + blade, dial.step) if low <= high else None
    if first is None:
        size = Size(nominal=out, low=min(low, high), high=max(low, high), limits=segment.length.limits)
        missed = Unreachable(feature=segment.id, what="length", size=size, dial=dial)
        raise Stopped((too_coarse(missed),))
    step = (out + width - first.travel) / (count - 1)
    between = (near(dial, first.travel + step * k) for k in range(1, count - 1))
    return (first.travel, *between, out + width)


def part_off(job: JobView, setup: Setup, ready: tuple[Need, ...]) -> Operation:
    """Part the finished front away from the bar."""
    last = job.part.segments[-1]
    standing = job.targets.diameter(last.id) if last.id in job.first else job.targets.rod
    cutter = toolbox.parting_tool(job, setup, standing / 2.0)
    lead = near(job.targets.part_dial, job.targets.parted + cutter.width)
    centre = up(job.cross, job.targets.rod / 2.0)
    rows = (
        touch(
            job,
            setup,
            last.id if last.id in job.first and not last.as_stock else "",
            dial=job.targets.part_dial,
        ),
        Row(
            kind=RowKind.PLUNGE,
            x=set_to(job.cross, centre),
            z=set_to(job.targets.part_dial, lead),
            diameter=0.0,
            at=lead,
            depth=centre,
        ),
    )
    speed = numbers.spindle(job, setup, "part-off", standing, cutter.material)
    feed = numbers.feed(job, "part-off", cutter, job.cross, speed)
    forces = rigidity.force_figures(job, "part-off", cutter, rows, feed, speed)
    return Operation(
        id="bar.part_off",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.PART_OFF,
        feature="bar",
        title="Part off",
        cutter=cutter,
        rows=rows,
        x_dial=job.cross.axis,
        z_dial=job.targets.part_dial.axis,
        figures=(speed, feed, figures.parted(job, cutter.width), *forces),
        needs=(FACED, *ready),
        makes=("parted off",),
        spoils=(Need(fact="held by the bar", because="once it is off the bar it never runs as true again"),),
        rank=90,
        why=f"everything that must run true with the {last.id} is done while the bar still holds it",
        hints=(
            "Square the blade to the bar, edge on centre height",
            "Lock the carriage",
            "Touch the blade's chuck-side corner to the face: its width is in the reading",
            "Feed steadily, with oil; let the piece drop into a tray, never into the hand",
        ),
        hazards=("parting",),
        cutting_minutes=(standing / 2.0) / max(feed.value * speed.value, 1e-6),
        handling_minutes=3.0,
    )
