"""The ball seen from outside: flat views of its near half."""

from dataclasses import dataclass
from typing import Self

import numpy as np

UP = np.array([0.0, 1.0, 0.0])  # thumb to fingers, in the ball frame
GRIP = np.array([0.0, 0.0, 1.0])  # out through the grip centre


@dataclass(frozen=True, eq=False)
class View:
    """An orthographic view of the ball.

    The rows of `axes`, a (3, 3) ndarray, point right, up and toward the viewer, in the ball frame
    [1].
    For a left-hander the first row is reversed, which mirrors the picture.
    """

    axes: np.ndarray

    @classmethod
    def toward(cls, centre: np.ndarray, hand: str) -> Self:
        """Look straight at a point of the ball, thumb to fingers upward on the page."""
        near = np.asarray(centre, dtype=float) / np.linalg.norm(centre)
        up = UP - (UP @ near) * near
        up /= np.linalg.norm(up)
        right = np.cross(up, near) * (1.0 if hand == "right" else -1.0)
        return cls(np.array([right, up, near]))

    def flat(self, points: np.ndarray) -> np.ndarray:
        """Return points (..., 3) as (right, up, nearness), the last negative on the hidden half."""
        return np.asarray(points) @ self.axes.T

    def near_runs(self, points: np.ndarray) -> list[np.ndarray]:
        """Cut a line of unit vectors (N, 3) at the horizon; return its visible runs (right, up).

        A run begins or ends exactly on the rim where the line goes round it.
        """
        seen = self.flat(points)
        near = seen[:, 2] >= 0.0
        change = np.flatnonzero(near[1:] != near[:-1])
        runs = []
        for start, stop in zip([0, *(change + 1)], [*(change + 1), len(seen)], strict=True):
            if near[start]:
                before = [_on_rim(seen[start - 1], seen[start])] if start else []
                after = [_on_rim(seen[stop - 1], seen[stop])] if stop < len(seen) else []
                runs.append(np.array([*before, *seen[start:stop, :2], *after]))
        return runs

    def near_area(self, outline: np.ndarray) -> np.ndarray:
        """Return the visible part (K, 2) of a hole's outline (N, 3), closed along the rim.

        Empty if all is hidden.
        """
        seen = self.flat(outline)
        if np.all(seen[:, 2] >= 0.0):
            return seen[:, :2]
        # start on the hidden side, so that the visible part is one run
        turned = np.roll(np.asarray(outline), -int(np.argmin(seen[:, 2])), axis=0)
        runs = self.near_runs(np.vstack([turned, turned[:1]]))
        if not runs:
            return np.empty((0, 2))
        edge = max(runs, key=len)
        end, start = np.arctan2(edge[[-1, 0], 1], edge[[-1, 0], 0])
        way = np.remainder(start - end + np.pi, 2 * np.pi) - np.pi
        rim = end + way * np.linspace(0.0, 1.0, 9)[1:-1]
        return np.vstack([edge, np.column_stack([np.cos(rim), np.sin(rim)])])


def _on_rim(one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Where the line between a near and a far point passes the rim (right, up)."""
    share = one[2] / (one[2] - other[2])
    crossing = one[:2] + share * (other[:2] - one[:2])
    return crossing / np.linalg.norm(crossing)
