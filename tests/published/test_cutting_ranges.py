"""Speeds and forces as served, against figures that were worked out or printed elsewhere."""

import pytest

from jobsheets.cutting.unit_power import power_of_removal
from jobsheets.standards import cutting_data, materials, pin_details, pins, sawing, tables
from jobsheets.standards.cutting_data import SpecificForce
from jobsheets.standards.cutting_rows import PublishedRange

from .published import half_last_place, rows

WATTS_PER_HP = 745.699872
MM3_PER_IN3 = 25.4**3
ROUNDED = 0.015  # the apart figures are whole feet a minute turned into tenths of a metre
HALF_FOOT = 0.1524 + 0.05  # m/min; half a foot a minute, and half a tenth of a metre
THIN, THICK = 0.1, 0.5  # mm of chip: what small machines take
# Family-wide ranges that leave out what their family has of easiest and hardest: docs/cutting.md.
OUTSIDE = {"brass_360", "steel_12L14", "ti_gr2", "ti_64"}


def served(row: dict[str, str]) -> PublishedRange | None:
    found = cutting_data.speed(row["cutting_id"], row["operation"], row["tool"])
    return found if isinstance(found, PublishedRange) else None


DIRECT = [
    row
    for row in rows("cutting_speed_ranges.csv")
    if row["kind"] == "range"
    and (found := served(row)) is not None
    and not found.basis
    and not found.excluded  # the apart range counted rows that are kept out here: docs/cutting.md
]
DERIVED = [
    row
    for row in rows("cutting_speed_ranges.csv")
    if row["kind"] == "derived"
    and row["cutting_id"] != "g10"  # a row of its turning is kept out
    and (found := served(row)) is not None
    and found.basis
]


def test_most_of_the_apart_ranges_are_compared() -> None:
    assert len(DIRECT) >= 225
    assert len(DERIVED) >= 70


@pytest.mark.parametrize(
    "row", DIRECT, ids=lambda row: f"{row['cutting_id']} {row['operation']} {row['tool']}"
)
def test_range_agrees_with_the_one_worked_out_apart(row: dict[str, str]) -> None:
    found = served(row)
    assert found is not None
    for name, ours in (("low", found.low), ("typical", found.median), ("high", found.high)):
        assert ours == pytest.approx(float(row[name]), rel=ROUNDED, abs=HALF_FOOT), name


@pytest.mark.parametrize(
    "row", DERIVED, ids=lambda row: f"{row['cutting_id']} {row['operation']} {row['tool']}"
)
def test_rule_gives_what_it_gave_apart(row: dict[str, str]) -> None:
    """The default is the usual share, or the cautious end where only a span of shares is known."""
    found = served(row)
    assert found is not None
    least = min(float(row[name]) for name in ("low", "typical") if row[name])
    most = max(float(row[name]) for name in ("typical", "high") if row[name])
    assert found.median <= (1.0 + 4.0 * ROUNDED) * most
    assert found.low <= (1.0 + ROUNDED) * least + HALF_FOOT
    assert found.high >= (1.0 - ROUNDED) * most - HALF_FOOT


@pytest.mark.parametrize(
    "row", rows("cutting_unit_power.csv"), ids=lambda row: row["material"] + row["condition"]
)
def test_unit_power_in_horsepower_and_in_kilowatts_is_one(row: dict[str, str]) -> None:
    """The same printed constant in both systems gives the same power, as near as both were rounded."""
    inches = 2.0  # in3/min
    ours = power_of_removal(float(row["kp_kw"]), inches * MM3_PER_IN3)
    printed = float(row["kp_hp"]) * inches * WATTS_PER_HP
    loose = half_last_place(row["kp_hp"]) / float(row["kp_hp"]) + half_last_place(row["kp_kw"]) / float(
        row["kp_kw"]
    )
    assert ours == pytest.approx(printed, rel=loose)


@pytest.mark.parametrize("row", rows("cutting_specific_energy.csv"), ids=lambda row: row["family"])
def test_specific_force_touches_the_energy_of_its_family(row: dict[str, str]) -> None:
    low, high = (1000.0 * float(row[name]) for name in ("low", "high"))  # W s/mm3 to N/mm2
    for cutting_id in row["cutting_ids"].split(";"):
        force = cutting_data.specific_force(cutting_id)
        assert isinstance(force, SpecificForce)
        touches = force.low * THICK**-force.mc <= high and force.high * THIN**-force.mc >= low
        assert touches != (cutting_id in OUTSIDE), cutting_id


def test_pins_of_a_standard_carry_in_proportion_to_their_area() -> None:
    """The standard computes the loads from one shear strength: 130 ksi, or 1050 MPa in two sections."""
    checked = 0
    for pin in pins.every():
        for one in pin_details.of(pin.standard, pin.kind, pin.size):
            if pin.kind == "dowel" and pin.series == "standard" and one.unit == "N":
                area = 3.14159265 / 4.0 * pin.nominal**2 * (2.0 if "double" in one.what else 1.0)
                assert one.least / area == pytest.approx(
                    1050.0 if pin.size.endswith("mm") else 896.3, rel=0.015
                )
                checked += 1
    assert checked == 14


def test_points_are_smaller_than_their_pins() -> None:
    for pin in pins.every():
        for one in pin_details.of(pin.standard, pin.kind, pin.size):
            if one.what == "point diameter":
                assert 0.7 * pin.nominal < one.least < one.most < pin.nominal


def test_blade_speeds_belong_to_materials_and_fall_with_hardness() -> None:
    ids = [row["material"] for row in tables.load("band_saw_speeds", key=("printed",)) if row["material"]]
    speeds = [found.speed for name in ids if (found := sawing.speed(materials.find(name))) is not None]
    assert len(speeds) == len(ids) == 9
    assert speeds[0] == max(speeds) == pytest.approx(129.54)  # 12L14, 425 ft/min
    assert sawing.speed(materials.find("brass-360")) is None
    assert [one.low for one in sawing.factors() if "section" in one.what] == [1.15, 1.12, 1.1, 0.88]
