"""Tap or die, or a single point: which thread is cut how, and what was turned down.

A tap or die that is owned wins unless the recipe asks otherwise: it is quicker, and the size is in the tool.
"""

from jobsheets.finding import Finding, Severity
from jobsheets.part.turned import Hole, HoleKind, Method, Segment, SegmentKind, ThreadSpec
from jobsheets.planner import toolbox
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Rejected
from jobsheets.planner.screwcut_values import CannotCutError, ThreadChoice
from jobsheets.shop import owned


def choices(job: JobView) -> dict[str, ThreadChoice]:
    """How every thread of the part is cut, by the id of its segment or hole."""
    features: list[Segment | Hole] = [s for s in job.part.segments if s.kind is SegmentKind.THREAD]
    features += [h for h in job.part.holes if h.kind is HoleKind.TAP]
    return {f.id: _choose(job, f, f.thread) for f in features if f.thread is not None}


def _choose(job: JobView, feature: Segment | Hole, spec: ThreadSpec) -> ThreadChoice:
    tool = "tap" if isinstance(feature, Hole) else "die"
    has = _hand_tool(job, feature, spec)
    by_hand = spec.method is Method.HAND or (has and spec.method is Method.FREE)
    if by_hand and spec.starts == 1:
        if spec.method is Method.HAND or job.lathe.leadscrew is None:
            return ThreadChoice()
        why = f"a {tool} is owned: quicker, and the size is in the tool"
        return ThreadChoice(rejected=(Rejected(what=f"{feature.id} with a single point", why=why),))
    from jobsheets.planner.screwcut_choice import settle  # few recipes cut a thread so

    try:
        single = settle(job, feature, spec)
    except CannotCutError as cannot:
        return _cannot(feature, spec, cannot)
    if spec.starts > 1:
        why = f"it has {spec.starts} starts"
    else:
        why = "none is owned" if not has else "the recipe asks for a single point"
    turned_down = Rejected(what=f"{feature.id} by {tool} {spec.thread.name}", why=why)
    return ThreadChoice(single=single, rejected=(turned_down,))


def _hand_tool(job: JobView, feature: Segment | Hole, spec: ThreadSpec) -> bool:
    if isinstance(feature, Hole):
        return bool(toolbox.tap_set(job, feature).taps)
    return owned.die_for(job.shop.tooling, spec.thread, spec.left).tool is not None


def _cannot(feature: Segment | Hole, spec: ThreadSpec, cannot: CannotCutError) -> ThreadChoice:
    rejected = Rejected(what=f"{feature.id} with a single point", why=f"{cannot.why}; {cannot.remedy}")
    if spec.method is not Method.SINGLE_POINT and spec.starts == 1:
        return ThreadChoice(rejected=(rejected,))  # the missing tap or die is told by its own check
    stop = Finding(
        code="cannot-screwcut",
        severity=Severity.STOP,
        where=feature.id,
        what=f"{spec.text} cannot be cut with a single point on this lathe",
        why=cannot.why,
        remedy=cannot.remedy,
    )
    return ThreadChoice(rejected=(rejected,), stop=stop)
