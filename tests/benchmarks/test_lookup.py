"""Look-ups: a cold one against a bare start of the interpreter; warm ones read no file twice."""

import pytest

from jobsheets.lookup.ask import KINDS, look_up
from jobsheets.lookup.written import as_text
from jobsheets.standards import clearance, drills, fits, materials, pins, stock
from jobsheets.standards.thread_catalogue import everything

from .measure import cold, command, in_turns, pin, warm

MOST = 3.0  # times START
# What the answer of a look-up needs none of, and what each would add to a bare start.
DEAR = ("msgspec", "typing", "inspect", "pathlib", "fractions", "argparse", "json", "jobsheets.fields")
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
COLD = {
    "thread": "8-32 UNC",
    "drill": "#29",
    "hole": "M5",
    "fit": "H7/g6 10 mm",
    "pin": "1/8 in",
    "stock": "3/8 in",
    "material": "303",
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
import pytest

from jobsheets.lookup.ask import look_up
from tests.benchmarks.test_lookup import ASKED, WARM
for n in range(WARM):
    assert isinstance(look_up(*ASKED[n % len(ASKED)]), Answer)
again = {str(name): times for name, times in opened.items() if times > 1}
assert len(opened) > 15 and not again, (len(opened), again)
"""


def test_a_hundred_thousand_warm_look_ups_read_no_file_twice() -> None:
    assert cold("-c", COUNTED)() > 0.0


@pytest.mark.timing
def test_a_warm_look_up_is_quick() -> None:
    def every() -> None:
        for n in range(WARM):
            look_up(*ASKED[n % len(ASKED)])

    every()
    each = warm(every)() / WARM
    print(f"\nwarm look-up: {each * 1e6:.2f} us, {len(ASKED)} names in turn")
    assert each < PER_WARM


@pytest.mark.timing
def test_a_cold_look_up_against_a_bare_start() -> None:
    pin()
    took = in_turns(
        {
            "START": cold("-c", "pass"),
            **{kind: command("lookup", kind, name) for kind, name in COLD.items()},
        },
        rounds=11,
    )
    for name, seconds in took.items():
        ratio = seconds / took["START"]
        print(f"{name:<10} {1000.0 * seconds:6.1f} ms  {ratio:.2f} x START")
        assert ratio <= MOST, name


@pytest.mark.parametrize("kind", KINDS)
def test_a_cold_look_up_imports_what_it_answers_with_and_no_more(kind: str) -> None:
    asked = f"from jobsheets.cli import main; assert main(['lookup', {kind!r}, {COLD[kind]!r}]) == 0"
    assert cold("-c", f"{asked}; import sys; assert not set(sys.modules) & set({DEAR!r})")() > 0.0


@pytest.mark.timing
def test_the_text_of_every_answer_is_quick() -> None:
    found = [look_up(kind, names[0]) for kind, names in NAMES.items() if names]
    taken = warm(lambda: [as_text(answer) for answer in found])()
    assert set(KINDS) >= {answer.kind for answer in found}
    assert taken / len(found) < 0.01
