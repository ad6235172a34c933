"""Operations on the axis, by tailstock or boring bar: spot, drill, bore, ream, counterbore, mouth chamfer."""

from math import ceil, radians, tan

from msgspec.structs import replace

from jobsheets.cutting import drill as drill_physics
from jobsheets.cutting.times import drilling_time
from jobsheets.figure import Figure
from jobsheets.finding import mm
from jobsheets.part.turned import Bottom, End, Hole, HoleKind
from jobsheets.planner import drill_force, figures, numbers, rigidity, toolbox
from jobsheets.planner.checks import shape
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import down, near, set_to, up
from jobsheets.planner.stop import Stopped
from jobsheets.shop.machines import Dial
from jobsheets.standards import tap_drills

BAR_CLEAR = 3.0  # mm; a boring bar stands out this much further than its hole is deep (common practice)
SPOTTED = "a free drill wanders: it follows the spot"


def faced(end: End) -> Need:
    return Need(fact=f"{end} faced", because="a centre drill runs off on a rough face")


def spot(job: JobView, setup: Setup, end: End, first_drill: float, hole: float) -> Operation:
    """Start the first drill of an end on the axis, no deeper than the shallowest `hole` there, mm."""
    cutter, quill = toolbox.centre_drill(job, first_drill), job.lathe.quill.dial
    depth = max(down(quill, min(up(quill, cutter.reach), hole)), quill.step)
    return Operation(
        id=f"{end}.spot",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.SPOT,
        feature=end.value,
        title=f"Spot the {end}",
        cutter=cutter,
        end=end,
        z_dial=job.lathe.quill.dial.axis,
        rows=(
            Row(kind=RowKind.TOUCH, z=set_to(job.lathe.quill.dial, 0.0), at=0.0),
            Row(kind=RowKind.DEPTH, z=set_to(job.lathe.quill.dial, depth), at=depth, depth=depth),
        ),
        figures=(numbers.spindle(job, setup, "centre drill", cutter.diameter, cutter.material),),
        needs=(faced(end),),
        makes=(f"{end} spotted",),
        rank=10,
        why="the drill starts where the spot is, and nowhere else",
        hints=("No wider than the next drill: the spot guides its point and leaves no trace",),
        hazards=("drilling",),
        cutting_minutes=0.3,
        handling_minutes=1.5,
    )


def pecks(job: JobView, dial: Dial, diameter: float, depth: float) -> tuple[Row, ...]:
    """Rows of a pecked hole on the quill's own lines; the last one is the depth."""
    hardens = job.material.iso_group in ("M", "S")  # stainless steel and titanium harden under a packed drill
    rule = drill_physics.WORK_HARDENING if hardens else drill_physics.USUAL
    rows = []
    for end in drill_physics.peck_schedule(diameter, depth, rule):
        at = depth if end >= depth else down(dial, end)
        rows.append(Row(kind=RowKind.PECK, z=set_to(dial, at), at=at))
    last = rows[-1]
    return (*rows[:-1], Row(kind=RowKind.DEPTH, z=last.z, at=last.at, box=True))


def drill(
    job: JobView,
    setup: Setup,
    hole: Hole,
    cutter: Cutter,
    full_depth: float,
    *,
    suffix: str,
    makes: str,
    ready: tuple[Need, ...],
    why: str,
    rank: int = 14,
) -> Operation:
    """Drill to a depth of full diameter; the quill reading is the tip's, point included.

    Args:
        job: part and shop.
        setup: where.
        hole: for which hole.
        cutter: the drill, or a flat cutter.
        full_depth: depth of full diameter from the face, mm.
        suffix: tells the drills of one hole apart.
        makes: the fact that stands afterwards.
        ready: facts needed first.
        why: for the sheet.
        rank: habit.
    """
    dial = job.lathe.quill.dial
    flat = cutter.point >= 180.0
    point = 0.0 if flat else drill_physics.point_length(cutter.diameter, cutter.point)
    tip = up(dial, full_depth + point)
    if tip > shape.DEEPEST * cutter.diameter:
        raise Stopped((shape.too_deep(hole, tip, cutter.diameter),))
    rows = (Row(kind=RowKind.TOUCH, z=set_to(dial, 0.0), at=0.0), *pecks(job, dial, cutter.diameter, tip))
    speed = numbers.spindle(job, setup, "drill", cutter.diameter, cutter.material, depth=full_depth)
    feed = numbers.feed(job, "drill", cutter, dial, speed, depth=full_depth)
    forces = () if flat else drill_force.figures(job.material, cutter, feed, speed, job.lathe)
    return Operation(
        id=f"{hole.id}.{suffix}",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.DRILL,
        feature=hole.id,
        title=f"Sink the {hole.id}" if flat else f"Drill for the {hole.id}",
        cutter=cutter,
        rows=rows,
        z_dial=dial.axis,
        end=hole.end,
        figures=(
            speed,
            feed,
            figures.drill_tip(cutter, full_depth, tip),
            *(_percent(job, hole, cutter) if suffix == "drill" else ()),
            *forces,
        ),
        needs=(
            faced(hole.end),
            *(() if flat else (Need(fact=f"{hole.end} spotted", because=SPOTTED),)),
            *ready,
        ),
        makes=(makes,),
        rank=rank,
        why=why,
        hints=("Withdraw at each row, clear the flutes, oil, go on",),
        hazards=("drilling",),
        cutting_minutes=drilling_time(tip, feed.value, speed.value) if speed.value > 0 else 1.0,
        handling_minutes=1.5 + 0.3 * len(rows),
    )


