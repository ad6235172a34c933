"""Choosing among owned tools: the wanted one, the next best with what it changes, or what to buy."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from jobsheets import units
from jobsheets.shop import owned
from jobsheets.shop.load import load
from jobsheets.shop.shop import HouseRules, Shop
from jobsheets.shop.tools import Gauge, GaugeKind, LatheTool, LatheToolKind, TapKind, Tooling, ToolMaterial
from jobsheets.standards import threads
from jobsheets.standards.threads import Thread

SHOPS = Path(__file__).parents[2] / "recipes" / "shops"
IN = 25.4
HOUSE = HouseRules()


@pytest.fixture(scope="module")
def inch() -> Shop:
    return load(SHOPS / "inch-workshop.yaml")


@pytest.fixture(scope="module")
def metric() -> Shop:
    return load(SHOPS / "metric-workshop.yaml")


def thread(text: str) -> Thread:
    return threads.find(units.thread(text))


class TestDrills:
    def test_the_wanted_drill_is_in_the_drawer(self, inch):
        pick = owned.drill_within(inch.tooling, 0.130 * IN, 0.139 * IN, 0.136 * IN)
        assert pick.tool is not None
        assert (pick.tool.name, pick.wanted, pick.instead) == ("#29", "#29", False)

    def test_missing_drill_gives_way_to_the_nearest_inside_the_limits(self, inch):
        # 0.098 in is a #40, which is broken; 2.5 mm is no drill of this shop's series
        pick = owned.drill_within(inch.tooling, 0.096 * IN, 0.101 * IN, 0.098 * IN)
        assert pick.tool is not None
        assert (pick.tool.name, pick.wanted, pick.instead) == ("#39", "#40", True)
        assert pick.consequence == "#39 is 0.0015 in larger than #40, inside the limits"

    def test_nothing_inside_the_limits_says_how_far_off_and_what_to_buy(self, metric):
        pick = owned.drill_within(metric.tooling, 3.32, 3.38, 3.35)
        assert pick.tool is not None
        assert pick.instead
        assert pick.tool.name == "3.3 mm"
        assert "0.02 mm too small: bore or file it open" in pick.consequence
        assert "buy or borrow: drill 3.32 to 3.38 mm" in pick.consequence

    def test_nearest_drill_that_is_too_large_is_called_outside_the_limits(self, metric):
        pick = owned.drill_within(metric.tooling, 0.80, 0.90, 0.88)
        assert pick.tool is not None
        assert pick.tool.name == "1 mm"
        assert "too large: outside the limits" in pick.consequence

    def test_empty_drawer(self):
        pick = owned.drill_within(Tooling(), 3.0, 3.2, 3.1)
        assert pick.tool is None
        assert pick.consequence == "buy or borrow: drill 3.00 to 3.20 mm"

    def test_aim_outside_its_limits_is_refused(self, inch):
        with pytest.raises(ValueError, match="move the aim inside"):
            owned.drill_within(inch.tooling, 3.0, 3.2, 3.5)

    def test_largest_below_is_strictly_below(self, metric):
        pick = owned.largest_drill_below(metric.tooling, 6.0)
        assert pick.tool is not None
        assert pick.tool.name == "5.9 mm"
        assert owned.largest_drill_below(metric.tooling, 0.9).tool is None

    def test_pilot_is_about_the_house_share(self, metric):
        pick = owned.pilot_for(metric.tooling, 10.0, HOUSE)
        assert pick.tool is not None
        assert pick.tool.diameter == pytest.approx(2.5)
        assert owned.pilot_for(metric.tooling, 1.0, HOUSE).tool is None


class TestThreads:
    def test_blind_hole_gets_second_then_bottoming(self, inch):
        taps = owned.tap_for(inch.tooling, thread("8-32 UNC"), blind=True)
        assert [t.kind for t in taps.taps] == [TapKind.SECOND, TapKind.BOTTOMING]
        assert (taps.lead_threads, taps.instead, taps.consequence) == (1.5, False, "")

    def test_open_hole_gets_the_second_tap_alone(self, inch):
        taps = owned.tap_for(inch.tooling, thread("8-32 UNC"), blind=False)
        assert [t.kind for t in taps.taps] == [TapKind.SECOND]
        assert not taps.instead

    def test_no_bottoming_tap_says_how_much_more_hole(self, metric):
        taps = owned.tap_for(metric.tooling, thread("M5x0.8"), blind=True)
        assert [t.kind for t in taps.taps] == [TapKind.SECOND]
        assert taps.lead_threads == 4.0
        assert taps.instead
        assert "2.5 more threads of hole (2.00 mm)" in taps.consequence
        assert "buy or borrow: bottoming tap M5x0.8" in taps.consequence

    def test_only_a_taper_tap_in_an_open_hole_must_run_on(self, inch):
        eight = thread("8-32 UNC")
        taper = tuple(t for t in inch.tooling.taps if t.kind is TapKind.TAPER)
        taps = owned.tap_for(replace(inch.tooling, taps=taper), eight, blind=False)
        assert [t.kind for t in taps.taps] == [TapKind.TAPER]
        assert "4 more threads (0.1250 in) past the end" in taps.consequence

    def test_only_a_bottoming_tap_starts_hard(self, inch):
        last = tuple(t for t in inch.tooling.taps if t.kind is TapKind.BOTTOMING)
        taps = owned.tap_for(replace(inch.tooling, taps=last), thread("8-32 UNC"), blind=True)
        assert [t.kind for t in taps.taps] == [TapKind.BOTTOMING]
        assert "starts hard" in taps.consequence

    def test_no_tap_at_all(self, metric):
        taps = owned.tap_for(metric.tooling, thread("8-32 UNC"), blind=True)
        assert taps.taps == ()
        assert taps.lead_threads == 1.5
        assert taps.consequence == "buy or borrow: second and bottoming taps 8-32 UNC"

    def test_wrong_hand_is_told(self, inch):
        taps = owned.tap_for(inch.tooling, thread("8-32 UNC"), blind=False, left=True)
        assert taps.taps == ()
        assert taps.consequence.startswith("only right-hand taps are owned; buy or borrow")

    def test_die_owned_and_not_owned(self, inch):
        pick = owned.die_for(inch.tooling, thread("10-32 UNF"))
        assert pick.tool is not None
        assert not pick.instead
        assert owned.die_for(inch.tooling, thread("M5x0.8")).consequence == "buy or borrow: die M5x0.8"
        assert owned.die_for(inch.tooling, thread("10-32 UNF"), left=True).tool is None

    def test_solid_die_without_a_holder(self, inch):
        solid = tuple(replace(d, adjustable=False) for d in inch.tooling.dies)
        pick = owned.die_for(replace(inch.tooling, dies=solid, die_holder=False), thread("8-32 UNC"))
        assert "solid die" in pick.consequence
        assert "no die holder" in pick.consequence

    def test_mandrel_missing_is_made_where_the_die_is_owned(self, inch):
        assert owned.mandrel_for(inch.tooling, thread("8-32 UNC"), 6.0).tool is not None
        made = owned.mandrel_for(inch.tooling, thread("1/4-20 UNC"), 6.0)
        assert made.tool is None
        assert "turn one with the owned die" in made.consequence
        assert "turn one" not in owned.mandrel_for(inch.tooling, thread("M5x0.8"), 6.0).consequence

    def test_mandrel_whose_stud_is_too_long_is_refused_with_the_length_that_would_do(self, inch):
        pick = owned.mandrel_for(inch.tooling, thread("8-32 UNC"), 5.0)
        assert pick.tool is None
        assert "shorten it to 0.1969 in" in pick.consequence

    def test_mandrel_with_the_longest_stud_that_still_seats_is_taken(self, inch):
        long = next(m for m in inch.tooling.mandrels if m.thread.name == "8-32 UNC")
        two = replace(inch.tooling, mandrels=(replace(long, length=4.0, name="short"), long))
        assert owned.mandrel_for(two, long.thread, 6.0).tool == long
        assert owned.mandrel_for(two, long.thread, 5.0).tool.name == "short"

    def test_thread_tried_with_a_screw_is_not_gauged(self, inch):
        pick = owned.thread_gauge_for(inch.tooling, thread("8-32 UNC"))
        assert pick.tool is not None
        assert pick.instead
        assert "not that it is inside the limits" in pick.consequence
        assert owned.thread_gauge_for(inch.tooling, thread("M5x0.8")).tool is None


class TestHoles:
    def test_reamer_of_another_size_never_stands_in(self, inch, metric):
        quarter = owned.reamer_for(inch.tooling, 0.2495 * IN, 0.2505 * IN, 0.250 * IN)
        assert quarter.tool is not None
        none = owned.reamer_for(inch.tooling, 0.2600 * IN, 0.2605 * IN, 0.2602 * IN)
        assert none.tool is None
        assert none.consequence == "buy or borrow: reamer 0.2600 to 0.2605 in, or bore the hole to size"
        assert owned.reamer_for(metric.tooling, 6.0, 6.012, 6.0).tool is None

    @pytest.mark.parametrize(("drill", "name"), [(3.4, "2.5 mm"), (2.5, "1.6 mm"), (8.0, "3.15 mm")])
    def test_centre_drill_lets_the_drill_find_the_cone(self, metric, drill, name):
        pick = owned.centre_drill_for(metric.tooling, drill)
        assert pick.tool is not None
        assert (pick.tool.name, pick.instead) == (name, False)

    def test_centre_drill_too_stout_for_a_small_drill(self, metric):
        pick = owned.centre_drill_for(metric.tooling, 1.5)
        assert pick.tool is not None
        assert pick.instead
        assert "touch its point only" in pick.consequence
        assert owned.centre_drill_for(Tooling(), 3.0).tool is None

    def test_countersink_of_another_angle_is_told(self, inch):
        exact = owned.countersink_for(inch.tooling, 0.25 * IN)
        assert exact.tool is not None
        assert (exact.tool.angle, exact.instead) == (90.0, False)
        other = owned.countersink_for(inch.tooling, 0.45 * IN)
        assert other.tool is not None
        assert other.tool.angle == 82.0
        assert "82 degrees, not 90" in other.consequence
        assert owned.countersink_for(inch.tooling, 2.0 * IN).tool is None


class TestLatheTools:
    def test_parting_blade_that_reaches(self, inch):
        pick = owned.lathe_tool(inch.tooling, LatheToolKind.PARTING, reach=0.25 * IN)
        assert pick.tool is not None
        assert not pick.instead

    def test_parting_blade_too_short_is_finished_by_saw(self, inch):
        pick = owned.lathe_tool(inch.tooling, LatheToolKind.PARTING, reach=0.75 * IN)
        assert pick.tool is not None
        assert "reaches 0.5000 in of 0.7500 in: saw through what is left" in pick.consequence

    def test_no_parting_blade_at_all(self):
        pick = owned.lathe_tool(Tooling(), LatheToolKind.PARTING, reach=5.0)
        assert pick.tool is None
        assert "or saw the part off" in pick.consequence

    def test_chamfer_by_a_turning_tool_set_over(self, inch):
        plain = tuple(t for t in inch.tooling.lathe_tools if t.kind is not LatheToolKind.CHAMFER)
        pick = owned.lathe_tool(replace(inch.tooling, lathe_tools=plain), LatheToolKind.CHAMFER)
        assert pick.tool is not None
        assert pick.tool.kind is LatheToolKind.TURNING
        assert "set over by the top slide" in pick.consequence

    def test_groove_by_the_parting_blade_only_where_it_is_wide_enough(self, inch):
        plain = tuple(t for t in inch.tooling.lathe_tools if t.kind is not LatheToolKind.GROOVING)
        tooling = replace(inch.tooling, lathe_tools=plain)
        wide = owned.lathe_tool(tooling, LatheToolKind.GROOVING, reach=1.0, widest=3.0)
        assert wide.tool is not None
        assert wide.tool.kind is LatheToolKind.PARTING
        assert owned.lathe_tool(tooling, LatheToolKind.GROOVING, reach=1.0, widest=1.5).tool is None

    def test_stoutest_boring_bar_that_enters_and_reaches(self, metric):
        stout = owned.boring_bar_for(metric.tooling, 10.0, 20.0)
        thin = owned.boring_bar_for(metric.tooling, 6.0, 15.0)
        assert stout.tool is not None
        assert thin.tool is not None
        assert (stout.tool.name, thin.tool.name) == ("boring bar 8 mm", "boring bar 5 mm")

    def test_boring_bar_too_short_or_too_thick(self, metric):
        short = owned.boring_bar_for(metric.tooling, 6.0, 25.0)
        assert short.tool is not None
        assert "reaches 18.00 mm only" in short.consequence
        none = owned.boring_bar_for(metric.tooling, 4.0, 10.0)
        assert none.tool is None
        assert "or drill 5.60 mm first" in none.consequence

    def test_knurl_of_another_pitch_is_told(self, inch):
        exact = owned.knurl_for(inch.tooling, "diamond", 1.0)
        assert exact.tool is not None
        assert not exact.instead
        other = owned.knurl_for(inch.tooling, "straight", 1.0)
        assert other.tool is not None
        assert "is finer" in other.consequence
        assert owned.knurl_for(Tooling(), "straight", 1.0).tool is None

    def test_lost_form_of_knurl_offers_the_other(self, inch):
        only = LatheTool(
            name="knurl", kind=LatheToolKind.KNURLING, material=ToolMaterial.HSS, form="diamond", pitch=1.0
        )
        pick = owned.knurl_for(replace(inch.tooling, lathe_tools=(only,)), "straight", 1.0)
        assert pick.tool is None
        assert "ask for the diamond knurl" in pick.consequence

    def test_collet_or_the_chuck_in_its_place(self, inch, metric):
        found = owned.collet_for(inch.lathe, 0.375 * IN, "in")
        assert found.tool == pytest.approx(0.375 * IN)
        assert owned.collet_for(inch.lathe, 0.370 * IN, "in").tool is None  # beyond the squeeze of 0.003 in
        none = owned.collet_for(metric.lathe, 10.0)
        assert none.tool is None
        assert (
            "100 mm three-jaw chuck in its place: a bar gripped anew runs out by 0.08 mm" in none.consequence
        )


class TestGauges:
    def test_coarsest_that_is_fine_enough(self, inch):
        wide = owned.gauge_for(inch.tooling, 9.0, 0.010 * IN, HOUSE, "outside")
        close = owned.gauge_for(inch.tooling, 9.0, 0.001 * IN, HOUSE, "outside")
        assert wide.tool is not None
        assert close.tool is not None
        assert (wide.tool.name, close.tool.name) == ("caliper", "micrometer 0 to 1 in")
        assert not wide.instead
        assert not close.instead

    def test_finest_with_the_ratio_that_it_reaches(self, metric):
        pick = owned.gauge_for(metric.tooling, 8.0, 0.022, HOUSE, "outside")
        assert pick.tool is not None
        assert pick.instead
        assert pick.wanted == "outside gauge resolving 0.0022 mm"
        assert (
            "micrometer 0 to 25 mm resolves 0.01 mm: 2.2 steps inside the limits, 10 wanted"
            in pick.consequence
        )

    def test_gauge_must_hold_the_size(self, metric):
        pick = owned.gauge_for(metric.tooling, 40.0, 0.2, HOUSE, "outside")
        assert pick.tool is not None
        assert pick.tool.name == "caliper"

    def test_bore_by_the_caliper_where_there_is_no_bore_gauge(self, metric, inch):
        pick = owned.gauge_for(metric.tooling, 8.0, 0.2, HOUSE, "inside")
        assert pick.tool is not None
        assert pick.tool.name == "caliper"
        assert owned.gauge_for(inch.tooling, 6.0, 0.05, HOUSE, "inside").tool is not None

    def test_house_ratio_rules(self, metric):
        easy = replace(HOUSE, gauge_ratio=2.0)
        assert not owned.gauge_for(metric.tooling, 8.0, 0.022, easy, "outside").instead

    def test_no_gauge_and_no_sense(self):
        assert owned.gauge_for(Tooling(), 8.0, 0.1, HOUSE, "depth").tool is None
        with pytest.raises(ValueError, match="no place to measure"):
            owned.gauge_for(Tooling(), 8.0, 0.1, HOUSE, "sideways")
        with pytest.raises(ValueError, match="widen them"):
            owned.gauge_for(Tooling(), 8.0, 0.0, HOUSE, "depth")


class TestWideLimits:
    """Of two gauges that resolve alike the caliper reads wide limits, the micrometer narrow ones."""

    def test_caliper_for_a_length_and_micrometer_for_a_fit(self, metric):
        rules = metric.house
        pair = tuple(
            Gauge(name=kind.value, kind=kind, resolution=0.005)
            for kind in (GaugeKind.CALIPER, GaugeKind.MICROMETER)
        )
        both = replace(metric.tooling, gauges=pair)
        assert owned.gauge_for(both, 16.0, 0.4, rules, "outside").tool.kind is GaugeKind.CALIPER
        assert owned.gauge_for(both, 8.0, 0.06, rules, "outside").tool.kind is GaugeKind.MICROMETER
