"""The remembered ISO tables against the formulas they come from, and the order of every set of limits."""

from math import sqrt

import pytest

from jobsheets.standards import tables, thread_iso, threads

EVERY = threads.everything()
TABLE = tables.load("thread_iso_pitch", key=("pitch",))
PITCH_TABLE = tables.load("thread_iso_pitch_diameter", key=("over", "pitch"))


def steps_off(tabulated, formula):
    """How many preferred numbers lie between a tabulated tolerance and its formula."""
    ladder = sorted({round(number * scale) for scale in (0.1, 1.0, 10.0) for number in thread_iso.R40})
    return abs(ladder.index(tabulated) - ladder.index(thread_iso._preferred(formula)))


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row["pitch"])
def test_crest_tolerances_stay_within_a_step_of_their_formula(row):
    p = float(row["pitch"])
    major = 180.0 * p ** (2 / 3) - 3.15 / sqrt(p)
    minor = 433.0 * p - 190.0 * p**1.22 if p < 1.0 else 230.0 * p**0.7
    for grade, factor in ((4, 0.63), (6, 1.0), (8, 1.6)):
        if row[f"major_{grade}"]:
            assert steps_off(int(row[f"major_{grade}"]), factor * major) <= 1
    for grade, factor in ((4, 0.63), (5, 0.8), (6, 1.0), (7, 1.25), (8, 1.6)):
        if row[f"minor_{grade}"]:
            assert steps_off(int(row[f"minor_{grade}"]), factor * minor) <= 1


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row["pitch"])
def test_deviations_stay_near_their_formula(row):
    """The standard smoothed these by hand, most of all e and f at 0.5 and 0.6 mm: 50 for 55.5."""
    p = float(row["pitch"])
    for position, base in (("g", 15.0), ("f", 30.0), ("e", 50.0)):
        if row[position]:
            assert float(row[position]) == pytest.approx(base + 11.0 * p, rel=0.12)


@pytest.mark.parametrize("row", PITCH_TABLE, ids=lambda row: f"{row['over']}-{row['pitch']}")
def test_pitch_tolerances_stay_within_a_step_of_their_formula(row):
    mean = sqrt(float(row["over"]) * float(row["up_to"]))
    base = 90.0 * float(row["pitch"]) ** 0.4 * mean**0.1
    for kind, factors in (("external", thread_iso.EXTERNAL_FACTOR), ("internal", thread_iso.INTERNAL_FACTOR)):
        for grade, factor in factors.items():
            if row[f"{kind}_{grade}"]:
                assert steps_off(int(row[f"{kind}_{grade}"]), factor * base) <= 1


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_limits_are_in_order(thread):
    for cls in threads.classes(thread, external=True):
        bolt = threads.limits(thread, cls)
        assert bolt.major_min < bolt.major_max <= thread.major + 1e-9
        assert bolt.pitch_min < bolt.pitch_max < bolt.major_max
        assert bolt.minor_max < bolt.pitch_max
    for cls in threads.classes(thread, external=False):
        nut = threads.limits(thread, cls)
        assert thread.major - 1e-9 <= nut.major_min
        assert nut.pitch_min < nut.pitch_max
        assert nut.minor_min < nut.minor_max < thread.major


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_largest_screw_enters_the_smallest_nut(thread):
    """A go gauge for the nut is never larger than the nut, one for the screw never smaller than the screw."""
    bolt = threads.limits(thread, threads.default_class(thread, external=True))
    nut = threads.limits(thread, threads.default_class(thread, external=False))
    assert bolt.pitch_max <= nut.pitch_min + 1e-9
    assert bolt.major_max <= nut.major_min + 1e-9


@pytest.mark.parametrize("thread", [t for t in EVERY if t.system == "UN"], ids=lambda thread: thread.name)
def test_a_closer_class_is_never_wider(thread):
    for external in (True, False):
        found = [threads.limits(thread, cls) for cls in threads.classes(thread, external)]
        spans = [limits.pitch_max - limits.pitch_min for limits in found]
        assert spans == sorted(spans, reverse=True)
