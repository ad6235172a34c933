"""Display values: one unit system, dial text, interim and final apart, words of the planner converted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from jobsheets import job
from jobsheets.finding import mm
from jobsheets.part.turned import End
from jobsheets.planner.mandrel import most_stud
from jobsheets.planner.operation import HoldingKind, RowKind
from jobsheets.sheet import view_rows, wording
from jobsheets.sheet.view import view
from jobsheets.sheet.view_front import tool_name
from jobsheets.sheet.view_numbers import Numbers, half, pace, set_to
from jobsheets.shop.dials import reading
from jobsheets.shop.machines import Dial, Reads

INCH = Numbers(system="in")
MM = Numbers(system="mm")


def planned(name):
    part = job.load_part(name)
    return job.work_out(part, job.load_shop(None, part.system)).plan


@pytest.fixture(scope="module")
def nut():
    return planned("stepped-end-nut")


@pytest.fixture(scope="module")
def sheet(nut):
    return view(nut, "in", "F00D-0001")


def dial(**changes):
    given_values = {
        "axis": "cross slide", "per_turn": 2.54, "divisions": 100, "label": "0.001 in", "reads": Reads.RADIUS,
        "backlash": 0.2, "travel": 100.0,
    }  # fmt: skip
    return Dial(**{**given_values, **changes})


@pytest.mark.parametrize(
    ("numbers", "mm", "text"),
    [
        (INCH, 6.35, "0.250"),
        (INCH, 6.3119, "0.2485"),
        (INCH, 0.0, "0.000"),
        (INCH, -1e-12, "0.000"),
        (MM, 6.35, "6.35"),
        (MM, 6.355, "6.355"),
        (MM, 12.0, "12.00"),
    ],
)
def test_a_length_has_the_places_that_a_caliper_or_micrometer_shows(numbers, mm, text):
    assert numbers.length(mm) == text


@given(low=st.floats(0.1, 50.0), width=st.floats(0.001, 1.0), system=st.sampled_from(["in", "mm"]))
def test_limits_are_rounded_inwards_with_equal_places(low, width, system):
    numbers = Numbers(system=system)
    least, most = numbers.both(low, low + width)
    scale = 25.4 if system == "in" else 1.0
    grain = 10.0 ** -len(least.partition(".")[2])
    assert float(least) * scale >= low - 0.021 * grain * scale
    assert float(most) * scale <= low + width + 0.021 * grain * scale
    assert len(least.partition(".")[2]) == len(most.partition(".")[2])


def test_the_collar_speaks_only_its_own_unit_system():
    assert INCH.collar(dial(), 35.0) == "0.035"
    assert INCH.collar(dial(), 30.5) == "0.0305"
    assert MM.collar(dial(), 35.0) == ""
    assert MM.collar(dial(label="0.02 mm"), 12.0) == "0.24"


def test_half_divisions_are_written_as_a_fraction():
    assert (half(30.5), half(0.5), half(3.0)) == ("30½", "½", "3")


def test_hand_pace_is_seconds_a_turn():
    # 0.1 mm/rev at 600 rev/min is 60 mm a minute: a turn of 25.4 mm takes 25.4 s
    assert pace(dial(per_turn=25.4), 0.1, 600.0) == "25"


def test_words_come_in_the_unit_of_the_sheet_and_tools_keep_their_names():
    open_text = f"drill 3.4 mm leaves {mm(0.54)}; {mm(0.002)} is too little"
    assert INCH.said(open_text) == "drill 3.4 mm leaves 0.021 in; 0.0001 in is too little"
    assert MM.said(open_text) == "drill 3.4 mm leaves 0.54 mm; 0.002 mm is too little"
    assert INCH.quoted("leave 0.05 to 0.07 mm at 20 mm/min") == "leave 0.002 to 0.003 in at 20 mm/min"


def test_a_tool_is_not_named_twice():
    assert tool_name("gauge", "caliper") == "caliper"
    assert tool_name("reamer", "reamer reamer 3/16 in") == "reamer 3/16 in"
    assert tool_name("twist drill", "#29") == "twist drill #29"
    assert tool_name("parting blade", "parting blade 2 mm") == "parting blade 2 mm"


def test_every_row_shows_what_its_dial_reads(nut, sheet):
    shown = [op for setup in sheet.setups for op in setup.operations]
    seen = 0
    for op, values in zip(nut.operations, shown, strict=True):
        order = {id(row): shown for row, shown in zip(view_rows.in_order(op), values.rows, strict=True)}
        for row in op.rows:
            cells = order[id(row)]
            for at, cell in ((row.x, cells.x), (row.z, cells.z)):
                if at is None:
                    assert cell is None
                    continue
                assert cell.divisions == half(at.divisions)
                assert cell.turns == (f"{at.turns}" if at.turns else "")
                seen += 1
    assert seen > 20


def test_the_cross_slide_says_radius_or_diameter_over_its_column(sheet):
    turned = [op for setup in sheet.setups for op in setup.operations if op.x and op.x.axis == "cross slide"]
    assert turned
    assert all(op.x.reads in ("radius", "diameter") for op in turned)


def test_a_touch_names_the_place_and_every_handwheel_that_is_set_there(nut, sheet):
    shown = {op.number: op for setup in sheet.setups for op in setup.operations}
    seen = 0
    for op in nut.operations:
        touched = [row for row in op.rows if row.kind is RowKind.TOUCH]
        told = [row for row in shown[f"{op.number}"].rows if row.touches]
        assert len(touched) == len(told)
        for row, words in zip(touched, told, strict=True):
            assert len(words.touches) == (row.x is not None) + (row.z is not None)
            assert all(t.what.startswith("the ") and t.axis and t.to for t in words.touches)
            seen += len(words.touches)
    assert seen > 10


def test_on_the_mill_the_table_is_set_before_the_tool_touches(nut, sheet):
    spotted = next(op for setup in sheet.setups for op in setup.operations if op.edge_finder)
    kinds = [row.kind for row in spotted.rows]
    assert kinds.index("step") < kinds.index("touch")


def test_a_second_tap_points_back_and_does_not_say_its_hints_again(sheet):
    taps = [op for setup in sheet.setups for op in setup.operations if op.title.startswith("Tap ")]
    assert [op.as_before for op in taps] == ["", taps[0].number]
    assert taps[0].hints
    assert not taps[1].hints


def test_general_cautions_stand_where_the_work_is_set_up_and_once_for_a_machine(sheet):
    lathe = [setup for setup in sheet.setups if setup.place == "lathe"]
    assert lathe[0].cautions
    assert [setup.cautions_as for setup in lathe] == ["", lathe[0].letter]
    general = {c.text for c in lathe[0].cautions}
    assert not any(c.text in general for setup in lathe for op in setup.operations for c in op.cautions)


def test_interim_and_final_sizes_stand_in_rows_of_their_own(nut, sheet):
    shown = [op for setup in sheet.setups for op in setup.operations]
    states = set()
    for op, values in zip(nut.operations, shown, strict=True):
        for row, cells in zip(op.rows, values.rows, strict=True):
            if row.diameter is not None and row.kind in (RowKind.ROUGH, RowKind.MEASURE):
                assert cells.diameter_under == "interim"
            if row.diameter is not None and row.kind is RowKind.FINISH:
                assert cells.diameter_under == "final"
            states.add(cells.diameter_under)
    assert {"interim", "final"} <= states


def test_speed_is_a_belt_of_the_machine_with_its_speed(nut, sheet):
    belts = {(step.position, f"{step.rpm:.0f}") for step in nut.shop.lathe.speeds}
    turned = [op for setup in sheet.setups if setup.place == "lathe" for op in setup.operations if op.speed]
    assert turned
    assert all((op.position, op.speed) in belts for op in turned)


def test_a_caution_stands_once_in_a_setup_and_a_reason_once_on_a_sheet(sheet):
    for setup in sheet.setups:
        texts = [caution.text for op in setup.operations for caution in op.cautions]
        assert len(texts) == len(set(texts))
    reasons = [b.why for setup in sheet.setups for op in setup.operations for b in op.because]
    assert reasons
    assert len(reasons) == len(set(reasons))


def test_the_table_of_a_mate_follows_its_rule(sheet):
    assert sheet.mates
    for mate in sheet.mates:
        sign = -1.0 if mate.sign == "-" else 1.0
        for said, target in mate.table:
            assert float(target) == pytest.approx(float(said) + sign * float(mate.allowance), abs=1.1e-4)


def test_a_measured_mate_is_printed_resolved(nut):
    mate = replace(nut.part.mates[0], measured=0.252 * 25.4)
    shown = view(replace(nut, part=replace(nut.part, mates=(mate,))), "in", "x").mates[0]
    assert shown.measured == "0.252"


def test_a_readout_is_shown_as_its_value():
    scale = dial(readout=0.005)
    from jobsheets.sheet.view_numbers import reading as shown

    assert shown(MM, scale, reading(scale, 7.5)) == ("", "7.50", "")


def test_an_unknown_unit_system_is_refused(nut):
    with pytest.raises(ValueError, match="want in or mm"):
        view(nut, "cm", "x")


def test_a_handwheel_that_reads_diameters_tells_twice_its_travel():
    shown = view(planned("stepped-end-nut-metric"), "mm", "x")
    cross = next(d for setup in shown.setups for d in setup.dials if d.axis == "cross slide")
    assert (cross.turn, cross.divisions, cross.division, cross.reads) == (
        "2.00 mm", "100", "0.02 mm", "diameter",
    )  # fmt: skip


def test_a_handwheel_that_reads_the_radius_tells_its_travel(sheet):
    cross = next(d for setup in sheet.setups for d in setup.dials if d.axis == "cross slide")
    assert (cross.turn, cross.division) == ("0.050 in", "0.001 in")


def test_a_setting_in_a_sentence_names_its_unit():
    wheel = dial(label="0.02 mm", per_turn=1.0, divisions=50)
    told = [set_to(MM, wheel, reading(wheel, mm)) for mm in (0.0, 0.5, 2.12)]
    assert told == ["0", "25 div (collar 0.50)", "2 turns + 6 div (collar 0.12)"]
    scale = dial(readout=0.005)
    assert set_to(MM, scale, reading(scale, 7.5)) == "7.50 mm"


@pytest.mark.parametrize("name", ["stepped-end-nut", "domed-end-nut-metric", "threaded-mandrel"])
def test_the_terms_of_the_stock_add_up_to_what_is_sawn_as_printed(name):
    plan = planned(name)
    shown = view(plan, plan.part.system, "x").stock
    length, unit = shown.length.split()
    assert sum(float(term.value) for term in shown.terms) == pytest.approx(float(length), abs=1e-9)
    assert all(term.label != "saw" for term in shown.terms)
    assert shown.saw.endswith(unit)


def test_a_plunge_tells_no_thickness_of_metal(sheet):
    plunges = [r for s in sheet.setups for op in s.operations for r in op.rows if r.kind == "plunge"]
    assert plunges
    assert all(r.under == "" for r in plunges)


class TestMandrel:
    """A nut run up to the shoulder of a mandrel, whose body a collet or a chuck holds."""

    def round_(self, plan):
        return next(s for s in plan.setups if s.holding.kind is HoldingKind.MANDREL)

    def shop_with(self, part, **changes):
        shop = job.load_shop(None, part.system)
        mandrels = tuple(replace(m, **changes) for m in shop.tooling.mandrels)
        return replace(shop, tooling=replace(shop.tooling, mandrels=mandrels))

    def test_the_body_is_held_in_a_collet_that_fits_and_runs_as_true_as_it(self, nut):
        held = self.round_(nut).holding
        assert nut.shop.lathe.collets is not None
        assert (held.holder, held.in_collet) == ("collet 0.3750 in", True)
        assert held.runout == nut.shop.lathe.collets.runout
        assert held.grip == min(25.4, nut.shop.lathe.collets.grip)

    def test_without_a_collet_the_chuck_holds_it_with_its_own_runout(self):
        plan = planned("stepped-end-nut-metric")
        held = self.round_(plan).holding
        chuck = next(c for c in plan.shop.lathe.chucks if c.name == held.holder)
        assert (held.in_collet, held.runout) == (False, chuck.runout)
        assert "Chuck key out" in self.round_(plan).start

    def test_the_stud_stays_a_pitch_short_of_the_least_full_thread(self, nut):
        held = self.round_(nut).holding
        thread = next(h for h in nut.part.holes if h.thread is not None)
        assert held.most_stud == pytest.approx(thread.depth.low - 25.4 / 32)
        assert held.stud <= held.most_stud

    def test_a_stud_that_jams_is_refused_with_the_length_that_would_do(self, nut):
        plan = job.work_out(nut.part, self.shop_with(nut.part, length=9.525)).plan
        assert all(s.holding.kind is not HoldingKind.MANDREL for s in plan.setups)
        why = next(r.why for r in plan.rejected if "mandrel" in r.what)
        assert "jams before the nut seats: shorten it to 0.242" in why

    def test_the_start_list_says_how_long_and_how_it_comes_off(self, sheet):
        setup = next(s for s in sheet.setups if s.kind == "threaded mandrel")
        said = " ".join(wording.lines("start", setup))
        assert "by its body in the collet 0.3750 in" in said
        assert "Stud no longer than 0.242 in" in said
        assert "dial the shoulder true" in said
        assert "warm the nut" in said
        assert said.count("____") == 1


def test_a_collet_setup_speaks_of_no_chuck_key(sheet):
    for setup in (s for s in sheet.setups if s.kind == "collet"):
        said = " ".join((*wording.lines("start", setup), *(c.text for c in setup.cautions)))
        assert "chuck key" not in said.lower()
        assert "jaws" not in said


def test_a_chuck_after_a_collet_has_its_own_cautions():
    plan = planned("threaded-mandrel-metric")
    kinds = [s.holding.in_collet for s in plan.setups if s.place.value == "lathe"]
    shown = [s for s in view(plan, "mm", "x").setups if s.place == "lathe"]
    for before, after, setup in zip(kinds, kinds[1:], shown[1:], strict=False):
        assert bool(setup.cautions) == (before != after)


def test_the_top_slide_is_proved_parallel_where_lengths_are_cut_with_it(nut, sheet):
    slide = nut.shop.lathe.top_slide
    assert slide is not None
    for setup, shown in zip(nut.setups, sheet.setups, strict=True):
        used = any(op.z_dial == slide.axis for op in nut.in_setup(setup.id))
        said = " ".join(shown.start)
        assert used == ("Top slide parallel to the bed" in said)
        assert used == ("carriage locked" in said)


def listed(plan):
    return {k.name: k for k in plan.kit}


def test_what_the_steps_and_start_lists_name_is_laid_out(nut):
    have = listed(nut)
    assert {
        "edge finder",
        "dial indicator",
        "threaded mandrel 8-32 UNC",
        "caliper",
        "micrometer 0 to 1 in",
    } <= set(have)
    spotted = next(op for op in nut.operations if op.place.value == "mill" and any(row.x for row in op.rows))
    assert have["edge finder"].used_by == (spotted.number,)
    dome = listed(planned("domed-end-nut-metric"))
    assert {"fine file with a handle", "marker or layout blue", "radius template"} <= set(dome)
    assert "die holder" in listed(planned("threaded-mandrel"))


@pytest.mark.parametrize("name", ["stepped-end-nut", "plain-end-nut-metric", "knurled-end-nut"])
def test_every_size_to_read_has_a_gauge_laid_out(name):
    plan = planned(name)
    measuring = {number for k in plan.kit if k.group == "gauge" for number in k.used_by}
    by_tool = {"round", "tap", "die", "chase"}
    read = {
        op.number for op in plan.operations if any(r.box for r in op.rows) and op.motion.value not in by_tool
    }
    assert read
    assert read <= measuring


def test_a_stud_stays_clear_of_what_is_done_from_the_back():
    part = planned("plain-end-nut").part
    hole = next(h for h in part.holes if h.thread is not None)
    thread = hole.thread.thread
    cone = thread.major / 2.0  # of the countersink that breaks the far mouth
    assert most_stud(hole, 9.525) == pytest.approx(9.525 - cone - thread.pitch)
    limits = replace(hole.diameter, nominal=4.0, low=4.0, high=4.0)
    back = replace(hole, end=End.BACK, diameter=limits, depth=replace(limits, nominal=3.0, low=3.0, high=3.0))
    assert most_stud(hole, 9.525, (back,)) == pytest.approx(9.525 - 3.0 - 2.0 - thread.pitch)
    assert most_stud(hole, 9.525, (replace(back, depth=None),)) < 0.0
    with pytest.raises(ValueError, match="a mandrel holds a tapped hole"):
        most_stud(replace(hole, thread=None), 9.525)
