"""The printed file: opened with another library, every number to set is found in its text."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from jobsheets import job
from jobsheets.sheet import page
from jobsheets.sheet.view import view


@pytest.fixture(scope="module")
def plan():
    part = job.load_part("stepped-end-nut")
    return job.work_out(part, job.load_shop(None, part.system)).plan


@pytest.fixture(scope="module")
def file(plan):
    return page.pdf(plan, "in", fingerprint="F00D-0001", paper="letter")


def test_the_text_holds_each_setting_limit_and_speed(plan, file):
    words = " ".join(p.extract_text() for p in PdfReader(BytesIO(file)).pages).split()
    sheet = view(plan, "in", "F00D-0001")
    for op in (op for setup in sheet.setups for op in setup.operations):
        for row in op.rows:
            for cell in (cell for cell in (row.x, row.z) if cell is not None):
                assert cell.divisions in words
                assert not cell.turns or cell.turns in words
        for hold in (hold for hold in op.holds if hold.high):
            assert {hold.high, hold.low, hold.aim} <= set(words)
        assert not op.speed or op.speed in words


def test_both_papers_take_the_same_layout(plan, file):
    letter = PdfReader(BytesIO(file)).pages
    a4 = PdfReader(BytesIO(page.pdf(plan, "in", fingerprint="F00D-0001", paper="a4"))).pages
    assert len(letter) == len(a4)
    assert [p.extract_text() for p in letter] == [p.extract_text() for p in a4]


def test_the_same_plan_gives_the_same_bytes(plan, file):
    assert page.pdf(plan, "in", fingerprint="F00D-0001", paper="letter") == file


def test_the_picture_of_a_page_is_escaped(plan):
    picture = page.svg(plan, "in", fingerprint="<x>")
    assert "&lt;x&gt;" in picture
    assert "<x>" not in picture
