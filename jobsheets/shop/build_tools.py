"""Tools, gauges and stock out of a checked shop file, with the faults that only they can have."""

from collections.abc import Iterable

from jobsheets.shop import build_threading, notation
from jobsheets.shop.drill_sets import owned_drills
from jobsheets.shop.entry import Entry
from jobsheets.shop.tools import (
    Bar,
    CentreDrill,
    Countersink,
    Die,
    EndMill,
    Gauge,
    GaugeKind,
    LatheTool,
    LatheToolKind,
    Mandrel,
    Reamer,
    Tap,
    TapKind,
    Tooling,
    ToolMaterial,
)
from jobsheets.standards import centre_drills
from jobsheets.standards.threads import Thread

DIE_LEAD = 2.5  # chamfered threads of a hand die; common practice 2 to 3
TAP_REACH = 25.0
MANDREL_GRIP = 20.0  # mm; a usual depth of jaws on a bench lathe; common practice
NOSE = 0.2  # a freshly stoned hand-ground tool; common practice
SHANK = 8.0
BAR_SHARE = (
    0.8  # of the smallest hole that a boring bar enters: the rest is edge and room for chips; common practice
)

# Chamfered threads, from and to below: the reason why a tap is named by its lead and not by "plug".
LEADS = {TapKind.TAPER: (6.0, 12.01), TapKind.SECOND: (3.0, 6.0), TapKind.BOTTOMING: (1.0, 3.0)}
THREAD_GAUGES = (GaugeKind.THREAD_PLUG, GaugeKind.MATING_THREAD)
BY_NAME = (GaugeKind.PITCH, GaugeKind.WIRES)  # gauges without a resolution of their own


def tooling(entry: Entry, gauges: tuple[Gauge, ...], system: str) -> Tooling:
    """Everything under `tools`, with the gauges, to be told of in the units of `system`."""
    chuck = entry.entry("drill_chuck")
    return Tooling(
        drills=owned_drills(entry.entry("drills")),
        centre_drills=_centre_drills(entry),
        countersinks=tuple(_countersink(e) for e in entry.entries("countersinks")),
        end_mills=_end_mills(entry),
        reamers=_reamers(entry),
        taps=_taps(entry),
        dies=_dies(entry),
        lathe_tools=_lathe_tools(entry),
        mandrels=tuple(_mandrel(e) for e in entry.entries("mandrels")),
        live_centre=entry.entry("live_centre").get("stands_out", notation.length)
        if "live_centre" in entry
        else None,
        drill_chuck=_drill_chuck(chuck) if "drill_chuck" in entry else None,
        die_holder=entry.opt("die_holder", notation.flag, False),
        v_block=entry.opt("v_block", notation.flag, False),
        gauges=gauges,
        system=system,
    )


def gauges(owner: Entry) -> tuple[Gauge, ...]:
    """Everything under `gauges`, finest first within a kind of the file's order."""
    return tuple(_gauge(e) for e in owner.entries("gauges"))


def stock(owner: Entry) -> tuple[Bar, ...]:
    """Bars on the rack, each bar by itself."""
    bars: list[Bar] = []
    for entry in owner.entries("stock"):
        pieces = entry.opt("pieces", notation.count, 1)
        if pieces > 100:
            entry.fault("pieces", "more bars than a rack holds", "1 to 100")
            continue
        bar = Bar(
            material=entry.get("material", notation.material),
            diameter=entry.get("diameter", notation.length),
            length=entry.get("length", notation.length),
        )
        bars.extend([bar] * pieces)
    return tuple(bars)


def _once(entry: Entry, name: str, keys: Iterable[object], seen: set[object], what: str) -> None:
    for key in keys:
        if key in seen:
            entry.fault(name, f"{what} that is listed already", "each one once")
        seen.add(key)


def _drill_chuck(entry: Entry) -> tuple[float, float, float]:
    least, most = entry.get("from", notation.length_or_none), entry.get("to", notation.length)
    if least >= most:
        entry.fault("to", "a drill chuck that grips nothing", "more than from")
    return least, most, entry.get("stands_out", notation.length)


