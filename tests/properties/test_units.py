"""Notation holds whatever is written: round trips, half a last place, and one kind of error."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobsheets import units
from jobsheets.units import UnitSystem

INCH = 25.4
SYSTEMS = st.sampled_from(list(UnitSystem))
LENGTHS = st.floats(-1e6, 1e6)
READERS = (units.millimetres, units.degrees, units.ratio, units.drill, units.thread, units.tolerance)
# Letters, digits and signs that notation is made of, so that fuzz comes near to what is accepted.
ALPHABET = "0123456789.,/-+±°%#\"'x× \u2212MmPhUNCEFSBAWGinthoudegLHISO2768gHkfj()*^_eE\u0663\u00b2"


@st.composite
def decimals(draw, most=999):
    whole = draw(st.integers(0, most))
    places = draw(st.integers(0, 4))
    part = draw(st.integers(0, 10**places - 1))
    return f"{whole}.{part:0{places}d}" if places else f"{whole}"


UNIFIED = st.builds(
    "{}-{}{}{}{}".format,
    st.sampled_from(["0", "2", "8", "#1", "10", "12", "1/4", "3/8", "15/16", "1-1/4", "1", ".375"]),
    st.sampled_from([20, 24, 27, 32, 36, 40, 56, 64, 80]),
    st.sampled_from(["", " UN", " UNC", " UNF", " UNEF", " UNS"]),
    st.sampled_from(["", "-1A", "-2A", "-2B", "-3B"]),
    st.sampled_from(["", "-LH"]),
)
METRIC = st.builds(
    "M{}{}{}{}".format,
    st.sampled_from(["3", "5", "8", "12", "2.5", "60"]),
    st.sampled_from(["", "x0.5", "×0,35", " x 0.75", "xPh1P0.5", "xPh1.5P0.5"]),
    st.sampled_from(["", "-6H", " - 6g", "-5g6g", "-4H5H"]),
    st.sampled_from(["", "-LH"]),
)
BRITISH = st.builds(
    "{}{}".format,
    st.sampled_from(["0 BA", "2BA", "16 BA", "1/4 BSW", "3/16-24 BSW", "1/4-26 BSF", "1/4x40 ME", "1 BSF"]),
    st.sampled_from(["", "-LH"]),
)
DRILLS = st.one_of(
    st.integers(1, 97).map("#{}".format),
    st.integers(1, 97).map("No. {}".format),
    st.sampled_from("ABCDEFGHIJKLMNOPQRSTUVWXYZ"),
    st.integers(1, 3 * 64).map("{}/64 in".format),
    st.integers(1, 20_000).map(lambda n: f"{Decimal(n) / 1000} mm"),
)
FITS = st.builds(
    lambda letter, grade, hole: f"{letter.upper() if hole else letter}{grade}",
    st.sampled_from([*"abcdefghjkmnprstuvxyz", "cd", "ef", "fg", "js", "za", "zb", "zc"]),
    st.sampled_from(["01", *map(str, range(19))]),
    st.booleans(),
)
SIGNED = st.builds("{}{}".format, st.sampled_from("+-"), decimals(most=9))
NUMERIC_LIMITS = st.one_of(
    st.builds("{}{} {}".format, st.sampled_from(["±", "+/-"]), decimals(), st.sampled_from(["mm", "in"])),
    st.builds("{}/{} {}".format, SIGNED, SIGNED, st.sampled_from(["mm", "in", "thou"])),
)


@given(text=decimals(), sign=st.sampled_from(["", "-", "+"]), unit=st.sampled_from(["mm", "in", "thou"]))
def test_decimal_length_is_exact_to_the_last_bit(text, sign, unit):
    each = {"mm": Fraction(1), "in": Fraction(127, 5), "thou": Fraction(127, 5000)}[unit]
    assert units.millimetres(f"{sign}{text} {unit}") == float(Fraction(sign + text) * each)


@given(text=decimals(), unit=st.sampled_from(["mm", "in", "thou"]))
def test_comma_reads_as_point_or_is_refused_as_unclear(text, unit):
    whole, _, part = text.partition(".")
    comma = f"{text.replace('.', ',')} {unit}"
    if len(part) == 3 and whole != "0":
        with pytest.raises(ValueError, match="thousands or decimals"):
            units.millimetres(comma)
    else:
        assert units.millimetres(comma) == units.millimetres(f"{text} {unit}")


@given(mm=LENGTHS)
def test_written_out_millimetres_read_back(mm):
    text = f"{Decimal(mm):.20f}"
    assert units.millimetres(f"{text} mm") == pytest.approx(mm, abs=1e-20)


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@settings(deadline=None)  # the first unit pays for reading pint's registry
@given(text=decimals(), unit=st.sampled_from(["mm", "in", "inch", "thou", "cm", "m", "ft", "yd", "µm"]))
def test_pint_agrees_on_every_unit(registry, text, unit):
    theirs = registry.Quantity(float(text), unit).to("mm").magnitude
    assert units.millimetres(f"{text} {unit}") == pytest.approx(theirs, rel=1e-12, abs=1e-9)


def test_every_64th_up_to_four_inches_reads_back():
    for n in range(1, 4 * 64 + 1):
        mm = n * INCH / 64.0
        text = units.fraction_text(mm)
        assert text is not None
        assert units.millimetres(text) == pytest.approx(mm, abs=1e-12)
        assert units.as_bought(mm) == text
        assert units.fraction_text(-mm) == f"-{text}"
        assert units.millimetres(f"-{text}") == pytest.approx(-mm, abs=1e-12)
        theirs = Fraction(n, 64)
        assert text.removesuffix(" in").split("-")[-1] == (
            f"{theirs % 1}" if theirs % 1 else f"{theirs.numerator}"
        )


@given(mm=st.floats(0.001, 1e4))
def test_as_bought_reads_back_to_three_places(mm):
    assert units.millimetres(units.as_bought(mm)) == pytest.approx(mm, abs=0.0005 + 1e-6)


@given(mm=LENGTHS, system=SYSTEMS, places=st.integers(0, 6))
def test_length_text_is_within_half_its_last_place(mm, system, places):
    text = units.length_text(mm, system, places)
    value = mm / INCH if system is UnitSystem.INCH else mm
    assert abs(float(text) - value) <= 0.5 * 10.0**-places * (1.0 + 1e-6) + 1e-9
    assert len(text.partition(".")[2]) == places
    assert text.lstrip("-")[0].isdigit()
    assert float(text) != 0.0 or not text.startswith("-")


@given(mm=st.floats(-9e5, 9e5), system=SYSTEMS)
def test_size_text_reads_back(mm, system):
    last = {UnitSystem.INCH: 0.001 * INCH, UnitSystem.MM: 0.01}[system]
    assert abs(units.millimetres(units.size_text(mm, system)) - mm) <= 0.5 * last * (1.0 + 1e-6)


@given(mm=LENGTHS, system=SYSTEMS)
def test_drawing_text_follows_the_unit_system(mm, system):
    text = units.drawing_text(mm, system)
    each, last = (INCH, 1e-4) if system is UnitSystem.INCH else (1.0, 1e-3)
    assert abs(float(text) - mm / each) <= 0.5 * last * (1.0 + 1e-6)
    if system is UnitSystem.INCH:
        assert not text.lstrip("-").startswith("0")
        places = len(text.partition(".")[2])
        assert places == 3 or (places == 4 and text[-1] != "0")
    else:
        assert not ("." in text and text.endswith(("0", ".")))
        assert text.lstrip("-")[0].isdigit()


@given(text=st.one_of(UNIFIED, METRIC, BRITISH))
def test_thread_name_round_trips(text):
    name = units.thread(text)
    assert units.thread(str(name)) == name
    assert str(units.thread(str(name))) == str(name)


@given(text=DRILLS)
def test_drill_name_round_trips(text):
    drill = units.drill(text)
    assert units.drill(str(drill)) == drill
    if drill.mm is not None:
        assert drill.mm == pytest.approx(units.millimetres(text), abs=1e-12)


@given(text=FITS)
def test_fit_symbol_round_trips(text):
    assert str(units.tolerance(text)) == text


@given(text=NUMERIC_LIMITS)
def test_numeric_limits_round_trip(text):
    try:
        limits = units.tolerance(text)
    except ValueError as exc:
        assert "no room" in str(exc)  # noqa: PT017 - the only refusal this text may meet
        return
    assert limits.lower_mm < limits.upper_mm
    again = units.tolerance(str(limits))
    assert again == limits
    assert str(again) == str(limits)


@given(text=decimals(), sign=st.sampled_from(["", "-", "+"]))
def test_a_bare_number_is_refused(text, sign):
    with pytest.raises(ValueError, match="without a unit; want"):
        units.millimetres(sign + text)
    with pytest.raises(ValueError, match="without a unit; want"):
        units.degrees(sign + text)
    with pytest.raises(ValueError, match=r"without a unit; want|no room"):
        units.tolerance(f"±{text}")


@pytest.mark.parametrize("reader", READERS, ids=lambda reader: reader.__name__)
@given(text=st.one_of(st.text(max_size=30), st.text(ALPHABET, max_size=20), st.text(max_size=400)))
def test_any_text_is_read_or_refused_as_a_value_error(reader, text):
    try:
        value = reader(text)
    except ValueError as exc:
        assert "; want " in str(exc)  # noqa: PT017 - a refusal names its cure
        return
    assert reader(f"  {text}  ") == value


@given(word=st.text("abcdeghiklmnoprstuyzµÅΔΩKMGT", min_size=1, max_size=6), size=decimals())
def test_any_unit_word_is_a_length_or_a_value_error(word, size):
    try:
        mm = units.millimetres(f"{size} {word}")
    except ValueError as exc:
        assert "; want " in str(exc)  # noqa: PT017 - a refusal names its cure
        return
    assert 0.0 <= mm <= 1e6


@given(value=st.floats(-1e4, 1e4), step=st.sampled_from([0.001, 0.01, 0.02, 0.1, 0.5, 1.0, 0.0254, 0.396875]))
def test_rounding_stays_on_the_step_and_on_its_side(value, step):
    near, low, high = (f(value, step) for f in (units.round_to, units.down_to, units.up_to))
    hair = 1e-8
    assert abs(near - value) <= 0.5 * step + hair
    assert low - hair <= value <= high + hair
    assert near in (low, high)
    assert high - low <= step + hair
    for rounder in (units.round_to, units.down_to, units.up_to):
        for rounded in (near, low, high):
            assert rounder(rounded, step) == rounded


@given(n=st.integers(-(10**6), 10**6), places=st.integers(1, 4))
def test_a_written_half_goes_to_the_even_digit(n, places):
    step = 10.0**-places
    half = Decimal(2 * n + 1).scaleb(-places) / 2
    exact = float(half.quantize(Decimal(1).scaleb(-places), rounding="ROUND_HALF_EVEN"))
    assert units.round_to(float(half), step) == exact
