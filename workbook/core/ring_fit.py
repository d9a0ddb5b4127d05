"""The circle on the sphere through measured points: best fit, and where its axis may lie.

Points are unit vectors (n, 3), angles in radians. A circle is given by its axis, a unit vector,
and its opening, the angle from the axis to every one of its points. A point's distance from the
circle is taken over the surface: its angle from the axis less the opening. Gauss-Newton least
squares (textbook) on the sphere; the opening is always the best one for an axis, a mean.
"""

import math

import numpy as np
from numpy.typing import NDArray

from workbook.core.sphere import Matrix, Vector, square_to

STEPS, HALVINGS, SMALLEST = 60, 40, 1e-13
LONGEST = 0.3  # step of the fit [rad]


def angles(axes: Matrix, points: Matrix) -> Matrix:
    """Angles between each axis (..., 3) and each point: array (..., n)."""
    sine = np.linalg.norm(np.cross(axes[..., None, :], points), axis=-1)
    return np.arctan2(sine, axes @ points.T)


def misfit(axes: Matrix, points: Matrix) -> Vector:
    """Sum of squared distances [rad^2] from the best circle about each axis (..., 3)."""
    found = angles(axes, points)
    squares: Vector = np.sum((found - found.mean(axis=-1, keepdims=True)) ** 2, axis=-1)
    return squares


def fit(points: Matrix) -> tuple[Vector, float]:
    """Axis and opening of the circle with the least sum of squared distances.

    It starts from the plane nearest to the points; which end of the axis comes out is left open.
    """
    axis = np.linalg.svd(points - points.mean(axis=0))[2][-1]
    least = float(misfit(axis, points))
    for _ in range(STEPS):
        slopes, ends = slope(axis, points)
        found = angles(axis, points)
        step = -np.linalg.pinv(slopes - slopes.mean(axis=0), rcond=1e-9) @ (found - found.mean())
        step *= min(1.0, LONGEST / max(float(np.linalg.norm(step)), SMALLEST))
        for _ in range(HALVINGS):
            new = moved(axis, ends, step)
            now = float(misfit(new, points))
            if now <= least:
                break
            step = step / 2
        else:
            break
        axis, least = new, now
        if float(np.linalg.norm(step)) < SMALLEST:
            break
    return axis, float(angles(axis, points).mean())


def slope(axis: Vector, points: Matrix) -> tuple[Matrix, Matrix]:
    """How the points' angles from the axis change as it moves.

    Returns
    -------
    slopes : array (n, 2)
        Change for each radian along two tangents at the axis [1].
    ends : array (2, 3)
        The two tangents.
    """
    ends = np.stack(square_to(axis))
    sine = np.maximum(np.sin(angles(axis, points)), SMALLEST)
    return -(points @ ends.T) / sine[:, None], ends


def moved(axis: Vector, ends: Matrix, step: Matrix) -> Matrix:
    """The axis after a walk of `step` (..., 2) [rad] over the surface along two tangents."""
    arc = np.linalg.norm(step, axis=-1, keepdims=True)
    way = np.divide(step, arc, out=np.zeros_like(step), where=arc > 0) @ ends
    walked: Matrix = np.cos(arc) * axis + np.sin(arc) * way
    return walked


def opening_spread(axis: Vector, points: Matrix) -> float:
    """Standard deviation of the opening for points that each have one of 1, as slopes tell it."""
    slopes, _ = slope(axis, points)
    full = np.column_stack([slopes, np.full(len(points), -1.0)])
    return math.sqrt(float(np.linalg.pinv(full.T @ full)[2, 2]))


def region(
    axis: Vector, points: Matrix, rise: float, around: int, farthest: float
) -> Matrix | None:
    """Axes around the best one at which the misfit has grown by `rise` [rad^2].

    Returns
    -------
    array (around, 3) or None
        Closed outline; None where the misfit has not grown by so much `farthest` [rad] away.
    """
    slopes, ends = slope(axis, points)
    _, sizes, rows = np.linalg.svd(slopes - slopes.mean(axis=0), full_matrices=False)
    if math.sqrt(rise) > 4 * farthest * float(sizes[1]):
        return None
    turn = np.linspace(0.0, 2.0 * math.pi, around)[:, None]
    # with straight slopes the outline would be this ellipse; its points spread evenly on both
    ellipse = math.sqrt(rise) * (
        np.cos(turn) / sizes[0] * rows[0] + np.sin(turn) / sizes[1] * rows[1]
    )
    reach = np.linalg.norm(ellipse, axis=1, keepdims=True)
    least = float(misfit(axis, points))

    def inside(share: Matrix) -> NDArray[np.bool_]:
        risen = misfit(moved(axis, ends, share * ellipse), points) - least
        return (risen < rise)[:, None]

    low, high = np.zeros_like(turn), np.full_like(turn, 0.25)
    while (within := inside(high)).any():
        if float(np.max(within * high * reach)) > farthest:
            return None
        low, high = np.where(within, high, low), np.where(within, high * 1.25, high)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        within = inside(middle)
        low, high = np.where(within, middle, low), np.where(within, high, middle)
    return moved(axis, ends, low * ellipse)
