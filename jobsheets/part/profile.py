"""Radius along the axis as a chain of straight pieces: how turned work is held in the replay.

A profile is a tuple of points (z, r), z never falling; two points with one z are a step (a shoulder or face).
Cuts splice only the stretch they touch, so a cut costs what it changes and not what the part is long.
"""

from bisect import bisect_left, bisect_right
from itertools import pairwise
from math import asin, cos, pi, sin

Point = tuple[float, float]
Profile = tuple[Point, ...]

SAME = 1e-9  # mm; closer than this is one place
ARC_CHORD = 5e-4  # mm; an arc is drawn with chords that stray no further


def cylinder(z0: float, z1: float, radius: float) -> Profile:
    """A plain stretch from z0 to z1, mm."""
    if z1 <= z0:
        raise ValueError(f"a profile needs length: {z0:.3f} to {z1:.3f} mm")
    return ((z0, radius), (z1, radius))


def radius_at(profile: Profile, z: float, *, before: bool = False) -> float:
    """Radius at z, mm; at a step the side after it, or before it when asked.

    Raises:
        ValueError: z lies outside the profile.
    """
    first, last = profile[0][0], profile[-1][0]
    if not first - SAME <= z <= last + SAME:
        raise ValueError(f"{z:.4f} mm lies outside the work, {first:.4f} to {last:.4f} mm")
    if before:
        i = bisect_left(profile, z - SAME, key=_z)
        if i == 0:
            return profile[0][1]
        left, right = profile[i - 1], profile[min(i, len(profile) - 1)]
    else:
        i = bisect_right(profile, z + SAME, key=_z)
        if i == len(profile):
            return profile[-1][1]
        left, right = profile[max(i - 1, 0)], profile[i]
    return _between(left, right, z)


def _z(point: Point) -> float:
    return point[0]


def _between(left: Point, right: Point, z: float) -> float:
    if right[0] - left[0] < SAME:
        return right[1]
    share = (z - left[0]) / (right[0] - left[0])
    return left[1] + min(1.0, max(0.0, share)) * (right[1] - left[1])


def _stretch(profile: Profile, a: float, b: float) -> tuple[int, int, list[Point]]:
    """Indices of the points strictly inside (a, b), and the stretch with its ends evaluated."""
    i = bisect_right(profile, a + SAME, key=_z)
    j = bisect_left(profile, b - SAME, key=_z)
    inside = list(profile[i:j])
    return i, j, [(a, radius_at(profile, a)), *inside, (b, radius_at(profile, b, before=True))]


def cut_below(profile: Profile, line: Profile) -> Profile:
    """Lower the profile to `line` wherever it stands above it: a cut on the outside.

    Args:
        profile: the outside of the work.
        line: path of the cutting edge, points with z rising; the part of it beyond the work cuts air.
    """
    return _merge(profile, line, lower=True)


def cut_above(profile: Profile, line: Profile) -> Profile:
    """Raise the profile to `line` wherever it stands below it: a cut in a bore."""
    return _merge(profile, line, lower=False)


def _merge(profile: Profile, line: Profile, *, lower: bool) -> Profile:
    a, b = max(profile[0][0], line[0][0]), min(profile[-1][0], line[-1][0])
    if b - a < SAME:
        return profile
    if len(line) == 2 and line[0][1] == line[1][1]:
        met = _met(profile, a, b, line[0][1], lower)
        if met is None:
            return profile
        a, b = met
    _, _, old = _stretch(profile, a, b)
    _, _, new = _stretch(line, a, b)
    chosen = _envelope(old, new, lower)
    # Points that lie on the ends of the stretch are drawn anew: a step there has changed its height.
    head = list(profile[: bisect_left(profile, a - SAME, key=_z)])
    tail = list(profile[bisect_right(profile, b + SAME, key=_z) :])
    if head:
        head.append((a, radius_at(profile, a, before=True)))
    if tail:
        tail.insert(0, (b, radius_at(profile, b)))
    return _tidy(head, chosen, tail)


def _met(profile: Profile, a: float, b: float, radius: float, lower: bool) -> tuple[float, float] | None:
    """The stretch from a to b in which a cut at one radius can meet metal; the rest passes through air."""
    sign = 1.0 if lower else -1.0
    i, j = bisect_right(profile, a + SAME, key=_z), bisect_left(profile, b - SAME, key=_z)
    proud = [
        k for k in range(max(i - 1, 0), min(j + 1, len(profile))) if sign * (profile[k][1] - radius) > 0.0
    ]
    if not proud:
        return None
    begin, end = profile[max(proud[0] - 1, 0)][0], profile[min(proud[-1] + 1, len(profile) - 1)][0]
    begin, end = max(a, begin), min(b, end)
    return (begin, end) if end - begin >= SAME else (a, b)


