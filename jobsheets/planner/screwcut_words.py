"""What a sheet says of a screwcut thread in words: the train, the thread dial, how the passes are run."""

from jobsheets.finding import mm
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Gearing
from jobsheets.planner.screwcut_values import Infeed, Screwcut


def order_of(gearing: Gearing) -> str:
    """The train in words, from the stud to the leadscrew."""
    first = f"{gearing.gears[0]} on the stud"
    last = f"{gearing.gears[-1]} on the leadscrew"
    if len(gearing.gears) == 2:
        return f"{first}, {gearing.idler} between, {last}"
    return f"{first} drives {gearing.gears[1]}; beside it {gearing.gears[2]} drives {last}"


def dial_line(gearing: Gearing, marks: int | None) -> str:
    """What the thread dial says, in one line."""
    if gearing.every == 0:
        return "Half-nuts: close them anywhere, the thread is met each time"
    if gearing.every is None or marks is None:
        return "Half-nuts: do not open them until the thread is done; wind out, stop, and reverse the spindle"
    if gearing.every == 1:
        return "Thread dial: close the half-nuts on any mark"
    kept = marks // gearing.every
    if kept == 1:
        return "Thread dial: close the half-nuts on the same mark every time"
    return (
        f"Thread dial: close the half-nuts on every {_nth(gearing.every)} mark, counted from the first used"
    )


def _nth(number: int) -> str:
    return {2: "second", 3: "third"}.get(number, f"{number}th")


def gear_hints(cut: Screwcut) -> tuple[str, ...]:
    gearing = cut.gearing
    tried = "" if gearing.measured else "; the banjo is not measured: see that they mesh and clear each other"
    way = "away from the chuck" if cut.spec.left else "toward the chuck"
    return (
        f"Isolate, open the cover. Gears: {order_of(gearing)}{tried}",
        "A strip of paper between the teeth sets their play; cover shut before the spindle turns",
        f"Spindle forward, half-nuts closed: the carriage runs {way}; if not, change the tumbler",
        "Blue the work, scratch one pass, stop, and hold the pitch gauge against it",
    )


def pass_hints(job: JobView, cut: Screwcut, *, by_hand: bool) -> tuple[str, ...]:
    screw = job.lathe.leadscrew
    ends = "starts in the groove" if cut.spec.left else "ends"
    stop = f"Every pass {ends} with the carriage {mm(cut.run_out.at)} from the face: mark it on the dial"
    swivelled = (
        f"Top slide {cut.swivel:g}° from the cross slide ({90.0 - cut.swivel:g}° on a scale that reads"
    )
    hints = {
        Infeed.COMPOUND: f"{swivelled} from the bed); tool square to the work by the thread gauge. "
        "Cross slide back to the touched reading for each pass, top slide to the next row",
        Infeed.STRAIGHT: "Tool square to the work by the thread gauge; the cross slide feeds in",
        Infeed.SIDE_SHIFT: "Top slide along the bed, tool square by the thread gauge; both dials each row",
    }
    return tuple(
        line
        for line in (
            "Motor isolated: turn the spindle by hand crank" if by_hand else "",
            hints[cut.infeed],
            stop,
            dial_line(cut.gearing, screw.dial_marks if screw is not None else None),
            "Wind the cross slide out where the pass ends; oil on every pass",
            _starts(cut),
            "Gears for feeding back, and the top slide along the bed, before the next power feed",
        )
        if line
    )


def _starts(cut: Screwcut) -> str:
    if cut.spec.starts == 1:
        return ""
    teeth = cut.gearing.index
    shifted = f"the top slide, along the bed, forward by {mm(cut.spec.thread.pitch)}"
    way = f"the gear on the stud turned on by {teeth} teeth, out of mesh" if teeth else shifted
    return f"{cut.spec.starts} starts: all rows for the first, then index by {way}, and all rows again"
