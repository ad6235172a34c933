"""The single values of a shop file as shapes, each with the notation that reads it."""

from jobsheets.fields import Field, Scalar, Shape
from jobsheets.shop import notation

LENGTH = Scalar(what="a length with its unit, such as 0.050 in or 1.5 mm", grammar=notation.length)
LENGTH_OR_NONE = Scalar(
    what="a length with its unit, 0 mm where there is none", grammar=notation.length_or_none
)
PITCH = Scalar(what="a pitch, such as 1.5 mm or 16 tpi", grammar=notation.pitch)
TOOTH = Scalar(what="the size of a gear's teeth, such as 1 mm (module) or 24 DP", grammar=notation.tooth)
ANGLE = Scalar(what="an angle, such as 118 deg", grammar=notation.angle)
NUMBER = Scalar(what="a plain number", grammar=notation.number)
COUNT = Scalar(what="a whole number", grammar=notation.count)
DIVISIONS = Scalar(what="the divisions of a collar", grammar=notation.divisions)
LABEL = Scalar(what="the label of a division, such as 0.001 in", grammar=notation.label)
SHARE = Scalar(what="a share, more than 0 and at most 1", grammar=notation.share)
RPM = Scalar(what="a speed in rev/min", grammar=notation.rpm)
WATTS = Scalar(what="a power, such as 550 W or 3/4 hp", grammar=notation.watts)
SURFACE_SPEED = Scalar(what="a cutting speed, such as 90 ft/min or 28 m/min", grammar=notation.surface_speed)
FLAG = Scalar(what="true or false", choices=("true", "false"))
TEXT = Scalar(what="a short text")
THREAD = Scalar(what="a thread, such as 8-32 UNC or M5x0.8", grammar=notation.thread)
HAND = Scalar(what="the hand of a thread", choices=("right", "left"))
MATERIAL = Scalar(what="what the edge is made of", choices=("HSS", "carbide"))


def need(name: str, shape: Shape, help_: str, *examples: str) -> Field:
    """A field that must be written."""
    return Field(name=name, help=help_, shape=shape, required=True, examples=examples)


def may(name: str, shape: Shape, help_: str, *examples: str) -> Field:
    """A field that may be left out; its help says what then holds."""
    return Field(name=name, help=help_, shape=shape, examples=examples)
