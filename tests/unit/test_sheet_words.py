"""Words of every shipped recipe, on pages and in plain text: lengths written out, one unit system."""

import re

import pytest

from jobsheets import job, shipped
from jobsheets.sheet import page, plain
from jobsheets.sheet.display import Text
from jobsheets.sheet.view_front import tool_name

DOUBLED = re.compile(r"\b(\w{3,}) \1\b", re.IGNORECASE)


def plans():
    for name in shipped.recipe_names():
        part = job.load_part(name)
        yield name, job.work_out(part, job.load_shop(None, part.system)).plan


@pytest.fixture(scope="module")
def all_plans():
    found = dict(plans())
    assert len(found) >= 16
    return found


def printed(plan, system, *, figures=False):
    for one in page.pages(plan, system, fingerprint="x", figures=figures):
        yield from (item.text for item in one.items if isinstance(item, Text))


def named(plan):
    """Names of tools, gauges and holdings, and what a shop says of them, in the unit they were bought in."""
    names = {op.cutter.name.lower() for op in plan.operations} | {k.name.lower() for k in plan.kit}
    names |= {tool_name(k.group, k.name).lower() for k in plan.kit} | {k.note.lower() for k in plan.kit}
    names |= {g.name.lower() for g in plan.shop.tooling.gauges}
    names |= {h.gauge.lower() for op in plan.operations for h in op.holds}
    names |= {n.lower() for s in plan.setups for n in (s.holding.name, s.holding.holder)}
    names |= {f"= {i.text.lower()}" for i in plan.part.inputs}
    return sorted(filter(None, names), key=len, reverse=True)


@pytest.mark.parametrize("system", ["in", "mm"])
def test_no_length_is_left_open_in_any_recipe(all_plans, system):
    for name, plan in all_plans.items():
        for text in (*printed(plan, system, figures=True), plain.text(plan, system, "x", figures=True)):
            assert "⟨" not in text, (name, text)
            assert "⟩" not in text, (name, text)


@pytest.mark.parametrize("system", ["in", "mm"])
def test_no_length_of_the_other_system_in_any_recipe(all_plans, system):
    """Bars are named as bought, in both systems, and the head says how the two compare."""
    foreign = re.compile(rf"[0-9] {'mm' if system == 'in' else 'in(?! the)'}\b(?!/)")
    for name, plan in all_plans.items():
        names = named(plan)
        for line in " ".join(plain.text(plan, system, "x").split()).lower().split(". "):
            line = re.sub(r"resolves \S+ (in|mm)", "", line)  # as it is marked on the gauge
            said = re.sub(r"\S+ round, \S+ (in|mm) \(\S+ (in|mm)\)|1 in = 25\.4 mm|25\.4 mm = 1 in", "", line)
            for tool in names:
                said = said.replace(tool, "")
            assert not foreign.search(said), (name, said)


def test_no_word_stands_twice_in_a_row(all_plans):
    for name, plan in all_plans.items():
        for text in printed(plan, plan.part.system):
            assert not DOUBLED.search(text), (name, text)