def _envelope(old: list[Point], new: list[Point], lower: bool) -> list[Point]:
    """Lower (or upper) envelope of two chains over the same stretch."""
    sign = 1.0 if lower else -1.0
    places = sorted({round(z, 12) for z, _ in old} | {round(z, 12) for z, _ in new})
    zs = [places[0]]
    for z in places[1:]:
        if z - zs[-1] > SAME:
            zs.append(z)
    result: list[Point] = []
    p, q = tuple(old), tuple(new)
    for left, right in pairwise(zs):
        a0, a1 = radius_at(p, left), radius_at(p, right, before=True)
        b0, b1 = radius_at(q, left), radius_at(q, right, before=True)
        d0, d1 = sign * (a0 - b0), sign * (a1 - b1)
        result.append((left, b0 if d0 > 0 else a0))
        if d0 * d1 < 0:
            share = d0 / (d0 - d1)
            z = left + share * (right - left)
            result.append((z, a0 + share * (a1 - a0)))
        result.append((right, b1 if d1 > 0 else a1))
    return result


def _tidy(head: list[Point], middle: list[Point], tail: list[Point]) -> Profile:
    """Join the stretches and drop points that say nothing, looking only at the seams and the new stretch."""
    out = head[-2:]
    keep = head[:-2]
    for point in (*middle, *tail[:2]):
        if out and abs(point[0] - out[-1][0]) < SAME and abs(point[1] - out[-1][1]) < SAME:
            continue
        while len(out) >= 2 and _straight(out[-2], out[-1], point):
            out.pop()
        out.append(point)
    return tuple(keep) + tuple(out) + tuple(tail[2:])


def _straight(a: Point, b: Point, c: Point) -> bool:
    if c[0] - a[0] < SAME:  # three points on one step
        return (b[1] - a[1]) * (c[1] - b[1]) >= 0
    if b[0] - a[0] < SAME or c[0] - b[0] < SAME:
        return False
    return abs(_between(a, c, b[0]) - b[1]) < SAME


def trimmed(profile: Profile, a: float, b: float) -> Profile:
    """The stretch of the profile from a to b, mm."""
    _, _, stretch = _stretch(profile, a, b)
    return tuple(stretch)


def extreme(profile: Profile, a: float, b: float, *, largest: bool) -> float:
    """Largest (or smallest) radius between a and b, mm."""
    _, _, stretch = _stretch(profile, a, b)
    radii = [r for _, r in stretch]
    return max(radii) if largest else min(radii)


def step_near(profile: Profile, z: float, reach: float) -> tuple[float, float, float] | None:
    """The tallest step within `reach` of z: (its z, radius before, radius after), or None."""
    i = bisect_left(profile, z - reach - SAME, key=_z)
    best: tuple[float, float, float] | None = None
    while i + 1 < len(profile) and profile[i][0] <= z + reach + SAME:
        (z0, r0), (z1, r1) = profile[i], profile[i + 1]
        if z1 - z0 < SAME and (best is None or abs(r1 - r0) > abs(best[2] - best[1])):
            best = (z0, r0, r1)
        i += 1
    return best


def ball_cap(face_z: float, height: float, radius: float, *, toward_back: bool) -> Profile:
    """Outline of a ball cap that rises from a face over a cylinder of `radius`, z rising, mm.

    Args:
        face_z: z of the pole of the cap.
        height: height of the cap.
        radius: radius of the cylinder it grows from.
        toward_back: the pole is at the larger z.
    """
    ball = (radius * radius + height * height) / (2.0 * height)
    half = asin(min(1.0, radius / ball)) if height <= radius else pi - asin(min(1.0, radius / ball))
    count = max(8, int(half / (2.0 * (2.0 * ARC_CHORD / ball) ** 0.5)) + 1)
    points = []
    for k in range(count + 1):
        angle = half * k / count
        depth = ball * (1.0 - cos(angle))
        points.append((face_z - depth if toward_back else face_z + depth, ball * sin(angle)))
    return tuple(sorted(points))


def volume(outer: Profile, inner: Profile) -> float:
    """Volume between two profiles over their common stretch, mm^3, as a sum of cone frusta."""
    return _revolved(outer) - _revolved(inner)


def _revolved(profile: Profile) -> float:
    total = 0.0
    for (z0, r0), (z1, r1) in pairwise(profile):
        total += pi * (z1 - z0) * (r0 * r0 + r0 * r1 + r1 * r1) / 3.0
    return total
