"""Limits of a fit or a toleranced size at a nominal: ISO 286, ANSI B4.1 inch fits, ISO 2768-1."""

import re

from jobsheets.lookup.answer import COMPUTED, LENGTH, Answer, Group, Miss, Value, from_error
from jobsheets.standards import fits, fits_inch, general_tolerance
from jobsheets.standards.fits import Deviations, Fit
from jobsheets.units import millimetres, nearest

KIND = "fit"
ISO = r"[A-Za-z]{1,2}\d{1,2}"
_WRITTEN = (
    rf"(?:ISO ?2768-(?P<general>[a-z])|(?P<inch>[A-Za-z]{{2}} ?\d)|(?P<first>{ISO})(?:/(?P<second>{ISO}))?)"
)
WANTED = "a fit and a size with its unit: H7/g6 10 mm, f7 12 mm, RC4 1/2 in"
DEFAULT_SIZE = "10 mm"  # of the names that are offered


def answer(text: str) -> Answer | Miss:
    """Limits and clearances; the symbol may stand before or behind the size."""
    try:
        return _found(text)
    except ValueError as exc:
        return from_error(KIND, text, exc, filter(_holds, _near(text)))


def _found(text: str) -> Answer:
    symbol, nominal = _parted(text)
    found = re.fullmatch(_WRITTEN, symbol)
    if found is None:
        raise ValueError(f"{symbol!r} is not a fit; want {WANTED}")
    if found["general"]:
        return _general(found["general"], nominal)
    if found["inch"] and symbol.replace(" ", "").upper() in fits_inch.names():
        return _mates(symbol.replace(" ", "").upper(), fits_inch.fit(symbol, nominal))
    if found["second"]:
        return _mates(symbol, fits.fit(found["first"], found["second"], nominal))
    return _one(fits.limits(symbol, nominal))


def _holds(text: str) -> bool:
    """Whether the tables answer a name that is to be offered."""
    try:
        _found(text)
    except ValueError:
        return False
    return True


def _parted(text: str) -> tuple[str, float]:
    """Symbol and nominal size in mm."""
    words = text.replace(" at ", " ").split()
    for cut in range(1, len(words)):
        for symbol, size in ((words[:cut], words[cut:]), (words[cut:], words[:cut])):
            try:
                return " ".join(symbol), millimetres(" ".join(size))
            except ValueError:
                continue
    raise ValueError(f"no size with its unit in {text!r}; want {WANTED}")


def _near(text: str) -> tuple[str, ...]:
    """Fits that are spelled alike, at the size that was asked."""
    try:
        symbol, _ = _parted(text)
        size = text.replace(symbol, "").strip()
    except ValueError:
        symbol, size = text.split()[0] if text else "", DEFAULT_SIZE
    pairs = [f"{one.hole}/{one.shaft}" for one in fits.preferred() if one.hole]
    known = (
        *dict.fromkeys(pairs),
        *fits_inch.names(),
        *dict.fromkeys(pair.partition("/")[2] for pair in pairs),
    )
    return tuple(f"{name} {size}" for name in nearest(symbol.replace(" ", ""), known))


def _mates(name: str, fit: Fit) -> Answer:
    source, seen = _both(fit)
    clearance = tuple(
        Value(name=label, value=mm, unit=LENGTH, how=how, source=source, seen=seen)
        for label, mm, how in (
            (
                "least clearance",
                fit.least_clearance,
                "smallest hole less largest shaft; negative is interference",
            ),
            ("most clearance", fit.most_clearance, "largest hole less smallest shaft"),
        )
    )
    groups = (
        Group(title=f"Hole {fit.hole.symbol}", values=_limits(fit.hole)),
        Group(title=f"Shaft {fit.shaft.symbol}", values=_limits(fit.shaft)),
        Group(title="Clearance", values=clearance),
    )
    use = next(
        (one.use for one in fits.preferred() if f"{one.hole}/{one.shaft}" == name or one.inch == name), ""
    )
    notes = (f"preferred: {use}",) if use else ()
    return Answer(kind=KIND, name=name, title=_title(name, fit.hole.nominal), groups=groups, notes=notes)


def _one(size: Deviations) -> Answer:
    side = "Hole" if size.symbol[0].isupper() else "Shaft"
    group = Group(title=f"{side} {size.symbol}", values=_limits(size))
    return Answer(kind=KIND, name=size.symbol, title=_title(size.symbol, size.nominal), groups=(group,))


def _title(name: str, nominal: float) -> str:
    return f"{name} at {nominal:g} mm ({nominal / 25.4:.4f} in)"


def _both(fit: Fit) -> tuple[str, str]:
    sources = dict.fromkeys((fit.hole.source, fit.shaft.source))
    return "; ".join(sources), "memory" if "memory" in (fit.hole.seen, fit.shaft.seen) else COMPUTED


def _limits(size: Deviations) -> tuple[Value, ...]:
    named = (
        ("upper deviation", size.upper, ""),
        ("lower deviation", size.lower, ""),
        ("largest size", size.nominal + size.upper, "nominal + upper deviation"),
        ("smallest size", size.nominal + size.lower, "nominal + lower deviation"),
    )
    return tuple(
        Value(name=name, value=mm, unit=LENGTH, how=how, source=size.source, seen=size.seen)
        for name, mm, how in named
    )


def _general(cls: str, nominal: float) -> Answer:
    limit = general_tolerance.linear(nominal, cls)
    source = "ISO 2768-1:1989 table 1"
    values = tuple(
        Value(name=name, value=mm, unit=LENGTH, source=source, seen="page")
        for name, mm in (
            ("plus or minus", limit),
            ("largest size", nominal + limit),
            ("smallest size", nominal - limit),
        )
    )
    name = f"ISO 2768-{cls}"
    group = Group(title="A size that has no limits beside it", values=values)
    return Answer(kind=KIND, name=name, title=_title(name, nominal), groups=(group,))
