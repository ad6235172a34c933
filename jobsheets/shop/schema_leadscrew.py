"""What a shop file may say of the leadscrew and the change gears."""

from jobsheets.fields import ListOf, Record
from jobsheets.shop.shapes import COUNT, LENGTH, NUMBER, PITCH, TOOTH, may, need

BANJO = Record(
    what="the banjo that carries change gears",
    fields=(
        need("tooth", TOOTH, "size of the teeth of the gears: module, or diametral pitch", "1 mm", "24 DP"),
        need("span", LENGTH, "centre of the stud to centre of the leadscrew", "90 mm"),
        need("slot_from", LENGTH, "centre of the leadscrew to that of the banjo stud, nearest", "35 mm"),
        need("slot_to", LENGTH, "the same, farthest", "80 mm"),
        need("shaft", LENGTH, "widest thing on a shaft that a passing gear must clear: bush or nut", "16 mm"),
    ),
)
CHART_ROW = Record(
    what="a row of the gear chart",
    fields=(
        need("cuts", PITCH, "the thread that the row is for", "20 tpi", "0.8 mm"),
        need(
            "gears",
            ListOf(item=COUNT, least=2, most=4),
            "from the stud to the leadscrew: driver, driven, and again where it is compound; no idlers",
        ),
    ),
)
LEADSCREW = Record(
    what="a leadscrew",
    fields=(
        need("pitch", PITCH, "by pitch gauge on the screw itself", "16 tpi", "2 mm"),
        may("dial_teeth", COUNT, "teeth of the threading dial's gear; left out: no threading dial", "16"),
        may("dial_marks", COUNT, "marks of the threading dial", "8"),
        may(
            "gears",
            ListOf(item=COUNT, most=60),
            "teeth of every change gear owned; a pair stands twice",
            "20",
        ),
        may("stud", NUMBER, "turns of the stud for one turn of the spindle; left out: 1", "0.5"),
        may("banjo", BANJO, "where gears can stand; left out: each train has to be tried for room"),
        may("chart", ListOf(item=CHART_ROW, most=120), "the chart printed on the machine, to be checked"),
    ),
)
