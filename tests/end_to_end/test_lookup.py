"""The look-up command from words to text and JSON: every kind, what is missed, what JSON holds."""

import csv
import json
import re
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobsheets.cli import main
from jobsheets.lookup.answer import Answer, Miss
from jobsheets.lookup.ask import KINDS, look_up
from jobsheets.lookup.written import WIDE, as_text, body
from jobsheets.standards import clearance, drills, materials, pins, tables, thread_percent
from jobsheets.standards.thread_catalogue import everything

SHOP = Path(__file__).parents[2] / "recipes" / "shops" / "inch-workshop.yaml"
SCHEMA = json.loads((Path(__file__).parents[2] / "docs" / "lookup.schema.json").read_text(encoding="utf-8"))
EXAMPLES = {
    "thread": "8-32 UNC-2B",
    "drill": "#29",
    "hole": "M5",
    "fit": "H7/g6 10 mm",
    "pin": "1/8 in",
    "stock": "round 3/8 in stainless-303",
    "material": "1.4305",
}


def told(kind: str, name: str) -> Answer:
    found = look_up(kind, name)
    assert isinstance(found, Answer), found
    return found


def values(found: Answer) -> dict[str, float | str]:
    """Every value by group and name."""
    return {f"{group.title}: {value.name}": value.value for group in found.groups for value in group.values}


