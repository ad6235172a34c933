"""Base of the value classes that a look-up uses: frozen, keyword-only, and next to free to import.

The classes of the floors above are structs of msgspec, which are made and written as JSON faster; but its
import costs three bare starts of the interpreter, more than all the rest of a look-up.
"""

TYPE_CHECKING = False  # what a type checker takes for True; `typing` itself is a third of a bare start

if TYPE_CHECKING:
    from typing import ClassVar, Self, dataclass_transform
else:

    def dataclass_transform(**_told: bool):
        return lambda cls: cls


@dataclass_transform(kw_only_default=True, frozen_default=True)
class Frozen:
    """Values by name that never change; the annotations of a subclass are its fields, as in a dataclass.

    Equal to one of the same class with equal fields, and hashed to match. A copy with changes: `replaced`.
    """

    _names: "ClassVar[tuple[str, ...]]" = ()
    _known: "ClassVar[frozenset[str]]"
    _usual: "ClassVar[dict[str, object]]"  # by default

    def __init_subclass__(cls) -> None:
        cls._names = (*cls._names, *cls.__annotations__)
        cls._known = frozenset(cls._names)
        cls._usual = {name: getattr(cls, name) for name in cls._names if hasattr(cls, name)}

    def __init__(self, **given: object) -> None:
        own = self.__dict__
        own.update(self._usual)
        own.update(given)
        if own.keys() != self._known:
            wrong = ", ".join(sorted(own.keys() ^ self._known))
            raise TypeError(f"{type(self).__name__}: fields missing or unknown: {wrong}")

    def replaced(self, **changes: object) -> "Self":
        """A copy with some fields changed."""
        return type(self)(**{**self.__dict__, **changes})

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and other.__dict__ == self.__dict__

    def __hash__(self) -> int:
        return hash(tuple(map(self.__dict__.__getitem__, self._names)))

    def __repr__(self) -> str:
        shown = ", ".join(f"{name}={self.__dict__[name]!r}" for name in self._names)
        return f"{type(self).__name__}({shown})"

    if not TYPE_CHECKING:  # a checker knows that fields are frozen; these would hide a misspelt one from it

        def __setattr__(self, name: str, value: object) -> None:
            raise AttributeError(f"{type(self).__name__}.{name} never changes: make a copy with `replaced`")

        def __delattr__(self, name: str) -> None:
            raise AttributeError(f"{type(self).__name__}.{name} cannot be taken away")


def fields(value: object) -> dict[str, object]:
    """The fields of a value by name, for writers that do not know the class.

    Raises:
        TypeError: not a value of this kind.
    """
    if not isinstance(value, Frozen):
        raise TypeError(f"{type(value).__name__} holds no fields by name; want a {Frozen.__name__} value")
    return dict(value.__dict__)
