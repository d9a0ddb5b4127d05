"""Where words go so that they do not lie on each other. Plain numbers, no drawing."""

from collections.abc import Sequence

import numpy as np


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Move places on a line until neighbours are `gap` apart, as little as may be.

    Parameters
    ----------
    wanted : sequence of float
        Wanted places, any order; the result keeps their order.
    gap, low, high : float
        Least distance, and the limits of all places, in the same unit. There must be room for all.
    """
    order = np.argsort(wanted, kind="stable")
    steps = gap * np.arange(len(wanted))
    # less the gaps, the task is the nearest rising sequence: neighbours that clash share a mean
    blocks: list[list[float]] = []
    for value in np.asarray(wanted, dtype=float)[order] - steps:
        blocks.append([value])
        while len(blocks) > 1 and np.mean(blocks[-2]) > np.mean(blocks[-1]):
            blocks[-2:] = [blocks[-2] + blocks[-1]]
    levels = [np.full(len(block), np.mean(block)) for block in blocks]
    level = np.concatenate([np.empty(0), *levels])
    level = np.clip(level, low, high - (steps[-1] if len(steps) else 0.0))
    placed = np.empty(len(wanted))
    placed[order] = level + steps
    return placed.tolist()


def flank(
    marks: Sequence[float], widths: Sequence[float], gap: float, low: float, high: float
) -> list[float]:
    """Left ends of one or two words beside their marks on a line, clear of marks and each other.

    The word of the left mark goes to its left and that of the right mark to its right if there is
    room between `low` and `high`; else the words change sides, and at worst stand in a row beyond
    both marks.
    """
    left = [mark - gap - width for mark, width in zip(marks, widths, strict=True)]
    right = [mark + gap for mark in marks]
    if len(marks) == 1:
        return right if right[0] + widths[0] <= high else left
    first, last = np.argsort(marks, kind="stable")
    after, before = right[last] + widths[first] + gap, left[first] - gap - widths[last]
    for starts in (
        (left[first], right[last]),
        (left[first], left[last]),
        (right[first], right[last]),
        (right[first], left[last]),
        (right[last], after),
        (before, left[first]),
    ):
        ends = starts[0] + widths[first], starts[1] + widths[last]
        covers = any(
            start - gap / 2 < mark < end + gap / 2
            for start, end in zip(starts, ends, strict=True)
            for mark in marks
        )
        apart = ends[0] + gap / 2 <= starts[1] or ends[1] + gap / 2 <= starts[0]
        if min(starts) >= low and max(ends) <= high and apart and not covers:
            break
    placed = [0.0, 0.0]
    placed[first], placed[last] = starts
    return placed


# right, left, then the diagonals, above and below: the order in which a reader looks for a label
_SIDES = np.array(
    [(1, 0.2), (-1, 0.2), (1, 1), (-1, 1), (1, -1), (-1, -1), (0, 1), (0, -1)], dtype=float
)
_REACH = (1.0, 1.8, 3.0)


def around(
    anchors: np.ndarray, size: np.ndarray, taken: np.ndarray, bounds: np.ndarray, clear: float
) -> np.ndarray:
    """Best box for a word near an anchor. All in pixels; a box is (left, bottom, right, top).

    Parameters
    ----------
    anchors : (2,) or (M, 2) ndarray
        The point that the word names, or points of the line that it names, best first [px].
    size : (2,) ndarray
        The word's width and height [px].
    taken : (K, 4) ndarray
        Boxes that the word should not cover [px].
    bounds : (4,) ndarray
        Box that it must not leave [px].
    clear : float
        Distance between an anchor and the word [px].

    Returns
    -------
    (4,) ndarray
        The one of 24 places around each anchor that covers least of `taken`; if several are free,
        the nearest to the first anchor [px].
    """
    sides = np.concatenate([_SIDES * reach for reach in _REACH])
    towards = np.sign(sides) * (np.abs(sides) > 0.5)
    points = np.reshape(anchors, (-1, 1, 2))
    beside = points + sides * clear + towards * size / 2
    middle = np.clip(beside.reshape(-1, 2), bounds[:2] + size / 2, bounds[2:] - size / 2)
    low, high = middle - size / 2, middle + size / 2
    inside = np.all((taken[:, 2:] > low.min(axis=0)) & (taken[:, :2] < high.max(axis=0)), axis=1)
    left, bottom, right, top = taken[inside].T
    wide = np.minimum(high[:, :1], right) - np.maximum(low[:, :1], left)
    tall = np.minimum(high[:, 1:], top) - np.maximum(low[:, 1:], bottom)
    covered = (np.maximum(wide, 0.0) * np.maximum(tall, 0.0)).sum(axis=1)
    away = np.repeat(_REACH, len(_SIDES)) * clear  # far from its point is as bad as on a line
    best = int(np.argmin(covered + np.tile(away, len(points)) + 0.02 * np.arange(len(middle))))
    return np.concatenate([low[best], high[best]])
