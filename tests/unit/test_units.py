"""Notation by example: what the trade writes, what is refused and with which cure."""

import os
import subprocess
import sys

import pytest

from jobsheets import units
from jobsheets.units import DrillSeries, ThreadName, ThreadSystem, ToleranceKind, UnitSystem

INCH, MM = UnitSystem.INCH, UnitSystem.MM


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("3/8 in", 9.525),
        ('3/8"', 9.525),
        ("3/8 inch", 9.525),
        ("1-1/4 in", 31.75),
        ("1 1/4 in", 31.75),
        ("-1-1/4 in", -31.75),
        (".375 in", 9.525),
        ('0.375"', 9.525),
        ("0.375\u2033", 9.525),
        ("12 IN", 304.8),
        ("-0.003 in", -0.0762),
        ("\u22120.003 in", -0.0762),
        ("+2 thou", 0.0508),
        ("9.5 mm", 9.5),
        ("9,5 mm", 9.5),
        ("0,375 mm", 0.375),
        ("12mm", 12.0),
        ("  12   mm ", 12.0),
        ("-0 mm", 0.0),
        ("1.2 cm", 12.0),
        ("1 ft", 304.8),
        ("-0.5 m", -500.0),
        ("1000000 mm", 1e6),
    ],
)
def test_length_reads_as_written(text, mm):
    assert units.millimetres(text) == mm  # to the last bit: there is one division and one rounding


def test_no_length_is_a_negative_zero():
    assert str(units.millimetres("-0.000 in")) == "0.0"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("12", "without a unit; want a length with its unit: 12 mm"),
        ("3/8", "without a unit"),
        ("", "nothing written"),
        ("mm", "not a length"),
        ("1/0 in", "over zero"),
        ("1-5/4 in", "fraction of one or more"),
        ("3/8 mm", "only inches take fractions"),
        ("1/2 ft", "only inches take fractions"),
        ("1,250 mm", "want 1.250 or 1250"),
        ("1 mil", "want thou, in or mm"),
        ("3 kg", "kg is no unit of length"),
        ("3 inc", "want inch, as in"),
        ("3 degC", "no unit of length"),
        ("3 squared", "no unit of length"),
        ("3 per", "no unit of length"),
        ("3 mm²", "not a length"),
        ("3 \u0663", "not a length"),  # a digit, but not one of ours
        ("30 m/min", "not a length"),
        ("9**9**9 mm", "not a length"),
        ("1 mm + 2 mm", "not a length"),
        ("1e3 mm", "not a length"),
        ("nan mm", "not a length"),
        ("inf mm", "not a length"),
        ("1000000.1 mm", "at most 1000000 mm"),
        ("9 lightyear", "at most 1000000 mm"),
        ("1" * 201, "at most 200"),
    ],
)
def test_length_is_refused_with_a_cure(text, says):
    with pytest.raises(ValueError, match=f"(?=.*; want ).*{says.replace('**', '..')}"):
        units.millimetres(text)


@pytest.mark.parametrize(
    ("text", "value"), [("45 deg", 45.0), ("45°", 45.0), ("118 degrees", 118.0), ("-7,5 deg", -7.5)]
)
def test_angle_reads_as_written(text, value):
    assert units.degrees(text) == value


@pytest.mark.parametrize(
    ("text", "says"), [("45", "without a unit"), ("361 deg", "at most 360"), ("45 rad", "not an angle")]
)
def test_angle_is_refused_with_a_cure(text, says):
    with pytest.raises(ValueError, match=says):
        units.degrees(text)


@pytest.mark.parametrize(("text", "value"), [("65 %", 0.65), ("0.65", 0.65), ("150%", 1.5), ("1", 1.0)])
def test_share_reads_as_written(text, value):
    assert units.ratio(text) == value


@pytest.mark.parametrize(
    ("text", "says"), [("65", "want 65 %"), ("2000 %", "above 1000 %"), ("-5 %", "not a share")]
)
def test_share_is_refused_with_a_cure(text, says):
    with pytest.raises(ValueError, match=says):
        units.ratio(text)


