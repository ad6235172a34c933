"""Limits of size of ISO metric threads: the standard's tables first, its formulas where no table reaches.

Units    mm; tolerances are whole micrometres inside.
Sources  data/thread_iso_pitch.csv and data/thread_iso_pitch_diameter.csv (ISO 965-1); formulas of ISO 965-1,
         from memory; rounded root of external threads as ASME B1.13M (radius 0.125 P).
Scope    normal length of engagement; diameters over 0.99 up to 45 mm.
"""

import re
from itertools import pairwise
from math import sqrt

from jobsheets.standards import tables
from jobsheets.standards.thread_values import Thread, ThreadLimits
from jobsheets.value import Frozen

SOURCE = "ISO 965-1 tables of deviations and tolerances, on basic diameters of ISO 724 rounded to 0.001 mm"
SOURCE_FORMULA = (
    "ISO 965-1 formula rounded to R40 preferred numbers (no table entry for this diameter and pitch)"
)

CLASS = re.compile(r"([3-9])([efghGH])(?:([4-8])\2)?")
# Combinations of two grades that ISO 965-1 recommends: pitch diameter first, then crest diameter.
TWO_GRADES = ("3h4h", "5g6g", "5h4h", "5h6h", "7e6e", "7g6g", "7h6h", "9e8e", "9g8g")
SINGLE_EXTERNAL = tuple(grade + position for grade in "468" for position in "efgh")
SINGLE_INTERNAL = tuple(grade + position for grade in "45678" for position in "GH")

STEPS = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0)  # of diameter, upper limit included
EXTERNAL_FACTOR = {3: 0.50, 4: 0.63, 5: 0.80, 6: 1.00, 7: 1.25, 8: 1.60, 9: 2.00}
INTERNAL_FACTOR = {4: 0.85, 5: 1.06, 6: 1.32, 7: 1.70, 8: 2.12}
# fmt: off
R40 = (100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
       315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950)
# fmt: on


class _Tolerances(Frozen):
    deviation: int  # away from basic size, micrometres
    pitch: int
    crest: int
    basis: str


def classes(thread: Thread, external: bool) -> tuple[str, ...]:
    """Tolerance classes that ISO 965-1 has for a thread.

    A missing table cell means that the standard has no such class for that pitch (6H finer than 0.3 mm).
    """
    wanted = SINGLE_EXTERNAL + TWO_GRADES if external else SINGLE_INTERNAL
    return tuple(name for name in wanted if _tolerances(thread, name) is not None)


def limits(thread: Thread, tolerance_class: str) -> ThreadLimits:
    """Limits of size of an ISO metric thread, internal for G and H, external for e, f, g, h.

    Raises:
        ValueError: not a class, or not one for this thread; those that exist are named.

    Source:
        ISO 965-1; docs/threads.md.
    """
    found = CLASS.fullmatch(tolerance_class)
    internal = bool(found) and tolerance_class[-1] in "GH"
    tolerances = _tolerances(thread, tolerance_class) if found else None
    if tolerances is None:
        known = ", ".join(classes(thread, external=not internal))
        raise ValueError(f"{thread.name} has no class {tolerance_class!r}; want one of {known}")
    return (_internal if internal else _external)(thread, tolerance_class, tolerances)


def _external(thread: Thread, tolerance_class: str, tol: _Tolerances) -> ThreadLimits:
    major, pitch, minor = _basic(thread)
    pitch_min = pitch - tol.deviation - tol.pitch
    return ThreadLimits(
        thread=thread.name,
        tolerance_class=tolerance_class,
        external=True,
        allowance=tol.deviation / 1000.0,
        major_max=(major - tol.deviation) / 1000.0,
        major_min=(major - tol.deviation - tol.crest) / 1000.0,
        pitch_max=(pitch - tol.deviation) / 1000.0,
        pitch_min=pitch_min / 1000.0,
        minor_max=(minor - tol.deviation) / 1000.0,
        # H/2 + H/8 + (P/8 rounded root): d2min - 0.616025 P, as ASME B1.13M
        minor_min=round(pitch_min - 616.025 * thread.pitch) / 1000.0,
        basis=tol.basis,
        source=SOURCE if tol.basis == "table" else SOURCE_FORMULA,
    )


def _internal(thread: Thread, tolerance_class: str, tol: _Tolerances) -> ThreadLimits:
    major, pitch, minor = _basic(thread)
    return ThreadLimits(
        thread=thread.name,
        tolerance_class=tolerance_class,
        external=False,
        allowance=tol.deviation / 1000.0,
        major_max=None,
        major_min=(major + tol.deviation) / 1000.0,
        pitch_max=(pitch + tol.deviation + tol.pitch) / 1000.0,
        pitch_min=(pitch + tol.deviation) / 1000.0,
        minor_max=(minor + tol.deviation + tol.crest) / 1000.0,
        minor_min=(minor + tol.deviation) / 1000.0,
        basis=tol.basis,
        source=SOURCE if tol.basis == "table" else SOURCE_FORMULA,
    )


def _basic(thread: Thread) -> tuple[int, int, int]:
    """Major, pitch and minor diameter in micrometres; ISO 724 rounds them before tolerances are applied."""
    major, pitch = 1000.0 * thread.major, 1000.0 * thread.pitch
    return round(major), round(major - 0.64951905 * pitch), round(major - 1.08253175 * pitch)


def _tolerances(thread: Thread, tolerance_class: str) -> _Tolerances | None:
    """Deviation and tolerances of a class, None where the standard has none."""
    found = CLASS.fullmatch(tolerance_class)
    row = _pitch_row(thread.pitch)
    if not found or row is None:
        return None
    grade, position, crest_grade = found[1], found[2], found[3] or found[1]
    internal = position in "GH"
    deviation = "0" if position in "hH" else row[position.lower()]
    crest = row.get(f"{'minor' if internal else 'major'}_{crest_grade}", "")
    pitch, basis = _pitch_tolerance(thread, int(grade), internal)
    if not deviation or not crest or not pitch:
        return None
    return _Tolerances(deviation=int(deviation), pitch=pitch, crest=int(crest), basis=basis)


def _pitch_row(pitch: float) -> dict[str, str] | None:
    rows = tables.load("thread_iso_pitch", key=("pitch",), ascending=("pitch",))
    return next((row for row in rows if abs(float(row["pitch"]) - pitch) < 1e-6), None)


def _pitch_tolerance(thread: Thread, grade: int, internal: bool) -> tuple[int, str]:
    """Tolerance of the pitch diameter in micrometres (0: the standard has none) and where it comes from."""
    column = f"{'internal' if internal else 'external'}_{grade}"
    for row in tables.load("thread_iso_pitch_diameter", key=("over", "pitch"), ascending=("over", "pitch")):
        if (
            float(row["over"]) < thread.major <= float(row["up_to"])
            and abs(float(row["pitch"]) - thread.pitch) < 1e-6
        ):
            return int(row.get(column) or 0), "table"
    factor = (INTERNAL_FACTOR if internal else EXTERNAL_FACTOR).get(grade, 0.0)
    step = next(((low, up) for low, up in pairwise(STEPS) if low < thread.major <= up), None)
    if step is None or not factor:
        return 0, "formula"
    mean = sqrt(step[0] * step[1])
    return _preferred(factor * 90.0 * thread.pitch**0.4 * mean**0.1), "formula"


def _preferred(value: float) -> int:
    """Nearest R40 preferred number, whole micrometres."""
    choices = [number * scale for scale in (0.1, 1.0, 10.0) for number in R40]
    nearest: float = min(choices, key=lambda number: abs(number - value))
    return round(nearest)
