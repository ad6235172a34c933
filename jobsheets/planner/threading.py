"""Threads by tap and die, the spindle turned by hand, and running a tap through again."""

from math import ceil

from msgspec import Struct

from jobsheets.cutting.drill import blind_depth
from jobsheets.part.size import Size
from jobsheets.part.turned import Bottom, End, Hole, Segment, SegmentKind
from jobsheets.planner import drill_force, figures, toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Cutter, HoldPoint, Motion, Need, Operation, Place, Row, RowKind, Setup
from jobsheets.shop.owned import TapSet

QUARTER = 0.25  # a hand sets a quarter of a turn


class Depths(Struct, frozen=True, kw_only=True):
    """Depths of a tapped hole from its mouth, mm."""

    begin: float  # floor of a larger hole that opens on it; 0 where it opens on the face
    full_thread: float  # depth to which the last tap cuts full thread
    drill: float  # full diameter of the drilled hole
    lead: float  # incomplete thread of the last tap


def depths(job: JobView, setup: Setup, hole: Hole, taps: TapSet) -> Depths:
    """Full thread, then the lead of the last tap, then a margin of clear hole."""
    assert hole.thread is not None
    pitch = hole.thread.thread.pitch
    lead_threads = taps.lead_threads
    if hole.depth is None or hole.bottom is Bottom.THROUGH:
        length = job.targets.parted if setup.out is End.FRONT else job.targets.length
        full = length + pitch
    else:
        full = hole.depth.aim
    begin = job.part.opened_at(hole)
    turns = up_to_quarter((full - begin + lead_threads * pitch) / pitch)
    full = begin + turns * pitch - lead_threads * pitch
    return Depths(
        begin=begin,
        full_thread=full,
        drill=blind_depth(full, lead_threads, pitch, job.house.tap_margin),
        lead=lead_threads * pitch,
    )


def up_to_quarter(turns: float) -> float:
    return ceil(turns / QUARTER - 1e-9) * QUARTER


def tap(
    job: JobView, setup: Setup, hole: Hole, taps: TapSet, ready: tuple[Need, ...]
) -> tuple[Operation, ...]:
    """One operation for each tap of the set, in order."""
    assert hole.thread is not None
    pitch = hole.thread.thread.pitch
    deep = depths(job, setup, hole, taps)
    through = hole.depth is None or hole.bottom is Bottom.THROUGH
    operations = []
    cutters = [toolbox.tap(one, hole.thread, taps) for one in taps.taps] or [
        toolbox.tap_to_get(hole.thread, taps)
    ]
    for k, cutter in enumerate(cutters):
        last = k == len(cutters) - 1
        lead = cutter.lead
        most = deep.drill - deep.begin - job.house.tap_margin * pitch
        turns = (
            up_to_quarter((deep.full_thread - deep.begin + lead) / pitch)
            if through or last
            else int(most / pitch / QUARTER) * QUARTER
        )
        fact = f"{hole.id} threaded" if last else f"{hole.id} tapped {k + 1}"
        before = (
            ()
            if k == 0
            else (Need(fact=f"{hole.id} tapped {k}", because="the taps follow each other by lead"),)
        )
        operations.append(
            Operation(
                id=f"{hole.id}.tap" if last else f"{hole.id}.tap{k + 1}",
                setup=setup.id,
                place=Place.LATHE,
                motion=Motion.TAP,
                feature=hole.id,
                title=f"Tap {hole.thread.text}, {cutter.name}",
                cutter=cutter,
                end=hole.end,
                rows=(Row(kind=RowKind.TURNS, turns=turns, at=turns * pitch, box=last),),
                figures=(
                    figures.tap_turns(hole, turns * pitch - lead, turns, cutter),
                    figures.reversal(job.material, hole),
                    drill_force.tap_torque(job.material, pitch, hole.thread.thread.major),
                ),
                holds=(_fits(hole, "inside"),) if last else (),
                needs=(*ready, *before),
                makes=(fact,),
                rank=26 + k,
                why="threaded in the same setting as the turning, so that the thread is square to the seat",
                hints=_tap_hints(through, figures.reversal(job.material, hole).value),
                hazards=("hand tapping",),
                cutting_minutes=turns * 0.08,
                handling_minutes=3.0,
            )
        )
    return tuple(operations)


def _tap_hints(through: bool, bite: float) -> tuple[str, ...]:
    """Working notes for a tap turned by hand; `bite` is how many turns to go in before the chip is broken."""
    clear = (
        ""
        if through
        else " Withdraw and clear the hole when it tightens, and once more before the last two turns"
    )
    forward = "One turn" if bite >= 1.0 else "Half a turn"
    return (
        "Motor isolated; turn the chuck by hand, the tap guided by the tailstock, which slides along",
        f"{forward} in, half a turn back to break the chip, oil on the tap.{clear}",
        "Count the turns from the first bite",
    )


