"""Shapes that can be written and not be made: found before a plan is begun."""

from jobsheets.finding import Finding, Severity, mm
from jobsheets.part.turned import End, Hole, TurnedPart

DEEPEST = 40.0  # diameters; beyond it a twist drill is no tool for the hole (common practice)


def impossible(part: TurnedPart) -> tuple[Finding, ...]:
    """Holes that another hole swallows, and holes too deep for any drill."""
    found = []
    for hole in part.holes:
        wider = next((h for h in part.holes if _swallows(part, h, hole)), None)
        if wider is not None:
            found.append(
                Finding(
                    code="hole-swallowed",
                    severity=Severity.STOP,
                    where=hole.id,
                    what=f"the {wider.id} of {mm(wider.diameter.nominal)} takes away all of the {hole.id} "
                    f"of {mm(hole.diameter.nominal)}",
                    why="nothing of it would be left to measure",
                    remedy=f"a deeper {hole.id}, a shallower {wider.id}, or leave one of them out",
                )
            )
        depth = part.length if hole.depth is None else hole.depth.aim
        if depth > DEEPEST * hole.diameter.aim:
            found.append(
                Finding(
                    code="hole-too-deep",
                    severity=Severity.STOP,
                    where=hole.id,
                    what=f"{mm(depth)} deep is {depth / hole.diameter.aim:.0f} diameters of the {hole.id}",
                    why=f"beyond {DEEPEST:g} diameters a twist drill wanders and packs",
                    remedy="a wider or a shallower hole, or two holes that meet from both ends",
                )
            )
    return tuple(found)


def _swallows(part: TurnedPart, wider: Hole, hole: Hole) -> bool:
    """Whether a hole lies wholly inside another, on the one axis that both have."""
    if wider is hole or wider.diameter.nominal < hole.diameter.nominal:
        return False
    a, b = _reach(part, wider), _reach(part, hole)
    twins = a == b and wider.diameter.nominal == hole.diameter.nominal
    if twins and part.holes.index(wider) > part.holes.index(hole):
        return False  # of two that are one, only the second is told
    return a[0] <= b[0] and b[1] <= a[1]


def _reach(part: TurnedPart, hole: Hole) -> tuple[float, float]:
    """Front and back of the full diameter of a hole, mm."""
    if hole.depth is None:
        return 0.0, part.length
    return (0.0, hole.depth.aim) if hole.end is End.FRONT else (part.length - hole.depth.aim, part.length)
