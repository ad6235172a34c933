"""What a thread is called: Unified, ISO metric, BA, Whitworth form and Model Engineer. No sizes."""

import re
from collections.abc import Callable
from enum import StrEnum

from jobsheets.units.formatting import fraction_text
from jobsheets.units.length import millimetres
from jobsheets.units.text import DECIMAL, number, tidy
from jobsheets.value import Frozen

WANTED = "a thread such as 8-32 UNC, 1/4-20 UNC-2B, M5x0.8, 2 BA, 1/4 BSW or 1/4-40 ME"
NUMBERED = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12)  # ASME B1.1
MOST_BA = 25
MOST_INCHES = 6.0  # ASME B1.1 ends here
MOST_METRIC = 300.0  # mm
MOST_TPI = 100.0
# A whole number before the dash is a size in inches up to this many threads per inch, else a numbered size.
INCH_UP_TO = {1: 32.0, 2: 20.0, 3: 20.0, 4: 20.0, 5: 20.0, 6: 20.0}

UNIFIED_CLASS = r"[123][ABab]"
METRIC_CLASS = r"(?:[3-9][a-h]){1,2}|(?:[3-9][GH]){1,2}"

_FRACTION = r"(?:[1-9][- ])?[1-9][0-9]?/[1-9][0-9]{0,2}"
_TPI = r"[1-9][0-9]{0,2}(?:\.[0-9]{1,2})?"
_LEFT = r"(?P<left>[- ]LH)?"
_UNIFIED = (
    rf"(?i:(?:(?P<mark>#|No\.?) ?)?(?:(?P<fraction>{_FRACTION})|(?P<whole>[0-9]{{1,2}})"
    rf"|(?P<decimal>[0-9]?\.[0-9]{{2,6}}))"
    rf"(?: ?(?:in|\"))?(?:-(?P<tpi>{_TPI}))?(?:[- ]?(?P<series>UN(?:C|EF|F|S)?))?"
    rf"(?:[- ](?P<grade>{UNIFIED_CLASS}))?{_LEFT})"
)
_METRIC = (
    rf"(?i:M ?(?P<major>{DECIMAL})"
    rf"(?: ?x ?(?:Ph ?(?P<lead>{DECIMAL}) ?P ?(?P<start_pitch>{DECIMAL})|(?P<pitch>{DECIMAL})))?)"
    rf"(?:[- ](?P<grade>{METRIC_CLASS}))?(?i:{_LEFT})"
)
_BA = rf"(?i:(?:#|No\.?)? ?(?P<number>[0-9]{{1,2}}) ?BA{_LEFT})"
_BRITISH = (
    rf"(?i:(?P<size>{_FRACTION}|[1-6])(?: ?(?:in|\"))?(?: ?[-x] ?(?P<tpi>{_TPI}))? ?"
    rf"(?P<system>BSW|BSF|ME){_LEFT})"
)


class ThreadSystem(StrEnum):
    UN = "UN"
    M = "M"
    BA = "BA"
    BSW = "BSW"
    BSF = "BSF"
    ME = "ME"


class ThreadName(Frozen):
    """A thread by name, as far as the name goes. `thread` makes it; str() gives the name back."""

    system: ThreadSystem
    size: str  # "8", "1/4", "1" (inch when major_mm says so), "M5", "2"
    major_mm: float | None = None  # None for numbered sizes: the standard knows
    tpi: float | None = None  # inch threads; None where left out
    pitch_mm: float | None = None  # metric threads; None where left out
    series: str = ""  # "UNC", "UNF", "UNEF", "UNS", "UN" or ""
    tolerance_class: str = ""  # "2B", "6H", "6g", "5g6g" or ""
    left: bool = False
    starts: int = 1

    def __str__(self) -> str:
        tail = "-LH" if self.left else ""
        if self.tolerance_class:
            tail = f"-{self.tolerance_class}{tail}"
        return f"{self._designation()}{tail}"

    def _designation(self) -> str:
        if self.system is ThreadSystem.M:
            return f"{self.size}{self._metric_pitch()}"
        pitch = "" if self.tpi is None else f"-{self.tpi:g}"
        if self.system is not ThreadSystem.UN:
            return f"{self.size}{pitch} {self.system}"
        unclear = self.major_mm is None and _whole_means_inch(int(self.size), self.tpi) is not False
        return f"{'#' if unclear else ''}{self.size}{pitch}{' ' if self.series else ''}{self.series}"

    def _metric_pitch(self) -> str:
        if self.pitch_mm is None:
            return ""
        if self.starts == 1:
            return f"x{self.pitch_mm:g}"
        return f"xPh{self.pitch_mm * self.starts:g}P{self.pitch_mm:g}"


def _whole_means_inch(whole: int, tpi: float | None) -> bool | None:
    """Whether a whole number is a size in inches; None where it may be either."""
    if whole not in INCH_UP_TO:
        return False
    return None if tpi is None else tpi <= INCH_UP_TO[whole]


