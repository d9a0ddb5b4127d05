"""One shot down the lane: the full rigid body with friction, track oil and an off-centre mass.

Lane frame: origin on the foul line at mid-lane, x toward the bowling-hand side, y down the lane, z
up. Body frame of this kernel: the ball's principal axes. Everything is per unit mass and SI.

The state is (x, y) and (vx, vy) of the centre of mass, the angular momentum about it in the lane
frame, the quaternion from body to lane, and the oil film on the track. Angular momentum in the lane
frame is used because it changes by friction alone: while the ball slides it is nearly a straight
line, so steps are as long as the turning of the ball allows.

Integration: Dormand and Prince, J. Comput. Appl. Math. 6 (1980) 19, 5(4) with error control
(coefficients published there); a step ends on each edge of a friction zone and on the last line.
"""

import math

import numpy as np

from workbook.core.compiled import Array, Record, jit
from workbook.core.friction import coefficient, film_at, ring_overlap

SHOT = np.dtype(
    [(name, "f8") for name in (
        "radius", "gravity",
        "k1", "k2", "k3",  # principal moments per mass [m^2], growing
        "c1", "c2", "c3",  # centre of mass from the ball's centre, principal axes [m]
        "x", "y", "vx", "vy",  # centre of mass at release
        "w1", "w2", "w3",  # spin at release, principal axes [rad/s]
        "q0", "q1", "q2", "q3",  # principal axes -> lane at release
        "slip_scale",  # u0 [m/s]
        "mu_oil", "mu_dry", "film_cap", "roughness_scale", "absorbed", "kept", "track_width",
        "ring_film",  # thinnest lane film that leaves a ring [m]
        "board_width", "foot", "end", "half_width",  # half_width: where the gutter starts [m]
        "tolerance",
        "least_slip",  # a release with less of it already rolls [m/s]
    )]
)  # fmt: skip

COLUMNS = (
    "t",
    "x", "y",  # the ball's centre
    "vx", "vy",  # its velocity
    "cvx", "cvy",  # velocity of the centre of mass, which does not wobble
    "q0", "q1", "q2", "q3", "w1", "w2", "w3", "slip", "turned",
    "film", "contact_film", "carried_film", "mu", "load",
)  # fmt: skip
T, X, Y, VX, VY, CVX, CVY, Q0, Q1, Q2, Q3, W1, W2, W3, SLIP, TURNED = range(16)
FILM, CONTACT_FILM, CARRIED_FILM, MU, LOAD = range(16, 21)
AT_PINS, IN_GUTTER, UNFINISHED = 0, 1, 2
MAX_STEPS = 30000  # the stiffest allowed: friction 1, slip scale 0.005 m/s, 8 mph
STATE = 12
SEEN = 12

_C = np.array([0.0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1.0, 1.0])
_A = np.zeros((7, 6))
_A[1, :1] = [1 / 5]
_A[2, :2] = [3 / 40, 9 / 40]
_A[3, :3] = [44 / 45, -56 / 15, 32 / 9]
_A[4, :4] = [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729]
_A[5, :5] = [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656]
_A[6, :6] = [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84]
_E = np.array([71 / 57600, 0.0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40])
# What one unit of error means in each part of the state: a metre, a metre per second, ...
_SCALE = np.array([1.0, 1.0, 1.0, 1.0, 0.1, 0.1, 0.1, 1.0, 1.0, 1.0, 1.0, 1e-5])


