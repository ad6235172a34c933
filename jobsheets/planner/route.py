"""Candidate routes: which setups there are, and which operation is done in which.

A route is a proposal; planner/order.py finds its order or shows that it has none.
"""

from msgspec import Struct
from msgspec.structs import replace

from jobsheets.part.turned import CrossHole, EdgeKind, End, HoleKind, SegmentKind, TurnedPart
from jobsheets.planner import blade, crossing, edges, facing, holes, knurling, outside, support, threading
from jobsheets.planner.blanks import blank_size
from jobsheets.planner.holding import Candidate, in_vice
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Holding, HoldingKind, Need, Operation, Place, Setup
from jobsheets.planner.turning import FACED, OVERRUN

BAR, ROUND, VICE, BAR_AGAIN, BENCH = "bar", "turned_round", "vice", "bar_again", "bench"


class Route(Struct, frozen=True, kw_only=True):
    """Setups and operations of one way to make the part."""

    name: str
    setups: tuple[Setup, ...]
    operations: tuple[Operation, ...]


def reachable_from_front(part: TurnedPart) -> frozenset[str]:
    """Segments that can be cut with the bar in the chuck, front out.

    A turning tool cannot reach behind a larger diameter, so such a segment waits for the part to be turned
    round; grooves are plunged and reach anywhere. A segment smaller than both its neighbours is plunged too.
    """
    found = set()
    worked = [(blank_size(s) or s.diameter).nominal for s in part.segments]
    for i, segment in enumerate(part.segments):
        from_front = worked[i] >= max(worked[:i], default=0.0) - 1e-9
        from_back = worked[i] >= max(worked[i + 1 :], default=0.0) - 1e-9
        if segment.kind is SegmentKind.GROOVE or from_front or not from_back:
            found.add(segment.id)
    return frozenset(found)


def exposed_at_back(part: TurnedPart, first: frozenset[str], clearance: float) -> float:
    """Length from the back that the second holding must leave free, mm."""
    last = part.segments[-1]
    free = clearance / 2.0  # facing only: the tool never goes toward the jaws
    if last.back is not None:
        free = max(free, last.back.size.aim + clearance / 2.0)
    late = [s for s in part.segments if s.id not in first and not s.as_stock]
    if late:
        index = part.segments.index(late[0])
        beyond = OVERRUN if index and part.plunged(part.segments[index - 1]) else 0.0
        free = max(free, part.length - part.starts[index] + beyond + clearance / 2.0)
    return free


def crossed_after_parting(
    job: JobView, held: Candidate, second: Candidate, vice: Candidate | None, *, centre: bool = False
) -> Route:
    """Bar, then the vice for cross holes, then turned round; the bench last.

    Args:
        job: part and shop.
        held: the bar.
        second: turned round.
        vice: for cross holes.
        centre: hold the free end of the bar with the live centre.
    """
    bar = replace(_lathe_setup(job, BAR, held, End.FRONT, ()), live_centre=centre)
    round_ = _lathe_setup(job, ROUND, second, End.BACK, _held_surface(job, second))
    first = _first(job, bar)
    parting = support.on_centre(job, bar, [blade.part_off(job, bar, ())])
    operations = [*first, *parting, *_second(job, round_, first)]
    setups = [bar, round_]
    if job.part.cross_holes and vice is not None:
        setups.insert(
            1, _vice_setup(job, vice, (Need(fact="parted off", because="the piece is held in the vice"),))
        )
        operations += _cross(job, setups[1], ())
    _bench(job, setups, operations)
    return Route(
        name="cross holes after parting" if job.part.cross_holes else "bar, then turned round",
        setups=tuple(setups),
        operations=tuple(operations),
    )


def crossed_on_the_bar(
    job: JobView, held: Candidate, second: Candidate, vice: Candidate, *, centre: bool = False
) -> Route:
    """Cross holes while the part is still on the bar: the bar is its handle, and goes back to be parted."""
    bar = replace(_lathe_setup(job, BAR, held, End.FRONT, ()), live_centre=centre)
    in_the_vice = _vice_setup(job, vice, (FACED_AND_TURNED,))
    again = _lathe_setup(
        job,
        BAR_AGAIN,
        held,
        End.FRONT,
        tuple(Need(fact=f"{h.id} made", because="the bar is its handle") for h in job.part.cross_holes),
    )
    round_ = _lathe_setup(job, ROUND, second, End.BACK, _held_surface(job, second))
    setups = [bar, in_the_vice, again, round_]
    first = _first(job, bar)
    operations = [
        *first,
        *_cross(job, in_the_vice, ()),
        blade.part_off(job, again, ()),
        *_second(job, round_, first),
    ]
    _bench(job, setups, operations)
    return Route(name="cross holes on the bar", setups=tuple(setups), operations=tuple(operations))


