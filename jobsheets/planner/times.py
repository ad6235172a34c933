"""How long each setup takes: the machine in the cut, handling at the machine, and work by hand, apart.

Minutes. The minutes of an operation are its own estimate: cuts by length, feed and speed, handling by common
practice for its kind.
"""

from collections.abc import Iterable

from jobsheets.planner.operation import Motion, Operation, Place, Setup, Times
from jobsheets.planner.stopping import SCREWCUT

BY_HAND = (Motion.TAP, Motion.DIE, Motion.CHASE, Motion.DEBURR, Motion.ROUND)  # the hand cuts, not the motor
WHOLE = "plan"


def times(setups: Iterable[Setup], operations: tuple[Operation, ...]) -> tuple[Times, ...]:
    """Times of each setup, in the order of work."""
    return tuple(_of(s.id, [op for op in operations if op.setup == s.id]) for s in setups)


def whole(parts: Iterable[Times]) -> Times:
    """Times of all setups together."""
    found = tuple(parts)
    return Times(
        setup=WHOLE,
        cutting=sum(t.cutting for t in found),
        handling=sum(t.handling for t in found),
        hand=sum(t.hand for t in found),
    )


def _of(setup: str, operations: list[Operation]) -> Times:
    by_hand = [
        op
        for op in operations
        if op.place is Place.BENCH
        or op.motion in BY_HAND
        or (op.motion in SCREWCUT and op.figure("speed") is None)  # by hand crank
    ]
    return Times(
        setup=setup,
        cutting=sum(op.cutting_minutes for op in operations if op not in by_hand),
        handling=sum(op.handling_minutes for op in operations),
        hand=sum(op.cutting_minutes for op in by_hand),
    )
