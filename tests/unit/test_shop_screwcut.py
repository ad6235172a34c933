"""Leadscrew, banjo, chart, threading tools and wires of a shop file; a chart held against its screw."""

from pathlib import Path

import pytest

from jobsheets import job
from jobsheets.errors import InputError
from jobsheets.shop import gear_chart, load, owned
from jobsheets.shop.machines import ChartRow, LeadScrew
from jobsheets.standards import threads
from jobsheets.units import thread as thread_name
from tests.published.published import rows
from tests.unit.small_shop import SMALL

SHOPS = Path(__file__).parents[2] / "recipes" / "shops"
SCREW = """\
  leadscrew:
    pitch: 16 tpi
    stud: 0.5
    gears: [20, 40, 60]
    banjo: { tooth: 24 DP, span: 90 mm, slot_from: 35 mm, slot_to: 80 mm, shaft: 16 mm }
    chart:
      - { cuts: 20 tpi, gears: [40, 50] }
      - { cuts: 0.8 mm, gears: [40, 60, 60, 75] }
"""
TOOL = "  threading:\n    - { name: point, angle: 60 deg, flat: 0.1 mm, side: 1 mm }\n"


def shop(lathe: str = SCREW, tools: str = TOOL, more: str = ""):
    return load.read(SMALL.replace("tools:\n", f"{lathe}tools:\n") + tools + more, "shop.yaml")


def thread(text: str):
    return threads.find(thread_name(text))


def chart_row(row: dict[str, str]) -> ChartRow:
    a, b, c, d = (int(row[k] or 0) for k in "abcd")
    lead = 25.4 / float(row["cuts"]) if row["unit"] == "tpi" else float(row["cuts"])
    gears = (a, b, c, d) if c else (a, d)
    return ChartRow(cuts=f"{row['cuts']} {row['unit']}", lead=lead, gears=gears)


def test_everything_written_of_a_leadscrew_is_kept():
    screw = shop().lathe.leadscrew
    assert screw.stud == 0.5
    assert screw.banjo.module == pytest.approx(25.4 / 24)
    assert screw.banjo.slot_to == 80.0
    assert [r.gears for r in screw.chart] == [(40, 50), (40, 60, 60, 75)]
    assert screw.chart[0].lead == pytest.approx(1.27)


@pytest.mark.parametrize(
    ("old", "new", "match"),
    [
        ("slot_to: 80 mm", "slot_to: 30 mm", "more than slot_from"),
        ("gears: [40, 50]", "gears: [40, 50, 60]", "2 gears, or 4"),
        ("stud: 0.5", "stud: 0", "0.1 to 10 turns"),
        ("24 DP", "0 DP", "not a length|a length"),
        ("angle: 60 deg", "angle: 50 deg", "60 deg, 55 deg"),
        ("flat: 0.1 mm", "flat: 0.1 mm, nose: 0.1 mm", "one of the two"),
        ("side: 1 mm", "side: 1 mm, where: inside", "least_bore and reach"),
    ],
)
def test_a_fault_of_meaning_names_what_would_be_right(old, new, match):
    text = SMALL.replace("tools:\n", f"{SCREW}tools:\n") + TOOL
    assert old in text
    with pytest.raises(InputError, match=match):
        load.read(text.replace(old, new), "shop.yaml")


def test_wires_belong_to_thread_wires_only():
    with pytest.raises(InputError, match="thread wires without a size"):
        shop(more="gauges:\n  - { kind: thread wires }\n")
    with pytest.raises(InputError, match="wires of another gauge"):
        shop(more="gauges:\n  - { kind: caliper, resolution: 0.02 mm, wires: [0.5 mm] }\n")


def test_one_printed_chart_implies_two_leadscrews():
    screw = LeadScrew(pitch=1.5875, chart=tuple(map(chart_row, rows("gear_chart.csv"))))
    verdicts = gear_chart.audit(screw)
    implied = gear_chart.implied(verdicts)
    assert [(pytest.approx(pitch), count) for pitch, count in implied] == [(1.5875, 18), (1.5, 10)]
    bad = [v for v in verdicts if not v.good]
    assert {v.row.cuts.partition(" ")[2] for v in bad} == {"mm"}
    assert [v.error for v in bad] == pytest.approx([1.5875 / 1.5 - 1.0] * 10)


