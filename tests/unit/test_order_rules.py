"""Every order rule of docs/order-rules.md holds in every shipped plan, and a plan against it is refused."""

import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest
from msgspec.structs import replace

from jobsheets import job
from jobsheets.planner.operation import Motion, Operation, Place, Plan, RowKind
from jobsheets.planner.plan import plan as make_plan
from jobsheets.planner.plan import prove
from jobsheets.planner.replay_frame import ReplayFault
from tests.properties.planned import RECIPES, planned

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "order-rules.md"

# No shipped recipe has two holes that open from one end; this one has a counterbore over a tapped hole.
COUNTERBORED = """\
recipe: 1
name: counterbored-nut
title: Counterbored nut
kind: turned
units: mm
inputs: { rod: { length: 16 mm, help: bar } }
material: brass-360
stock: { round: rod }
features:
  - { id: body, turn: 14 mm, length: 20 mm, front: { chamfer: 0.5 mm } }
  - { id: seat, counterbore: 9 mm, depth: 5 mm, from: front }
  - { id: thread, tap: M4x0.7, through: true, from: front }
limits: { default: ISO 2768-m }
"""

Pairs = Iterator[tuple[Operation, Operation, str]]  # before, after, the fact between them


@cache
def counterbored(folder: Path) -> Plan:
    path = folder / "counterbored-nut.yaml"
    path.write_text(COUNTERBORED, encoding="utf-8")
    part = job.load_part(str(path))
    return make_plan(part, job.load_shop(None, part.system))


@pytest.fixture(scope="module")
def plans(tmp_path_factory):
    return [*(planned(recipe) for recipe in RECIPES), counterbored(tmp_path_factory.getbasetemp())]


def all_of(plan: Plan, *motions: Motion) -> list[Operation]:
    return [op for op in plan.operations if op.motion in motions]


def called(plan: Plan, name: str) -> list[Operation]:
    return [op for op in plan.operations if op.id == name]


def first_of_thread(plan: Plan) -> list[Operation]:
    """The operation that begins each outside thread."""
    segments = {s.id for s in plan.part.segments}
    return [op for op in all_of(plan, Motion.DIE, Motion.SCRATCH) if op.feature in segments]


def face_then_spot(plan: Plan) -> Pairs:
    for spot in all_of(plan, Motion.SPOT):
        for face in all_of(plan, Motion.FACE):
            if spot.feature == face.feature:
                yield face, spot, f"{face.feature} faced"


def spot_then_drill(plan: Plan) -> Pairs:
    for spot in all_of(plan, Motion.SPOT):
        for drill in all_of(plan, Motion.DRILL, Motion.CROSS_DRILL):
            flat = drill.cutter.point >= 180.0
            on_axis = spot.place is Place.LATHE and spot.feature == drill.end and not flat
            across = spot.place is Place.MILL and spot.feature == drill.feature
            if spot.place is drill.place and (on_axis or across):
                yield spot, drill, f"{spot.feature} spotted"


def pilot_then_drill(plan: Plan) -> Pairs:
    drills = all_of(plan, Motion.DRILL)
    for small in drills:
        for large in drills:
            if small.feature == large.feature and small.cutter.diameter < large.cutter.diameter:
                yield small, large, f"{small.feature} piloted"


def largest_first(plan: Plan) -> Pairs:
    for wide in plan.part.holes:
        for narrow in plan.part.holes:
            if wide.end is narrow.end and wide.diameter.nominal > narrow.diameter.nominal:
                last = [op for op in plan.operations if op.feature == wide.id and op.motion is Motion.BORE]
                for drill in all_of(plan, Motion.DRILL):
                    if drill.feature == narrow.id:
                        yield last[-1], drill, f"{wide.id} made"


def drill_then_widen(plan: Plan) -> Pairs:
    for wider in all_of(plan, Motion.BORE, Motion.REAM, Motion.TAP):
        for drill in called(plan, f"{wider.feature}.drill"):
            yield drill, wider, f"{wider.feature} drilled"


def mouth_then_tap(plan: Plan) -> Pairs:
    for tap in all_of(plan, Motion.TAP):
        for mouth in called(plan, f"{tap.feature}.mouth"):
            yield mouth, tap, f"{tap.feature} mouth"


