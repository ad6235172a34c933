"""Every check speaks when it should, keeps silent on a shipped part, and is explained in docs/checks.md."""

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from msgspec.structs import replace

from jobsheets import job
from jobsheets.figure import Figure
from jobsheets.finding import Finding, Severity
from jobsheets.part.turned import SegmentKind, TurnedPart
from jobsheets.planner import thread_choice
from jobsheets.planner.checks import material, screwcutting, speed
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Motion, Operation, Plan
from jobsheets.planner.targets import settle
from jobsheets.shop.shop import Shop
from jobsheets.standards import materials

ROOT = Path(__file__).parents[2]
STOP, CAUTION, NOTE = Severity.STOP, Severity.CAUTION, Severity.NOTE
Told = tuple[Finding, ...]

TRIAL = """\
recipe: 1
name: trial
title: Trial
kind: turned
units: mm
material: brass-360
stock: { round: BAR }
features:
FEATURES
limits: { default: ISO 2768-m }
"""
BODY = "id: body, turn: 10 mm, length: 12 mm"
STUD = ("id: stud, die: M5x0.8, length: 8 mm, class: 6g", "id: head, turn: 10 mm, length: 15 mm")


def shop(system: str = "in") -> Shop:
    return job.load_shop(None, system)


def lathe(system: str = "in", **changes: object) -> Shop:
    own = shop(system)
    return replace(own, lathe=replace(own.lathe, **changes))


def house(system: str = "in", **changes: object) -> Shop:
    own = shop(system)
    return replace(own, house=replace(own.house, **changes))


def tools(system: str = "in", **changes: object) -> Shop:
    own = shop(system)
    return replace(own, tooling=replace(own.tooling, **changes))


def cross(system: str = "in", **changes: object) -> Shop:
    return lathe(system, cross=replace(shop(system).lathe.cross, **changes))


def screw(system: str = "in", **changes: object) -> Shop:
    return lathe(system, leadscrew=replace(shop(system).lathe.leadscrew, **changes))


def one_speed(rpm: float) -> Shop:
    return lathe(speeds=(replace(shop().lathe.speeds[0], rpm=rpm),))


def told(part: str | TurnedPart, own: Shop | None = None, material: str = "") -> Told:
    """Findings of a part, a shipped one by name, in a shop; None: the demo shop of its units."""
    one = job.load_part(part) if isinstance(part, str) else part
    one = replace(one, material=material) if material else one
    return job.work_out(one, own if own is not None else shop(one.system)).findings


def trial(folder: Path, *features: str, bar: str = "12 mm", own: Shop | None = None) -> Told:
    """Findings of a part written for one test."""
    lines = "\n".join(f"  - {{ {feature} }}" for feature in features)
    file = folder / "trial.yaml"
    file.write_text(TRIAL.replace("BAR", bar).replace("FEATURES", lines), encoding="utf-8")
    return told(job.load_part(str(file)), own)


def without_groove(name: str) -> TurnedPart:
    part = job.load_part(name)
    return replace(part, segments=tuple(s for s in part.segments if s.kind is not SegmentKind.GROOVE))


def slim(system: str) -> Shop:
    """A threading tool that stands near to a shoulder."""
    own = shop(system).tooling.lathe_tools
    return tools(system, lathe_tools=tuple(replace(t, side=0.5) if t.angle == 60.0 else t for t in own))


@cache
def planned(recipe: str) -> Plan:
    part = job.load_part(recipe)
    plan = job.work_out(part, shop(part.system)).plan
    assert plan is not None
    return plan


def view(part: TurnedPart, own: Shop) -> JobView:
    """What a check looks at, for plans that the planner itself does not make."""
    targets = settle(part, own.lathe, own.house, {}, 2.0, frozenset())
    made = JobView(part=part, shop=own, material=materials.find(part.material), targets=targets)
    return replace(made, threads=thread_choice.choices(made))


def broken(recipe: str, motion: Motion, figure: str, value: float) -> tuple[JobView, Plan]:
    """A shipped plan with one figure of its operations of one motion set to another value."""

    def other(f: Figure) -> Figure:
        return replace(f, value=value) if f.id.endswith(f".{figure}") else f

    def changed(op: Operation) -> Operation:
        mine = op.motion is motion
        return replace(op, figures=tuple(other(f) for f in op.figures)) if mine else op

    plan = planned(recipe)
    wrong = replace(plan, operations=tuple(changed(op) for op in plan.operations))
    assert wrong != plan
    return view(plan.part, plan.shop), wrong


