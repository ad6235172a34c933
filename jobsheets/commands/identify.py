"""`jobsheets identify`: which standard thread a measured screw is."""

from argparse import Namespace

from jobsheets.commands.options import Parser
from jobsheets.commands.terminal import say

ABOUT = """\
Ranks the standard threads that a measured screw may be, by how badly each fits the measurements, and says
which further measurement would tell them apart. The pitch is given in one of three ways."""
EXAMPLES = """\
  jobsheets identify --major 0.188in --tpi 32
  jobsheets identify --major 4.9mm --pitch 0.8mm
  jobsheets identify --major 4.13mm --count 12 --over 9.5mm"""


def run(words: list[str]) -> int:
    """Rank the threads.

    Raises:
        InputError: a measurement that is none, or outside the tables.
    """
    parser = Parser("identify", ABOUT, EXAMPLES)
    parser.add_argument("--major", metavar="LENGTH", required=True, help="diameter over the crests")
    parser.add_argument("--pitch", metavar="LENGTH", help="pitch, by pitch gauge")
    parser.add_argument("--tpi", metavar="NUMBER", type=float, help="threads per inch, by pitch gauge")
    parser.add_argument("--count", metavar="NUMBER", type=float, help="pitches counted over a length")
    parser.add_argument("--over", metavar="LENGTH", help="that length")
    parser.add_argument("--json", action="store_true", help="print it as JSON (docs/lookup.md)")
    args = parser.read(words)
    from jobsheets.lookup import screws
    from jobsheets.lookup.written import as_json, as_text

    major, pitch, over = (_length(args, name) for name in ("major", "pitch", "over"))
    try:
        found = screws.answer(major or 0.0, pitch=pitch, tpi=args.tpi, count=args.count, length=over)
    except ValueError as exc:
        raise _refused("measurements", "", exc) from None
    say(as_json(found) if args.json else as_text(found))
    return 0


def _length(args: Namespace, name: str) -> float | None:
    text = getattr(args, name)
    if text is None:
        return None
    from jobsheets.units import millimetres

    try:
        return millimetres(text)
    except ValueError as exc:
        raise _refused(f"--{name}", text, exc) from None


def _refused(where: str, found: str, exc: ValueError) -> Exception:
    from jobsheets.errors import InputError, Problem

    wrong, _, right = str(exc).partition("; want ")
    return InputError(
        (
            Problem(
                file=where, line=0, field="", found=found, wrong=wrong, right=right or "one of the examples"
            ),
        )
    )
