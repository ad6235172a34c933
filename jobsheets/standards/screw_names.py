"""Names of screw sizes and the diameters they stand for. mm."""

from jobsheets.standards.scale import MM_PER_INCH, ratio

NUMBER_ZERO = 0.060  # in; ASME B1.1: a number screw is 0.060 in plus 0.013 in a number
NUMBER_STEP = 0.013


def plain(name: str) -> str:
    """One spelling of a size: "# 10", "#10" and "10" as "#10", "1/4 in" as "1/4", "m5" as "M5"."""
    text = name.replace(" ", "").upper().removesuffix("IN").removeprefix("NO.").lstrip("#")
    return f"#{text}" if text.isdigit() and int(text) <= 12 else text


def major(name: str) -> float:
    """Basic major diameter of a screw size, mm.

    Args:
        name: "M5", "#10" or "1/4".

    Raises:
        ValueError: not such a name.

    Source:
        ASME B1.1 for number sizes; metric and fraction sizes are their own names.
    """
    text = plain(name)
    try:
        if text.startswith("#"):
            return MM_PER_INCH * (NUMBER_ZERO + NUMBER_STEP * int(text[1:]))
        if text.startswith("M"):
            return float(text[1:])
        inches = ratio(text)
    except ValueError:
        inches = None
    if inches is None:
        raise ValueError(f"{name!r} is not the size of a screw; want such as M5, #10 or 1/4 in")
    return MM_PER_INCH * (inches[0] / inches[1])


def closest(name: str, known: tuple[str, ...]) -> str:
    """What to offer for a size that is not known: the nearest of its kind (metric, inch), else all known."""
    try:
        diameter = major(name)
    except ValueError:
        return ", ".join(known)
    alike = [one for one in known if one.startswith("M") == plain(name).startswith("M")]
    return min(alike, key=lambda one: abs(major(one) - diameter))
