"""`jobsheets recipes`: what is shipped, and what may be set on one recipe."""

from argparse import Namespace
from pathlib import Path
from textwrap import wrap

from jobsheets.commands.options import RECIPE, Parser
from jobsheets.commands.terminal import WIDE, say

ABOUT = """\
Lists the recipes that come with the program. With the name of one: its inputs (for --set), the sizes to
measure on its mates (for --measured), and where its file lies, to copy and change."""
EXAMPLES = """\
  jobsheets recipes
  jobsheets recipes stepped-end-nut
  jobsheets recipes my-nut.yaml"""


def run(words: list[str]) -> int:
    """List recipes, or the inputs of one.

    Raises:
        InputError: a file that is no recipe.
    """
    parser = Parser("recipes", ABOUT, EXAMPLES)
    parser.add_argument("recipe", metavar="RECIPE", nargs="?", help=RECIPE)
    args: Namespace = parser.read(words)
    say(_all() if args.recipe is None else _one(parser.find(args.recipe)))
    return 0


def _all() -> str:
    from jobsheets import shipped
    from jobsheets.recipe.load import describe

    lines = []
    for name in shipped.recipe_names():
        found = describe(shipped.find_recipe(name), shipped=shipped.folder())
        lines.append(f"{name:<26}{found.system:<4}{found.title}")
    shops = "\n".join(f"    {shipped.demo_shop(system)}" for system in shipped.DEMO_SHOPS)
    return "\n".join(lines) + f"\n\nDemo shops, invented, to copy and change:\n{shops}\n"


def _one(file: str) -> str:
    from jobsheets import shipped
    from jobsheets.recipe.load import InputHelp, describe

    def declared(one: InputHelp) -> list[str]:
        said = f"    {one.name:<16}{one.text:<22}{one.help}"
        span = " ".join(filter(None, (one.least and f"from {one.least}", one.most and f"to {one.most}")))
        span = f"one of {', '.join(one.among)}" if one.among else span
        reason = f"{span}: {one.why}" if span and one.why else span
        pad = " " * 20
        return [said.rstrip(), *wrap(reason, WIDE, initial_indent=pad, subsequent_indent=pad)]

    found = describe(Path(file), shipped=shipped.folder())
    lines = [f"{found.name}: {found.title} ({found.system})", f"file: {file}"]
    if found.inputs:
        lines += ["", "Inputs, for --set NAME=VALUE:", *(line for i in found.inputs for line in declared(i))]
    if found.mates:
        lines += ["", "Mates, for --measured NAME=VALUE:"]
        lines += [f"    {mate:<16}{ask}" for mate, ask in dict(found.mates).items()]
    return "\n".join(lines) + "\n"
