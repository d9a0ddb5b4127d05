"""The ball at the moment of release: where its axis points and how it is turned about it.

The positive axis point is the end of the axis about which the ball turns counter-clockwise seen
from outside, so the spin is +rate times the unit vector of the PAP. Angles in radians, SI.
"""

import math

import numpy as np

from workbook.core.compiled import jit
from workbook.core.sphere import Matrix, Vector, cross, unit


@jit
def axis_in_lane(rotation: float, tilt: float, launch: float) -> Vector:
    """PAP direction in the lane frame at release.

    At rotation 0 it faces away from the bowling hand's side, at 90 degrees it faces the bowler;
    positive tilt lifts it. `launch` turns all of it with the line, positive toward the hand side.
    """
    across = -math.cos(rotation) * math.cos(tilt)
    along = -math.sin(rotation) * math.cos(tilt)
    c, s = math.cos(launch), math.sin(launch)
    return np.array([across * c + along * s, -across * s + along * c, math.sin(tilt)])


@jit
def attitude(pap: Vector, fingers: Vector, axis: Vector, phase: float) -> Matrix:
    """Rotation from ball frame to lane frame at release.

    It carries `pap` to `axis`; the rest of the freedom is the phase: at 0 the fingers are as low as
    they can be, and the ball is then turned on by `phase` about the axis.
    """
    down = np.array([0.0, 0.0, -1.0])
    low = unit(down - float(down @ axis) * axis)
    low = math.cos(phase) * low + math.sin(phase) * cross(axis, low)
    grip = unit(fingers - float(fingers @ pap) * pap)
    body = np.stack((pap, grip, cross(pap, grip)))
    lane = np.stack((axis, low, cross(axis, low)))
    rotation: Matrix = lane.T @ body
    return rotation


@jit
def quaternion(rotation: Matrix) -> Vector:
    """Unit quaternion (w, x, y, z) of a rotation matrix (Shepperd, J. Guid. Control 1 (1978) 223).

    The largest component is found first, so that no half turn loses accuracy.
    """
    m = rotation
    four = np.array(
        [
            1 + m[0, 0] + m[1, 1] + m[2, 2],
            1 + m[0, 0] - m[1, 1] - m[2, 2],
            1 - m[0, 0] + m[1, 1] - m[2, 2],
            1 - m[0, 0] - m[1, 1] + m[2, 2],
        ]
    )
    i = int(np.argmax(four))
    w = (m[2, 1] - m[1, 2], m[0, 2] - m[2, 0], m[1, 0] - m[0, 1])
    q = np.empty(4)
    if i == 0:
        q[0], q[1], q[2], q[3] = four[0], w[0], w[1], w[2]
    else:
        j, k = i % 3, (i + 1) % 3  # the other two axes
        q[0], q[i] = w[i - 1], four[i]
        q[j + 1], q[k + 1] = m[i - 1, j] + m[j, i - 1], m[i - 1, k] + m[k, i - 1]
    return unit(q)


def most_turn(
    radius: float, k: float, speed: float, spin: float, rotation: float, tilt: float
) -> float:
    """Angle between launch and final direction of a ball that rolls; k = (RG/radius)^2."""
    side = k * radius * spin * math.sin(rotation) * math.cos(tilt)
    forward = speed + k * radius * spin * math.cos(rotation) * math.cos(tilt)
    return math.atan2(side, forward)
