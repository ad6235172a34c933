"""A shop: machines, tools, stock, and the rules of the house."""

from msgspec import Struct, field

from jobsheets.shop.machines import Lathe, Mill
from jobsheets.shop.tools import Bar, Tooling


class HouseRules(Struct, frozen=True, kw_only=True):
    """The maker's own limits. Each default is common practice (docs/house-rules.md), and can be set.

    Lengths in mm, shares as numbers from 0 to 1.
    """

    jaw_clearance: float = 3.0  # between the tool and the jaws at the deepest cut
    facing: float = 0.5  # taken off a sawn end
    part_off_allowance: float = 0.5  # left on the parted face for facing it afterwards
    saw_allowance: float = 2.0  # kerf and crooked cut, added to the length of bar to saw
    least_grip: float = 12.0  # shortest grip in a chuck
    grip_to_diameter: float = 1.0  # grip at least this many diameters
    free_stick_out: float = 3.0  # diameters out of the chuck without the live centre
    most_stick_out: float = 8.0  # diameters out of the chuck at all
    wall: float = 1.0  # least wall left anywhere in metal
    thread_wall: float = 0.8  # least wall between a thread and an outside
    engagement: float = 1.5  # thread engagement at least this many diameters in a nut
    finish_depth: float = 0.15  # depth of the finishing cut on the radius
    most_depth: float = (
        0.75  # deepest roughing cut on the radius, in steel, before the lathe's rigidity share
    )
    tap_margin: float = 1.0  # threads of clear hole below the tap's lead
    pilot_above: float = 6.0  # drills larger than this follow a pilot
    pilot_share: float = 0.25  # pilot diameter as a share of the drill's
    tap_by_hand: bool = True  # the spindle is turned by hand for taps and dies
    gauge_ratio: float = 10.0  # a gauge should resolve a tenth of the limits it proves
    deburr_edge: float = 0.2  # edge broken where the recipe asks for none
    chase_after_cross_hole: bool = True  # run the tap through again after a cross hole
    dome_step: float = 0.5  # advance between the steps of a dome
    thread_swivel: float = 29.5  # top slide in screwcutting, degrees from the cross slide; 0: straight in
    thread_side_shift: bool = False  # straight in, the top slide moved sideways by as much as the flank asks
    thread_falling: bool = False  # cuts fall evenly, in place of keeping the area of the chip
    thread_first_cut: float = 0.25  # deepest first cut of a screwcut thread, square to the axis
    spring_passes: float = 2  # passes at the full depth again
    reaction_time: float = 1.0  # s from seeing the mark to the half-nuts open
    bend_share: float = 0.25  # share of a size's limits that bending under the last cut may take
    stick_out_speed: float = 0.5  # share of speed and depth left at the most stick-out
    parting_speed: float = 0.5  # share of the roughing speed at which a blade parts off
    threading_speed: float = 0.25  # share of the roughing speed for a single-point thread
    least_chip: float = 0.005  # thinnest chip for each edge; below it an edge rubs


class Proven(Struct, frozen=True, kw_only=True):
    """A speed or feed that the maker has found good: it stands before those of the books."""

    material: str  # id
    operation: str  # as the cutting tables name it
    tool: str  # "HSS" or "carbide"
    speed: float | None = None  # m/min
    feed: float | None = None  # mm/rev


class Shop(Struct, frozen=True, kw_only=True):
    name: str
    system: str  # "in" or "mm": what the dials and the habit are
    lathe: Lathe
    mill: Mill | None
    tooling: Tooling
    stock: tuple[Bar, ...] = ()
    house: HouseRules = field(default_factory=HouseRules)
    proven: tuple[Proven, ...] = ()
