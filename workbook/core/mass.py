"""Mass properties of solids cut from a sphere: mass, first moment and second moments.

The removed solid is a flat-bottomed cylinder cut by the sphere. Its moments are integrals over the
circle of the hole of columns parallel to the axis, each from the flat bottom to the sphere; along a
column they are polynomials, across the circle a Gauss-Legendre x trapezoid rule converges
exponentially because the integrand is smooth. Textbook mechanics; all values SI.
"""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from workbook.core.sphere import Matrix, Vector, cross, square_to

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(10)
_RING = 24
_S = 0.5 * (_NODES + 1.0)  # in (radius/hole radius)^2, so that the area element is constant
_PHI = 2 * math.pi * np.arange(_RING) / _RING
_U = np.sqrt(_S)[:, None] * np.cos(_PHI)
_V = np.sqrt(_S)[:, None] * np.sin(_PHI)
_W = np.repeat((0.5 * _WEIGHTS / _RING)[:, None], _RING, axis=1)


@dataclass(frozen=True, eq=False)
class Moments:
    """Mass [kg], first moment [kg m] and inertia [kg m^2] about the origin; nothing by default."""

    mass: float = 0.0
    first: Vector = field(default_factory=lambda: np.zeros(3))
    inertia: Matrix = field(default_factory=lambda: np.zeros((3, 3)))

    def plus(self, other: "Moments", times: float = 1.0) -> "Moments":
        """Both together, the other taken `times`."""
        return Moments(
            self.mass + times * other.mass,
            self.first + times * other.first,
            self.inertia + times * other.inertia,
        )


def cylinder(
    ball_radius: float, surface: Vector, inward: Vector, hole_radius: float, depth: float
) -> Moments:
    """A hole as a solid of density 1, about the ball's centre.

    Parameters
    ----------
    ball_radius, hole_radius, depth : float
        Lengths [m]; the depth is measured from the surface point along the axis.
    surface : array (3,)
        Point of the sphere where the axis enters [m].
    inward : array (3,)
        Unit vector of the axis, into the ball.
    """
    out = -inward
    e1, e2 = square_to(out)
    a = float(surface @ e1) + hole_radius * _U
    b = float(surface @ e2) + hole_radius * _V
    bottom = float(surface @ out) - depth
    top = np.sqrt(np.maximum(ball_radius**2 - a * a - b * b, 0.0))
    length = np.maximum(top - bottom, 0.0)
    top = bottom + length
    area = math.pi * hole_radius**2
    w = area * _W
    first_along = 0.5 * (top**2 - bottom**2)
    second_along = (top**3 - bottom**3) / 3.0

    def total(f: NDArray[np.float64]) -> float:
        return float(np.sum(w * f))

    frame = np.array([e1, e2, out])
    first = np.array([total(a * length), total(b * length), total(first_along)])
    ab, ac, bc = total(a * b * length), total(a * first_along), total(b * first_along)
    second = np.array(
        [
            [total(a * a * length), ab, ac],
            [ab, total(b * b * length), bc],
            [ac, bc, total(second_along)],
        ]
    )
    inertia = np.trace(second) * np.eye(3) - second
    return Moments(total(length), frame.T @ first, frame.T @ inertia @ frame)


def about_centre_of_mass(body: Moments) -> tuple[Vector, Matrix]:
    """Centre of mass, and the inertia moved to it from the origin (parallel axes)."""
    c = body.first / body.mass
    return c, body.inertia - body.mass * (float(c @ c) * np.eye(3) - np.outer(c, c))


def principal(inertia: Matrix) -> tuple[Vector, Matrix]:
    """Principal moments, growing, and their axes as rows of a right-handed rotation."""
    moments, columns = np.linalg.eigh(inertia)
    rows = columns.T.copy()
    rows[2] = cross(rows[0], rows[1])
    return moments, rows
