"""A nut held by its own thread, up to the shoulder of a mandrel whose body a collet or a chuck holds."""

from msgspec.structs import replace

from jobsheets.finding import mm
from jobsheets.part.turned import End, Hole, HoleKind, TurnedPart
from jobsheets.planner.operation import Holding, HoldingKind, Rejected
from jobsheets.planner.targets import Targets
from jobsheets.shop import owned
from jobsheets.shop.shop import Shop
from jobsheets.shop.tools import Mandrel


def most_stud(hole: Hole, length: float, behind: tuple[Hole, ...] = ()) -> float:
    """Longest stud of a mandrel on which a nut still runs up to the shoulder, mm; none: not above zero.

    Args:
        hole: tapped from the front.
        length: of the part, mm.
        behind: holes that are made from the back while the mandrel holds the part.

    Raises:
        ValueError: a hole without a thread.

    Source:
        The least full thread, less one pitch so that the stud never meets its end: common practice. Behind an
        open thread the cone of a 90 degree countersink reaches in by half of the major diameter, and a drill
        by its depth and a point of half its diameter at most: geometry.
    """
    if hole.thread is None:
        raise ValueError(f"{hole.id} has no thread: a mandrel holds a tapped hole")
    thread = hole.thread.thread
    full = length - thread.major / 2.0 if hole.depth is None else min(hole.depth.low, length)
    for other in behind:
        reach = length if other.depth is None else other.depth.high + other.diameter.high / 2.0
        full = min(full, length - reach)
    return full - thread.pitch


def on_mandrel(part: TurnedPart, targets: Targets, shop: Shop) -> Holding | Rejected | None:
    """The parted piece on an owned mandrel; why not; or None where no thread opens at the front."""
    hole = next((h for h in part.holes if h.kind is HoleKind.TAP and h.end is End.FRONT), None)
    if hole is None or hole.thread is None:
        return None
    thread = hole.thread
    what = f"turned round on a {thread.thread.name} mandrel"
    if thread.left:
        return Rejected(what=what, why="mandrels in the shop file are right-hand")
    most = most_stud(hole, targets.length, tuple(h for h in part.holes if h.end is End.BACK))
    if most <= 0.0:
        return Rejected(what=what, why="work from the back leaves no length of thread for a stud")
    pick = owned.mandrel_for(shop.tooling, thread.thread, most)
    if pick.tool is None:
        return Rejected(what=what, why=pick.consequence)
    body = _body_in(pick.tool, shop)
    if body is None:
        return Rejected(what=what, why=f"no chuck or collet takes the mandrel's {mm(pick.tool.body)}")
    return replace(body, on=hole.id, stick_out=targets.parted, most_stud=most)


def _body_in(mandrel: Mandrel, shop: Shop) -> Holding | None:
    """The collet that fits the body of a mandrel, else the truest chuck that takes it."""
    lathe = shop.lathe
    collet, chuck = owned.collet_for(lathe, mandrel.body, shop.system), owned.chuck_for(lathe, mandrel.body)
    if collet.tool is not None and lathe.collets is not None:
        holder, most, runout = collet.wanted, lathe.collets.grip, lathe.collets.runout
        max_rpm, outside = lathe.collets.max_rpm, mandrel.body * 3.0
    elif chuck is not None:
        holder, most, runout = chuck.name, chuck.jaw_depth, chuck.runout
        max_rpm, outside = chuck.max_rpm, chuck.body_diameter
    else:
        return None
    return Holding(
        kind=HoldingKind.MANDREL,
        name=mandrel.name,
        on="",
        grip=min(mandrel.grip, most),
        stick_out=0.0,
        diameter=mandrel.body,
        runout=runout,
        max_rpm=max_rpm,
        body_diameter=outside,
        holder=holder,
        in_collet=collet.tool is not None,
        stud=mandrel.length,
    )
