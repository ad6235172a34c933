"""The sheet as plain text for a terminal: the same values and words, no colour, at most 96 columns."""

from textwrap import wrap

from jobsheets.planner.operation import Plan
from jobsheets.sheet.view import view
from jobsheets.sheet.view_values import (
    DialCell,
    FigureView,
    HoldView,
    InspectionView,
    MateView,
    OperationView,
    RowView,
    SetupView,
    SheetView,
    StockView,
)
from jobsheets.sheet.wording import lines as words

WIDE = 96
INDENT = "    "
BOX = "[ ]"
BLANK = "[________]"


def text(plan: Plan, system: str, fingerprint: str, *, figures: bool = False) -> str:
    """The whole sheet as text.

    Args:
        plan: a plan that was proven by replay.
        system: "in" or "mm", for the whole sheet.
        fingerprint: short text that changes when the plan does.
        figures: add every figure with its reason.

    Returns:
        Lines of at most 96 columns, ending with a new line.

    Raises:
        ValueError: a unit system that is neither of the two.
    """
    sheet = view(plan, system, fingerprint, figures=figures)
    parts = [_front(sheet), *map(_setup, sheet.setups), _inspection(sheet.inspection, system)]
    parts += [_figures(sheet.figures)] if sheet.figures else []
    return "\n\n".join("\n".join(part) for part in parts) + "\n"


def _folded(line: str, indent: str = "", lead: str = "") -> list[str]:
    """One entry, folded under its lead."""
    hang = indent + " " * len(lead)
    return wrap(line, WIDE, initial_indent=indent + lead, subsequent_indent=hang) or [indent + lead.rstrip()]


def _title(line: str, mark: str) -> list[str]:
    return [line[:WIDE], mark * min(len(line), WIDE)]


def _front(sheet: SheetView) -> list[str]:
    head = sheet.head
    out = _title(f"{head.title}: {head.status}", "=")
    for label, value in (
        ("recipe", head.part),
        ("bar", head.bar),
        ("machine", head.machine),
        ("units", head.units),
        ("revision, plan", f"{head.revision}, {head.fingerprint}"),
    ):
        out += _folded(value, lead=f"{label:<16}")
    for line in words("first", sheet):
        out += ["", *_folded(line)]
    out += _stock(sheet.stock)
    if sheet.inputs:
        out += ["", "Inputs used"]
        out += [
            f"{INDENT}{i.name} = {i.value}{' (set for this sheet)' if i.given else ''}" for i in sheet.inputs
        ]
    for mate in sheet.mates:
        out += _mate(mate)
    if sheet.kit:
        out += ["", "Lay out, in the order of use"]
        for k in sheet.kit:
            note = f": {k.note}" if k.note else ""
            out += _folded(f"{k.label} ({k.used_by}){note}", INDENT, f"{BOX} ")
    for finding in sheet.findings:
        out.append("")
        for line in words("finding", finding):
            out += _folded(line, lead=f"{finding.severity.upper()}  ")
    for line in sheet.notes:
        out += ["", *_folded(line, lead="CHOICE  ")]
    return out


def _stock(stock: StockView) -> list[str]:
    out = ["", "Stock to cut"]
    out += [f"{INDENT}{term.label:<26}{term.value:>10}" for term in stock.terms]
    out.append(f"{INDENT}{'saw to':<26}{stock.length:>10}")
    for line in words("stock", stock):
        out += _folded(line, INDENT)
    return out


def _mate(mate: MateView) -> list[str]:
    out = [""]
    for line in words("mate", mate):
        out += _folded(line, lead="HOLD  ")
    if mate.measured:
        return out
    out.append(f"{INDENT}read {BLANK} {mate.unit}")
    out.append(f"{INDENT}reading  " + " ".join(f"{reading:>8}" for reading, _ in mate.table))
    out.append(f"{INDENT}target   " + " ".join(f"{target:>8}" for _, target in mate.table))
    for line in words("mate_other", mate):
        out += _folded(line, INDENT)
    return out


