"""Turning a segment: roughing, then the last two cuts, which are equal.

Every row is what the hand sets. The cross slide counts from the bar's own surface, the lengthwise dial from
the face that stands out of the chuck.
"""

from math import ceil

from jobsheets.cutting.times import turning_time
from jobsheets.finding import mm
from jobsheets.part.profile import SAME
from jobsheets.part.size import Size
from jobsheets.part.turned import End, Segment, SegmentKind
from jobsheets.planner import figures, numbers, rigidity, springing, toolbox
from jobsheets.planner.blanks import blank_size
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import (
    Cutter,
    HoldPoint,
    Motion,
    Need,
    Operation,
    Place,
    Row,
    RowKind,
    Setup,
)
from jobsheets.planner.setting import down, near, set_to, up
from jobsheets.shop.machines import Dial, Reads

FINEST = 0.05  # mm on the radius; a shallower finishing cut rubs (low end of trade practice, from memory)
OVERRUN = 0.5  # mm; a cut with no shoulder at its end runs on so far
FACED = Need(fact="front faced", because="every length counts from the faced end")


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
    cutter = toolbox.turning_tool(job, setup)
    finish = finish_depth(job, setup, segment, final - (job.targets.rod - start) / 2.0, cutter)
    begin, end = (job.targets.rod - start) / 2.0, down(cross, final) - 2.0 * finish
    if finish <= 0.0 or end - begin < step - SAME:
        return None
    reach = _toward(job, setup, segment)
    depth = numbers.depth(job, setup, start, "turn rough", segment=segment.id, tool=cutter.material)
    passes = max(1, ceil((end - begin) / depth.value - 1e-9))
    stop = reach - shoulder_stock(job, segment)
    rows = [_touch_work(job, setup, segment, start)]
    for k in range(1, passes + 1):
        at = near(cross, begin + (end - begin) * k / passes)
        before = begin if k == 1 else near(cross, begin + (end - begin) * (k - 1) / passes)
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
    speed = numbers.spindle(job, setup, "turn rough", start, cutter.material)
    feed = numbers.feed(job, "turn rough", cutter, job.lengthwise, speed)
    forces = rigidity.force_figures(job, "turn rough", cutter, rows, feed, speed)
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
        figures=(speed, feed, depth, *forces),
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


def finish_depth(job: JobView, setup: Setup, segment: Segment, stock: float, cutter: Cutter) -> float:
    """Depth on the radius of each of the last two cuts, mm: equal, so the second does what the first did.

    No deeper than the work bends within its share of the limits, as far as a finer cut still cuts.
    """
    step = job.cross.step
    if stock < 2.0 * step - SAME:
        return 0.0
    feed = numbers.feed(job, "turn finish", cutter, job.lengthwise).value
    width = blank_or(segment).width
    stiff = rigidity.finish_limit(job, setup, segment, width, cutter.material, feed)
    wish = job.house.finish_depth if stiff is None else min(job.house.finish_depth, max(stiff, FINEST))
    return max(near(job.cross, min(wish, max(stock, step) / 2.0)), step)


def blank_or(segment: Segment) -> Size:
    """Size that is turned: the blank of a thread, else the segment's own."""
    return blank_size(segment) or segment.diameter


def shoulder_stock(job: JobView, segment: Segment) -> float:
    """Metal left on a shoulder by roughing, so that the finishing cut cleans it, mm."""
    return up(job.lengthwise, min(0.1, segment.length.nominal / 10.0))


def _toward(job: JobView, setup: Setup, segment: Segment) -> float:
    """How far a cut on a segment reaches, counted from the face that stands out, on a line of the dial, mm.

    It runs on over a groove at its far end: the shoulder behind the groove is squared by the same cut, and no
    thin disc is left between the two. Where no shoulder stands yet it runs on a little, so that no lip of the
    bar is left: over the place of the parting blade, or into what is turned smaller from the other end.
    """
    last = _last_under(job, setup, segment)
    front, back = job.targets.span(job.part, last.id)
    if setup.out is End.BACK:
        far = job.targets.length - front
        return far if _stops(job, setup, last) else up(job.lengthwise, far + OVERRUN)
    if last is job.part.segments[-1]:
        return up(job.lengthwise, job.targets.parted + job.targets.blade)
    return back if _stops(job, setup, last) else up(job.lengthwise, back + OVERRUN)


def _stops(job: JobView, setup: Setup, last: Segment) -> bool:
    """Whether a cut makes the shoulder at its far end; else the other end's cuts, or a blade, make it."""
    index = job.part.index(last.id)
    if setup.out is End.BACK:
        return index > 0 and not job.part.plunged(job.part.segments[index - 1])
    beyond = job.part.segments[index + 1 : index + 2]
    return any(s.id in job.first or s.as_stock for s in beyond)


def _last_under(job: JobView, setup: Setup, segment: Segment) -> Segment:
    """The segment at whose far end a cut on `segment` stops: itself, or the last plunged one behind it."""
    segments = job.part.segments
    index = job.part.index(segment.id)
    while setup.out is End.FRONT and index + 1 < len(segments) and job.part.plunged(segments[index + 1]):
        index += 1
    return segments[index]


def _touch_work(job: JobView, setup: Setup, segment: Segment, start: float) -> Row:
    """The bar while nothing is cut there; then the surface itself, so that what was measured still counts."""
    if setup.out is End.FRONT and abs(start - job.targets.rod) < SAME:
        return touch(job, setup)
    return touch(job, setup, segment.id, diameter=start)