def _percent(job: JobView, hole: Hole, cutter: Cutter) -> tuple[Figure, ...]:
    """What the last drill before a tap leaves of the thread; nothing for other holes."""
    if hole.kind is not HoleKind.TAP:
        return ()
    published = job.material.family not in tap_drills.NON_METALS
    source = (
        tap_drills.target_percent(job.material).source
        if published
        else "no published figure found: the whole range of the class"
    )
    return (figures.percent(hole, cutter.diameter, *toolbox.percent_range(job, hole), source),)


def mouth(
    job: JobView, setup: Setup, hole: Hole, diameter: float, hole_diameter: float, ready: tuple[Need, ...]
) -> Operation:
    """Chamfer the mouth of a hole to a diameter, by the quill."""
    dial = job.lathe.quill.dial
    cutter = toolbox.countersink(job, diameter)
    deep = (diameter - hole_diameter) / 2.0 / tan(radians(cutter.point / 2.0))
    travel = up(dial, deep)
    return Operation(
        id=f"{hole.id}.mouth",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.MOUTH,
        feature=hole.id,
        title=f"Chamfer the mouth of the {hole.id}",
        cutter=cutter,
        end=hole.end,
        z_dial=dial.axis,
        rows=(
            Row(kind=RowKind.TOUCH, z=set_to(dial, 0.0), at=0.0),
            Row(
                kind=RowKind.DEPTH,
                z=set_to(dial, travel),
                at=travel,
                depth=travel,
                diameter=hole_diameter + 2.0 * travel * tan(radians(cutter.point / 2.0)),
                box=True,
            ),
        ),
        figures=(numbers.spindle(job, setup, "countersink", diameter, cutter.material),),
        needs=ready,
        makes=(f"{hole.id} mouth",),
        rank=20,
        why="the tap starts straight and raises no lip on the seat face"
        if hole.kind is HoleKind.TAP
        else "no burr, and the mate enters easily",
        hints=("Touch the flank on the edge of the hole: the depth counts from there",),
        hazards=("countersinking",),
        cutting_minutes=0.3,
        handling_minutes=1.5,
    )


def ream(job: JobView, setup: Setup, hole: Hole, full_depth: float, ready: tuple[Need, ...]) -> Operation:
    """Ream a drilled hole to size, by the quill."""
    dial = job.lathe.quill.dial
    cutter = toolbox.reamer(job, hole)
    at = up(dial, full_depth)
    speed = numbers.spindle(job, setup, "ream", cutter.diameter, cutter.material)
    feed = numbers.feed(job, "ream", cutter, dial, speed)
    return Operation(
        id=f"{hole.id}.ream",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.REAM,
        feature=hole.id,
        title=f"Ream the {hole.id}",
        cutter=cutter,
        end=hole.end,
        z_dial=dial.axis,
        rows=(
            Row(kind=RowKind.TOUCH, z=set_to(dial, 0.0), at=0.0),
            Row(kind=RowKind.DEPTH, z=set_to(dial, at), at=at, diameter=cutter.diameter, box=True),
        ),
        figures=(speed, feed),
        holds=(
            job.hold(
                f"{hole.id}.diameter",
                f"⌀ {hole.id}",
                hole.diameter,
                "inside",
                aim=cutter.diameter,
                over="stop; a larger pin, or a bush",
                under="run the reamer through once more, with oil",
            ),
        ),
        needs=ready,
        makes=(f"{hole.id} made",),
        rank=24,
        why="size and finish that a drill does not give",
        hints=("Never turn a reamer backwards", "Plenty of oil; withdraw while it still turns"),
        hazards=("reaming",),
        cutting_minutes=drilling_time(at, feed.value, speed.value),
        handling_minutes=2.0,
    )


