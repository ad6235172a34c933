"""Speeds, feeds and depths of cut as this lathe can run them, each with the limit that ruled.

A book value is taken at its median and only ever lowered from there: by the overhang of the work, the depth
of a hole, the limits of chuck or collet, and the speeds that exist.
"""

from math import inf, pi

from jobsheets.cutting import force, speeds
from jobsheets.figure import Figure, Input
from jobsheets.planner import drill_force, rigidity
from jobsheets.planner.cutting_choice import OWN, SpeedChoice, feed_choice, specific, speed_choice
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, HoldingKind, Setup
from jobsheets.planner.setting import down
from jobsheets.shop.machines import Dial, Lathe, Mill
from jobsheets.shop.speeds import at_or_below
from jobsheets.standards.cutting_rows import NOT_FOUND

ROUGH_ERROR = 0.05  # mm on the diameter; a roughing cut may push the work away by this much (common practice)
# Operations that go on while the live centre holds the free end; for all others it is out of the way.
SUPPORTED = ("turn rough", "turn finish", "groove", "knurl")
BENDING = "bending of the work"
BY_FEEL = f"{NOT_FOUND}: a fine feed by hand, by feel"
SOFT = ("brass", "aluminium", "plastic")
SOFT_SHARE = 1.5  # soft metals are roughed half as deep again (shop handouts: 0.05 in against 0.03 in)


def overhang(job: JobView, setup: Setup) -> float:
    """Length out of the jaws over diameter held."""
    held = setup.holding
    return held.stick_out / held.diameter if held.diameter > 0.0 else 0.0


def overhang_share(job: JobView, setup: Setup, operation: str = "") -> float:
    """Share of speed and depth left to work that stands far out: 1 up to the free ratio, falling beyond.

    Args:
        job: part and shop.
        setup: how far the work stands out, and whether the live centre holds it.
        operation: that is done; "" for one that the centre does not help.
    """
    house, ratio = job.house, overhang(job, setup)
    if ratio <= house.free_stick_out or (setup.live_centre and operation in SUPPORTED):
        return 1.0
    span = max(house.most_stick_out - house.free_stick_out, 1e-9)
    least = house.stick_out_speed
    return max(least, 1.0 - (1.0 - least) * (ratio - house.free_stick_out) / span)


def spindle(
    job: JobView, setup: Setup, operation: str, diameter: float, tool: str, *, depth: float = 0.0
) -> Figure:
    """Spindle speed for an operation on the lathe.

    Args:
        job: part and shop.
        setup: limits of the holding.
        operation: name in the table of cutting operations.
        diameter: in the cut, mm.
        tool: tool material.
        depth: of a drilled hole, mm; deep holes are run slower.
    """
    choice = speed_choice(job.material, job.shop, operation, tool, diameter, depth)
    share = overhang_share(job, setup, operation)
    limits: list[tuple[float, str]] = []
    if setup.holding.kind is not HoldingKind.VICE and setup.holding.max_rpm < inf:
        limits.append((setup.holding.max_rpm, f"limit of the {setup.holding.name}"))
    extra = () if share >= 1.0 else (Input(name="overhang, share of speed", value=share),)
    return _speed_figure(job.lathe, choice, operation, diameter, share, limits, extra)


def mill_spindle(
    job: JobView, mill: Mill, operation: str, diameter: float, tool: str, *, depth: float = 0.0
) -> Figure:
    """Spindle speed for an operation on the mill or drill press; `depth` of a drilled hole, mm."""
    choice = speed_choice(job.material, job.shop, operation, tool, diameter, depth)
    return _speed_figure(mill, choice, operation, diameter, 1.0, [], ())