@pytest.mark.parametrize(
    ("text", "series", "canonical", "mm"),
    [
        ("#29", DrillSeries.NUMBER, "#29", None),
        ("No. 29", DrillSeries.NUMBER, "#29", None),
        ("F", DrillSeries.LETTER, "F", None),
        ("f", DrillSeries.LETTER, "F", None),
        ("9/64 in", DrillSeries.FRACTION, "9/64 in", 3.571875),
        ('8/64"', DrillSeries.FRACTION, "1/8 in", 3.175),
        ("1-1/16 in", DrillSeries.FRACTION, "1-1/16 in", 26.9875),
        ("3.40 mm", DrillSeries.METRIC, "3.4 mm", 3.4),
        ("12.7 mm", DrillSeries.METRIC, "12.7 mm", 12.7),
    ],
)
def test_drill_by_name(text, series, canonical, mm):
    drill = units.drill(text)
    assert (drill.series, str(drill), drill.mm) == (series, canonical, mm)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("29", "want a drill such as #29"),
        ("#0", "#1 to #97"),
        ("#98", "#1 to #97"),
        ("0.136 in", "no 64th of an inch"),
        ("0 mm", "more than 0"),
        ("101 mm", "at most 100 mm"),
        ("3.4004 mm", "more than three places"),
    ],
)
def test_drill_is_refused_with_a_cure(text, says):
    with pytest.raises(ValueError, match=says):
        units.drill(text)


def unified(size, tpi, series="", tolerance_class="", *, major=None, left=False):
    return ThreadName(
        system=ThreadSystem.UN,
        size=size,
        major_mm=major,
        tpi=tpi,
        series=series,
        tolerance_class=tolerance_class,
        left=left,
    )


def british(system, size, major, tpi=None):
    return ThreadName(system=system, size=size, major_mm=major, tpi=tpi)


def metric(size, major, pitch=None, tolerance_class="", *, left=False, starts=1):
    return ThreadName(
        system=ThreadSystem.M,
        size=size,
        major_mm=major,
        pitch_mm=pitch,
        tolerance_class=tolerance_class,
        left=left,
        starts=starts,
    )


