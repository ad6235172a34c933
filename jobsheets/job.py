"""The story on one screen: load a recipe and a shop, plan, prove, check, print. No shop arithmetic here."""

from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from msgspec import Struct

from jobsheets import shipped
from jobsheets.errors import InputError, Problem
from jobsheets.finding import Finding, Severity, told
from jobsheets.part.turned import TurnedPart
from jobsheets.planner.operation import Plan
from jobsheets.planner.plan import plan as make_plan
from jobsheets.planner.stop import Stopped
from jobsheets.recipe import load as recipes
from jobsheets.shop import load as shops
from jobsheets.shop.shop import Shop
from jobsheets.value import fields

Form = Literal["pdf", "text", "json"]
Paper = Literal["letter", "a4"]

PLAN_VERSION = 1  # of the JSON form; docs/plan-json.md
PAPER: Mapping[str, Paper] = {"in": "letter", "mm": "a4"}  # what each unit system prints on
NOTHING: Mapping[str, str] = {}


class Outcome(Struct, frozen=True, kw_only=True):
    """What came of a job: a plan, or the findings that stop it."""

    part: TurnedPart
    shop: Shop
    plan: Plan | None
    findings: tuple[Finding, ...]

    @property
    def stops(self) -> tuple[Finding, ...]:
        return tuple(f for f in self.findings if f.severity is Severity.STOP)

    @property
    def stopped(self) -> bool:
        return self.plan is None or bool(self.stops)


def find_recipe(name: str) -> Path:
    """A recipe file by path, or a shipped one by name.

    Raises:
        InputError: there is none.
    """
    try:
        return shipped.find_recipe(name)
    except LookupError as exc:
        wrong, _, right = str(exc.args[0]).partition("; want ")
        raise InputError(
            (Problem(file=name, line=0, field="", found="", wrong=wrong, right=right),)
        ) from None


def load_part(
    name: str, settings: Mapping[str, str] = NOTHING, measured: Mapping[str, str] = NOTHING
) -> TurnedPart:
    """Resolve a recipe with the maker's settings and measured mates."""
    path = find_recipe(name)
    return recipes.load(path, settings=settings, measured=measured, shipped=shipped.folder())


def load_shop(path: str | None, system: str) -> Shop:
    """The maker's shop file, or the demo shop of a unit system."""
    return shops.load(Path(path) if path is not None else shipped.demo_shop(system))


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
    """The plan as JSON, sorted and versioned, all of it in mm; docs/plan-json.md describes it."""
    import msgspec

    body = {"plan": PLAN_VERSION, **msgspec.to_builtins(plan, enc_hook=fields)}
    del body["states"]  # the replay makes them again from the rows
    return told(msgspec.json.encode(body, order="sorted").decode(), "{:.3f} mm".format)


def printed(
    plan: Plan, *, form: Form, system: str, paper: Paper | None = None, figures: bool = False
) -> bytes:
    """A plan as the file a maker asked for.

    Args:
        plan: a plan without a stop among its findings.
        form: sheets as PDF or as text, or the plan as JSON.
        system: "in" or "mm", of the sheets; JSON is always in mm.
        paper: of the PDF; None: what the unit system prints on.
        figures: add every figure with its reason to the sheets; JSON always has them.
    """
    match form:
        case "pdf":
            return sheet_pdf(plan, system=system, paper=paper or PAPER[system], figures=figures)
        case "text":
            return sheet_text(plan, system=system, figures=figures).encode()
        case "json":
            return (plan_json(plan) + "\n").encode()


def sheet_pdf(plan: Plan, *, system: str, paper: Paper, figures: bool = False) -> bytes:
    """The printed sheets of a plan."""
    from jobsheets.sheet import page

    return page.pdf(plan, system, fingerprint=fingerprint(plan), paper=paper, figures=figures)


def sheet_text(plan: Plan, *, system: str, figures: bool = False) -> str:
    """The sheets for a terminal."""
    from jobsheets.sheet import plain

    return plain.text(plan, system, fingerprint(plan), figures=figures)
