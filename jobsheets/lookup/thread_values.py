"""The groups of a thread's answer. Every formula is the standards'; here they are only asked and named.

Units    mm, mm2, degrees, percent.
Sources  carried by each value.
"""

from jobsheets.lookup.answer import COMPUTED, LENGTH, Group, Value
from jobsheets.lookup.tap_values import tap_group
from jobsheets.standards import thread_form, thread_strength
from jobsheets.standards.thread_blank import die_blank
from jobsheets.standards.thread_values import Thread, ThreadLimits

SWIVEL = {
    60.0: 29.0,
    55.0: 27.0,
    47.5: 23.0,
}  # a little less than half the flank angle, so that both sides cut
GEOMETRY = "geometry of the basic profile, docs/threads.md section 5"
STRENGTH = "ASME B1.1 appendix B and FED-STD-H28/2B, docs/threads.md section 7"
# Whether the rule behind a system's limits was read on a page: docs/threads.md sections 2 to 4.
LIMITS_SEEN = {"M": "memory", "BSW": "memory", "BSF": "memory", "ME": "memory"}


def groups(thread: Thread, screw: ThreadLimits, nut: ThreadLimits) -> tuple[Group, ...]:
    """All groups, in the order in which a bench asks for them."""
    return (
        _basic(thread),
        _limits(thread, screw, "Screw", _blank(thread, screw)),
        _limits(thread, nut, "Nut", ()),
        _cutting(thread),
        _wires(thread, screw),
        tap_group(thread),
        _strength(thread, screw, nut),
    )


def _value(name: str, value: float | str, unit: str, how: str, source: str) -> Value:
    return Value(name=name, value=value, unit=unit, how=how, source=source, seen=COMPUTED)


def _length(name: str, value: float, how: str, source: str = GEOMETRY) -> Value:
    return _value(name, value, LENGTH, how, source)


def _basic(thread: Thread) -> Group:
    pitch_dia = thread_form.pitch_diameter(thread)
    printed = [
        Value(name="major diameter", value=thread.major, unit=LENGTH, source=thread.source, seen=thread.seen),
        Value(name="pitch", value=thread.pitch, unit=LENGTH, source=thread.source, seen=thread.seen),
    ]
    if thread.tpi is not None:
        printed.append(
            Value(name="threads per inch", value=thread.tpi, source=thread.source, seen=thread.seen)
        )
    climb = thread_form.lead_angle(pitch_dia, thread.pitch)
    return Group(
        title="Basic sizes",
        values=(
            *printed,
            _length("pitch diameter", pitch_dia, "basic"),
            _length("minor diameter", thread_form.minor_diameter(thread), "basic, of the nut"),
            _length("root diameter", thread_form.root_diameter(thread), "of a screw with rounded root"),
            _value("lead angle", climb, "deg", "atan(lead / (pi x pitch diameter))", GEOMETRY),
        ),
    )


def _limits(thread: Thread, limits: ThreadLimits, side: str, more: tuple[Value, ...]) -> Group:
    seen = LIMITS_SEEN.get(thread.system, COMPUTED)
    how = "table of the standard" if limits.basis == "table" else "formula of the standard"
    sizes = (
        ("largest major diameter", limits.major_max),
        ("smallest major diameter", limits.major_min),
        ("largest pitch diameter", limits.pitch_max),
        ("smallest pitch diameter", limits.pitch_min),
        ("largest minor diameter", limits.minor_max),
        ("smallest minor diameter", limits.minor_min),
        ("largest minor diameter of a rounded root (reference)", limits.minor_round_max),
        ("allowance", limits.allowance if limits.external or limits.allowance else None),
    )
    values = tuple(
        Value(name=name, value=size, unit=LENGTH, how=how, source=limits.source, seen=seen)
        for name, size in sizes
        if size is not None
    )
    return Group(title=f"{side}, class {limits.tolerance_class}", values=values + more)


def _blank(thread: Thread, screw: ThreadLimits) -> tuple[Value, ...]:
    blank = die_blank(thread, screw)
    return tuple(
        _length(f"blank for a die, {name}", size, blank.ruled_by, blank.source)
        for name, size in (("aim", blank.target), ("least", blank.smallest), ("most", blank.largest))
    )


def _cutting(thread: Thread) -> Group:
    """Root and depth of cut; the tool has the flat of P/8, or the root radius where there is none."""
    flat, radius = thread_form.root_flat(thread), thread_form.root_radius(thread)
    if flat is None:
        depth, nose = thread_form.depth_of_cut(thread, nose_radius=radius), "nose with the root radius"
    else:
        depth, nose = thread_form.depth_of_cut(thread, nose_flat=flat), "nose with the flat of P/8"
    swivel = SWIVEL[thread.angle]
    infeed = thread_form.compound_infeed(depth, swivel, thread.angle)
    least = thread_form.least_root_radius(thread)
    values = [
        _length("root radius", radius, "largest that the form allows"),
        _length("depth of cut", depth, f"single, square to the axis, from the basic major diameter; {nose}"),
        _length(
            "depth along the compound slide", infeed, f"slide at {swivel:g} degrees from the cross slide"
        ),
        _length("sideways travel", thread_form.side_shift(depth, swivel), "at that swivel"),
    ]
    if flat is not None:
        values.insert(1, _length("root flat", flat, "P / 8, nose of the tool"))
    if least is not None:
        values.insert(
            1, _length("least root radius", least, "0.125 P", "ISO 965-1 and ASME B1.13M, from memory")
        )
    return Group(title="Cutting on the lathe", values=tuple(values))


def _wires(thread: Thread, screw: ThreadLimits) -> Group:
    best = thread_form.best_wire(thread.pitch, thread.angle)
    least, most = thread_form.wire_range(thread.pitch, thread.angle)
    source = "three-wire method, docs/threads.md section 5"

    def reading(pitch_dia: float) -> float:
        return thread_form.over_wires(pitch_dia, thread.pitch, best, thread.angle)

    with_best = "over the best wire, no correction for the lead angle"
    return Group(
        title=f"Over three wires, class {screw.tolerance_class}",
        values=(
            _length("best wire", best, "touches at the pitch line", source),
            _length("smallest wire", least, "stands out of the crests", source),
            _length("largest wire", most, "touches the flanks", source),
            _length("largest reading", reading(screw.pitch_max), with_best, source),
            _length("smallest reading", reading(screw.pitch_min), with_best, source),
        ),
    )


def _strength(thread: Thread, screw: ThreadLimits, nut: ThreadLimits) -> Group:
    sizes = thread_strength.worst_sizes(thread, screw, nut)
    areas = thread_strength.shear_areas(thread, sizes, 1.0)
    worst = f"worst sizes of {screw.tolerance_class} and {nut.tolerance_class}"

    def length(screw_share: float, nut_share: float) -> float:
        return thread_strength.engagement_length(thread, sizes, screw_share, nut_share).length

    return Group(
        title="Strength",
        values=(
            _value("stress area", thread_strength.stress_area(thread), "mm2", "of the screw", STRENGTH),
            _value("shear area of the screw", areas.screw, "mm2", f"a mm of engagement, {worst}", STRENGTH),
            _value("shear area of the nut", areas.nut, "mm2", f"a mm of engagement, {worst}", STRENGTH),
            _length(
                "engagement, equal metals", length(1.0, 1.0), "the screw breaks before it strips", STRENGTH
            ),
            _length("engagement, nut half as strong", length(2.0, 1.0), "by tensile strength", STRENGTH),
            _length("engagement, screw half as strong", length(1.0, 2.0), "by tensile strength", STRENGTH),
        ),
    )
