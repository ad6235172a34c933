"""`jobsheets sheet`: work a recipe out and print its sheets."""

import os
import sys
from argparse import Namespace

from jobsheets.commands.options import Parser, add_job
from jobsheets.commands.terminal import remark, say_bytes

ABOUT = """\
Works a recipe out for a shop: setups, order, tools, speeds, dial readings, sizes to measure. The plan is
proven by cutting its own numbers in software, checked, and printed. Where a check says stop, no sheet is
printed and the exit code is 1."""
EXAMPLES = """\
  jobsheets sheet stepped-end-nut
  jobsheets sheet stepped-end-nut --set head_length=9/32in --measured counterbore=0.2531in
  jobsheets sheet my-nut.yaml --shop my-shop.yaml --paper a4 -o nut.pdf
  jobsheets sheet stepped-end-nut --format text | less"""


def run(words: list[str]) -> int:
    """Print the sheets of a recipe.

    Raises:
        InputError: all that must be mended.
    """
    args = _options(words)
    if args.format == "pdf" and args.output == "-" and sys.stdout is not None and sys.stdout.isatty():
        remark("a PDF is no text for a terminal\n    want -o FILE, --format text, or a pipe after it")
        return 2
    from jobsheets.commands import given

    done = given.outcome(args)
    system = given.system(args, done)
    from jobsheets import job
    from jobsheets.commands import findings

    if done.plan is None or done.stopped:
        remark(f"no sheet of {done.part.name}: a check stops the job")
        sys.stderr.write(findings.told(done.stops, system, colour=False))
        return 1
    try:
        data = job.printed(done.plan, form=args.format, system=system, paper=args.paper, figures=args.figures)
    except ValueError:
        from jobsheets.commands.unprintable import blame

        blame(args.recipe, args.shop)  # the cause may be a letter in the maker's text; else it is ours
        raise
    _deliver(args, data, f"{done.part.name}-{job.fingerprint(done.plan)}.pdf")
    if done.findings:
        remark(f"{findings.counted(done.findings)} stand on the sheet; 'jobsheets check' lists them")
    return 0


def _options(words: list[str]) -> Namespace:
    parser = Parser("sheet", ABOUT, EXAMPLES)
    add_job(parser)
    add = parser.add_argument
    add("--paper", choices=("letter", "a4"), help="of the PDF; left out: letter for inches, A4 for mm")
    add("--format", choices=("pdf", "text", "json"), default="pdf", help="left out: pdf")
    add("--figures", action="store_true", help="add every number with formula, inputs, source and spread")
    add(
        "-o",
        "--output",
        metavar="FILE",
        help="where to; - is stdout; left out: a PDF in this folder, named by part and plan; text and JSON"
        " on stdout",
    )
    add("--force", action="store_true", help="replace a file of that name")
    return parser.read_job(words)


def _deliver(args: Namespace, data: bytes, name: str) -> None:
    """The sheet to stdout, or to its file; then the name of the file is the result."""
    if args.output == "-" or (args.output is None and args.format != "pdf"):
        say_bytes(data)
        return
    from pathlib import Path

    from jobsheets import files

    path = Path(args.output or name)
    files.write(path, data, force=args.force)
    say_bytes(os.fsencode(path) + b"\n")  # as it was given, whatever the terminal can show