def _centre_drills(owner: Entry) -> tuple[CentreDrill, ...]:
    found: list[CentreDrill] = []
    seen: set[object] = set()
    for entry in owner.either("centre_drills", "name"):
        name = entry.text("name")
        _once(entry, "name", [name], seen, "a centre drill")
        sizes = [entry.opt(n, notation.length, 0.0) for n in ("pilot", "body", "pilot_length")]
        if not any(sizes):
            standard = centre_drills.find(name)
            if standard is None:
                known = ", ".join(centre_drills.names())
                entry.fault("name", "no standard centre drill", f"one of {known}; or its pilot and body")
                continue
            sizes = [standard.pilot, standard.body, standard.pilot_length]
        if not (0.0 < sizes[0] < sizes[1] and sizes[2] > 0.0):
            entry.fault("", "a centre drill half told", "pilot, body and pilot_length; the pilot is thinner")
            continue
        found.append(CentreDrill(name=name, pilot=sizes[0], body=sizes[1], pilot_length=sizes[2]))
    return tuple(sorted(found, key=lambda c: c.pilot))


def _countersink(entry: Entry) -> Countersink:
    diameter, angle = entry.get("diameter", notation.length), entry.get("angle", notation.angle)
    name = entry.opt("name", notation.plain, f"{angle:g} degree countersink, {entry.text('diameter')}")
    return Countersink(name=name, diameter=diameter, angle=angle)


def _end_mills(owner: Entry) -> tuple[EndMill, ...]:
    found: list[EndMill] = []
    seen: set[object] = set()
    for entry in owner.entries("end_mills"):
        diameter = entry.get("diameter", notation.length)
        _once(entry, "diameter", [round(diameter, 4)], seen, "an end mill")
        name = entry.opt("name", notation.plain, f"end mill {entry.text('diameter')}")
        flutes = int(entry.get("flutes", notation.number))
        found.append(
            EndMill(name=name, diameter=diameter, flutes=flutes, flute=entry.get("flute", notation.length))
        )
    return tuple(sorted(found, key=lambda e: e.diameter))


def _reamers(owner: Entry) -> tuple[Reamer, ...]:
    found: list[Reamer] = []
    seen: set[object] = set()
    for entry in owner.entries("reamers"):
        diameter = entry.get("diameter", notation.length)
        _once(entry, "diameter", [round(diameter, 4)], seen, "a reamer")
        name = entry.opt("name", notation.plain, f"reamer {entry.text('diameter')}")
        found.append(Reamer(name=name, diameter=diameter, flute=entry.get("flute", notation.length)))
    return tuple(sorted(found, key=lambda r: r.diameter))


def _hand(entry: Entry) -> bool:
    return entry.opt("hand", notation.plain, "right") == "left"


def _leads(owner: Entry) -> tuple[tuple[TapKind, float], ...]:
    entry, found = owner.entry("leads"), []
    for kind in TapKind:
        if kind not in entry:
            continue
        count = entry.get(kind, notation.number)
        least, below = LEADS[kind]
        if least <= count < below:
            found.append((kind, count))
            continue
        fits = [k.value for k, (low, high) in LEADS.items() if low <= count < high]
        right = f"{fits[0]}: {count:g}" if fits else "1 to 12 chamfered threads, counted on the tap"
        entry.fault(kind, f"not the lead of a {kind} tap", right)
    if not entry.node.entries:
        owner.fault("leads", "no tap named", "taper, second or bottoming, each with its chamfered threads")
    return tuple(found)


def _taps(owner: Entry) -> tuple[Tap, ...]:
    found: list[Tap] = []
    seen: set[object] = set()
    for entry in owner.entries("taps"):
        leads, left = _leads(entry), _hand(entry)
        reach = entry.opt("reach", notation.length, TAP_REACH)
        for thread in entry.values("threads", notation.thread):
            _once(entry, "threads", [(thread.name, kind, left) for kind, _ in leads], seen, "a tap")
            found.extend(
                Tap(thread=thread, kind=kind, lead_threads=count, left=left, reach=reach)
                for kind, count in leads
            )
    return tuple(found)


