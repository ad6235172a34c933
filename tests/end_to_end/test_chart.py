"""Wall charts from words to one page that can be read from a metre away."""

from io import BytesIO
from math import prod
from pathlib import Path

import pypdf
import pytest

from jobsheets.cli import main
from jobsheets.commands import chart as command
from jobsheets.lookup.charts import KINDS, Chart, Wanted, chart
from jobsheets.sheet import face
from jobsheets.sheet.chart import LEAST_CAPITALS, page
from jobsheets.sheet.display import UNPRINTED, Text, bounds, outside
from jobsheets.shop.load import load
from jobsheets.standards import drills

SHOPS = Path(__file__).parents[2] / "recipes" / "shops"
SHOP = {"in": SHOPS / "inch-workshop.yaml", "mm": SHOPS / "metric-workshop.yaml"}
OF_A_SHOP = ("speeds", "gears")  # kinds that nothing can be said of without a shop
EVERY = [(kind, system) for kind in KINDS for system in SHOP if kind not in OF_A_SHOP]


def made(tmp_path: Path, *words: str) -> pypdf.PdfReader:
    target = tmp_path / "chart.pdf"
    assert main(["chart", *words, "-o", str(target)]) == 0
    return pypdf.PdfReader(BytesIO(target.read_bytes()))


def text_of(reader: pypdf.PdfReader) -> str:
    return reader.pages[0].extract_text()


def row_of(reader: pypdf.PdfReader, first: str) -> str:
    """What stands from a row's first cell to the end of the row, as a PDF gives it: one cell a line."""
    lines = text_of(reader).splitlines()
    start = lines.index(first)
    return " ".join(lines[start : start + 6])


@pytest.mark.parametrize(("kind", "system"), EVERY)
@pytest.mark.parametrize("own", [False, True])
def test_a_chart_is_one_page_of_large_type_within_its_margins(kind: str, system: str, own: bool) -> None:
    words = [kind, "--shop", str(SHOP[system])] if own else [kind, "--units", system]
    found = chart(kind, command.wanted(command.options(words)))
    laid = page(found)
    texts = [item for item in laid.items if isinstance(item, Text)]
    assert min(face.capitals(text.size) for text in texts) >= LEAST_CAPITALS - 1e-9 >= 0.004 * 1000.0 - 1e-6
    assert outside(laid, UNPRINTED) == ()
    shown = [text.text for text in texts]
    for cells in found.rows:
        assert all(cell in shown for cell in cells if cell)


@pytest.mark.parametrize(("kind", "system"), EVERY)
def test_no_text_stands_on_another(kind: str, system: str) -> None:
    laid = page(chart(kind, Wanted(system=system)))
    boxes = [bounds(item) for item in laid.items if isinstance(item, Text)]
    for n, (left, top, right, bottom) in enumerate(boxes):
        high = (bottom - top) * 0.2  # descender and accent rooms of two lines may meet
        for other in boxes[:n]:
            apart = (
                right <= other[0] or other[2] <= left or bottom - high <= other[1] or other[3] <= top + high
            )
            assert apart, (boxes[n], other)


@pytest.mark.parametrize(("kind", "system"), EVERY)
def test_the_file_has_one_page_of_its_paper(kind: str, system: str, tmp_path: Path) -> None:
    reader = made(tmp_path, kind, "--units", system)
    assert len(reader.pages) == 1
    width = float(reader.pages[0].mediabox.width) * 25.4 / 72.0
    assert width == pytest.approx(215.9 if system == "in" else 210.0, abs=0.1)


def test_tap_drills_are_those_that_the_shop_owns(tmp_path: Path) -> None:
    reader = made(tmp_path, "tap-drills", "--shop", str(SHOP["in"]), "--material", "brass-360")
    said = text_of(reader)
    assert "1/4-28 UNF" in said
    assert "3/8-16 UNC" not in said  # no tap of that size in the shop
    assert row_of(reader, "8-32 UNC").startswith("8-32 UNC #29 .1360 69 %")
    assert "65 to 75" in said
    assert "own drawer" in said


def test_a_drill_that_is_missing_from_the_drawer_is_not_on_its_chart(tmp_path: Path) -> None:
    said = text_of(made(tmp_path, "drills", "--shop", str(SHOP["in"]))).splitlines()
    assert "#41" in said
    assert "#40" not in said
    assert "#47" not in said


