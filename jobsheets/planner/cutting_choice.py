from dataclasses import dataclass

from jobsheets.figure import Input, Spread


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedChoice:
    speed: float | None
    inputs: tuple[Input, ...] = ()
    source: str = ""
    spread: Spread | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedChoice:
    feed: float
    inputs: tuple[Input, ...] = ()
    source: str = ""
    spread: Spread | None = None


def speed_choice(material, operation, tool, ratio):
    return SpeedChoice(speed=20.0 if operation not in ("part-off", "knurl", "groove") else 8.0, source="x")


def feed_choice(material, operation, diameter, depth):
    return FeedChoice(feed=0.08, source="x")


def specific(material):
    return (2000.0, 0.2, "x")
