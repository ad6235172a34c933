"""What one value of a shop file may look like: text in, number out, or ValueError with what is wanted.

Lengths, angles and threads are the trade's own notation and are read by `units`; here are the few plain
numbers that only a shop has.
"""

import re
from functools import lru_cache

from jobsheets import units
from jobsheets.standards import materials, threads
from jobsheets.standards.threads import Thread

NUMBER = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6})?")
POWER = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,6})?|[1-9][0-9]?/[1-9][0-9]?) ?(W|kW|hp)")
DIAMETRAL = re.compile(r"([1-9][0-9]?) ?DP")
PER_INCH = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,3})?) ?tpi")
SURFACE = re.compile(r"([0-9]{1,4}(?:\.[0-9]{1,3})?) ?(ft|m)/min")
WATTS = {"W": 1.0, "kW": 1000.0, "hp": 745.7}  # mechanical horsepower, 550 ft lbf/s


# Each value is read twice, to check it and to build with it, and many of them stand in a file often.
remembered = lru_cache(maxsize=2048)


@remembered
def length(text: str) -> float:
    """A length above zero, mm."""
    value = units.millimetres(text)
    if not 0.0 < value < 1e4:
        raise ValueError("a length that nothing in a shop has; want more than 0, less than 10 m")
    return value


@remembered
def length_or_none(text: str) -> float:
    """A length of zero or more, mm."""
    value = units.millimetres(text)
    if not 0.0 <= value < 1e4:
        raise ValueError("a length that nothing in a shop has; want 0 mm or more, less than 10 m")
    return value


@remembered
def pitch(text: str) -> float:
    """A pitch, mm: as a length or as threads per inch."""
    if m := PER_INCH.fullmatch(text.strip()):
        if float(m[1]) == 0.0:
            raise ValueError("no threads in an inch; want such as 16 tpi")
        return 25.4 / float(m[1])
    return length(text)


@remembered
def angle(text: str) -> float:
    """An included angle of a point or a countersink, degrees."""
    value = units.degrees(text)
    if not 10.0 <= value < 180.0:
        raise ValueError("no angle of a cutting point; want 10 deg to less than 180 deg")
    return value


def tooth(text: str) -> float:
    """Size of a gear's teeth as a module, mm: as a length or as a diametral pitch."""
    if m := DIAMETRAL.fullmatch(text.strip()):
        return 25.4 / float(m[1])
    return length(text)


def number(text: str) -> float:
    """A plain number, zero or more."""
    if not NUMBER.fullmatch(text.strip()):
        raise ValueError("not a plain number; want such as 12 or 0.5")
    return float(text)


def count(text: str) -> int:
    """A whole number of one or more."""
    if not re.fullmatch(r"[1-9][0-9]{0,5}", text.strip()):
        raise ValueError("not a whole number; want such as 50")
    return int(text)


def divisions(text: str) -> float:
    """Divisions of a collar: whole, or whole and a half where the last one is cut short."""
    value = number(text)
    if not 1.0 <= value <= 1000.0 or (2.0 * value) % 1.0:
        raise ValueError("not the divisions of a collar; want a whole number, or a half more such as 62.5")
    return value


def share(text: str) -> float:
    """A number above 0, up to and including 1."""
    value = number(text)
    if not 0.0 < value <= 1.0:
        raise ValueError("not a share; want more than 0, at most 1, such as 0.5")
    return value


def rpm(text: str) -> float:
    """A spindle speed, rev/min."""
    value = number(text)
    if not 0.0 < value <= 30_000.0:
        raise ValueError("not a spindle speed; want more than 0, at most 30000 rev/min")
    return value


def watts(text: str) -> float:
    """A motor's power, W."""
    m = POWER.fullmatch(text.strip())
    if m is None:
        raise ValueError("not a power with its unit; want such as 550 W, 0.55 kW or 3/4 hp")
    top, _, below = m[1].partition("/")
    value = float(top) / float(below or 1.0) * WATTS[m[2]]
    if not 10.0 <= value <= 20_000.0:
        raise ValueError("not the power of a small machine; want 10 W to 20 kW")
    return value


def surface_speed(text: str) -> float:
    """A cutting speed, m/min."""
    m = SURFACE.fullmatch(text.strip())
    if m is None:
        raise ValueError("not a cutting speed with its unit; want such as 90 ft/min or 28 m/min")
    value = float(m[1]) * (0.3048 if m[2] == "ft" else 1.0)
    if not 0.0 < value <= 1000.0:
        raise ValueError("not a cutting speed; want more than 0, at most 1000 m/min")
    return value


def flag(text: str) -> bool:
    """`true` or `false`; the schema has refused all else."""
    return text == "true"


@remembered
def material(text: str) -> str:
    """Id of a material, from any of its usual names."""
    return materials.find(text).id


def label(text: str) -> str:
    """What a collar says of one division: a plain number and its unit."""
    amount, _, unit = text.strip().partition(" ")
    if unit not in ("in", "mm") or not NUMBER.fullmatch(amount) or float(amount) == 0.0:
        raise ValueError("not the label of a collar; want such as 0.001 in or 0.02 mm")
    return f"{amount} {unit}"


def plain(text: str) -> str:
    return text


@remembered
def thread(text: str) -> Thread:
    """A thread whose sizes are known."""
    name = units.thread(text)
    try:
        return threads.find(name)
    except ValueError as exc:
        wrong, _, right = str(exc).partition(": ")
        raise ValueError(f"{wrong}; want {right or 'a standard thread'}") from None