def lead_far_off() -> Told:
    """A thread so long that the small error of its train eats more than its limits."""
    own = view(job.load_part("screwcut-end-stud-metric"), shop("in"))
    ((name, choice),) = own.threads.items()
    assert choice.single is not None
    long = replace(choice.single.gearing, engaged=10000.0)
    wrong = replace(own, threads={name: replace(choice, single=replace(choice.single, gearing=long))})
    return screwcutting.pitch_error(wrong, planned("screwcut-end-stud-metric"))


Make = Callable[[Path], Told]

SPEAKS: tuple[tuple[str, Severity, Make], ...] = (
    ("banjo-unknown", NOTE, lambda _: told("screwcut-end-stud-metric", screw("mm", banjo=None))),
    ("bar-behind", CAUTION, lambda _: told("plain-end-nut")),
    ("bends", CAUTION, lambda _: told("threaded-mandrel", house(bend_share=0.01))),
    ("between-lines", CAUTION, lambda _: told("stepped-end-nut", cross(divisions=25.0))),
    ("cannot-hold", STOP, lambda _: told("plain-end-nut", lathe(chucks=(), collets=None))),
    ("cannot-hold", STOP, lambda _: told("knurled-end-nut", replace(shop(), mill=None))),
    ("cannot-screwcut", STOP, lambda _: told("screwcut-end-stud", lathe(leadscrew=None))),
    (
        "cannot-stop",
        STOP,
        lambda _: screwcutting.stop_in_time(
            *broken("screwcut-end-stud", Motion.SCREWCUT, "stopping_speed", 1.0)
        ),
    ),
    ("chart-wrong", CAUTION, lambda _: told("screwcut-end-stud-metric", shop("in"))),
    ("chatter", CAUTION, lambda _: told("screwcut-end-stud")),
    (
        "chatter",
        CAUTION,
        lambda at: trial(
            at, "id: body, turn: 22 mm, length: 36 mm", "id: a, bore: 10 mm, through: true", bar="24 mm"
        ),
    ),
    ("cross-hole-meets", NOTE, lambda _: told("knurled-end-nut")),
    (
        "cut-too-deep",
        STOP,
        lambda _: speed.power(*broken("stepped-end-nut", Motion.TURN, "depth_of_cut", 0.001)),
    ),
    ("dial-too-coarse", STOP, lambda _: told("stepped-end-nut", cross(divisions=5.0))),
    ("die-run-out", CAUTION, lambda at: trial(at, *STUD)),
    ("die-start", CAUTION, lambda at: trial(at, *STUD)),
    ("flutes-short", STOP, lambda _: told("knurled-end-nut", short_drills())),
    ("forbidden-step", CAUTION, lambda _: told("plain-end-nut", material="titanium-6al-4v")),
    ("gauge-coarse", CAUTION, lambda _: told("stepped-end-nut", house(gauge_ratio=100.0))),
    (
        "hole-no-floor",
        STOP,
        lambda at: trial(
            at,
            BODY,
            "id: a, drill: 8 mm, depth: 3 mm, bottom: blind",
            "id: b, counterbore: 6 mm, depth: 5.2 mm",
        ),
    ),
    (
        "hole-no-step",
        STOP,
        lambda at: trial(
            at, BODY, "id: a, drill: 5 mm, through: true", "id: b, drill: 5.05 mm, depth: 5 mm, bottom: blind"
        ),
    ),
    (
        "hole-swallowed",
        STOP,
        lambda at: trial(
            at, BODY, "id: a, drill: 5 mm, through: true", "id: b, drill: 3 mm, depth: 4 mm, bottom: blind"
        ),
    ),
    (
        "hole-too-deep",
        STOP,
        lambda at: trial(at, "id: body, turn: 10 mm, length: 50 mm", "id: a, drill: 1 mm, through: true"),
    ),
    ("knurl-tracks", CAUTION, lambda _: told("knurled-end-nut-metric")),
    ("lead-error", NOTE, lambda _: told("screwcut-end-stud-metric", shop("in"))),
    (
        "lead-error",
        CAUTION,
        lambda _: told("screwcut-end-stud-metric", screw("mm", gears=(30, 101, 151), banjo=None)),
    ),
    ("lead-error", STOP, lambda _: lead_far_off()),
    ("live-centre", NOTE, lambda _: told("plain-end-nut", house(free_stick_out=1.0))),
    ("material-hazard", CAUTION, lambda _: told("plain-end-nut")),
    ("motor-too-weak", STOP, lambda _: told("plain-end-nut", lathe(power=5.0))),
    ("motor-too-weak", STOP, lambda _: told("knurled-end-nut", weak_mill())),
    ("no-figure", CAUTION, lambda _: told("plain-end-nut", material="horn")),
    ("no-percent", CAUTION, lambda _: told("plain-end-nut", material="horn")),
    ("no-room", STOP, lambda _: told("plain-end-nut", lathe(room=100.0))),
    ("no-run-out", CAUTION, lambda _: told(without_groove("screwcut-end-stud-metric"), slim("mm"))),
    ("quill-short", CAUTION, lambda _: told("plain-end-nut", short_quill())),
    ("regrip-runout", CAUTION, lambda _: told("capped-nut-body")),
    ("saw-first", NOTE, lambda _: told("plain-end-nut", lathe(spindle_bore=5.0))),
    ("short-grip", CAUTION, lambda _: told("ferrule-ring")),
    ("short-thread", CAUTION, lambda _: told("plain-end-nut", house(engagement=5.0))),
    ("stick-out", CAUTION, lambda _: told("threaded-mandrel")),
    (
        "stick-out",
        STOP,
        lambda _: told("plain-end-nut", house(free_stick_out=1.0, most_stick_out=1.5)),
    ),
    ("stock-short", NOTE, lambda _: told("plain-end-nut", replace(shop(), stock=()))),
    ("thin-chip", CAUTION, lambda _: told("plain-end-nut", house(least_chip=0.2))),
    ("thin-floor", CAUTION, lambda _: told("domed-end-nut", house(wall=8.0))),
    ("thin-floor", STOP, lambda at: trial(at, BODY, "id: a, bore: 7 mm, depth: 11.8 mm, bottom: flat")),
    ("thin-wall", CAUTION, lambda _: told("plain-end-nut", house(thread_wall=3.0))),
    (
        "thin-wall",
        STOP,
        lambda at: trial(at, "id: body, turn: 6 mm, length: 12 mm", "id: a, drill: 5.6 mm, through: true"),
    ),
    ("thin-wall", CAUTION, lambda _: told("knurled-end-nut", house(wall=3.0))),
    ("thread-percent", CAUTION, lambda _: told("stepped-end-nut")),
    ("too-fast", CAUTION, lambda _: told("plain-end-nut", one_speed(1300.0))),
    ("too-fast", STOP, lambda _: told("stepped-end-nut", one_speed(600.0))),
    ("tool-missing", STOP, lambda _: told("plain-end-nut", tools(taps=()))),
    ("tool-missing", CAUTION, lambda _: told("plain-end-nut", tools(countersinks=()))),
    ("tool-stands-in", NOTE, lambda _: told("stepped-end-nut")),
    ("turned-by-hand", NOTE, lambda _: told("screwcut-end-stud-metric", house("mm", reaction_time=5.0))),
    ("twist-off", CAUTION, lambda _: told("threaded-mandrel")),
)

