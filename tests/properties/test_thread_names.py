"""Finding a thread by what was written, refusing what is no standard thread, and refusing a bad table."""

import pytest

from jobsheets import units
from jobsheets.standards import tables, threads

EVERY = threads.everything()


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_every_thread_is_found_by_its_own_data(thread):
    by_pitch = threads.lookup(thread.system, thread.size, pitch=thread.pitch, series=thread.series)
    assert by_pitch == thread
    assert thread.source
    assert thread.seen in ("page", "memory")


@pytest.mark.parametrize(
    ("system", "size", "series", "name"),
    [
        ("M", "M5", "", "M5x0.8"),
        ("M", "5", "fine", "M5x0.5"),
        ("UN", "8", "UNC", "8-32 UNC"),
        ("UN", "#8", "UNF", "8-36 UNF"),
        ("BA", "2", "", "2 BA"),
        ("BSW", "1/4", "", "1/4-20 BSW"),
        ("BSF", "1/4 in", "", "1/4-26 BSF"),
    ],
)
def test_a_missing_pitch_is_completed(system, size, series, name):
    assert threads.lookup(system, size, series=series).name == name


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("8-32", "8-32 UNC"),
        ("#1 UNF", "1-72 UNF"),
        ("1-12 UNF", "1-12 UNF"),
        ("1-64", "1-64 UNC"),
        (".250-20", "1/4-20 UNC"),
        ("1/2-28 UNEF-2A", "1/2-28 UNEF"),
        ("5/16-20 UN", "5/16-20 UN"),
        ("M5", "M5x0.8"),
        ("M12x1.25-6g", "M12x1.25"),
        ("2 BA", "2 BA"),
        ("1/4 BSF", "1/4-26 BSF"),
        ("1/4-40 ME", "1/4-40 ME"),
    ],
)
def test_a_written_name_finds_its_thread(written, name):
    assert threads.find(units.thread(written)).name == name


def test_more_than_one_start_is_refused():
    with pytest.raises(ValueError, match="single-start"):
        threads.find(units.thread("M12xPh3P1.5"))


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_a_name_on_a_drawing_reads_back_as_its_thread(thread):
    assert threads.find(units.thread(thread.name)) == thread


@pytest.mark.parametrize(
    ("system", "size", "more", "message"),
    [
        ("UN", "10", {}, "did you mean 10-24 UNC or 10-32 UNF"),
        ("UN", "10", {"tpi": 25.0}, "did you mean 10-24 UNC, 10-28 UNS or 10-32 UNF"),
        ("UN", "8", {"tpi": 36.0, "series": "UNC"}, "8-36 UNC is no standard thread: did you mean 8-36 UNF"),
        ("UN", "9", {}, "No. 0 to 1 in; nearest 10 and 8"),
        ("M", "M5", {"pitch": 1.0}, r"M5x1 is no standard thread: did you mean M5x0\.8"),
        ("M", "M30", {}, "M1 to M24; nearest M24 and M22"),
        ("M", "M0.9", {}, "M1 to M24"),
        ("BA", "17", {}, "0 to 16 BA; nearest 16 and 15"),
        ("ME", "1/4", {}, "did you mean 1/4-32 ME or 1/4-40 ME"),
        ("NPT", "1/4", {}, "want one of UN, M, BA"),
    ],
)
def test_a_thread_that_is_none_is_refused_with_the_nearest(system, size, more, message):
    with pytest.raises(ValueError, match=message):
        threads.lookup(system, size, **more)


@pytest.mark.parametrize(
    ("system", "size", "cls", "message"),
    [
        ("UN", "8", "1A", "8-32 UNC has no class '1A'; want one of 2A, 3A, 2B, 3B"),
        ("UN", "1/4", "4A", "want one of 1A, 2A, 3A"),
        ("M", "M5", "6k", "M5x0.8 has no class '6k'; want one of 4e"),
        ("M", "M1", "6H", "M1x0.25 has no class '6H'; want one of 4G, 4H, 5G, 5H"),
        ("BA", "2", "6g", "want one of normal bolt, close bolt, normal nut"),
    ],
)
def test_a_class_that_does_not_exist_is_refused(system, size, cls, message):
    thread = threads.lookup(system, size, series={"UN": "UNC", "M": "coarse"}.get(system, ""))
    with pytest.raises(ValueError, match=message):
        threads.limits(thread, cls)


def test_the_formula_serves_where_no_table_reaches_and_says_so():
    limits = threads.limits(threads.lookup("M", "6", pitch=0.5), "6g")
    assert limits.basis == "formula"
    assert "R40" in limits.source


@pytest.mark.parametrize("thread", EVERY, ids=lambda thread: thread.name)
def test_the_usual_class_exists(thread):
    for external in (True, False):
        assert threads.default_class(thread, external) in threads.classes(thread, external)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("key,size,source\na,1,\n", "no source for a"),
        ("key,size,source\na,1,book\na,2,book\n", "two rows for a"),
        ("key,size,source\na,2,book\nb,1,book\n", "size 1 follows 2"),
        ("key,size,source\na,1\n", "more or fewer cells"),
        ("key,size,source\na,1,book,more\n", "more or fewer cells"),
    ],
)
def test_a_table_not_fit_to_trust_is_refused(tmp_path, monkeypatch, text, message):
    (tmp_path / "sizes.csv").write_text(text, encoding="utf-8")
    monkeypatch.setattr(tables, "DATA", tmp_path)
    with pytest.raises(ValueError, match=message):
        tables.load.__wrapped__("sizes", key=("key",), ascending=("size",))