@pytest.mark.parametrize(
    ("text", "name", "canonical"),
    [
        ("8-32 UNC-2B", unified("8", 32.0, "UNC", "2B"), "8-32 UNC-2B"),
        ("8-32", unified("8", 32.0), "8-32"),
        ("#8-32", unified("8", 32.0), "8-32"),
        ("No. 8 - 32 unc - 2b", unified("8", 32.0, "UNC", "2B"), "8-32 UNC-2B"),
        (
            "1/4-20 UNC-2A-LH",
            unified("1/4", 20.0, "UNC", "2A", major=6.35, left=True),
            "1/4-20 UNC-2A-LH",
        ),
        (".250-20 UNC-2A", unified("1/4", 20.0, "UNC", "2A", major=6.35), "1/4-20 UNC-2A"),
        ("1/4 UNF", unified("1/4", None, "UNF", major=6.35), "1/4 UNF"),
        ("1 1/4-7 UNC", unified("1-1/4", 7.0, "UNC", major=31.75), "1-1/4-7 UNC"),
        ("1-8 UNC", unified("1", 8.0, "UNC", major=25.4), "1-8 UNC"),
        ("1-64 UNC", unified("1", 64.0, "UNC"), "1-64 UNC"),
        ("#1 UNC", unified("1", None, "UNC"), "#1 UNC"),
        ("2-4.5 UNC", unified("2", 4.5, "UNC", major=50.8), "2-4.5 UNC"),
        ("2-56 UNC", unified("2", 56.0, "UNC"), "2-56 UNC"),
        ("6-32 UNC", unified("6", 32.0, "UNC"), "6-32 UNC"),
        ("3/8-32 UNEF", unified("3/8", 32.0, "UNEF", major=9.525), "3/8-32 UNEF"),
        ("M5", metric("M5", 5.0), "M5"),
        ("M5x0.8", metric("M5", 5.0, 0.8), "M5x0.8"),
        ("M5×0.8-6H", metric("M5", 5.0, 0.8, "6H"), "M5x0.8-6H"),
        ("M8x1,25 - 6g", metric("M8", 8.0, 1.25, "6g"), "M8x1.25-6g"),
        ("M8 x 1-5g6g-LH", metric("M8", 8.0, 1.0, "5g6g", left=True), "M8x1-5g6g-LH"),
        ("M2.5-6H", metric("M2.5", 2.5, None, "6H"), "M2.5-6H"),
        ("M60-LH", metric("M60", 60.0, left=True), "M60-LH"),
        ("M12xPh3P1.5", metric("M12", 12.0, 1.5, starts=2), "M12xPh3P1.5"),
        ("M12xPh1.5P1.5", metric("M12", 12.0, 1.5), "M12x1.5"),
        ("2 BA", ThreadName(system=ThreadSystem.BA, size="2"), "2 BA"),
        ("2ba-lh", ThreadName(system=ThreadSystem.BA, size="2", left=True), "2 BA-LH"),
        ("1/4 BSW", british(ThreadSystem.BSW, "1/4", 6.35), "1/4 BSW"),
        (
            "1/4-26 BSF",
            british(ThreadSystem.BSF, "1/4", 6.35, 26.0),
            "1/4-26 BSF",
        ),
        ("1/4-40 ME", british(ThreadSystem.ME, "1/4", 6.35, 40.0), "1/4-40 ME"),
        (
            "3/8 x 32 ME",
            british(ThreadSystem.ME, "3/8", 9.525, 32.0),
            "3/8-32 ME",
        ),
    ],
)
def test_thread_by_name(text, name, canonical):
    read = units.thread(text)
    assert read == name
    assert str(read) == canonical
    assert units.thread(canonical) == name


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("8", "without its threads per inch"),
        ("1/4 UNS", "without its threads per inch"),
        ("1/4 ME", "want such as 1/4-40 ME"),
        ("1 UNC", "or #1 UNC"),
        ("7-32", "no numbered size 7; want one of 0, 1, 2"),
        ("9/64", "without its threads per inch"),
        ("#1/4-20", "number sign before a size in inches"),
        (".164-32", "want a numbered size by its number"),
        ("7-1/2-4 UN", "at most 6 in"),
        ("8-320", "at most 100"),
        ("1/4-2", "want a pitch below the diameter"),
        ("M3x3", "want a pitch below the diameter"),
        ("M5x0", "want a pitch below the diameter"),
        ("M0", "no metric size"),
        ("M301", "no metric size"),
        ("M5x0.80001", "more than three places"),
        ("M12xPh4P1.5", "1 to 12 pitches"),
        ("M5-6G6h", "not the name of a thread"),
        ("26 BA", "0 BA to 25 BA"),
        ("8-32 UNJC", "want a thread such as 8-32 UNC"),
        ("0/4-20", "not the name of a thread"),
    ],
)
def test_thread_is_refused_with_a_cure(text, says):
    with pytest.raises(ValueError, match=f"(?=.*; want ).*{says}"):
        units.thread(text)


