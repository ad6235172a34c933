"""Owned drills, centre drills, countersinks and reamers for a wish. mm."""

from jobsheets.shop.pick import Pick, between, missing, size
from jobsheets.shop.shop import HouseRules
from jobsheets.shop.tools import CentreDrill, Countersink, Drill, EndMill, Reamer, Tooling
from jobsheets.standards import drills

SAME = 1e-3  # mm: sizes nearer than this are the same drill
PILOT_SHARES = (
    0.15,
    0.55,
)  # of the drill that follows: below it breaks, above it does not help; common practice
CENTRE_SHARE = 0.75  # pilot at most this share of the next drill, which must find the cone; common practice


def drill_within(tooling: Tooling, low: float, high: float, aim: float) -> Pick[Drill]:
    """The owned drill inside [low, high] nearest to `aim`; else the nearest one, with what it changes.

    Args:
        tooling: what is owned.
        low: least diameter, mm.
        high: largest diameter, mm.
        aim: the best diameter, mm.

    Raises:
        ValueError: limits crossed, or `aim` outside them.
    """
    if not low <= aim <= high:
        raise ValueError(
            f"a drill of {aim:.3f} mm lies outside {low:.3f} to {high:.3f} mm: move the aim inside"
        )
    system = tooling.system
    fits = [d for d in tooling.drills if low - SAME <= d.diameter <= high + SAME]
    if fits:
        best = min(fits, key=lambda d: (round(abs(d.diameter - aim), 6), d.diameter))
        sold = _sold_nearer(tooling, low, high, aim, best)
        if sold is None:
            return Pick(tool=best, wanted=best.name)
        more = best.diameter - sold.mm
        change = f"{size(abs(more), system)} {'larger' if more > 0.0 else 'smaller'} than {sold.name}"
        told = f"{best.name} is {change}, inside the limits"
        return Pick(tool=best, wanted=sold.name, instead=True, consequence=told)
    wanted = f"drill {between(low, high, system)}"
    if not tooling.drills:
        return missing(wanted)
    best = min(tooling.drills, key=lambda d: (round(abs(d.diameter - aim), 6), d.diameter))
    if best.diameter < low:
        change = f"hole {size(low - best.diameter, system)} too small: bore or file it open"
    else:
        change = f"hole {size(best.diameter - high, system)} too large: outside the limits"
    consequence = f"{best.name} is the nearest owned; {change}, or buy or borrow: {wanted}"
    return Pick(tool=best, wanted=wanted, instead=True, consequence=consequence)


def _sold_nearer(
    tooling: Tooling, low: float, high: float, aim: float, best: Drill
) -> drills.DrillSize | None:
    """A drill of the owned series that is sold but not owned, inside the limits and nearer to `aim`."""
    off = abs(best.diameter - aim) - SAME
    if off <= 0.0:
        return None
    series = sorted({d.series for d in tooling.drills})
    sold = [
        s for name in series for s in drills.series(name) if low <= s.mm <= high and abs(s.mm - aim) < off
    ]
    return min(sold, key=lambda s: (abs(s.mm - aim), s.mm), default=None)


def largest_drill_below(tooling: Tooling, limit: float) -> Pick[Drill]:
    """The largest owned drill smaller than `limit`, mm."""
    below = [d for d in tooling.drills if d.diameter < limit - SAME]
    if not below:
        return missing(f"drill below {size(limit, tooling.system)}")
    best = max(below, key=lambda d: d.diameter)
    return Pick(tool=best, wanted=best.name)


def pilot_for(tooling: Tooling, diameter: float, house: HouseRules) -> Pick[Drill]:
    """The owned drill that goes first for one of `diameter` mm, nearest to the house's share of it.

    Whether a pilot is needed at all is told by `house.pilot_above`.
    """
    aim = house.pilot_share * diameter
    least, most = (share * diameter for share in PILOT_SHARES)
    wanted = f"pilot drill {between(min(least, aim), max(most, aim), tooling.system)}"
    fits = [d for d in tooling.drills if least - SAME <= d.diameter <= most + SAME]
    if not fits:
        return missing(wanted, "drill without a pilot, slowly, with a firm feed")
    best = min(fits, key=lambda d: (round(abs(d.diameter - aim), 6), d.diameter))
    return Pick(tool=best, wanted=best.name)


def centre_drill_for(tooling: Tooling, diameter: float) -> Pick[CentreDrill]:
    """The stoutest owned centre drill whose pilot lets the next drill find the cone.

    Args:
        tooling: what is owned.
        diameter: of the drill that follows, mm.
    """
    most = CENTRE_SHARE * diameter
    wanted = f"centre drill, pilot up to {size(most, tooling.system)}"
    fits = [c for c in tooling.centre_drills if c.pilot <= most + SAME]
    if fits:
        best = max(fits, key=lambda c: c.pilot)
        return Pick(tool=best, wanted=best.name)
    if not tooling.centre_drills:
        return missing(wanted, "start the drill in a point turned with a sharp tool")
    least = min(tooling.centre_drills, key=lambda c: c.pilot)
    change = f"{least.name} has a pilot nearly as wide as the drill: touch its point only, no deeper"
    return Pick(tool=least, wanted=wanted, instead=True, consequence=change)


def countersink_for(tooling: Tooling, diameter: float, angle: float = 90.0) -> Pick[Countersink]:
    """The smallest owned countersink of an included angle that cuts as wide as `diameter`, mm."""
    wide = sorted(
        (c for c in tooling.countersinks if c.diameter >= diameter - SAME), key=lambda c: c.diameter
    )
    exact = next((c for c in wide if abs(c.angle - angle) < 0.5), None)
    if exact is not None:
        return Pick(tool=exact, wanted=exact.name)
    wanted = f"{angle:g} degree countersink, {size(diameter, tooling.system)} or more"
    if not wide:
        return missing(wanted, "chamfer the mouth with the chamfering tool")
    near = min(wide, key=lambda c: abs(c.angle - angle))
    change = f"{near.name} cuts {near.angle:g} degrees, not {angle:g}: its depth for a diameter differs"
    return Pick(tool=near, wanted=wanted, instead=True, consequence=change)


def end_mill_below(tooling: Tooling, limit: float, depth: float) -> Pick[EndMill]:
    """The largest owned end mill smaller than `limit` whose flutes reach `depth`, mm: for a flat floor."""
    below = [e for e in tooling.end_mills if e.diameter < limit - SAME and e.flute >= depth - SAME]
    if not below:
        return missing(f"end mill below {size(limit, tooling.system)}")
    best = max(below, key=lambda e: e.diameter)
    return Pick(tool=best, wanted=best.name)


def reamer_for(tooling: Tooling, low: float, high: float, aim: float) -> Pick[Reamer]:
    """The owned reamer inside [low, high] nearest to `aim`, mm. No other size can stand in for it."""
    fits = [r for r in tooling.reamers if low - SAME <= r.diameter <= high + SAME]
    if fits:
        best = min(fits, key=lambda r: abs(r.diameter - aim))
        return Pick(tool=best, wanted=best.name)
    return missing(f"reamer {between(low, high, tooling.system)}", "bore the hole to size")
