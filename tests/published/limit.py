"""Where a limit lies, seen from outside: by trying values."""

from collections.abc import Callable

import workbook as wb


def last_before(breaks: Callable[[float], bool], inside: float, outside: float) -> float:
    """The last value between `inside` and `outside` that breaks no limit, by halving."""
    assert not breaks(inside) and breaks(outside)
    while (middle := (inside + outside) / 2) not in (inside, outside):
        if breaks(middle):
            outside = middle
        else:
            inside = middle
    return inside


def refused(make: Callable[[], object]) -> bool:
    """Whether it refuses its input."""
    try:
        make()
    except wb.InputRefused:
        return True
    return False
