"""Sizes that no work can make. Walls that are merely thin are for the planner's checks to judge."""

from jobsheets.part.size import Size
from jobsheets.part.turned import Edge, EdgeKind, End, Hole, Segment, SegmentKind
from jobsheets.recipe.item import Item
from jobsheets.recipe.outline import SAME, shown
from jobsheets.recipe.sizes import Sizer
from jobsheets.standards import thread_form


def check(
    segments: tuple[Segment, ...],
    holes: tuple[Hole, ...],
    rod: Size,
    items: dict[str, Item],
    sizer: Sizer,
) -> None:
    """Keep a fault for each size that cannot be, with a number that works."""
    draft = _Draft(segments, holes, rod, items, sizer)
    draft.outline()
    for index in range(len(segments)):
        draft.edges(index)
    for hole in holes:
        draft.hole(hole)
    draft.meeting()


class _Draft:
    def __init__(
        self,
        segments: tuple[Segment, ...],
        holes: tuple[Hole, ...],
        rod: Size,
        items: dict[str, Item],
        sizer: Sizer,
    ) -> None:
        self.segments = segments
        self.holes = holes
        self.rod = rod
        self.items = items
        self.sizer = sizer
        self.length = sum(s.length.nominal for s in segments)

    def text(self, value: float) -> str:
        return shown(value, self.sizer)

    def fault(self, feature: str, name: str, wrong: str, right: str) -> None:
        node, path = self.items[feature].at(name)
        self.sizer.faults.add(node, path, wrong, right)

    def outline(self) -> None:
        """No segment larger than the bar; grooves smaller than what they lie between."""
        for index, one in enumerate(self.segments):
            lead, size, bar = self.items[one.id].lead, one.diameter.nominal, self.rod.nominal
            most = bar if one.kind is SegmentKind.THREAD or one.as_stock else bar - SAME
            if size > most + (0.0 if most < bar else SAME):
                self.fault(
                    one.id,
                    lead,
                    f"{self.text(size)}, larger than the bar ({self.text(bar)})"
                    if size > bar + SAME
                    else f"{self.text(size)}, that of the bar: nothing to cut",
                    f"{'at most' if most == bar else 'less than'} {self.text(bar)}, or a larger bar",
                )
            elif one.kind is SegmentKind.GROOVE:
                self._groove(one, index)

    def _groove(self, one: Segment, index: int) -> None:
        beside = [*self.segments[max(0, index - 1) : index], *self.segments[index + 1 : index + 2]]
        smallest = min((s.diameter.nominal for s in beside), default=self.rod.nominal)
        if one.diameter.nominal >= smallest - SAME:
            name = next((s.id for s in beside if s.diameter.nominal == smallest), "the bar")
            self.fault(
                one.id,
                "groove",
                f"{self.text(one.diameter.nominal)}, not smaller than {name} ({self.text(smallest)})",
                f"less than {self.text(smallest)}",
            )

    def edges(self, index: int) -> None:
        """Forms of edges stand on outer corners and are no larger than what they are cut from."""
        one = self.segments[index]
        before = self.segments[index - 1] if index else None
        after = self.segments[index + 1] if index + 1 < len(self.segments) else None
        for name, edge, beside, end in (
            ("front", one.front, before, End.FRONT),
            ("back", one.back, after, End.BACK),
        ):
            if edge is not None:
                self._edge(one, name, edge, beside, end)
        taken = sum(e.size.nominal for e in (one.front, one.back) if e is not None)
        if one.front and one.back and taken > one.length.nominal + SAME:
            self.fault(
                one.id,
                "length",
                f"{self.text(one.length.nominal)}, shorter than its two edges together ({self.text(taken)})",
                f"at least {self.text(taken)}, or smaller edges",
            )

    def _edge(self, one: Segment, name: str, edge: Edge, beside: Segment | None, end: End) -> None:
        item = self.items[one.id].item(name)
        assert item is not None
        node, path = item.at(edge.kind.value)
        radius = one.diameter.nominal / 2.0
        if beside is not None and edge.kind is EdgeKind.DOME:
            self.sizer.faults.add(node, path, "a dome inside the part", "a chamfer or a radius")
            return
        if beside is not None and beside.diameter.nominal >= one.diameter.nominal - SAME:
            self.sizer.faults.add(
                node,
                path,
                f"no outer corner at the {name} of {one.id}: {beside.id} is not smaller",
                f"no {edge.kind.value} there",
            )
            return
        across = radius
        if edge.kind is not EdgeKind.DOME:
            across -= beside.diameter.nominal / 2.0 if beside is not None else self._opening(end) / 2.0
        most = min(across, one.length.nominal)
        if edge.size.nominal > most + SAME:
            self.sizer.faults.add(
                node,
                path,
                f"{self.text(edge.size.nominal)}, larger than {one.id} has room for ({self.text(most)})",
                f"at most {self.text(most)}",
            )

    def _opening(self, end: End) -> float:
        """Largest diameter of the holes that open on an end face, mm."""
        open_there = [h for h in self.holes if h.depth is None or h.end is end]
        return max((self.bore(h) for h in open_there), default=0.0)

    @staticmethod
    def bore(hole: Hole) -> float:
        """Largest diameter that a hole has below its mouth, mm."""
        return hole.thread.thread.major if hole.thread else hole.diameter.nominal

    def span(self, hole: Hole) -> tuple[float, float]:
        if hole.depth is None:
            return 0.0, self.length
        depth = hole.depth.nominal
        return (0.0, depth) if hole.end is End.FRONT else (self.length - depth, self.length)

    def hole(self, hole: Hole) -> None:
        """A hole ends inside the part, and inside the wall of every segment it passes."""
        if hole.depth is not None and hole.depth.nominal >= self.length - SAME:
            through = "" if self.items[hole.id].lead == "counterbore" else ", or through: true"
            self.fault(
                hole.id,
                "depth",
                f"{self.text(hole.depth.nominal)}, and the part is {self.text(self.length)} long",
                f"less than {self.text(self.length)}{through}",
            )
            return
        low, high = self.span(hole)
        at = 0.0
        for one in self.segments:
            start, at = at, at + one.length.nominal
            if start < high - SAME and at > low + SAME:
                self._wall(hole, one)
        self._mouth(hole)

    def _wall(self, hole: Hole, one: Segment) -> None:
        outer = thread_form.root_diameter(one.thread.thread) if one.thread else one.diameter.nominal
        bore = self.bore(hole)
        if bore >= outer - SAME:
            what = f"{hole.thread.thread.name} ({self.text(bore)})" if hole.thread else self.text(bore)
            root = " at the root of its thread" if one.thread else ""
            self.fault(
                hole.id,
                self.items[hole.id].lead,
                f"{what} leaves no wall in {one.id}, which is {self.text(outer)}{root}",
                f"less than {self.text(outer)}, or a larger {one.id}",
            )

    def _mouth(self, hole: Hole) -> None:
        if hole.mouth is None:
            return
        ends = [self.segments[0 if hole.end is End.FRONT else -1]]
        outer = min(s.diameter.nominal for s in ends)
        if not hole.diameter.nominal < hole.mouth.nominal < outer:
            self.fault(
                hole.id,
                "mouth",
                f"{self.text(hole.mouth.nominal)} does not lie between the hole and the outside",
                f"more than {self.text(hole.diameter.nominal)}, less than {self.text(outer)}",
            )

    def meeting(self) -> None:
        """Holes that end inside leave something between them."""
        for front in self.holes:
            for back in self.holes:
                if (
                    front.end is not End.FRONT
                    or back.end is not End.BACK
                    or not front.depth
                    or not back.depth
                ):
                    continue
                room = self.length - back.depth.nominal
                if front.depth.nominal > room - SAME:
                    self.fault(
                        front.id,
                        "depth",
                        f"{self.text(front.depth.nominal)} runs into {back.id}, which comes from the back",
                        f"less than {self.text(room)}, or through: true",
                    )
