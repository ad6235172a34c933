"""Look-ups: a cold one against a bare start of the interpreter; warm ones read no file twice."""

from jobsheets.lookup.ask import KINDS, look_up
from jobsheets.lookup.written import as_text
from jobsheets.standards import clearance, drills, fits, materials, pins, stock
from jobsheets.standards.thread_catalogue import everything

from .measure import cold, command, in_turns, pin, warm

GOAL = 3.0  # times START
MOST = 8.0  # a look-up that has grown beyond it has imported what it does not use
WARM = 100_000
PER_WARM = 0.00002  # seconds; a remembered answer
NAMES = {
    "thread": [thread.name for thread in everything()],
    "drill": [drill.name for drill in drills.everything()],
    "hole": list(clearance.screws()),
    "fit": [
        f"{fit.hole}/{fit.shaft} {size} mm" for fit in fits.preferred() if fit.hole for size in (3, 10, 25)
    ],
    "pin": [pin.size for pin in pins.every()],
    "stock": [size.name for size in stock.round_sizes("in")],
    "material": list(materials.names()),
}
ASKED = [(kind, name) for kind, names in NAMES.items() for name in names]


# In a process of its own, every file that is opened is counted, from the first import on.
COUNTED = """
import sys
opened = {}
def count(event, args):
    if event == "open" and str(args[0]).endswith(".csv"):
        opened[args[0]] = opened.get(args[0], 0) + 1
sys.addaudithook(count)
from jobsheets.lookup.answer import Answer
from jobsheets.lookup.ask import look_up
from tests.benchmarks.test_lookup import ASKED, WARM
for n in range(WARM):
    assert isinstance(look_up(*ASKED[n % len(ASKED)]), Answer)
again = {str(name): times for name, times in opened.items() if times > 1}
assert len(opened) > 15 and not again, (len(opened), again)
"""


def test_a_hundred_thousand_warm_look_ups_read_no_file_twice() -> None:
    assert cold("-c", COUNTED)() > 0.0


def test_a_warm_look_up_is_quick() -> None:
    def every() -> None:
        for n in range(WARM):
            look_up(*ASKED[n % len(ASKED)])

    every()
    each = warm(every)() / WARM
    print(f"\nwarm look-up: {each * 1e6:.2f} us, {len(ASKED)} names in turn")
    assert each < PER_WARM


def test_a_cold_look_up_against_a_bare_start() -> None:
    pin()
    took = in_turns(
        {
            "START": cold("-c", "pass"),
            "structs": cold("-c", "from msgspec import Struct"),
            "thread": command("lookup", "thread", "8-32 UNC"),
            "drill": command("lookup", "drill", "#29"),
            "material": command("lookup", "material", "303"),
        },
        rounds=11,
    )
    for name, seconds in took.items():
        ratio = seconds / took["START"]
        print(f"{name:<10} {1000.0 * seconds:6.1f} ms  {ratio:.2f} x START (goal {GOAL:g})")
        assert ratio <= MOST, name


def test_the_text_of_every_answer_is_quick() -> None:
    found = [look_up(kind, names[0]) for kind, names in NAMES.items() if names]
    taken = warm(lambda: [as_text(answer) for answer in found])()
    assert set(KINDS) >= {answer.kind for answer in found}
    assert taken / len(found) < 0.01
