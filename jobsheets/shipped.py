"""Recipes and shops that come with the program: where they lie, and how they are asked for by name."""

from pathlib import Path

from jobsheets.errors import InputError, Problem
from jobsheets.fields import nearest

DEMO_SHOPS = {"in": "inch-workshop.yaml", "mm": "metric-workshop.yaml"}  # invented, and said to be so


def folder() -> Path:
    """Folder of the shipped recipes: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent
    inside = package / "recipes"
    return inside if inside.is_dir() else package.parent / "recipes"


def recipe_names() -> tuple[str, ...]:
    return tuple(path.stem for path in sorted(folder().glob("*.yaml")))


def demo_shop(system: str) -> Path:
    """The invented shop whose dials read in a unit system, "in" or "mm"."""
    return folder() / "shops" / DEMO_SHOPS[system]


def find_recipe(name: str) -> Path:
    """A recipe file by path, or a shipped one by name.

    Raises:
        InputError: neither exists; the nearest shipped names are offered.
    """
    path, names = Path(name), recipe_names()
    if path.is_file() or (name not in names and (path.exists() or "/" in name)):
        return path  # what is no recipe is told by the reader
    if name in names:
        return folder() / f"{name}.yaml"
    if path.suffix in (".yaml", ".yml"):
        if path.stem not in names:
            return path
        right = f"{path.stem}, without {path.suffix}, for the recipe that is shipped"
    else:
        close = nearest(name, names)
        right = " or ".join(close) if close else "a name that 'jobsheets recipes' lists"
        right += ", or the path of a file (.yaml)"
    wrong = "no such recipe"
    raise InputError((Problem(file=name, line=0, field="", found="", wrong=wrong, right=right),))