def edge_then_thread(plan: Plan) -> Pairs:
    for thread in first_of_thread(plan):
        for edge in called(plan, f"{thread.feature}.front_edge"):
            yield edge, thread, f"{thread.feature} front edge"


def blank_then_thread(plan: Plan) -> Pairs:
    for thread in first_of_thread(plan):
        for blank in called(plan, f"{thread.feature}.finish"):
            yield blank, thread, f"{thread.feature} finished"


def groove_then_thread(plan: Plan) -> Pairs:
    for thread in first_of_thread(plan):
        for groove in all_of(plan, Motion.GROOVE):
            yield groove, thread, f"{groove.feature} finished"


def concentric_then_parting(plan: Plan) -> Pairs:
    """Last cuts of what runs true; the blade is set on one segment, which a swap would meet uncut."""
    (parting,) = all_of(plan, Motion.PART_OFF)
    others = [op for op in plan.operations if op.motion is not Motion.CHAMFER]
    for op in all_of(plan, Motion.TURN, Motion.TAP, Motion.BORE, Motion.REAM, Motion.DIE, Motion.SCREWCUT):
        waited = any(n.fact in op.makes for o in others for n in o.needs if o.feature != op.feature)
        last = not waited and (op.motion is not Motion.TURN or op.id.endswith(".finish"))
        if last and op.setup == parting.setup and op.feature != parting.rows[0].touch:
            yield op, parting, "held by the bar"


def rough_then_finish(plan: Plan) -> Pairs:
    for finish in all_of(plan, Motion.TURN):
        for rough in all_of(plan, Motion.TURN, Motion.DRILL):
            first = rough.motion is Motion.DRILL or rough.id.endswith(".rough")
            if first and finish.id.endswith(".finish") and rough.setup == finish.setup:
                yield rough, finish, rough.makes[0]


def knurl_then_neighbour(plan: Plan) -> Pairs:
    ids = [s.id for s in plan.part.segments]
    rolled = {k.id: k.segment for k in plan.part.knurls}
    for knurl in all_of(plan, Motion.KNURL):
        for rough in all_of(plan, Motion.TURN):
            slim = rough.id.endswith(".rough") and ids.index(rough.feature) < ids.index(rolled[knurl.feature])
            if slim and rough.setup == knurl.setup:
                yield knurl, rough, f"{knurl.feature} knurled"


def grip_then_turned_round(plan: Plan) -> Pairs:
    for setup in plan.setups:
        held = called(plan, f"{setup.holding.on}.finish")
        if held and setup.place is Place.LATHE:
            yield held[0], plan.in_setup(setup.id)[0], f"{setup.holding.on} finished"


def cross_hole_then_clean_thread(plan: Plan) -> Pairs:
    for burr in all_of(plan, Motion.DEBURR):
        for drill in all_of(plan, Motion.CROSS_DRILL):
            yield drill, burr, f"{drill.feature} made"
        for clean in all_of(plan, Motion.CHASE):
            yield burr, clean, f"{burr.feature} deburred"


def scratch_then_thread(plan: Plan) -> Pairs:
    for scratch in all_of(plan, Motion.SCRATCH):
        for thread in called(plan, f"{scratch.feature}.screwcut"):
            yield scratch, thread, f"{scratch.feature} pitch proven"


PAIRS: dict[str, Callable[[Plan], Pairs]] = {
    "24": face_then_spot,
    "25": spot_then_drill,
    "26": pilot_then_drill,
    "27": largest_first,
    "28": drill_then_widen,
    "29": mouth_then_tap,
    "30": edge_then_thread,
    "31": blank_then_thread,
    "34": groove_then_thread,
    "35": concentric_then_parting,
    "36": rough_then_finish,
    "37": knurl_then_neighbour,
    "39": grip_then_turned_round,
    "40": cross_hole_then_clean_thread,
    "61": scratch_then_thread,
}
every_rule = pytest.mark.parametrize("rule", PAIRS)


def reordered(plan: Plan, moved: Operation, beside: Operation, after: bool) -> Plan:
    """The plan with one operation taken to just ahead of another, or just behind it, numbered anew."""
    ops = [op for op in plan.operations if op is not moved]
    ops.insert(ops.index(beside) + after, moved)
    return replace(plan, operations=tuple(replace(op, number=10 * k) for k, op in enumerate(ops, start=1)))