def _setup(setup: SetupView) -> list[str]:
    out = _title(f"Setup {setup.letter}: {setup.title} ({setup.machine})", "-")
    for line in (*words("start", setup), *words("as_before", setup)):
        out += _folded(line, lead=f"{BOX} ")
    for finding in setup.findings:
        for line in words("finding", finding):
            out += _folded(line, lead="CAUTION  ")
    for line in words("cautions", setup.cautions) if setup.cautions else ():
        out += _folded(line, lead="CAUTION  ")
    dials = [line for dial in setup.dials for line in words("dial", dial)]
    for line in (*dials, *((*words("ways", setup.dials), *words("past", setup.dials)) if dials else ())):
        out += _folded(line, lead="- ")
    for op in setup.operations:
        out += ["", *_operation(op)]
    if setup.before_unclamp or setup.written:
        out += ["", *words("unclamp", setup)]
        for line in words("before_unclamp", setup):
            out += _folded(line, lead=f"{BOX} ")
    return out


def _operation(op: OperationView) -> list[str]:
    out = _folded(op.title, lead=f"{op.number:>3} ")
    for line in words("tool", op):
        out += _folded(line, INDENT)
    speed = [op.position, f"{op.speed} rev/min"] if op.speed else ["by hand"] if op.by_hand else []
    speed += [f"{op.feed} {op.feed_unit}"] if op.feed else []
    speed += [f"{op.pace} s a turn of the {op.pace_axis}"] if op.pace else []
    if speed:
        out.append(INDENT + "   ".join(filter(None, speed)))
    for finding in op.findings:
        for line in words("finding", finding):
            out += _folded(line, INDENT, "CAUTION  ")
    for line in words("cautions", op.cautions) if op.cautions else ():
        out += _folded(line, INDENT, "CAUTION  ")
    for line in (*words("reasons", op), *words("hints", op)):
        out += _folded(line, INDENT, "- ")
    for row in op.rows:
        out += _row(row, op)
    for hold in op.holds:
        out += _hold(hold)
    return out


def _row(row: RowView, op: OperationView) -> list[str]:
    if row.touches:
        return _folded(" ".join(words("touches", row)), INDENT, f"{BOX} ")
    cells = [f"{row.kind} {row.under}".strip()]
    for column, cell in ((op.x, row.x), (op.z, row.z)):
        if column is not None and cell is not None:
            reads = "" if column.reads == "travel" else f" {column.reads}"
            cells.append(f"{column.axis} {column.arrow}{reads} {_dial(cell)}")
    if row.turns:
        cells.append(f"{row.turns} turns by hand")
    if row.diameter:
        cells.append(f"⌀ {row.diameter} {row.diameter_under}")
    if row.at:
        cells.append(f"at {row.at} {row.at_under}")
    if row.box:
        cells.append(BLANK)
    return _folded("; ".join(cells), INDENT, f"{BOX} ")


def _dial(cell: DialCell) -> str:
    turns = f"{cell.turns} {cell.turns_word} + " if cell.turns else ""
    under = f" (reads {cell.collar})" if cell.collar else ""
    return f"{turns}{cell.divisions} {cell.unit}{under}"


def _hold(hold: HoldView) -> list[str]:
    out = _folded(f"{hold.what}{'' if hold.final else ', interim'}: {hold.gauge}", INDENT, "HOLD  ")
    if hold.high:
        limits = f"max {hold.high}   min {hold.low}   aim {hold.aim}   read {BLANK} {hold.unit}"
    else:
        limits = f"what you found {BLANK}"
    out.append(f"{INDENT}      {limits}")
    for line in words("hold", hold):
        out += _folded(line, f"{INDENT}      ")
    return out


def _inspection(rows: tuple[InspectionView, ...], system: str) -> list[str]:
    out = _title(f"Inspect the finished part: write what you read, {system}", "-")
    for row in rows:
        out.append(f"{row.what[:40]:<42}{row.low:>9} to {row.high:<9} {BLANK}  {row.limits}"[:WIDE].rstrip())
    return out


def _figures(figures: tuple[FigureView, ...]) -> list[str]:
    out = _title("Figures", "-")
    for line in words("figures"):
        out += _folded(line)
    for figure in figures:
        out += ["", *_folded(f"{figure.id}: {figure.name} = {figure.value}")]
        out += _folded(f"{figure.formula}; {figure.inputs}".rstrip("; "), INDENT)
        out += _folded(f"ruled by {figure.ruled_by}; source: {figure.source}", INDENT)
        if figure.spread:
            out += _folded(f"published: {figure.spread}", INDENT)
    return out
