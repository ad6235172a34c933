"""Operations with a single-point tool on the outside: facing, turning, grooving, edges, parting.

Every row is what the hand sets. The cross slide counts from the bar's own surface, the lengthwise dial from the
face that stands out of the chuck.
"""

from math import ceil, sqrt

from jobsheets.cutting.times import turning_time
from jobsheets.part.profile import SAME
from jobsheets.part.size import Size
from jobsheets.part.turned import Edge, EdgeKind, End, Segment, SegmentKind
from jobsheets.planner import figures, numbers, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import down, near, set_to, up

FACED = Need(fact="front faced", because="every length counts from the faced end")


def face_front(job: JobView, setup: Setup) -> Operation:
    """Clean the sawn end and make it the zero of all lengths."""
    dial, total = job.lengthwise, up(job.lengthwise, job.house.facing)
    cutter = toolbox.turning_tool(job, setup)
    depth = numbers.depth(job, setup, job.part.rod.nominal, "face")
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
            numbers.spindle(job, setup, "face", job.part.rod.nominal, cutter.material),
            numbers.feed(job, "face", cutter),
            depth,
        ),
        makes=("front faced", "held by the bar"),
        rank=0,
        why="a true face to start the drill and to count lengths from",
        hints=(
            "Lock the carriage and face from outside to centre",
            "Set the collar to zero on the finished face",
        ),
        hazards=("turning",),
        cutting_minutes=len(rows) * 0.3,
        handling_minutes=3.0,
    )


def _advance(job: JobView, total: float, most: float, step: float) -> tuple[Row, ...]:
    """Equal advances along the axis, none deeper than `most`, all on lines of the dial."""
    grains = round(total / step)
    passes = max(1, ceil(total / max(most, step) - 1e-9))
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


def rough(
    job: JobView, setup: Setup, segment: Segment, start: float, ready: tuple[Need, ...]
) -> Operation | None:
    """Bring a segment to its two finishing cuts.

    Args:
        job: part and shop.
        setup: where.
        segment: what.
        start: diameter that stands there now, mm.
        ready: facts that must be true first.

    Returns:
        The operation, or None when the finishing cuts alone do it.
    """
    cross, step = job.cross, job.cross.step
    final = job.targets.diameters[segment.id].travel
    finish = finish_depth(job, final - (job.targets.rod - start) / 2.0)
    begin, end = (job.targets.rod - start) / 2.0, down(cross, final) - 2.0 * finish
    if end - begin < step - SAME:
        return None
    reach = near(job.lengthwise, _toward(job, setup, segment))
    depth = numbers.depth(job, setup, start, "turn rough", at=_lever(setup, job, segment))
    passes = max(1, ceil((end - begin) / depth.value - 1e-9))
    stop = reach - shoulder_stock(job, segment)
    rows = [touch(job, setup)]
    for k in range(1, passes + 1):
        at = near(cross, begin + (end - begin) * k / passes)
        before = near(cross, begin + (end - begin) * (k - 1) / passes)
        rows.append(
            Row(
                kind=RowKind.ROUGH,
                x=set_to(cross, at),
                z=set_to(job.lengthwise, stop),
                diameter=job.targets.rod - 2.0 * at,
                at=stop,
                depth=at - before,
            )
        )
    cutter = toolbox.turning_tool(job, setup)
    speed = numbers.spindle(job, setup, "turn rough", start, cutter.material)
    feed = numbers.feed(job, "turn rough", cutter)
    return Operation(
        id=f"{segment.id}.rough",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.TURN,
        feature=segment.id,
        title=f"Rough turn the {segment.id}",
        cutter=cutter,
        rows=tuple(rows),
        x_dial=cross.axis,
        z_dial=job.lengthwise.axis,
        figures=(speed, feed, depth),
        needs=(FACED, *ready),
        makes=(f"{segment.id} roughed",),
        rank=30,
        why="most of the metal goes before any size counts",
        hints=(
            "Measure after the first cut; if the diameter is not the one in the row, set the collar to agree",
        ),
        hazards=("turning",),
        cutting_minutes=passes * turning_time(stop + 2.0, feed.value, speed.value),
        handling_minutes=1.0 + 0.4 * passes,
    )


def finish_depth(job: JobView, stock: float) -> float:
    """Depth of each of the last two cuts on the radius: equal, so that the second does what the first did, mm."""
    step = job.cross.step
    wish = min(job.house.finish_depth, max(stock, step) / 2.0)
    return max(near(job.cross, wish), step) if stock >= 2.0 * step - SAME else 0.0


def shoulder_stock(job: JobView, segment: Segment) -> float:
    """Metal left on a shoulder by roughing, so that the finishing cut cleans it, mm."""
    return up(job.lengthwise, min(0.1, segment.length.nominal / 10.0))


