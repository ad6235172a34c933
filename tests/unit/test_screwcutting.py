"""Which threads a single point cuts, how, and what is said of those that it does not."""

from math import cos, radians

import pytest
from msgspec.structs import replace

from jobsheets import job
from jobsheets.cutting.gear_train import Banjo
from jobsheets.figure import Figure
from jobsheets.finding import Severity
from jobsheets.part.turned import Bottom, End, Hole, HoleKind, Method, TurnedPart
from jobsheets.planner.operation import Motion, Operation, Plan, RowKind
from jobsheets.planner.plan import plan, prove
from jobsheets.planner.replay_frame import ReplayFault
from jobsheets.planner.stop import Stopped
from jobsheets.recipe.sizes import Use, general
from jobsheets.shop.dials import travel
from jobsheets.shop.machines import ChartRow
from jobsheets.shop.shop import Shop
from jobsheets.standards import threads
from jobsheets.standards.thread_form import over_wires, pitch_from_wires
from jobsheets.units import thread as thread_name

INCH, METRIC = "screwcut-end-stud", "screwcut-end-stud-metric"


def shop(system: str) -> Shop:
    return job.load_shop(None, system)


def part(name: str = INCH) -> TurnedPart:
    return job.load_part(name)


def with_screw(shop: Shop, **changes: object) -> Shop:
    screw = replace(shop.lathe.leadscrew, **changes)
    return replace(shop, lathe=replace(shop.lathe, leadscrew=screw))


def with_house(shop: Shop, **changes: object) -> Shop:
    return replace(shop, house=replace(shop.house, **changes))


def with_tools(shop: Shop, **changes: object) -> Shop:
    return replace(shop, tooling=replace(shop.tooling, **changes))


def with_thread(part: TurnedPart, **changes: object) -> TurnedPart:
    """The stud with something else asked of its thread."""
    stud = part.segments[0]
    return replace(part, segments=(replace(stud, thread=replace(stud.thread, **changes)), *part.segments[1:]))


def cut(plan: Plan, motion: Motion = Motion.SCREWCUT) -> Operation:
    return next(op for op in plan.operations if op.motion is motion)


def value(op: Operation, local: str) -> Figure:
    found = op.figure(local)
    assert found is not None, local
    return found


def codes(plan: Plan) -> dict[str, Severity]:
    return {f.code: f.severity for f in plan.findings}


def stopped(part: TurnedPart, shop: Shop) -> str:
    with pytest.raises(Stopped) as caught:
        plan(part, shop)
    found = caught.value.findings[0]
    assert found.code == "cannot-screwcut"
    return f"{found.why}; {found.remedy}"


@pytest.mark.parametrize(("name", "system"), [(INCH, "in"), (METRIC, "mm")])
def test_shipped_stud_is_cut_and_measured(name, system):
    found = plan(part(name), shop(system))
    op = cut(found)
    limits = threads.limits(op_thread(found), "2A" if system == "in" else "6g")
    hold = op.holds[0]
    wire = next(float(i.value) for i in value(op, "over_wires").inputs if i.name == "W")
    climb = next(float(i.value) for i in value(op, "over_wires").inputs if i.name == "L, lead angle")
    thread = op_thread(found)
    for reading, pitch_dia in ((hold.low, limits.pitch_min), (hold.high, limits.pitch_max)):
        assert pitch_from_wires(reading, thread.pitch, wire, 60.0, climb) == pytest.approx(pitch_dia)
    assert hold.low < hold.aim < hold.high
    assert over_wires(limits.pitch_max, thread.pitch, wire) == pytest.approx(hold.high, abs=0.002)


def op_thread(plan: Plan):
    return plan.part.segments[0].thread.thread


def test_scratch_pass_with_a_pitch_gauge_comes_first_as_a_hold_point():
    found = plan(part(), shop("in"))
    scratch, passes = cut(found, Motion.SCRATCH), cut(found)
    assert scratch.number == passes.number - 10
    assert scratch.holds[0].what == "scratch pass against the pitch gauge: 24 threads an inch"
    assert "gear change" in scratch.hazards
    assert passes.hazards == ("single-point threading",)


def test_compound_readings_are_the_depth_over_the_cosine():
    found = plan(part(), shop("in"))
    op, dial = cut(found), found.shop.lathe.top_slide
    deep = sum(row.depth for row in op.rows[1:])
    assert travel(dial, op.rows[-1].z) * cos(radians(29.5)) == pytest.approx(deep)
    assert value(op, "thread_depth").value == pytest.approx(deep)
    first = value(op, "first_cut").value
    assert all(0.0 < row.depth <= first for row in op.rows[1:] if row.kind is RowKind.INFEED)
    assert [row.kind for row in op.rows[-2:]] == [RowKind.SPRING, RowKind.SPRING]


