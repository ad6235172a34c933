"""Hatching of cut material: families of parallel lines, clipped to an outline.

Units    mm on paper; angles in degrees, anticlockwise as seen.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import cos, radians, sin

from msgspec import Struct

from jobsheets.sheet.display import Hatch, Pattern, Ring


class Rule(Struct, frozen=True, kw_only=True):
    """One family of parallel hatch lines: angle, distance, and the offset of the first, mm."""

    angle: float
    spacing: float
    offset: float = 0.0


# Told apart without colour by angle, spacing and crossing. The choice of a pattern for a material is our own;
# the legend on the sheet names it. Lines stand at least 0.7 mm apart (ISO 128-2, from memory).
PATTERNS: dict[Pattern, tuple[Rule, ...]] = {
    "steel": (Rule(angle=45, spacing=1.6),),
    "stainless": (Rule(angle=45, spacing=2.6), Rule(angle=45, spacing=2.6, offset=0.8)),
    "brass": (Rule(angle=135, spacing=1.6),),
    "bronze": (Rule(angle=135, spacing=2.6), Rule(angle=135, spacing=2.6, offset=0.8)),
    "nickel_silver": (Rule(angle=60, spacing=1.4),),
    "aluminium": (Rule(angle=45, spacing=2.4), Rule(angle=135, spacing=2.4)),
    "wood": (Rule(angle=15, spacing=1.2),),
    "other": (Rule(angle=30, spacing=2.0),),
    "knurl": (Rule(angle=30, spacing=1.4), Rule(angle=150, spacing=1.4)),  # not a material: a diamond knurl
}


@lru_cache(maxsize=256)
def hatch_lines(hatch: Hatch) -> tuple[tuple[float, float, float, float], ...]:
    """Segments x1, y1, x2, y2 of a hatching, clipped to its rings by the even-odd rule."""
    return tuple(segment for rule in PATTERNS[hatch.pattern] for segment in _ruled(hatch.rings, rule))


def _ruled(rings: tuple[Ring, ...], rule: Rule) -> Iterator[tuple[float, float, float, float]]:
    """Scan lines across the outline: turn the rings until the lines lie level, cut, and turn back."""
    c, s = cos(radians(rule.angle)), sin(radians(rule.angle))
    edges = [
        (x0 * c - y0 * s, x0 * s + y0 * c, x1 * c - y1 * s, x1 * s + y1 * c)
        for ring in rings
        for (x0, y0), (x1, y1) in pairwise((*ring, ring[0]))
    ]
    if not edges:
        return
    first = min(v for _, v, _, _ in edges) - rule.offset
    last = max(v for _, v, _, _ in edges)
    row = int(first // rule.spacing) + 1
    while (level := row * rule.spacing + rule.offset) < last:
        row += 1
        # An edge owns its lower end only, so that a corner is crossed once or twice, never three times.
        cuts = sorted(
            u0 + (u1 - u0) * (level - v0) / (v1 - v0)
            for u0, v0, u1, v1 in edges
            if (v0 <= level) != (v1 <= level)
        )
        for a, b in zip(cuts[::2], cuts[1::2], strict=True):
            if b - a > 0.05:  # shorter than a printer's dot
                yield a * c + level * s, level * c - a * s, b * c + level * s, level * c - b * s
