"""No plan turns, faces, bores or grooves across a cross hole or a knurl: what breaks a cut comes after it."""

from collections.abc import Iterator
from functools import cache

import pytest
from msgspec.structs import replace

from jobsheets.part.profile import radius_at
from jobsheets.part.size import Size
from jobsheets.part.turned import CrossHole, Pin, SegmentKind, TurnedPart
from jobsheets.planner.operation import Motion, Plan
from jobsheets.planner.plan import plan
from jobsheets.planner.stop import Stopped
from tests.properties.planned import RECIPES, planned

ACROSS = 2.0  # mm; narrow enough for every segment that is turned
HAIR = 1e-6
# Asks for the other route: the cross hole while the bar is still its handle.
ON_THE_BAR = Pin(operation="crossing", before="part_off", why="the bar is its handle")
BROKEN = (Motion.CROSS_DRILL, Motion.KNURL)


def sized(nominal: float) -> Size:
    return Size(nominal=nominal, low=nominal - 0.3, high=nominal + 0.3, limits="test")


def crossed(part: TurnedPart) -> Iterator[TurnedPart]:
    """The part with a cross hole in the middle of each of its segments in turn."""
    for segment in part.segments:
        if segment.kind is SegmentKind.TURN and segment.length.nominal > 2.0 * ACROSS:
            begin, end = part.span(segment.id)
            hole = CrossHole(
                id="crossing", diameter=sized(ACROSS), at=sized((begin + end) / 2.0), segment=segment.id
            )
            yield replace(part, cross_holes=(hole,), knurls=())


@cache
def plans(recipe: str) -> tuple[Plan, ...]:
    done = planned(recipe)
    found = [done]
    for part in crossed(done.part):
        for pins in (part.pins, (*part.pins, ON_THE_BAR)):
            try:
                found.append(plan(replace(part, pins=pins), done.shop))
            except Stopped:
                continue
    return tuple(found)


def stretch(done: Plan, feature: str) -> tuple[float, float]:
    """Where along the axis a cross hole or a knurl breaks the surface."""
    for hole in done.part.cross_holes:
        if hole.id == feature:
            return hole.at.aim - hole.diameter.high / 2.0, hole.at.aim + hole.diameter.high / 2.0
    knurl = next(k for k in done.part.knurls if k.id == feature)
    begin, end = done.part.span(knurl.segment)
    segment = done.part.segment(knurl.segment)
    edges = [edge.size.high if edge is not None else 0.0 for edge in (segment.front, segment.back)]
    room = done.shop.lathe.carriage.step
    return begin + edges[0] + room, end - edges[1] - room


def cuts_across(done: Plan) -> list[str]:
    """Operations that take metal, outside or inside, from a stretch that is already broken."""
    broken: list[tuple[str, tuple[float, float]]] = []
    found = []
    for op, before, after in zip(done.operations, done.states, done.states[1:], strict=False):
        for feature, (begin, end) in broken:
            for z in (begin, (begin + end) / 2.0, end):
                inside = after.front <= z <= after.back
                if not inside or radius_at(after.outer, z) < radius_at(before.outer, z) - HAIR:
                    found.append(f"{op.id} across {feature}")
                elif radius_at(after.inner, z) > radius_at(before.inner, z) + HAIR:
                    found.append(f"{op.id} inside, across {feature}")
        if op.motion in BROKEN:
            broken.append((op.feature, stretch(done, op.feature)))
    return found


@pytest.mark.parametrize("recipe", RECIPES)
def test_no_cut_crosses_what_breaks_it(recipe):
    for done in plans(recipe):
        assert cuts_across(done) == []


def test_that_is_shown_on_plans_that_have_such_features():
    every = [done for recipe in RECIPES for done in plans(recipe)]
    made = [op.motion for done in every for op in done.operations]
    assert made.count(Motion.CROSS_DRILL) >= 30
    assert made.count(Motion.KNURL) >= 2
    assert sum("bar_again" in [setup.id for setup in done.setups] for done in every) >= 10


def test_a_cut_across_a_cross_hole_would_be_seen():
    """The order turned round: the cross hole first, then the turning that finishes its segment."""
    done = next(d for d in plans("stepped-end-nut") if d.part.cross_holes[0].segment == "neck")
    k = next(n for n, op in enumerate(done.operations) if op.id == "neck.finish")
    drill = next(op for op in done.operations if op.motion is Motion.CROSS_DRILL)
    early = replace(
        done,
        operations=(drill, *done.operations[k : k + 1]),
        states=(done.states[k], done.states[k], done.states[k + 1]),
    )
    assert "neck.finish across crossing" in cuts_across(early)
