"""The pages hold what they promise: links lead somewhere, commands run, the JSON is described."""

import json
import re
import shlex
from pathlib import Path

import pytest

from jobsheets import job, shipped
from jobsheets.planner.operation import Place, RowKind

ROOT = Path(__file__).parents[2]
PAGES = sorted((ROOT / "docs").glob("*.md"))
ALL = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *PAGES]


def blocks(text: str, kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```", text, re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("page", ALL, ids=lambda path: path.name)
def test_links_lead_somewhere(page):
    for target in re.findall(r"\]\(([^)#:]+)[^):]*\)", page.read_text(encoding="utf-8")):
        assert (page.parent / target).exists(), target


def test_the_index_has_every_page():
    index = (ROOT / "docs" / "index.md").read_text(encoding="utf-8")
    missing = [page.name for page in PAGES if page.name != "index.md" and f"({page.name})" not in index]
    assert missing == []


def test_the_tutorial_can_be_typed_as_it_stands(jobsheets, tmp_path, shop):
    text = (ROOT / "docs" / "tutorial.md").read_text(encoding="utf-8")
    (nut,) = blocks(text, "yaml")
    (tmp_path / "my-nut.yaml").write_text(nut, encoding="utf-8")
    (tmp_path / "my-shop.yaml").write_text(shop, encoding="utf-8")
    lines = [line for block in blocks(text, "sh") for line in block.splitlines()]
    assert len(lines) > 10
    for line in lines:
        command, _, remark = line.partition("#")
        result = jobsheets(*shlex.split(command)[1:])
        wanted = int(remark.removeprefix(" exit code ")) if remark else 0
        assert result.returncode == wanted, f"{line}\n{result.stderr}"


def test_the_answer_in_the_readme_is_the_answer(jobsheets):
    (shown,) = blocks((ROOT / "README.md").read_text(encoding="utf-8"), "text")
    command, _, answer = shown.partition("\n")
    assert jobsheets(*shlex.split(command.removeprefix("$ jobsheets"))).stdout == answer


def _names(value: object) -> set[str]:
    if isinstance(value, dict):
        return {n for k, v in value.items() if k != "shop" for n in {k, *_names(v)}}
    return {n for v in value for n in _names(v)} if isinstance(value, list) else set()


def test_every_kind_of_row_and_place_is_described():
    described = set(re.findall(r"`(\w+)`", (ROOT / "docs" / "plan-json.md").read_text(encoding="utf-8")))
    assert {*map(str, RowKind), *map(str, Place)} - described == set()


@pytest.mark.parametrize("name", shipped.recipe_names())
def test_every_name_of_the_json_is_described(name):
    part = job.load_part(name)
    plan = job.work_out(part, job.load_shop(None, part.system)).plan
    assert plan is not None
    found = json.loads(job.plan_json(plan))
    described = set(re.findall(r"`(\w+)`", (ROOT / "docs" / "plan-json.md").read_text(encoding="utf-8")))
    assert _names(found) - described == set()
    assert found["plan"] == job.PLAN_VERSION
    assert f"now {job.PLAN_VERSION}." in (ROOT / "docs" / "plan-json.md").read_text(encoding="utf-8")
    assert "⟨" not in job.plan_json(plan)


def test_the_recipes_of_the_how_to_can_be_used_as_they_stand(jobsheets, tmp_path):
    text = (ROOT / "docs" / "how-to-own-recipe.md").read_text(encoding="utf-8")
    collar, pins, wide = blocks(text, "yaml")
    (tmp_path / "collar.yaml").write_text(collar, encoding="utf-8")
    (tmp_path / "pinned.yaml").write_text(collar + pins, encoding="utf-8")
    (tmp_path / "wide.yaml").write_text(wide, encoding="utf-8")
    for name in ("collar", "pinned", "wide"):
        result = jobsheets("sheet", f"{name}.yaml", "--format", "text")
        assert result.returncode == 0, result.stderr
        assert "Bore the bore" in result.stdout
    order = jobsheets("sheet", "pinned.yaml", "--format", "text").stdout
    assert order.index("Bore the bore") < order.index("Rough turn the body")
