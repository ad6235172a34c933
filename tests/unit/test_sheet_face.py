"""The face: coverage, widths against the font files, wrapping, look-alikes told apart."""

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageChops, ImageDraw, ImageFont

from jobsheets.sheet import face

NEEDED = (
    "⌀↧⌴⌵□°±×·–—…≤≥≈√π→←↑↓▲▼☐✓½¼¾″′µ"
    "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝßàáâãäåæçèéêëìíîïñòóôõöøùúûüýÿ"
    "ĄąĆćĘęŁłŃńŚśŹźŻżČčĎďĚěŇňŘřŠšŤťŮůŽžĐđŐőŰűĀāĒēĪīŪūĢģĶķĻļŅņĖėĮįŲųĞğİŞşĂă"
)
ASCII = "".join(map(chr, range(0x20, 0x7F)))
words = st.text(alphabet="abcdefghij ABC0123456789-/⌀.", max_size=120)


@pytest.mark.parametrize("bold", [False, True])
def test_every_needed_character_has_ink_in_the_font(bold):
    font = TTFont(face.FILES[bold])
    cmap, glyphs = font.getBestCmap(), font["glyf"]
    for char in NEEDED + ASCII[1:]:
        assert glyphs[cmap[ord(char)]].numberOfContours > 0, char


@pytest.mark.parametrize("bold", [False, True])
def test_width_table_is_what_the_font_says(bold):
    font = TTFont(face.FILES[bold])
    widths, em = font["hmtx"].metrics, font["head"].unitsPerEm
    assert em == 1000
    for code, name in font.getBestCmap().items():
        assert face.width(chr(code), 72.0, bold=bold) == pytest.approx(widths[name][0] / em * 25.4)


@pytest.mark.parametrize("bold", [False, True])
def test_capitals_are_as_high_as_the_constant_says(bold):
    font = TTFont(face.FILES[bold])
    high = font["glyf"][font.getBestCmap()[ord("H")]].yMax
    assert 0.0 <= high / 1000.0 - face.CAPITAL <= 0.02 * face.CAPITAL


def test_files_are_small_renamed_and_licensed():
    for path in face.FILES.values():
        assert path.stat().st_size < 60_000
        assert TTFont(path)["name"].getDebugName(1) == "Jobsheet Text"
        assert "SIL Open Font License" in TTFont(path)["name"].getDebugName(13)
    assert "SIL OPEN FONT LICENSE Version 1.1" in (face.FOLDER / "OFL.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("bold", [False, True])
def test_figures_are_tabular(bold):
    assert len({face.width(figure, 10.0, bold=bold) for figure in "0123456789"}) == 1


def ink(char: str, font: ImageFont.FreeTypeFont) -> Image.Image:
    image = Image.new("L", (60, 60), 0)
    ImageDraw.Draw(image).text((30, 45), char, font=font, fill=255, anchor="ms")
    return image


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize(
    "pair", ["0O", "0⌀", "0Ø", "08", "1I", "1l", "Il", "l|", "68", "8B", "5S", "2Z", "6G", "-–"]
)
def test_look_alikes_differ_at_the_size_of_a_note(pair, bold):
    pixels = face.NOTE_CAPITALS / 25.4 * 300.0 / face.CAPITAL  # a common printer's 300 dots to the inch
    font = ImageFont.truetype(str(face.FILES[bold]), round(pixels))
    first, second = (ink(char, font) for char in pair)
    difference = sum(ImageChops.difference(first, second).tobytes())
    assert difference >= 0.15 * max(sum(first.tobytes()), sum(second.tobytes()))


@pytest.mark.parametrize(
    ("char", "name"), [("\t", "U\\+0009, a control"), ("中", "U\\+4E2D, CJK"), ("😀", "GRINNING FACE")]
)
def test_a_character_outside_the_set_is_named(char, name):
    with pytest.raises(ValueError, match=name):
        face.check(f"drill {char} through")
    with pytest.raises(ValueError, match=name):
        face.width(f"drill {char} through", 10.0)


def test_size_and_capitals_are_inverse():
    assert face.capitals(face.size_for_capitals(2.8)) == pytest.approx(2.8)
    assert face.size_for_capitals(4.2) == pytest.approx(15.87, abs=0.01)


@settings(max_examples=100)
@given(text=words, room=st.floats(8.0, 120.0), bold=st.booleans())
def test_wrapped_lines_fit_and_lose_nothing(text, room, bold):
    lines = face.wrap(text, room, 10.6, bold=bold)
    assert all(face.width(line, 10.6, bold=bold) <= room + 1e-9 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_wrap_keeps_new_lines_and_parts_long_words_at_a_hyphen():
    assert face.wrap("one\ntwo", 100.0, 10.0) == ["one", "two"]
    assert face.wrap("", 100.0, 10.0) == [""]
    lines = face.wrap("chuck-to-tailstock-room", face.width("chuck-to-tail", 10.0), 10.0)
    assert lines[0] == "chuck-to-"


def test_wrap_refuses_a_column_narrower_than_a_letter():
    with pytest.raises(ValueError, match="widen the column"):
        face.wrap("WW", 1.0, 10.0)


def test_fit_shrinks_only_as_far_as_allowed():
    full = face.width("stepped end nut", 12.0)
    assert face.fit("stepped end nut", full, 12.0) == 12.0
    smaller = face.fit("stepped end nut", 0.8 * full, 12.0)
    assert smaller < 12.0
    assert face.width("stepped end nut", smaller) <= 0.8 * full
    with pytest.raises(ValueError, match="shorten it"):
        face.fit("stepped end nut", 0.5 * full, 12.0, least=10.0)