def touch(
    job: JobView, setup: Setup, surface: str = "", *, diameter: float | None = None, dial: Dial | None = None
) -> Row:
    """Bring the edge to surfaces whose place is known, and set the collars.

    Args:
        job: part and shop.
        setup: where.
        surface: id of a segment, or "" for the bar or what stands for it.
        diameter: of that segment now, mm, where it has not its planned size yet.
        dial: lengthwise dial, where it is not the usual one.
    """
    name = surface or job.standing(setup.out)
    planned = job.targets.rod if name in ("bar", "") else job.targets.diameter(name)
    at = planned if diameter is None else diameter
    travel = (job.targets.rod - at) / 2.0
    return Row(
        kind=RowKind.TOUCH,
        x=set_to(job.cross, travel),
        touch=name,
        diameter=at,
        z=set_to(dial or job.lengthwise, 0.0),
        at=0.0,
    )


def finish(
    job: JobView,
    setup: Setup,
    segment: Segment,
    start: float,
    ready: tuple[Need, ...],
    size: Size | None = None,
) -> Operation:
    """The last two cuts: equal, with a reading between them, and spring passes where the work gives much."""
    cross = job.cross
    aim = size if size is not None else segment.diameter
    setting = job.targets.diameters[segment.id]
    begin = (job.targets.rod - start) / 2.0
    cutter = toolbox.turning_tool(job, setup)
    depth = finish_depth(job, setup, segment, setting.travel - begin, cutter)
    stop = _toward(job, setup, segment)
    z = set_to(job.lengthwise, stop)
    rows = [_touch_work(job, setup, segment, start)]
    last = begin
    if depth > 0.0:
        last = down(cross, setting.travel) - depth  # on a line, even where the last reading is between two
        rows.append(
            Row(
                kind=RowKind.MEASURE,
                x=set_to(cross, last),
                z=z,
                diameter=job.targets.rod - 2.0 * last,
                at=stop,
                depth=last - begin,
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
            depth=setting.travel - last,
            box=True,
        )
    )
    speed = numbers.spindle(job, setup, "turn finish", start, cutter.material)
    feed = numbers.feed(job, "turn finish", cutter, job.lengthwise, speed)
    cut = setting.travel - last
    bending = rigidity.bending_figure(job, setup, segment, aim.width, cutter.material, cut, feed.value)
    springs = int(job.house.spring_passes) if springing.too_much(bending) else 0
    planned = springing.sprung(rows, springs)
    more = len(planned) - len(rows)
    blank = " to the blank for its thread" if segment.kind is SegmentKind.THREAD else ""
    return Operation(
        id=f"{segment.id}.finish",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.TURN,
        feature=segment.id,
        title=f"Finish turn the {segment.id}{blank}",
        cutter=cutter,
        rows=planned,
        x_dial=cross.axis,
        z_dial=job.lengthwise.axis,
        figures=(
            speed,
            feed,
            figures.target(job, segment, aim, setting),
            figures.finish_cut(job, cut),
            *rigidity.force_figures(job, "turn finish", cutter, rows, feed, speed),
            *((bending,) if bending is not None else ()),
        ),
        holds=_holds(job, setup, segment, aim, stop),
        needs=(FACED, *ready),
        makes=(f"{segment.id} finished",),
        rank=50,
        why="the last two cuts are equal, so what the first one gives the second gives again",
        hints=(
            "Take the measuring cut over the full length, stop the spindle and read it",
            _collar(job),
            "Keep the feed moving until the shoulder, then wind straight out to square it",
            *((springing.HINT,) if more else ()),
        ),
        hazards=("turning",),
        cutting_minutes=(2.0 + more) * turning_time(stop + 2.0, feed.value, speed.value),
        handling_minutes=4.0 + 0.4 * more,
    )


def _collar(job: JobView) -> str:
    """What the collar must read for a measured diameter, so that the last cut comes out right."""
    left = f"{mm(job.targets.rod)} less what you read"
    reads = left if job.cross.reads is Reads.DIAMETER else f"half of ({left})"
    return (
        f"If it is not the size in the row, set the collar, not the slide, to {reads}: then take the last cut"
    )


def _holds(job: JobView, setup: Setup, segment: Segment, aim: Size, stop: float) -> tuple[HoldPoint, ...]:
    """Diameter, and the length to the shoulder; the last segment has none until its end is faced."""
    last = _last_under(job, setup, segment)
    found = [
        job.hold(
            f"{segment.id}.diameter",
            f"⌀ {segment.id}",
            aim,
            "outside",
            aim=job.targets.diameter(segment.id),
            over="set the collar by what you read, as above, then cut again",
            under="stop; keep it for a smaller mate or start a new blank",
        )
    ]
    if _stops(job, setup, last):
        found.append(
            job.hold(
                f"{segment.id}.length",
                f"length to the back of the {last.id}",
                _reach(job, setup, segment),
                "depth",
                aim=stop,
                over="stop; note it, and move the next shoulder by as much",
                under="cut the shoulder again by what is missing",
            )
        )
    return tuple(found)


def _reach(job: JobView, setup: Setup, segment: Segment) -> Size:
    """Limits on the distance from the zero face to the shoulder: the length limits of what ends there."""
    last = _last_under(job, setup, segment)
    front, back = job.targets.span(job.part, last.id)
    near_end = front if setup.out is End.FRONT else job.targets.length - back
    return Size(
        nominal=near_end + back - front,
        low=near_end + last.length.low,
        high=near_end + last.length.high,
        limits=last.length.limits,
    )
