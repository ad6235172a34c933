"""Which threads are standard: the table of sizes and how a thread that is none of them is refused.

Units    mm; inch sizes are converted exactly.
Sources  data/thread_sizes.csv, row by row.
Scope    UN No. 0 to 1 in, M1 to M24, 0 to 16 BA, BSW 1/16 to 1 in, BSF 3/16 to 1 in, ME 1/8 to 1/2 in.
"""

from functools import cache

from jobsheets.standards import tables
from jobsheets.standards.scale import MM_PER_INCH, in_mm
from jobsheets.standards.thread_values import Thread

ANGLE = {"UN": 60.0, "M": 60.0, "BA": 47.5, "BSW": 55.0, "BSF": 55.0, "ME": 55.0}
RANGE = {
    "UN": "No. 0 to 1 in",
    "M": "M1 to M24",
    "BA": "0 to 16 BA",
    "BSW": "1/16 to 1 in",
    "BSF": "3/16 to 1 in",
    "ME": "1/8 to 1/2 in, 32 or 40 tpi",
}
# The series that is meant when only the size is said. "8" alone is no Unified thread: see `lookup`.
USUAL = {"M": "coarse"}
LARGEST_NUMBERED = 5.5  # mm; No. 12 is 5.4864 mm
SAME = 0.0005  # mm of pitch; the closest two pitches of one size differ by 0.02 mm


@cache
def everything() -> tuple[Thread, ...]:
    """Every thread of the table, system by system and series by series, in rising size."""
    rows = tables.load(
        "thread_sizes",
        key=("system", "series", "size", "tpi", "pitch"),
        ascending=("system", "series", "major"),
    )
    return tuple(_thread(row) for row in rows)


@cache
def system(name: str) -> tuple[Thread, ...]:
    """Every thread of one system.

    Raises:
        ValueError: not one of the systems.
    """
    if name not in ANGLE:
        raise ValueError(f"no thread system {name!r}; want one of {', '.join(ANGLE)}")
    return tuple(thread for thread in everything() if thread.system == name)


def lookup(
    name: str, size: str, *, tpi: float | None = None, pitch: float | None = None, series: str = ""
) -> Thread:
    """The standard thread of a system and size, its pitch completed where only one is meant.

    Args:
        name: "UN", "M", "BA", "BSW", "BSF" or "ME".
        size: "8", "1/4", "M5", "2"; "#1" is the numbered size, "1 in" the inch, "1" either.
        tpi: threads per inch, if said.
        pitch: mm, if said.
        series: "UNC", "UNF", "UNEF", "UN", "UNS", "coarse", "fine" or "", if not said.

    Raises:
        ValueError: no such thread, or more than one fits; the nearest standard ones are named.

    Source:
        data/thread_sizes.csv.
    """
    known = system(name)
    label = _label(name, size)
    sized = [thread for thread in known if thread.size == label and _meant(thread, size.strip())]
    if not sized:
        raise ValueError(
            f"no {name} thread of size {size!r}: they run {RANGE[name]}{_near_sizes(label, known)}"
        )
    wanted = MM_PER_INCH / tpi if tpi else pitch
    fitting = [
        thread
        for thread in sized
        if (wanted is None or abs(thread.pitch - wanted) < SAME)
        and series in ("", thread.series, thread.system)
    ]
    if wanted is None and not series and name in USUAL:
        fitting = [thread for thread in sized if thread.series == USUAL[name]]
    if not fitting:
        raise ValueError(_unknown(name, label, tpi, pitch, series, sized))
    if len(fitting) > 1:
        names = " or ".join(thread.name for thread in fitting)
        raise ValueError(f"{size} of {series or name} is more than one thread: did you mean {names}?")
    return fitting[0]


def _thread(row: dict[str, str]) -> Thread:
    tpi = float(row["tpi"]) if row["tpi"] else None
    return Thread(
        name=_name(row),
        system=row["system"],
        series=row["series"],
        size=row["size"],
        major=round(in_mm(row, "major"), 6),
        pitch=MM_PER_INCH / tpi if tpi else float(row["pitch"]),
        angle=ANGLE[row["system"]],
        tpi=tpi,
        source=row["source"],
        seen=row["seen"],
    )


def _name(row: dict[str, str]) -> str:
    if row["system"] == "M":
        return f"{row['size']}x{row['pitch']}"
    if row["system"] == "BA":
        return f"{row['size']} BA"
    return f"{row['size']}-{row['tpi']} {row['series']}"


def _label(name: str, size: str) -> str:
    label = size.strip().removeprefix("No.").removeprefix("#").removesuffix("in").strip()
    return f"M{label}" if name == "M" and not label.startswith("M") else label


def _meant(thread: Thread, written: str) -> bool:
    """Whether a written size can mean this thread: No. 1 and 1 in are both plain 1 in their thread's name."""
    numbered = thread.system == "UN" and "/" not in thread.size and thread.major < LARGEST_NUMBERED
    if written.startswith(("#", "No.")):
        return numbered or thread.system != "UN"
    return not (numbered and written.endswith("in"))


def _near_sizes(label: str, known: tuple[Thread, ...]) -> str:
    """The two sizes next to a label that is none, as far as it is a number."""
    wanted = _number(label)
    if wanted is None:
        return ""
    sizes = sorted(
        {thread.size for thread in known}, key=lambda size: (abs((_number(size) or 0.0) - wanted), size)
    )
    return f"; nearest {' and '.join(sizes[:2])}"


def _number(label: str) -> float | None:
    """A label as a number that orders it: an inch fraction counts in screw numbers."""
    text = label.removeprefix("M")
    try:
        top, _, bottom = text.partition("/")
        return (float(top) / float(bottom) - 0.060) / 0.013 if bottom else float(text)
    except (ValueError, ZeroDivisionError):
        return None


def _unknown(
    name: str, label: str, tpi: float | None, pitch: float | None, series: str, sized: list[Thread]
) -> str:
    """Refusal that names the standard threads of that size, nearest pitch first."""
    wanted = MM_PER_INCH / tpi if tpi else pitch
    asked = f"{label}-{tpi:g}" if tpi else f"{label}x{pitch:g}" if pitch else label
    near = sorted(sized, key=lambda thread: abs(thread.pitch - wanted) if wanted else 0.0)
    names = [thread.name for thread in near[:3]]
    choice = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
    alike = "; they look alike, so count the threads over a measured length" if len(names) > 1 else ""
    kind = series or ("" if name == "M" else name)
    return f"{' '.join((asked, kind)).strip()} is no standard thread: did you mean {choice}?{alike}"