# A shipped part that has what the check looks at, in the demo shop of its own units.
SILENT = {
    "banjo-unknown": "screwcut-end-stud",
    "bends": "threaded-mandrel",
    "between-lines": "stepped-end-nut",
    "cannot-hold": "knurled-end-nut",
    "cannot-screwcut": "screwcut-end-stud",
    "cannot-stop": "screwcut-end-stud",
    "chart-wrong": "screwcut-end-stud",
    "chatter": "ferrule-ring",
    "cross-hole-meets": "stepped-end-nut-metric",
    "cut-too-deep": "stepped-end-nut",
    "dial-too-coarse": "stepped-end-nut",
    "die-run-out": "threaded-mandrel",
    "die-start": "threaded-mandrel",
    "flutes-short": "knurled-end-nut",
    "forbidden-step": "plain-end-nut",
    "gauge-coarse": "stepped-end-nut",
    "hole-no-floor": "capped-nut-body",
    "hole-no-step": "capped-nut-body",
    "hole-swallowed": "capped-nut-body",
    "hole-too-deep": "spacer-bushing",
    "knurl-tracks": "knurled-end-nut",
    "lead-error": "screwcut-end-stud",
    "live-centre": "plain-end-nut",
    "motor-too-weak": "knurled-end-nut",
    "no-figure": "plain-end-nut",
    "no-percent": "plain-end-nut",
    "no-room": "plain-end-nut",
    "no-run-out": "screwcut-end-stud",
    "quill-short": "plain-end-nut",
    "regrip-runout": "domed-end-nut",
    "saw-first": "plain-end-nut",
    "short-grip": "domed-end-nut",
    "short-thread": "plain-end-nut",
    "stick-out": "plain-end-nut",
    "stock-short": "plain-end-nut",
    "thin-chip": "plain-end-nut",
    "thin-floor": "domed-end-nut",
    "thin-wall": "knurled-end-nut",
    "thread-percent": "plain-end-nut",
    "too-fast": "stepped-end-nut",
    "tool-missing": "knurled-end-nut",
    "tool-stands-in": "plain-end-nut",
    "turned-by-hand": "screwcut-end-stud-metric",
    "twist-off": "screwcut-end-stud",
}
ALWAYS = {"bar-behind", "material-hazard"}  # of every shipped part; silenced by tests of their own