@pytest.mark.parametrize(
    ("text", "kind", "lower", "upper", "canonical"),
    [
        ("±0.05 mm", ToleranceKind.PLUS_MINUS, -0.05, 0.05, "±0.05 mm"),
        ("+/-0.002 in", ToleranceKind.PLUS_MINUS, -0.0508, 0.0508, "±0.002 in"),
        ("+- 2 thou", ToleranceKind.PLUS_MINUS, -0.0508, 0.0508, "±2 thou"),
        ("±0,050 mm", ToleranceKind.PLUS_MINUS, -0.05, 0.05, "±0.050 mm"),
        ("±1/64 in", ToleranceKind.PLUS_MINUS, -0.396875, 0.396875, "±1/64 in"),
        ("+0.002/-0.000 in", ToleranceKind.DEVIATIONS, 0.0, 0.0508, "+0.002/-0.000 in"),
        ("+0/-0.05 mm", ToleranceKind.DEVIATIONS, -0.05, 0.0, "+0/-0.05 mm"),
        ("0 / -0.05mm", ToleranceKind.DEVIATIONS, -0.05, 0.0, "0/-0.05 mm"),
        ("-0.001/-0.003 in", ToleranceKind.DEVIATIONS, -0.0762, -0.0254, "-0.001/-0.003 in"),
        ("-0.003/-0.001 in", ToleranceKind.DEVIATIONS, -0.0762, -0.0254, "-0.001/-0.003 in"),
        ("+0.1 mm/-0.2 mm", ToleranceKind.DEVIATIONS, -0.2, 0.1, "+0.1/-0.2 mm"),
        ("f8", ToleranceKind.FIT, None, None, "f8"),
        ("H7", ToleranceKind.FIT, None, None, "H7"),
        ("js6", ToleranceKind.FIT, None, None, "js6"),
        ("JS7", ToleranceKind.FIT, None, None, "JS7"),
        ("h01", ToleranceKind.FIT, None, None, "h01"),
        ("ISO 2768-m", ToleranceKind.GENERAL, None, None, "ISO 2768-m"),
        ("iso2768 - f", ToleranceKind.GENERAL, None, None, "ISO 2768-f"),
        ("2A", ToleranceKind.THREAD, None, None, "2A"),
        ("3b", ToleranceKind.THREAD, None, None, "3B"),
        ("6g", ToleranceKind.THREAD, None, None, "6g"),
        ("4H5H", ToleranceKind.THREAD, None, None, "4H5H"),
    ],
)
def test_limits_as_written(text, kind, lower, upper, canonical):
    read = units.tolerance(text)
    assert (read.kind, read.lower_mm, read.upper_mm, str(read)) == (kind, lower, upper, canonical)
    assert read.symbol == ("" if lower is not None else canonical)
    assert units.tolerance(canonical) == read


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0.05 mm", "not limits"),
        ("±0.05", "without a unit"),
        ("±0 mm", "leaves no room"),
        ("± -0.1 mm", "not limits"),
        ("+0.1/-0.1", "deviations without a unit"),
        ("+0.1 in/-0.1 mm", "two units"),
        ("+0.1/+0.1 mm", "two equal deviations"),
        ("0.1/-0.1 mm", "not limits"),
        ("Js6", "not limits"),
        ("i7", "not limits"),
        ("h19", "not limits"),
        ("ISO 2768-mK", "not limits"),
        ("6H/6g", "not limits"),
    ],
)
def test_limits_are_refused_with_a_cure(text, says):
    with pytest.raises(ValueError, match=f"(?=.*; want ).*{says}"):
        units.tolerance(text)


@pytest.mark.parametrize(
    ("mm", "system", "places", "text"),
    [
        (9.525, INCH, None, "0.375"),
        (9.525, INCH, 4, "0.3750"),
        (4.7625, INCH, 4, "0.1875"),
        (31.75, INCH, None, "1.250"),
        (9.525, MM, 3, "9.525"),
        (9.53, MM, None, "9.53"),
        (-0.001, MM, None, "0.00"),
        (-0.0001, INCH, None, "0.000"),
        (-0.0762, INCH, None, "-0.003"),
        (25.4 * 0.0625, INCH, 3, "0.062"),  # half to even
        (25.4 * 0.0635, INCH, 3, "0.064"),
        (2.675, MM, 2, "2.68"),  # in binary a hair below the half
        (25.4, INCH, 0, "1"),
    ],
)
def test_length_on_paper(mm, system, places, text):
    assert units.length_text(mm, system, places) == text
    assert units.size_text(mm, system, places) == f"{text} {system}"


