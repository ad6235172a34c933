"""A chosen speed is one of the machine's, is never above the wanted one, and follows it upward."""

from dataclasses import dataclass

from hypothesis import given
from hypothesis import strategies as st

from jobsheets.shop.machines import SpeedRange, SpeedStep
from jobsheets.shop.speeds import at_or_below


@dataclass(frozen=True)
class Drive:
    """As much of a machine as its speeds."""

    name: str
    speeds: tuple[SpeedStep, ...]
    ranges: tuple[SpeedRange, ...]

    def has(self, rpm: float, position: str) -> bool:
        steps = any(s.rpm == rpm and s.position == position for s in self.speeds)
        return steps or any(
            r.position == position
            and r.least <= rpm <= r.most
            and (rpm in (r.least, r.most) or abs(rpm / r.step - round(rpm / r.step)) < 1e-9)
            for r in self.ranges
        )


@st.composite
def drives(draw: st.DrawFn) -> Drive:
    if draw(st.booleans()):
        rpms = sorted(draw(st.sets(st.integers(30, 4000), min_size=1, max_size=12)))
        return Drive("belts", tuple(SpeedStep(rpm=float(r), position=f"b{r}") for r in rpms), ())
    ranges = []
    for n in range(draw(st.integers(1, 3))):
        least = draw(st.integers(20, 500))
        most = least + draw(st.integers(100, 3000))
        step = draw(st.sampled_from([1.0, 5.0, 10.0, 25.0]))
        ranges.append(SpeedRange(least=float(least), most=float(most), step=step, position=f"r{n}"))
    return Drive("stepless", (), tuple(ranges))


WANTED = st.floats(1.0, 6000.0)


@given(machine=drives(), wanted=WANTED)
def test_chosen_speed_is_on_the_machine(machine, wanted):
    chosen = at_or_below(machine, wanted)
    assert machine.has(chosen.rpm, chosen.position)


@given(machine=drives(), wanted=WANTED)
def test_never_above_the_wanted_speed_unless_it_says_so(machine, wanted):
    chosen = at_or_below(machine, wanted)
    assert chosen.too_fast == (chosen.rpm > wanted * (1.0 + 1e-9))


@given(machine=drives(), a=WANTED, b=WANTED)
def test_faster_wish_never_gives_a_slower_speed(machine, a, b):
    low, high = sorted((a, b))
    assert at_or_below(machine, low).rpm <= at_or_below(machine, high).rpm


@given(machine=drives(), wanted=WANTED)
def test_no_belt_lies_between_the_chosen_and_the_wanted(machine, wanted):
    chosen = at_or_below(machine, wanted)
    assert not any(chosen.rpm < s.rpm <= wanted for s in machine.speeds)


@given(machine=drives(), wanted=WANTED)
def test_chosen_speed_wanted_again_is_kept(machine, wanted):
    chosen = at_or_below(machine, wanted)
    assert at_or_below(machine, chosen.rpm).rpm == chosen.rpm
