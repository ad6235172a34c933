"""The spindle speed that a machine really has, at or below the one that is wanted. rev/min."""

from collections.abc import Iterator
from math import floor

from msgspec import Struct

from jobsheets.shop.machines import Lathe, Mill, SpeedRange, SpeedStep

HAIR = 1e-9  # share: a wanted speed a rounding below a step is that step


class Chosen(Struct, frozen=True, kw_only=True):
    """A speed of the machine, and why it is that one."""

    rpm: float
    position: str  # belt or lever
    ruled_by: str
    too_fast: bool = False  # the machine has no speed so slow: this is its slowest


def at_or_below(machine: Lathe | Mill, rpm: float) -> Chosen:
    """The fastest speed of the machine that is not above `rpm`; of two equal ones the slower range's.

    A speed is rounded down, never up. The slower range or belt turns with more force.

    Args:
        machine: lathe or mill.
        rpm: wanted speed, rev/min.

    Returns:
        The speed. With `too_fast` set it is the slowest of the machine and still above `rpm`: work by hand,
        or choose another way.

    Raises:
        ValueError: `rpm` is not above zero, or the machine has no speeds.
    """
    if not rpm > 0.0:
        raise ValueError(f"a spindle speed of {rpm:g} rev/min: want more than 0")
    if not machine.speeds and not machine.ranges:
        raise ValueError(f"{machine.name} has no speeds: want speeds or ranges in the shop file")
    room = rpm * (1.0 + HAIR)
    best: tuple[float, str] | None = None
    for speed, position in _offers(machine, room):
        if speed <= room and (best is None or speed > best[0]):
            best = speed, position
    if best is None:
        slowest = min(_slowest(machine))
        return Chosen(
            rpm=slowest[0], position=slowest[2], ruled_by="slowest speed of the machine", too_fast=True
        )
    if best[0] >= _fastest(machine) and rpm > best[0] * (1.0 + HAIR):
        ruled_by = "fastest speed of the machine"
    else:
        ruled_by = "wanted speed, rounded down to one that the machine has"
    return Chosen(rpm=best[0], position=best[1], ruled_by=ruled_by)


def _offers(machine: Lathe | Mill, rpm: float) -> Iterator[tuple[float, str]]:
    step: SpeedStep
    for step in machine.speeds:
        yield step.rpm, step.position
    for one in machine.ranges:
        yield in_range(one, rpm), one.position


def in_range(one: SpeedRange, rpm: float) -> float:
    """Speed of a stepless range nearest below `rpm` that its scale shows; the range's own end beyond it."""
    if rpm >= one.most:
        return one.most
    return max(one.least, floor(rpm / one.step) * one.step)


def _slowest(machine: Lathe | Mill) -> Iterator[tuple[float, int, str]]:
    for n, step in enumerate(machine.speeds):
        yield step.rpm, n, step.position
    for n, one in enumerate(machine.ranges):
        yield one.least, n, one.position


def _fastest(machine: Lathe | Mill) -> float:
    return max([s.rpm for s in machine.speeds] + [r.most for r in machine.ranges])