@pytest.mark.parametrize(
    "house", [{"thread_swivel": 0.0}, {"thread_side_shift": True}, {"thread_falling": True}]
)
@pytest.mark.parametrize(("name", "system"), [(INCH, "in"), (METRIC, "mm")])
def test_every_way_of_feeding_in_is_proven(name, system, house):
    found = plan(part(name), with_house(shop(system), **house))
    op = cut(found)
    assert prove(found)
    straight = "thread_falling" not in house
    assert all((row.x is not None) == straight for row in op.rows[1:])
    assert any(row.z is not None for row in op.rows) == (house != {"thread_swivel": 0.0})


def test_falling_cuts_take_fewer_passes_than_equal_areas():
    equal = cut(plan(part(), shop("in")))
    falling = cut(plan(part(), with_house(shop("in"), thread_falling=True)))
    assert len(falling.rows) < len(equal.rows)


def test_a_lathe_without_a_top_slide_feeds_straight_in():
    lathe = replace(shop("in").lathe, top_slide=None)
    found = plan(part(), replace(shop("in"), lathe=lathe))
    assert cut(found).figure("swivel") is None


def test_a_whitworth_thread_takes_half_a_degree_less_than_its_half_angle():
    spec = {"thread": threads.find(thread_name("5/16-18 BSW")), "tolerance_class": "medium bolt"}
    tool = next(t for t in shop("in").tooling.lathe_tools if t.angle == 60.0)
    tools = (replace(tool, name="55 degree tool", angle=55.0, flat=0.0, nose=0.1),)
    own = with_tools(shop("in"), lathe_tools=(*shop("in").tooling.lathe_tools, *tools))
    other = with_thread(part(), **spec)
    limits = threads.limits(spec["thread"], "medium bolt")
    stud = replace(
        other.segments[0],
        diameter=replace(other.segments[0].diameter, low=limits.major_min, high=limits.major_max),
    )
    found = plan(replace(other, segments=(stud, *other.segments[1:])), own)
    assert value(cut(found), "swivel").value == 27.0


def test_an_owned_die_wins_unless_the_recipe_asks_otherwise():
    asked = job.load_part("threaded-mandrel")
    by_die = plan(asked, shop("in"))
    assert any(op.motion is Motion.DIE for op in by_die.operations)
    assert any("a die is owned" in r.why for r in by_die.rejected)
    single = plan(with_thread(asked, method=Method.SINGLE_POINT), slim_tool(shop("in")))
    assert cut(single).feature == "stud"
    assert any(r.what == "stud by die 8-32 UNC" and "recipe asks" in r.why for r in single.rejected)


def slim_tool(shop: Shop) -> Shop:
    """A tool that stands nearer to a shoulder: the mandrel's groove is narrow."""
    tools = tuple(replace(t, side=0.5) if t.angle == 60.0 else t for t in shop.tooling.lathe_tools)
    return with_tools(shop, lathe_tools=tools)


def test_without_a_die_a_free_thread_is_cut_with_a_single_point():
    found = plan(with_thread(part(), method=Method.FREE), shop("in"))
    assert cut(found)
    assert any(r.what == "stud by die 5/16-24 UNF" and r.why == "none is owned" for r in found.rejected)


def test_a_free_thread_that_neither_die_nor_single_point_cuts_names_both():
    none = replace(shop("in"), lathe=replace(shop("in").lathe, leadscrew=None))
    found = plan(with_thread(part(), method=Method.FREE), none)
    assert codes(found)["tool-missing"] is Severity.STOP
    assert any("no leadscrew" in r.why for r in found.rejected)


def test_a_thread_that_the_lathe_cannot_cut_says_what_would():
    bare = replace(shop("in"), lathe=replace(shop("in").lathe, leadscrew=None))
    assert "count them" in stopped(part(), bare)
    assert "a change gear of 24 teeth" in stopped(
        part(), with_screw(shop("in"), gears=(20, 36, 127), banjo=None)
    )
    no_tool = tuple(t for t in shop("in").tooling.lathe_tools if t.angle == 0.0)
    assert "buy or borrow: 60 degree threading tool" in stopped(
        part(), with_tools(shop("in"), lathe_tools=no_tool)
    )


def test_a_groove_too_narrow_says_how_wide():
    narrow = part()
    relief = replace(narrow.segments[1], length=general(1.2, "m", Use.LENGTH))
    told = stopped(replace(narrow, segments=(narrow.segments[0], relief, narrow.segments[2])), shop("in"))
    assert "a groove of" in told


def without_groove(part: TurnedPart) -> TurnedPart:
    return replace(part, segments=(part.segments[0], part.segments[2]))


