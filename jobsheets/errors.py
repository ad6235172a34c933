"""Faults in what the maker wrote: values that gather, never a traceback."""

from jobsheets.value import Frozen


class Problem(Frozen):
    """One fault in an input, with the place to mend and what would be right."""

    file: str
    line: int  # from 1, as editors count; 0 when the fault is not in a file (a command line, a missing file)
    field: str
    found: str
    wrong: str
    right: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        where = f"{place}: {self.field}" if self.field else place
        found = f": {self.found!r}" if self.found else ""
        return f"{where}: {self.wrong}{found}\n    want {self.right}"


class InputError(Exception):
    """Inputs the maker must mend, all told at once. Anything else raised is a fault of the program."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(map(str, problems)))
        self.problems = problems
