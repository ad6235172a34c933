"""What the installed command writes, and what happens where it cannot: whole files or none, no traceback."""

import os
import pty
import re
import resource
import signal
import subprocess
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

NUT = ("sheet", "stepped-end-nut")


def quiet(result) -> bool:
    return "Traceback" not in result.stderr and "Exception ignored" not in result.stderr


def test_the_sheet_lands_in_this_folder_and_its_name_is_the_result(jobsheets, tmp_path):
    result = jobsheets(*NUT)
    assert result.returncode == 0, result.stderr
    assert re.fullmatch(r"stepped-end-nut-[0-9A-F]{4}-[0-9A-F]{4}\.pdf\n", result.stdout)
    assert "invented demo shop" in result.stderr
    (file,) = tmp_path.iterdir()
    assert file.name == result.stdout.strip()
    words = "".join(page.extract_text() for page in PdfReader(file).pages)
    assert file.stem.removeprefix("stepped-end-nut-") in words


def test_the_same_plan_again_leaves_the_file_as_it_is(jobsheets, tmp_path):
    first = jobsheets(*NUT)
    file = tmp_path / first.stdout.strip()
    os.utime(file, (1, 1))
    again = jobsheets(*NUT)
    assert (again.returncode, again.stdout) == (0, first.stdout)
    assert file.stat().st_mtime == 1


def test_same_bytes_in_another_folder(jobsheets, installed, environment, tmp_path):
    jobsheets(*NUT, "-o", "a.pdf")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    env = {**environment, "TZ": "Pacific/Auckland", "PYTHONHASHSEED": "7"}
    subprocess.run([installed / "jobsheets", *NUT, "-o", "b.pdf"], cwd=elsewhere, env=env, check=True)
    assert (tmp_path / "a.pdf").read_bytes() == (elsewhere / "b.pdf").read_bytes()


def test_another_file_is_replaced_only_by_force(jobsheets, tmp_path):
    file = tmp_path / "nut.pdf"
    file.write_text("mine", encoding="utf-8")
    file.chmod(0o640)
    refused = jobsheets(*NUT, "-o", "nut.pdf")
    assert refused.returncode == 2
    assert "nut.pdf: a file of this name stands here" in refused.stderr
    assert "want --force" in refused.stderr
    assert file.read_text(encoding="utf-8") == "mine"
    assert jobsheets(*NUT, "-o", "nut.pdf", "--force").returncode == 0
    assert file.read_bytes().startswith(b"%PDF")
    assert file.stat().st_mode & 0o777 == 0o640
    assert list(tmp_path.iterdir()) == [file]


def test_force_follows_a_link_to_its_file(jobsheets, tmp_path):
    (tmp_path / "real.pdf").write_text("mine", encoding="utf-8")
    (tmp_path / "link.pdf").symlink_to("real.pdf")
    assert jobsheets(*NUT, "-o", "link.pdf", "--force").returncode == 0
    assert (tmp_path / "link.pdf").is_symlink()
    assert (tmp_path / "real.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("to", ["missing/nut.pdf", ".", "/proc/nut.pdf", "/dev/full", "n" * 300 + ".pdf"])
def test_a_place_that_takes_no_file(jobsheets, tmp_path, to):
    result = jobsheets(*NUT, "-o", to)
    assert result.returncode == 2
    assert "cannot be written" in result.stderr
    assert "want a folder that exists" in result.stderr
    assert quiet(result)
    assert list(tmp_path.iterdir()) == []


def test_a_disk_that_fills_up_leaves_nothing_half_written(jobsheets, tmp_path):
    def little_room() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, 10_000))

    result = jobsheets(*NUT, preexec_fn=little_room)
    assert result.returncode == 2
    assert "cannot be written" in result.stderr
    assert quiet(result)
    assert list(tmp_path.iterdir()) == []