def short_drills() -> Shop:
    return tools(drills=tuple(replace(d, flute=8.0) for d in shop().tooling.drills))


def short_quill() -> Shop:
    quill = shop().lathe.quill
    return lathe(quill=replace(quill, dial=replace(quill.dial, travel=20.0)))


def weak_mill() -> Shop:
    mill = shop().mill
    assert mill is not None
    return replace(shop(), mill=replace(mill, power=1.0))


def in_the_code() -> set[str]:
    """Every finding code that the planner writes."""
    found: set[str] = set()
    for file in (ROOT / "jobsheets" / "planner").rglob("*.py"):
        for written in re.findall(r"\bcode=(.*)", file.read_text(encoding="utf-8")):
            names = re.findall(r'"([a-z-]+)"', written)
            assert names, f"{file.name}: no code can be read from {written!r}"
            found.update(names)
    return found


def documented() -> dict[str, set[str]]:
    """Codes of the table with their severities, in the order of the page."""
    text = (ROOT / "docs" / "checks.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `([a-z-]+)` \| ([a-z, ]+) \| (.*) \|$", text, re.MULTILINE)
    assert all(len([c for c in rest.split(" | ") if c.strip()]) == 4 for _, _, rest in rows)
    assert len({code for code, _, _ in rows}) == len(rows), "a code has two rows"
    return {code: set(severity.split(", ")) for code, severity, _ in rows}


def test_every_code_is_documented_and_every_documented_code_exists():
    assert set(documented()) == in_the_code()


def test_the_table_is_sorted_by_code():
    assert list(documented()) == sorted(documented())


def test_every_code_and_each_of_its_severities_has_a_case():
    spoken: dict[str, set[str]] = {}
    for code, severity, _ in SPEAKS:
        spoken.setdefault(code, set()).add(str(severity))
    assert spoken == documented()
    assert set(SILENT) | ALWAYS == in_the_code()


@pytest.mark.parametrize(("code", "severity", "make"), SPEAKS, ids=[f"{c}-{s}" for c, s, _ in SPEAKS])
def test_a_check_speaks_and_names_a_cure(code, severity, make, tmp_path):
    mine = [f for f in make(tmp_path) if f.code == code and f.severity is severity]
    assert mine
    assert all(f.where and f.what and f.why and f.remedy for f in mine)


@pytest.mark.parametrize(("code", "recipe"), SILENT.items())
def test_a_check_keeps_silent(code, recipe):
    assert code not in {f.code for f in planned(recipe).findings}


def test_a_bar_that_is_sawn_has_no_end_behind_the_headstock():
    found = {f.code for f in told("plain-end-nut", lathe(spindle_bore=5.0))}
    assert "saw-first" in found
    assert "bar-behind" not in found


def test_a_material_without_hazards_has_none_told():
    plan = planned("plain-end-nut")
    own = view(plan.part, plan.shop)
    assert material.hazards(own, plan)
    assert material.hazards(replace(own, material=own.material.replaced(hazards=())), plan) == ()


@pytest.mark.parametrize(
    "depth", ["10 mm", "11 mm"]
)  # the point ends 0.45 mm before the back, 0.55 mm past it
def test_a_drilled_hole_leaves_a_floor(depth, tmp_path):
    found = trial(tmp_path, BODY, f"id: a, drill: 5 mm, depth: {depth}, bottom: blind")
    assert "thin-floor" in {f.code for f in found}
