"""Trains and charts as they were printed."""

from fractions import Fraction

import pytest

from jobsheets.cutting import gear_train
from jobsheets.cutting.gear_train import Train
from jobsheets.cutting.screwcutting import dial_every, dial_repeat

from .published import half_last_place, rows

# Gears that stand in the printed charts, the one that stands twice in a row twice.
OWNED = (20, 30, 35, 40, 40, 45, 50, 55, 57, 60, 65)


def lead(value: str, unit: str) -> float:
    return 25.4 / float(value) if unit == "tpi" else float(value)


def train(row: dict[str, str]) -> Train:
    a, b, c, d = (int(row[k] or 0) for k in "abcd")
    return Train(gears=(a, b, c, d)) if c else Train(gears=(a, d), idler=b)


@pytest.mark.parametrize("row", rows("gear_trains.csv"), ids=lambda r: f"{r['cuts']} {r['cuts_unit']}")
def test_printed_train_cuts_what_it_says(row):
    ratio = Fraction(1)
    for driver, driven in zip(row["drivers"].split(), row["driven"].split(), strict=True):
        ratio *= Fraction(int(driver), int(driven))
    screw, wanted = lead(row["screw"], row["screw_unit"]), lead(row["cuts"], row["cuts_unit"])
    assert gear_train.lead_cut(ratio, screw) == pytest.approx(wanted, rel=1e-12)
    assert gear_train.ratio_for(wanted, screw) == pytest.approx(float(ratio), rel=1e-12)


@pytest.mark.parametrize("row", rows("gear_trains.csv"), ids=lambda r: f"{r['cuts']} {r['cuts_unit']}")
def test_search_finds_the_printed_train(row):
    drivers, driven = row["drivers"].split(), row["driven"].split()
    owned = tuple(map(int, (*drivers, *driven, "30")))  # one more, to be the idler of a simple train
    ratio = gear_train.ratio_for(lead(row["cuts"], row["cuts_unit"]), lead(row["screw"], row["screw_unit"]))
    asked = (sorted(map(int, drivers)), sorted(map(int, driven)))
    found = [(sorted(t.gears[0::2]), sorted(t.gears[1::2])) for t in gear_train.search(ratio, owned)]
    assert asked in found


@pytest.mark.parametrize("row", rows("gear_chart.csv"), ids=lambda r: f"{r['cuts']} {r['unit']}")
def test_search_finds_every_row_of_the_chart_on_the_screw_that_it_implies(row):
    screw, wanted = float(row["implies_mm"]), lead(row["cuts"], row["unit"])
    printed = train(row)
    found = gear_train.search(gear_train.ratio_for(wanted, screw), OWNED)
    assert printed.gears in [t.gears for t in found]
    assert all(t.exact for t in found)


def test_one_printed_chart_needs_two_leadscrews():
    """Its inch half is right on a 16 tpi screw only, its metric half on 1.5 mm only: 5.8 % apart."""
    implied = {
        round(lead(row["cuts"], row["unit"]) / float(train(row).ratio), 9) for row in rows("gear_chart.csv")
    }
    assert implied == {1.5875, 1.5}
    assert max(implied) / min(implied) - 1.0 == pytest.approx(0.0583, abs=0.00005)


@pytest.mark.parametrize("row", rows("gear_errors.csv"), ids=lambda r: f"{r['tpi']} tpi")
def test_error_of_a_near_train_as_printed(row):
    real = 25.4 / gear_train.lead_cut(train(row).ratio, 1.5)
    assert real == pytest.approx(float(row["real_tpi"]), abs=half_last_place(row["real_tpi"]))
    error = abs(real / float(row["tpi"]) - 1.0) * 100.0
    # The chart's percents were taken from differently rounded counts: they agree to the second figure.
    assert error == pytest.approx(float(row["error_percent"]), rel=0.02)


@pytest.mark.parametrize("row", rows("gear_errors.csv"), ids=lambda r: f"{r['tpi']} tpi")
def test_best_is_no_worse_than_the_printed_near_train(row):
    ratio = gear_train.ratio_for(25.4 / float(row["tpi"]), 1.5)
    owned = (20, 20, 21, 30, 35, 40, 40, 45, 50, 55, 57, 60, 65, 80, 80)
    found = gear_train.best(ratio, owned)
    assert abs(found[0].error) <= abs(float(train(row).ratio) / ratio - 1.0) + 1e-12


@pytest.mark.parametrize("row", rows("thread_dial.csv"), ids=lambda r: f"{r['cuts_tpi']} tpi")
def test_thread_dial_as_printed(row):
    ratio = Fraction(int(row["screw_tpi"]), int(row["cuts_tpi"]))
    assert dial_every(ratio, int(row["teeth"]), int(row["marks"])) == int(row["every"])
    if row["repeat_in"]:
        assert dial_repeat(ratio) / float(row["screw_tpi"]) == float(row["repeat_in"])
