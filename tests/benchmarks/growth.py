"""Five operations against five hundred, laid out and printed: how much each takes of time and memory."""

import tracemalloc
from collections.abc import Callable

from msgspec.structs import replace

from jobsheets import job
from jobsheets.planner.operation import Plan
from jobsheets.sheet import page, pdf
from tests.benchmarks import measure, one_job

FEW, MANY = 5, 500
MOST = 1.5  # times as much for each of many operations


def plan_of(count: int) -> Plan:
    """The first operations of a plan over and over, in one setup: what is laid out need not be cut."""
    plan = one_job.plan()
    setup = plan.setups[0]
    first = plan.in_setup(setup.id)[:FEW]
    assert len(first) == FEW
    operations = tuple(
        replace(first[n % FEW], id=f"{first[n % FEW].id}{n}", number=10 * (n + 1)) for n in range(count)
    )
    states = tuple(plan.states[n % FEW] for n in range(count + 1))
    times = tuple(of for of in plan.times if of.setup == setup.id)
    return replace(
        plan, setups=(setup,), operations=operations, states=states, times=times, findings=(), order=()
    )


def laid_out(plan: Plan) -> tuple[object, ...]:
    return page.pages(plan, one_job.SYSTEM, fingerprint="GROW-TEST")


def printed(plan: Plan) -> bytes:
    return pdf.pdf(laid_out(plan), title="growth", paper=one_job.PAPER)


WORK: dict[str, Callable[[Plan], object]] = {
    "laid out": laid_out,
    "printed": printed,
    "as text": lambda plan: job.sheet_text(plan, system=one_job.SYSTEM),
    "as JSON": job.plan_json,
}


def time(name: str, most: int = MANY) -> float:
    """Seconds an operation among many takes, as a multiple of what it takes among few."""
    work = WORK[name]
    few, many = plan_of(FEW), plan_of(most)
    again = most // FEW // 10  # a longer stretch for the clock
    short = measure.warm(lambda: [work(few) for _ in range(again)])
    times = measure.in_turns({"few": short, "many": measure.warm(lambda: work(many))}, rounds=3)
    return times["many"] / most / (times["few"] / again / FEW)


def memory(name: str, most: int = MANY) -> float:
    """The same for the most bytes that are held at any moment."""
    held = []
    for count in (FEW, most):
        plan = plan_of(count)
        WORK[name](plan)  # remembered words are not counted
        tracemalloc.start()
        WORK[name](plan)
        held.append(tracemalloc.get_traced_memory()[1] / count)
        tracemalloc.stop()
    return held[1] / held[0]
