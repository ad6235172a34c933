"""Functions that formulas may call: one table gives their kinds, their working and their line in the docs."""

from collections.abc import Callable
from math import floor

from msgspec import Struct

from jobsheets.recipe import lookups
from jobsheets.recipe.expression import Kind, Value
from jobsheets.standards.threads import Thread

MEASURES = (Kind.LENGTH, Kind.ANGLE, Kind.NUMBER)


class Function(Struct, frozen=True, kw_only=True):
    name: str
    form: str  # how it is written, for messages and docs
    help: str
    kind: Callable[[tuple[Kind, ...]], Kind | None]  # of the result; None where the arguments do not suit
    work: Callable[[tuple[Value, ...]], Value]


def _alike(kinds: tuple[Kind, ...], least: int, most: int) -> Kind | None:
    suits = least <= len(kinds) <= most and len(set(kinds)) == 1 and kinds[0] in MEASURES
    return kinds[0] if suits else None


def _choice(kinds: tuple[Kind, ...]) -> Kind | None:
    suits = len(kinds) == 3 and kinds[0] is Kind.FLAG and kinds[1] is kinds[2]
    return kinds[1] if suits else None


def _of_thread(kinds: tuple[Kind, ...]) -> Kind | None:
    return Kind.LENGTH if kinds == (Kind.THREAD,) else None


def real(value: Value) -> float:
    """A value whose kind was checked to be a measure."""
    assert isinstance(value, int | float)
    return float(value)


def _round_to(args: tuple[Value, ...]) -> Value:
    value, step = real(args[0]), real(args[1])
    if step <= 0.0:
        raise ValueError("round_to with a step of zero or less; want a step above zero, such as 0.5 mm")
    return floor(value / step + 0.5) * step


def _look_up(read: Callable[[Thread], float]) -> Callable[[tuple[Value, ...]], Value]:
    def work(args: tuple[Value, ...]) -> Value:
        assert isinstance(args[0], Thread)
        return read(args[0])

    return work


FUNCTIONS: tuple[Function, ...] = (
    Function(
        name="min",
        form="min(a, b, ...)",
        help="the smallest of two or more values of one kind",
        kind=lambda kinds: _alike(kinds, 2, 20),
        work=lambda args: min(map(real, args)),
    ),
    Function(
        name="max",
        form="max(a, b, ...)",
        help="the largest of two or more values of one kind",
        kind=lambda kinds: _alike(kinds, 2, 20),
        work=lambda args: max(map(real, args)),
    ),
    Function(
        name="round_to",
        form="round_to(value, step)",
        help="the multiple of the step that lies nearest; half a step goes up",
        kind=lambda kinds: _alike(kinds, 2, 2),
        work=_round_to,
    ),
    Function(
        name="abs",
        form="abs(value)",
        help="the value without its sign",
        kind=lambda kinds: _alike(kinds, 1, 1),
        work=lambda args: abs(real(args[0])),
    ),
    Function(
        name="if",
        form="if(condition, a, b)",
        help="a where the condition holds, else b; only the one that is needed is worked out",
        kind=_choice,
        work=lambda args: args[1] if args[0] else args[2],
    ),
    Function(
        name="tap_drill",
        form="tap_drill(thread)",
        help="diameter of the usual tap drill",
        kind=_of_thread,
        work=_look_up(lookups.tap_drill),
    ),
    Function(
        name="major",
        form="major(thread)",
        help="basic major diameter",
        kind=_of_thread,
        work=_look_up(lookups.major),
    ),
    Function(
        name="minor",
        form="minor(thread)",
        help="basic minor diameter of the nut",
        kind=_of_thread,
        work=_look_up(lookups.minor),
    ),
    Function(
        name="pitch",
        form="pitch(thread)",
        help="distance from thread to thread",
        kind=_of_thread,
        work=_look_up(lookups.pitch),
    ),
    Function(
        name="clearance_hole",
        form="clearance_hole(thread)",
        help="hole of the normal series that a screw of this thread passes through",
        kind=_of_thread,
        work=_look_up(lookups.clearance_hole),
    ),
)
BY_NAME = {function.name: function for function in FUNCTIONS}
