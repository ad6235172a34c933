"""The story on one screen: load a recipe and a shop, plan, prove, check, print. No shop arithmetic here."""

from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from msgspec import Struct

from jobsheets.errors import InputError, Problem
from jobsheets.finding import Finding, Severity
from jobsheets.part.turned import TurnedPart
from jobsheets.planner.operation import Plan
from jobsheets.planner.plan import plan as make_plan
from jobsheets.planner.stop import Stopped
from jobsheets.recipe import load as recipes
from jobsheets.shop import load as shops
from jobsheets.shop.shop import Shop

PLAN_VERSION = 1  # of the JSON form; docs/plan-json.md
DEMO_SHOPS = {"in": "inch-workshop.yaml", "mm": "metric-workshop.yaml"}
NOTHING: Mapping[str, str] = {}


class Outcome(Struct, frozen=True, kw_only=True):
    """What came of a job: a plan, or the findings that stop it."""

    part: TurnedPart
    shop: Shop
    plan: Plan | None
    findings: tuple[Finding, ...]

    @property
    def stopped(self) -> bool:
        return self.plan is None or any(f.severity is Severity.STOP for f in self.findings)


def shipped() -> Path:
    """Folder of the shipped recipes: inside an installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent
    inside = package / "recipes"
    return inside if inside.is_dir() else package.parent / "recipes"


def find_recipe(name: str) -> Path:
    """A recipe file by path, or a shipped one by name.

    Raises:
        InputError: neither exists; the nearest shipped names are offered.
    """
    path = Path(name)
    if path.suffix in (".yaml", ".yml") or path.exists():
        return path
    inside = shipped() / f"{name}.yaml"
    if inside.is_file():
        return inside
    from jobsheets.fields import nearest

    known = tuple(p.stem for p in sorted(shipped().glob("*.yaml")))
    close = nearest(name, known)
    right = (
        f"{' or '.join(close)}, or the path of a file" if close else "a name that 'jobsheets recipes' lists"
    )
    raise InputError(
        (
            Problem(
                file=name,
                line=0,
                field="",
                found="",
                wrong="no such recipe file or shipped recipe",
                right=right,
            ),
        )
    )


def load_part(
    name: str, settings: Mapping[str, str] = NOTHING, measured: Mapping[str, str] = NOTHING
) -> TurnedPart:
    """Resolve a recipe with the maker's settings and measured mates."""
    return recipes.load(find_recipe(name), settings=settings, measured=measured, shipped=shipped())


def load_shop(path: str | None, system: str) -> Shop:
    """The maker's shop file, or the demo shop of a unit system."""
    return shops.load(Path(path) if path is not None else shipped() / "shops" / DEMO_SHOPS[system])


def work_out(part: TurnedPart, shop: Shop) -> Outcome:
    """Plan a part for a shop; a job that cannot be planned comes back with its findings."""
    try:
        plan = make_plan(part, shop)
    except Stopped as stopped:
        return Outcome(part=part, shop=shop, plan=None, findings=stopped.findings)
    return Outcome(part=part, shop=shop, plan=plan, findings=plan.findings)


def fingerprint(plan: Plan) -> str:
    """Short mark of a plan: the same numbers give the same mark on any day and in any folder."""
    import hashlib

    digest = hashlib.sha256(plan_json(plan).encode()).hexdigest().upper()
    return f"{digest[:4]}-{digest[4:8]}"


def plan_json(plan: Plan) -> str:
    """The plan as JSON, sorted and versioned; docs/plan-json.md describes it."""
    import msgspec

    body = {"plan": PLAN_VERSION, **msgspec.to_builtins(plan)}
    del body["states"]  # the replay makes them again from the rows
    return msgspec.json.encode(body, order="sorted").decode()


def sheet_pdf(plan: Plan, *, system: str, paper: Literal["letter", "a4"], figures: bool = False) -> bytes:
    """The printed sheets of a plan."""
    from jobsheets.sheet import page

    return page.pdf(plan, system, fingerprint=fingerprint(plan), paper=paper, figures=figures)


def sheet_text(plan: Plan, *, system: str) -> str:
    """The sheets for a terminal."""
    from jobsheets.sheet import plain

    return plain.text(plan, system, fingerprint(plan))