def _speed_figure(
    machine: Lathe | Mill,
    choice: SpeedChoice,
    operation: str,
    diameter: float,
    share: float,
    limits: list[tuple[float, str]],
    extra: tuple[Input, ...],
) -> Figure:
    inputs = [Input(name="d", value=diameter, unit="mm")]
    if choice.speed is None:
        slowest = at_or_below(machine, 1.0)
        return Figure(
            id="speed",
            name="spindle speed",
            value=slowest.rpm,
            unit="rev/min",
            formula="slowest speed of the machine",
            inputs=tuple(inputs),
            ruled_by="no published figure found: slowest speed, feel the cut",
            source="no published figure found",
            changes="your own proven value, in the shop file under house: proven:",
        )
    speed = choice.speed * share
    wanted = speeds.spindle_speed(speed, diameter)
    lowest, ruled = min([(wanted, OWN if choice.own else "cutting speed"), *limits])
    chosen = at_or_below(machine, lowest)
    if chosen.too_fast:
        ruled = "slowest speed of the machine is faster than wanted"
    elif chosen.ruled_by.startswith("fastest"):
        ruled = chosen.ruled_by
    return Figure(
        id="speed",
        name="spindle speed",
        value=chosen.rpm,
        unit="rev/min",
        formula="n = 1000 v / (π d)",
        inputs=(
            Input(name="v", value=speed, unit="m/min"),
            *inputs,
            *choice.inputs,
            *extra,
            Input(name="position", value=chosen.position),
        ),
        wanted=lowest,
        ruled_by=ruled,
        source=choice.source,
        spread=choice.spread,
        changes="carbide for HSS, another diameter, or a proven speed of your own",
    )


def feed(
    job: JobView,
    operation: str,
    cutter: Cutter,
    dial: Dial,
    speed: Figure | None = None,
    *,
    depth: float = 0.0,
    machine: Lathe | Mill | None = None,
) -> Figure:
    """Feed per turn: a power feed at or below the book's, or by hand no faster than a hand keeps up with.

    Args:
        job: part and shop.
        operation: as the cutting tables name it.
        cutter: its diameter decides the feed of a drill.
        dial: handwheel that feeds; only the carriage has power feed.
        speed: of the spindle, where it turns under power.
        depth: of a drilled hole, mm.
        machine: whose motor turns it; None: the lathe.
    """
    choice = feed_choice(job.material, job.shop, operation, cutter.diameter or job.part.rod.nominal, depth)
    book = BY_FEEL if choice.source == NOT_FOUND else "book value"
    wanted, ruled = choice.feed, OWN if choice.own else book
    most = _feed_for_motor(job, operation, cutter, wanted, speed, machine or job.lathe)
    if most < wanted:
        wanted, ruled = most, "power of the motor"
    powered = job.lathe.power_feeds if dial.axis == job.lathe.carriage.axis else ()
    slower = [f for f in powered if f <= wanted + 1e-9]
    value, way = wanted, "hand"
    if slower:
        value, ruled, way = max(slower), "power feeds of the lathe", "power"
    elif speed is not None and speed.value > 0.0:
        by_hand = dial.per_turn / (dial.pace * speed.value / 60.0)
        if by_hand < wanted:
            wanted = value = by_hand
            ruled = f"pace of the hand on the {dial.axis}"
    return Figure(
        id="feed",
        name="feed",
        value=value,
        unit="mm/rev",
        formula="power feed at or below the wanted one"
        if slower
        else "by hand, at the pace that makes this feed",
        inputs=(
            Input(name="f, to start from", value=choice.feed, unit="mm/rev"),
            *choice.inputs,
            Input(name="by", value=way),
            Input(name="quickest turn of the handwheel", value=dial.pace, unit="s"),
        ),
        wanted=wanted,
        ruled_by=ruled,
        source=choice.source,
        spread=choice.spread,
        changes="a finer feed for finish, a coarser one only if the chip stays quiet",
    )


def _feed_for_motor(
    job: JobView, operation: str, cutter: Cutter, wanted: float, speed: Figure | None, machine: Lathe | Mill
) -> float:
    """Feed up to `wanted` at which the motor drives a drill or a blade; turning is held by its depth."""
    if speed is None or speed.value <= 0.0:
        return wanted
    if operation == "drill":
        return drill_force.feed_for_motor(job.material, cutter, wanted, speed.value, machine)
    if operation in rigidity.BLADES and cutter.width > 0.0:
        return rigidity.feed_for_blade(job, operation, cutter, wanted, speed)
    return wanted


