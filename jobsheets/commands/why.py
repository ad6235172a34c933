"""`jobsheets why`: where a number comes from, why a step is done, why one comes before another."""

import sys

from jobsheets.commands.options import Parser, add_job
from jobsheets.commands.terminal import remark, say

ABOUT = """\
Explains one thing of a plan:

  20.speed    a figure: formula, inputs, what was wanted and what could be had, the limit that ruled,
              the published source and how far the sources spread, what would change it
  20          an operation: why it is done, what it waits for, what waits for it, its figures
  10 40       the order of two operations
  rejected    the ways of holding and working that were not taken, and why
  (nothing)   all that may be asked"""
EXAMPLES = """\
  jobsheets why stepped-end-nut
  jobsheets why stepped-end-nut 20.speed
  jobsheets why stepped-end-nut 10 40 --shop my-shop.yaml"""


def run(words: list[str]) -> int:
    """Explain a part of a plan.

    Raises:
        InputError: all that must be mended, or nothing of that name in the plan.
    """
    parser = Parser("why", ABOUT, EXAMPLES)
    add_job(parser)
    parser.add_argument(
        "what", metavar="WHAT", nargs="*", help="figure, operation, two operations, or rejected"
    )
    args = parser.read_job(words)
    if len(args.what) > 2:
        parser.error(
            "at most two operations can be compared; want one figure or operation, or two operations"
        )
    from jobsheets.commands import given

    done = given.outcome(args)
    system = given.system(args, done)
    if done.plan is None:
        from jobsheets.commands import findings

        remark(f"no plan of {done.part.name}: a check stops the job")
        sys.stderr.write(findings.told(done.findings, system, colour=False))
        return 1
    from jobsheets.commands.answers import answer

    say(answer(done.plan, system, tuple(args.what)))
    return 0
