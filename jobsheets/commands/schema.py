"""`jobsheets schema`: the JSON Schema of the files a maker writes."""

from jobsheets.commands.options import Parser
from jobsheets.commands.terminal import say

ABOUT = """\
Prints the JSON Schema (draft 2020-12) of recipes or of shop files: an editor that is given it marks a wrong
name while you type."""
EXAMPLES = """\
  jobsheets schema recipe > recipe.schema.json
  jobsheets schema shop > shop.schema.json"""


def run(words: list[str]) -> int:
    """Print one of the two schemas."""
    parser = Parser("schema", ABOUT, EXAMPLES)
    parser.add_argument("of", choices=("recipe", "shop"), help="which file it describes")
    args = parser.read(words)
    if args.of == "recipe":
        from jobsheets.recipe import schema

        say(schema.text())
    else:
        say(_shop())
    return 0


def _shop() -> str:
    from json import dumps

    from jobsheets.fields import json_schema
    from jobsheets.shop.schema import SHOP

    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Shop file"}
    return dumps({**head, **json_schema(SHOP)}, indent=1, ensure_ascii=False) + "\n"