def _dies(owner: Entry) -> tuple[Die, ...]:
    found: list[Die] = []
    seen: set[object] = set()
    for entry in owner.entries("dies"):
        left, adjustable = _hand(entry), entry.opt("adjustable", notation.flag, True)
        lead = entry.opt("lead_threads", notation.number, DIE_LEAD)
        if not 0.5 <= lead <= 8.0:
            entry.fault("lead_threads", "not the lead of a die", "0.5 to 8 chamfered threads")
        for thread in entry.values("threads", notation.thread):
            _once(entry, "threads", [(thread.name, left)], seen, "a die")
            found.append(Die(thread=thread, adjustable=adjustable, lead_threads=lead, left=left))
    return tuple(found)


def _lathe_tools(owner: Entry) -> tuple[LatheTool, ...]:
    found = [
        *(_lathe_tool(e, LatheToolKind.TURNING) for e in owner.entries("turning")),
        *(_lathe_tool(e, LatheToolKind.CHAMFER) for e in owner.entries("chamfering")),
        *(_lathe_tool(e, LatheToolKind.PARTING) for e in owner.entries("parting")),
        *(_lathe_tool(e, LatheToolKind.GROOVING) for e in owner.entries("grooving")),
        *(_lathe_tool(e, LatheToolKind.BORING) for e in owner.entries("boring")),
        *(_knurl(e) for e in owner.entries("knurls")),
        *(build_threading.threading_tool(e) for e in owner.entries("threading")),
    ]
    names = [tool.name for tool in found]
    for name in sorted({n for n in names if names.count(n) > 1}):
        owner.fault("", f"two lathe tools called {name}", "a name for each")
    return tuple(found)


def _lathe_tool(entry: Entry, kind: LatheToolKind) -> LatheTool:
    turning, boring = kind is LatheToolKind.TURNING, kind is LatheToolKind.BORING
    least_bore = entry.opt("least_bore", notation.length, 0.0)
    nose = NOSE if turning or boring else 0.0
    shank = SHANK if turning else BAR_SHARE * least_bore
    return LatheTool(
        name=entry.text("name"),
        kind=kind,
        material=entry.opt("material", ToolMaterial, ToolMaterial.HSS),
        nose=entry.opt("nose", notation.length_or_none, nose),
        width=entry.opt("shank" if turning or boring else "width", notation.length_or_none, shank),
        reach=entry.opt("reach", notation.length, 0.0),
        least_bore=least_bore,
    )


def _knurl(entry: Entry) -> LatheTool:
    name = entry.opt("name", notation.plain, f"{entry.text('form')} knurl, {entry.text('pitch')}")
    return LatheTool(
        name=name,
        kind=LatheToolKind.KNURLING,
        material=ToolMaterial.HSS,
        form=entry.text("form"),
        pitch=entry.get("pitch", notation.pitch),
    )


def _mandrel(entry: Entry) -> Mandrel:
    thread: Thread = entry.get("thread", notation.thread)
    return Mandrel(
        name=entry.opt("name", notation.plain, f"threaded mandrel {thread.name}"),
        thread=thread,
        body=entry.get("body", notation.length),
        grip=entry.opt("grip", notation.length, MANDREL_GRIP),
        length=entry.get("length", notation.length),
    )


def _gauge(entry: Entry) -> Gauge:
    kind = GaugeKind(entry.text("kind"))
    threads = entry.values("threads", notation.thread)
    by_thread = kind in THREAD_GAUGES
    if by_thread and not threads:
        entry.fault("threads", "a thread gauge without a thread", "threads: the sizes that are owned")
    if not by_thread and kind not in BY_NAME and "resolution" not in entry:
        entry.fault("resolution", "a gauge without its resolution", "resolution: such as 0.001 in or 0.02 mm")
    wires = build_threading.wires(entry, kind)
    least, most = entry.opt("from", notation.length_or_none, 0.0), entry.opt("to", notation.length, 150.0)
    if least >= most:
        entry.fault("to", "a gauge that measures nothing", "more than from")
    return Gauge(
        name=entry.opt("name", notation.plain, kind.value),
        kind=kind,
        resolution=entry.opt("resolution", notation.length, 0.0),
        least=least,
        most=most,
        threads=threads,
        wires=wires,
    )
