"""What a shop file may say of tools that cut threads with a single point, and of thread wires."""

from jobsheets.fields import ListOf, Record, Scalar
from jobsheets.shop.shapes import ANGLE, LENGTH, LENGTH_OR_NONE, MATERIAL, TEXT, may, need

THREADING = Record(
    what="a tool that cuts threads",
    fields=(
        need("name", TEXT, "what you call it", "60 degree threading tool"),
        need("angle", ANGLE, "included angle of its point", "60 deg", "55 deg"),
        may("flat", LENGTH_OR_NONE, "flat on its nose; left out: none", "0.004 in"),
        may("nose", LENGTH_OR_NONE, "radius of its nose, in place of a flat; left out: none", "0.1 mm"),
        need("side", LENGTH, "from its point to the side that meets a shoulder", "1 mm"),
        may(
            "where",
            Scalar(what="a side of the work", choices=("outside", "inside")),
            "screws or nuts; left out: outside",
            "inside",
        ),
        may("least_bore", LENGTH, "smallest hole that an inside tool enters", "8 mm"),
        may("reach", LENGTH, "deepest hole that an inside tool threads", "20 mm"),
        may("material", MATERIAL, "left out: HSS", "HSS", "carbide"),
    ),
)
WIRE_SIZES = may(
    "wires", ListOf(item=LENGTH, least=1, most=40), "thread wires: diameter of each set of three", "0.024 in"
)
