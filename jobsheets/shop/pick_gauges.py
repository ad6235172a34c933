"""The owned gauge that is fine enough for limits, or the finest with how far it falls short. mm."""

from jobsheets.shop.pick import Pick, missing
from jobsheets.shop.shop import HouseRules
from jobsheets.shop.tools import Gauge, GaugeKind, Tooling

# Kinds that measure a place, the surest first where two resolve alike; common practice.
KINDS = {
    "outside": (GaugeKind.MICROMETER, GaugeKind.CALIPER),
    "inside": (GaugeKind.BORE, GaugeKind.CALIPER),
    "depth": (GaugeKind.DEPTH, GaugeKind.CALIPER),
}
WIDE = 0.1  # mm; from here on a caliper is sure enough and quicker than a micrometer (common practice)


def gauge_for(tooling: Tooling, size: float, width: float, house: HouseRules, where: str) -> Pick[Gauge]:
    """The coarsest owned gauge that tells enough steps inside the limits; else the finest one.

    Coarsest, because a caliper is quicker at the machine than a micrometer.

    Args:
        tooling: what is owned.
        size: to measure, mm.
        width: between the limits, mm.
        house: the ratio wanted.
        where: "outside", "inside" or "depth".

    Raises:
        ValueError: another place, or a width that is not above zero.

    Source:
        A gauge should resolve a tenth of the limits: common practice, house rule `gauge_ratio`.
    """
    if where not in KINDS:
        raise ValueError(f"{where!r} is no place to measure; want {', '.join(KINDS)}")
    if not width > 0.0:
        raise ValueError(f"limits {width:g} mm apart cannot be proved: widen them")
    kinds = KINDS[where] if width < WIDE else KINDS[where][::-1]
    needed = width / house.gauge_ratio
    wanted = f"{where} gauge resolving {resolution(needed, tooling.system)}"
    owned = [g for g in tooling.gauges if g.kind in kinds and g.least <= size <= g.most]
    if not owned:
        return missing(wanted)
    fine = [g for g in owned if g.resolution <= needed * (1.0 + 1e-9)]
    if fine:
        best = max(fine, key=lambda g: (g.resolution, -kinds.index(g.kind)))
        return Pick(tool=best, wanted=best.name)
    best = min(owned, key=lambda g: (g.resolution, kinds.index(g.kind)))
    steps = f"{width / best.resolution:.1f} steps inside the limits, {house.gauge_ratio:g} wanted"
    told = f"{best.name} resolves {resolution(best.resolution, tooling.system)}: {steps}"
    return Pick(tool=best, wanted=wanted, instead=True, consequence=told)


def resolution(mm: float, system: str) -> str:
    """A fine difference in the shop's units, to two figures."""
    return f"{mm / 25.4:.2g} in" if system == "in" else f"{mm:.2g} mm"
