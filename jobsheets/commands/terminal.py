"""What reaches the person: results on stdout, remarks on stderr, colour on a terminal alone."""

import os
import sys

WIDE = 96  # columns
RED, YELLOW, BOLD = "31;1", "33", "1"


def say(text: str) -> None:
    """A result, as text ending with a new line."""
    if sys.stdout is None:
        raise OSError("there is no output to write to")
    sys.stdout.write(text)


def say_bytes(data: bytes) -> None:
    """A result that is a file."""
    if sys.stdout is None:
        raise OSError("there is no output to write to")
    sys.stdout.flush()
    sys.stdout.buffer.write(data)


def remark(text: str) -> None:
    """A line beside the result."""
    if sys.stderr is not None:
        sys.stderr.write(f"jobsheets: {text}\n")


def painted(text: str, colour: str) -> str:
    """`text` in a colour where stdout is a terminal that has colours and nobody asked for none."""
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    if plain or sys.stdout is None or not sys.stdout.isatty():
        return text
    return f"\033[{colour}m{text}\033[0m"
