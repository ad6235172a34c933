"""The published tables as they are served: in order, sourced, and nothing where nothing was found."""

import pytest

from jobsheets.standards import cutting_constants, cutting_data, materials
from jobsheets.standards.cutting_rows import NoData, PublishedRange

from .published import rows


def found(asked: PublishedRange | NoData) -> PublishedRange:
    assert isinstance(asked, PublishedRange)
    return asked


METRES = {"m/min": 1.0, "ft/min": 0.3048}


@pytest.mark.parametrize(
    "row", rows("cutting_ranges.csv"), ids=lambda row: f"{row['cutting_id']} {row['operation']} {row['low']}"
)
def test_speed_that_others_used_touches_the_served_range(row: dict[str, str]) -> None:
    """Worked examples and pages that are no row of the tables; a tenth of allowance."""
    served = found(cutting_data.speed(row["cutting_id"], row["operation"], row["tool"]))
    low, high = (float(row[name]) * METRES[row["unit"]] for name in ("low", "high"))
    assert low <= 1.1 * served.high
    assert high >= 0.9 * served.low


FASTER = [
    ("brass_360", "ss_303"),
    ("ss_303", "ss_304"),
    ("ss_416", "ss_304"),
    ("al_6061", "brass_360"),
    ("steel_12L14", "steel_1018"),
    ("steel_1018", "steel_1045"),
    ("steel_1045", "tool_O1"),
    ("steel_1018", "ss_304"),
    ("ss_304", "ss_440C"),
    ("ti_gr2", "ti_64"),
    ("bronze_544", "bronze_510"),
    ("brass_360", "bronze_510"),
]


@pytest.mark.parametrize("operation", ["turn rough", "drill"])
@pytest.mark.parametrize(("easy", "hard"), FASTER)
def test_easier_material_is_cut_faster(easy: str, hard: str, operation: str) -> None:
    faster = found(cutting_data.speed(easy, operation)).median
    slower = found(cutting_data.speed(hard, operation)).median
    assert faster > slower if operation == "turn rough" else faster >= slower


@pytest.mark.parametrize("operation", cutting_data.operations("speed"))
@pytest.mark.parametrize("tool", ["HSS", "carbide"])
def test_every_range_is_in_order_and_names_its_sources(operation: str, tool: str) -> None:
    for cutting_id in cutting_data.materials():
        served = cutting_data.speed(cutting_id, operation, tool)
        if isinstance(served, NoData):
            assert served.note == "no published figure found"
            assert not served.instead or cutting_data.speed(cutting_id, served.instead, tool).sources
        else:
            assert 0.0 < served.low <= served.median <= served.high
            assert served.sources
            assert served.seen in ("page", "memory")
            assert all("kept out" not in row.note for row in served.rows)
            assert all("kept out" in row.note for row in served.excluded)


@pytest.mark.parametrize("operation", cutting_data.operations("feed"))
@pytest.mark.parametrize("diameter", [0.5, 1.5, 3.175, 6.0, 12.5, 25.4, 40.0])
def test_every_feed_is_in_order_and_grows_with_the_diameter(operation: str, diameter: float) -> None:
    for cutting_id in cutting_data.materials():
        served = cutting_data.feed(cutting_id, operation, diameter)
        if isinstance(served, PublishedRange):
            assert 0.0 < served.low <= served.median <= served.high
            larger = found(cutting_data.feed(cutting_id, operation, 1.5 * diameter))
            assert larger.low >= served.low


def test_nothing_is_guessed() -> None:
    for cutting_id in ("horn_bone", "cfrp", ""):
        for operation in cutting_data.operations("speed"):
            assert isinstance(cutting_data.speed(cutting_id, operation), NoData)
        for operation in cutting_data.operations("feed"):
            assert isinstance(cutting_data.feed(cutting_id, operation, 6.0), NoData)
        assert isinstance(cutting_data.specific_force(cutting_id), NoData)
        assert isinstance(cutting_constants.drill_factor(cutting_id), NoData)
    assert cutting_data.speed("copper_110", "turn finish") == NoData(
        cutting_id="copper_110", operation="turn finish", tool="HSS", instead="turn rough"
    )