def test_without_a_groove_it_fades_out_and_is_turned_by_hand():
    found = plan(without_groove(part(METRIC)), slim_tool(shop("mm")))
    op = cut(found)
    assert codes(found)["no-run-out"] is Severity.CAUTION
    assert codes(found)["turned-by-hand"] is Severity.NOTE
    assert op.figure("speed") is None
    assert any("hand crank" in hint for hint in op.hints)
    zone = found.states[-1].threads[0]
    assert 0.0 < part(METRIC).segments[0].length.nominal - zone.end <= 2.0


def test_thread_dial_follows_the_screw():
    inch = cut(plan(part(), shop("in")), Motion.SCRATCH)
    assert inch.gearing.every == 1
    assert any("any mark" in hint for hint in cut(plan(part(), shop("in"))).hints)
    metric = plan(part(METRIC), shop("mm"))
    assert cut(metric, Motion.SCRATCH).gearing.every is None
    assert any("do not open them" in hint for hint in cut(metric).hints)


def test_metric_thread_on_an_inch_screw_keeps_its_half_nuts_closed_and_tells_the_error():
    found = plan(part(METRIC), shop("in"))
    gearing = cut(found, Motion.SCRATCH).gearing
    assert gearing.every is None
    assert gearing.error == pytest.approx(12.0 * (gearing.cut - 1.0))
    assert value(cut(found, Motion.SCRATCH), "lead_error").value == gearing.error
    assert codes(found)["lead-error"] is Severity.NOTE
    assert codes(found)["chart-wrong"] is Severity.CAUTION  # the invented chart's metric rows are for 1.5 mm
    assert prove(found)


def test_an_error_of_the_lead_is_judged_by_the_pitch_diameter_that_it_eats():
    """Limits of 0.112 mm over 12 mm of thread: 0.54 % eats them all, 0.27 % half of them."""

    def own(*gears: int) -> Shop:
        return with_screw(shop("mm"), gears=(30, *gears), banjo=None)

    assert "more than its class allows" in stopped(part(METRIC), own(57, 86))
    assert codes(plan(part(METRIC), own(101, 151)))["lead-error"] is Severity.CAUTION
    assert codes(plan(part(METRIC), own(127, 190)))["lead-error"] is Severity.NOTE
    assert "lead-error" not in codes(plan(part(METRIC), own(60, 90)))


def test_gears_that_foul_are_not_planned():
    tight = Banjo(module=1.0, span=96.0, slot_from=32.0, slot_to=34.0, shaft=16.0)
    free = cut(plan(part(METRIC), with_screw(shop("mm"), banjo=None)), Motion.SCRATCH)
    assert not free.gearing.measured
    assert "banjo-unknown" in codes(plan(part(METRIC), with_screw(shop("mm"), banjo=None)))
    told = stopped(part(METRIC), with_screw(shop("mm"), banjo=tight, gears=(40, 60, 80)))
    assert "fits the banjo" in told


def test_a_wrong_row_of_the_chart_is_told_only_for_the_thread_that_is_cut():
    row = ChartRow(cuts="1 mm", lead=1.0, gears=(40, 60))
    good = with_screw(shop("mm"), chart=(row,))
    assert "chart-wrong" not in codes(plan(part(METRIC), good))
    bad = with_screw(shop("mm"), chart=(replace(row, gears=(40, 57)),))
    assert codes(plan(part(METRIC), bad))["chart-wrong"] is Severity.CAUTION


def test_a_slow_hand_slows_the_spindle_or_takes_the_crank():
    quick = cut(plan(part(METRIC), with_house(shop("mm"), reaction_time=0.5)))
    slow = cut(plan(part(METRIC), with_house(shop("mm"), reaction_time=1.5)))
    assert value(slow, "speed").value < value(quick, "speed").value
    assert value(slow, "speed").value <= value(slow, "stopping_speed").value
    assert cut(plan(part(METRIC), with_house(shop("mm"), reaction_time=5.0))).figure("speed") is None


def test_a_lathe_too_fast_for_the_cut_takes_the_crank():
    lathe = shop("mm").lathe
    quick = replace(lathe, ranges=tuple(replace(r, least=380.0) for r in lathe.ranges))
    found = plan(part(METRIC), with_house(replace(shop("mm"), lathe=quick), reaction_time=0.3))
    op = cut(found)
    assert op.figure("speed") is None
    assert value(op, "stopping_speed").value > 380.0
    assert "too-fast" not in {f.code for f in found.findings if f.where == op.id}
    assert next(t for t in found.times if t.setup == op.setup).hand >= op.cutting_minutes


def test_change_gears_are_laid_out_with_the_tools():
    found = plan(part(), shop("in"))
    gears = next(k for k in found.kit if k.group == "change gears")
    assert gears.name == "change gears 50, 75, 35"
    assert gears.used_by == (cut(found, Motion.SCRATCH).number,)


