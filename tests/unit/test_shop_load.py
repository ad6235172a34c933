"""Shop files: what is read out of them."""

from pathlib import Path

import pytest

from jobsheets.errors import InputError
from jobsheets.shop.load import load, read
from jobsheets.shop.machines import LeadScrew, Reads
from jobsheets.shop.schema import SHARES
from jobsheets.shop.shop import HouseRules
from jobsheets.shop.tools import GaugeKind, LatheToolKind, TapKind
from tests.unit.small_shop import SMALL

SHOPS = Path(__file__).parents[2] / "recipes" / "shops"
INCH, METRIC = SHOPS / "inch-workshop.yaml", SHOPS / "metric-workshop.yaml"


def test_small_shop_with_everything_optional_left_out():
    shop = read(SMALL, "shop.yaml")
    assert shop.mill is None
    assert shop.lathe.power == pytest.approx(372.85)
    assert shop.lathe.efficiency == 0.7
    assert shop.lathe.collets is None
    assert shop.lathe.leadscrew is None
    assert shop.lathe.carriage.label == "0.01 in"
    assert shop.house == HouseRules()
    assert [d.name for d in shop.tooling.drills] == [
        "1/16 in", "7/64 in", "1/8 in", "5/32 in", "3/16 in", "7/32 in", "1/4 in",
    ]  # fmt: skip


def test_inch_demo_shop():
    shop = load(INCH)
    lathe = shop.lathe
    assert [s.rpm for s in lathe.speeds] == [130, 300, 400, 600, 1000, 2000]
    assert lathe.spindle_bore == pytest.approx(0.781 * 25.4)
    assert lathe.cross.reads is Reads.RADIUS
    assert lathe.cross.division == pytest.approx(0.001 * 25.4)
    assert lathe.quill.usable_from == pytest.approx(12.7)
    assert lathe.collets is not None
    assert lathe.collets.sizes == pytest.approx([25.4 * n / 16 for n in range(2, 9)])
    assert isinstance(lathe.leadscrew, LeadScrew)
    assert lathe.leadscrew.pitch == pytest.approx(25.4 / 16)
    assert shop.mill is not None
    assert shop.mill.table_x is not None
    assert shop.mill.table_x.division == pytest.approx(0.001 * 25.4)
    names = {d.name for d in shop.tooling.drills}
    assert {"#1", "#29", "#60", "A", "Z", "1/16 in", "9/64 in", "1/2 in"} <= names
    assert not {"#40", "#47", "#61"} & names
    assert shop.tooling.system == "in"


def test_metric_demo_shop():
    shop = load(METRIC)
    assert shop.lathe.speeds == ()
    assert [(r.least, r.most) for r in shop.lathe.ranges] == [(100, 1100), (200, 2200)]
    assert shop.lathe.cross.reads is Reads.DIAMETER
    assert shop.lathe.collets is None
    assert shop.tooling.reamers == ()
    assert shop.mill is not None
    assert shop.mill.table_y is not None
    assert shop.mill.table_y.step == pytest.approx(0.01)
    m5 = {t.kind for t in shop.tooling.taps if t.thread.name == "M5x0.8"}
    assert m5 == {TapKind.TAPER, TapKind.SECOND}


@pytest.mark.parametrize("path", [INCH, METRIC], ids=["inch", "metric"])
def test_demo_shop_says_that_it_is_invented(path):
    assert "INVENTED" in path.read_text(encoding="utf-8").splitlines()[0]
    assert "(invented)" in load(path).name


@pytest.mark.parametrize("path", [INCH, METRIC], ids=["inch", "metric"])
def test_demo_shop_has_what_a_nut_on_a_rod_needs(path):
    tooling = load(path).tooling
    kinds = {t.kind for t in tooling.lathe_tools}
    assert kinds == set(LatheToolKind)
    assert {g.kind for g in tooling.gauges} >= {
        GaugeKind.CALIPER,
        GaugeKind.MICROMETER,
        GaugeKind.MATING_THREAD,
    }
    assert tooling.die_holder
    assert tooling.v_block
    assert [d.diameter for d in tooling.drills] == sorted(d.diameter for d in tooling.drills)


