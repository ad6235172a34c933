"""Operations that have to be stopped in time: their fastest speed, and when a hand crank takes its place."""

from math import inf

from jobsheets.figure import Figure
from jobsheets.planner.operation import Motion, Operation, Plan

SCREWCUT = (Motion.SCRATCH, Motion.SCREWCUT)
BOOK = "fastest by cutting speed"  # input of the figure, so that the crank can be judged without a speed


def slowest_of(most: Figure) -> float:
    """The lower of what can be stopped and what the cutting speed allows, rev/min."""
    book = next((i.value for i in most.inputs if i.name == BOOK), inf)
    assert not isinstance(book, str)
    return min(most.value, book)


def cranked(plan: Plan, op: Operation) -> bool:
    """Whether a thread is rightly cut by hand crank: the lathe has no speed that is slow enough for it."""
    most, lathe = op.figure("stopping_speed"), plan.shop.lathe
    slowest = min([s.rpm for s in lathe.speeds] + [r.least for r in lathe.ranges])
    return op.motion in SCREWCUT and most is not None and slowest > slowest_of(most)


def fastest(op: Operation) -> float:
    """Speed at which a thread can still be stopped; without a limit for all other operations, rev/min."""
    most = op.figure("stopping_speed")
    return inf if most is None else most.value
