"""Units and value of a formula.

`kind_of` needs only the kinds of the names, so a slip of units is told whatever the values are; `evaluate`
relies on it having passed.
"""

from collections.abc import Callable, Mapping
from math import isfinite

from jobsheets.fields import nearest
from jobsheets.recipe.expression import Binary, Call, Kind, Literal, Name, Tree, Unary, Value
from jobsheets.recipe.functions import BY_NAME, MEASURES, real

_COMPARE: dict[str, Callable[[float, float], bool]] = {
    "<": lambda a, b: a < b,
    "<=": lambda a, b: a <= b,
    ">": lambda a, b: a > b,
    ">=": lambda a, b: a >= b,
}
_CURES = {
    frozenset((Kind.LENGTH, Kind.NUMBER)): "a unit behind the number, such as 2 mm or 1/8 in",
    frozenset((Kind.ANGLE, Kind.NUMBER)): "a unit behind the number, such as 45 deg",
}


def kind_of(tree: Tree, kinds: Mapping[str, Kind]) -> Kind:
    """What a formula yields.

    Args:
        tree: the formula.
        kinds: kind of every name that it may use.

    Raises:
        ValueError: an unknown name or function, or kinds that do not go together.
    """
    match tree:
        case Literal(kind):
            return kind
        case Name(name):
            if name not in kinds:
                raise ValueError(f"{name!r} is no input; want {offer(name, tuple(kinds))}")
            return kinds[name]
        case Unary(sign, of):
            return _unary_kind(sign, kind_of(of, kinds))
        case Binary(sign, left, right):
            return _binary_kind(sign, kind_of(left, kinds), kind_of(right, kinds))
        case Call(name, args):
            return _call_kind(name, tuple(kind_of(arg, kinds) for arg in args))


def offer(name: str, known: tuple[str, ...]) -> str:
    """Names near `name`, else all that are known."""
    close = nearest(name, known, 2)
    if close:
        return " or ".join(close)
    return f"one of {', '.join(known)}" if known else "an input of that name first"


def _unary_kind(sign: str, kind: Kind) -> Kind:
    if sign == "not":
        if kind is not Kind.FLAG:
            raise ValueError(f"not {kind.value}; want a comparison behind not, such as not (a < b)")
        return kind
    if kind not in MEASURES:
        raise ValueError(f"minus {kind.value}; want a length, an angle or a number")
    return kind


def _binary_kind(sign: str, left: Kind, right: Kind) -> Kind:
    pair = f"{left.value} {sign} {right.value}"
    cure = _CURES.get(frozenset((left, right)), "two values of one kind")
    if sign in ("and", "or"):
        if left is not Kind.FLAG or right is not Kind.FLAG:
            raise ValueError(f"{pair}; want a comparison on both sides, such as a < b {sign} b < c")
        return Kind.FLAG
    if sign in ("==", "!="):
        if left is not right:
            raise ValueError(f"{pair}; want {cure}")
        return Kind.FLAG
    if sign in _COMPARE or sign in ("+", "-"):
        if left is not right or left not in MEASURES:
            raise ValueError(f"{pair}; want {cure}")
        return Kind.FLAG if sign in _COMPARE else left
    if sign == "*" and Kind.NUMBER in (left, right) and left in MEASURES and right in MEASURES:
        return left if right is Kind.NUMBER else right
    if sign == "/" and left in MEASURES and right in (Kind.NUMBER, left):
        return left if right is Kind.NUMBER and left is not right else Kind.NUMBER
    raise ValueError(f"{pair}; want a plain number on {'one side' if sign == '*' else 'the right side'}")


def _call_kind(name: str, kinds: tuple[Kind, ...]) -> Kind:
    function = BY_NAME.get(name)
    if function is None:
        raise ValueError(f"{name!r} is no function; want {offer(name, tuple(BY_NAME))}")
    kind = function.kind(kinds)
    if kind is None:
        given = ", ".join(k.value for k in kinds) or "nothing"
        raise ValueError(f"{name}() of {given}; want {function.form}: {function.help}")
    return kind


def evaluate(tree: Tree, value_of: Callable[[str], Value]) -> Value:
    """Value of a formula that `kind_of` found sound: mm, degrees, plain.

    Args:
        tree: the formula.
        value_of: gives the value of a name.

    Raises:
        ValueError: a division by zero, or a value too big to be a size.
    """
    match tree:
        case Literal(_, value):
            result: Value = value
        case Name(name):
            return value_of(name)
        case Unary(sign, of):
            inner = evaluate(of, value_of)
            return not inner if sign == "not" else -real(inner)
        case Binary(sign, left, right):
            result = _binary(sign, left, right, value_of)
        case Call("if", args):
            return evaluate(args[1] if evaluate(args[0], value_of) else args[2], value_of)
        case Call(name, args):
            result = BY_NAME[name].work(tuple(evaluate(arg, value_of) for arg in args))
    if isinstance(result, float) and not isfinite(result):
        raise ValueError("a value that is not finite; want a size that a part can have")
    return result


def _binary(sign: str, left: Tree, right: Tree, value_of: Callable[[str], Value]) -> Value:
    first = evaluate(left, value_of)
    if sign in ("and", "or"):
        return evaluate(right, value_of) if bool(first) is (sign == "and") else first
    second = evaluate(right, value_of)
    if sign in ("==", "!="):
        return (first == second) is (sign == "==")
    a, b = real(first), real(second)
    if sign in _COMPARE:
        return _COMPARE[sign](a, b)
    if sign == "/" and b == 0.0:
        raise ValueError("a division by zero; want a divisor that is not zero")
    return {"+": a + b, "-": a - b, "*": a * b}[sign] if sign != "/" else a / b
