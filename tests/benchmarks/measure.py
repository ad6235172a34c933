"""Times as processor seconds on one core, several tasks in turns, the median of each.

Processor time, not the clock on the wall: the program is one process on one core and waits for nothing, so on
an idle machine both are the same, and on a busy one only this can be compared.
"""

import os
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from statistics import median
from time import process_time

ROOT = Path(__file__).parents[2]
ROUNDS = 11
Task = Callable[[], float]  # runs once, says how many seconds it took


def pin() -> None:
    """Keep this process, and those it starts, on one core."""
    os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})


def environment(**changes: str) -> dict[str, str]:
    """Variables of a cold run: compiled files may be kept, else the compiler is measured."""
    kept = {name: text for name, text in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, **changes}


def cold(*words: str, expect: int = 0) -> Task:
    """A task: the interpreter started with these words, from nothing to its end."""

    def run() -> float:
        process = subprocess.Popen(
            [sys.executable, *words],
            cwd=ROOT,
            env=environment(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
        )
        assert process.stderr is not None
        said = process.stderr.read()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        process.stderr.close()
        if process.returncode != expect:
            raise RuntimeError(f"{' '.join(words)} ended with {process.returncode}: {said.decode()}")
        return used.ru_utime + used.ru_stime

    return run


def command(*words: str, expect: int = 0) -> Task:
    """A task: the command as its console script starts it."""
    return cold("-c", "import sys; from jobsheets.cli import main; sys.exit(main())", *words, expect=expect)


def warm(function: Callable[[], object]) -> Task:
    """A task: a function called once in this process."""

    def run() -> float:
        start = process_time()
        function()
        return process_time() - start

    return run


def in_turns(tasks: Mapping[str, Task], rounds: int) -> dict[str, float]:
    """Median seconds of each task; one round first that is not counted, for compiled files and caches."""
    times: dict[str, list[float]] = {name: [] for name in tasks}
    for turn in range(rounds + 1):
        for name, task in tasks.items():
            took = task()
            if turn:
                times[name].append(took)
    return {name: median(took) for name, took in times.items()}
