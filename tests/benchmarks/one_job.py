"""The job that is measured: one shipped recipe for the demo shop, from files to bytes."""

from functools import cache
from io import BytesIO
from pathlib import Path

from jobsheets import job
from jobsheets.part.turned import TurnedPart
from jobsheets.planner.operation import Plan
from jobsheets.sheet import page, pdf
from jobsheets.sheet.display import Page
from jobsheets.shop.shop import Shop
from tests.benchmarks import floor, positions, standard

RECIPE = "stepped-end-nut"
SYSTEM = "in"
PAPER: pdf.Paper = "letter"
WORDS = ("sheet", RECIPE, "--paper", PAPER, "--force", "-o")  # the same on the command line; then the file


@cache
def part() -> TurnedPart:
    return job.load_part(RECIPE)


@cache
def shop() -> Shop:
    return job.load_shop(None, SYSTEM)


@cache
def plan() -> Plan:
    found = job.work_out(part(), shop()).plan
    assert found is not None
    return found


def work_out() -> job.Outcome:
    return job.work_out(part(), shop())


def pages() -> tuple[Page, ...]:
    return page.pages(plan(), SYSTEM, fingerprint=job.fingerprint(plan()))


def whole() -> bytes:
    """All that the command does, in one process."""
    found = job.work_out(job.load_part(RECIPE), job.load_shop(None, SYSTEM)).plan
    assert found is not None
    return job.sheet_pdf(found, system=SYSTEM, paper=PAPER)


@cache
def same_pages() -> dict[str, object]:
    """Ready positions of the job's own pages."""
    return positions.of(pages(), PAPER)


@cache
def two_pages() -> dict[str, object]:
    """Ready positions of SHEET."""
    return positions.of(standard.pages(), PAPER)


def drawn(sheet: dict[str, object]) -> bytes:
    target = BytesIO()
    floor.draw(sheet, target)
    return target.getvalue()


def primitives(sheet: dict[str, object]) -> list[int]:
    """Lines, shapes and texts of each page."""
    marks = ("line", "shape", "arc", "circle", "rect", "drawString")
    listed = sheet["pages"]
    assert isinstance(listed, list)
    return [sum(name in marks for name, _ in calls) for calls in listed]


def write_positions(folder: Path) -> Path:
    """The file that a cold yardstick reads."""
    from marshal import dumps

    path = folder / "positions.marshal"
    path.write_bytes(dumps(same_pages()))
    return path