FACED_AND_TURNED = Need(fact="front faced", because="the place of the hole counts from the faced end")


def _held_surface(job: JobView, second: Candidate) -> tuple[Need, ...]:
    """What must be true before the piece is turned round."""
    on = second.holding.on
    needs = [Need(fact="parted off", because="it is turned round after parting")]
    hole = next((h for h in job.part.holes if h.id == on), None)
    if hole is not None:
        needs.append(Need(fact=f"{on} threaded", because="it is held by this thread"))
    elif not job.part.segment(on).as_stock:
        needs.append(Need(fact=f"{on} finished", because="the second grip needs a true, parallel length"))
    return tuple(needs)


def _lathe_setup(
    job: JobView, name: str, candidate: Candidate, out: End, requires: tuple[Need, ...]
) -> Setup:
    title = candidate.title if name != BAR_AGAIN else candidate.title.replace("Bar in", "Bar back in")
    return Setup(
        id=name,
        place=Place.LATHE,
        machine=job.lathe.name,
        title=title,
        holding=candidate.holding,
        out=out,
        grip_from=candidate.grip_from,
        grip_to=candidate.grip_to,
        requires=requires,
    )


def _vice_setup(job: JobView, vice: Candidate, requires: tuple[Need, ...]) -> Setup:
    mill = job.shop.mill
    assert mill is not None
    on = job.part.segment(vice.holding.on)
    held = (
        ()
        if on.as_stock or vice.holding.on == "bar"
        else (Need(fact=f"{on.id} finished", because="the vice holds it on its finished cylinder"),)
    )
    return Setup(
        id=VICE,
        place=Place.MILL,
        machine=mill.name,
        title=vice.title,
        holding=vice.holding,
        out=End.FRONT,
        grip_from=vice.grip_from,
        grip_to=vice.grip_to,
        requires=(*requires, FACED_AND_TURNED, *held),
    )


def _bench(job: JobView, setups: list[Setup], operations: list[Operation]) -> None:
    """What hands do last: burrs of cross holes, and threads run through again."""
    if not job.part.cross_holes:
        return
    hand = Holding(
        kind=HoldingKind.HAND,
        name="bench",
        on="part",
        grip=0.0,
        stick_out=0.0,
        diameter=0.0,
        runout=0.0,
        max_rpm=1e9,
    )
    bench = Setup(
        id=BENCH,
        place=Place.BENCH,
        machine="bench",
        title="By hand at the bench",
        holding=hand,
        out=End.FRONT,
        grip_from=0.0,
        grip_to=0.0,
        requires=(Need(fact="back faced", because="the last burr comes with the last cut"),),
    )
    added: list[Operation] = []
    for hole in job.part.cross_holes:
        added.append(crossing.cross_deburr(job, bench, hole))
    clean = tuple(
        Need(fact=f"{h.id} deburred", because="a burr lifts into the thread") for h in job.part.cross_holes
    )
    if job.house.chase_after_cross_hole:
        for tapped in job.part.holes:
            if tapped.kind is HoleKind.TAP and _crosses(
                job, tapped.depth.aim if tapped.depth else None, tapped.end
            ):
                added.append(
                    threading.chase(
                        job,
                        bench,
                        tapped,
                        (Need(fact=f"{tapped.id} threaded", because="it is run again"), *clean),
                    )
                )
    setups.append(bench)
    operations += added


def _crosses(job: JobView, depth: float | None, end: End) -> bool:
    """Whether a cross hole comes within a thread of this depth."""
    length = job.targets.length
    reach = length if depth is None else depth

    def inside(hole: CrossHole) -> bool:
        from_mouth = hole.at.aim if end is End.FRONT else length - hole.at.aim
        return from_mouth - hole.diameter.aim / 2.0 <= reach

    return any(inside(h) for h in job.part.cross_holes)


def _cross(job: JobView, setup: Setup, ready: tuple[Need, ...]) -> list[Operation]:
    mill = job.shop.mill
    assert mill is not None
    result: list[Operation] = []
    for hole in job.part.cross_holes:
        segment = job.part.segment(hole.segment)
        needs = (
            ()
            if segment.as_stock
            else (
                Need(fact=f"{segment.id} finished", because="its middle is found from the finished diameter"),
            )
        )
        result.append(crossing.cross_spot(job, mill, setup, hole, (*ready, *needs)))
        result.append(crossing.cross_drill(job, mill, setup, hole))
    return result