def _toward(job: JobView, setup: Setup, segment: Segment) -> float:
    """How far a cut on a segment reaches, counted from the face that stands out, mm."""
    front, back = job.targets.span(job.part, segment.id)
    return back if setup.out is End.FRONT else job.targets.length - front


def _lever(setup: Setup, job: JobView, segment: Segment) -> float:
    """How far out of the jaws the middle of a cut lies, mm."""
    front, back = job.targets.span(job.part, segment.id)
    middle = (front + back) / 2.0
    out = middle if setup.out is End.FRONT else job.targets.length - middle
    return max(setup.holding.stick_out - out, 0.0)


def touch(job: JobView, setup: Setup, surface: str = "", *, lengthwise: bool = True) -> Row:
    """Bring the edge to surfaces whose place is known, and set the collars."""
    name = surface or job.standing(setup.out)
    at = job.targets.rod if name in ("bar", "") else job.targets.diameter(name)
    travel = (job.targets.rod - at) / 2.0
    return Row(
        kind=RowKind.TOUCH,
        x=set_to(job.cross, travel),
        touch=name,
        diameter=at,
        z=set_to(job.lengthwise, 0.0) if lengthwise else None,
        at=0.0 if lengthwise else None,
    )


def finish(
    job: JobView,
    setup: Setup,
    segment: Segment,
    start: float,
    ready: tuple[Need, ...],
    size: Size | None = None,
) -> Operation:
    """The last two cuts: equal, with a reading between them."""
    cross = job.cross
    aim = size if size is not None else segment.diameter
    setting = job.targets.diameters[segment.id]
    begin = (job.targets.rod - start) / 2.0
    depth = finish_depth(job, setting.travel - begin)
    stop = near(job.lengthwise, _toward(job, setup, segment))
    z = set_to(job.lengthwise, stop)
    cutter = toolbox.turning_tool(job, setup)
    rows = [touch(job, setup)]
    interim = job.targets.rod - 2.0 * (down(cross, setting.travel) - depth)
    if depth > 0.0:
        rows.append(
            Row(
                kind=RowKind.MEASURE,
                x=set_to(cross, down(cross, setting.travel) - depth),
                z=z,
                diameter=interim,
                at=stop,
                depth=depth,
                box=True,
            )
        )
    rows.append(
        Row(
            kind=RowKind.FINISH,
            x=set_to(cross, setting.travel),
            z=z,
            diameter=job.targets.diameter(segment.id),
            at=stop,
            depth=depth or setting.travel - begin,
            box=True,
        )
    )
    speed = numbers.spindle(job, setup, "turn finish", start, cutter.material)
    feed = numbers.feed(job, "turn finish", cutter)
    blank = " to the blank for its thread" if segment.kind is SegmentKind.THREAD else ""
    rework = (
        "the collar does not agree with the work: set it to the row whose diameter you read, then cut again"
    )
    return Operation(
        id=f"{segment.id}.finish",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.TURN,
        feature=segment.id,
        title=f"Finish turn the {segment.id}{blank}",
        cutter=cutter,
        rows=tuple(rows),
        x_dial=cross.axis,
        z_dial=job.lengthwise.axis,
        figures=(speed, feed, figures.target(job, segment, aim, setting), figures.finish_cut(job, depth)),
        holds=(
            job.hold(
                f"{segment.id}.diameter",
                f"⌀ {segment.id}",
                aim,
                "outside",
                aim=job.targets.diameter(segment.id),
                over=rework,
                under="below the low limit: stop; keep it for a smaller mate or start a new blank",
            ),
            job.hold(
                f"{segment.id}.length",
                f"length to the back of the {segment.id}",
                _reach(job, setup, segment),
                "depth",
                aim=stop,
                over="stop; note it, and move the next shoulder by as much",
                under="cut the shoulder again by what is missing",
            ),
        ),
        needs=(FACED, *ready),
        makes=(f"{segment.id} finished",),
        rank=50,
        why="the last two cuts are equal, so what the first one gives the second gives again",
        hints=(
            "Take the measuring cut over the full length, then stop the spindle and read it",
            "Keep the feed moving until the shoulder, then wind straight out to square it",
        ),
        hazards=("turning",),
        cutting_minutes=2.0 * turning_time(stop + 2.0, feed.value, speed.value),
        handling_minutes=4.0,
    )


def _reach(job: JobView, setup: Setup, segment: Segment) -> Size:
    """Limits on the distance from the zero face to the shoulder, from the segment's own length limits."""
    front, back = job.targets.span(job.part, segment.id)
    reach = back if setup.out is End.FRONT else job.targets.length - front
    slack_low = (back - front) - segment.length.low
    slack_high = segment.length.high - (back - front)
    return Size(nominal=reach, low=reach - slack_low, high=reach + slack_high, limits=segment.length.limits)


