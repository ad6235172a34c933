"""Recipes and shops that come with the program: where they lie, and how they are asked for by name.

Imports next to nothing: a mistyped name is answered at once.
"""

from pathlib import Path

DEMO_SHOPS = {"in": "inch-workshop.yaml", "mm": "metric-workshop.yaml"}  # invented, and said to be so


def folder() -> Path:
    """Folder of the shipped recipes: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent
    inside = package / "recipes"
    return inside if inside.is_dir() else package.parent / "recipes"


def recipe_names() -> tuple[str, ...]:
    return tuple(sorted(path.stem for path in folder().glob("*.yaml")))


def demo_shop(system: str) -> Path:
    """The invented shop whose dials read in a unit system, "in" or "mm"."""
    return folder() / "shops" / DEMO_SHOPS[system]


def find_recipe(name: str) -> Path:
    """A recipe file by path, or a shipped one by name.

    Raises:
        LookupError: there is none; "what is wrong; want what is right", with the nearest shipped names.
    """
    path, names = Path(name), recipe_names()
    if path.is_file() or (name not in names and (path.exists() or "/" in name)):
        return path  # what is no recipe is told by the reader
    if name in names:
        return folder() / f"{name}.yaml"
    if path.suffix not in (".yaml", ".yml"):
        import difflib

        close = difflib.get_close_matches(name, names, cutoff=0.5)
        near = " or ".join(close) or "a name that 'jobsheets recipes' lists"
        raise LookupError(f"no such recipe; want {near}, or the path of a file (.yaml)")
    if path.stem in names:
        raise LookupError(f"no such file; want {path.stem}, without {path.suffix}, for the recipe shipped")
    return path
