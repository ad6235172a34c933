"""Options that several commands share, and the answer to a mistyped one; nothing of the work is imported."""

import argparse
import sys
from collections.abc import Sequence

RECIPE = "name of a shipped recipe ('jobsheets recipes' lists them) or path of a recipe file"


class Layout(argparse.RawDescriptionHelpFormatter):
    """Help of one width; asking the terminal for its own takes longer than writing it."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, max_help_position=28, width=100)


class Parser(argparse.ArgumentParser):
    """The standard parser without guessing: whole option names only, and the nearest one offered."""

    def __init__(self, command: str, about: str, examples: str) -> None:
        super().__init__(
            prog=f"jobsheets {command}",
            description=about,
            epilog=f"examples:\n{examples}",
            formatter_class=Layout,
            allow_abbrev=False,
        )

    def read(self, words: Sequence[str]) -> argparse.Namespace:
        """Options of one command.

        Args:
            words: what stands after the command.

        Raises:
            SystemExit: help was asked for (0), or a word was not understood (2).
        """
        args, strange = self.parse_known_intermixed_args(words)
        if strange:
            self.error(self._not_known(strange[0]))
        return args

    def read_job(self, words: Sequence[str]) -> argparse.Namespace:
        """As `read`, and the recipe is known to exist: a mistyped name is told at once."""
        args = self.read(words)
        self.find(args.recipe)
        return args

    def find(self, recipe: str) -> str:
        """Path of a recipe. Raises SystemExit (2) where there is none."""
        from jobsheets import shipped

        try:
            return str(shipped.find_recipe(recipe))
        except LookupError as exc:
            self.error(f"{recipe!r}: {exc.args[0]}")
            raise

    def error(self, message: str) -> None:  # type: ignore[override]  # the word for it is slow to import
        """Say what is wrong in two lines; the whole usage would hide it."""
        if sys.stderr is not None:
            sys.stderr.write(f"{self.prog}: {message}\n    '{self.prog} --help' tells all its options\n")
        sys.exit(2)

    def _not_known(self, word: str) -> str:
        import difflib

        if not word.startswith("-"):
            return f"one word too many: {word!r} (put quotes round a value with spaces)"
        known = [name for action in self._actions for name in action.option_strings]
        close = difflib.get_close_matches(word.partition("=")[0], known, n=2, cutoff=0.5)
        return f"no such option: {word!r}" + (f"; want {' or '.join(close)}" if close else "")


def add_job(parser: Parser) -> None:
    """Options that say what is made, where, and from what."""
    parser.add_argument("recipe", metavar="RECIPE", help=RECIPE)
    parser.add_argument(
        "--set",
        metavar="NAME=VALUE",
        action="append",
        default=[],
        help="give an input another value, with its unit: --set head_length=9/32in; may be repeated",
    )
    parser.add_argument(
        "--measured",
        metavar="NAME=VALUE",
        action="append",
        default=[],
        help="size of a mate as you measured it: --measured counterbore=0.2531in; may be repeated",
    )
    parser.add_argument(
        "--shop", metavar="FILE", help="your shop file; left out: an invented demo shop in the recipe's units"
    )
    parser.add_argument(
        "--units", choices=("in", "mm"), help="unit system of what is printed; left out: the recipe's"
    )