def thread(text: str) -> ThreadName:
    """The thread that a text names.

    Args:
        text: `8-32 UNC-2B`, `#8-32`, `1/4-20 UNC-2A-LH`, `.250-20 UNC-2A`, `M5`, `M5x0.8-6H`, `M8x1,25 - 6g`,
            `M12xPh3P1.5`, `2 BA`, `1/4 BSW`, `1/4-26 BSF`, `1/4-40 ME`.

    Raises:
        ValueError: not the name of a thread, or of one that cannot be.

    Source:
        Order of a designation: ASME B1.1 and B1.13M, ISO 965-1 (from memory); numbered sizes: ASME B1.1.
    """
    plain = re.sub(" ?- ?", "-", tidy(text))
    for pattern, read in _READERS:
        if m := re.fullmatch(pattern, plain):
            return read(m)
    raise ValueError(f"not the name of a thread; want {WANTED}")


def _tpi(m: re.Match[str]) -> float | None:
    if m["tpi"] is None:
        return None
    if float(m["tpi"]) > MOST_TPI:
        raise ValueError(f"{m['tpi']} threads per inch; want at most {MOST_TPI:.0f}")
    return float(m["tpi"])


def _inches(size: str) -> tuple[str, float]:
    """Label and major diameter of a size that is a 64th of an inch."""
    mm = millimetres(f"{size} in")
    label = fraction_text(mm)
    if label is None:
        raise ValueError(f"{size} in is no fraction of an inch; want a numbered size by its number: 8-32")
    if not 0.0 < mm <= 25.4 * MOST_INCHES:
        raise ValueError(f"{size} in is no size of a thread; want more than 0, at most {MOST_INCHES:.0f} in")
    return label.removesuffix(" in"), mm


def _coarse_enough(major: float, pitch: float | None) -> None:
    if pitch is not None and not 0.0 < pitch < major:
        raise ValueError(
            f"a pitch of {pitch:.3g} mm on a diameter of {major:.3g} mm; want a pitch below the diameter"
        )


def _unified(m: re.Match[str]) -> ThreadName:
    tpi, series = _tpi(m), (m["series"] or "").upper()
    if tpi is None and series not in ("UNC", "UNF", "UNEF"):
        raise ValueError(f"a thread without its threads per inch; want {WANTED}")
    whole = None if m["whole"] is None else int(m["whole"])
    inch = False if m["mark"] or whole is None else _whole_means_inch(whole, tpi)
    if inch is None:
        raise ValueError(
            f"{whole} {series} may be a numbered size or {whole} in; want the threads per inch too, "
            f"or #{whole} {series}"
        )
    major: float | None = None
    if whole is not None and not inch:
        if whole not in NUMBERED:
            raise ValueError(f"no numbered size {whole}; want one of {', '.join(map(str, NUMBERED))}")
        size = str(whole)
    elif m["mark"]:
        raise ValueError("a number sign before a size in inches; want #8-32 or 1/4-20")
    else:
        size, major = _inches(m["fraction"] or m["decimal"] or m["whole"])
        _coarse_enough(major, tpi and 25.4 / tpi)
    return ThreadName(
        system=ThreadSystem.UN,
        size=size,
        major_mm=major,
        tpi=tpi,
        series=series,
        tolerance_class=(m["grade"] or "").upper(),
        left=m["left"] is not None,
    )


def _metric(m: re.Match[str]) -> ThreadName:
    major = number(m["major"])
    if not 0.0 < major <= MOST_METRIC or major != round(major, 2):
        raise ValueError(f"no metric size; want such as M5 or M2.5, at most M{MOST_METRIC:.0f}")
    written = m["start_pitch"] or m["pitch"]
    pitch = None if written is None else number(written)
    if pitch is not None and pitch != round(pitch, 3):
        raise ValueError("a pitch of more than three places; want such as M5x0.8")
    _coarse_enough(major, pitch)
    return ThreadName(
        system=ThreadSystem.M,
        size=f"M{major:g}",
        major_mm=major,
        pitch_mm=pitch,
        tolerance_class=m["grade"] or "",
        left=m["left"] is not None,
        starts=1 if m["lead"] is None or pitch is None else _starts(number(m["lead"]), pitch),
    )


def _starts(lead: float, pitch: float) -> int:
    starts = round(lead / pitch)
    if not 1 <= starts <= 12 or abs(starts * pitch - lead) > 1e-9:
        raise ValueError("a lead that is not 1 to 12 pitches; want such as M12xPh3P1.5 for two starts")
    return starts


def _ba(m: re.Match[str]) -> ThreadName:
    if int(m["number"]) > MOST_BA:
        raise ValueError(f"no such BA size; want 0 BA to {MOST_BA} BA")
    return ThreadName(system=ThreadSystem.BA, size=str(int(m["number"])), left=m["left"] is not None)


def _british(m: re.Match[str]) -> ThreadName:
    system, tpi = ThreadSystem(m["system"].upper()), _tpi(m)
    size, major = _inches(m["size"])
    if system is ThreadSystem.ME and tpi is None:
        raise ValueError(
            "an ME thread without its threads per inch: a size comes in several; want such as 1/4-40 ME"
        )
    _coarse_enough(major, tpi and 25.4 / tpi)
    return ThreadName(system=system, size=size, major_mm=major, tpi=tpi, left=m["left"] is not None)


_READERS: tuple[tuple[str, Callable[[re.Match[str]], ThreadName]], ...] = (
    (_UNIFIED, _unified),
    (_METRIC, _metric),
    (_BA, _ba),
    (_BRITISH, _british),
)
