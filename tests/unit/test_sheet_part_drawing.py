"""From a resolved part to its drawing: every size once, in one unit system."""

import pytest

from jobsheets.part.size import Size
from jobsheets.part.turned import (
    Bottom,
    CrossHole,
    Edge,
    EdgeKind,
    End,
    Hole,
    HoleKind,
    Knurl,
    Segment,
    SegmentKind,
    ThreadSpec,
    TurnedPart,
)
from jobsheets.sheet.display import Hatch, Text, extent
from jobsheets.sheet.part_drawing import draw, pattern
from jobsheets.standards.thread_values import Thread

SCREW = Thread(
    name="8-32 UNC",
    system="UN",
    series="UNC",
    size="8",
    major=4.166,
    pitch=25.4 / 32.0,
    angle=60.0,
    tpi=32.0,
    source="major diameter .1640 in, for this test",
    seen="memory",
)


def size(nominal: float, low: float, high: float) -> Size:
    return Size(nominal=nominal, low=nominal + low, high=nominal + high, limits="for this test")


def chamfer(leg: float) -> Edge:
    return Edge(kind=EdgeKind.CHAMFER, size=size(leg, -0.1, 0.1))


NUT = TurnedPart(  # invented: the stepped end nut of the demo
    name="stepped-end-nut",
    title="Stepped end nut",
    material="stainless-303",
    rod=size(9.525, -0.05, 0.0),
    segments=(
        Segment(
            id="neck",
            kind=SegmentKind.TURN,
            diameter=size(6.35, -0.035, -0.013),
            length=size(7.94, -0.05, 0.05),
            front=chamfer(0.5),
        ),
        Segment(
            id="head",
            kind=SegmentKind.TURN,
            diameter=size(9.525, -0.05, 0.0),
            length=size(6.35, -0.1, 0.1),
            back=chamfer(0.5),
            as_stock=True,
        ),
    ),
    holes=(
        Hole(
            id="thread",
            kind=HoleKind.TAP,
            end=End.FRONT,
            bottom=Bottom.BLIND,
            diameter=size(3.45, -0.05, 0.05),
            depth=size(10.0, -0.2, 0.2),
            mouth=size(4.6, -0.1, 0.1),
            thread=ThreadSpec(thread=SCREW, tolerance_class="2B"),
        ),
    ),
    cross_holes=(
        CrossHole(id="grip", diameter=size(3.2, 0.0, 0.1), at=size(11.1, -0.1, 0.1), segment="head"),
    ),
    knurls=(Knurl(id="rim", segment="head", form="straight", pitch=1.0),),
)


def written(system: str) -> list[str]:
    return [item.text for item in draw(NUT, system, 12.0, 20.0, 180.0, 115.0) if isinstance(item, Text)]


def test_metric_sizes_are_limits_largest_first():
    texts = written("mm")
    assert texts[texts.index("⌀6.337") + 1] == "⌀6.315"
    assert texts[texts.index("7.99") + 1] == "7.89"
    assert "⌀9.525 stock" in texts
    assert "(14.29)" in texts
    notes = "\n".join(texts)
    assert "2X 0.5 × 45°" in notes
    assert "8-32 UNC-2B ↧ 10.20/9.80" in notes
    assert "⌵ ⌀4.70/4.50 × 90°" in notes
    assert "⌀3.30/3.20 THRU" in notes
    assert "knurl straight, pitch 1" in notes


def test_inch_sizes_have_no_leading_zero_and_lie_inside_the_limits():
    texts = written("in")
    assert not any(text.lstrip("⌀(").startswith("0.") for text in texts)
    high, low = (float(text.lstrip("⌀")) * 25.4 for text in ("⌀.2494", "⌀.2487"))
    assert "⌀.2494" in texts
    assert "⌀.2487" in texts
    assert NUT.segments[0].diameter.low <= low < high <= NUT.segments[0].diameter.high


@pytest.mark.parametrize("system", ["in", "mm"])
def test_drawing_keeps_to_its_room(system):
    x0, y0, x1, y1 = extent(draw(NUT, system, 12.0, 20.0, 180.0, 115.0))
    assert x0 >= 12.0
    assert y0 >= 20.0
    assert x1 <= 192.0
    assert y1 <= 135.0


def test_material_chooses_the_hatching():
    hatches = [item for item in draw(NUT, "mm", 0.0, 0.0, 180.0, 115.0) if isinstance(item, Hatch)]
    assert {hatch.pattern for hatch in hatches} == {"stainless"}
    assert pattern("nickel-silver") == "nickel_silver"
    assert pattern("Naval brass") == "brass"
    assert pattern("unobtainium") == "other"


def test_an_unknown_unit_system_is_refused():
    with pytest.raises(KeyError):
        draw(NUT, "cubit", 0.0, 0.0, 180.0, 115.0)