def _fits(feature: Hole | Segment, where: str) -> HoldPoint:
    assert feature.thread is not None
    mate = "mating screw or go gauge" if where == "inside" else "mating nut or go ring"
    return HoldPoint(
        id=f"{feature.id}.thread",
        what=f"{feature.thread.text} tried with its mate",
        low=0.0,
        high=0.0,
        aim=0.0,
        gauge=mate,
        unit="fit",
        if_over="loose: stop; note it, and try the mate it must hold",
        if_under="tight: run the tap through again with oil"
        if where == "inside"
        else "tight: close the die a little and cut again",
    )


def die(job: JobView, setup: Setup, segment: Segment, blank: Size, ready: tuple[Need, ...]) -> Operation:
    """Cut an external thread with a die held square by the tailstock."""
    assert segment.thread is not None
    pitch = segment.thread.thread.pitch
    pick = toolbox.die(job, segment.thread)
    length, room = _die_room(job, setup, segment)
    turns = int(min(length + pick.lead, room) / pitch / QUARTER + 1e-9) * QUARTER
    return Operation(
        id=f"{segment.id}.die",
        setup=setup.id,
        place=Place.LATHE,
        motion=Motion.DIE,
        feature=segment.id,
        title=f"Thread {segment.thread.text} by die",
        cutter=pick,
        end=setup.out,
        rows=(Row(kind=RowKind.TURNS, turns=turns, at=turns * pitch, box=True),),
        figures=(
            figures.die_turns(segment, turns, length, pick.lead, room),
            figures.blank(segment, blank),
            drill_force.tap_torque(job.material, pitch, segment.thread.thread.major),
        ),
        holds=(_fits(segment, "outside"),),
        needs=(
            Need(fact=f"{segment.id} finished", because="a die will not take oversize stock without tearing"),
            *ready,
        ),
        makes=(f"{segment.id} threaded",),
        rank=70,
        why="the tailstock starts the die square; a tilted die cuts a drunken thread",
        hints=(
            "Motor isolated; turn the chuck by hand, the die pushed square by the tailstock",
            "First cut with the die opened, then close it and cut again until the mate runs on",
            "Half a turn back for each turn, plenty of oil",
            "Stop when the die's face meets the shoulder: do not force it",
        ),
        hazards=("die threading",),
        cutting_minutes=turns * 0.1,
        handling_minutes=4.0,
    )


def _die_room(job: JobView, setup: Setup, segment: Segment) -> tuple[float, float]:
    """Length to thread, and how far the die's face can go: over a relief groove, up to the shoulder, mm."""
    segments = job.part.segments
    step = 1 if setup.out is End.FRONT else -1
    index = segments.index(segment)
    front, back = job.targets.span(job.part, segment.id)
    room = back - front
    while 0 <= index + step < len(segments) and segments[index + step].kind is SegmentKind.GROOVE:
        index += step
        start, end = job.targets.span(job.part, segments[index].id)
        room += end - start
    free = not 0 <= index + step < len(segments)
    return back - front, room + (10.0 * segment.diameter.nominal if free else 0.0)


def chase(job: JobView, setup: Setup, hole: Hole, ready: tuple[Need, ...]) -> Operation:
    """Run the last tap through a finished thread by hand, to lift the burr that a cross hole left."""
    assert hole.thread is not None
    taps = toolbox.tap_set(job, hole)
    screw = Cutter(name="mating screw with a flat filed along it", group="bench tool")
    if taps.taps:
        cutter = toolbox.tap(taps.taps[-1], hole.thread, taps)
    else:
        single = job.screwcut(hole.id) is not None
        cutter = screw if single else toolbox.tap_to_get(hole.thread, taps)
    return Operation(
        id=f"{hole.id}.chase",
        setup=setup.id,
        place=Place.BENCH,
        motion=Motion.CHASE,
        feature=hole.id,
        title=f"Run the {'tap' if cutter is not screw else 'screw'} through the {hole.id} again",
        cutter=cutter,
        end=hole.end,
        rows=(Row(kind=RowKind.TURNS, turns=None, box=True),),
        holds=(_fits(hole, "inside"),),
        needs=ready,
        makes=(f"{hole.id} clean",),
        rank=5,
        why="the cross hole throws a burr into the thread",
        hints=(
            "By hand, with oil; start it in its own thread",
            "Blow the chips out with the mouth of the hole down",
        ),
        hazards=("hand tapping",),
        cutting_minutes=1.0,
        handling_minutes=1.0,
    )
