"""`jobsheets check`: what the checks say of a recipe in a shop."""

from jobsheets.commands.options import Parser, add_job
from jobsheets.commands.terminal import say

ABOUT = """\
Works a recipe out for a shop and lists what the checks say of it: STOP (scrap or injury: no sheet would be
printed), CAUTION, NOTE; each with the reason and a cure. Exit code 1 where there is a stop."""
EXAMPLES = """\
  jobsheets check stepped-end-nut
  jobsheets check my-nut.yaml --shop my-shop.yaml --set rod=1/2in"""


def run(words: list[str]) -> int:
    """List the findings of a recipe; print no sheet.

    Raises:
        InputError: all that must be mended.
    """
    parser = Parser("check", ABOUT, EXAMPLES)
    add_job(parser)
    args = parser.read_job(words)
    from jobsheets.commands import given

    done = given.outcome(args)
    from jobsheets.commands import findings

    say(findings.told(done.findings, given.system(args, done)))
    say(f"{done.part.name}: {findings.counted(done.findings)}\n")
    return 1 if done.stopped else 0