def test_left_hand_starts_in_the_groove():
    found = plan(with_thread(part(), left=True), shop("in"))
    assert any("starts in the groove" in hint for hint in cut(found).hints)
    assert any("away from the chuck" in hint for hint in cut(found, Motion.SCRATCH).hints)
    assert "a relief groove" in stopped(without_groove(with_thread(part(), left=True)), shop("in"))


@pytest.mark.parametrize("starts", [2, 3])
def test_starts_are_indexed_and_lead_is_pitch_times_starts(starts):
    found = plan(with_thread(part(METRIC), starts=starts), shop("mm"))
    scratch = cut(found, Motion.SCRATCH)
    assert scratch.gearing.wanted == pytest.approx(1.0 * starts)
    told = " ".join(cut(found).hints)
    assert f"{starts} starts: all rows for the first" in told
    if scratch.gearing.index is not None:
        assert scratch.gearing.index * starts == scratch.gearing.gears[0]
        assert f"{scratch.gearing.index} teeth" in told
    assert prove(found)


def test_starts_that_no_gear_indexes_keep_the_top_slide_along_the_bed():
    own = with_screw(shop("mm"), stud=0.5)
    found = plan(with_thread(part(METRIC), starts=2), own)
    assert cut(found).figure("swivel") is None
    assert any("top slide, along the bed, forward by" in hint for hint in cut(found).hints)


def nut(name: str, method: Method = Method.SINGLE_POINT, *, through: bool = False) -> TurnedPart:
    """The head of the stud with a tapped hole in place of the stud."""
    stud = part(METRIC)
    spec = replace(stud.segments[0].thread, thread=threads.find(thread_name(name)), tolerance_class="6H")
    limits = threads.limits(spec.thread, "6H")
    size = general(spec.thread.major, "m", Use.HOLE)
    hole = Hole(
        id="thread",
        kind=HoleKind.TAP,
        end=End.FRONT,
        bottom=Bottom.THROUGH if through else Bottom.BLIND,
        diameter=replace(size, nominal=limits.minor_min, low=limits.minor_min, high=limits.minor_max),
        depth=None if through else general(8.0, "m", Use.LENGTH),
        thread=replace(spec, method=method),
    )
    head = replace(stud.segments[2], length=general(18.0, "m", Use.LENGTH))
    return replace(stud, segments=(head,), holes=(hole,), rod=general(16.0, "m", Use.SHAFT), mates=())


@pytest.mark.parametrize("through", [False, True])
def test_a_nut_is_cut_outward_from_its_drilled_hole(through):
    body = nut("M10x1", through=through)
    head = replace(body.segments[0], diameter=body.rod, as_stock=True)
    found = plan(replace(body, segments=(head,)), longer(shop("mm")))
    op = cut(found)
    assert op.rows[0].diameter == pytest.approx(
        next(o for o in found.operations if o.id == "thread.drill").cutter.diameter
    )
    assert travel(found.shop.lathe.cross, op.rows[-1].x) == pytest.approx(value(op, "thread_depth").value)
    assert op.holds[0].unit == "fit"
    assert not any(o.motion is Motion.TAP for o in found.operations)
    assert prove(found)


def longer(shop: Shop) -> Shop:
    """An inside tool that reaches through the nut."""
    tools = tuple(replace(t, reach=30.0) if t.least_bore == 8.0 else t for t in shop.tooling.lathe_tools)
    return with_tools(shop, lathe_tools=tools)


def test_a_hole_too_small_for_the_tool_says_so():
    body = nut("M4x0.7")
    head = replace(body.segments[0], diameter=body.rod, as_stock=True)
    told = stopped(replace(body, segments=(head,)), shop("mm"))
    assert "internal threading tool for M4x0.7" in told


def test_a_reading_that_misses_the_pitch_diameter_is_refused():
    found = plan(part(), shop("in"))
    op = cut(found)
    broken = replace(op, rows=op.rows[:-6])  # the spring passes and the last four lines left out
    operations = tuple(broken if o.id == op.id else o for o in found.operations)
    with pytest.raises(ReplayFault, match="pitch diameter"):
        prove(replace(found, operations=operations))


def test_another_train_on_the_same_sheet_is_refused():
    found = plan(part(), shop("in"))
    op = cut(found, Motion.SCRATCH)
    for gearing in (
        replace(op.gearing, gears=(40, 65)),
        replace(op.gearing, gears=(52, 78)),
        replace(op.gearing, every=0),
        replace(op.gearing, idler=20),
    ):
        broken = replace(op, gearing=gearing)
        operations = tuple(broken if o.id == op.id else o for o in found.operations)
        with pytest.raises(ReplayFault):
            prove(replace(found, operations=operations))
