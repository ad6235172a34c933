"""Start list and "before you unclamp" list of each setup."""

from msgspec.structs import replace

from jobsheets.part.turned import End
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import HoldingKind, Motion, Operation, Place, Setup


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
            "Vice fixed to the table, jaws clean; card or copper between jaws and finished metal",
            "Drill chuck tight, key out, before the switch is touched",
            "Turn the spindle by hand: nothing touches",
        )
    held = {
        HoldingKind.CHUCK: "Jaws clean; grip, then pull the work: it does not move",
        HoldingKind.SOFT_JAWS: "Soft jaws bored to this diameter; grip lightly",
        HoldingKind.COLLET: "Collet and taper clean; draw it up firmly",
        HoldingKind.MANDREL: "Mandrel's thread and shoulder clean; run the part on by hand until it seats",
        HoldingKind.VICE: "Jaws clean",
        HoldingKind.HAND: "",
    }[setup.holding.kind]
    lines = [held]
    if setup.holding.shim:
        lines.append("Copper or card between the jaws and the finished surface")
    if setup.out is End.BACK or setup.holding.kind is HoldingKind.CHUCK:
        lines.append("Indicator on the work: write the runout down")
    if any(op.motion in (Motion.DRILL, Motion.TAP, Motion.SPOT) for op in operations):
        lines.append("Tailstock lined up with the spindle, quill out past its ejecting mark")
    lines += [
        "Chuck key out" if setup.holding.kind is not HoldingKind.COLLET else "Drawbar tight, its key out",
        "Turn the spindle one full turn by hand, tool at its nearest to the jaws",
    ]
    return tuple(lines)


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
        else "Burrs off every edge that will be gripped or laid on"
    )
    return tuple(dict.fromkeys(lines))
