"""What a recipe may say of the features of a turned part."""

from jobsheets.fields import Field, OneOf, Record, Scalar
from jobsheets.recipe.shapes import FLAG, ID, LENGTH, LIMITS, TEXT, THREAD, may, need

_ID = need("id", ID, "name of the feature, for other features, fits and pins", "neck")
_END = Scalar(what="an end of the part", choices=("front", "back"))
_FORM = Scalar(what="a form of knurl", choices=("straight", "diamond"))
_HAND = Scalar(what="the hand of a thread", choices=("right", "left"))
_GENERAL = "left out: the recipe's default"
_EDGE_LIMITS = may("limits", LIMITS, "limits of this size; left out: the recipe's default", "±0.1 mm")

EDGE = OneOf(
    what="a form of an edge",
    records=(
        (
            "chamfer",
            Record(
                what="a chamfer",
                fields=(need("chamfer", LENGTH, "leg of the chamfer, 45 degrees", "0.3 mm"), _EDGE_LIMITS),
            ),
        ),
        (
            "radius",
            Record(
                what="a rounded edge",
                fields=(need("radius", LENGTH, "radius of the edge", "1 mm"), _EDGE_LIMITS),
            ),
        ),
        (
            "dome",
            Record(
                what="a dome",
                fields=(
                    need("dome", LENGTH, "height of a ball cap over the whole end face", "0.06 in"),
                    _EDGE_LIMITS,
                ),
            ),
        ),
    ),
)
_EDGES = (
    may("front", EDGE, "form of the edge at its front; left out: edge broken only"),
    may("back", EDGE, "form of the edge at its back; left out: edge broken only"),
)


def _limits(of: str) -> tuple[Field, Field]:
    """Limits of the main size, and of its length, width or depth."""
    return (
        may("limits", LIMITS, f"limits of the diameter; {_GENERAL}", "±0.05 mm", "f8"),
        may(f"{of}_limits", LIMITS, f"limits of the {of}; {_GENERAL}", "+0/-0.1 mm"),
    )


_LENGTH = need("length", LENGTH, "length along the axis", "5/16 in")
_DEPTH = may("depth", LENGTH, "depth of full diameter from the mouth; this or through", "neck_length")
_THROUGH = may("through", FLAG, "through the part; this or a depth", "true")
_FROM = may("from", _END, "the end it is entered from; left out: front", "back")
_BOTTOM = may(
    "bottom",
    Scalar(what="a bottom of a hole", choices=("blind", "flat")),
    "blind leaves the drill point, flat cuts it away; left out: blind where drilled, flat where bored",
    "flat",
)
_MOUTH = (
    may("mouth", LENGTH, "largest diameter of a chamfer at the mouth; left out: edge broken only", "5.5 mm"),
    may("mouth_limits", LIMITS, f"limits of the mouth; {_GENERAL}"),
)
_HOLE = (_DEPTH, _THROUGH, _FROM, _BOTTOM, *_MOUTH)


def _class(example: str) -> Field:
    return may("class", TEXT, "class of the thread; left out: the usual one of its standard", example)


_THREAD_HAND = may("hand", _HAND, "left out: right")
_STARTS = may(
    "starts",
    Scalar(what="a number of starts", choices=("1", "2", "3", "4")),
    "starts of the thread, cut with a single point; left out: 1",
    "2",
)


def _method(tool: str) -> Field:
    return may(
        "method",
        Scalar(what="a way to cut a thread", choices=(tool, "single point")),
        f"how it is cut; left out: by {tool} where one is owned, else with a single point",
        "single point",
    )


TURN = Record(
    what="a turned length",
    fields=(
        _ID,
        need("turn", LENGTH, "diameter; that of the bar leaves the bar as bought", "neck"),
        _LENGTH,
        *_limits("length"),
        *_EDGES,
    ),
)
GROOVE = Record(
    what="a groove",
    fields=(
        _ID,
        need("groove", LENGTH, "diameter at its floor", "neck - 1 mm"),
        need("width", LENGTH, "width along the axis", "1.5 mm"),
        *_limits("width"),
    ),
)
DIE = Record(
    what="an outside thread",
    fields=(
        _ID,
        need("die", THREAD, "thread, or the input that holds it", "M5x0.8"),
        _LENGTH,
        may("length_limits", LIMITS, f"limits of the length; {_GENERAL}"),
        _class("6g"),
        _THREAD_HAND,
        _method("die"),
        _STARTS,
        *_EDGES,
    ),
)


def _hole(lead: str, what: str, help_: str, example: str) -> tuple[str, Record]:
    return lead, Record(
        what=what, fields=(_ID, need(lead, LENGTH, help_, example), *_limits("depth"), *_HOLE)
    )


TAP = Record(
    what="a tapped hole",
    fields=(
        _ID,
        need("tap", THREAD, "thread, or the input that holds it", "8-32 UNC"),
        _class("2B"),
        _THREAD_HAND,
        _method("tap"),
        _STARTS,
        may("depth_limits", LIMITS, f"limits of the depth of full thread; {_GENERAL}"),
        *_HOLE,
    ),
)
COUNTERBORE = Record(
    what="a counterbore",
    fields=(
        _ID,
        need("counterbore", LENGTH, "diameter", "9 mm"),
        need("depth", LENGTH, "depth from the end, flat at the bottom", "2 mm"),
        *_limits("depth"),
        _FROM,
        *_MOUTH,
    ),
)
CROSS_HOLE = Record(
    what="a cross hole",
    fields=(
        _ID,
        need("cross_hole", LENGTH, "diameter", "1/8 in"),
        need("at", ID, "the turned length that it crosses", "head"),
        may("offset", LENGTH, "centre from the front of that length; left out: its middle", "3 mm"),
        may("through", FLAG, "out at the other side; left out: true"),
        *_limits("offset"),
    ),
)
KNURL = Record(
    what="a knurl",
    fields=(
        _ID,
        need(
            "knurl",
            Scalar(what="a form of knurl", choices=("straight", "diamond")),
            "what is rolled",
            "diamond",
        ),
        need("on", ID, "the turned length that it covers", "head"),
        need("pitch", LENGTH, "from ridge to ridge around the work", "0.8 mm"),
    ),
)

FEATURES: tuple[tuple[str, Record], ...] = (
    ("turn", TURN),
    ("groove", GROOVE),
    ("die", DIE),
    _hole("drill", "a drilled hole", "diameter", "5 mm"),
    _hole("bore", "a bored hole", "diameter", "8 mm"),
    _hole("ream", "a reamed hole", "diameter", "6 mm"),
    ("counterbore", COUNTERBORE),
    ("tap", TAP),
    ("cross_hole", CROSS_HOLE),
    ("knurl", KNURL),
)
FEATURE = OneOf(what="a feature", records=FEATURES)