def alone(plan: Plan, moved: Operation, beside: Operation) -> Plan:
    """One operation taken to just behind another, and all that waits for it left out."""
    lost, out = set(moved.makes), {moved.id}
    for op in plan.operations:
        if lost & {need.fact for need in op.needs} and op is not beside:
            lost |= set(op.makes)
            out.add(op.id)
    left = tuple(op for op in plan.operations if op.id not in out or op is moved)
    return reordered(replace(plan, operations=left), moved, beside, after=True)


def swapped(plan: Plan, one: Operation, other: Operation) -> Plan:
    places = {one.id: other, other.id: one}
    ops = [places.get(op.id, op) for op in plan.operations]
    return replace(plan, operations=tuple(replace(op, number=10 * k) for k, op in enumerate(ops, start=1)))


def fault(plan: Plan) -> str:
    with pytest.raises(ReplayFault) as refused:
        prove(plan)
    return str(refused.value)


@every_rule
def test_shipped_plans_obey_the_rule(rule, plans):
    found = [(plan, *pair) for plan in plans for pair in PAIRS[rule](plan)]
    assert found, "no plan has the two operations: nothing is proven"
    for plan, before, after, fact in found:
        assert plan.operations.index(before) < plan.operations.index(after)
        assert fact in before.makes or fact in {spoiled.fact for spoiled in after.spoils}


@every_rule
def test_the_two_swapped_are_refused_and_the_fact_is_named(rule, plans):
    """Swapped, they are refused; so they are when one of them jumps over the other.

    Other operations stand between the two and may complain first, so the fact is looked for in all of them.
    """
    for plan in plans:
        for before, after, fact in PAIRS[rule](plan):
            told = [
                fault(swapped(plan, before, after)),
                fault(reordered(plan, after, before, after=False)),
                fault(reordered(plan, before, after, after=True)),
                fault(alone(plan, before, after)),
            ]
            assert any(f"'{fact}' is not true yet" in text for text in told), (before.id, after.id, told)


def test_a_grip_that_is_not_finished_is_refused_by_the_setup(plans):
    """Rule 39 is asked when the work goes in, whatever the operations of the setup need."""
    seen = 0
    for plan in plans:
        for before, _, fact in grip_then_turned_round(plan):
            bare = tuple(
                replace(
                    op,
                    makes=tuple(f for f in op.makes if f != fact),
                    needs=tuple(n for n in op.needs if n.fact != fact),
                )
                for op in plan.operations
            )
            assert re.search(f"setup '.*': '{fact}' is not true yet", fault(replace(plan, operations=bare)))
            assert before.feature == fact.split()[0]
            seen += 1
    assert seen


# Rules inside one operation, one setup or one sheet.


def noted(op: Operation, words: str) -> bool:
    return any(words in hint for hint in op.hints)


def notes(plans: list[Plan], *motions: Motion) -> list[Operation]:
    found = [op for plan in plans for op in all_of(plan, *motions)]
    assert found
    return found


def test_32_a_die_is_pushed_square_by_the_tailstock(plans):
    assert all(noted(op, "pushed square by the tailstock") for op in notes(plans, Motion.DIE))


def test_38_a_knurl_is_looked_at_before_full_pressure(plans):
    for op in notes(plans, Motion.KNURL):
        assert op.hints[0].startswith("Press in lightly")
        assert "full pressure" in op.hints[1]
        assert [hold.id for hold in op.holds] == [f"{op.feature}.pattern"]


def test_41_burrs_come_off_before_every_clamping_but_the_first(plans):
    for plan in plans:
        assert all("Burrs off every edge to be gripped" in s.before_unclamp for s in plan.setups[:-1])


def test_43_the_shares_of_the_bar_add_up(plans):
    for plan in plans:
        bar = plan.stock
        shares = (bar.grip, bar.clearance, bar.kerf, bar.part_off, bar.part, bar.facing)
        assert min(*shares, bar.saw) > 0.0
        assert sum(shares) == pytest.approx(bar.length)
        assert bar.part == pytest.approx(plan.part.length, abs=0.1)


def test_44_the_blade_is_squared_first(plans):
    assert all(op.hints[0].startswith("Square the blade") for op in notes(plans, Motion.PART_OFF))


@pytest.mark.parametrize("motion", [Motion.PART_OFF, Motion.GROOVE])
def test_45_the_carriage_is_locked(plans, motion):
    assert all(noted(op, "Lock the carriage") for op in notes(plans, motion))


