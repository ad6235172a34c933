"""Ways to hold the work: the bar, the part turned round, the part in the vice; candidates and their costs."""

from math import ceil

from msgspec import Struct

from jobsheets.finding import mm
from jobsheets.part.turned import Segment, SegmentKind, TurnedPart
from jobsheets.planner.mandrel import on_mandrel
from jobsheets.planner.operation import Holding, HoldingKind, Rejected
from jobsheets.planner.setting import up
from jobsheets.planner.targets import Targets
from jobsheets.shop import owned
from jobsheets.shop.machines import Mill
from jobsheets.shop.shop import HouseRules, Shop

HALF_MM = 0.5
SHORT_GRIP = 5.0  # mm; under this nothing is held, between this and the house's least grip only facing is


class Candidate(Struct, frozen=True, kw_only=True):
    """One way of holding, with its cost: smaller is better."""

    holding: Holding
    grip_from: float  # part coordinates, mm
    grip_to: float
    cost: float
    title: str


def wanted_grip(diameter: float, house: HouseRules) -> float:
    """Grip that takes any cut, mm."""
    return max(house.least_grip, house.grip_to_diameter * diameter)


def on_the_bar(
    part: TurnedPart, targets: Targets, shop: Shop, blade: float
) -> tuple[list[Candidate], list[Rejected]]:
    """The bar in a collet or a chuck, front end out."""
    lathe, house, rod = shop.lathe, shop.house, part.rod.nominal
    facing = up(targets.z_dial, house.facing)
    out = facing + targets.parted + blade + house.jaw_clearance
    stick_out = ceil(out / HALF_MM - 1e-9) * HALF_MM
    grip = wanted_grip(rod, house)
    begin = stick_out - facing
    found: list[Candidate] = []
    rejected: list[Rejected] = []
    chuck = owned.chuck_for(lathe, rod)
    if chuck is not None:
        found.append(
            Candidate(
                holding=Holding(
                    kind=HoldingKind.CHUCK,
                    name=chuck.name,
                    on="bar",
                    grip=max(grip, chuck.jaw_depth),
                    stick_out=stick_out,
                    diameter=rod,
                    runout=chuck.runout,
                    max_rpm=chuck.max_rpm,
                    body_diameter=chuck.body_diameter,
                ),
                grip_from=begin,
                grip_to=begin + max(grip, chuck.jaw_depth),
                cost=1.0 + chuck.runout,
                title=f"Bar in the {chuck.name}, front end out",
            )
        )
    else:
        rejected.append(Rejected(what="bar in a chuck", why=f"no chuck takes {mm(rod)}"))
    collet = owned.collet_for(lathe, rod, shop.system)
    if collet.tool is not None and lathe.collets is not None:
        found.append(
            Candidate(
                holding=Holding(
                    kind=HoldingKind.COLLET,
                    name=collet.wanted,
                    on="bar",
                    grip=max(lathe.collets.grip, grip),
                    stick_out=stick_out,
                    diameter=rod,
                    runout=lathe.collets.runout,
                    max_rpm=lathe.collets.max_rpm,
                    in_collet=True,
                    body_diameter=rod * 3.0,
                ),
                grip_from=begin,
                grip_to=begin + max(lathe.collets.grip, grip),
                cost=lathe.collets.runout,
                title=f"Bar in a collet ({collet.wanted}), front end out",
            )
        )
    elif lathe.collets is not None:
        rejected.append(Rejected(what="bar in a collet", why=collet.consequence))
    return sorted(found, key=lambda c: c.cost), rejected


def turned_round(
    part: TurnedPart, targets: Targets, shop: Shop, exposed: float, knurled: frozenset[str]
) -> tuple[list[Candidate], list[Rejected]]:
    """The parted piece, back end out: on a finished cylinder, or on its own thread.

    Args:
        part: the part.
        targets: planned sizes.
        shop: the shop.
        exposed: length from the back that must stand free for the work to do there, mm.
        knurled: segments that jaws would crush.
    """
    found: list[Candidate] = []
    rejected: list[Rejected] = []
    for segment in part.segments:
        _grip_on(segment, part, targets, shop, exposed, knurled, found, rejected)
    mandrel = on_mandrel(part, targets, shop)
    if isinstance(mandrel, Rejected):
        rejected.append(mandrel)
    elif mandrel is not None:
        found.append(
            Candidate(
                holding=mandrel,
                grip_from=0.0,
                grip_to=mandrel.stud,
                cost=3.0,
                title=f"Turned round on the {mandrel.name}, back end out",
            )
        )
    return sorted(found, key=lambda c: c.cost), rejected


def _plain(part: TurnedPart, targets: Targets, segment: Segment) -> tuple[float, float]:
    """The stretch of a segment between its edges, which jaws can hold, mm."""
    front, back = targets.span(part, segment.id)
    index = part.index(segment.id)
    lead = segment.front.size.aim if segment.front is not None else 0.0
    tail = segment.back.size.aim if segment.back is not None else 0.0
    if any(part.plunged(s) for s in part.segments[index + 1 : index + 2]):
        tail = max(tail, targets.z_dial.step)  # a blade's wall stands where its other corner was set
    return front + lead, back - tail


