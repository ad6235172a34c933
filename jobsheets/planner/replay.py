"""Replay: cut the printed numbers, in software, from the bar.

Nothing here knows what the planner meant. A row is turned back from dial to travel, the cut is made where
the hand would make it, and the sizes printed beside the reading must come out. What is left at the end is
measured by planner/inspect.py.
"""

from collections.abc import Callable

from jobsheets.part.profile import radius_at
from jobsheets.part.turned import TurnedPart
from jobsheets.part.work import Work
from jobsheets.planner import replay_axis, replay_outside
from jobsheets.planner.operation import HoldingKind, Motion, Operation, Setup
from jobsheets.planner.replay_frame import AGREES, Bench, ReplayFault
from jobsheets.shop.shop import Shop


def replay(
    part: TurnedPart, shop: Shop, setups: tuple[Setup, ...], operations: tuple[Operation, ...], bar: Work
) -> tuple[Work, ...]:
    """States of the work: the bar, then after each operation.

    Raises:
        ReplayFault: a row contradicts itself, a need is not met, a tool cannot reach or would hit, or a cut
            lies in the air.
    """
    bench = Bench(part, shop)
    by_id = {s.id: s for s in setups}
    states = [bar]
    for op in operations:
        setup = by_id[op.setup]
        if bench.setup != setup.id:
            _enter(bench, setup, states[-1], op)
        for need in op.needs:
            if need.fact not in bench.facts:
                raise ReplayFault(op.id, f"'{need.fact}' is not true yet ({need.because})")
        try:
            work = _CUTS[op.motion](bench, setup, op, states[-1])
        except ValueError as exc:
            raise ReplayFault(op.id, str(exc)) from None
        bench.facts.update(op.makes)
        bench.facts.difference_update(n.fact for n in op.spoils)
        states.append(work)
    return tuple(states)


def _enter(bench: Bench, setup: Setup, work: Work, op: Operation) -> None:
    """Grip the work: what is clamped exists, is parallel, and is there."""
    bench.setup = setup.id
    for need in setup.requires:
        if need.fact not in bench.facts:
            raise ReplayFault(op.id, f"setup '{setup.title}': '{need.fact}' is not true yet ({need.because})")
    if setup.holding.kind in (HoldingKind.HAND, HoldingKind.MANDREL):
        return
    a, b = setup.grip_from, setup.grip_to
    if a < work.front - AGREES or b > work.back + AGREES:
        raise ReplayFault(
            op.id,
            f"the grip from {a:.2f} to {b:.2f} mm is not on the work, {work.front:.2f} to {work.back:.2f} mm",
        )
    radii = [r for z, r in work.outer if a + 1e-6 < z < b - 1e-6]
    radii += [radius_at(work.outer, a + 1e-6), radius_at(work.outer, b - 1e-6)]
    if max(radii) - min(radii) > 0.02:
        edge_only = max(radii) - min(radii) <= 1.0 and setup.holding.on != "bar"
        middle = radius_at(work.outer, (a + b) / 2.0)
        if not (edge_only and abs(max(radii) - middle) < 0.02):
            raise ReplayFault(op.id, "the jaws would grip a step")


def _scratch(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    from jobsheets.planner.replay_screwcut import scratch  # few recipes cut a thread so

    return scratch(bench, setup, op, work)


def _screwcut(bench: Bench, setup: Setup, op: Operation, work: Work) -> Work:
    from jobsheets.planner.replay_screwcut import screwcut

    return screwcut(bench, setup, op, work)


Cut = Callable[[Bench, Setup, Operation, Work], Work]

_CUTS: dict[Motion, Cut] = {
    Motion.FACE: replay_outside.face,
    Motion.TURN: replay_outside.turn,
    Motion.GROOVE: replay_outside.groove,
    Motion.PART_OFF: replay_outside.part_off,
    Motion.CHAMFER: replay_outside.chamfer,
    Motion.ROUND: replay_outside.round_edge,
    Motion.DOME: replay_outside.dome,
    Motion.SPOT: replay_axis.spot,
    Motion.DRILL: replay_axis.drill,
    Motion.BORE: replay_axis.bore,
    Motion.REAM: replay_axis.ream,
    Motion.COUNTERBORE: replay_axis.bore,
    Motion.MOUTH: replay_axis.mouth,
    Motion.TAP: replay_axis.tap,
    Motion.DIE: replay_outside.die,
    Motion.SCRATCH: _scratch,
    Motion.SCREWCUT: _screwcut,
    Motion.KNURL: replay_outside.knurl,
    Motion.CROSS_DRILL: replay_axis.cross_drill,
    Motion.CHASE: replay_axis.chase,
    Motion.DEBURR: replay_axis.deburr,
}