def test_on_a_metric_screw_the_other_half_is_wrong():
    screw = LeadScrew(pitch=1.5, chart=tuple(map(chart_row, rows("gear_chart.csv"))))
    bad = [v for v in gear_chart.audit(screw) if not v.good]
    assert {v.row.cuts.partition(" ")[2] for v in bad} == {"tpi"}
    assert len(bad) == 18


def test_a_near_train_of_a_chart_is_not_called_wrong():
    """Rows of a published chart of near trains for a 1.5 mm screw, off by up to 0.17 %."""
    chart = tuple(chart_row(r | {"cuts": r["tpi"], "unit": "tpi"}) for r in rows("gear_errors.csv"))
    verdicts = gear_chart.audit(LeadScrew(pitch=1.5, chart=chart))
    assert all(v.good for v in verdicts)
    assert [count for _, count in gear_chart.implied(verdicts)] == [len(chart)]


def test_the_invented_chart_of_the_inch_shop_is_caught():
    screw = job.load_shop(None, "in").lathe.leadscrew
    wrong = [v.row.cuts for v in gear_chart.audit(screw) if not v.good]
    assert wrong == ["0.8 mm", "1 mm", "1.25 mm"]


@pytest.mark.parametrize("name", ["inch", "metric"])
def test_a_chart_worked_out_uses_owned_gears_that_fit(name):
    screw = load.load(SHOPS / f"{name}-workshop.yaml").lathe.leadscrew
    lines = gear_chart.chart(screw, [25.4 / 20, 25.4 / 24, 1.0, 0.8, 40.0])
    assert lines[-1].train is None
    for line in lines[:-1]:
        assert all(line.train.gears.count(t) <= screw.gears.count(t) for t in line.train.gears)
        assert float(line.train.ratio) * screw.pitch == pytest.approx(line.lead * (1.0 + line.train.error))
        assert line.train.exact == ((name == "inch") == (line.lead not in (1.0, 0.8)))


def test_the_bluntest_tool_that_reaches_the_root_is_taken():
    tools = (
        "  threading:\n"
        "    - { name: sharp, angle: 60 deg, side: 1 mm }\n"
        "    - { name: small flat, angle: 60 deg, flat: 0.1 mm, side: 1 mm }\n"
        "    - { name: large flat, angle: 60 deg, flat: 0.4 mm, side: 1 mm }\n"
        "    - { name: whitworth, angle: 55 deg, nose: 0.1 mm, side: 1 mm }\n"
    )
    tooling = shop(tools=tools).tooling
    pick = owned.threading_tool_for(tooling, thread("M6x1"), inside=False)
    assert pick.tool.name == "small flat"
    assert owned.threading_tool_for(tooling, thread("M3x0.5"), inside=False).tool.name == "small flat"
    assert owned.threading_tool_for(tooling, thread("1/4-20 BSW"), inside=False).tool.name == "whitworth"
    nut = owned.threading_tool_for(tooling, thread("M6x1"), inside=True, bore=5.0, depth=8.0)
    assert nut.tool is None
    assert nut.consequence == "buy or borrow: 60 degree internal threading tool for M6x1, entering 0.1969 in"


def test_a_nose_too_blunt_is_told_with_what_to_grind():
    tools = "  threading:\n    - { name: blunt, angle: 60 deg, flat: 0.4 mm, side: 1 mm }\n"
    pick = owned.threading_tool_for(shop(tools=tools).tooling, thread("M6x1"), inside=False)
    assert pick.tool is None
    assert "grind a flat of 0 to 0.250 mm" in pick.consequence


def test_the_wires_nearest_to_the_best_size_are_taken():
    gauges = (
        "gauges:\n"
        "  - { kind: thread wires, wires: [0.5 mm, 0.6 mm, 0.85 mm] }\n"
        "  - { kind: micrometer, resolution: 0.01 mm }\n"
    )
    pick = owned.wires_for(shop(more=gauges).tooling, thread("M6x1"))
    assert pick.tool == 0.6
    assert owned.wires_for(shop(more=gauges).tooling, thread("M3x0.5")).tool is None
    assert "nut that it must fit" in owned.wires_for(shop().tooling, thread("M6x1")).consequence
