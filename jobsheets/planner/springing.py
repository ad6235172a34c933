"""Spring passes in turning: the same reading again, where the work bends by more than its limits spare.

Source   docs/cutting.md, "Finishing": a pass that feeds nothing in takes off what the work sprang away from.
"""

from collections.abc import Sequence

from msgspec.structs import replace

from jobsheets.figure import Figure
from jobsheets.planner.operation import Row, RowKind

JUDGED = 1.02  # times the share; a computed force is no nearer than that, so a hair more changes nothing
CUT = (RowKind.MEASURE, RowKind.FINISH)
HINT = "Spring passes: the same reading again, fed over the full length; read the size after the last of them"


def too_much(bending: Figure | None) -> bool:
    """Whether the taper that bending leaves passes its share of the limits (house rule `bend_share`)."""
    return bending is not None and bending.wanted is not None and bending.value > bending.wanted * JUDGED


def sprung(rows: Sequence[Row], count: int) -> tuple[Row, ...]:
    """Rows of a finishing operation with `count` spring passes behind each of its last two cuts.

    Behind both, because the size that is read must be left by the same passes as the size that is wanted:
    behind the last cut alone they would take it below the size that the equal cuts foretell.

    Args:
        rows: touch, measuring cut, finishing cut.
        count: house rule `spring_passes`; 0 leaves the rows as they are.
    """
    found: list[Row] = []
    for row in rows:
        if row.kind not in CUT or count < 1:
            found.append(row)
            continue
        again = replace(row, kind=RowKind.SPRING, depth=0.0, box=False)
        read_last = row.kind is RowKind.MEASURE  # a finished size is read at its hold point
        first = replace(row, box=row.box and not read_last)
        found += [first, *[again] * (count - 1), replace(again, box=read_last)]
    return tuple(found)
