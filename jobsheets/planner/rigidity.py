"""Forces of the cut, what they ask of the motor, and how far they bend the work and the boring bar.

Work is a stepped bar out of the jaws: the bar itself, then the segments at the sizes they will have, with the
holes in them; so a slim neck is counted as slim even where a thick bar is held. Forces are those of a tool
that has begun to dull, since that is when sizes go astray. Sources: docs/cutting.md.
"""

from collections.abc import Sequence
from math import pi

from msgspec import Struct

from jobsheets.cutting import force
from jobsheets.cutting.deflection import Section, boring_bar, diameter_error
from jobsheets.cutting.stepped import slenderness, under_load
from jobsheets.figure import Figure, Input
from jobsheets.part.turned import Bottom, End, Hole, Segment, SegmentKind
from jobsheets.planner.cutting_choice import specific
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, HoldingKind, Row, Setup
from jobsheets.standards.cutting_constants import factor
from jobsheets.standards.cutting_data import specific_force
from jobsheets.standards.cutting_rows import NoData
from jobsheets.standards.materials import Material

THINNEST = 0.02  # mm; below it the chip force of the tables is no guide, so it is counted no thinner
BAR_MODULUS = 205.0  # GPa; a boring bar is taken as a steel shank, whatever its edge
BLADES = ("part-off", "groove")
LIGHT = ("turn finish",)  # operations whose tool is kept keen
FORCE_SOURCE = "Kienzle equation; factors of wear and of HSS in docs/cutting.md"


class Bend(Struct, frozen=True, kw_only=True):
    """How the work gives along one segment, mm for each newton at the tool."""

    most: float
    least: float
    slenderness: float  # of the work out to the free end, as a plain bar that gives as much


def newtons(material: Material, operation: str, tool: str, depth: float, feed: float) -> float:
    """Main cutting force of a tool that has begun to dull, N.

    Args:
        material: of the work.
        operation: as the cutting tables name it.
        tool: "HSS" or "carbide".
        depth: on the radius, mm.
        feed: mm/rev.
    """
    kc11, mc, _ = specific(material)
    return force.cutting_force(kc11, mc, depth, max(feed, THINNEST), factor=correction(operation, tool))


def correction(operation: str, tool: str) -> float:
    """Wear and tool material over the sharp carbide edge of the tables, the high end of each."""
    wear = factor("wear", "turn finish" if operation in LIGHT else "turn rough").high
    blade = force.PARTING_FACTOR if operation in BLADES else 1.0
    return wear * factor("tool", tool).high * blade


def standing(
    job: JobView, setup: Setup, segment: str = "", diameter: float | None = None
) -> tuple[Section, ...]:
    """The work out of the jaws as a stepped bar.

    Args:
        job: part and shop.
        setup: where the jaws are and which end is out.
        segment: being roughed; it and what lies further out still have `diameter`.
        diameter: of the stock there, mm; None: everything has its final size.
    """
    jaws, out = _jaws(setup), setup.out is End.FRONT
    pieces: list[Section] = []
    if out and jaws > job.targets.length:
        pieces.append(Section(length=jaws - job.targets.length, diameter=job.targets.rod))
    rough = False
    segments = job.part.segments
    for index, one in reversed(tuple(enumerate(segments))) if out else enumerate(segments):
        front, back = job.targets.span(job.part, one.id)
        if out and index and one.kind is SegmentKind.GROOVE:
            one = segments[index - 1]  # grooves come last: the cut on the neighbour runs on over their place
        length = min(back, jaws) - front if out else back - max(front, jaws)
        rough = rough or one.id == segment
        if length <= 1e-6:
            continue
        across = diameter if rough and diameter is not None else job.targets.diameter(one.id)
        bore = max((h.diameter.high for h in job.part.holes if _reaches(job, h, front, back)), default=0.0)
        pieces.append(Section(length=length, diameter=across, bore=min(bore, 0.95 * across)))
    return tuple(pieces)


def _jaws(setup: Setup) -> float:
    """Where the work comes out of what holds it, in part coordinates."""
    if setup.holding.kind is HoldingKind.MANDREL:
        return 0.0
    return setup.grip_from if setup.out is End.FRONT else setup.grip_to


def _reaches(job: JobView, hole: Hole, front: float, back: float) -> bool:
    if hole.depth is None or hole.bottom is Bottom.THROUGH:
        return True
    return hole.depth.high > front if hole.end is End.FRONT else job.targets.length - hole.depth.high < back


def stiffness_known(material: Material) -> float | None:
    """Modulus of a material whose cutting force is published too, GPa; None: no number is made of a guess."""
    published = not isinstance(specific_force(material.cutting_id), NoData)
    return material.modulus if published else None


def bend(job: JobView, setup: Setup, segment: Segment) -> Bend | None:
    """How the finished work gives along a segment; None where modulus or cutting force is not published."""
    modulus = stiffness_known(job.material)
    work = standing(job, setup)
    if modulus is None or not work:
        return None
    front, back = job.targets.span(job.part, segment.id)
    jaws, end = _jaws(setup), sum(s.length for s in work)
    places = [min(abs(jaws - z), end) for z in (front, (front + back) / 2.0, back)]
    gives = [under_load(work, modulus, at, live_centre=setup.live_centre) for at in places]
    return Bend(most=max(gives), least=min(gives), slenderness=slenderness(work, modulus))


