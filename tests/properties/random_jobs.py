"""Random valid parts and random shops for them.

A part is written as a recipe and read by the program's own reader, so that only what a maker may write is
planned; what the reader refuses is drawn anew.
"""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import assume
from hypothesis import strategies as st
from msgspec.structs import replace

from jobsheets import job
from jobsheets.errors import InputError
from jobsheets.part.turned import TurnedPart
from jobsheets.shop.machines import Dial, Reads, SpeedRange, SpeedStep
from jobsheets.shop.shop import Shop

MATERIALS = ("brass-360", "stainless-303", "steel-12l14", "nickel-silver", "aluminium-6061")
THREADS = ("M3x0.5", "M4x0.7", "M5x0.8", "M6x1")
MAJOR = {"M3x0.5": 3.0, "M4x0.7": 4.0, "M5x0.8": 5.0, "M6x1": 6.0}
RODS = (6, 8, 10, 12, 16, 20)
LIMITS = (None, None, "±0.1 mm", "±0.05 mm", "f8", "h9", "+0/-0.05 mm", "h7")


def tenth(low: float, high: float) -> st.SearchStrategy[float]:
    """A size on tenths of a millimetre, as makers choose them."""
    return st.integers(round(low * 10), max(round(low * 10), round(high * 10))).map(lambda n: n / 10)


@st.composite
def edge(draw: st.DrawFn, most: float, outermost: bool) -> str | None:
    kinds = [None, "chamfer", "radius"] + (["dome"] if outermost else [])
    kind = draw(st.sampled_from(kinds))
    if kind is None or most < 0.3:
        return None
    return f"{{ {kind}: {draw(tenth(0.2, min(most, 3.0 if kind == 'dome' else 1.0)))} mm }}"


@st.composite
def outline(draw: st.DrawFn, rod: float) -> list[tuple[str, float, float, str]]:
    """Segments as (kind, diameter, length, words of the feature)."""
    count = draw(st.integers(1, 4))
    found: list[tuple[str, float, float, str]] = []
    for k in range(count):
        kind = draw(st.sampled_from(["turn", "turn", "turn", "groove", "thread", "stock"]))
        words = ""
        if kind == "groove" and (not found or found[-1][0] == "groove" or k == count - 1):
            kind = "turn"
        if kind == "thread" and k and k < count - 1:
            kind = "turn"
        if kind == "thread":
            name = draw(st.sampled_from([t for t in THREADS if MAJOR[t] <= rod - 1]))
            diameter, words = MAJOR[name], name
        elif kind == "stock":
            kind, diameter = "turn", rod
            words = "stock"
        elif kind == "groove":
            diameter = draw(tenth(2.0, max(2.0, found[-1][1] - 0.6)))
        else:
            diameter = draw(tenth(max(3.0, rod * 0.4), rod - 0.4))
        length = draw(tenth(1.6, 4.0)) if kind == "groove" else draw(tenth(3.0, 25.0))
        found.append((kind, diameter, length, words))
    return found


@st.composite
def features(draw: st.DrawFn, rod: float) -> list[str]:
    segments = draw(outline(rod))
    lines = []
    for k, (kind, diameter, length, words) in enumerate(segments):
        size = words if kind == "thread" else "rod" if words == "stock" else f"{diameter} mm"
        text = f"id: s{k}, {kind}: {size}, length: {length} mm"
        limits = draw(st.sampled_from(LIMITS)) if kind == "turn" and words != "stock" else None
        text += f", limits: {limits}" if limits else ""
        if kind != "groove":
            beside = [segments[k + d][1] if 0 <= k + d < len(segments) else 0.0 for d in (-1, 1)]
            for name, other in zip(("front", "back"), beside, strict=True):
                room = min((diameter - other) / 2.0, length / 3.0)
                form = draw(edge(room, other == 0.0)) if diameter > other else None
                text += f", {name}: {form}" if form else ""
        lines.append(f"{{ {text} }}")
    lines += draw(holes(segments))
    turned = [k for k, s in enumerate(segments) if s[0] == "turn"]
    if turned and draw(st.booleans()):
        k = draw(st.sampled_from(turned))
        across = draw(tenth(1.0, 4.0))
        lines.append(f"{{ id: cross, cross_hole: {across} mm, at: s{k} }}")
    if turned and draw(st.integers(0, 3)) == 0:
        k = draw(st.sampled_from(turned))
        form = draw(st.sampled_from(["diamond", "straight"]))
        lines.append(f"{{ id: rolled, knurl: {form}, on: s{k}, pitch: 1 mm }}")
    return lines