def missed(kind: str, name: str) -> Miss:
    found = look_up(kind, name)
    assert isinstance(found, Miss), found
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_answers_with_sources(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lookup", kind, EXAMPLES[kind]]) == 0
    said = capsys.readouterr().out
    found = told(kind, EXAMPLES[kind])
    assert said.startswith(found.title)
    numbered = re.findall(r"^  \[(\d+)\] ", said, re.MULTILINE)
    assert numbered == [str(n) for n in range(1, len({v.source for v in found.values()}) + 1)]
    assert all(value.source and value.seen in ("page", "memory", "computed") for value in found.values())


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_writes_json_of_the_schema(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lookup", kind, EXAMPLES[kind], "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    jsonschema.validate(data, SCHEMA)
    assert data["found"] is True
    assert data["kind"] == kind
    lengths = [v for g in data["groups"] for v in g["values"] if v["unit"] == "mm"]
    assert all(v["inches"] == pytest.approx(v["value"] / 25.4, abs=1e-6) for v in lengths)


def test_a_thread_tells_all_that_a_bench_asks() -> None:
    found = values(told("thread", "8-32 UNC-2B"))
    # ASME B1.1 class 2A and 2B, 8-32: 0.1631/0.1571, 0.1428/0.1399; 0.1475/0.1437, 0.1390/0.1300 in
    assert found["Screw, class 2A: largest major diameter"] == pytest.approx(0.1631 * 25.4, abs=1e-6)
    assert found["Screw, class 2A: smallest pitch diameter"] == pytest.approx(0.1399 * 25.4, abs=1e-6)
    assert found["Nut, class 2B: largest minor diameter"] == pytest.approx(0.1390 * 25.4, abs=1e-6)
    wanted = (
        *(
            "root radius",
            "root flat",
            "stress area",
            "lead angle",
            "best wire",
            "smallest wire",
            "largest wire",
        ),
        *("largest reading", "smallest reading", "depth of cut", "depth along the compound slide"),
        *("blank for a die, aim", "engagement, equal metals", "engagement, nut half as strong"),
        "engagement, screw half as strong",
    )
    names = {name.partition(": ")[2] for name in found}
    assert set(wanted) <= names
    assert {f"percent of thread, {basis}" for basis in thread_percent.Basis} <= names


def test_a_class_in_the_name_replaces_the_usual_one_on_its_side() -> None:
    titles = [group.title for group in told("thread", "8-32 UNC-3A").groups]
    assert "Screw, class 3A" in titles
    assert "Nut, class 2B" in titles


def test_a_thread_that_is_none_is_offered_its_neighbours_and_what_tells_them_apart(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["lookup", "thread", "10-26"]) == 2
    said = " ".join(capsys.readouterr().err.split())
    assert "did you mean 10-24 UNC, 10-28 UNS or 10-32 UNF?" in said
    assert "they look alike: count the threads over 5 mm: 10-24 UNC 4.7, 10-28 UNS 5.5" in said


@pytest.mark.parametrize(
    ("kind", "name", "near"),
    [
        ("thread", "10", ("10-24 UNC", "10-32 UNF", "10-28 UNS")),
        ("thread", "M5x0.9", ("M5x0.8", "M5x0.75", "M5x0.5")),
        ("thread", "8-32 UNC-1B", ("8-32 UNC-2B", "8-32 UNC-3B")),
        ("drill", "29", ("#29",)),
        ("drill", "0.1365 in", ("#29", "3.5 mm", "3.4 mm")),
        ("fit", "H7/q6 10 mm", ("H7/u6 10 mm", "H7/s6 10 mm", "H7/p6 10 mm")),
        ("pin", "dowel 3.1 mm", ("dowel 1/8 in", "dowel 3 mm", "dowel 3/32 in")),
        ("material", "rosewod", ("rosewood", "wood", "hardwood")),
    ],
)
def test_near_names_are_offered_on_a_miss(kind: str, name: str, near: tuple[str, ...]) -> None:
    assert missed(kind, name).near[: len(near)] == near


@pytest.mark.parametrize(
    ("kind", "name", "said"),
    [
        ("thread", "M30", "they run M1 to M24"),
        ("fit", "H7/g6 600 mm", "up to 500 mm"),
        ("fit", "RC4 10 in", "up to 1.97 in"),
        ("pin", "20 mm", "0.6 mm to 1/2 in"),
        ("drill", "#98", "#1 to #97"),
    ],
)
def test_outside_a_range_the_range_is_told_and_nothing_is_carried_on(kind: str, name: str, said: str) -> None:
    assert said in missed(kind, name).wrong


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=40, deadline=None)
@given(name=st.text(max_size=24) | st.from_regex(r"[#M]?[0-9./-]{1,5} ?(UNC|mm|in|BA)?", fullmatch=True))
def test_any_text_is_answered_or_missed_and_what_is_offered_is_found(kind: str, name: str) -> None:
    found = look_up(kind, name)
    if isinstance(found, Miss):
        assert found.wrong
        assert all(isinstance(look_up(kind, offer), Answer) for offer in found.near)
    else:
        assert all(value.source for value in found.values())
    jsonschema.validate(body(found), SCHEMA)


@pytest.mark.parametrize("kind", ["thread", "drill", "hole", "pin", "material"])
def test_every_name_of_the_tables_is_found(kind: str) -> None:
    names = {
        "thread": [thread.name for thread in everything()],
        "drill": [drill.name for drill in drills.everything()],
        "hole": list(clearance.screws()),
        "pin": [pin.size for pin in pins.every()],
        "material": list(materials.names()),
    }[kind]
    lost = [name for name in names if not isinstance(look_up(kind, name), Answer)]
    assert lost == []


def test_lines_fit_a_terminal() -> None:
    for kind, name in EXAMPLES.items():
        assert max(map(len, as_text(told(kind, name)).splitlines())) <= WIDE


def test_tap_drills_come_from_the_drawer_and_suit_the_metal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lookup", "hole", "8-32 UNC", "--material", "brass", "--shop", str(SHOP), "--json"]) == 0
    groups = json.loads(capsys.readouterr().out)["groups"]
    tapping = next(group for group in groups if group["title"] == "Tap drills for 8-32 UNC")["values"]
    assert tapping[0]["value"] == "65 to 75"
    best = tapping[1]
    assert best["name"] == "best: #29"
    assert best["seen"] == "owned"
    percents = {v["name"]: v["value"] for v in tapping[2:5]}
    # by hand: (0.164 - 0.136) x 32 / 1.299038, / 1.226869, / 1.082532
    assert percents["percent of thread, US tap-drill tables, 3/4 H"] == pytest.approx(68.97, abs=0.01)
    assert percents["percent of thread, depth of the screw, 17/24 H"] == pytest.approx(73.03, abs=0.01)
    assert percents["percent of thread, ISO basic depth, 5/8 H"] == pytest.approx(82.77, abs=0.01)


def test_every_range_of_percents_was_read_on_a_page() -> None:
    """The answers say so of each."""
    rows = tables.load("tap_percent", key=("scope", "name"))
    assert {row["seen"] for row in rows} == {"page"}


def test_a_miss_as_json_is_found_false_and_the_exit_code_two(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lookup", "thread", "10-26", "--json"]) == 2
    data = json.loads(capsys.readouterr().out)
    jsonschema.validate(data, SCHEMA)
    assert (data["found"], data["near"][0]) == (False, "10-24 UNC")


def test_a_screw_is_identified_and_what_decides_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["identify", "--major", "0.188in", "--tpi", "32", "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    jsonschema.validate(data, SCHEMA)
    assert data["name"] == "10-32 UNF"
    first = {v["name"]: v["value"] for v in data["groups"][0]["values"]}
    assert first["misfit"] == 0
    assert "flank gauge" in first["what tells"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--major", "5", "--pitch", "0.8mm"], "without a unit"),
        (["--major", "5mm"], "one of: the pitch"),
        (["--major", "90mm", "--pitch", "1mm"], "outside the tables"),
        (["--major", "5mm", "--count", "1", "--over", "3mm"], "tell no pitch"),
    ],
)
def test_measurements_that_tell_nothing_are_refused(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["identify", *words]) == 2
    assert said in capsys.readouterr().err


def test_kind_and_options_are_checked(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lookup", "thred", "8-32"]) == 2
    assert "'thread'" in capsys.readouterr().err
    assert main(["lookup", "drill", "#29", "--material", "brass"]) == 2
    assert "lookup hole" in capsys.readouterr().err
    assert main(["lookup", "hole", "M5", "--material", "brasss"]) == 2
    assert "brass" in capsys.readouterr().err


def test_no_table_is_read_without_its_sources() -> None:
    """Every table of the package, by the loader that refuses one without."""
    for path in sorted(Path(tables.DATA).glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            columns = next(csv.reader(file))
        assert "source" in columns, path.name
        assert all(row["source"] for row in tables.load(path.stem, key=tuple(columns))), path.name
