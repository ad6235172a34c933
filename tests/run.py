"""Proves everything in an environment of its own: style, types, floors, tests. Needs Python 3.11 alone.

`python3 tests/run.py` makes the environment anew in .venv-test, puts the program and its tools in, and runs
the steps below, each to its end; the exit code is 1 where one of them failed.
"""

import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HOME = ROOT / ".venv-test"
STEPS = (
    ("ruff", "check", "."),
    ("ruff", "format", "--check", "."),
    ("mypy", "--strict", "jobsheets"),
    ("lint-imports",),
    ("pytest", "-q", "-n", "2"),
)


def main() -> int:
    venv.create(HOME, clear=True, with_pip=True)
    tools = HOME / ("Scripts" if sys.platform == "win32" else "bin")
    subprocess.run([tools / "python", "-m", "pip", "install", "-q", ".[dev]"], cwd=ROOT, check=True)
    failed = []
    for step in STEPS:
        print("==", *step, flush=True)
        if subprocess.run([tools / step[0], *step[1:]], cwd=ROOT, check=False).returncode:
            failed.append(step[0])
    print("== failed:", ", ".join(failed) if failed else "nothing")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