def test_clearance_holes_are_those_of_the_standards(tmp_path: Path) -> None:
    assert row_of(made(tmp_path, "clearance", "--units", "mm"), "M5").startswith("M5 5.3 5.5 5.8")
    (tmp_path / "chart.pdf").unlink()
    assert row_of(made(tmp_path, "clearance"), "#8").startswith("#8 #15 #9 #3")


def test_fractions_are_exact(tmp_path: Path) -> None:
    assert row_of(made(tmp_path, "decimals"), "29/64").startswith("29/64 .4531 11.509")


def test_threads_have_their_basic_sizes(tmp_path: Path) -> None:
    # 1/4-20: pitch diameter .2175, depth 0.6495 / 20 = .0325, best wire .57735 / 20 = .0289
    assert row_of(made(tmp_path, "threads"), "1/4-20 UNC").startswith("1/4-20 UNC .2500 .2175 .0325 .0289")


def test_the_same_chart_gives_the_same_bytes(capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    for _ in range(2):
        assert main(["chart", "clearance", "-o", "-"]) == 0
    twice = capsysbinary.readouterr().out
    assert twice[: len(twice) // 2] == twice[len(twice) // 2 :]


def test_more_rows_than_can_be_read_are_refused() -> None:
    crowded = Chart(kind="x", title="x", head=("a", "b"), rows=(("1/64", "0.0156"),) * 400, notes=())
    with pytest.raises(ValueError, match="400 rows are too many for one page at 4 mm capitals"):
        page(crowded)


def test_a_drawer_without_a_suitable_drill_says_so() -> None:
    one = tuple(drill for drill in drills.series("letter") if drill.name == "Z")
    rows = chart("tap-drills", Wanted(system="in", drills=one)).rows
    assert ("4-40 UNC", "none owned", "", "", "", "") in rows


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["tap-drils"], "'tap-drills'"),
        (["drills", "--material", "brass"], "chart tap-drills"),
        (["tap-drills", "--material", "bras"], "brass"),
        (["drills", "--shop", "no-such.yaml"], "no-such.yaml"),
        (["gears"], "change gears are a shop's own"),
        (["drills", "--plate"], "chart gears"),
        (["gears", "--shop", "x.yaml", "--plate", "--units", "mm"], "--shop FILE alone"),
    ],
)
def test_mistakes_are_told(words: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chart", *words, "-o", "-"]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("system", list(SHOP))
@pytest.mark.parametrize("more", [(), ("--material", "stainless-303")])
def test_speeds_are_positions_of_the_shop_to_be_read_from_a_metre(system: str, more: tuple[str, ...]) -> None:
    words = ["speeds", "--shop", str(SHOP[system]), *more]
    found = chart("speeds", command.wanted(command.options(words)))
    laid = page(found)
    texts = [item for item in laid.items if isinstance(item, Text)]
    assert min(face.capitals(text.size) for text in texts) >= LEAST_CAPITALS - 1e-9
    assert outside(laid, UNPRINTED) == ()
    lathe = load(SHOP[system]).lathe
    known = {s.position.removeprefix("belt ") for s in lathe.speeds} | {"H", "L", "by hand"}
    cells = [cell for row in found.rows for cell in row[1:]]
    assert {cell if cell in known else cell.split()[0] for cell in cells} <= known


def test_a_thicker_bar_never_runs_faster_on_the_chart() -> None:
    lathe = load(SHOP["in"]).lathe
    rank = {s.position.removeprefix("belt "): s.rpm for s in lathe.speeds} | {"by hand": 0.0}
    rows = chart("speeds", command.wanted(command.options(["speeds", "--shop", str(SHOP["in"])]))).rows
    for column in range(1, len(rows[0])):
        speeds = [rank[row[column]] for row in rows]
        assert speeds == sorted(speeds, reverse=True)


def test_stainless_of_half_an_inch_worked_by_hand() -> None:
    """Median 21.35 m/min on 12.7 mm: 1000 x 21.35 / (pi x 12.7) = 535 rev/min; the step below is A3, 400."""
    rows = chart("speeds", command.wanted(command.options(["speeds", "--shop", str(SHOP["in"])]))).rows
    assert {row[0]: row[1] for row in rows}["1/2"] == "A3"


def test_speeds_without_a_shop_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        command.options(["speeds"])
    assert stopped.value.code == 2
    assert "--shop FILE" in capsys.readouterr().err


@pytest.mark.parametrize("system", list(SHOP))
def test_gears_are_owned_trains_to_be_read_from_a_metre(system: str) -> None:
    """Every printed train is worked out again: product of drivers over driven, times the leadscrew."""
    found = chart("gears", command.wanted(command.options(["gears", "--shop", str(SHOP[system])])))
    laid = page(found)
    texts = [item for item in laid.items if isinstance(item, Text)]
    assert min(face.capitals(text.size) for text in texts) >= LEAST_CAPITALS - 1e-9
    assert outside(laid, UNPRINTED) == ()
    screw = load(SHOP[system]).lathe.leadscrew
    assert screw is not None
    for thread, gears, idler, off in found.rows:
        size, unit = thread.split()
        lead = 25.4 / float(size) if unit == "tpi" else float(size)
        teeth = [int(word) for pair in gears.split(" × ") for word in pair.split("/")]
        used = [*teeth, int(idler)] if idler else teeth
        assert bool(idler) == (len(teeth) == 2)
        assert all(used.count(one) <= screw.gears.count(one) for one in used)
        made = screw.pitch * prod(teeth[::2]) / prod(teeth[1::2])
        error = made / lead - 1.0
        told = 0.0 if off == "exact" else float(off) / (1.0 if system == "in" else 100.0)
        assert error == pytest.approx(told, abs=0.51e-4)
        assert (off == "exact") == (abs(error) < 1e-9)
    assert len(found.rows) >= 25


def test_a_pitch_without_a_near_train_is_named_and_not_charted() -> None:
    found = chart("gears", command.wanted(command.options(["gears", "--shop", str(SHOP["mm"])])))
    assert "0.35 mm" not in [row[0] for row in found.rows]
    assert any("Not with these gears: 0.35 mm" in note for note in found.notes)


def test_the_gear_chart_is_one_page(tmp_path: Path) -> None:
    reader = made(tmp_path, "gears", "--shop", str(SHOP["in"]))
    assert len(reader.pages) == 1
    assert row_of(reader, "20 tpi").startswith("20 tpi 60/75 30 exact")


def test_a_plate_of_two_leadscrews_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chart", "gears", "--shop", str(SHOP["in"]), "--plate"]) == 0
    lines = capsys.readouterr().out.splitlines()
    rows = {line[:8].strip(): line for line in lines}
    assert rows["20 tpi"].split()[3:5] == ["16", "tpi"]
    assert rows["20 tpi"].endswith("right")
    assert rows["1 mm"].split() == ["1", "mm", "40/60", "1.5", "mm", "1.0583", "mm", "+5.83%", "WRONG"]
    said = " ".join(lines)
    assert "contradicts itself" in said
    assert "5 rows need one of 16 tpi, 3 rows need one of 1.5 mm" in said
    assert "Do not use: 0.8 mm, 1 mm, 1.25 mm" in said


@pytest.mark.parametrize(
    ("pitch", "keep", "said"),
    [
        ("16 tpi", "tpi", "Every row agrees with a leadscrew of 16 tpi."),
        ("12 tpi", "tpi", "No row needs a screw of 12 tpi"),
    ],
)
def test_a_plate_of_one_leadscrew_agrees_or_the_screw_is_counted_again(
    pitch: str, keep: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = SHOP["in"].read_text(encoding="utf-8").replace("pitch: 16 tpi", f"pitch: {pitch}")
    own = [line for line in text.splitlines() if "cuts:" not in line or keep in line]
    target = tmp_path / "own.yaml"
    target.write_text("\n".join(own), encoding="utf-8")
    assert main(["chart", "gears", "--shop", str(target), "--plate"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert said in out
    assert "contradicts" not in out


def test_a_shop_without_a_plate_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chart", "gears", "--shop", str(SHOP["mm"]), "--plate"]) == 2
    assert "leadscrew: chart:" in capsys.readouterr().err
