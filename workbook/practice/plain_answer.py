"""An answer as plain text, numbers, lists and mappings: what an object brings along is not run."""

from fractions import Fraction
from typing import Any

import numpy as np

from workbook.errors import InputRefused, one_line

MOST_ENTRIES = 300
DEEPEST = 2
"""A sheet is rows of cells: lists inside a list, and no deeper."""
# a base's own method makes it of a subclass, whatever that has in its place
_SINGLE: tuple[tuple[type, Any], ...] = (
    (str, str.__str__), (int, int.__int__), (float, float.__float__),
    (np.integer, np.generic.__int__), (np.floating, np.generic.__float__),
)  # fmt: skip
_LISTED: tuple[tuple[type, Any], ...] = ((list, list.__iter__), (tuple, tuple.__iter__))


def plain(answer: object, deep: int = 0) -> Any:
    """Return a copy of `answer` made of Python's own kinds, tuples as lists.

    Subclasses become their base through the base's own methods, so that no method of theirs, such
    as `__len__`, `__iter__` or `__eq__`, is called here or later.

    Raises
    ------
    InputRefused
        Another kind of object, more than 300 entries, or lists inside lists inside lists.
    """
    kind = type(answer)
    if answer is None or kind is bool or kind is Fraction:
        return answer
    for base, copied in _SINGLE:
        if issubclass(kind, base):
            return copied(answer)
    if deep > DEEPEST:
        raise InputRefused("an answer must not have lists inside lists inside lists.")
    for base, entries in _LISTED:
        if issubclass(kind, base):
            return [plain(one, deep + 1) for one in _few(entries(answer))]
    if issubclass(kind, dict):
        named = _few(dict.items(answer))  # type: ignore[arg-type]
        return {_name(name): plain(one, deep + 1) for name, one in named}
    name = one_line(kind.__name__)
    raise InputRefused(f"an answer must be text, numbers or lists of them, not of kind {name!r}.")


def _few(entries: Any) -> list[Any]:
    found = list(entries)
    if len(found) > MOST_ENTRIES:
        raise InputRefused(f"{len(found)} entries are more than {MOST_ENTRIES}.")
    return found


def _name(name: object) -> str:
    if not issubclass(type(name), str):
        raise InputRefused("the names in an answer must be text.")
    return str.__str__(name)
