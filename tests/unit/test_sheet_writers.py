"""PDF and SVG: what is in the list is on the page; the same list gives the same bytes anywhere."""

import hashlib
import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

from jobsheets.sheet.display import Arc, Box, Circle, Hatch, Line, Page, Polygon, Polyline, Text
from jobsheets.sheet.pdf import PAPERS, pdf
from jobsheets.sheet.svg import svg

PAGE = Page(
    title="Stepped end nut <1>",
    items=(
        Text(x=20.0, y=30.0, text="Turn the neck to ⌀6.350 ↧ 7.94 ⌴ ⌵ ±0.05", size=10.6),
        Text(x=105.0, y=40.0, text="8-32 UNC & (blind) \\ <1>", size=16.0, bold=True, anchor="middle"),
        Text(x=30.0, y=150.0, text="upright", size=10.6, rotate=90.0),
        Line(x1=20.0, y1=50.0, x2=120.0, y2=50.0, style="centre"),
        Polyline(points=((20.0, 60.0), (30.0, 70.0), (40.0, 60.0)), style="visible"),
        Polygon(points=((50.0, 60.0), (60.0, 70.0), (70.0, 60.0)), fill="black", style=None),
        Hatch(rings=(((80.0, 60.0), (100.0, 60.0), (100.0, 80.0)),), pattern="brass"),
        Arc(cx=60.0, cy=100.0, r=10.0, start=95.0, sweep=260.0),
        Circle(cx=60.0, cy=100.0, r=12.0, style="visible"),
        Box(x=20.0, y=120.0, width=80.0, height=20.0, frame="double"),
    ),
)
SCRIPT = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from tests.unit.test_sheet_writers import PAGE
from jobsheets.sheet.pdf import pdf
print(hashlib.sha256(pdf((PAGE, PAGE), title="Nut", subject="sheet")).hexdigest())
"""


def written(**keywords) -> PdfReader:
    return PdfReader(BytesIO(pdf((PAGE,), title="Nut", subject="sheet", **keywords)))


def test_text_is_found_with_its_symbols_in_reading_order():
    text = written().pages[0].extract_text()
    assert "Turn the neck to ⌀6.350 ↧ 7.94 ⌴ ⌵ ±0.05" in text
    assert "8-32 UNC & (blind) \\ <1>" in text
    assert text.index("Turn") < text.index("8-32")


def test_fonts_are_embedded_subsets():
    data = pdf((PAGE,), title="Nut")
    fonts = PdfReader(BytesIO(data)).pages[0]["/Resources"]["/Font"]
    ours = [font.get_object() for font in fonts.values() if "JobsheetText" in font.get_object()["/BaseFont"]]
    assert len(ours) == 2
    assert all("/FontFile2" in font["/FontDescriptor"] for font in ours)
    assert b"ASCII85" not in data
    assert len(data) < 25_000


def test_viewer_is_asked_not_to_scale():
    reader = written(language="en-GB")
    root = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"].value is True
    assert root["/Lang"] == "en-GB"
    assert reader.metadata.title == "Nut"
    assert reader.metadata.subject == "sheet"


def places(paper: str) -> dict[str, tuple[float, float]]:
    """Where each text begins, mm from the top left corner of the paper."""
    found = {}
    height = PAPERS[paper][1]

    def visit(text, _cm, tm, _font, _size):
        if text.strip():
            found[text.strip()] = (tm[4] / 72.0 * 25.4, height - tm[5] / 72.0 * 25.4)

    written(paper=paper).pages[0].extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_layout_is_in_the_middle_of_either_paper_unscaled(paper):
    box = written(paper=paper).pages[0].mediabox
    wide, high = PAPERS[paper]
    assert (float(box.width), float(box.height)) == pytest.approx(
        (wide * 72 / 25.4, high * 72 / 25.4), abs=0.01
    )
    x, y = places(paper)["Turn the neck to ⌀6.350 ↧ 7.94 ⌴ ⌵ ±0.05"]
    assert (x, y) == pytest.approx((20.0 + (wide - 210.0) / 2.0, 30.0 + (high - 279.4) / 2.0), abs=0.01)


def test_a_page_larger_than_the_paper_is_refused():
    with pytest.raises(ValueError, match="does not fit letter"):
        pdf((Page(items=(), height=297.0),), title="Nut")


@pytest.mark.parametrize("anchor", ["start", "end"])
def test_a_character_outside_the_face_is_named_never_blank(anchor):
    page = Page(items=(Text(x=20.0, y=20.0, text="drill ☃ through", size=10.0, anchor=anchor),))
    for write in (lambda: pdf((page,), title="Nut"), lambda: svg(page)):
        with pytest.raises(ValueError, match="U\\+2603, SNOWMAN"):
            write()


def test_same_bytes_whatever_the_seed_the_zone_and_the_folder(tmp_path):
    here = hashlib.sha256(pdf((PAGE, PAGE), title="Nut", subject="sheet")).hexdigest()
    root = str(Path(__file__).parents[2])
    for seed, zone in (("1", "Pacific/Auckland"), ("77", "America/Adak")):
        clean = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "SOURCE_DATE_EPOCH": ""}
        del clean["SOURCE_DATE_EPOCH"]
        done = subprocess.run(
            [sys.executable, "-c", SCRIPT, root],
            cwd=tmp_path,
            env=clean,
            capture_output=True,
            text=True,
            check=True,
        )
        assert done.stdout.strip() == here


def test_pages_may_be_made_while_they_are_written():
    data = pdf((PAGE for _ in range(3)), title="Nut")
    assert len(PdfReader(BytesIO(data)).pages) == 3


def test_svg_is_well_formed_and_says_the_same():
    root = ElementTree.fromstring(svg(PAGE))
    space = "{http://www.w3.org/2000/svg}"
    texts = [node.text for node in root.iter(f"{space}text")]
    assert texts == [item.text for item in PAGE.items if isinstance(item, Text)]
    assert root.get("viewBox") == "0 0 210 279.4"
    assert root.find(f"{space}title").text == "Stepped end nut <1>"
    assert len(list(root.iter(f"{space}rect"))) == 3  # the paper and the two lines of the double frame
