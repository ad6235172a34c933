"""Writes docs/validation.md from the check tables: `python -m tests.published.validation_page`."""

from collections import Counter
from pathlib import Path

from .figures import TABLES, Pair, pairs
from .published import HERE, half_last_place, rows

DOCS = HERE.parents[1] / "docs"
PAGE = DOCS / "validation.md"
SHOWN = 8  # figures of a table that stand on the page, spread over it
KEPT = ("kept**", "win**")  # how docs/threads.md marks a choice between sources
# Where a page tells of sources that disagree: file, heading of the section.
DISAGREE = (
    ("Threads", "threads.md", "## 10. Misprints that are not followed"),
    ("Fits, holes, stock", "fits-and-holes.md", "## Where sources disagree"),
    ("Materials", "materials.md", "## Where sources disagree"),
    ("Cutting", "cutting.md", "### Kept out, and why"),
)
HEAD = """\
# Validation: our figures beside published ones

Made by `python -m tests.published.validation_page` from the check tables in `tests/published/`; a test keeps
it current. A check is never the row that the program reads: `jobsheets/standards/data/` holds the data, the
check tables hold figures of other pages, of other columns, or worked out apart. The tests judge each figure,
to half its last printed place unless the test says why; this page only counts and shows.

*Page*: read on a page. *Memory*: remembered from the source named, not seen. *Computed*: worked out apart.

"""
ENERGY = """\
### Cutting energy (tests/published/cutting_specific_energy.csv)

A textbook's energy ranges by family (memory) meet ours at chips of 0.1 to 0.5 mm but for four materials.
Leaded brass and leaded steel lie below theirs, as free-cutting metals do. Titanium is printed 3.0 to 4.1
W s/mm3, ours is 1.5 to 2.6 with a sharp tool. Ours is kept, and unsettled: allow half as much again for force
and power in titanium.

"""
# Rows that were gathered, and why they are neither data nor a check.
NOT_USED = (
    ("feeds for nylon, PTFE, polystyrene, rigid PVC, magnesium", "not materials of the trade"),
    ("specific forces of heat-treated and case-hardening steels, cast steels", "no material of the tables"),
    ("unit power of such steels", "a check of the conversion only"),
    ("exponent forms of drilling torque and thrust, constants without unit", "cannot be brought to units"),
    ("exposure limits of oil mist, silica, dust in general", "need a measurement that the maker cannot do"),
    ("guarding of machines, bar behind the headstock", "the cautions of each operation say what to do"),
    ("inlay of shell", "no material of the tables; see horn and bone"),
)


def text() -> str:
    """The whole page."""
    return HEAD + _summary() + _areas() + _disagreements() + ENERGY + _not_used()


def _seen(file: str) -> str:
    counts = Counter(row.get("seen", "") or "computed" for row in rows(file))
    return ", ".join(f"{name} {counts[name]}" for name in sorted(counts))


def _off(pair: Pair) -> float:
    """Difference in half last places of the print; up to 1 the figures are the same as printed."""
    return abs(pair.ours - float(pair.printed)) / half_last_place(pair.printed)


def _summary() -> str:
    lines = [
        "| area | check table | rows, as seen | figures beside ours | same as printed |",
        "| --- | --- | --- | ---: | ---: |",
    ]
    total = same = counted = 0
    named = {file for _, file, _ in TABLES}
    others = sorted(path.name for path in HERE.glob("*.csv") if path.name not in named)
    for area, file, ours in (*TABLES, *(("Others", file, None) for file in others)):
        count = len(rows(file))
        if ours is None:
            counted += count
            lines.append(f"| {area} | {file} | {count} ({_seen(file)}) | judged by its test | |")
            continue
        found = pairs(file, ours)
        alike = sum(_off(pair) <= 1.0 for pair in found)
        total, same = total + len(found), same + alike
        lines.append(f"| {area} | {file} | {count} ({_seen(file)}) | {len(found)} | {alike} |")
    lines.append(f"| all | | | {total} | {same} |")
    told = f"\n{total} figures stand beside ours, {same} the same to the last printed place; "
    return "\n".join(lines) + "\n" + told + f"{counted} more rows are judged by their tests.\n\n"


def _areas() -> str:
    """Of each table some figures spread over it, and every one that is not the same as printed."""
    parts = []
    for area, file, ours in TABLES:
        if ours is None:
            continue
        found = pairs(file, ours)
        apart = sorted((pair for pair in found if _off(pair) > 1.0), key=_off, reverse=True)
        some = found[:: max(1, len(found) // SHOWN)][:SHOWN]
        parts.append(f"## {area}: {file}\n\n{_table(some)}")
        if apart:
            told = f"Not the same as printed: {len(apart)} of {len(found)}, widest first."
            parts.append(f"{told}\n\n{_table(apart[:SHOWN])}")
    return "\n".join(parts) + "\n"


def _table(found: list[Pair]) -> str:
    lines = ["| what | printed | ours |", "| --- | ---: | ---: |"]
    for pair in found:
        places = len(pair.printed.partition(".")[2]) + 1
        lines.append(f"| {pair.what} | {pair.printed} | {pair.ours:.{places}f} |")
    return "\n".join(lines) + "\n"


def _disagreements() -> str:
    parts = ["## Where sources disagree, which was kept, and why\n"]
    parts.append(f"### Threads, formulas (docs/threads.md)\n\n{_kept(DOCS / 'threads.md')}\n")
    for area, file, heading in DISAGREE:
        parts.append(f"### {area} (docs/{file})\n\n{_section(DOCS / file, heading)}\n")
    return "\n".join(parts) + "\n"


def _not_used() -> str:
    lines = ["## Rows that were gathered and are not used", "", "| rows | why |", "| --- | --- |"]
    return "\n".join([*lines, *(f"| {what} | {why} |" for what, why in NOT_USED)]) + "\n"


def _kept(path: Path) -> str:
    """Paragraphs that say in bold which of two was kept."""
    paragraphs = path.read_text(encoding="utf-8").split("\n\n")
    return "\n\n".join(one for one in paragraphs if any(mark in one for mark in KEPT))


def _section(path: Path, heading: str) -> str:
    """What stands under a heading, to the next one."""
    lines = path.read_text(encoding="utf-8").splitlines()
    start = lines.index(heading) + 1
    end = next((n for n in range(start, len(lines)) if lines[n].startswith("#")), len(lines))
    return "\n".join(lines[start:end]).strip()


if __name__ == "__main__":
    PAGE.write_text(text(), encoding="utf-8")
