"""Help, version and a mistake answer within three cold starts of the interpreter, taken in turns."""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROUNDS = 15
MOST = 3.0
PROGRAM = "import sys; from jobsheets.cli import main; sys.exit(main(sys.argv[1:]))"
ASKED = {
    "help": ("--help",),
    "version": ("--version",),
    "wrong command": ("shet",),
    "wrong option": ("sheet", "stepped-end-nut", "--unit", "mm"),
    "wrong recipe": ("sheet", "steped-end-nut"),
    "help of a command": ("sheet", "--help"),
}


def _seconds(words: tuple[str, ...], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    command = [sys.executable, "-c", *words]
    subprocess.run(command, env=environment, capture_output=True, check=False, cwd=Path(__file__).parents[2])
    return time.perf_counter() - start


@pytest.mark.parametrize("name", ASKED)
def test_answers_within_three_starts(name):
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    asked = (PROGRAM, *ASKED[name])
    for words in (("pass",), asked):  # compiled files are made first
        _seconds(words, environment)
    rounds = [(_seconds(("pass",), environment), _seconds(asked, environment)) for _ in range(ROUNDS)]
    start, answer = (statistics.median(times) for times in zip(*rounds, strict=True))
    assert answer <= MOST * start, f"{name}: {answer / start:.2f} starts"
