"""The path of a shot, and the rings on the ball, in the trade's units."""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from workbook import units
from workbook.core import roll as kernel
from workbook.core import sphere
from workbook.line import board_at

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Ring:
    """One oil ring: the circle that the lane touches during one revolution.

    Parameters
    ----------
    axis : array (3,)
        Mean spin axis of that revolution in the ball frame, unit length.
    opening_deg : float
        Angle at the ball's centre between axis and ring [deg].
    distance_ft : float
        Where on the lane the middle of the revolution was [ft].
    """

    axis: Array
    opening_deg: float
    distance_ft: float

    @classmethod
    def from_row(cls, row: Array, axes: Array) -> "Ring":
        """Ring from a row of the kernel's table; `axes` are the principal axes as rows."""
        opening = math.acos(max(-1.0, min(1.0, float(row[3])))) / units.DEGREE
        return cls(axes.T @ row[:3], opening, float(row[4]) / units.FOOT)

    def outline(self, points: int = 181) -> Array:
        """The ring as unit vectors in the ball frame, array (points, 3), closed."""
        return sphere.circle(self.axis, self.opening_deg * units.DEGREE, points)


@dataclass(frozen=True, eq=False)
class Path:
    """A shot from release to the pins, one array entry for each step of the calculation.

    Parameters
    ----------
    table : array (n, columns)
        The kernel's rows, SI (columns: `workbook.core.roll.COLUMNS`).
    axes : array (3, 3)
        The ball's principal axes as rows, in the ball frame.
    """

    table: Array
    axes: Array

    def __len__(self) -> int:
        return len(self.table)

    def _column(self, column: int, unit: float = 1.0) -> Array:
        return self.table[:, column] / unit

    @cached_property
    def time_s(self) -> Array:
        """Time since release [s]."""
        return self._column(kernel.T)

    @cached_property
    def distance_ft(self) -> Array:
        """Distance of the ball's centre from the foul line [ft]."""
        return self._column(kernel.Y, units.FOOT)

    @cached_property
    def board(self) -> Array:
        """Board under the ball's centre, counted from the bowler's own side [board]."""
        return board_at(self._column(kernel.X))

    @cached_property
    def speed_mph(self) -> Array:
        """Speed of the centre of mass [mph]."""
        speed: Array = np.hypot(self._column(kernel.CVX), self._column(kernel.CVY)) / units.MPH
        return speed

    @cached_property
    def direction_deg(self) -> Array:
        """Direction of travel of the centre of mass [deg], positive toward growing boards."""
        return np.arctan2(-self._column(kernel.CVX), self._column(kernel.CVY)) / units.DEGREE

    @cached_property
    def rev_rate_rpm(self) -> Array:
        """Rev rate [rpm]."""
        rate: Array = np.linalg.norm(self._spin_body, axis=1) / units.RPM
        return rate

    @cached_property
    def slip_mph(self) -> Array:
        """Speed of the contact point over the lane [mph]."""
        return self._column(kernel.SLIP, units.MPH)

    @cached_property
    def lane_film_um(self) -> Array:
        """Oil film on the lane under the ball [um]."""
        return self._column(kernel.FILM, units.MICROMETRE)

    @cached_property
    def contact_film_um(self) -> Array:
        """Film in the contact: the lane's and what the ball brings back [um]."""
        return self._column(kernel.CONTACT_FILM, units.MICROMETRE)

    @cached_property
    def carried_film_um(self) -> Array:
        """Film that the ball carries on its track [um]."""
        return self._column(kernel.CARRIED_FILM, units.MICROMETRE)

    @cached_property
    def friction(self) -> Array:
        """Coefficient of friction [1]."""
        return self._column(kernel.MU)

    @cached_property
    def spin_axis(self) -> Array:
        """Spin axis in the ball frame, array (n, 3), unit length (zero without spin)."""
        spin = self._spin_body
        size = np.linalg.norm(spin, axis=1, keepdims=True)
        axis: Array = np.divide(spin, size, out=np.zeros_like(spin), where=size > 0) @ self.axes
        return axis

    @cached_property
    def axis_tilt_deg(self) -> Array:
        """Axis tilt [deg]: rise of the spin axis over the lane."""
        spin = self._spin_lane
        return np.arctan2(spin[:, 2], np.hypot(spin[:, 0], spin[:, 1])) / units.DEGREE

    @cached_property
    def axis_rotation_deg(self) -> Array:
        """Axis rotation [deg] against the direction of travel, 0 end over end."""
        spin, way = self._spin_lane, self.direction_deg * units.DEGREE
        forward = np.stack([-np.sin(way), np.cos(way)], axis=1)
        across = np.stack([-np.cos(way), -np.sin(way)], axis=1)
        flat = spin[:, :2]
        behind, aside = -np.sum(flat * forward, axis=1), np.sum(flat * across, axis=1)
        rotation: Array = np.arctan2(behind, aside) / units.DEGREE
        return rotation

    @cached_property
    def ball_to_lane(self) -> Array:
        """Rotation from ball frame to lane frame, array (n, 3, 3)."""
        q = self.table[:, kernel.Q0 : kernel.Q3 + 1]
        w, x, y, z = (q / np.linalg.norm(q, axis=1, keepdims=True)).T
        rows = [
            [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
            [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
            [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
        ]
        rotation: Array = np.array(rows).transpose(2, 0, 1) @ self.axes
        return rotation

    @property
    def _spin_body(self) -> Array:
        return self.table[:, kernel.W1 : kernel.W3 + 1]

    @property
    def _spin_lane(self) -> Array:
        spin: Array = np.einsum("nij,nj->ni", self.ball_to_lane, self._spin_body @ self.axes)
        return spin