# Flute lengths as the standards print them for single sizes, inside the bands and at the ends of the sets.
@pytest.mark.parametrize(
    ("path", "name", "flute"),
    [
        (INCH, "#60", 25.4 * 11 / 16),  # ANSI B94.11M, memory
        (INCH, "#29", 25.4 * 1.75),
        (INCH, "1/4 in", 25.4 * 2.75),
        (INCH, "1/2 in", 25.4 * 4.5),
        (METRIC, "1 mm", 12.0),  # DIN 338, memory
        (METRIC, "3.3 mm", 36.0),
        (METRIC, "4.2 mm", 43.0),
        (METRIC, "8.5 mm", 75.0),
        (METRIC, "10 mm", 87.0),
    ],
)
def test_flutes_of_jobber_drills(path, name, flute):
    drill = next(d for d in load(path).tooling.drills if d.name == name)
    assert drill.flute == pytest.approx(flute)


def test_longer_drill_bought_singly_stands_in_for_that_of_the_set():
    drills = load(INCH).tooling.drills
    assert [d.flute for d in drills if d.name == "1/8 in"] == [pytest.approx(76.2)]


def test_house_rule_set_by_the_maker():
    shop = read(SMALL + "house: { most_depth: 0.02 in, gauge_ratio: 4, tap_by_hand: false }\n", "shop.yaml")
    assert shop.house.most_depth == pytest.approx(0.508)
    assert shop.house.gauge_ratio == 4.0
    assert shop.house.tap_by_hand is False


def test_every_house_rule_can_be_set():
    written = []
    for name in HouseRules.__slots__:
        value = getattr(HouseRules(), name)
        if isinstance(value, bool):
            written.append(f"  {name}: {'false' if value else 'true'}")
        elif name in (
            "grip_to_diameter",
            "free_stick_out",
            "most_stick_out",
            "engagement",
            "tap_margin",
            "gauge_ratio",
            "spring_passes",
            "reaction_time",
        ):
            written.append(f"  {name}: {value + 1.0:g}")
        elif name == "thread_swivel":
            written.append(f"  {name}: 29")
        elif name in SHARES:
            written.append(f"  {name}: 0.3")
        else:
            written.append(f"  {name}: {value + 0.05:g} mm")
    house = read(SMALL + "house:\n" + "\n".join(written) + "\n", "shop.yaml").house
    assert [n for n in HouseRules.__slots__ if getattr(house, n) == getattr(HouseRules(), n)] == []


def test_proven_value_in_either_unit():
    rows = """house:
  proven:
    - { material: AISI 303, operation: turn rough, speed: 100 ft/min, feed: 0.004 in }
    - { material: brass-360, operation: drill, tool: carbide, speed: 80 m/min }
"""
    first, second = read(SMALL + rows, "shop.yaml").proven
    assert (first.material, first.operation, first.tool) == ("stainless-303", "turn rough", "HSS")
    assert first.speed == pytest.approx(30.48)
    assert first.feed == pytest.approx(0.1016)
    assert (second.tool, second.speed, second.feed) == ("carbide", 80.0, None)


@pytest.mark.parametrize(
    ("row", "message"),
    [
        ("{ material: steel-1018, operation: turn rough }", "a proven value without a value"),
        ("{ material: steel-1018, operation: turn rough, speed: 30 }", "want such as 90 ft/min or 28 m/min"),
        ("{ material: steel-1018, operation: turn rough, speed: 0 m/min }", "not a cutting speed"),
        ("{ material: steel-1018, operation: turning, speed: 30 m/min }", "turn rough"),
    ],
)
def test_proven_value_that_is_none_is_refused(row, message):
    with pytest.raises(InputError, match=message):
        read(SMALL + f"house:\n  proven:\n    - {row}\n", "shop.yaml")


def test_boring_bar_is_as_thick_as_written_or_a_share_of_its_hole():
    plain = "least_bore: 10 mm, reach: 30 mm"
    bars = f"{{ name: a, {plain} }}, {{ name: b, {plain}, shank: 7 mm }}"
    rows = f"  boring: [{bars}]\n"
    assert [t.width for t in read(SMALL + rows, "shop.yaml").tooling.lathe_tools] == [8.0, 7.0]


def test_material_by_any_of_its_names():
    shop = read(
        SMALL + "stock: [{ material: AISI 303, diameter: 3/8 in, length: 12 in, pieces: 2 }]\n", "s.yaml"
    )
    assert [b.material for b in shop.stock] == ["stainless-303", "stainless-303"]


def test_taps_are_named_by_lead_with_threads_counted():
    taps = "  taps: [{ threads: [8-32 UNC], leads: { second: 4, bottoming: 1.5 }, hand: left }]\n"
    found = read(SMALL + taps, "shop.yaml").tooling.taps
    assert [(t.kind, t.lead_threads, t.left) for t in found] == [
        (TapKind.SECOND, 4.0, True),
        (TapKind.BOTTOMING, 1.5, True),
    ]
