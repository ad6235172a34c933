"""The command as a stranger has it: a wheel of this checkout, in an environment of its own."""

import os
import subprocess
import sys
import sysconfig
import time
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
Run = Callable[..., subprocess.CompletedProcess[str]]


def _install(home: Path) -> None:
    """Build the wheel and install it alone; what it depends on is seen through a path file."""
    build = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", home / "wheel", ROOT]
    subprocess.run(build, check=True, capture_output=True)
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", home / "env"], check=True)
    python = home / "env" / "bin" / "python"
    (wheel,) = (home / "wheel").glob("*.whl")
    pip = [sys.executable, "-m", "pip", "--python", python, "install", "-q", "--no-deps", "--no-index", wheel]
    subprocess.run(pip, check=True, capture_output=True)
    (packages,) = (home / "env" / "lib").glob("python*/site-packages")
    (packages / "dependencies.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")


@pytest.fixture(scope="session")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the installed command; with several workers the first to come builds it."""
    base = tmp_path_factory.getbasetemp()
    home = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "installed"
    ready = home / "ready"
    try:
        home.mkdir()
    except FileExistsError:
        until = time.monotonic() + 120.0
        while not ready.exists():
            assert time.monotonic() < until, "the wheel was not built; see the other worker"
            time.sleep(0.1)
    else:
        _install(home)
        ready.touch()
    return home / "env" / "bin"


@pytest.fixture(scope="session")
def environment() -> dict[str, str]:
    """Variables as a stranger has them: nothing that points to the checkout."""
    return {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "JOBSHEETS", "NO_COLOR"))}


@pytest.fixture
def jobsheets(installed: Path, environment: dict[str, str], tmp_path: Path) -> Run:
    """Runs the installed command in an empty folder."""

    def run(*words: str | Path, **more: object) -> subprocess.CompletedProcess[str]:
        options = {"capture_output": True, "text": True, "encoding": "utf-8", "timeout": 60, **more}
        options.setdefault("env", environment)
        return subprocess.run([installed / "jobsheets", *words], cwd=tmp_path, check=False, **options)

    return run


@pytest.fixture(scope="session")
def recipe() -> str:
    """Text of a shipped recipe, to spoil."""
    return (ROOT / "recipes" / "stepped-end-nut.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def shop() -> str:
    """Text of the demo shop, to spoil."""
    return (ROOT / "recipes" / "shops" / "inch-workshop.yaml").read_text(encoding="utf-8")
