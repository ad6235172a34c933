"""What the installed command answers: help, lists, findings, reasons, schemas, and its own faults."""

import json
import re
import shlex
import subprocess
from itertools import pairwise
from pathlib import Path

import pytest

from jobsheets import __version__
from jobsheets.cli import COMMANDS

ROOT = Path(__file__).parents[2]
FAST = re.compile(r"rpm: (130|300|400|600),")
SHIPPED = sorted(path.stem for path in (ROOT / "recipes").glob("*.yaml"))


def test_help_names_every_command_and_code(jobsheets):
    for words in ((), ("--help",), ("-h",), ("help",)):
        result = jobsheets(*words)
        text = result.stdout if words else result.stderr
        assert result.returncode == (0 if words else 2)
        for command in COMMANDS:
            assert re.search(rf"^    {command} ", text, re.MULTILINE)
        assert "Exit code: 0 done, 1 " in text


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_examples_that_run(jobsheets, tmp_path, command):
    result = jobsheets(command, "--help")
    assert result.returncode == 0
    examples = result.stdout.partition("examples:\n")[2].splitlines()
    assert examples
    runnable = [line for line in examples if not re.search(r"my-|[|>]", line)]
    for line in runnable:
        words = shlex.split(line)
        assert words[0] == "jobsheets"
        assert jobsheets(*words[1:]).returncode == 0, line


def test_examples_of_the_overview_run(jobsheets):
    lines = re.findall(r"^    jobsheets (\w+ ?[\w.-]* ?[\w.]*)  ", jobsheets("--help").stdout, re.MULTILINE)
    assert len(lines) >= 4
    for line in lines:
        assert jobsheets(*line.split()).returncode == 0, line


def test_version(jobsheets):
    assert jobsheets("--version").stdout == f"jobsheets {__version__}\n"


def test_python_can_run_it_as_a_module(installed, environment, tmp_path):
    words = [installed / "python", "-m", "jobsheets", "--version"]
    run = subprocess.run(words, cwd=tmp_path, env=environment, capture_output=True, text=True, check=True)
    assert run.stdout == f"jobsheets {__version__}\n"


def test_recipes_lists_what_is_shipped(jobsheets):
    lines = jobsheets("recipes").stdout.partition("\n\n")[0].splitlines()
    assert [line.split()[0] for line in lines] == SHIPPED


@pytest.mark.parametrize("name", SHIPPED)
def test_every_shipped_recipe_is_described_and_passes_its_checks(jobsheets, name):
    described = jobsheets("recipes", name)
    assert described.returncode == 0
    assert described.stdout.startswith(f"{name}: ")
    checked = jobsheets("check", name)
    assert checked.returncode == 0, checked.stdout + checked.stderr
    assert "⟨" not in checked.stdout


@pytest.mark.parametrize("which", ["recipe", "shop"])
def test_schema_is_the_published_one(jobsheets, which):
    published = (ROOT / "docs" / f"{which}.schema.json").read_text(encoding="utf-8")
    assert json.loads(jobsheets("schema", which).stdout) == json.loads(published)


def test_why_a_figure(jobsheets):
    text = jobsheets("why", "stepped-end-nut", "20.speed").stdout
    for word in ("wanted", "formula", "with", "ruled by", "source", "published", "changes it"):
        assert re.search(rf"^{word} +\S", text, re.MULTILINE), word
    bar = re.search(r"^ +(\[[-|o]*\])$", text, re.MULTILINE)
    assert bar is not None
    assert bar[1].count("o") == 1
    speeds = [float(s) for s in re.findall(r"(?:lowest|median|highest) ([\d.]+) ft/min", text)[-3:]]
    assert speeds == sorted(speeds)


def test_why_the_order_of_two(jobsheets):
    direct = jobsheets("why", "stepped-end-nut", "10", "40").stdout
    assert "10 before 40 because " in direct
    assert jobsheets("why", "stepped-end-nut", "40", "10").stdout == direct
    chain = jobsheets("why", "stepped-end-nut", "10", "70").stdout.splitlines()[1:]
    steps = [re.match(r"(\d+) before (\d+) because ", line) for line in chain]
    ends = [(step[1], step[2]) for step in steps if step]
    assert ends[0][0] == "10"
    assert ends[-1][1] == "70"
    assert all(a[1] == b[0] for a, b in pairwise(ends))


def test_why_lists_all_that_may_be_asked_and_answers_each(jobsheets):
    listed = jobsheets("why", "plain-end-nut").stdout
    names = re.findall(r"^ +(\d+(?:\.\w+)?) ", listed, re.MULTILINE)
    assert len(names) > 10
    assert len(set(names)) == len(names)
    for name in (names[0], names[-1], "rejected"):
        answer = jobsheets("why", "plain-end-nut", name)
        assert answer.returncode == 0
        assert "⟨" not in answer.stdout


def test_check_of_a_stopped_job(jobsheets, tmp_path, shop):
    (tmp_path / "shop.yaml").write_text(
        FAST.sub(r"rpm: 1\1,", shop).replace("rpm: 1000,", "rpm: 1900,"), encoding="utf-8"
    )
    result = jobsheets("check", "stepped-end-nut", "--shop", "shop.yaml")
    assert result.returncode == 1
    assert result.stdout.startswith("STOP")
    assert re.search(r"stepped-end-nut: \d+ stops?", result.stdout)
    assert "demo shop" not in result.stderr


FAULTY = """
import sys
from jobsheets import cli
from jobsheets.planner import plan, replay
from jobsheets.planner.replay_frame import ReplayFault

def broken(*given):
    raise ReplayFault("neck.rough", "the reading makes 1.000 mm, the row says 2.000 mm")

replay.replay = broken
sys.exit(cli.main(["sheet", "stepped-end-nut"]))
"""


@pytest.mark.parametrize("trace", [False, True])
def test_a_plan_that_fails_its_replay_is_a_fault_of_the_program(installed, environment, tmp_path, trace):
    env = {**environment, **({"JOBSHEETS_TRACE": "1"} if trace else {})}
    words = [installed / "python", "-c", FAULTY]
    run = subprocess.run(words, cwd=tmp_path, env=env, capture_output=True, text=True, check=False)
    assert run.returncode == 3
    assert "a fault of the program" in run.stderr
    assert "neck.rough: the reading makes 1.000 mm" in run.stderr
    assert "please report it" in run.stderr
    assert ("Traceback" in run.stderr) is trace
    assert run.stdout == ""
    assert list(tmp_path.iterdir()) == []
