"""A shot by a second method: other equations of motion, integrated by scipy's DOP853.

Newton's and Euler's laws for a rigid body (textbook mechanics) about the ball's **centre**, written
in the turning ball. The lane's directions turn there (Poisson's equation, de/dt = e x w), and the
two accelerations of the centre, the load of the lane and the three angular accelerations are the
unknowns of six linear equations. Nothing here comes from the library but records and registry: not
its state (momentum about the centre of mass, seen from the lane), nor its kernels or its steps.

Frames: ball z out through the grip centre, y to the fingers, x to the ring-finger side; lane x to
the bowling-hand side, y down the lane, z up. SI, films in um.
"""

import math
from typing import NamedTuple

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from workbook import sources

numba = pytest.importorskip("numba", reason="too slow without numba")

INCH, FOOT, MPH, RPM = 0.0254, 0.3048, 0.44704, 2 * math.pi / 60
BOARD = 41.5 / 39 * INCH
G = 9.80665
LANE = 60 * FOOT


class Throw(NamedTuple):
    """A drilled ball (lengths [m], per mass), its surface, and the lane's film [um]."""

    radius: float
    c: np.ndarray  # centre of mass, from the ball's centre
    inertia: np.ndarray  # about the centre of mass
    slip_scale: float
    mu_oil: float
    mu_dry: float
    film_cap: float
    film_scale: float  # film that leaves 1/e of the dry share
    kept: float  # after splitting and absorption
    track_width: float
    film: np.ndarray  # (feet, boards from the bowling hand's side)


class Answer(NamedTuple):
    """Of the ball's centre at 60 ft."""

    board: float
    angle_deg: float
    speed_mph: float
    time_s: float


@numba.njit(cache=True)
def lane_film(film, x, y):
    """A weighted mean of rows and boards: each counts 1 - distance, those beyond 1 not at all."""
    row = min(max(y / FOOT, 0.0), film.shape[0] - 1.0)
    column = min(max(19.0 - x / BOARD, 0.0), film.shape[1] - 1.0)
    total = 0.0
    for i in range(int(row), min(int(row) + 2, film.shape[0])):
        for j in range(int(column), min(int(column) + 2, film.shape[1])):
            total += (1.0 - abs(row - i)) * (1.0 - abs(column - j)) * film[i, j]
    return total


@numba.njit(cache=True)
def overlap(gap, width):
    """Mean over the ring, gaps gap*|sin|, of the share max(0, 1 - gap*|sin|/width)."""
    meet = math.asin(min(1.0, width / gap)) if gap > 0.0 else math.pi / 2
    return 2.0 / math.pi * (meet - gap / width * (1.0 - math.cos(meet)))


@numba.njit(cache=True)
def grip_of_lane(p, x, y, spin, carried):
    """Friction coefficient and rate of the carried film [um/s]."""
    rate = math.sqrt(spin @ spin)
    share = 1.0
    if rate > 0.0:
        free = np.linalg.solve(p.inertia, -np.cross(spin, p.inertia @ spin))  # without torque
        axis = spin / rate
        turning = free - (free @ axis) * axis
        gap = math.sqrt(turning @ turning) / rate * p.radius * 2 * math.pi / rate
        share = overlap(gap, p.track_width)
    contact = lane_film(p.film, x, y) + share * carried
    held = 1.0 / (1.0 / contact + 1.0 / p.film_cap) if contact > 0.0 else 0.0
    dry = math.exp(-held / p.film_scale)
    mu = dry * p.mu_dry + (1.0 - dry) * p.mu_oil
    return mu, (p.kept * contact - carried) * rate / (2 * math.pi)


@numba.njit(cache=True)
def slope(_t, state, p):
    """Time derivative of (x, y, vx, vy, spin, ahead, up, carried film).

    The centre at (x, y) moves with (vx, vy); spin and the lane's directions ahead and up are seen
    from the ball.
    """
    spin, ahead, up = state[4:7], state[7:10], state[10:13]
    side = np.cross(ahead, up)
    mu, oil_rate = grip_of_lane(p, state[0], state[1], spin, state[13])
    contact = -p.radius * up
    slip = state[2] * side + state[3] * ahead + np.cross(spin, contact)
    size = math.sqrt(slip @ slip)
    friction = -mu / p.slip_scale * slip
    if size > 1e-9 * p.slip_scale:
        friction = -mu * math.tanh(size / p.slip_scale) / size * slip
    push = up + friction  # of the lane, per unit of load

    # about the centre: acceleration a, load N, angular acceleration b
    #   a + b x c + w x (w x c) = N push - g up
    #   c x a + J b + w x J w = N contact x push - g c x up,  J about the centre
    c = p.c
    about = p.inertia + (c @ c) * np.eye(3) - np.outer(c, c)
    left = np.zeros((6, 6))
    right = np.empty(6)
    left[:3, 0], left[3:, 0] = side, np.cross(c, side)
    left[:3, 1], left[3:, 1] = ahead, np.cross(c, ahead)
    left[:3, 2], left[3:, 2] = -push, -np.cross(contact, push)
    for k in range(3):
        left[:3, 3 + k] = np.cross(np.eye(3)[k], c)
    left[3:, 3:] = about
    right[:3] = -G * up - np.cross(spin, np.cross(spin, c))
    right[3:] = -G * np.cross(c, up) - np.cross(spin, about @ spin)
    found = np.linalg.solve(left, right)
    if found[2] < 0.0:
        # The lane does not pull: no load, and the centre rises instead. The library says that it
        # keeps such a ball on the lane, so the rise is left out of the motion here too.
        left[:3, 2], left[3:, 2] = up, np.cross(c, up)
        found = np.linalg.solve(left, right)

    out = np.empty(14)
    out[0], out[1], out[2], out[3] = state[2], state[3], found[0], found[1]
    out[4:7] = found[3:]
    out[7:10] = np.cross(ahead, spin)
    out[10:13] = np.cross(up, spin)
    out[13] = oil_rate
    return out