def test_46_every_tool_is_laid_out(plans):
    for plan in plans:
        laid = {(one.name, number) for one in plan.kit for number in one.used_by}
        assert {(op.cutter.name, op.number) for op in plan.operations} <= laid


def test_47_every_machine_is_turned_by_hand(plans):
    for plan in plans:
        machines = [s for s in plan.setups if s.place is not Place.BENCH]
        assert all(any("Turn the spindle by hand" in line for line in s.start) for s in machines)


def test_48_every_dial_is_set_at_a_touch(plans):
    for plan in plans:
        read = [op for op in plan.operations if any(row.x or row.z for row in op.rows)]
        assert read
        assert [op.id for op in read if op.rows[0].kind is not RowKind.TOUCH] == []


def test_49_the_measuring_cut_and_the_last_cut_are_two_rows(plans):
    finishing = [op for op in notes(plans, Motion.TURN) if op.id.endswith(".finish")]
    assert finishing
    for op in finishing:
        kinds = [row.kind for row in op.rows]
        measure, finish = kinds.index(RowKind.MEASURE), kinds.index(RowKind.FINISH)
        assert finish == measure + 1
        assert op.rows[measure].diameter > op.rows[finish].diameter


def test_56_all_that_is_cut_from_the_front_is_cut_while_the_bar_holds_it(plans):
    for plan in plans:
        fronts = [h.id for h in plan.part.holes if h.end.value == "front"]
        threads = [s.id for s in plan.part.segments if s.thread]
        cut = [f"{name} {verb}" for name in (*fronts, *threads) for verb in ("made", "threaded")]
        ops = [op for op in plan.operations if any(fact in op.makes for fact in cut)]
        one = [op for op in ops if op.setup == plan.setups[0].id]
        across = {h.id for h in plan.part.cross_holes}
        assert [op.id for op in ops if op not in one and op.feature not in across] == []
        assert all("held by the bar" in {need.fact for need in op.needs} for op in one)


def test_58_a_cut_thread_is_tried_with_its_mate_or_measured(plans):
    for plan in plans:
        threaded = [op for op in plan.operations if any(f.endswith(" threaded") for f in op.makes)]
        read = {f"{op.feature}.{what}" for op in threaded for what in ("thread", "wires")}
        assert threaded or not any(h.thread for h in plan.part.holes)
        assert [op.id for op in threaded if not read & {hold.id for hold in op.holds}] == []


# The page.


def table(width: int) -> list[list[str]]:
    """Rows of the page's table with that many columns, the head left out."""
    lines = re.findall(r"^\| \d.*\|$", PAGE.read_text(encoding="utf-8"), re.MULTILINE)
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]
    return [row for row in cells if len(row) == width]


def test_the_page_names_every_rule_that_is_proven_here():
    assert [row[0] for row in table(6)] == list(PAIRS)
    inside = re.findall(r"^def test_(\d+)_", Path(__file__).read_text(encoding="utf-8"), re.MULTILINE)
    assert [row[0] for row in table(4)] == inside


@pytest.mark.parametrize("row", table(6), ids=lambda row: row[0])
def test_the_page_has_the_facts_of_the_rule_and_where_they_stand(row, plans):
    number, *_, facts, where = row
    names = re.findall(r"`([^`]+)`", facts)
    forms = [re.sub(r"[A-Z]+", "[a-z][a-z0-9_]*", name) for name in names]
    told = {fact for plan in plans for _, _, fact in PAIRS[number](plan)}
    assert [fact for fact in told if not any(re.fullmatch(form, fact) for form in forms)] == []
    assert [form for form in forms if not any(re.fullmatch(form, fact) for fact in told)] == []
    tails = [re.sub(r"[A-Z]+ ", "", name) for name in names]
    for path in re.findall(r"`([^`]+)`", where):
        text = (ROOT / "jobsheets" / path).read_text(encoding="utf-8")
        assert any(tail in text.replace("{which} edge", "front edge") for tail in tails), path


@pytest.mark.parametrize("row", table(4), ids=lambda row: row[0])
def test_the_page_names_modules_that_are_there(row):
    paths = re.findall(r"`([^`]+\.py)`", row[-1])
    assert paths
    assert all((ROOT / "jobsheets" / path).is_file() for path in paths)
