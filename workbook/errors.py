"""What a refusal says, and the one way to check an input.

A refusal is one sentence that names the quantity, the value, the unit and the limits. A legal limit
of the sport never refuses: it warns, and names the rule and its date.
"""

import math
import numbers
import re
import sys
import warnings

MOST_LETTERS = 60
_UNFIT = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")  # controls, surrogates


class InputRefused(ValueError):
    """An input that cannot be used; its text is one plain sentence for the person who typed it."""

    def __init__(self, sentence: str) -> None:
        super().__init__(" ".join(sentence.split()))

    def _render_traceback_(self) -> list[str]:
        """What a notebook shows in place of a page of code (IPython asks for this by name)."""
        return [str(self)]


class LegalLimit(UserWarning):
    """The ball computes, but a rule of the sport does not allow it."""


def one_line(given: str, most: int = MOST_LETTERS) -> str:
    """Return `given` made fit for a sentence: printable, on one line, not too long."""
    line = _UNFIT.sub("?", " ".join(given.split()))
    return line if len(line) <= most else line[: most - 1] + "…"


def shown(value: object) -> str:
    """Return `value` as short text on one line for a sentence."""
    if isinstance(value, float):
        rounded = f"{value:.12g}"  # all digits only where they matter, as just beside a limit
        return rounded if float(rounded) == value else repr(float(value))
    if isinstance(value, int) and abs(value) >= 10**15:
        return f"a whole number of about {math.log10(abs(value)) + 1:.0f} digits"
    if not isinstance(value, (str, int, bytes, type(None))):
        return _a(one_line(type(value).__name__))
    return one_line(repr(value))


def _a(noun: str) -> str:
    return f"an {noun}" if noun[:1].lower() in "aeiou" else f"a {noun}"


def number(name: str, value: object, unit: str, low: float, high: float) -> float:
    """Return `value` as a float inside [`low`, `high`].

    Parameters
    ----------
    name : str
        The quantity in words, as the person knows it.
    value : object
        What was given; any real number (int, float, Fraction, numpy scalar) except a truth value.
        A Decimal, text that looks like a number, and an array of one are not numbers.
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
        given = shown(value if isinstance(value, int) else result)
        raise InputRefused(f"{name} must be a finite number from {allowed}, not {given}.")
    if not low <= result <= high:
        given = f"{shown(result)}{' ' + unit if unit else ''}"
        raise InputRefused(f"{name} {given} is outside {allowed}.")
    return result


def whole(name: str, value: object, low: int, high: int) -> int:
    """Return `value` as a whole number within limits; refused as `number` does, and in parts."""
    result = number(name, value, "", low, high)
    if result != int(result):
        raise InputRefused(f"{name} must be a whole number from {low} to {high}, not {result:g}.")
    return int(result)


def circumference(value: object) -> float:
    """Return `value` as the circumference of a ball [in], from 26.5 to 27.2."""
    return number("ball circumference", value, "in", 26.5, 27.2)


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
    wanted = "True or False" if kind is bool else _a(kind.__name__)
    if value is None:
        raise InputRefused(f"{name} is missing: give {wanted}.")
    if not isinstance(value, kind):
        raise InputRefused(f"{name} must be {wanted}, not {shown(value)}.")


def text(name: str, value: object) -> None:
    """Check that `value` is a short text on one line, fit for sentences, files and pictures.

    Raises
    ------
    InputRefused
        If it is not.
    """
    wanted = f"text of 0 to {MOST_LETTERS} letters on one line"
    if value is None:
        raise InputRefused(f"{name} is missing: give {wanted}.")
    if not isinstance(value, str) or _UNFIT.search(value):
        raise InputRefused(f"{name} must be {wanted}, not {shown(value)}.")
    if len(value) > MOST_LETTERS:
        raise InputRefused(f"{name} of {len(value)} letters must be {wanted}.")


def warn_legal(notes: tuple[str, ...]) -> None:
    """Give each sentence of `notes` as a `LegalLimit` warning, blamed on the caller's line."""
    level = 1
    while sys._getframe(level).f_globals.get("__name__", "").startswith("workbook."):
        level += 1
    for note in notes:
        warnings.warn(note, LegalLimit, stacklevel=level + 1)
