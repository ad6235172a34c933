"""The table of materials and its hazards: look-up, completeness, and figures seen elsewhere."""

import pytest

from jobsheets.standards import hazards, materials

from .published import half_last_place, rows

ROUNDED = {  # half the last place of the table
    "density": 5.0,
    "tensile": 0.5,
    "yield_strength": 0.5,
    "shear": 0.05,
    "modulus": 0.05,
    "expansion": 0.05,
    "conductivity": 0.05,
}
KSI = 6.894757  # MPa
CONVERT = {  # what one printed unit is in the unit of the table
    "psi": KSI / 1000.0,
    "ksi": KSI,
    "Mpsi": KSI,  # GPa
    "lb/in3": 27679.9,  # kg/m3
    "g/cm3": 1000.0,
    "1e-6/F": 1.8,
    "Btu/(ft h F)": 1.730735,
    "Btu in/(ft2 h F)": 0.1442279,
    "MPa": 1.0,
    "GPa": 1.0,
    "1e-6/K": 1.0,
    "W/(m K)": 1.0,
}


@pytest.mark.parametrize(
    "row", rows("material_properties.csv"), ids=lambda r: f"{r['material']} {r['property']}"
)
def test_property_agrees_with_a_second_source(row):
    """To half the last printed place; where two sources differ, within the share named beside the figure."""
    unit = CONVERT[row["unit"]]
    if row["property"] == "modulus" and row["unit"] == "ksi":
        unit /= 1000.0
    found = getattr(materials.find(row["material"]), row["property"]) / unit
    printed = float(row["value"])
    allowed = float(row["within"]) * printed if row["within"] else half_last_place(row["value"])
    # the table itself is rounded: half of its last place comes on top
    assert found == pytest.approx(printed, abs=allowed + ROUNDED[row["property"]] / unit)


def test_growth_of_a_brass_bar():
    """Worked example: 25 mm of brass measured at 45 C instead of 20 C reads 0.0128 mm long."""
    expansion = materials.find("brass-360").expansion
    assert expansion is not None
    assert 25.0 * expansion * 1e-6 * 25.0 == pytest.approx(0.0128, abs=half_last_place("0.0128"))


def test_heat_that_opens_an_aluminium_guard():
    """Worked example: a 12 mm hole in aluminium opens by 0.030 mm at 106 K."""
    expansion = materials.find("6061").expansion
    assert expansion is not None
    assert 0.030 / (12.0 * expansion * 1e-6) == pytest.approx(106.0, abs=half_last_place("106"))


@pytest.mark.parametrize("row", rows("material_designations.csv"), ids=lambda r: r["name"])
def test_a_designation_finds_its_material(row):
    assert materials.find(row["name"]).id == row["material"]


@pytest.mark.parametrize("name", ["303 stainles", "AISI 305", "brass 361"])
def test_an_unknown_name_offers_the_nearest(name):
    with pytest.raises(ValueError, match="not a known material; want "):
        materials.find(name)


def test_every_row_can_be_found_and_is_possible():
    for name in materials.names():
        one = materials.find(name)
        assert one.seen in ("page", "memory")
        if one.tensile is not None and one.yield_strength is not None:
            assert one.yield_strength < one.tensile
        if one.tensile is not None and one.shear is not None and one.iso_group in "PMKNS":
            assert 0.5 < one.shear / one.tensile < 0.75
        assert one.density is None or 500.0 < one.density < 9000.0
        assert materials.find(name.upper().replace("-", " ")) == one
        for alias in materials.aliases(one):
            assert materials.find(alias) == one


def test_every_material_names_hazards_of_the_table():
    for name in materials.names():
        found = hazards.for_material(materials.find(name))
        assert found
        for one in found:
            assert one.control.endswith(".")
            assert one.document


def test_beryllium_copper_forbids_abrasive_steps():
    steps = {step.step: step for step in hazards.forbidden(materials.find("BeCu"))}
    assert "29 CFR 1910.1024" in steps["abrasive"].document
    assert not hazards.forbidden(materials.find("brass"))


@pytest.mark.parametrize("step", ["dry grinding", "abrasive", "blow down", "dry cutting", "dry sweeping"])
def test_every_kind_of_forbidden_step_is_used(step):
    found = [s.step for name in materials.names() for s in hazards.forbidden(materials.find(name))]
    assert step in found


def test_polishing_with_cloth_is_told_the_stricter_way():
    caution = hazards.for_operation("polishing with cloth")[0]
    assert caution.text.startswith("Never hold cloth")
    assert caution.document == "HSE EIS2"


def test_an_unknown_operation_is_refused():
    with pytest.raises(ValueError, match="want one of turning"):
        hazards.for_operation("turnin")
