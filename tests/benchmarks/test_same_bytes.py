"""The same inputs give the same bytes: in any folder, language, time zone, order of sets, and on any day."""

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from types import FrameType

import pytest

from tests.benchmarks import one_job
from tests.benchmarks.measure import ROOT

START = "import sys; from jobsheets.cli import main; sys.exit(main())"
SURROUNDINGS = {
    "east, hash seed 0": {"TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "0"},
    "west, hash seed 1": {"TZ": "Pacific/Pago_Pago", "PYTHONHASHSEED": "1", "LC_ALL": "C"},
    "other language, home and name": {
        "PYTHONHASHSEED": "4294967295",
        "LC_ALL": "tr_TR.UTF-8",
        "LANGUAGE": "de",
        "HOME": "/nonexistent",
        "USER": "nobody",
        "COLUMNS": "40",
    },
    "optimized": {"PYTHONOPTIMIZE": "2"},
}
CLOCKS = {
    ("time", "time"),
    ("time", "time_ns"),
    ("time", "localtime"),
    ("time", "clock_gettime"),
    ("datetime.datetime", "now"),
    ("datetime.datetime", "utcnow"),
    ("datetime.datetime", "today"),
    ("datetime.date", "today"),
    ("posix", "urandom"),
    ("posix", "getpid"),
}
DICE = {"random", "secrets", "uuid"}


def printed(form: str, folder: Path, program: Path = ROOT, **changes: str) -> bytes:
    """What a process of its own writes to stdout."""
    clean = {name: text for name, text in os.environ.items() if name != "SOURCE_DATE_EPOCH"}
    ended = subprocess.run(
        [sys.executable, "-c", START, "sheet", one_job.RECIPE, "--format", form, "-o", "-"],
        cwd=folder,
        env={**clean, "PYTHONPATH": str(program), **changes},
        capture_output=True,
        check=True,
    )
    return ended.stdout


@pytest.fixture(scope="module", params=["pdf", "text"])  # both carry the mark of the JSON
def usual(request, tmp_path_factory) -> tuple[str, bytes]:
    return request.param, printed(request.param, tmp_path_factory.mktemp("usual"))


@pytest.mark.parametrize("name", SURROUNDINGS)
def test_surroundings_change_no_byte(name, usual, tmp_path):
    form, expected = usual
    assert len(expected) > 2000
    assert printed(form, tmp_path, **SURROUNDINGS[name]) == expected


def test_folder_of_the_program_changes_no_byte(usual, tmp_path):
    form, expected = usual
    there = tmp_path / "another place"
    for name in ("jobsheets", "recipes", "templates"):
        shutil.copytree(ROOT / name, there / name, ignore=shutil.ignore_patterns("__pycache__"))
    assert printed(form, tmp_path, there, PYTHONDONTWRITEBYTECODE="1") == expected


def called(work: Callable[[], object]) -> set[tuple[str, str]]:
    """Module or class, and name, of every function, of Python or not, that is called meanwhile."""
    seen: set[tuple[str, str]] = set()

    def note(frame: FrameType, event: str, arg: object) -> None:
        if event == "c_call":
            owner = getattr(arg, "__self__", None)
            named = f"{owner.__module__}.{owner.__name__}" if isinstance(owner, type) else ""
            seen.add((named or getattr(arg, "__module__", "") or "", getattr(arg, "__name__", "")))
        elif event == "call":
            seen.add((frame.f_globals.get("__name__", ""), frame.f_code.co_name))

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        work()
    finally:
        sys.setprofile(before)
    return seen


def test_no_clock_and_no_dice_are_asked():
    """From the files to the bytes nothing asks what time it is, who asks, or for a random number."""
    calls = called(one_job.whole)
    assert ("jobsheets.sheet.pdf", "pdf") in calls  # the notes were taken
    assert not calls & CLOCKS
    assert not {module for module, _ in calls} & DICE


def test_a_clock_or_dice_would_be_noticed():
    assert ("time", "time") in called(lambda: time.time())
    assert ("datetime.datetime", "now") in called(lambda: datetime.now(UTC))
    assert ("posix", "urandom") in called(lambda: os.urandom(4))
    assert "random" in {module for module, _ in called(lambda: Random(1).randint(1, 6))}
