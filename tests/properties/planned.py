"""Plans of every shipped recipe in the demo shop of its own units, made once."""

from functools import cache
from pathlib import Path

from jobsheets import job
from jobsheets.planner.operation import Plan
from jobsheets.planner.plan import plan

RECIPES = tuple(sorted(p.stem for p in (Path(__file__).parents[2] / "recipes").glob("*.yaml")))


@cache
def planned(recipe: str) -> Plan:
    part = job.load_part(recipe)
    return plan(part, job.load_shop(None, part.system))