def _first(job: JobView, setup: Setup) -> list[Operation]:
    """Everything done with the bar in the chuck, front end out, but parting."""
    front_holes = holes.operations(job, setup, End.FRONT, [])
    cuts = [
        *front_holes,
        *support.on_centre(job, setup, outside.operations(job, setup, job.first, front_holes)),
        *_edges(job, setup, End.FRONT),
        *support.on_centre(job, setup, _rolled(job, setup, job.first)),
    ]
    return [facing.face_front(job, setup), *(_on_the_bar(op) for op in cuts)]


def _on_the_bar(op: Operation) -> Operation:
    """What must run true with the rest is cut before the piece leaves the bar; parting spoils this fact."""
    known = {need.fact for need in op.needs}
    return replace(op, needs=(*op.needs, *(n for n in (FACED, HELD) if n.fact not in known)))


HELD = Need(fact="held by the bar", because="one setting keeps every diameter true to every other")


def _second(job: JobView, setup: Setup, first: list[Operation]) -> list[Operation]:
    """Everything done with the piece turned round."""
    ready = (Need(fact="parted off", because="the parted face comes up only when the piece is turned round"),)
    late = frozenset(s.id for s in job.part.segments if s.id not in job.first and not s.as_stock)
    back_holes = holes.operations(job, setup, End.BACK, first)
    return [
        facing.face_back(job, setup, ready),
        *back_holes,
        *outside.operations(job, setup, late, back_holes),
        *_edges(job, setup, End.BACK),
        *_rolled(job, setup, late),
        *holes.exits(job, setup, first),
    ]


def _rolled(job: JobView, setup: Setup, ids: frozenset[str]) -> list[Operation]:
    """Knurls on the segments named; one on the bar's own surface is rolled while the bar is whole."""
    result = []
    for knurl in job.part.knurls:
        segment = job.part.segment(knurl.segment)
        if segment.id not in ids and not (segment.as_stock and setup.out is End.FRONT):
            continue
        needs = (
            ()
            if segment.as_stock
            else (Need(fact=f"{segment.id} finished", because="the pattern tracks only on its own diameter"),)
        )
        result.append(knurling.knurl(job, setup, knurl, needs))
    return result


def _edges(job: JobView, setup: Setup, out: End) -> list[Operation]:
    """Edges that stand free in this setup."""
    result = []
    segments = job.part.segments
    for i, segment in enumerate(segments):
        for which, form in ((End.FRONT, segment.front), (End.BACK, segment.back)):
            if form is None or _edge_setup(job, i, which) is not out:
                continue
            neighbour = i - 1 if which is End.FRONT else i + 1
            ready = []
            if not segment.as_stock:
                ready.append(
                    Need(fact=f"{segment.id} finished", because="the edge goes on the finished diameter")
                )
            beside = segments[neighbour] if 0 <= neighbour < len(segments) else segment
            if beside is not segment and not beside.as_stock and (beside.id in job.first or out is End.BACK):
                ready.append(
                    Need(
                        fact=f"{beside.id} finished",
                        because="the corner is there only when both sides are cut",
                    )
                )
            face = "front faced" if out is End.FRONT else "back faced"
            ready.append(Need(fact=face, because="its place counts from the faced end"))
            for knurl in job.part.knurls:
                if knurl.segment == segment.id and form.kind is not EdgeKind.CHAMFER:
                    ready.append(
                        Need(fact=f"{knurl.id} knurled", because="the roll would spoil a finished edge")
                    )
            result.append(edges.edge(job, setup, segment, which, form, tuple(ready)))
    return result


def _edge_setup(job: JobView, index: int, which: End) -> End:
    """The setup in which an edge stands free, told by the end that is out."""
    segments = job.part.segments
    if which is End.FRONT:
        return (
            End.FRONT
            if index == 0 or segments[index].id in job.first or segments[index].as_stock
            else End.BACK
        )
    if index == len(segments) - 1:
        return End.BACK
    return End.FRONT if segments[index + 1].id in job.first else End.BACK


def vice_candidates(job: JobView) -> list[Candidate]:
    mill = job.shop.mill
    if mill is None or not job.part.cross_holes:
        return []
    return in_vice(job.part, job.targets, mill, job.shop, frozenset(k.segment for k in job.part.knurls))