@jit
def derivative(s: Array, p: Record, film: Array, zone_mu: float, out: Array, seen: Array) -> None:
    """Time derivative `out` of the state `s`; `seen` receives what is worth keeping of the moment.

    `zone_mu` below zero: friction from the film; else the given coefficient.
    """
    radius = p["radius"]
    k1 = p["k1"]
    k2 = p["k2"]
    k3 = p["k3"]
    c1 = p["c1"]
    c2 = p["c2"]
    c3 = p["c3"]
    q0 = s[7]
    q1 = s[8]
    q2 = s[9]
    q3 = s[10]
    norm = 1.0 / math.sqrt(q0 * q0 + q1 * q1 + q2 * q2 + q3 * q3)
    q0 *= norm
    q1 *= norm
    q2 *= norm
    q3 *= norm
    # rotation body -> lane
    r11 = 1.0 - 2.0 * (q2 * q2 + q3 * q3)
    r12 = 2.0 * (q1 * q2 - q0 * q3)
    r13 = 2.0 * (q1 * q3 + q0 * q2)
    r21 = 2.0 * (q1 * q2 + q0 * q3)
    r22 = 1.0 - 2.0 * (q1 * q1 + q3 * q3)
    r23 = 2.0 * (q2 * q3 - q0 * q1)
    r31 = 2.0 * (q1 * q3 - q0 * q2)
    r32 = 2.0 * (q2 * q3 + q0 * q1)
    r33 = 1.0 - 2.0 * (q1 * q1 + q2 * q2)
    # angular momentum and spin in the body
    l1 = r11 * s[4] + r21 * s[5] + r31 * s[6]
    l2 = r12 * s[4] + r22 * s[5] + r32 * s[6]
    l3 = r13 * s[4] + r23 * s[5] + r33 * s[6]
    w1 = l1 / k1
    w2 = l2 / k2
    w3 = l3 / k3
    # torque-free part of the change of spin: I^-1 (I w x w)
    g1 = (l2 * w3 - l3 * w2) / k1
    g2 = (l3 * w1 - l1 * w3) / k2
    g3 = (l1 * w2 - l2 * w1) / k3
    ww = w1 * w1 + w2 * w2 + w3 * w3
    # lane frame: spin, centre of mass, and the arm d from it to the contact
    wx = r11 * w1 + r12 * w2 + r13 * w3
    wy = r21 * w1 + r22 * w2 + r23 * w3
    wz = r31 * w1 + r32 * w2 + r33 * w3
    cx = r11 * c1 + r12 * c2 + r13 * c3
    cy = r21 * c1 + r22 * c2 + r23 * c3
    cz = r31 * c1 + r32 * c2 + r33 * c3
    dx = -cx
    dy = -cy
    dz = -radius - cz
    ux = s[2] + wy * dz - wz * dy
    uy = s[3] + wz * dx - wx * dz
    u = math.sqrt(ux * ux + uy * uy)

    lane_film = 0.0
    contact = 0.0
    oil_rate = 0.0
    mu = zone_mu
    if zone_mu < 0.0:
        lane_film = film_at(film, s[0] - cx, s[1] - cy, p["board_width"], p["foot"])
        overlap = 1.0
        if ww > 0.0:
            along = (g1 * w1 + g2 * w2 + g3 * w3) / ww
            a1 = g1 - along * w1
            a2 = g2 - along * w2
            a3 = g3 - along * w3
            axis_rate = math.sqrt((a1 * a1 + a2 * a2 + a3 * a3) / ww)
            gap = axis_rate * radius * 2.0 * math.pi / math.sqrt(ww)
            overlap = ring_overlap(gap, p["track_width"])
        contact = lane_film + overlap * s[11]
        mu = coefficient(contact, p["film_cap"], p["roughness_scale"], p["mu_oil"], p["mu_dry"])
        oil_rate = (
            (p["kept"] * (1.0 - p["absorbed"]) * contact - s[11]) * math.sqrt(ww) / (2.0 * math.pi)
        )
    # friction per unit of load, smooth through zero slip
    x = u / p["slip_scale"]
    pull = -mu * (math.tanh(x) / u if x > 1e-6 else 1.0 / p["slip_scale"])
    fx = pull * ux
    fy = pull * uy
    # torque per unit of load: d x (fx, fy, 1)
    tx = dy - dz * fy
    ty = dz * fx - dx
    tz = dx * fy - dy * fx
    gravity = p["gravity"]
    load = gravity
    if c1 != 0.0 or c2 != 0.0 or c3 != 0.0:
        t1 = (r11 * tx + r21 * ty + r31 * tz) / k1
        t2 = (r12 * tx + r22 * ty + r32 * tz) / k2
        t3 = (r13 * tx + r23 * ty + r33 * tz) / k3
        # (a x c).z = a.(c x z), with z in the body = (r31, r32, r33)
        m1 = c2 * r33 - c3 * r32
        m2 = c3 * r31 - c1 * r33
        m3 = c1 * r32 - c2 * r31
        still = g1 * m1 + g2 * m2 + g3 * m3 + wz * (w1 * c1 + w2 * c2 + w3 * c3) - cz * ww
        load = (gravity + still) / (1.0 - (t1 * m1 + t2 * m2 + t3 * m3))
        if load < 0.0:
            load = 0.0
    out[0] = s[2]
    out[1] = s[3]
    out[2] = load * fx
    out[3] = load * fy
    out[4] = load * tx
    out[5] = load * ty
    out[6] = load * tz
    out[7] = -0.5 * (q1 * w1 + q2 * w2 + q3 * w3)
    out[8] = 0.5 * (q0 * w1 + q2 * w3 - q3 * w2)
    out[9] = 0.5 * (q0 * w2 + q3 * w1 - q1 * w3)
    out[10] = 0.5 * (q0 * w3 + q1 * w2 - q2 * w1)
    out[11] = oil_rate
    seen[0] = u
    seen[1] = lane_film
    seen[2] = contact
    seen[3] = mu
    seen[4] = load
    seen[5] = cx
    seen[6] = cy
    seen[7] = w1
    seen[8] = w2
    seen[9] = w3
    seen[10] = s[2] - (wy * cz - wz * cy)
    seen[11] = s[3] - (wz * cx - wx * cz)


