"""What a refusal says, and the one way to check an input.

A refusal is one sentence that names the quantity, the value, the unit and the limits. A legal limit
of the sport never refuses: it warns, and names the rule and its date.
"""

import math
import numbers
import warnings


class InputRefused(ValueError):
    """An input that cannot be used; its text is one plain sentence for the person who typed it."""


class LegalLimit(UserWarning):
    """The ball computes, but a rule of the sport does not allow it."""


def shown(value: object) -> str:
    """Return `value` as short text on one line for a sentence."""
    if isinstance(value, float):
        return f"{value:g}"
    if not isinstance(value, (str, int, bytes, type(None))):
        return f"a {type(value).__name__}"
    text = " ".join(repr(value).split())
    return text if len(text) <= 60 else text[:57] + "..."


def number(name: str, value: object, unit: str, low: float, high: float) -> float:
    """Return `value` as a float inside [`low`, `high`].

    Parameters
    ----------
    name : str
        The quantity in words, as the person knows it.
    value : object
        What was given; any real number except a truth value.
    unit : str
        Unit of value and limits, as written for people ("" for a pure number).
    low, high : float
        Limits, both allowed [unit].

    Raises
    ------
    InputRefused
        If the value is missing, not a finite number, or outside the limits.
    """
    allowed = f"{low:g} to {high:g}{' ' + unit if unit else ''}"
    if value is None:
        raise InputRefused(f"{name} is missing: give a number from {allowed}.")
    if isinstance(value, bool) or not isinstance(value, numbers.Real):
        raise InputRefused(f"{name} must be a number from {allowed}, not {shown(value)}.")
    try:
        result = float(value)
    except OverflowError:
        result = math.inf
    if not math.isfinite(result):
        raise InputRefused(f"{name} must be a finite number from {allowed}, not {shown(result)}.")
    if not low <= result <= high:
        given = f"{result:.12g}{' ' + unit if unit else ''}"
        raise InputRefused(f"{name} {given} is outside {allowed}.")
    return result


def choice(name: str, value: object, allowed: tuple[str, ...]) -> str:
    """Return `value` if it is one of the words `allowed`.

    Raises
    ------
    InputRefused
        If it is missing or anything else.
    """
    words = ", ".join(allowed[:-1]) + " or " + allowed[-1]
    if value is None:
        raise InputRefused(f"{name} is missing: give {words}.")
    if not isinstance(value, str) or value not in allowed:
        raise InputRefused(f"{name} must be {words}, not {shown(value)}.")
    return value


def instance(name: str, value: object, kind: type) -> None:
    """Check that `value` is a `kind`.

    Raises
    ------
    InputRefused
        If it is not.
    """
    if value is None:
        raise InputRefused(f"{name} is missing: give a {kind.__name__}.")
    if not isinstance(value, kind):
        raise InputRefused(f"{name} must be a {kind.__name__}, not {shown(value)}.")


def warn_legal(notes: tuple[str, ...]) -> None:
    """Give each sentence of `notes` as a `LegalLimit` warning."""
    for note in notes:
        warnings.warn(note, LegalLimit, stacklevel=4)
