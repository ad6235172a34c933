"""Start list and "before you unclamp" list of each setup."""

from msgspec.structs import replace

from jobsheets.finding import mm
from jobsheets.part.turned import End
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import HoldingKind, Motion, Operation, Place, Setup
from jobsheets.shop.machines import Lathe

MEASURED = "Measure the length before gripping and write it: ____"
FREED = (
    "A nut that tightened itself: hold the mandrel's body, warm the nut, tap a wrench with soft jaws "
    "(common practice)"
)
HELD = {
    HoldingKind.CHUCK: "Jaws clean; grip, then pull the work: it does not move",
    HoldingKind.SOFT_JAWS: "Soft jaws bored to this diameter; grip lightly",
    HoldingKind.COLLET: "Collet and taper clean; draw it up firmly",
}


def with_lists(
    job: JobView, setups: tuple[Setup, ...], operations: tuple[Operation, ...]
) -> tuple[Setup, ...]:
    """Setups with letters, start lists, and what cannot be reached once the work is out."""
    result = []
    for k, setup in enumerate(setups):
        mine = tuple(op for op in operations if op.setup == setup.id)
        result.append(
            replace(
                setup,
                letter=chr(ord("A") + k),
                start=_start(job, setup, mine),
                before_unclamp=_before(job, setup, mine, k == len(setups) - 1),
            )
        )
    return tuple(result)


def _start(job: JobView, setup: Setup, operations: tuple[Operation, ...]) -> tuple[str, ...]:
    if setup.place is Place.BENCH:
        return ("Good light, a glass, a clean cloth under the part",)
    if setup.place is Place.MILL:
        return (
            *_outside_jaws(job, setup),
            "Vice fixed to the table, jaws clean; card or copper between jaws and finished metal",
            "Drill chuck tight, key out, before the switch is touched",
            "Turn the spindle by hand: nothing touches",
        )
    lines = [*_gripped(setup)]
    if setup.holding.shim:
        lines.append("Copper or card between the jaws and the finished surface")
    if _runout_read(setup) and setup.holding.kind is not HoldingKind.MANDREL:
        lines.append("Indicator on the work: write the runout down")
    if any(op.motion in (Motion.DRILL, Motion.TAP, Motion.SPOT) for op in operations):
        lines.append("Tailstock lined up with the spindle, quill out past its ejecting mark")
    if by_top_slide(job.lathe, operations):
        lines.append(
            "Top slide parallel to the bed, proved with the indicator; carriage locked while it cuts"
        )
    near = "collet" if setup.holding.in_collet else "jaws"
    return (
        *lines,
        "Drawbar tight, its key out" if setup.holding.in_collet else "Chuck key out",
        f"Turn the spindle by hand, tool near the {near}",
        *((FREED,) if setup.holding.kind is HoldingKind.MANDREL else ()),
    )


def _outside_jaws(job: JobView, setup: Setup) -> tuple[str, ...]:
    """Jaws wider than the grip come to it only where larger diameters stand outside of them."""
    held = setup.holding.diameter
    larger = [s.id for s in job.part.segments if job.targets.diameter(s.id) > held + 1e-6]
    if not larger:
        return ()
    verb = "stands" if len(larger) == 1 else "stand"
    return (f"Grip at the end of the jaws: the {' and the '.join(larger)} {verb} outside of them",)


def by_indicator(setup: Setup, operations: tuple[Operation, ...], lathe: Lathe) -> bool:
    """Whether the start list asks for a dial indicator."""
    return setup.place is Place.LATHE and (_runout_read(setup) or by_top_slide(lathe, operations))


def _runout_read(setup: Setup) -> bool:
    """A piece gripped anew, and a bar in a chuck, run out; a bar in a collet does not enough to be read."""
    return setup.out is End.BACK or setup.holding.kind is HoldingKind.CHUCK


def by_top_slide(lathe: Lathe, operations: tuple[Operation, ...]) -> bool:
    """Whether lengths are cut with the top slide, which then must move along the bed."""
    slide = lathe.top_slide
    threads = (Motion.SCRATCH, Motion.SCREWCUT)
    return slide is not None and any(
        op.z_dial == slide.axis and op.motion not in threads for op in operations
    )


def _gripped(setup: Setup) -> tuple[str, ...]:
    """How the work is put in, told by what holds it."""
    held = setup.holding
    first = (MEASURED,) if setup.out is End.BACK else ()
    if held.kind is not HoldingKind.MANDREL:
        return (*first, HELD[held.kind])
    return (
        *first,
        f"Stud no longer than {mm(held.most_stud)} ({mm(held.stud)} in the shop file), or it jams before the "
        "nut seats",
        "Thread and shoulder clean; dial the shoulder true, or face it lightly; write the runout down",
        "Run the part on by hand until it seats",
    )


def _before(job: JobView, setup: Setup, operations: tuple[Operation, ...], last: bool) -> tuple[str, ...]:
    """Sizes to read while they can still be corrected; in the last setup, the whole part."""
    lines = [f"{hold.what}: read and written" for op in operations for hold in op.holds]
    if (
        setup.out is End.FRONT
        and setup.place is Place.LATHE
        and any(op.motion is Motion.PART_OFF for op in operations)
    ):
        lines.append("Everything that must run true together is cut: it never runs as true again")
    if any(op.motion in (Motion.TAP, Motion.DRILL) for op in operations):
        lines.append("Chips out of every hole")
    lines.append(
        "Part complete: clean it, oil it, measure it against the inspection record"
        if last
        else "Burrs off every edge to be gripped"
    )
    return tuple(dict.fromkeys(lines))