def groove(job: JobView, setup: Setup, segment: Segment, ready: tuple[Need, ...]) -> Operation:
    """Plunge a recess: a groove, an undercut, or a neck that a turning tool cannot reach."""
    front, back = job.targets.span(job.part, segment.id)
    width = back - front
    cutter = toolbox.grooving_tool(
        job, setup, width, (job.part.rod.nominal - job.targets.diameter(segment.id)) / 2.0
    )
    setting = job.targets.diameters[segment.id]
    out = front if setup.out is End.FRONT else job.targets.length - back
    count = (
        max(1, ceil((width - cutter.width) / (0.8 * cutter.width) - 1e-9) + 1) if cutter.width < width else 1
    )
    rows = [touch(job, setup)]
    for k in range(count):
        lead = out + cutter.width + (width - cutter.width) * (k / (count - 1) if count > 1 else 0.0)
        at = near(job.lengthwise, lead)
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
    feed = numbers.feed(job, "groove", cutter)
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
        figures=(speed, feed, figures.target(job, segment, segment.diameter, setting)),
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
        hazards=("parting",),
        cutting_minutes=0.5 * count,
        handling_minutes=2.0,
    )


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
    travel = figures.on_line(job.lengthwise, form.size)
    rows = (
        Row(
            kind=RowKind.TOUCH,
            touch=segment.id,
            z=set_to(job.lengthwise, 0.0),
            at=_corner(job, setup, segment, which),
        ),
        Row(kind=RowKind.FINISH, z=set_to(job.lengthwise, travel), depth=travel, box=True),
    )
    at_end = f"{'front' if which is End.FRONT else 'back'} edge of the {segment.id}"
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
        z_dial=job.lengthwise.axis,
        figures=(
            numbers.spindle(job, setup, "turn finish", job.targets.diameter(segment.id), cutter.material),
        ),
        needs=(FACED, *ready),
        makes=(f"{segment.id} {which} edge",),
        rank=60,
        why=figures.edge_reason(segment, which),
        hints=(
            "Touch the corner with the middle of the 45° edge, then advance along the axis by the reading",
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
        hazards=("turning", "filing"),
        cutting_minutes=1.5,
        handling_minutes=1.0,
    )


def _dome(
    job: JobView, setup: Setup, segment: Segment, which: End, form: Edge, ready: tuple[Need, ...]
) -> Operation:
    cutter = toolbox.turning_tool(job, setup)
    rows = [touch(job, setup, segment.id)]
    previous = job.targets.diameters[segment.id].travel
    for at, dia in dome_steps(job, segment, form):
        travel = down(job.cross, (job.targets.rod - dia) / 2.0)
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
        figures=(speed, numbers.feed(job, "turn finish", cutter), figures.dome(job, segment, form)),
        holds=(
            job.hold(
                f"{segment.id}.dome",
                f"height of the dome on the {segment.id}",
                form.size,
                "depth",
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
            "Try the radius template; finish with cloth only on a part that does not turn",
        ),
        hazards=("turning", "filing"),
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


def part_off(job: JobView, setup: Setup, ready: tuple[Need, ...]) -> Operation:
    """Part the finished front away from the bar."""
    last = job.part.segments[-1]
    standing = max(job.targets.diameter(s.id) for s in job.part.segments[-1:])
    cutter = toolbox.parting_tool(job, setup, standing / 2.0)
    lead = near(job.lengthwise, job.targets.parted + cutter.width)
    centre = up(job.cross, job.targets.rod / 2.0)
    rows = (
        touch(job, setup),
        Row(
            kind=RowKind.PLUNGE,
            x=set_to(job.cross, centre),
            z=set_to(job.lengthwise, lead),
            diameter=0.0,
            at=lead,
            depth=centre,
        ),
    )
    speed = numbers.spindle(job, setup, "part-off", standing, cutter.material)
    feed = numbers.feed(job, "part-off", cutter)
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
        z_dial=job.lengthwise.axis,
        figures=(speed, feed, figures.parted(job, cutter.width)),
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


def face_back(job: JobView, setup: Setup, ready: tuple[Need, ...]) -> Operation:
    """Face the parted end to length."""
    dial = job.lengthwise
    cutter = toolbox.turning_tool(job, setup)
    depth = numbers.depth(job, setup, setup.holding.diameter, "face")
    total = job.targets.faced.travel
    last = job.part.segments[-1]
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
            numbers.spindle(job, setup, "face", job.targets.diameter(last.id), cutter.material),
            numbers.feed(job, "face", cutter),
            figures.overall(job, overall),
        ),
        holds=(
            job.hold(
                "part.length",
                "length over all",
                overall,
                "outside",
                aim=job.targets.length,
                over="face again by what is over",
                under="stop; the part is short",
            ),
        ),
        needs=ready,
        makes=("back faced",),
        rank=0,
        end=End.BACK,
        why="the parted face is rough and a little dished; facing makes it square to the thread and sets the length",
        hints=(
            "Measure the length over all before the first cut and write it down: take off what is over",
            "Set the collar to zero on the finished face",
        ),
        hazards=("turning",),
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
