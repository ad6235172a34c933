"""Plans of a bar turned in ever more steps, three operations a step, each cut, measured and audited."""

from collections.abc import Callable
from functools import cache

from msgspec.structs import replace

from jobsheets import job
from jobsheets.part.size import Size
from jobsheets.part.turned import Edge, EdgeKind, Segment, SegmentKind, TurnedPart
from jobsheets.planner import audit, inspect, order, replay
from jobsheets.planner.operation import Plan
from jobsheets.planner.plan import plan
from jobsheets.shop.shop import Shop
from tests.benchmarks import measure

FEW, MANY = 5, 160  # steps: 18 and 483 operations
STEP, LAST = 2.0, 20.0  # mm of length
ROD, LEAST, MOST = 90.0, 6.0, 86.0  # mm of diameter

Work = Callable[[Plan], object]


def size(nominal: float, width: float) -> Size:
    return Size(nominal=nominal, low=nominal - width, high=nominal + width, limits=f"±{width:g} mm")


def part(steps: int) -> TurnedPart:
    edge = Edge(kind=EdgeKind.CHAMFER, size=size(0.1, 0.05))
    segments = tuple(
        Segment(
            id=f"s{k}",
            kind=SegmentKind.TURN,
            diameter=size(round(LEAST + (MOST - LEAST) * (k + 1) / steps, 2), 0.1),
            length=size(STEP if k < steps - 1 else LAST, 0.1),
            front=edge,
        )
        for k in range(steps)
    )
    rod = size(ROD, 0.1)
    return TurnedPart(name="stairs", title="Stairs", material="brass-360", rod=rod, segments=segments)


@cache
def shop() -> Shop:
    """The metric demo shop with a carriage readout and room for a thick, long bar."""
    demo = job.load_shop(None, "mm")
    carriage = replace(demo.lathe.carriage, travel=9999.0, readout=0.01)
    tools = tuple(replace(tool, reach=60.0) for tool in demo.tooling.lathe_tools)
    return replace(
        demo,
        lathe=replace(demo.lathe, carriage=carriage, spindle_bore=100.0),
        tooling=replace(demo.tooling, lathe_tools=tools),
    )


@cache
def planned(steps: int) -> Plan:
    return plan(part(steps), shop())


def replayed(made: Plan) -> object:
    return replay.replay(made.part, made.shop, made.setups, made.operations, made.states[0])


def measured(made: Plan) -> object:
    return inspect.prove(made.part, made.states[-1], threads_clean=True)


LINEAR: dict[str, Work] = {
    "replayed": replayed,
    "measured": measured,
    "audited": lambda made: audit.audit(made, made.states),
    "ordered": lambda made: order.order(made.operations, made.setups),
}
# Each cut bends every step of the bar: that is a matter of pairs.
PAIRS: dict[str, Work] = {"planned": lambda made: plan(made.part, made.shop)}


def growth(work: Work, most: int = MANY) -> float:
    """Processor time of an operation in many steps, as a multiple of what it takes in few."""
    few, many = planned(FEW), planned(most)
    again = most // FEW  # a longer stretch for the clock
    short = measure.warm(lambda: [work(few) for _ in range(again)])
    times = measure.in_turns({"few": short, "many": measure.warm(lambda: work(many))}, rounds=3)
    return times["many"] / len(many.operations) / (times["few"] / again / len(few.operations))


def main() -> None:
    """Print the ratios: `python -m tests.benchmarks.stairs`."""
    measure.pin()
    few, many = len(planned(FEW).operations), len(planned(MANY).operations)
    for name, work in {**LINEAR, **PAIRS}.items():
        print(f"time of an operation {name}, {many} / {few}: {growth(work):.2f}")


if __name__ == "__main__":
    main()
