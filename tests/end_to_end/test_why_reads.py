"""What `why` says of figures that are easily misread: no data, percent of thread, screwcutting."""

from pathlib import Path

import pytest

from jobsheets.cli import main
from jobsheets.shipped import find_recipe


@pytest.fixture
def why(capsys: pytest.CaptureFixture[str]):
    def said(*words: str) -> dict[str, str]:
        """The answer by its lead words; lines that go on are joined."""
        assert main(["why", *words]) == 0
        found: dict[str, str] = {}
        lead = "head"
        for line in capsys.readouterr().out.splitlines():
            lead = line[:14].strip() or lead if found else "head"
            text = line if lead == "head" else line[14:]
            found[lead] = " ".join([*found.get(lead, "").split(), *text.split()])
        return found

    return said


@pytest.fixture
def horn(tmp_path: Path) -> str:
    """A shipped recipe in a material for which nothing was published."""
    lines = find_recipe("stepped-end-nut").read_text(encoding="utf-8").splitlines()
    target = tmp_path / "horn.yaml"
    target.write_text(
        "\n".join("material: horn" if line.startswith("material:") else line for line in lines),
        encoding="utf-8",
    )
    return str(target)


def test_a_speed_that_nobody_published_says_so_and_where_ones_own_goes(why, horn):
    said = why(horn, "20.speed")
    assert said["head"].startswith("20.speed spindle speed: 130 rev/min")
    assert said["ruled by"].startswith("no published figure found")
    assert "house: proven:" in said["changes it"]
    assert "published" not in said


def test_a_feed_that_nobody_published_is_not_called_a_book_value(why, horn):
    said = why(horn, "20.feed")
    assert "by feel" in said["ruled by"]
    assert "book" not in " ".join(said.values())


@pytest.mark.parametrize(
    ("recipe", "percent", "drill"),
    # 100 (4.1656 - 3.4544) / (1.29904 x 25.4 / 32) = 69.0; 100 (4 - 3.4) / (1.29904 x 0.7) = 66.0
    [("stepped-end-nut", "69 %", "3.454"), ("stepped-end-nut-metric", "66 %", "3.40")],
)
def test_the_percent_of_thread_is_asked_by_its_drill(why, recipe, percent, drill):
    said = why(recipe, "40.percent")
    assert said["head"].endswith(f"percent of thread: {percent}")
    assert f"drill = {drill} mm" in said["with"]
    assert "wished for = " in said["with"]
    assert "list of thread percents" in said["source"]


def test_without_a_published_percent_the_class_is_named(why, horn):
    assert "no published figure found" in why(horn, "40.percent")["source"]


def test_an_exact_train_has_no_error_at_all(why):
    said = why("screwcut-end-stud", "60.gear_ratio")
    assert said["head"].endswith("drivers over driven: 0.6667")
    assert "error over the thread = 0.00 mm (0.000 in)" in said["with"]
    assert said["ruled by"] == "exact train of the owned gears"


def test_the_speed_of_a_thread_names_the_tighter_limit(why):
    """60 x 2.826 mm / (1.0583 mm x 1 s) = 160 rev/min is below the 217 rev/min of the cutting speed."""
    said = why("screwcut-end-stud", "60.speed")
    assert said["ruled by"] == "speed that can still be stopped"
    assert said["wanted"] == "160 rev/min; 130 rev/min can be had"


def test_no_float_noise_is_printed_among_the_figures(capsysbinary):
    assert main(["sheet", "screwcut-end-stud", "--figures", "--format", "text", "-o", "-"]) == 0
    assert "e-1" not in capsysbinary.readouterr().out.decode()
