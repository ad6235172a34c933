"""Guards shared by the formulas: a size or a speed that cannot be is refused, with what would be right."""

from math import inf


def positive(**values: float) -> None:
    """Refuse values that are not finite and above zero.

    Args:
        **values: by the name the caller gives them; an underscore is read as a space.

    Raises:
        ValueError: the first value that is zero, negative, infinite or not a number.
    """
    for name, value in values.items():
        if not 0.0 < value < inf:
            raise ValueError(f"{name.replace('_', ' ')} {value:g}: want a number above zero")


def not_negative(**values: float) -> None:
    """Refuse values below zero, infinite or not a number; zero is well.

    Args:
        **values: by the name the caller gives them; an underscore is read as a space.

    Raises:
        ValueError: the first value that will not do.
    """
    for name, value in values.items():
        if not 0.0 <= value < inf:
            raise ValueError(f"{name.replace('_', ' ')} {value:g}: want zero or more")


def angle(most: float, **values: float) -> None:
    """Refuse angles that are not above zero and up to `most` degrees.

    Raises:
        ValueError: the first angle that will not do.
    """
    for name, value in values.items():
        if not 0.0 < value <= most:
            raise ValueError(
                f"{name.replace('_', ' ')} {value:g} degrees: want above 0 up to {most:g} degrees"
            )