def test_stdout_that_is_full(jobsheets):
    with Path("/dev/full").open("w") as full:
        result = jobsheets("recipes", capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert result.returncode == 2
    assert "cannot write the output" in result.stderr
    assert quiet(result)


def test_stdout_that_is_closed(jobsheets):
    result = jobsheets(
        "recipes", capture_output=False, stderr=subprocess.PIPE, preexec_fn=lambda: os.close(1)
    )
    assert result.returncode == 2
    assert "cannot write the output" in result.stderr
    assert quiet(result)


def test_a_reader_that_leaves_early(jobsheets):
    reader, writer = os.pipe()
    os.close(reader)
    with os.fdopen(writer, "wb") as pipe:
        result = jobsheets(
            *NUT, "--format", "json", capture_output=False, stdout=pipe, stderr=subprocess.PIPE
        )
    assert result.returncode == 141
    assert quiet(result)


def test_the_keyboard_stops_it(installed, environment, tmp_path):
    """More JSON than a pipe holds: the command waits for its reader when the signal comes."""
    command = [installed / "jobsheets", *NUT, "--format", "json"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=tmp_path, env=environment
    ) as waiting:
        assert waiting.stdout is not None
        assert waiting.stdout.read(1) == b"{"
        waiting.send_signal(signal.SIGINT)
        _, said = waiting.communicate(timeout=30)
    assert waiting.returncode == 130
    assert b"stopped by the keyboard" in said
    assert b"Traceback" not in said
    assert list(tmp_path.iterdir()) == []


def test_a_terminal_gets_colour_and_no_pdf(installed, environment, tmp_path):
    def seen(*words: str, **more: str) -> tuple[int, str]:
        ours, theirs = pty.openpty()
        env = {**environment, "TERM": "xterm", **more}
        with subprocess.Popen(
            [installed / "jobsheets", *words], stdout=theirs, stderr=theirs, cwd=tmp_path, env=env
        ) as process:
            os.close(theirs)
            text = b""
            while True:
                try:
                    piece = os.read(ours, 65536)
                except OSError:  # the terminal's way to say that it ended
                    break
                text += piece
        os.close(ours)
        return process.returncode, text.decode()

    assert "\033[33mCAUTION" in seen("check", "stepped-end-nut")[1]
    assert "\033[" not in seen("check", "stepped-end-nut", NO_COLOR="1")[1]
    assert "\033[" not in seen("check", "stepped-end-nut", TERM="dumb")[1]
    code, text = seen(*NUT, "-o", "-")
    assert code == 2
    assert "want -o FILE" in text


def test_a_name_that_is_no_text_is_told_as_it_is(jobsheets, tmp_path):
    result = jobsheets(*NUT, "-o", os.fsdecode(b"nut-\xff.pdf"), text=False, encoding=None)
    assert result.stdout == b"nut-\xff.pdf\n"
    assert [os.fsencode(path.name) for path in tmp_path.iterdir()] == [b"nut-\xff.pdf"]


def test_a_pipe_gets_no_colour(jobsheets):
    result = jobsheets("check", "stepped-end-nut")
    assert result.returncode == 0
    assert "CAUTION" in result.stdout
    assert "\033" not in result.stdout + result.stderr


def test_a_pdf_through_a_pipe(jobsheets):
    result = jobsheets(*NUT, "-o", "-", text=False, encoding=None)
    assert len(PdfReader(BytesIO(result.stdout)).pages) > 1


def test_a_terminal_without_our_marks_gets_question_marks(jobsheets, environment):
    env = {**environment, "PYTHONIOENCODING": "ascii", "LC_ALL": "C"}
    result = jobsheets("why", "stepped-end-nut", "80", env=env)
    assert result.returncode == 0
    assert quiet(result)


@pytest.mark.parametrize(("paper", "size"), [("letter", (612.0, 792.0)), ("a4", (595.28, 841.89))])
def test_paper(jobsheets, tmp_path, paper, size):
    jobsheets(*NUT, "--paper", paper, "-o", "nut.pdf")
    box = PdfReader(tmp_path / "nut.pdf").pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.01)


def test_units_figures_and_measured_mates_reach_the_sheet(jobsheets):
    def text(*words: str) -> str:
        return jobsheets(*NUT, "--format", "text", *words).stdout

    assert "mm (25.4 mm = 1 in)" in text("--units", "mm")
    assert "Figures" not in text()
    assert "20.speed: spindle speed" in text("--figures")
    assert text() != text("--measured", "counterbore=0.2531in")