@pytest.mark.parametrize(
    ("mm", "inch", "metric_text"),
    [
        (9.525, ".375", "9.525"),
        (4.7625, ".1875", "4.762"),
        (31.75, "1.250", "31.75"),
        (25.4, "1.000", "25.4"),
        (0.5, ".0197", "0.5"),
        (-0.0762, "-.003", "-0.076"),
        (12.0, ".4724", "12"),
        (100.0, "3.937", "100"),
        (0.0, ".000", "0"),
    ],
)
def test_dimension_on_a_drawing(mm, inch, metric_text):
    assert units.drawing_text(mm, INCH) == inch
    assert units.drawing_text(mm, MM) == metric_text


@pytest.mark.parametrize(
    ("mm", "fraction", "bought"),
    [
        (9.525, "3/8 in", "3/8 in"),
        (31.75, "1-1/4 in", "1-1/4 in"),
        (50.8, "2 in", "2 in"),
        (9.525 + 5e-7, "3/8 in", "3/8 in"),
        (9.525 + 2e-6, None, "9.525 mm"),
        (10.0, None, "10 mm"),
        (3.4, None, "3.4 mm"),
    ],
)
def test_size_as_bought(mm, fraction, bought):
    assert units.fraction_text(mm) == fraction
    assert units.as_bought(mm) == bought


def test_nothing_is_bought_by_a_size_of_zero():
    with pytest.raises(ValueError, match="want a size above zero"):
        units.as_bought(0.0)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -float("inf"), 1.1e6])
def test_no_absurd_number_reaches_paper(bad):
    for write in (
        lambda: units.length_text(bad, MM),
        lambda: units.size_text(bad, INCH),
        lambda: units.drawing_text(bad, INCH),
        lambda: units.fraction_text(bad),
        lambda: units.as_bought(bad),
    ):
        with pytest.raises(ValueError, match="want"):
            write()


def test_places_are_bounded():
    with pytest.raises(ValueError, match="7 decimals; want 0 to 6"):
        units.length_text(1.0, MM, 7)


def test_rounding_to_a_step():
    assert units.round_to(0.125, 0.01) == 0.12
    assert units.round_to(0.135, 0.01) == 0.14
    assert units.round_to(-0.125, 0.01) == -0.12
    assert units.round_to(2.5, 1.0) == 2.0
    assert units.down_to(0.1 + 0.2, 0.1) == 0.3
    assert units.up_to(0.1 + 0.2, 0.1) == 0.3  # 0.1 + 0.2 is a hair above 0.3
    assert units.down_to(0.3 - 1e-12, 0.1) == 0.3
    assert units.down_to(0.39, 0.1) == 0.3
    assert units.up_to(0.31, 0.1) == 0.4


@pytest.mark.parametrize("rounder", [units.round_to, units.down_to, units.up_to])
@pytest.mark.parametrize(
    ("value", "step", "says"),
    [
        (1.0, 0.0, "above zero"),
        (1.0, -0.1, "above zero"),
        (float("nan"), 0.1, "finite"),
        (1.0, float("inf"), "finite"),
        (1.0, 1e-12, "coarser"),
        (1e300, 1e-3, "coarser"),
    ],
)
def test_rounding_refuses(rounder, value, step, says):
    with pytest.raises(ValueError, match=says):
        rounder(value, step)


def test_near_spelling():
    assert units.nearest("dril", ("drill", "dial", "reamer"), 1) == ("drill",)
    assert units.nearest("xyz", ("drill", "dial")) == ()


def test_trade_notation_never_loads_pint():
    code = (
        "import sys; from jobsheets import units; units.millimetres('1-1/4 in'); units.thread('8-32 UNC');"
        "units.tolerance('+0.002/-0.000 in'); units.drill('#29'); print('pint' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=dict(os.environ)
    )
    assert done.stdout.strip() == "False"
