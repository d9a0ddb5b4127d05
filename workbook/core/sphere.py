"""Geometry on the ball's sphere: unit vectors in the ball frame, angles in radians.

Ball frame: origin at the ball's centre; z out through the grip centre; y along the grip centreline,
thumb to fingers; x toward the ring-finger side, where the positive axis point (PAP) is.
All formulas are spherical trigonometry (textbook); nothing here is flat.
"""

import math

import numpy as np
from numpy.typing import NDArray

from workbook.core.compiled import jit

Vector = NDArray[np.float64]
Matrix = NDArray[np.float64]
Z = np.array([0.0, 0.0, 1.0])


def point(over: float, up: float) -> Vector:
    """Unit vector of the point `over` [rad] along the midline, then `up` [rad] square to it."""
    return np.array([math.cos(up) * math.sin(over), math.sin(up), math.cos(up) * math.cos(over)])


def over_up(p: Vector) -> tuple[float, float]:
    """Inverse of `point`: (over, up) [rad] of the unit vector `p`."""
    return math.atan2(p[0], p[2]), math.asin(max(-1.0, min(1.0, float(p[1]))))


def tangent_up(over: float, up: float) -> Vector:
    """Unit tangent of growing `up` at `point(over, up)`."""
    return np.array([-math.sin(up) * math.sin(over), math.cos(up), -math.sin(up) * math.cos(over)])


def tangent_side(over: float) -> Vector:
    """Unit tangent of growing `over` at any `up` on that meridian: square to `tangent_up`."""
    return np.array([math.cos(over), 0.0, -math.sin(over)])


@jit
def cross(a: Vector, b: Vector) -> Vector:
    """Cross product of two vectors; numpy's own takes twenty times as long for three numbers."""
    return np.array(
        [
            a[1] * b[2] - a[2] * b[1],
            a[2] * b[0] - a[0] * b[2],
            a[0] * b[1] - a[1] * b[0],
        ]
    )


@jit
def unit(v: Vector) -> Vector:
    """`v` divided by its length."""
    return v / math.sqrt(float(v @ v))


def angle(a: Vector, b: Vector) -> float:
    """Angle between two unit vectors [rad], accurate for small angles too."""
    return math.atan2(float(np.linalg.norm(cross(a, b))), float(a @ b))


def tangent_toward(a: Vector, b: Vector) -> Vector:
    """Unit tangent at `a` along the great circle toward `b` (a and b not parallel)."""
    return unit(b - float(a @ b) * a)


def go(a: Vector, direction: Vector, arc: float) -> Vector:
    """Point reached from `a` along the unit tangent `direction` after `arc` [rad]."""
    return math.cos(arc) * a + math.sin(arc) * direction


def pap_tangents(over: float, up: float) -> tuple[Vector, Vector]:
    """At the PAP: unit tangent up the VAL, and the one square to it toward the grip."""
    p, t_up = point(over, up), tangent_up(over, up)
    inward = cross(t_up, p)
    return t_up, inward if float(inward @ Z) >= 0 else -inward


def layout_points(
    pap_over: float, pap_up: float, pin_to_pap: float, val: float, drilling: float, mark_arc: float
) -> tuple[Vector, Vector]:
    """Pin and mark from the three layout numbers.

    The mark (PSA or CG) lies `mark_arc` [rad] from the pin, in the direction that makes the
    drilling angle with the line pin-to-PAP, turned toward the thumb. All angles [rad].
    """
    pap = point(pap_over, pap_up)
    t_up, t_in = pap_tangents(pap_over, pap_up)
    pin = go(pap, math.cos(val) * t_up + math.sin(val) * t_in, pin_to_pap)
    # the line back to the PAP at the pin, taken analytically: it also exists at pin_to_pap = 0
    back = math.sin(pin_to_pap) * pap - math.cos(pin_to_pap) * (
        math.cos(val) * t_up + math.sin(val) * t_in
    )
    side = cross(pin, back)
    return pin, go(pin, math.cos(drilling) * back - math.sin(drilling) * side, mark_arc)


def layout_angles(
    pap_over: float, pap_up: float, pin: Vector, mark: Vector
) -> tuple[float, float, float]:
    """Inverse of `layout_points`: (drilling angle, pin-to-PAP, VAL angle) [rad].

    Angles keep their sign: a negative VAL angle lies on the far side of the VAL, a negative
    drilling angle on the finger side; the caller decides what to say about those.
    """
    pap = point(pap_over, pap_up)
    t_up, t_in = pap_tangents(pap_over, pap_up)
    out = tangent_toward(pap, pin)
    val = math.atan2(float(out @ t_in), float(out @ t_up))
    back = tangent_toward(pin, pap)
    side = cross(pin, back)
    to_mark = tangent_toward(pin, mark)
    drilling = math.atan2(-float(to_mark @ side), float(to_mark @ back))
    return drilling, angle(pin, pap), val


def around(p: Vector, arc: float) -> list[Vector]:
    """`p` itself and four points around it, `arc` [rad] away."""
    a, b = square_to(p)
    return [p, go(p, a, arc), go(p, -a, arc), go(p, b, arc), go(p, -b, arc)]


def square_to(axis: Vector) -> tuple[Vector, Vector]:
    """Two unit vectors that make a right-handed frame with `axis` as the third."""
    a = tangent_toward(axis, np.eye(3)[int(np.argmin(np.abs(axis)))])
    return a, cross(axis, a)


def circle(axis: Vector, opening: float, points: int) -> Vector:
    """Closed circle of unit vectors `opening` [rad] from `axis`, array (points, 3)."""
    a, b = square_to(axis)
    turn = np.linspace(0.0, 2.0 * math.pi, points)[:, None]
    return math.cos(opening) * axis + math.sin(opening) * (np.cos(turn) * a + np.sin(turn) * b)


def bore_rim(entry: Vector, inward: Vector, radius: float, points: int) -> Vector:
    """Where a cylinder of that radius (ball radius = 1) meets the sphere, array (points, 3)."""
    a, b = square_to(-inward)
    turn = np.linspace(0.0, 2.0 * math.pi, points)[:, None]
    foot = entry - float(entry @ inward) * inward + radius * (np.cos(turn) * a + np.sin(turn) * b)
    height = np.sqrt(np.maximum(1.0 - np.sum(foot * foot, axis=1, keepdims=True), 0.0))
    return foot - height * inward
