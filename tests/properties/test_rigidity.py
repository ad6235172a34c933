"""Stepped beams against numeric integration, and what bending, forces and motor do to a plan."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from scipy.integrate import quad

from jobsheets.cutting import deflection, stepped, whip
from jobsheets.cutting.deflection import Section, second_moment
from jobsheets.finding import Severity
from jobsheets.part.turned import TurnedPart
from jobsheets.planner import numbers, rigidity
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import HoldingKind, Motion, Plan, RowKind, Setup
from jobsheets.planner.plan import _view, plan, prove
from jobsheets.shop.shop import Proven, Shop
from jobsheets.standards import cutting_data
from tests.properties.planned import RECIPES, planned

lengths = st.floats(3.0, 60.0)
diameters = st.floats(3.0, 40.0)
steps = st.lists(
    st.builds(lambda length, d, bore: Section(length=length, diameter=d, bore=bore * d), lengths, diameters,
              st.floats(0.0, 0.9)),
    min_size=1, max_size=5,
)  # fmt: skip
shares = st.floats(0.05, 1.0)
moduli = st.floats(2.0, 220.0)
every_recipe = pytest.mark.parametrize("recipe", RECIPES)


def by_integration(sections: list[Section], modulus: float, load_at: float, at: float) -> float:
    """Unit-load theorem, each section integrated numerically."""
    total, start = 0.0, 0.0
    for one in sections:
        stop = min(start + one.length, load_at, at)
        if stop > start:
            stiffness = 1000.0 * modulus * second_moment(one.diameter, one.bore)
            total += quad(lambda s: (load_at - s) * (at - s), start, stop)[0] / stiffness
        start += one.length
    return total


@given(steps, moduli, shares, shares)
def test_flexibility_is_the_integral_and_the_same_both_ways(sections, modulus, first, second):
    end = sum(s.length for s in sections)
    a, x = first * end, second * end
    found = stepped.flexibility(sections, modulus, a, x)
    assert found == pytest.approx(by_integration(sections, modulus, a, x), rel=1e-6)
    assert found == pytest.approx(stepped.flexibility(sections, modulus, x, a), rel=1e-9)


@given(lengths, diameters, moduli, st.floats(0.05, 0.95))
def test_a_plain_bar_agrees_with_the_formulas_of_a_plain_bar(length, diameter, modulus, share):
    bar, moment = (Section(length=length, diameter=diameter),), second_moment(diameter)
    at = share * length
    assert stepped.under_load(bar, modulus, length) == pytest.approx(
        deflection.cantilever(1.0, length, modulus, moment)
    )
    assert stepped.under_load(bar, modulus, at, live_centre=True) == pytest.approx(
        deflection.chuck_and_centre(1.0, at, length, modulus, moment), rel=1e-6
    )
    assert stepped.slenderness(bar, modulus) == pytest.approx(length / diameter)


@given(steps, moduli, shares)
def test_a_live_centre_never_makes_it_softer(sections, modulus, share):
    at = share * sum(s.length for s in sections)
    held = stepped.under_load(sections, modulus, at, live_centre=True)
    assert -1e-12 <= held <= stepped.under_load(sections, modulus, at) * (1.0 + 1e-9)


@given(steps, moduli, st.integers(0, 4), st.floats(0.3, 0.95))
def test_a_slimmer_step_never_makes_it_stiffer(sections, modulus, k, share):
    k %= len(sections)
    slim = [replace(s, diameter=s.diameter * share, bore=0.0) if n == k else replace(s, bore=0.0)
            for n, s in enumerate(sections)]  # fmt: skip
    solid = [replace(s, bore=0.0) for s in sections]
    end = sum(s.length for s in sections)
    assert stepped.under_load(slim, modulus, end) >= stepped.under_load(solid, modulus, end) * (1.0 - 1e-9)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: stepped.flexibility((), 200.0, 1.0, 1.0), "without sections"),
        (
            lambda: stepped.flexibility((Section(length=5.0, diameter=4.0),), 200.0, 6.0, 1.0),
            "beyond the end",
        ),
        (lambda: stepped.flexibility((Section(length=5.0, diameter=4.0),), 0.0, 5.0, 1.0), "modulus"),
    ],
)
def test_what_cannot_be_is_refused(call, message):
    with pytest.raises(ValueError, match=message):
        call()


@cache
def bench(recipe: str, material: str = "") -> tuple[JobView, Setup]:
    """What the builders look at, and the bar in the chuck of the shipped plan."""
    done = planned(recipe)
    part = replace(done.part, material=material) if material else done.part
    return _view(part, done.shop)[0], done.setups[0]


def further_out(setup: Setup, by: float) -> Setup:
    held = replace(setup.holding, stick_out=setup.holding.stick_out + by)
    return replace(setup, holding=held, grip_from=setup.grip_from + by)


@every_recipe
@settings(max_examples=25)
@given(by=st.floats(0.0, 80.0), more=st.floats(0.0, 60.0))
def test_longer_stick_out_never_raises_depth_feed_or_speed(recipe, by, more):
    view, setup = bench(recipe)
    near, far = further_out(setup, by), further_out(setup, by + more)
    for segment in view.part.segments:
        for operation in ("turn rough", "face"):
            name = segment.id if operation == "turn rough" else ""
            depths = [
                numbers.depth(view, s, view.targets.rod, operation, segment=name).value for s in (near, far)
            ]
            assert depths[1] <= depths[0] + 1e-9
        speeds = [numbers.spindle(view, s, "turn rough", view.targets.rod, "HSS").value for s in (near, far)]
        assert speeds[1] <= speeds[0]
        width = segment.diameter.width
        limits = [rigidity.finish_limit(view, s, segment, width, "HSS", 0.1) for s in (near, far)]
        if None not in limits:
            assert limits[1] <= limits[0] * (1.0 + 1e-6)


# The freer cutting metal, then the harder, by the ratings in the notes of data/materials.csv.
HARDER = [
    ("steel-12L14", "steel-1018"),
    ("steel-1018", "steel-1045"),
    ("steel-1045", "steel-1095"),
    ("brass-360", "stainless-303"),
    ("stainless-303", "stainless-304"),
    ("aluminium-6061", "steel-1018"),
    ("steel-1018", "titanium-6al-4v"),
]


@pytest.mark.parametrize(("soft", "hard"), HARDER)
@given(diameter=st.floats(2.0, 60.0))
def test_harder_material_never_raises_speed(soft, hard, diameter):
    for operation in ("turn rough", "turn finish", "drill", "part-off"):
        speeds = []
        for name in (soft, hard):
            view, setup = bench("stepped-end-nut", name)
            speeds.append(numbers.spindle(view, setup, operation, diameter, "HSS").value)
        assert speeds[1] <= speeds[0], operation


@every_recipe
def test_no_pass_is_deeper_than_its_limit(recipe):
    for op in planned(recipe).operations:
        limit = op.figure("depth_of_cut")
        cuts = [row.depth or 0.0 for row in op.rows if row.kind in (RowKind.ROUGH, RowKind.STEP)]
        if limit is not None and op.motion is not Motion.FACE:
            assert max(cuts, default=0.0) <= limit.value + 1e-6, op.id


def motors(shop: Shop, watts: float) -> Shop:
    mill = None if shop.mill is None else replace(shop.mill, power=watts)
    return replace(shop, lathe=replace(shop.lathe, power=watts), mill=mill)


@every_recipe
@pytest.mark.parametrize("watts", [40.0, 120.0, 250.0, 550.0])
def test_a_plan_that_may_be_printed_never_asks_more_than_the_motor_has(recipe, watts):
    done = planned(recipe)
    weak = plan(done.part, motors(done.shop, watts))
    asked = {op.id: f.value for op in weak.operations if (f := op.figure("power")) is not None}
    assert asked
    stopped = {f.where for f in weak.findings if f.severity is Severity.STOP}
    assert {name for name, value in asked.items() if value > watts * (1.0 + 1e-6)} <= stopped


@every_recipe
def test_the_motor_of_the_demo_shop_is_strong_enough(recipe):
    done = planned(recipe)
    assert [f for f in done.findings if f.code == "motor-too-weak"] == []


def short_of_free(shop: Shop) -> Shop:
    """A house that wants the live centre already at one diameter."""
    return replace(shop, house=replace(shop.house, free_stick_out=1.0))


WITH_MOUTH = [r for r in RECIPES if any(h.mouth or h.thread for h in planned(r).part.holes)]


@pytest.mark.parametrize("recipe", WITH_MOUTH)
def test_long_work_goes_on_the_live_centre_once_its_holes_are_made(recipe):
    done = planned(recipe)
    held = plan(done.part, short_of_free(done.shop))
    first = held.in_setup(held.setups[0].id)
    assert held.setups[0].live_centre
    on_it = [op.number for op in first if op.on_centre]
    free = [op.number for op in first if op.motion in (Motion.SPOT, Motion.DRILL, Motion.MOUTH, Motion.TAP)]
    assert on_it
    assert min(on_it) > max(free)
    assert any(k.group == "live centre" and k.used_by == tuple(on_it) for k in held.kit)
    assert all("Live centre" in op.hints[0] for op in first if op.on_centre)
    assert prove(held)


def test_no_live_centre_where_none_is_owned_or_it_has_no_room():
    done = planned("stepped-end-nut")
    shop = short_of_free(done.shop)
    without = replace(shop, tooling=replace(shop.tooling, live_centre=None))
    cramped = replace(shop, lathe=replace(shop.lathe, room=60.0))
    assert not plan(done.part, without).setups[0].live_centre
    assert not plan(done.part, cramped).setups[0].live_centre


def with_limits(part: TurnedPart, width: float) -> TurnedPart:
    sized = tuple(
        s if s.as_stock else replace(s, diameter=replace(s.diameter, low=s.diameter.aim - width / 2.0,
                                                         high=s.diameter.aim + width / 2.0))
        for s in part.segments
    )  # fmt: skip
    return replace(part, segments=sized)


@pytest.mark.parametrize("recipe", ["threaded-mandrel", "capped-nut-body"])
def test_a_soft_house_makes_the_last_cut_shallower(recipe):
    done = planned(recipe)
    strict = replace(done.shop, house=replace(done.shop.house, bend_share=0.002))
    before = {op.id: f.value for op in done.operations if (f := op.figure("finish_depth")) is not None}
    careful = plan(done.part, strict)
    after = {op.id: f.value for op in careful.operations if (f := op.figure("finish_depth")) is not None}
    assert all(after[name] <= before[name] + 1e-9 for name in before)
    assert any(after[name] < before[name] - 1e-9 for name in before)
    over = {op.id for op in careful.operations if (f := op.figure("bending")) and f.value > f.wanted * 1.02}
    assert {f.where for f in careful.findings if f.code == "bends"} == over


def proven(shop: Shop, speed: float | None, feed: float | None = None) -> Shop:
    own = Proven(material="stainless-303", operation="turn rough", tool="HSS", speed=speed, feed=feed)
    return replace(shop, proven=(own,))


@given(speed=st.floats(1.0, 200.0))
def test_a_proven_speed_stands_before_the_books_up_to_their_high_end(speed):
    done = planned("stepped-end-nut")
    part = replace(done.part, material="stainless-303")
    view = _view(part, proven(done.shop, speed))[0]
    figure = numbers.spindle(view, done.setups[0], "turn rough", 12.7, "HSS")
    published = cutting_data.speed("ss_303", "turn rough")
    used = next(i.value for i in figure.inputs if i.name == "v")
    share = numbers.overhang_share(view, done.setups[0], "turn rough")
    assert used == pytest.approx(min(speed, published.high) * share)
    assert figure.source.startswith("own proven value")
    assert figure.spread is not None
    assert figure.spread.median == published.median


def test_a_proven_feed_is_used_and_named():
    done = planned("stepped-end-nut")
    view = _view(replace(done.part, material="stainless-303"), proven(done.shop, None, 0.07))[0]
    segment = view.part.segments[0]
    cutter = next(op.cutter for op in done.operations if op.id.startswith(segment.id))
    figure = numbers.feed(view, "turn rough", cutter, view.lathe.carriage)
    assert figure.wanted == pytest.approx(0.07)
    assert figure.source.startswith("own proven value")


@pytest.mark.parametrize(
    ("material", "hazard"), [("horn", "dust"), ("bone", "dust"), ("carbon-fibre", "dust")]
)
def test_without_published_figures_the_sheet_says_so_and_how_to_go_on(material, hazard):
    done = planned("spacer-bushing")
    found = plan(replace(done.part, material=material), done.shop)
    said = next(f for f in found.findings if f.code == "no-figure")
    assert "hand feed" in said.remedy
    assert "proven" in said.remedy
    assert any(f.code == "material-hazard" and hazard in (f.what + f.why + f.remedy).lower()
               for f in found.findings)  # fmt: skip
    speeds = {op.figure("speed").source for op in found.operations if op.motion is Motion.TURN}
    assert speeds == {"no published figure found"}
    assert all(op.figure("bending") is None for op in found.operations)


@pytest.mark.parametrize("material", ["horn", "acetal", "carbon-fibre"])
def test_a_thread_without_a_published_percent_is_drilled_inside_its_class(material):
    done = planned("stepped-end-nut")
    found = plan(replace(done.part, material=material), done.shop)
    hole = next(h for h in found.part.holes if h.thread)
    drill = next(op.cutter for op in found.operations if op.id == f"{hole.id}.drill")
    assert hole.diameter.low <= drill.diameter <= hole.diameter.high
    assert [f.where for f in found.findings if f.code == "no-percent"] == [hole.id]


def test_a_proven_value_answers_where_nothing_is_published():
    done = planned("spacer-bushing")
    own = Proven(material="horn", operation="turn rough", tool="HSS", speed=30.0)
    found = plan(replace(done.part, material="horn"), replace(done.shop, proven=(own,)))
    rough = next(op for op in found.operations if op.id.endswith(".rough"))
    assert rough.figure("speed").source == "own proven value (shop file)"


def test_a_thinner_boring_bar_takes_no_deeper_cut():
    view, setup = bench("capped-nut-body")
    depths = [
        numbers.depth(view, setup, 10.0, "bore", at=30.0, bar=bar).wanted for bar in (8.0, 6.0, 4.0, 3.0, 2.0)
    ]
    assert depths == sorted(depths, reverse=True)
    assert depths[-1] < depths[0]


def findings(done: Plan, code: str) -> list[str]:
    return [f.where for f in done.findings if f.code == code]


def test_a_boring_bar_far_out_of_its_holder_is_cautioned():
    done = planned("capped-nut-body")
    slim = tuple(replace(t, width=1.0) if t.least_bore else t for t in done.shop.tooling.lathe_tools)
    shop = replace(done.shop, tooling=replace(done.shop.tooling, lathe_tools=slim))
    bored = [op.id for op in done.operations if op.motion is Motion.BORE]
    assert bored
    assert set(bored) <= set(findings(plan(done.part, shop), "chatter"))
    assert not set(bored) & set(findings(done, "chatter"))


def test_a_chip_thinner_than_the_house_allows_is_cautioned():
    done = planned("stepped-end-nut")
    shop = replace(done.shop, house=replace(done.shop.house, least_chip=0.2))
    assert findings(plan(done.part, shop), "thin-chip")
    assert not findings(done, "thin-chip")


@every_recipe
def test_times_are_those_of_the_operations(recipe):
    done = planned(recipe)
    assert [t.setup for t in done.times] == [s.id for s in done.setups]
    spent = sum(op.cutting_minutes + op.handling_minutes for op in done.operations)
    assert sum(t.cutting + t.handling + t.hand for t in done.times) == pytest.approx(spent)
    tapped = any(op.motion in (Motion.TAP, Motion.DIE, Motion.DEBURR, Motion.ROUND) for op in done.operations)
    assert (sum(t.hand for t in done.times) > 0.0) == tapped


@given(speed=st.floats(50.0, 3000.0), diameter=st.floats(3.0, 30.0))
def test_free_length_of_a_bar_is_where_its_speed_is_half_of_the_critical(speed, diameter):
    length = whip.free_length(speed, diameter, 205.0, 7850.0)
    assert whip.critical_speed(length, diameter, 205.0, 7850.0) == pytest.approx(2.0 * speed)
    assert whip.free_length(1.1 * speed, diameter, 205.0, 7850.0) < length


def test_mandrels_are_counted_from_their_shoulder():
    for recipe in RECIPES:
        for setup in planned(recipe).setups:
            if setup.holding.kind is HoldingKind.MANDREL:
                view, _ = bench(recipe)
                out = sum(s.length for s in rigidity.standing(view, setup))
                assert out == pytest.approx(view.targets.length)