def depth(
    job: JobView,
    setup: Setup,
    diameter: float,
    operation: str,
    *,
    at: float | None = None,
    segment: str = "",
    tool: str = "HSS",
    bar: float = 0.0,
) -> Figure:
    """Deepest roughing cut on the radius: rigidity, deflection and power, whichever comes first.

    Args:
        job: part and shop.
        setup: how far the work stands out.
        diameter: before the cut, mm.
        operation: "face", "turn rough" or "bore".
        at: distance of the cut from the jaws, or of the edge of a boring bar from its holder, mm; the whole
            stick-out where it is not told.
        segment: being roughed; the work nearer to the jaws is thicker.
        tool: "HSS" or "carbide".
        bar: diameter of the boring bar, mm.
    """
    kc11, mc, source = specific(job.material)
    per_turn = max(
        feed(job, "turn rough", Cutter(name="", group=""), job.lengthwise).value, rigidity.THINNEST
    )
    kc = force.specific_force(kc11, mc, per_turn)
    correction = rigidity.correction(operation, tool)
    unit = kc * per_turn * correction  # N for each mm of depth
    candidates = [
        (
            _rigid(job, operation) * overhang_share(job, setup, operation),
            "rigidity of the lathe (house rule)",
        ),
        (_power(job, operation, tool, unit, diameter), "power of the motor"),
    ]
    lever = setup.holding.stick_out if at is None else at
    if operation == "turn rough":
        gives = rigidity.gives_roughing(job, setup, segment, diameter, at)
        if gives:
            candidates.append((_bends(unit, gives), BENDING))
    elif operation == "bore" and bar > 0.0 and lever > 0.0:
        candidates.append((_bends(unit, rigidity.gives_bar(bar, lever)), "bending of the boring bar"))
    unknown = operation == "turn rough" and rigidity.stiffness_known(job.material) is None
    wanted, ruled = min(candidates)
    dial = job.lengthwise if operation == "face" else job.cross
    value = max(down(dial, wanted), dial.step)
    return Figure(
        id="depth_of_cut",
        name="deepest roughing cut, on the radius",
        value=value,
        unit="mm",
        formula="least of: rigidity share; 60 P E / (v f kc K); e / (c f kc K), c = mm a newton bends",
        inputs=(
            Input(name="kc1.1", value=kc11, unit="N/mm²"),
            Input(name="f", value=per_turn, unit="mm/rev"),
            Input(name="K, wear and tool", value=correction),
            Input(name="L", value=lever, unit="mm"),
            Input(name="d", value=diameter, unit="mm"),
            Input(name="e, bending allowed on the diameter", value=ROUGH_ERROR, unit="mm"),
            *(Input(name=name, value=v, unit="mm") for v, name in candidates),
            *((Input(name=BENDING, value=NOT_FOUND),) if unknown else ()),
        ),
        wanted=wanted,
        ruled_by=ruled,
        source=source,
        changes="less stick-out, the live centre, a smaller feed",
    )


def _rigid(job: JobView, operation: str) -> float:
    share = SOFT_SHARE if job.material.family in SOFT else 1.0
    return job.house.most_depth * job.lathe.rigidity * share * (0.5 if operation == "bore" else 1.0)


def _power(job: JobView, operation: str, tool: str, unit: float, diameter: float) -> float:
    """Depth that the motor takes at the speed that is run; never slower than the slowest that there is."""
    choice = speed_choice(job.material, job.shop, operation, tool, diameter, 0.0)
    slowest = at_or_below(job.lathe, 1e-3).rpm * pi * diameter / 1000.0
    # The force already counts the wear, so the motor's own formula is asked for a sharp tool.
    speed = max(choice.speed or 0.0, slowest)
    return force.depth_for_motor(job.lathe.power, job.lathe.efficiency, speed, 1.0, unit, wear=1.0)


def _bends(unit: float, gives: float) -> float:
    """Depth at which the radial force bends work or bar by half the roughing error, mm."""
    return (ROUGH_ERROR / 2.0) / (gives * force.passive_force(unit))
