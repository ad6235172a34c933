"""Words of the sheet, from one Jinja2 template with a macro for each kind of line.

The template is compiled once in a process. Autoescaping is off on purpose: nothing here becomes markup. The
canvas, the SVG writer and the terminal take plain text (the SVG writer escapes it itself), and an escaped
`&lt;` would be printed as such. Values are passed as arguments and never compiled, so braces in a note stay
braces.
"""

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from jinja2 import Template

PACKAGE = Path(__file__).parent.parent
FOLDERS = (PACKAGE / "templates", PACKAGE.parent / "templates")  # an installed wheel; a checkout
NAME = "sheet.j2"


@cache
def _template() -> "Template":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    environment = Environment(
        loader=FileSystemLoader(FOLDERS),
        undefined=StrictUndefined,  # a value that is missing stops the print
        autoescape=False,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        optimized=False,  # folding constants costs a tenth of compiling and saves nothing measurable
    )
    return environment.get_template(NAME)


@cache
def _macro(name: str) -> Callable[..., str]:
    return cast("Callable[..., str]", getattr(_template().module, name))


def lines(macro: str, *values: object) -> tuple[str, ...]:
    """Lines of one macro of the template.

    Args:
        macro: name of the macro.
        values: display values it takes.

    Returns:
        Its lines, without blanks at their ends and without empty ones.

    Raises:
        jinja2.UndefinedError: a value the template wants is missing.
    """
    return tuple(line for line in map(str.strip, _macro(macro)(*values).splitlines()) if line)
