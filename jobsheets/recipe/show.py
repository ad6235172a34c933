"""Values as a message or the head of a sheet shows them."""

from jobsheets.recipe.expression import Kind, Value
from jobsheets.standards.threads import Thread

INCH = 25.4
EXAMPLES: dict[Kind, str] = {
    Kind.LENGTH: "12 mm or 3/8 in",
    Kind.ANGLE: "45 deg",
    Kind.NUMBER: "3 or 65 %",
    Kind.THREAD: "8-32 UNC or M5x0.8",
    Kind.FLAG: "neck < rod",
    Kind.WORD: "a word",
}


def length(value: float, system: str) -> str:
    """A length as the maker writes it: thousandths of an inch, hundredths of a mm, finer where needed."""
    shown, unit, places = (value / INCH, "in", 3) if system == "in" else (value, "mm", 2)
    for more in range(4):
        text = f"{shown:.{places + more}f}"
        if abs(float(text) - shown) < 0.02 * 10.0**-places:
            break
    return f"{text} {unit}"


def value(found: Value, kind: Kind, system: str) -> str:
    """Any value, with its unit."""
    if isinstance(found, Thread):
        return found.name
    if kind is Kind.LENGTH and isinstance(found, float):
        return length(found, system)
    if isinstance(found, float):
        return f"{found:g}{' deg' if kind is Kind.ANGLE else ''}"
    return str(found)