@st.composite
def holes(draw: st.DrawFn, segments: list[tuple[str, float, float, str]]) -> list[str]:
    thinnest, length = min(s[1] for s in segments), sum(s[2] for s in segments)
    lines = []
    for k in range(draw(st.integers(0, 2))):
        kind = draw(st.sampled_from(["drill", "bore", "ream", "counterbore", "tap"]))
        end = draw(st.sampled_from(["front", "back"]))
        most = (segments[0] if end == "front" else segments[-1])[1] - 1.0
        through = kind != "counterbore" and draw(st.booleans())
        if through:
            most = thinnest - 1.0
        fitting = [t for t in THREADS if MAJOR[t] <= most]
        if most < 2.0 or (kind == "tap" and not fitting):
            continue
        size = draw(st.sampled_from(fitting)) if kind == "tap" else f"{draw(tenth(2.0, most))} mm"
        deep = "through: true" if through else f"depth: {draw(tenth(1.0, max(1.0, length - 1.0)))} mm"
        text = f"id: h{k}, {kind}: {size}, {deep}, from: {end}"
        if not through and kind == "drill":
            text += f", bottom: {draw(st.sampled_from(['blind', 'flat']))}"
        if kind == "ream":
            text += ", limits: H8"
        if draw(st.booleans()):
            wide = MAJOR[size] + 0.4 if kind == "tap" else float(size.split()[0]) + 0.6
            text += f", mouth: {wide:.2f} mm"
        lines.append(f"{{ {text} }}")
    return lines


@st.composite
def parts(draw: st.DrawFn) -> TurnedPart:
    rod = draw(st.sampled_from(RODS))
    lines = draw(features(float(rod)))
    text = "\n".join(
        (
            "recipe: 1",
            "name: random-part",
            "title: Random part",
            "kind: turned",
            "units: mm",
            f"inputs: {{ rod: {{ length: {rod} mm, help: bar }} }}",
            f"material: {draw(st.sampled_from(MATERIALS))}",
            "stock: { round: rod }",
            "features:",
            *(f"  - {line}" for line in lines),
            f"limits: {{ default: ISO 2768-{draw(st.sampled_from('mc'))} }}",
            "",
        )
    )
    with TemporaryDirectory() as folder:
        path = Path(folder) / "random-part.yaml"
        path.write_text(text, encoding="utf-8")
        try:
            return job.load_part(str(path))
        except InputError:
            assume(False)
            raise


@cache
def _demo(system: str) -> Shop:
    return job.load_shop(None, system)


@st.composite
def dials(draw: st.DrawFn, like: Dial) -> Dial:
    """Another collar, with or without a readout."""
    per_turn, divisions = draw(
        st.sampled_from([(1.0, 50.0), (1.0, 100.0), (1.27, 50.0), (2.0, 40.0), (2.54, 100.0), (1.5875, 62.5)])
    )
    reads = like.reads
    if reads is not Reads.TRAVEL:
        reads = draw(st.sampled_from([Reads.RADIUS, Reads.DIAMETER]))
    readout = draw(st.sampled_from([None, None, 0.005, 0.01]))
    return replace(like, per_turn=per_turn, divisions=divisions, reads=reads, readout=readout)


@st.composite
def shops(draw: st.DrawFn) -> Shop:
    """A demo shop with other dials, other speeds, and some tools gone."""
    shop = _demo(draw(st.sampled_from(["in", "mm"])))
    lathe = shop.lathe
    if draw(st.booleans()):
        steps = draw(st.lists(st.integers(60, 2500), min_size=1, max_size=8, unique=True))
        speeds = tuple(SpeedStep(rpm=float(n), position=f"belt {k}") for k, n in enumerate(sorted(steps)))
        lathe = replace(lathe, speeds=speeds, ranges=())
    else:
        low = float(draw(st.integers(50, 300)))
        step = draw(st.sampled_from([1.0, 10.0]))
        only = SpeedRange(least=low, most=low * 10.0, step=step, position="knob")
        lathe = replace(lathe, speeds=(), ranges=(only,))
    lathe = replace(lathe, cross=draw(dials(lathe.cross)))
    if lathe.top_slide is not None and draw(st.booleans()):
        lathe = replace(lathe, top_slide=draw(st.one_of(st.none(), dials(lathe.top_slide))))
    if draw(st.booleans()):
        lathe = replace(lathe, power_feeds=(), collets=None)
    tooling = shop.tooling
    gone = draw(st.sets(st.sampled_from(WITHOUT), max_size=2))
    tooling = replace(tooling, **dict.fromkeys(gone, ()))
    mill = None if draw(st.integers(0, 4)) == 0 else shop.mill
    if mill is not None and draw(st.booleans()):
        mill = replace(mill, table_x=None, table_y=None)
    return replace(shop, lathe=lathe, tooling=tooling, mill=mill)


WITHOUT = (
    "drills",
    "centre_drills",
    "countersinks",
    "reamers",
    "end_mills",
    "taps",
    "dies",
    "lathe_tools",
    "mandrels",
    "gauges",
)
