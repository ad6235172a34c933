"""The order of work, derived from what operations need, make and spoil.

1. Facts become edges: who makes a fact stands before who needs it; who spoils a fact after who needs it.
2. Setups are visited in the cheapest order in which each can be finished in one visit (fewest changes of
   machine).
3. Inside a setup the fewest tool changes win, found by a best-first search over "run all that this tool can
   do now". Running everything a tool can do never blocks anything later, because edges only ever wait for
   work to be done; so the search is over tools and not over single operations.
"""

from collections import defaultdict
from collections.abc import Iterable
from heapq import heappop, heappush

from msgspec import Struct

from jobsheets.part.turned import Pin
from jobsheets.planner.operation import Because, Operation, Setup

SEARCH_LIMIT = 4000  # states looked at in one setup before the best found so far is finished greedily


class OrderError(ValueError):
    """No order obeys all the rules: the message names the ring."""


class Ordered(Struct, frozen=True, kw_only=True):
    operations: tuple[Operation, ...]
    setups: tuple[Setup, ...]
    because: tuple[Because, ...]
    tool_changes: int


def edges(
    operations: tuple[Operation, ...], setups: tuple[Setup, ...], pins: Iterable[Pin]
) -> tuple[Because, ...]:
    """Every "before, after, because" that the facts and the maker's pins demand.

    Raises:
        OrderError: a fact is needed that nothing makes, or a pin names no operation.
    """
    makers: dict[str, list[str]] = defaultdict(list)
    needers: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for op in operations:
        for fact in op.makes:
            makers[fact].append(op.id)
    requires = {s.id: s.requires for s in setups}
    result: dict[tuple[str, str], str] = {}
    for op in operations:
        for need in (*op.needs, *requires[op.setup]):
            if need.fact not in makers:
                raise OrderError(f"{op.id} needs '{need.fact}' and nothing makes it")
            needers[need.fact].append((op.id, need.because))
            for maker in makers[need.fact]:
                if maker != op.id:
                    result.setdefault((maker, op.id), need.because)
    for op in operations:
        for spoiled in op.spoils:
            for needer, _ in needers[spoiled.fact]:
                if needer != op.id:
                    result.setdefault((needer, op.id), spoiled.because)
    for pin in pins:
        for before, after in _pinned(pin, operations):
            result[before, after] = pin.why
    return tuple(Because(before=b, after=a, why=why) for (b, a), why in result.items())


# A feature is there once one of these is true; its far mouth, edges and burrs come when they can be reached.
_STANDS = (" roughed", " finished", " drilled", " made", " threaded", " knurled")


def _pinned(pin: Pin, operations: tuple[Operation, ...]) -> Iterable[tuple[str, str]]:
    """Pairs that a pin demands: an operation by id, a step of the trade, or what makes a feature stand."""

    def named(name: str) -> list[str]:
        exact = [op.id for op in operations if name in (op.id, op.motion.name.lower())]
        making = [
            op.id for op in operations if op.feature == name and any(f.endswith(_STANDS) for f in op.makes)
        ]
        found = exact or making
        if not found:
            known = ", ".join(sorted({op.feature for op in operations}))
            raise OrderError(f"a pinned step names '{name}', which is no operation; features are {known}")
        return found

    return [(b, a) for b in named(pin.operation) for a in named(pin.before) if a != b]


def order(operations: tuple[Operation, ...], setups: tuple[Setup, ...], pins: Iterable[Pin] = ()) -> Ordered:
    """Cheapest order: fewest machine changes, then fewest tool changes, then the habit of the trade.

    Raises:
        OrderError: the rules form a ring, or a setup cannot be finished in one visit.
    """
    because = edges(operations, setups, pins)
    index = {op.id: i for i, op in enumerate(operations)}
    before = [0] * len(operations)
    for edge in because:
        before[index[edge.after]] |= 1 << index[edge.before]
    members: dict[str, list[int]] = {s.id: [] for s in setups}
    for i, op in enumerate(operations):
        members[op.setup].append(i)
    visits = _visit_order(operations, [s for s in setups if members[s.id]], members, before)
    done = 0
    placed: list[int] = []
    changes = 0
    for setup in visits:
        sequence, cost = _within(operations, members[setup.id], before, done)
        placed += sequence
        changes += cost
        for i in sequence:
            done |= 1 << i
    numbered = tuple(operations[i] for i in placed)
    return Ordered(operations=numbered, setups=tuple(visits), because=because, tool_changes=changes)


