"""All ratios, measured in one run: `python -m tests.benchmarks.report`. docs/performance.md explains them."""

import sys
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from zlib import compress

from jobsheets.planner.plan import prove
from jobsheets.sheet import face
from tests.benchmarks import floor, growth, measure, one_job

Row = tuple[str, str, float, float]  # goal, what against what, ratio, most


def main() -> int:
    """Print the ratios; the exit code is 1 where one is above what is allowed."""
    measured = [*rows(measure.ROUNDS), *grown()]
    for goal, what, found, most in measured:
        print(f"{goal:4}{what:66}{found:6.2f}{most:7.2f}  {'' if found <= most else 'NOT MET'}")
    return int(any(found > most for *_, found, most in measured))


def rows(rounds: int) -> list[Row]:
    """Everything, in one run on one core."""
    measure.pin()
    with TemporaryDirectory() as folder:
        return [*cold(Path(folder), rounds), *warm(3 * rounds), *size(Path(folder))]


def grown() -> list[Row]:
    """An operation among 500 against one among 5."""
    return [
        ("G17", f"{what} of an operation {name}, 500 / 5", of(name), growth.MOST)
        for name in growth.WORK
        for what, of in (("time", growth.time), ("memory", growth.memory))
    ]


def show(times: dict[str, float]) -> None:
    for name, seconds in times.items():
        print(f"    {name:30}{1000.0 * seconds:8.1f} ms")


def cold(folder: Path, rounds: int) -> list[Row]:
    """Whole processes."""
    ready = one_job.write_positions(folder)
    times = measure.in_turns(
        {
            "START": measure.cold("-c", "pass"),
            "IMPORT": measure.cold("-c", "import reportlab.pdfgen.canvas"),
            "FLOOR": measure.cold(floor.__file__, str(ready), str(folder / "floor.pdf")),
            "sheet": measure.command(*one_job.WORDS, str(folder / "sheet.pdf")),
            "check": measure.command("check", one_job.RECIPE),
            "--help": measure.command("--help"),
            "--version": measure.command("--version"),
            "mistyped command": measure.command("shete", expect=2),
            "mistyped option": measure.command("sheet", one_job.RECIPE, "--papr", "a4", expect=2),
            "help of a command": measure.command("sheet", "--help"),
        },
        rounds,
    )
    show(times)
    look(folder / "floor.pdf", folder / "sheet.pdf")
    quick = ("--help", "--version", "mistyped command", "mistyped option", "help of a command")
    return [
        ("G1", "cold sheet / FLOOR", times["sheet"] / times["FLOOR"], 2.5),
        *(("G3", f"{name} / START", times[name] / times["START"], 3.0) for name in quick),
    ]


def look(*files: Path) -> None:
    """Both hold the same number of pages, their text, and the diameter sign.

    Raises:
        RuntimeError: what was measured was not the printing of a sheet.
    """
    from pypdf import PdfReader

    texts = [[page.extract_text() for page in PdfReader(file).pages] for file in files]
    if len({len(pages) for pages in texts}) != 1:
        raise RuntimeError(f"not the same number of pages: {[len(pages) for pages in texts]}")
    for file, pages in zip(files, texts, strict=True):
        if not all(len(text) > 100 for text in pages) or not any("⌀" in text for text in pages):
            raise RuntimeError(f"{file.name}: a page without text, or no ⌀ in it")


def warm(rounds: int) -> list[Row]:
    """Parts of the job in one process that has done it before."""
    floor.register(one_job.two_pages()["faces"])
    same, two = one_job.same_pages(), one_job.two_pages()
    times = measure.in_turns(
        {
            "SHEET, two pages": measure.warm(lambda: one_job.drawn(two)),
            "the job's pages, drawn": measure.warm(lambda: one_job.drawn(same)),
            "whole job": measure.warm(one_job.whole),
            "planned and checked": measure.warm(one_job.work_out),
            "replayed": measure.warm(lambda: prove(one_job.plan())),
            "laid out": measure.warm(one_job.pages),
        },
        rounds,
    )
    show(times)
    print(f"    primitives of SHEET {one_job.primitives(two)}, of the job's pages {one_job.primitives(same)}")
    drawn, sheet = times["the job's pages, drawn"], times["SHEET, two pages"]
    return [
        ("G4", "whole job, warm / its pages drawn", times["whole job"] / drawn, 4.0),
        ("G5", "layout of its pages / its pages drawn", times["laid out"] / drawn, 0.5),
        ("G6", "planned and checked / SHEET", times["planned and checked"] / sheet, 1.0),
        ("G6", "replayed / SHEET", times["replayed"] / sheet, 1.0),
    ]


def size(folder: Path) -> list[Row]:
    """Bytes of the file, against the yardstick's with whole faces in place of its subsets of them."""
    from pypdf import PdfReader

    reader = PdfReader(BytesIO((folder / "floor.pdf").read_bytes()))
    embedded = {}
    for page in reader.pages:
        for one in page["/Resources"]["/Font"].values():
            descriptor = one.get_object().get("/FontDescriptor")
            if descriptor is not None:
                stream = descriptor.get_object().raw_get("/FontFile2")
                embedded[stream.idnum] = len(compress(stream.get_object().get_data()))
    whole = sum(len(compress(file.read_bytes())) for file in face.FILES.values())
    bare = (folder / "floor.pdf").stat().st_size - sum(embedded.values()) + whole
    made = (folder / "sheet.pdf").stat().st_size
    print(f"    {made} bytes, {bare} with whole faces ({len(embedded)} subsets in the yardstick's file)")
    return [("G11", "size / bare canvas with whole faces", made / bare, 0.8)]


if __name__ == "__main__":
    sys.exit(main())
