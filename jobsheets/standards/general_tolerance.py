"""Limits of a dimension that has none written beside it: ISO 2768-1, classes f, m, c and v.

Units    mm and degrees; every result is the plus-or-minus half of the limits.
Sources  ISO 2768-1:1989 tables 1 to 3, in data/general_tolerance.csv.
Scope    untoleranced lengths 0.5 to 4000 mm, external radii and chamfer heights, angles by their shorter leg.
"""

from jobsheets.standards import tables

CLASSES = ("f", "m", "c", "v")
LEAST = 0.5  # mm; a smaller size must have its limits written
MINUTES_PER_DEGREE = 60.0


def linear(nominal: float, cls: str) -> float:
    """Plus-or-minus limit of a length, mm.

    Args:
        nominal: size as drawn, mm.
        cls: "f", "m", "c" or "v".

    Raises:
        ValueError: an unknown class, or a size for which the class gives none.

    Source:
        ISO 2768-1:1989 table 1.
    """
    return _look_up("linear", nominal, cls)


def external_radius(nominal: float, cls: str) -> float:
    """Plus-or-minus limit of an external radius or the height of a chamfer, mm.

    Args:
        nominal: size as drawn, mm.
        cls: "f", "m", "c" or "v".

    Raises:
        ValueError: an unknown class, or a size for which the class gives none.

    Source:
        ISO 2768-1:1989 table 2.
    """
    return _look_up("external radius", nominal, cls)


def angular(shorter_leg: float, cls: str) -> float:
    """Plus-or-minus limit of an angle, degrees.

    Args:
        shorter_leg: length of the shorter side of the angle, mm.
        cls: "f", "m", "c" or "v".

    Raises:
        ValueError: an unknown class, or a leg that is not a length.

    Source:
        ISO 2768-1:1989 table 3.
    """
    return _look_up("angular", shorter_leg, cls)


def _look_up(kind: str, nominal: float, cls: str) -> float:
    if cls not in CLASSES:
        raise ValueError(f"{cls!r} is not a class of ISO 2768-1; want {', '.join(CLASSES)}")
    rows = [
        row
        for row in tables.load(
            "general_tolerance", key=("kind", "class", "over_mm"), ascending=("kind", "class", "over_mm")
        )
        if row["kind"] == kind and row["class"] == cls
    ]
    for row in rows:
        # ranges are over ... up to and including; only the least size of all belongs to the range above it
        low, high = float(row["over_mm"]), float(row["up_to_mm"])
        if low < round(nominal, 6) <= high or round(nominal, 6) == low == LEAST:
            return float(row["limit"]) / (MINUTES_PER_DEGREE if row["unit"] == "min" else 1.0)
    raise ValueError(
        f"ISO 2768-{cls} gives no {kind} limit at {nominal:g} mm: it runs from {rows[0]['over_mm']} to "
        f"{rows[-1]['up_to_mm']} mm; write the limits at the dimension"
    )