def _grip_on(
    segment: Segment,
    part: TurnedPart,
    targets: Targets,
    shop: Shop,
    exposed: float,
    knurled: frozenset[str],
    found: list[Candidate],
    rejected: list[Rejected],
) -> None:
    what = f"turned round, held on the {segment.id}"
    front = targets.span(part, segment.id)[0]
    diameter = targets.diameter(segment.id)
    deeper = [s for s in part.segments if targets.span(part, s.id)[0] < front - 1e-9]
    if segment.kind is not SegmentKind.TURN:
        rejected.append(Rejected(what=what, why="a thread or a groove is no place to grip"))
        return
    if any(targets.diameter(s.id) > diameter + 1e-9 for s in deeper):
        rejected.append(
            Rejected(what=what, why="a larger diameter stands before it and keeps it out of the jaws")
        )
        return
    begin, end = _plain(part, targets, segment)
    to = min(end, targets.parted - exposed, targets.length - exposed)
    grip = to - begin
    if grip < SHORT_GRIP:
        rejected.append(
            Rejected(what=what, why=f"only {mm(max(grip, 0.0))} to grip, {mm(SHORT_GRIP)} is the least")
        )
        return
    short = 0.0 if grip >= wanted_grip(diameter, shop.house) else 10.0
    marks = 40.0 if segment.id in knurled else 0.0
    out = targets.parted - to
    lathe = shop.lathe
    collet = owned.collet_for(lathe, diameter, shop.system)
    if collet.tool is not None and lathe.collets is not None and not marks:
        found.append(
            Candidate(
                holding=Holding(
                    kind=HoldingKind.COLLET,
                    name=collet.wanted,
                    on=segment.id,
                    grip=min(grip, lathe.collets.grip),
                    stick_out=out,
                    diameter=diameter,
                    runout=lathe.collets.runout,
                    max_rpm=lathe.collets.max_rpm,
                    in_collet=True,
                    body_diameter=diameter * 3.0,
                ),
                grip_from=to - min(grip, lathe.collets.grip),
                grip_to=to,
                cost=short / 2.0 + lathe.collets.runout,
                title=f"Turned round, {segment.id} in a collet ({collet.wanted}), back end out",
            )
        )
    chuck = owned.chuck_for(lathe, diameter)
    if chuck is None:
        rejected.append(Rejected(what=what, why=f"no chuck takes {mm(diameter)}"))
        return
    held = min(grip, chuck.jaw_depth)
    found.append(
        Candidate(
            holding=Holding(
                kind=HoldingKind.SOFT_JAWS if chuck.soft_jaws else HoldingKind.CHUCK,
                name=chuck.name,
                on=segment.id,
                grip=held,
                stick_out=out,
                diameter=diameter,
                runout=chuck.runout,
                max_rpm=chuck.max_rpm,
                body_diameter=chuck.body_diameter,
                shim=not chuck.soft_jaws,
            ),
            grip_from=to - held,
            grip_to=to,
            cost=2.0 + short + marks + chuck.runout * 10.0,
            title=f"Turned round, {segment.id} in the {chuck.name}, back end out",
        )
    )


def in_vice(
    part: TurnedPart, targets: Targets, mill: Mill, shop: Shop, knurled: frozenset[str]
) -> list[Candidate]:
    """The part lying in the vice for a cross hole: on the cylinder that is drilled, else the longest one.

    The thrust of the drill then meets the jaws and not an overhanging head.
    """
    if mill.vice is None:
        return []
    found = []
    crossed = {hole.segment for hole in part.cross_holes}
    for segment in part.segments:
        front, back = _plain(part, targets, segment)
        diameter = targets.diameter(segment.id)
        if part.plunged(segment):  # flat jaws do not come between two larger diameters
            continue
        if segment.kind is not SegmentKind.TURN or back - front < SHORT_GRIP or diameter > mill.vice.opening:
            continue
        crush = 20.0 if segment.id in knurled else 0.0
        found.append(
            Candidate(
                holding=Holding(
                    kind=HoldingKind.VICE,
                    name=mill.vice.name,
                    on=segment.id,
                    grip=back - front,
                    stick_out=0.0,
                    diameter=diameter,
                    runout=0.0,
                    max_rpm=1e9,
                    shim=True,
                ),
                grip_from=front,
                grip_to=back,
                cost=crush - (back - front) / 100.0 - (1.0 if segment.id in crossed else 0.0),
                title=f"Lying in the {mill.vice.name}, held on the {segment.id}"
                + ("" if mill.vice.v_groove else ", a V-block behind it"),
            )
        )
    return sorted(found, key=lambda c: c.cost)
