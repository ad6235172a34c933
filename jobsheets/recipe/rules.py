"""Rules among the inputs: held, or refused with the nearest value that works."""

from collections.abc import Callable
from math import ceil, floor, isfinite

from jobsheets.document import Mapping, Sequence, Text
from jobsheets.fields import nearest
from jobsheets.recipe import evaluate, expression, show
from jobsheets.recipe.expression import Binary, Kind, Tree, Value
from jobsheets.recipe.faults import Faults
from jobsheets.recipe.inputs import Inputs, UnknownValueError

Retry = Callable[[str, Value], Inputs | None]  # the inputs with one of them changed
_STEPS = {"in": 0.0254, "mm": 0.01}  # what a maker would write: thousandths or hundredths
_DOUBLINGS, _HALVINGS = 24, 30


def check(top: Mapping, inputs: Inputs, faults: Faults, system: str, retry: Retry) -> None:
    """Hold every rule; those that do not hold are kept as faults."""
    node = top.entries.get("rules")
    for number, item in enumerate(node.items if isinstance(node, Sequence) else (), start=1):
        if isinstance(item, Mapping):
            _check(item, f"rules[{number}]", inputs, faults, system, retry)


def _check(item: Mapping, path: str, inputs: Inputs, faults: Faults, system: str, retry: Retry) -> None:
    need, why, change = (_text(item, name) for name in ("need", "why", "change"))
    if need is None or why is None:
        return
    known = tuple(inputs.known)
    if change is not None and change.value not in known:
        right = " or ".join(nearest(change.value, known)) or "an input"
        faults.add(change, f"{path}.change", "no input of this recipe", right)
        return
    try:
        tree = inputs.read(need.value, Kind.FLAG)
        if evaluate.evaluate(tree, inputs.value):
            return
    except UnknownValueError:
        return
    except ValueError as error:
        faults.tell(need, f"{path}.need", error)
        return
    used = expression.names(tree)
    name = change.value if change is not None else used[0] if used else ""
    right = _cure(name, tree, inputs, system, retry) if name else "a rule that uses an input"
    faults.add(need, f"{path}.need", f"{why.value} ({_sides(tree, inputs, system)})", right)


def _text(item: Mapping, name: str) -> Text | None:
    found = item.entries.get(name)
    return found if isinstance(found, Text) else None


def _sides(tree: Tree, inputs: Inputs, system: str) -> str:
    """Both sides of a comparison that does not hold, as numbers; else the inputs that it uses."""
    if isinstance(tree, Binary) and tree.sign in ("<", "<=", ">", ">="):
        kind = evaluate.kind_of(tree.left, inputs.kinds)
        left, right = (evaluate.evaluate(side, inputs.value) for side in (tree.left, tree.right))
        return f"{show.value(left, kind, system)} {tree.sign} {show.value(right, kind, system)} does not hold"
    used = expression.names(tree)
    return ", ".join(f"{n} is {show.value(inputs.value(n), inputs.kinds[n], system)}" for n in used)


def _cure(name: str, tree: Tree, inputs: Inputs, system: str, retry: Retry) -> str:
    """The value of `name` nearest to its own with which the rule holds."""

    def holds(value: Value) -> bool:
        changed = retry(name, value)
        try:
            return changed is not None and bool(evaluate.evaluate(tree, changed.value))
        except ValueError:
            return False

    one, own = inputs.known[name], inputs.value(name)
    words = [t.value for t in one.among()]
    if words:
        working = [w for w in words if holds(inputs.worked_out(w, one.kind))]
        return f"{name}: {' or '.join(working)}" if working else "other inputs"
    if not isinstance(own, float):
        return f"another {name}"
    step = _STEPS[system] if one.kind is Kind.LENGTH else 0.01
    found = [v for up in (True, False) if (v := _nearest(own, step, up, holds)) is not None]
    if not found:
        return f"other inputs: no {name} makes it hold"
    best = min(found, key=lambda v: abs(v - own))
    side = "more" if best > own else "less"
    return f"{name}: {show.value(best, one.kind, system)} or a little {side}"


def _nearest(own: float, step: float, up: bool, holds: Callable[[Value], bool]) -> float | None:
    """Smallest change of `own` in one direction that works, on a multiple of `step`."""
    sign = 1.0 if up else -1.0
    near, far = 0.0, step
    for _ in range(_DOUBLINGS):
        if holds(own + sign * far):
            break
        near, far = far, 2.0 * far
        if not up and own - near <= 0.0:
            return None
    else:
        return None
    for _ in range(_HALVINGS):
        middle = (near + far) / 2.0
        near, far = (near, middle) if holds(own + sign * middle) else (middle, far)
    exact = own + sign * far
    count = exact / step
    if not isfinite(count):
        return None
    rounded = round((ceil(count - 1e-6) if up else floor(count + 1e-6)) * step, 9)
    return rounded if holds(rounded) else exact
