"""From options to a worked-out job: part, shop and plan."""

from argparse import Namespace
from typing import TYPE_CHECKING

from jobsheets.commands.terminal import remark
from jobsheets.errors import InputError, Problem

if TYPE_CHECKING:
    from jobsheets.job import Outcome


def outcome(args: Namespace) -> "Outcome":
    """Work out what the options ask for; says on stderr where the demo shop stood in.

    Raises:
        InputError: all that must be mended.
    """
    settings, readings = pairs("--set", args.set), pairs("--measured", args.measured)
    from jobsheets import job

    part = job.load_part(args.recipe, settings, readings)
    shop = job.load_shop(args.shop, part.system)
    if args.shop is None:
        remark(f"planned for the invented demo shop '{shop.name}'; name yours with --shop FILE")
    return job.work_out(part, shop)


def system(args: Namespace, done: "Outcome") -> str:
    """Unit system to print in, "in" or "mm"."""
    return str(args.units or done.part.system)


def pairs(option: str, given: list[str]) -> dict[str, str]:
    """Names and values of a repeated option.

    Raises:
        InputError: one that is not name=value, or a name given twice.
    """
    result: dict[str, str] = {}
    problems: list[Problem] = []
    for text in given:
        name, equals, value = (piece.strip() for piece in text.partition("="))
        wrong = right = ""
        if not (name and equals and value):
            wrong, right = "not a name with a value", "name=value, such as rod=3/8in"
        elif name in result:
            wrong, right = "a name given twice", f"{name} once"
        if wrong:
            problems.append(Problem(file=option, line=0, field="", found=text, wrong=wrong, right=right))
        result[name] = value
    if problems:
        raise InputError(tuple(problems))
    return result