def place(over_in, up_in, circumference_in):
    """Unit vector of a point of the ball: over along the midline, then up."""
    a, b = (2 * math.pi * length / circumference_in for length in (over_in, up_in))
    return np.array([math.cos(b) * math.sin(a), math.sin(b), math.cos(b) * math.cos(a)])


def unit(v):
    return v / math.sqrt(v @ v)


def throw(setup, lane):
    """What the equations need of a setup and a lane."""
    ball, drilled, a = setup.ball, setup.drilled, setup.assumptions
    if setup.surface.polished:
        ra = a.ra_polished
    else:
        ra = a.ra_at_2000 * (setup.surface.grit / 2000) ** -a.ra_exponent
    sigma = math.sqrt(math.pi / 2 * (ra * INCH) ** 2 + a.lane_roughness**2)  # uin -> um: 0.0254
    film = lane.film_um if setup.bowler.hand == "right" else lane.film_um[:, ::-1]
    return Throw(
        radius=ball.circumference_in * INCH / (2 * math.pi),
        c=np.array(drilled.center_of_mass_in) * INCH,
        inertia=np.array(drilled.inertia_per_mass, order="C"),
        slip_scale=a.slip_scale,
        mu_oil=a.mu_oil,
        mu_dry=getattr(a, f"mu_dry_{ball.cover}"),
        film_cap=a.film_cap,
        film_scale=a.film_ratio * sigma,
        kept=a.kept * (1 - getattr(a, f"absorbed_{ball.cover}")),
        track_width=a.track_width * INCH,
        film=np.array(film, order="C"),
    )


def release(setup, line, p):
    """State at release. The PAP is the end about which the ball turns counter-clockwise.

    In line with the launch it faces away from the hand at rotation 0, the bowler at 90 degrees, and
    tilt lifts it. The fingers are lowest at phase 0. The line is that of the ball's centre, the
    speed that of the centre of mass.
    """
    bowler, size = setup.bowler, setup.ball.circumference_in
    launch, rotation, tilt, phase = np.radians(
        [line.angle_deg, bowler.axis_rotation_deg, bowler.axis_tilt_deg, bowler.release_phase_deg]
    )
    way = np.array([math.sin(launch), math.cos(launch), 0.0])
    right, high = np.array([way[1], -way[0], 0.0]), np.array([0.0, 0.0, 1.0])
    axis = math.sin(tilt) * high - math.cos(tilt) * (
        math.cos(rotation) * right + math.sin(rotation) * way
    )
    pap = place(bowler.pap_over_in, bowler.pap_up_in, size)
    holes = [(h.over_in, h.up_in) for h in setup.grip.holes if h.up_in > 0] or [(0.0, 2.5)]
    fingers = unit(sum(place(*hole, size) for hole in holes))
    in_ball = np.array([pap, unit(fingers - fingers @ pap * pap), unit(np.cross(pap, fingers))])
    low = unit(axis[2] * axis - high)
    low = math.cos(phase) * low + math.sin(phase) * np.cross(axis, low)
    in_lane = np.array([axis, low, np.cross(axis, low)])
    _, ahead, up = in_lane.T @ in_ball  # the lane's directions seen from the ball

    spin = bowler.rev_rate_rpm * RPM * pap
    side = np.cross(ahead, up)
    wobble = np.cross(spin, p.c)
    velocity = bowler.speed_mph * MPH * way[:2] - [wobble @ side, wobble @ ahead]
    return np.array([(20 - line.laydown_board) * BOARD, 0.0, *velocity, *spin, *ahead, *up, 0.0])


def at_pins(_t, state, _p):
    return state[1] - LANE


at_pins.terminal = True


def shot(setup, lane, line, rtol=1e-10, **options):
    """The shot at 60 ft, on a lane without gutters."""
    assert sources.value("gravity") == G
    p = throw(setup, lane)
    options = dict(method="DOP853", atol=1e-2 * rtol, events=at_pins) | options
    run = solve_ivp(slope, (0, 30), release(setup, line, p), args=(p,), rtol=rtol, **options)
    (end,), (time,) = run.y_events[0], run.t_events[0]
    x, _, vx, vy = end[:4]
    return Answer(20 - x / BOARD, math.degrees(math.atan2(-vx, vy)), math.hypot(vx, vy) / MPH, time)
