"""What every replayed cut shares: the frame it counts in, the dials it is set on, the fault it raises."""

from msgspec import Struct, field

from jobsheets.part.profile import Profile, radius_at, step_near
from jobsheets.part.turned import End, Hole, TurnedPart
from jobsheets.part.work import Work
from jobsheets.planner.operation import HoldingKind, Operation, Place, Row, RowKind, Setup
from jobsheets.shop.dials import travel
from jobsheets.shop.machines import Dial
from jobsheets.shop.shop import Shop

AGREES = 1e-4  # mm; a printed size and its reading differ by rounding of floats only
AIR = 3.0  # mm; cuts begin this far in front of the face
CLEAR = 0.5  # mm; nearest that an edge comes to jaws


class ReplayFault(Exception):  # noqa: N818  the trade's word: a fault of the plan, not of the maker
    """The printed numbers do not make the part."""

    def __init__(self, operation: str, what: str) -> None:
        super().__init__(f"{operation}: {what}")
        self.operation = operation
        self.what = what


class Bench(Struct):
    """What the replay remembers between operations."""

    part: TurnedPart
    shop: Shop
    facts: set[str] = field(default_factory=set)
    spots: dict[str, float] = field(default_factory=dict)
    setup: str = ""


class Frame(Struct, frozen=True):
    """From a travel counted from the face that stands out to a place on the part."""

    zero: float
    sign: float

    def z(self, at: float) -> float:
        return self.zero + self.sign * at

    def line(self, *points: tuple[float, float]) -> Profile:
        return (
            tuple(sorted((self.z(t), r) for t, r in points))
            if self.sign < 0
            else tuple((self.z(t), r) for t, r in points)
        )


def dial_of(bench: Bench, op: Operation, axis: str) -> Dial:
    lathe, mill = bench.shop.lathe, bench.shop.mill
    dials: list[Dial | None] = [lathe.cross, lathe.carriage, lathe.top_slide, lathe.quill.dial]
    if op.place is Place.MILL and mill is not None:
        dials = [mill.table_x, mill.table_y, mill.quill]
    for dial in dials:
        if dial is not None and dial.axis == axis:
            return dial
    raise ReplayFault(op.id, f"no dial is called '{axis}'")


def lengthwise(bench: Bench, op: Operation, row: Row) -> float:
    """Lengthwise travel of a row, and proof that the printed distance agrees with it."""
    if row.z is None:
        raise ReplayFault(op.id, f"a {row.kind} row without a lengthwise reading")
    at = travel(dial_of(bench, op, op.z_dial), row.z)
    if row.at is not None and abs(at - row.at) > AGREES:
        raise ReplayFault(op.id, f"the reading makes {at:.3f} mm, the row says {row.at:.3f} mm")
    return at


def frame_of(setup: Setup, work: Work) -> Frame:
    return Frame(work.front, 1.0) if setup.out is End.FRONT else Frame(work.back, -1.0)


def end_frame_of(op: Operation, work: Work) -> Frame:
    return Frame(work.front, 1.0) if op.end is End.FRONT else Frame(work.back, -1.0)


def touched(bench: Bench, op: Operation, work: Work) -> tuple[float, float]:
    """Radius of the touched surface and the cross-slide travel that its row gives it."""
    row = op.rows[0]
    if row.kind is not RowKind.TOUCH or row.x is None:
        raise ReplayFault(op.id, "the first row must touch a known diameter")
    if row.touch == "bar":
        radius = max(r for _, r in work.outer)
    else:
        a, b = bench.part.span(row.touch)
        radius = radius_at(work.outer, (a + b) / 2.0)
    if row.diameter is not None and abs(2.0 * radius - row.diameter) > AGREES:
        raise ReplayFault(op.id, f"touches {2 * radius:.3f} mm, the row says {row.diameter:.3f} mm")
    return radius, travel(dial_of(bench, op, op.x_dial), row.x)


def radius_of(bench: Bench, op: Operation, row: Row, zero: tuple[float, float], sign: float = -1.0) -> float:
    if row.x is None:
        raise ReplayFault(op.id, f"a {row.kind} row without a cross-slide reading")
    radius = zero[0] + sign * (travel(dial_of(bench, op, op.x_dial), row.x) - zero[1])
    if row.diameter is not None and row.diameter > 0.0 and abs(2.0 * radius - row.diameter) > AGREES:
        raise ReplayFault(
            op.id, f"the reading makes ⌀ {2 * radius:.3f} mm, the row says {row.diameter:.3f} mm"
        )
    return radius


def floor_of(part: TurnedPart, work: Work, hole: Hole, frame: Frame) -> float:
    """Depth at which a hole begins: the face, or the floor of a larger hole from the same end."""
    nominal = part.opened_at(hole)
    step = step_near(work.inner, frame.z(nominal), 0.5) if nominal else None
    return nominal if step is None else abs(step[0] - frame.zero)


def clear_of_jaws(setup: Setup, op: Operation, z: float) -> None:
    room = setup.grip_from - z if setup.out is End.FRONT else z - setup.grip_to
    if setup.holding.kind is not HoldingKind.MANDREL and room < CLEAR - AGREES:
        raise ReplayFault(op.id, f"the tool comes within {room:.2f} mm of the jaws")
