"""`jobsheets chart`: a wall chart of one page out of the published tables."""

from argparse import Namespace
from typing import TYPE_CHECKING

from jobsheets.commands.options import Parser
from jobsheets.commands.terminal import say, say_bytes

if TYPE_CHECKING:
    from jobsheets.lookup.charts import Wanted
    from jobsheets.standards.materials import Material

KINDS = ("tap-drills", "drills", "clearance", "decimals", "speeds", "gears", "threads")
OF_A_METAL = ("tap-drills", "speeds")
OF_A_SHOP = {"speeds": "belt positions", "gears": "change gears"}
ABOUT = """\
Prints a wall chart on one page, to be read from a metre away: tap drills, drill sizes, clearance holes,
fractions of an inch, spindle speeds, change gears, or threads. With a shop file it is limited to the taps
and drills of that shop. Speeds and gears are always a shop's own: speeds by diameter, for the metals of its
rack or for each operation in one metal; gears by pitch, out of those it owns and its banjo has room for.
With --plate the rows of the lathe's own gear plate are held against its leadscrew instead."""
EXAMPLES = """\
  jobsheets chart tap-drills --shop my-shop.yaml --material brass-360
  jobsheets chart speeds --shop my-shop.yaml
  jobsheets chart gears --shop my-shop.yaml
  jobsheets chart gears --shop my-shop.yaml --plate   is the plate on the lathe right?
  jobsheets chart drills --units in
  jobsheets chart decimals -o decimals.pdf"""


def run(words: list[str]) -> int:
    """Print one chart.

    Raises:
        InputError: a shop or a material that must be mended, or a chart that would not fit its page.
    """
    args = options(words)
    limits = wanted(args)
    from jobsheets.errors import InputError, Problem

    try:
        if args.plate:
            say(_plate(limits))
            return 0
        data = _page(args, limits)
    except ValueError as exc:
        wrong, _, right = str(exc).partition("; want ")
        problem = Problem(file=f"chart {args.kind}", line=0, field="", found="", wrong=wrong, right=right)
        raise InputError((problem,)) from None
    _deliver(args, data, f"{args.kind}-{limits.system}.pdf")
    return 0


def _page(args: Namespace, limits: "Wanted") -> bytes:
    from jobsheets.lookup.charts import chart
    from jobsheets.sheet.chart import pdf

    return pdf(chart(args.kind, limits), args.paper or ("a4" if limits.system == "mm" else "letter"))


def _plate(limits: "Wanted") -> str:
    from jobsheets.lookup.gear_plate import text

    if limits.shop is None:
        raise ValueError("a gear plate is a lathe's own; want --shop FILE")
    return text(limits.shop)


def options(words: list[str]) -> Namespace:
    """The words of the command, read and checked."""
    parser = Parser("chart", ABOUT, EXAMPLES)
    add = parser.add_argument
    add("kind", metavar="KIND", choices=KINDS, help=f"one of {', '.join(KINDS)}")
    add("--shop", metavar="FILE", help="limit it to what this shop has; left out: usual sizes")
    add("--units", choices=("in", "mm"), help="left out: those of the shop, else inches")
    add("--material", metavar="NAME", help="tap-drills, speeds: the metal that is cut")
    add(
        "--plate", action="store_true", help="gears: tell as text whether the lathe's own gear plate is right"
    )
    add("--paper", choices=("letter", "a4"), help="left out: letter for inches, A4 for mm")
    add("-o", "--output", metavar="FILE", help="where to; - is stdout; left out: a PDF in this folder")
    add("--force", action="store_true", help="replace a file of that name")
    args = parser.read(words)
    if args.material is not None and args.kind not in OF_A_METAL:
        parser.error(f"--material goes with: chart {' or '.join(OF_A_METAL)}")
    if args.kind in OF_A_SHOP and args.shop is None:
        parser.error(f"{OF_A_SHOP[args.kind]} are a shop's own; chart {args.kind} wants --shop FILE")
    if args.plate and args.kind != "gears":
        parser.error("--plate goes with: chart gears")
    if args.plate and (args.output or args.paper or args.units or args.force):
        parser.error("--plate prints text; it goes with --shop FILE alone")
    return args


def wanted(args: Namespace) -> "Wanted":
    """What the options limit the chart to."""
    from jobsheets.lookup.charts import Wanted, of_taps

    material = _material(args.material) if args.material is not None else None
    if args.shop is None:
        return Wanted(system=args.units or "in", material=material)
    from pathlib import Path

    from jobsheets.commands.lookup import owned
    from jobsheets.shop.load import load

    shop = load(Path(args.shop))
    threads = of_taps(tap.thread for tap in shop.tooling.taps)
    return Wanted(
        system=args.units or shop.system,
        threads=threads,
        drills=owned(args.shop),
        material=material,
        shop=shop,
    )


def _material(name: str) -> "Material":
    from jobsheets.errors import InputError, Problem
    from jobsheets.standards import materials

    try:
        return materials.find(name)
    except ValueError as exc:
        wrong, _, right = str(exc).partition("; want ")
        problem = Problem(file="--material", line=0, field="", found=name, wrong=wrong, right=right)
        raise InputError((problem,)) from None


def _deliver(args: Namespace, data: bytes, name: str) -> None:
    """The chart to stdout, or to its file; then the name of the file is the result."""
    if args.output == "-":
        say_bytes(data)
        return
    from pathlib import Path

    from jobsheets import files

    path = Path(args.output or name)
    files.write(path, data, force=args.force)
    say(f"{path}\n")