def bore(
    job: JobView, setup: Setup, hole: Hole, start: float, full_depth: float, ready: tuple[Need, ...]
) -> Operation:
    """Open a drilled hole to size with a boring bar, outward; the last two cuts are equal.

    Args:
        job: part and shop.
        setup: where.
        hole: bore or counterbore.
        start: diameter that the drill left, mm.
        full_depth: depth from the face, mm.
        ready: facts needed first.
    """
    cross, dial = job.cross, job.lengthwise
    cutter = toolbox.boring_bar(job, start, full_depth)
    setting = figures.bore_setting(job, hole, start)
    total = setting.travel
    out = min(full_depth + BAR_CLEAR, cutter.reach)
    depth_figure = numbers.depth(
        job, setup, hole.diameter.aim, "bore", at=out, tool=cutter.material, bar=cutter.width
    )
    finish = (
        max(near(cross, min(job.house.finish_depth, total / 3.0)), cross.step)
        if total >= 2 * cross.step
        else 0.0
    )
    floor_z = figures.depth_on_line(dial, hole, full_depth)
    z = set_to(dial, floor_z)
    rows = [
        Row(
            kind=RowKind.TOUCH,
            x=set_to(cross, 0.0),
            touch=hole.id,
            diameter=start,
            z=set_to(dial, 0.0),
            at=0.0,
        )
    ]
    begin_finish = down(cross, total) - 2.0 * finish
    passes = ceil(begin_finish / depth_figure.value - 1e-9) if begin_finish > cross.step else 0
    last = 0.0
    for k in range(1, passes + 1):
        at = near(cross, begin_finish * k / passes)
        rows.append(
            Row(
                kind=RowKind.ROUGH,
                x=set_to(cross, at),
                z=z,
                diameter=start + 2.0 * at,
                at=floor_z,
                depth=at - last,
            )
        )
        last = at
    if finish > 0.0:
        at = down(cross, total) - finish
        rows.append(
            Row(
                kind=RowKind.MEASURE,
                x=set_to(cross, at),
                z=z,
                diameter=start + 2.0 * at,
                at=floor_z,
                depth=at - last,
                box=True,
            )
        )
        last = at
    rows.append(
        Row(
            kind=RowKind.FINISH,
            x=set_to(cross, total),
            z=z,
            diameter=start + 2.0 * total,
            at=floor_z,
            depth=total - last,
            box=True,
        )
    )
    speed = numbers.spindle(job, setup, "bore", hole.diameter.aim, cutter.material)
    feed = numbers.feed(job, "bore", cutter, dial, speed)
    forces = rigidity.force_figures(job, "bore", cutter, rows, feed, speed)
    holds = [
        job.hold(
            f"{hole.id}.diameter",
            f"⌀ {hole.id}",
            hole.diameter,
            "inside",
            aim=start + 2.0 * total,
            over="stop; fit the mate to this bore and note it",
            under="set the collar to the row whose diameter you read, then cut again",
        )
    ]
    if hole.depth is not None:
        holds.append(
            job.hold(
                f"{hole.id}.depth",
                f"depth of the {hole.id}",
                hole.depth,
                "depth",
                aim=floor_z,
                over="stop; face the end to bring the depth back, if the length allows",
                under="cut the floor again by what is missing",
            )
        )
    return Operation(
        id=f"{hole.id}.bore",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.BORE,
        feature=hole.id,
        title=f"Bore the {hole.id}",
        cutter=cutter,
        end=hole.end,
        rows=tuple(rows),
        x_dial=cross.axis,
        z_dial=dial.axis,
        figures=(speed, feed, depth_figure, figures.bore_target(job, hole, setting, start), *forces),
        holds=tuple(holds),
        needs=ready,
        makes=(f"{hole.id} made",),
        rank=22,
        why="round and true to the axis, whatever the drill did",
        hints=(
            f"The bar stands out of its holder by {mm(out)} and no more",
            "The slide moves toward you: diameters grow as the handle winds back",
            "Come to every reading from the small side; past it means the slack is open",
        ),
        hazards=("boring",),
        cutting_minutes=len(rows) * (floor_z + 2.0) / max(feed.value * speed.value, 1e-6),
        handling_minutes=5.0,
    )


def pilots(job: JobView, final: float, depth: float) -> tuple[Cutter, ...]:
    """Smaller drills that go before a drill of `final` diameter into a hole of `depth`, mm."""
    if final <= job.house.pilot_above:
        return ()
    return (toolbox.pilot(job, final, depth),)


def depth_of_drill(job: JobView, hole: Hole, setup: Setup) -> float:
    """Depth of full diameter that the drill for a plain hole goes to, mm."""
    if hole.depth is None or hole.bottom is Bottom.THROUGH:
        return job.through if setup.out is End.FRONT else job.targets.length + 1.0
    return figures.depth_on_line(job.lathe.quill.dial, hole, hole.depth.aim)


def exit_mouth(
    job: JobView, setup: Setup, hole: Hole, diameter: float, hole_diameter: float, ready: tuple[Need, ...]
) -> Operation:
    """Break the far mouth of a through hole from the back."""
    near_end = mouth(job, setup, replace(hole, end=End.BACK), diameter, hole_diameter, ready)
    return replace(
        near_end,
        id=f"{hole.id}.exit",
        title=f"Break the far mouth of the {hole.id}",
        makes=(f"{hole.id} exit",),
        why="no burr is left where the mate comes through",
    )
