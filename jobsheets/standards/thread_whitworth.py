"""Limits of size of BA, BSW, BSF and model-engineer (ME) threads.

Units    mm; the formulas of BS 84 take inches and are converted at the door.
Sources  BA: BS 93:2008 annex B, web page; the effective tolerance of bolts, which the page does not show,
         is half its printed minor tolerance. BSW, BSF: BS 84 formula, from memory. ME: no published limits
         found; the BS 84 formula for threads of Whitworth form serves, and says so.
Scope    uncoated threads at the normal length of engagement, one diameter.
"""

from math import sqrt

from jobsheets.standards.scale import MM_PER_INCH
from jobsheets.standards.thread_form import DEPTH
from jobsheets.standards.thread_values import Thread, ThreadLimits

SOURCE_BA = "BS 93:2008 annex B, bases of the tolerances"
SOURCE_BS84 = "BS 84:1956 bases of the tolerances, from memory"
SOURCE_ME = (
    "BS 84:1956 formula for threads of Whitworth form, from memory; ME sizes have no limits of their own"
)
BA_CLASSES = (("normal bolt", "close bolt"), ("normal nut",))
BS84_CLASSES = (("free bolt", "medium bolt", "close bolt"), ("normal nut", "medium nut"))
EFFECTIVE_SHARE = {
    "close": 2.0 / 3.0,
    "medium": 1.0,
    "normal": 1.5,
    "free": 1.5,
}  # of the tolerance T of BS 84
# Minor diameter of nuts, BS 84: 0.2 P and a constant that grows with the pitch: (from tpi, inches).
NUT_MINOR = ((26.0, 0.004), (22.0, 0.005), (0.0, 0.007))

_Tolerances = tuple[float, float, float]  # major, pitch, minor, mm


def classes(thread: Thread, external: bool) -> tuple[str, ...]:
    """Classes of the thread's standard, loosest first."""
    return (BA_CLASSES if thread.system == "BA" else BS84_CLASSES)[0 if external else 1]


def limits(thread: Thread, tolerance_class: str) -> ThreadLimits:
    """Limits of size of a BA, BSW, BSF or ME thread.

    Raises:
        ValueError: no such class for this thread; those that exist are named.

    Source:
        BS 93:2008 annex B; BS 84:1956; docs/threads.md.
    """
    known = classes(thread, True) + classes(thread, False)
    if tolerance_class not in known:
        raise ValueError(f"{thread.name} has no class {tolerance_class!r}; want one of {', '.join(known)}")
    grade, _, kind = tolerance_class.partition(" ")
    tolerances = (_ba if thread.system == "BA" else _bs84)(thread, grade, kind)
    source = {"BA": SOURCE_BA, "ME": SOURCE_ME}.get(thread.system, SOURCE_BS84)
    depth = DEPTH[thread.angle] * thread.pitch
    basic = (thread.major, thread.major - depth, thread.major - 2.0 * depth)
    external = kind == "bolt"  # its tolerances lie below the basic sizes, those of a nut above
    low = tuple(size - tol for size, tol in zip(basic, tolerances, strict=True)) if external else basic
    high = basic if external else tuple(size + tol for size, tol in zip(basic, tolerances, strict=True))
    return ThreadLimits(
        thread=thread.name,
        tolerance_class=tolerance_class,
        external=external,
        allowance=0.0,
        major_max=high[0] if external else None,
        major_min=low[0],
        pitch_max=high[1],
        pitch_min=low[1],
        minor_max=high[2],
        minor_min=low[2],
        basis="formula",
        source=source,
    )


def _ba(thread: Thread, grade: str, kind: str) -> _Tolerances:
    p = thread.pitch
    if kind == "nut":
        return 0.0, 0.12 * p + 0.03, 0.375 * p
    if grade == "close":
        return 0.15 * p, 0.08 * p + 0.02, 2.0 * (0.08 * p + 0.02)
    return (0.20 if int(thread.size) <= 10 else 0.25) * p, 0.10 * p + 0.025, 0.20 * p + 0.050


def _bs84(thread: Thread, grade: str, kind: str) -> _Tolerances:
    d, p = thread.major / MM_PER_INCH, thread.pitch / MM_PER_INCH
    effective = EFFECTIVE_SHARE[grade] * (0.002 * d ** (1.0 / 3.0) + 0.003 * sqrt(d) + 0.005 * sqrt(p))
    if kind == "nut":
        minor = 0.2 * p + next(constant for tpi, constant in NUT_MINOR if (thread.tpi or 0.0) >= tpi)
        return 0.0, effective * MM_PER_INCH, minor * MM_PER_INCH
    root = 0.013 if grade == "close" else 0.02
    return (
        (effective + 0.01 * sqrt(p)) * MM_PER_INCH,
        effective * MM_PER_INCH,
        (effective + root * sqrt(p)) * MM_PER_INCH,
    )
