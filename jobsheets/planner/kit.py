"""What to lay out before starting, in the order of reach."""

from jobsheets.planner.kit_besides import besides, read_with
from jobsheets.planner.operation import Kit, Operation, Setup
from jobsheets.shop.shop import Shop

GROUPS = (
    "holding",
    "end mill",
    "turning tool",
    "grooving tool",
    "boring bar",
    "knurling tool",
    "threading tool",
    "change gears",
    "parting blade",
    "centre drill",
    "twist drill",
    "reamer",
    "countersink",
    "tap",
    "die",
    "live centre",
    "bench tool",
)


def kit(shop: Shop, setups: tuple[Setup, ...], operations: tuple[Operation, ...]) -> tuple[Kit, ...]:
    """Holders, cutting tools and gauges with the operations that use them, each once, first used first."""
    tools: dict[tuple[str, str], list[int]] = {}
    notes: dict[tuple[str, str], str] = {}
    for op in operations:
        key = (op.cutter.group, op.cutter.name)
        tools.setdefault(key, []).append(op.number)
        if op.cutter.consequence:
            notes[key] = op.cutter.consequence
    held = [op.number for op in operations if op.on_centre]
    if held:
        tools[("live centre", "live centre")] = held
    for op in operations:
        if op.gearing is not None:
            teeth = (*op.gearing.gears, op.gearing.idler) if op.gearing.idler else op.gearing.gears
            tools["change gears", f"change gears {', '.join(map(str, teeth))}"] = [op.number]
    gauges: dict[str, list[int]] = {}
    for op in operations:
        for hold in op.holds:
            gauges.setdefault(hold.gauge, []).append(op.number)
        if read := read_with(shop, op):
            gauges.setdefault(read, []).append(op.number)
    for group, name, number in besides(shop, setups, operations):
        into = gauges.setdefault(name, []) if group == "gauge" else tools.setdefault((group, name), [])
        into.append(number)
    listed = [
        Kit(group=g, name=n, used_by=tuple(used), note=notes.get((g, n), ""))
        for (g, n), used in tools.items()
    ]
    measuring = [Kit(group="gauge", name=n, used_by=tuple(dict.fromkeys(used))) for n, used in gauges.items()]
    return (*sorted(listed, key=lambda k: GROUPS.index(k.group)), *measuring)
