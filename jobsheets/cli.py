"""The command line: finds the command, and turns every ending into an exit code and plain words.

Kept free of imports on purpose: help, version and a mistyped command must answer at once.
"""

import os
import sys
from collections.abc import Callable, Sequence

from jobsheets import __version__

OK, STOPPED, BAD_INPUT, FAULT, INTERRUPTED, UNREAD = 0, 1, 2, 3, 130, 141
TRACE = "JOBSHEETS_TRACE"
RARELY = 200_000  # new objects between two looks of the collector; a sheet makes about 60,000

COMMANDS = {
    "sheet": "work a recipe out for a shop and print its sheets",
    "check": "list what the checks say of a recipe; print nothing else",
    "why": "explain a number, an operation, or the order of two of them",
    "lookup": "what the published tables say of a thread, drill, hole, fit, pin, bar or material",
    "identify": "which standard thread a measured screw is",
    "chart": "print a wall chart of one page out of the same tables",
    "recipes": "list the recipes that come with the program, or the inputs of one",
    "schema": "print the JSON Schema of recipes or of shop files, for editors",
}

HELP = f"""\
jobsheets plans small turned parts for a manual lathe and mill, and prints the sheets to stand behind
the machine: setups in order, tools, belt steps, dial readings, sizes to measure before going on.

A recipe (a small text file) says what the finished part is. A shop file says which machines, tools and
stock there are. Both come with examples, so this works at once, with an invented shop:

    jobsheets recipes                            what parts there are
    jobsheets recipes stepped-end-nut            what can be set on one of them
    jobsheets sheet stepped-end-nut              print it; says which PDF was written
    jobsheets why stepped-end-nut 20.speed       where a number on the sheet comes from

Commands:
{chr(10).join(f"    {name:<10}{what}" for name, what in COMMANDS.items())}

    jobsheets COMMAND --help tells all about one command; jobsheets --version tells which version this is.

Exit code: 0 done, 1 a check stops the job (no sheet is printed), 2 an input must be mended,
3 a fault of the program. The machine's manual and a trained person come before any sheet.
"""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Args:
        argv: words after the program's name; left out: those of the process.

    Returns:
        The exit code; docs/commands.md lists them.
    """
    if argv is not None:
        return _ending(list(argv))
    import gc

    # The process is ours. A job leaves few rings of objects behind, so the collector looks for them less
    # often, and not at all at the end, when nothing is wanted any more: a seventh of the time of a sheet.
    gc.set_threshold(RARELY)
    code = _ending(sys.argv[1:])
    gc.freeze()
    return code


def _ending(words: list[str]) -> int:
    """The exit code of a command, however it ends."""
    try:
        try:
            code = _run(words)
        except SystemExit as ending:  # argparse has told what it had to tell
            code = ending.code if isinstance(ending.code, int) else OK
        if sys.stdout is not None:
            sys.stdout.flush()  # a full disk or a closed pipe shows here, not at some later time
        return code
    except KeyboardInterrupt:
        _tell("stopped by the keyboard")
        return INTERRUPTED
    except BrokenPipeError:
        _drop_output()
        return UNREAD
    except Exception as exc:
        return _ended_by(exc)


def _run(words: list[str]) -> int:
    for stream in (sys.stdout, sys.stderr):
        if stream is not None and hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without ⌀ shows a ? and goes on
    if not words:
        sys.stderr.write(HELP)
        return BAD_INPUT
    if words[0] in ("--help", "-h", "help"):
        sys.stdout.write(HELP)
        return OK
    if words[0] in ("--version", "-V"):
        sys.stdout.write(f"jobsheets {__version__}\n")
        return OK
    if words[0] not in COMMANDS:
        return _unknown(words[0])
    return _command(words[0])(words[1:])


def _command(name: str) -> Callable[[list[str]], int]:
    """The command's own function, with nothing imported that other commands use."""
    match name:
        case "sheet":
            from jobsheets.commands.sheet import run
        case "check":
            from jobsheets.commands.check import run
        case "why":
            from jobsheets.commands.why import run
        case "lookup":
            from jobsheets.commands.lookup import run
        case "identify":
            from jobsheets.commands.identify import run
        case "chart":
            from jobsheets.commands.chart import run
        case "recipes":
            from jobsheets.commands.recipes import run
        case _:
            from jobsheets.commands.schema import run
    return run


def _unknown(word: str) -> int:
    import difflib

    what = "option before the command" if word.startswith("-") else "command"
    close = difflib.get_close_matches(word.lstrip("-"), COMMANDS, n=2, cutoff=0.5)
    _tell(
        f"no such {what}: {word!r}\n    want {' or '.join(close or COMMANDS)}; jobsheets --help explains them"
    )
    return BAD_INPUT


def _ended_by(exc: Exception) -> int:
    """Words and exit code for what a command could not deal with itself."""
    from jobsheets.errors import InputError

    if isinstance(exc, InputError):
        _tell(str(exc))
        return BAD_INPUT
    if isinstance(exc, OSError) and exc.filename is None:  # the output itself: other files are named
        _drop_output()
        _tell(f"cannot write the output: {exc.strerror or exc}\n    want room on the disk and leave to write")
        return BAD_INPUT
    if os.environ.get(TRACE) == "1":
        import traceback

        traceback.print_exception(exc)
    _tell(
        f"a fault of the program, not of your files: {type(exc).__name__}: {exc}\n"
        "    nothing was printed; please report it, with the recipe, the shop file and what\n"
        f"    the same command says after {TRACE}=1"
    )
    return FAULT


def _tell(text: str) -> None:
    if sys.stderr is not None:
        sys.stderr.write(f"jobsheets: {text}\n")


def _drop_output() -> None:
    """What still waits for a reader that left; without this the interpreter would complain at its end."""
    if sys.stdout is not None:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
