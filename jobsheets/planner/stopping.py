"""Operations that have to be stopped in time: their fastest speed, and when a hand crank takes its place."""

from math import inf

from jobsheets.planner.operation import Motion, Operation, Plan

SCREWCUT = (Motion.SCRATCH, Motion.SCREWCUT)


def cranked(plan: Plan, op: Operation) -> bool:
    """Whether a thread is rightly cut by hand crank: the lathe has no speed that can be stopped in time."""
    most, lathe = op.figure("stopping_speed"), plan.shop.lathe
    slowest = min([s.rpm for s in lathe.speeds] + [r.least for r in lathe.ranges])
    return op.motion in SCREWCUT and most is not None and slowest > most.value


def fastest(op: Operation) -> float:
    """Speed at which a thread can still be stopped; without a limit for all other operations, rev/min."""
    most = op.figure("stopping_speed")
    return inf if most is None else most.value
