"""Cross holes: found, spotted and drilled on the mill or the drill press, then freed of burrs."""

from math import sqrt

from jobsheets.cutting import drill as drill_physics
from jobsheets.cutting.times import drilling_time
from jobsheets.part.turned import CrossHole
from jobsheets.planner import drill_force, figures, numbers, toolbox
from jobsheets.planner.drilling import SPOTTED, pecks
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.planner.setting import near, set_to, up
from jobsheets.shop.machines import Mill


def cross_spot(job: JobView, mill: Mill, setup: Setup, hole: CrossHole, ready: tuple[Need, ...]) -> Operation:
    """Find the middle of the bar and the distance from the face, and spot there."""
    cutter = toolbox.centre_drill(job, hole.diameter.aim)
    along = mill.table_x
    deep = up(mill.quill, cutter.reach)
    place, at = [Row(kind=RowKind.TOUCH, z=set_to(mill.quill, 0.0), at=0.0)], hole.at.aim
    if along is not None:
        at = near(along, hole.at.aim)
        place.append(Row(kind=RowKind.STEP, x=set_to(along, at), at=at))
    place.append(Row(kind=RowKind.DEPTH, z=set_to(mill.quill, deep), at=deep, depth=deep))
    hint = (
        "Touch both sides of the bar with the edge finder: the middle is half way"
        if mill.table_y is not None
        else "Lay a rule under the drill point on top of the bar: level means centred"
    )
    return Operation(
        id=f"{hole.id}.spot",
        setup=setup.id,
        place=Place.MILL,
        motion=Motion.SPOT,
        feature=hole.id,
        title=f"Find the middle and spot the {hole.id}",
        cutter=cutter,
        rows=tuple(place),
        x_dial=along.axis if along is not None else "",
        z_dial=mill.quill.axis,
        figures=(numbers.mill_spindle(job, mill, "centre drill", cutter.diameter, cutter.material),),
        holds=(
            job.hold(
                f"{hole.id}.place",
                f"front face to the middle of the {hole.id}",
                hole.at,
                "outside",
                aim=at,
                over="spot again before drilling",
                under="spot again before drilling",
            ),
        ),
        needs=ready,
        makes=(f"{hole.id} spotted",),
        rank=0,
        why="a drill slides off a round surface until something holds its point",
        hints=(
            "Lay it on a parallel, its axis level with the jaws: the upper half of the front stands free",
            hint,
            "Touch the front face there for the distance along the part",
        ),
        hazards=("drill press",),
        cutting_minutes=0.3,
        handling_minutes=6.0,
    )


def cross_drill(job: JobView, mill: Mill, setup: Setup, hole: CrossHole) -> Operation:
    """Drill across the axis."""
    across = job.targets.diameter(hole.segment)
    pick = toolbox.drill_in(job, hole.diameter)
    cutter = toolbox.drill(pick, hole.diameter.aim, across + 0.5)
    # The point starts on the crown; it is out when its full diameter has passed the far side.
    sag = across / 2.0 - sqrt(max(0.0, (across / 2.0) ** 2 - (cutter.diameter / 2.0) ** 2))
    full = across + 0.5 if hole.through else across / 2.0
    tip = up(mill.quill, full + drill_physics.point_length(cutter.diameter, cutter.point) + sag)
    # The point stands in the spot before it cuts: its flank rests on the rim.
    rim = toolbox.centre_drill(job, cutter.diameter).diameter
    begin = near(mill.quill, drill_physics.point_length(rim, cutter.point))
    speed = numbers.mill_spindle(job, mill, "drill", cutter.diameter, cutter.material, depth=full)
    feed = numbers.feed(job, "drill", cutter, mill.quill, speed, depth=full, machine=mill)
    return Operation(
        id=f"{hole.id}.drill",
        setup=setup.id,
        place=Place.MILL,
        motion=Motion.CROSS_DRILL,
        feature=hole.id,
        title=f"Drill across the {hole.segment}",
        cutter=cutter,
        z_dial=mill.quill.axis,
        rows=(
            Row(kind=RowKind.TOUCH, z=set_to(mill.quill, begin), at=begin),
            *pecks(job, mill.quill, cutter.diameter, tip),
        ),
        figures=(
            speed,
            feed,
            figures.drill_tip(cutter, full + sag, tip),
            *drill_force.figures(job.material, cutter, feed, speed, mill),
        ),
        needs=(Need(fact=f"{hole.id} spotted", because=SPOTTED),),
        makes=(f"{hole.id} made",),
        rank=2,
        why="square through the middle, guided by the spot",
        hints=("Ease off as the point breaks through: that is where it grabs",),
        hazards=("drill press",),
        cutting_minutes=drilling_time(tip, feed.value, speed.value),
        handling_minutes=2.0,
    )


def cross_deburr(job: JobView, setup: Setup, hole: CrossHole) -> Operation:
    """Break the edges of a cross hole by hand."""
    return Operation(
        id=f"{hole.id}.deburr",
        setup=setup.id,
        place=Place.BENCH,
        motion=Motion.DEBURR,
        feature=hole.id,
        title=f"Break the edges of the {hole.id}, both sides and inside",
        cutter=toolbox.hand_countersink(job, hole),
        rows=(Row(kind=RowKind.FINISH, depth=job.house.deburr_edge),),
        needs=(Need(fact=f"{hole.id} made", because="there is no burr before there is a hole"),),
        makes=(f"{hole.id} deburred",),
        rank=0,
        why="a burr tilts the work in the next setup and jams the thread",
        hints=("Turn a countersink by hand; a small round file for the inside edge",),
        hazards=("deburring",),
        cutting_minutes=0.5,
        handling_minutes=1.0,
    )