def test_row_that_was_kept_out_is_shown_and_does_not_count() -> None:
    served = found(cutting_data.speed("ss_303", "turn rough"))
    (kept_out,) = served.excluded
    assert kept_out.high > served.high
    assert served.count == len(served.rows) == 2


def test_rule_says_what_it_was_applied_to() -> None:
    parting = found(cutting_data.speed("ss_304", "part-off"))
    turning = found(cutting_data.speed("ss_304", "turn rough"))
    assert parting.basis == "0.5 x turn rough"
    assert parting.median == pytest.approx(0.5 * turning.median)
    assert parting.sources[:-1] == turning.sources


def test_feed_between_the_printed_sizes() -> None:
    # Stainless: printed 0.025 mm/rev at 1.5 mm and 0.18 at 12.5 mm; half way, half way.
    served = found(cutting_data.feed("ss_304", "drill", 7.0))
    assert [row.typical for row in served.rows if "Kalpakjian" in row.source] == [pytest.approx(0.1025)]
    # A cutter of half the smallest printed size takes half its feed.
    half = found(cutting_data.feed("brass_360", "mill", 3.175)).low
    assert half == pytest.approx(found(cutting_data.feed("brass_360", "mill", 6.35)).low / 2.0)


@pytest.mark.parametrize("name", materials.names())
def test_every_material_of_the_shop_can_be_asked_for(name: str) -> None:
    cutting_id = materials.find(name).cutting_id
    assert isinstance(cutting_data.speed(cutting_id, "turn rough"), PublishedRange | NoData)
    force = cutting_data.specific_force(cutting_id)
    if not isinstance(force, NoData):
        assert force.low <= force.kc11 <= force.high
        assert 0.1 < force.mc < 0.35
        assert force.source


def test_every_group_of_the_feeds_is_read_by_some_material() -> None:
    groups = {row["group"] for row in cutting_data.tables.load("cutting_feeds", key=FEED_KEY)}
    mapped = {
        row["group"]
        for row in cutting_data.tables.load("cutting_material_groups", key=("cutting_id", "use", "group"))
    }
    assert groups == mapped


FEED_KEY = ("operation", "quantity", "group", "tool", "over_mm", "at_mm", "low", "note", "source")


@pytest.mark.parametrize(
    ("ask", "cure"),
    [
        (lambda: cutting_data.speed("ss_033", "drill"), "ss_303"),
        (lambda: cutting_data.speed("ss_303", "drlil"), "turn rough, turn finish, drill"),
        (lambda: cutting_data.speed("ss_303", "drill", "diamond"), "HSS, carbide"),
        (lambda: cutting_data.feed("ss_303", "drill", 0.0), "want one above zero"),
        (lambda: cutting_data.feed("ss_303", "tap", 5.0), "no feed is kept"),
        (lambda: cutting_data.reaming_stock(-1.0), "want one above zero"),
        (lambda: cutting_constants.chisel(0.5), "0.18"),
        (lambda: cutting_constants.factor("wear", "new"), "wear sharp"),
        (lambda: cutting_constants.deep_hole(10.0, 0.0), "diameter above zero"),
    ],
)
def test_refused_with_a_cure(ask, cure: str) -> None:
    with pytest.raises(ValueError, match=cure):
        ask()


@pytest.mark.parametrize(
    ("diameters", "speed", "feed"), [(3.0, 0.9, 0.9), (4.5, 0.8, 0.9), (5.0, 0.7, 0.8), (9.0, 0.6, 0.8)]
)
def test_deep_hole_is_cut_back(diameters: float, speed: float, feed: float) -> None:
    back = cutting_constants.deep_hole(diameters * 4.0, 4.0)
    assert back is not None
    assert (back.speed, back.feed) == (speed, feed)
    assert cutting_constants.deep_hole(2.9 * 4.0, 4.0) is None


def test_stock_for_the_reamer() -> None:
    by_machine, by_hand = cutting_data.reaming_stock(6.35), cutting_data.reaming_stock(6.35, by_hand=True)
    assert by_machine.median == pytest.approx(0.254)  # 0.010 in at 1/4 in, the middle of three sources
    assert (by_hand.low, by_hand.high) == pytest.approx((0.0508, 0.127))  # 0.002 to 0.005 in