@jit
def _start(p: Record, s: Array) -> None:
    """Fill the state at release."""
    q0 = p["q0"]
    q1 = p["q1"]
    q2 = p["q2"]
    q3 = p["q3"]
    l1 = p["k1"] * p["w1"]
    l2 = p["k2"] * p["w2"]
    l3 = p["k3"] * p["w3"]
    s[0] = p["x"]
    s[1] = p["y"]
    s[2] = p["vx"]
    s[3] = p["vy"]
    s[4] = (
        (1.0 - 2.0 * (q2 * q2 + q3 * q3)) * l1
        + 2.0 * (q1 * q2 - q0 * q3) * l2
        + 2.0 * (q1 * q3 + q0 * q2) * l3
    )
    s[5] = (
        2.0 * (q1 * q2 + q0 * q3) * l1
        + (1.0 - 2.0 * (q1 * q1 + q3 * q3)) * l2
        + 2.0 * (q2 * q3 - q0 * q1) * l3
    )
    s[6] = (
        2.0 * (q1 * q3 - q0 * q2) * l1
        + 2.0 * (q2 * q3 + q0 * q1) * l2
        + (1.0 - 2.0 * (q1 * q1 + q2 * q2)) * l3
    )
    s[7] = q0
    s[8] = q1
    s[9] = q2
    s[10] = q3
    s[11] = 0.0


@jit
def _keep(path: Array, n: int, t: float, turned: float, s: Array, seen: Array) -> None:
    """Write row `n` of the path."""
    row = path[n]
    row[T] = t
    row[X] = s[0] - seen[5]
    row[Y] = s[1] - seen[6]
    row[VX] = seen[10]
    row[VY] = seen[11]
    row[CVX] = s[2]
    row[CVY] = s[3]
    for i in range(4):
        row[Q0 + i] = s[7 + i]
    for i in range(3):
        row[W1 + i] = seen[7 + i]
    row[SLIP] = seen[0]
    row[TURNED] = turned
    row[FILM] = seen[1]
    row[CONTACT_FILM] = seen[2]
    row[CARRIED_FILM] = s[11]
    row[MU] = seen[3]
    row[LOAD] = seen[4]