def gives_roughing(
    job: JobView, setup: Setup, segment: str, diameter: float, at: float | None = None
) -> float | None:
    """Deflection for each newton where a roughing cut gives most, mm/N; None where it cannot be known.

    Args:
        job: part and shop.
        setup: the holding.
        segment: being roughed; "" for a plain bar out to the free end.
        diameter: of the stock that is cut, mm.
        at: from the jaws, mm; None: the free end, where a cut begins, or the worst place under a centre.
    """
    modulus = stiffness_known(job.material)
    if modulus is None or setup.holding.stick_out <= 0.0:
        return None
    plain = (Section(length=setup.holding.stick_out, diameter=diameter),)
    work = standing(job, setup, segment, diameter) if segment else plain
    end = sum(s.length for s in work)
    if end <= 0.0:
        return None
    if at is not None:
        return under_load(work, modulus, min(at, end)) if at > 0.0 else None
    if setup.live_centre:
        return max(under_load(work, modulus, share * end, live_centre=True) for share in (0.45, 0.6, 0.75))
    return under_load(work, modulus, end)


def force_figures(
    job: JobView, operation: str, cutter: Cutter, rows: Sequence[Row], feed: Figure, speed: Figure
) -> tuple[Figure, Figure]:
    """Main cutting force of the deepest cut of an operation, and the power it asks of the motor.

    Args:
        job: part and shop.
        operation: as the cutting tables name it.
        cutter: a blade cuts over its whole width.
        rows: the deepest counts.
        feed: as it is run.
        speed: as it is run, with the diameter in the cut.
    """
    deepest = cutter.width if operation in BLADES else max((row.depth or 0.0 for row in rows), default=0.0)
    diameter = next(float(i.value) for i in speed.inputs if i.name == "d")
    tool = cutter.material
    kc11, mc, source = specific(job.material)
    per_turn = max(feed.value, THINNEST)
    kc, share = force.specific_force(kc11, mc, per_turn), correction(operation, tool)
    main = kc * deepest * per_turn * share
    surface = pi * diameter * speed.value / 1000.0
    asked = force.motor_power(force.cutting_power(main, surface), job.lathe.efficiency)
    force_figure = Figure(
        id="force",
        name="main cutting force",
        value=main,
        unit="N",
        formula="Fc = kc ap f K",
        inputs=(
            Input(name="kc", value=kc, unit="N/mm²"),
            Input(name="ap", value=deepest, unit="mm"),
            Input(name="f", value=per_turn, unit="mm/rev"),
            Input(name="K, wear and tool", value=share),
        ),
        ruled_by="deepest cut of the operation",
        source=source,
        changes="a smaller feed or depth, a sharp tool",
    )
    return force_figure, Figure(
        id="power",
        name="power asked of the motor",
        value=asked,
        unit="W",
        formula="P = Fc v / (60 E)",
        inputs=(
            Input(name="Fc", value=main, unit="N"),
            Input(name="v", value=surface, unit="m/min"),
            Input(name="E, drive", value=job.lathe.efficiency),
            Input(name="motor", value=job.lathe.power, unit="W"),
        ),
        ruled_by="deepest cut of the operation",
        source=FORCE_SOURCE,
        changes="a slower belt, a smaller feed or depth",
    )


def feed_for_blade(job: JobView, operation: str, cutter: Cutter, feed: float, speed: Figure) -> float:
    """Coarsest feed up to `feed` at which the motor drives a parting or grooving blade, mm/rev."""
    kc11, mc, _ = specific(job.material)
    diameter = next(float(i.value) for i in speed.inputs if i.name == "d")
    surface = pi * diameter * speed.value / 1000.0
    main = force.cutting_force(
        kc11, mc, cutter.width, max(feed, THINNEST), factor=correction(operation, cutter.material)
    )
    asked = force.motor_power(force.cutting_power(main, surface), job.lathe.efficiency)
    if asked <= job.lathe.power:
        return feed
    return feed * float((job.lathe.power / asked) ** (1.0 / (1.0 - mc)))


def allowed_error(job: JobView, width: float) -> float:
    """What bending may add along a diameter, mm: a share of the width of its limits (house rule)."""
    return job.house.bend_share * width


def finish_limit(
    job: JobView, setup: Setup, segment: Segment, width: float, tool: str, feed: float
) -> float | None:
    """Deepest finishing cut whose bending stays within the share of the limits, mm; None: no limit known."""
    found = bend(job, setup, segment)
    if found is None or found.most <= found.least:
        return None
    a_mm = force.passive_force(newtons(job.material, "turn finish", tool, 1.0, feed))
    return allowed_error(job, width) / diameter_error(a_mm * (found.most - found.least))


def bending_figure(
    job: JobView, setup: Setup, segment: Segment, width: float, tool: str, depth: float, feed: float
) -> Figure | None:
    """How much the diameter of a segment grows along it in the last cut, because the work gives."""
    found = bend(job, setup, segment)
    if found is None:
        return None
    push = force.passive_force(newtons(job.material, "turn finish", tool, depth, feed))
    error = diameter_error(push * (found.most - found.least))
    allowed = allowed_error(job, width)
    return Figure(
        id="bending",
        name="taper left by bending",
        value=error,
        unit="mm",
        formula="2 Fp (c_most − c_least); stepped bar by Castigliano's theorem",
        inputs=(
            Input(name="Fp", value=push, unit="N"),
            Input(name="c_most", value=found.most, unit="mm/N"),
            Input(name="c_least", value=found.least, unit="mm/N"),
            Input(name="as slender as a plain bar of L/D", value=found.slenderness),
            Input(name="allowed", value=allowed, unit="mm"),
        ),
        wanted=allowed,
        ruled_by="share of the limits (house rule bend_share)",
        source=f"{FORCE_SOURCE}; radial share 0.5 from memory",
        changes="the live centre, a shallower last cut, a sharp tool",
    )


def gives_bar(diameter: float, overhang: float) -> float:
    """Deflection of a boring bar for each newton, mm/N."""
    return boring_bar(1.0, overhang, diameter, BAR_MODULUS)
