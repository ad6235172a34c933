"""Stages of a job timed for comparison with earlier runs, and every ratio held against what is allowed."""

import os

import pytest

from jobsheets import job
from jobsheets.planner.plan import prove
from tests.benchmarks import floor, one_job, report

STAGES = {
    "recipe read": lambda: job.load_part(one_job.RECIPE),
    "shop read": lambda: job.load_shop(None, one_job.SYSTEM),
    "planned and checked": one_job.work_out,
    "replayed": lambda: prove(one_job.plan()),
    "laid out": one_job.pages,
    "whole job": one_job.whole,
}


@pytest.mark.parametrize("name", STAGES)
def test_stage(name, benchmark):
    assert benchmark.pedantic(STAGES[name], rounds=9, warmup_rounds=1)


def test_yardstick(benchmark):
    floor.register(one_job.two_pages()["faces"])
    data = benchmark.pedantic(one_job.drawn, args=(one_job.two_pages(),), rounds=9, warmup_rounds=1)
    assert data.startswith(b"%PDF")
    assert data.count(b"/Type /Page\n") == 2


@pytest.fixture
def same_cores_afterwards():
    cores = os.sched_getaffinity(0)
    yield
    os.sched_setaffinity(0, cores)


@pytest.mark.timing
@pytest.mark.usefixtures("same_cores_afterwards")
def test_every_ratio_is_within_its_limit():
    rows = report.rows(rounds=5)
    assert {goal for goal, *_ in rows} == {"G1", "G3", "G4", "G5", "G6", "G11"}
    assert [row for row in rows if row[2] > row[3]] == []
