"""What every builder of operations looks at: the part, the shop, the material and the settled targets."""

from msgspec import Struct, field

from jobsheets.part.size import Size
from jobsheets.part.turned import End, TurnedPart
from jobsheets.planner.operation import HoldPoint
from jobsheets.planner.screwcut_values import Screwcut, ThreadChoice
from jobsheets.planner.targets import Targets
from jobsheets.shop import owned
from jobsheets.shop.machines import Dial, Lathe
from jobsheets.shop.shop import HouseRules, Shop
from jobsheets.standards.materials import Material


class JobView(Struct, frozen=True, kw_only=True):
    """Part, shop, material and settled sizes of one job."""

    part: TurnedPart
    shop: Shop
    material: Material
    targets: Targets
    first: frozenset[str] = frozenset()  # segments whose final diameter stands after the first setup
    threads: dict[str, ThreadChoice] = field(default_factory=dict)  # by the id of the segment or hole

    def screwcut(self, feature: str) -> Screwcut | None:
        """How a thread is cut with a single point; None where it is cut by tap or die."""
        choice = self.threads.get(feature)
        return choice.single if choice is not None else None

    @property
    def lathe(self) -> Lathe:
        return self.shop.lathe

    @property
    def house(self) -> HouseRules:
        return self.shop.house

    @property
    def cross(self) -> Dial:
        return self.shop.lathe.cross

    @property
    def lengthwise(self) -> Dial:
        return self.targets.z_dial

    def standing(self, out: End) -> str:
        """Surface that diameters are counted from: the bar, or the last segment once it is cut."""
        last = self.part.segments[-1]
        return last.id if out is End.BACK and (last.id in self.first or last.as_stock) else "bar"

    @property
    def through(self) -> float:
        """Depth that a through hole reaches in the first setup: past the parting cut, mm."""
        return self.targets.parted + 1.0

    def hold(
        self,
        id: str,
        what: str,
        size: Size,
        where: str,
        *,
        final: bool = True,
        aim: float | None = None,
        over: str = "",
        under: str = "",
    ) -> HoldPoint:
        """A hold point with the gauge that proves it. `where` is outside, inside or depth."""
        pick = owned.gauge_for(self.shop.tooling, size.aim, size.width, self.house, where)
        name = pick.tool.name if pick.tool is not None else f"{pick.wanted}: {pick.consequence}"
        return HoldPoint(
            id=id,
            what=what,
            low=size.low,
            high=size.high,
            aim=size.aim if aim is None else aim,
            gauge=name,
            if_over=over,
            if_under=under,
            final=final,
        )
