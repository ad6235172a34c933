"""Shapes that can be written and not be made: found before a plan is begun."""

from math import radians, tan

from jobsheets.finding import Finding, Severity, mm
from jobsheets.part.turned import POINT, Bottom, End, Hole, TurnedPart

BELOW_THREAD = 5.0  # pitches that the drill goes deeper than the thread: a second tap's lead and one more
LEAST_LEFT = 1.5  # mm; a shorter stretch of a hole is not made on its own
LEAST_STEP = 0.1  # mm on the diameter, between the limits of two holes (common practice)
DEEPEST = 40.0  # diameters; beyond it a twist drill is no tool for the hole (common practice)


def impossible(part: TurnedPart) -> tuple[Finding, ...]:
    """Holes that another swallows, steps and floors that cannot stand, and holes too deep for any drill."""
    found = []
    for hole in part.holes:
        wider = next((h for h in part.holes if _swallows(part, h, hole)), None)
        close = next((h for h in part.holes if wider is None and _too_close(part, h, hole)), None)
        if wider is not None:
            found.append(_swallowed(hole, wider))
        if close is not None:
            found.append(_no_step(hole, close))
        pointed = next((h for h in part.wider(hole) if wider is None and _digs_below(h, hole)), None)
        if pointed is not None:
            found.append(_no_floor(hole, pointed))
        depth = part.length if hole.depth is None else hole.depth.aim
        if depth > DEEPEST * hole.diameter.aim:
            found.append(too_deep(hole, depth, hole.diameter.aim))
    return tuple(found)


def _swallowed(hole: Hole, wider: Hole) -> Finding:
    return Finding(
        code="hole-swallowed",
        severity=Severity.STOP,
        where=hole.id,
        what=f"the {wider.id} of {mm(wider.diameter.nominal)} takes away the {hole.id} "
        f"of {mm(hole.diameter.nominal)}, or all but {mm(LEAST_LEFT)} of it",
        why="nothing would be left to gauge",
        remedy=f"a deeper {hole.id}, a shallower {wider.id}, or leave one of them out",
    )


def _no_step(hole: Hole, wider: Hole) -> Finding:
    return Finding(
        code="hole-no-step",
        severity=Severity.STOP,
        where=hole.id,
        what=f"{mm(wider.diameter.low - hole.diameter.high)} at worst between "
        f"the {wider.id} and the {hole.id}",
        why="a step so small is neither felt by a tool nor seen by a gauge",
        remedy=f"{mm(LEAST_STEP)} or more between the two, or one hole",
    )


def _no_floor(hole: Hole, wider: Hole) -> Finding:
    return Finding(
        code="hole-no-floor",
        severity=Severity.STOP,
        where=hole.id,
        what=f"the point of the drill for the {wider.id} goes deeper than the flat floor of the {hole.id}",
        why="the middle of the floor would be gone",
        remedy=f"a flat bottom for the {wider.id}, or a deeper {hole.id}",
    )


def too_deep(hole: Hole, depth: float, diameter: float) -> Finding:
    """A hole deeper than a twist drill of `diameter` goes, mm."""
    return Finding(
        code="hole-too-deep",
        severity=Severity.STOP,
        where=hole.id,
        what=f"{mm(depth)} deep is {depth / diameter:.0f} diameters of the drill for the {hole.id}",
        why=f"beyond {DEEPEST:g} diameters a twist drill wanders and packs",
        remedy="a wider or a shallower hole, or two holes that meet from both ends",
    )


def _swallows(part: TurnedPart, wider: Hole, hole: Hole) -> bool:
    """Whether a hole lies inside another, on the one axis that both have, or as good as."""
    if wider is hole or wider.diameter.nominal < hole.diameter.nominal:
        return False
    a, b = _reach(part, wider, cone=1.0 - hole.diameter.nominal / wider.diameter.nominal), _reach(part, hole)
    twins = a == b and wider.diameter.nominal == hole.diameter.nominal
    if twins and part.holes.index(wider) > part.holes.index(hole):
        return False  # of two that are one, only the second is told
    gone = max(min(a[1], b[1]) - max(a[0], b[0]), 0.0)
    return gone > 0.0 and b[1] - b[0] - gone < LEAST_LEFT


def _digs_below(wider: Hole, hole: Hole) -> bool:
    """Whether the point of a wider drill from the same end reaches beyond a flat floor."""
    if wider.bottom is not Bottom.BLIND or hole.bottom is not Bottom.FLAT:
        return False
    tip = (wider.depth.aim if wider.depth is not None else 0.0) + _point(wider)
    return hole.depth is not None and tip > hole.depth.aim


def _point(hole: Hole) -> float:
    """Length of the point of a hole's drill, mm."""
    return hole.diameter.nominal / 2.0 / tan(radians(POINT / 2.0))


def _too_close(part: TurnedPart, wider: Hole, hole: Hole) -> bool:
    """Whether two holes of nearly one diameter overlap along the axis."""
    if wider is hole or wider.diameter.nominal < hole.diameter.nominal:
        return False
    a, b = _reach(part, wider), _reach(part, hole)
    return max(a[0], b[0]) < min(a[1], b[1]) and wider.diameter.low - hole.diameter.high < LEAST_STEP


def _reach(part: TurnedPart, hole: Hole, *, cone: float = 0.0) -> tuple[float, float]:
    """Front and back of the full diameter of a hole, and of a share of its drill's point, mm."""
    if hole.depth is None:
        return 0.0, part.length
    deep = hole.depth.aim
    if hole.thread is not None and cone > 0.0:
        deep += BELOW_THREAD * hole.thread.thread.pitch
    if hole.bottom is Bottom.BLIND:
        deep += cone * _point(hole)
    return (0.0, deep) if hole.end is End.FRONT else (part.length - deep, part.length)