@jit
def roll(p: Record, film: Array, zones: Array, path: Array) -> tuple[int, int]:
    """Roll one shot and write its path, one row per accepted step.

    Parameters
    ----------
    p : record of dtype SHOT
    film : array (feet, 39)
        Lane film [m]; not looked at when there are zones.
    zones : array (n, 2)
        Uniform-friction zones (end [m], coefficient); n = 0 for a lane with a film.
    path : array (MAX_STEPS, number of columns)
        Receives the rows (see COLUMNS).

    Returns
    -------
    rows : int
        Rows written.
    end : int
        AT_PINS, IN_GUTTER or UNFINISHED.
    """
    s = np.empty(STATE)
    new = np.empty(STATE)
    k = np.zeros((7, STATE))
    off = np.empty(STATE)
    seen = np.empty(SEEN)
    seen_new = np.empty(SEEN)
    _start(p, s)
    zone = 0
    zone_mu = zones[0, 1] if zones.shape[0] > 0 else -1.0
    stop = p["end"]
    if zones.shape[0] > 1:
        stop = min(stop, zones[0, 0])
    half = p["half_width"]
    derivative(s, p, film, zone_mu, k[0], seen)
    t = 0.0
    turned = 0.0
    h = 0.004
    _keep(path, 0, t, turned, s, seen)
    rows = 1
    tries = 0
    while rows < path.shape[0] and tries < 20 * path.shape[0]:
        tries += 1
        for stage in range(1, 7):
            # written out, so that the compiler takes several components at a time
            a0, a1, a2, a3, a4, a5 = _A[stage]
            if stage < 4:
                for i in range(STATE):
                    new[i] = s[i] + h * (a0 * k[0, i] + a1 * k[1, i] + a2 * k[2, i])
            else:
                for i in range(STATE):
                    new[i] = s[i] + h * (
                        a0 * k[0, i] + a1 * k[1, i] + a2 * k[2, i]
                        + a3 * k[3, i] + a4 * k[4, i] + a5 * k[5, i]
                    )  # fmt: skip
            derivative(new, p, film, zone_mu, k[stage], seen_new)
        for i in range(STATE):
            off[i] = h * abs(
                _E[0] * k[0, i] + _E[2] * k[2, i] + _E[3] * k[3, i]
                + _E[4] * k[4, i] + _E[5] * k[5, i] + _E[6] * k[6, i]
            ) / _SCALE[i]  # fmt: skip
        error = off.max()
        error /= p["tolerance"]
        if not error <= 1.0:
            h *= max(0.2, 0.9 * error ** (-0.2)) if error < 1e12 else 0.2
            k[1:] = 0.0  # nothing endless may be left for a coefficient of nought
            continue
        # the last line, a zone's edge and the gutter are met exactly: shorten the step onto them
        y_old = path[rows - 1, Y]
        x_old = abs(path[rows - 1, X])
        y_new = new[1] - seen_new[6]
        x_new = abs(new[0] - seen_new[5])
        share = 1.0
        if y_new > stop + 1e-10:
            share = (stop - y_old) / (y_new - y_old)
        if x_new > half + 1e-10 and x_old <= half:
            share = min(share, (half - x_old) / (x_new - x_old))
        if share < 1.0 and h > 1e-12:
            h *= max(share, 1e-3)
            continue
        t += h
        w_old = math.sqrt(seen[7] ** 2 + seen[8] ** 2 + seen[9] ** 2)
        w_new = math.sqrt(seen_new[7] ** 2 + seen_new[8] ** 2 + seen_new[9] ** 2)
        turned += 0.5 * h * (w_old + w_new)
        for i in range(STATE):
            s[i] = new[i]
            k[0, i] = k[6, i]
        for i in range(SEEN):
            seen[i] = seen_new[i]
        _keep(path, rows, t, turned, s, seen)
        rows += 1
        if x_new >= half - 1e-9:
            return rows, IN_GUTTER
        if y_new >= stop - 1e-9:
            if stop >= p["end"]:
                return rows, AT_PINS
            zone += 1
            zone_mu = zones[zone, 1]
            stop = p["end"]
            if zone + 1 < zones.shape[0]:
                stop = min(stop, zones[zone, 0])
            derivative(s, p, film, zone_mu, k[0], seen)
            h = 0.002
            continue
        h *= min(4.0, 0.9 * max(error, 1e-10) ** (-0.2))
    return rows, UNFINISHED