def _visit_order(
    operations: tuple[Operation, ...], setups: list[Setup], members: dict[str, list[int]], before: list[int]
) -> list[Setup]:
    """Order of setups with the fewest changes of machine; each is finished in one visit."""
    masks = [sum(1 << i for i in members[s.id]) for s in setups]
    waits = []
    for k, s in enumerate(setups):
        outside = 0
        for i in members[s.id]:
            outside |= before[i] & ~masks[k]
        waits.append(outside)
    heap: list[tuple[int, tuple[int, ...], int]] = [(0, (), 0)]
    while heap:
        cost, path, done = heappop(heap)
        if len(path) == len(setups):
            return [setups[k] for k in path]
        for k in range(len(setups)):
            if k not in path and not waits[k] & ~done:
                moved = 1 if path and setups[path[-1]].place is not setups[k].place else 0
                heappush(heap, (cost + moved, (*path, k), done | masks[k]))
    raise OrderError(_ring(operations, before))


def _within(
    operations: tuple[Operation, ...], members: list[int], before: list[int], done: int
) -> tuple[list[int], int]:
    """Sequence of one setup with the fewest tool changes."""
    ranked = sorted(members, key=lambda i: (operations[i].rank, i))
    everything = sum(1 << i for i in members)
    heap: list[tuple[int, tuple[int, ...], int, str]] = [(0, (), 0, "")]
    seen: dict[int, int] = {}
    looked = 0
    while heap:
        cost, path, mask, tool = heappop(heap)
        if mask == everything:
            return [ranked[k] for k in path], cost
        if seen.get(mask, cost + 1) <= cost:
            continue
        seen[mask] = cost
        looked += 1
        if looked > SEARCH_LIMIT:
            heap.clear()
        tried: set[str] = set()
        for i in ranked:
            name = operations[i].cutter.name
            if mask >> i & 1 or before[i] & ~(mask | done) or name in tried:
                continue
            tried.add(name)
            new_path, new_mask = _run(operations, ranked, before, done, path, mask, name)
            heappush(heap, (cost + (name != tool), new_path, new_mask, name))
            if looked > SEARCH_LIMIT:
                break
    raise OrderError(_ring(operations, before))


def _run(
    operations: tuple[Operation, ...],
    ranked: list[int],
    before: list[int],
    done: int,
    path: tuple[int, ...],
    mask: int,
    tool: str,
) -> tuple[tuple[int, ...], int]:
    """Everything that `tool` can do now, in the habit of the trade."""
    added = list(path)
    again = True
    while again:
        again = False
        for k, i in enumerate(ranked):
            if operations[i].cutter.name == tool and not mask >> i & 1 and not before[i] & ~(mask | done):
                added.append(k)
                mask |= 1 << i
                again = True
    return tuple(added), mask


def _ring(operations: tuple[Operation, ...], before: list[int]) -> str:
    """Name operations that wait for each other."""
    done = 0
    moved = True
    while moved:
        moved = False
        for i in range(len(operations)):
            if not done >> i & 1 and not before[i] & ~done:
                done |= 1 << i
                moved = True
    stuck = [op.id for i, op in enumerate(operations) if not done >> i & 1]
    if stuck:
        return "these operations wait for each other: " + ", ".join(stuck)
    return "a setup would have to be left and come back to; split it in two"


def broken(operations: tuple[Operation, ...], because: tuple[Because, ...]) -> tuple[Because, ...]:
    """The rules that a given order breaks."""
    at = {op.id: i for i, op in enumerate(operations)}
    return tuple(b for b in because if b.before in at and b.after in at and at[b.before] > at[b.after])
