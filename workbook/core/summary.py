"""What is reported of one shot, read off its path. SI and radians."""

import math

import numpy as np
from numpy.typing import NDArray

from workbook.core import roll as rolling
from workbook.core.compiled import Array, Record, jit
from workbook.core.roll import (
    AT_PINS,
    CVX,
    CVY,
    FILM,
    LOAD,
    MAX_STEPS,
    Q0,
    Q1,
    Q2,
    Q3,
    SLIP,
    TURNED,
    VX,
    VY,
    W1,
    T,
    X,
    Y,
)  # fmt: skip

RESULT = np.dtype(
    [(name, "f8") for name in (
        "end",  # AT_PINS, IN_GUTTER or UNFINISHED
        "x", "y", "direction", "speed", "time",  # at the last row: the pins or the gutter
        "arrows_x",  # where the arrows are crossed
        "outermost_x", "outermost_y",
        "hook",  # across, from the launch line, away from the hand's side
        "half_slip_y", "roll_y",  # where half and nine tenths of the release slip are gone
        "sharpest",  # most turn in any window
        "flare",  # angle
        "rings", "least_load",
    )]
)  # fmt: skip

WINDOW = 1.524  # 5 ft [m]
LEFT_HALF, LEFT_TENTH = 0.5, 0.1
MOST_RINGS = 400
RING = 5  # columns of a ring: mean axis (3, body), mean contact along it, distance


@jit
def _distance_of_slip(path: Array, rows: int, slip: float) -> float:
    """Distance [m] where the slip first falls to `slip`; NaN if it never does."""
    for i in range(1, rows):
        if path[i, SLIP] <= slip:
            before = path[i - 1, SLIP]
            share = (before - slip) / (before - path[i, SLIP]) if before > slip else 0.0
            return path[i - 1, Y] + share * (path[i, Y] - path[i - 1, Y])
    return math.nan


@jit
def _outermost(path: Array, rows: int) -> tuple[float, float]:
    """(x, y) of the point farthest toward the hand's side: a parabola through three rows."""
    m = 0
    for i in range(1, rows):
        if path[i, X] > path[m, X]:
            m = i
    if m == 0 or m == rows - 1:
        return path[m, X], path[m, Y]
    y0 = path[m - 1, Y] - path[m, Y]
    y2 = path[m + 1, Y] - path[m, Y]
    d0 = path[m - 1, X] - path[m, X]
    d2 = path[m + 1, X] - path[m, X]
    bend = (d0 / y0 - d2 / y2) / (y0 - y2)
    slope = d0 / y0 - bend * y0
    if bend >= 0.0:
        return path[m, X], path[m, Y]
    top = -0.5 * slope / bend
    return path[m, X] + 0.5 * slope * top, path[m, Y] + top


@jit
def _sharpest(path: Array, rows: int) -> float:
    """Greatest change of direction of the centre of mass within `WINDOW` [rad]."""
    most = 0.0
    j = 0
    for i in range(rows):
        goal = path[i, Y] + WINDOW
        while j < rows - 1 and path[j, Y] < goal:
            j += 1
        there = math.atan2(path[j, CVX], path[j, CVY])
        if path[j, Y] > goal and j > 0:
            before = math.atan2(path[j - 1, CVX], path[j - 1, CVY])
            share = (goal - path[j - 1, Y]) / (path[j, Y] - path[j - 1, Y])
            there = before + share * (there - before)
        most = max(most, abs(there - math.atan2(path[i, CVX], path[i, CVY])))
    return most


@jit
def _arrows(path: Array, rows: int, middle_y: float, per_metre: float) -> float:
    """X where the path crosses the V of the arrows, y = middle_y - per_metre |x|; NaN if not."""
    before = path[0, Y] - middle_y + per_metre * abs(path[0, X])
    for i in range(1, rows):
        here = path[i, Y] - middle_y + per_metre * abs(path[i, X])
        if here >= 0.0:
            share = -before / (here - before)
            return path[i - 1, X] + share * (path[i, X] - path[i - 1, X])
        before = here
    return math.nan


@jit
def _contact_along(path: Array, i: int, axis: Array) -> float:
    """Contact direction (from the ball's centre, body frame) along `axis`, at row `i`."""
    q0 = path[i, Q0]
    q1 = path[i, Q1]
    q2 = path[i, Q2]
    q3 = path[i, Q3]
    return -(
        2.0 * (q1 * q3 - q0 * q2) * axis[0]
        + 2.0 * (q2 * q3 + q0 * q1) * axis[1]
        + (1.0 - 2.0 * (q1 * q1 + q2 * q2)) * axis[2]
    )


@jit
def find_rings(p: Record, path: Array, rows: int, oiled: bool, rings: Array) -> int:
    """Rings that the lane leaves on the ball: one for each full revolution while it lies on oil.

    A revolution counts when the lane at its middle has at least the film `p["ring_film"]`; the
    first that does not ends the search.

    Parameters
    ----------
    p, path, rows
        A record of dtype SHOT and its path of `roll`.
    oiled : bool
        Whether the lane has a film; on a lane of friction zones each revolution counts.
    rings : array (MOST_RINGS, RING)
        Receives mean spin axis, mean contact along that axis, and distance of the middle [m].

    Returns
    -------
    int
        Rings written.
    """
    turn = 2.0 * math.pi
    found = 0
    i = 1
    axis = np.zeros(3)
    for revolution in range(int(path[rows - 1, TURNED] / turn)):
        begin = revolution * turn
        end = begin + turn
        middle = math.nan
        on_oil = True
        sums = np.zeros(4)
        for part in range(2):  # first the mean axis, then the contact against it
            weight = 0.0
            j = i
            while j < rows and path[j - 1, TURNED] < end:
                a = max(path[j - 1, TURNED], begin)
                b = min(path[j, TURNED], end)
                if b > a:
                    span = path[j, TURNED] - path[j - 1, TURNED]
                    s = (0.5 * (a + b) - path[j - 1, TURNED]) / span
                    if part == 0:
                        for k in range(3):
                            axis[k] = (1.0 - s) * path[j - 1, W1 + k] + s * path[j, W1 + k]
                        size = math.sqrt(axis[0] ** 2 + axis[1] ** 2 + axis[2] ** 2)
                        for k in range(3):
                            sums[k] += (b - a) * axis[k] / size
                        if a <= begin + 0.5 * turn <= b:
                            middle = (1.0 - s) * path[j - 1, Y] + s * path[j, Y]
                            on_oil = not oiled or path[j, FILM] >= p["ring_film"]
                    else:
                        along = (1.0 - s) * _contact_along(path, j - 1, axis)
                        along += s * _contact_along(path, j, axis)
                        sums[3] += (b - a) * along
                    weight += b - a
                j += 1
            if part == 0:
                size = math.sqrt(sums[0] ** 2 + sums[1] ** 2 + sums[2] ** 2)
                for k in range(3):
                    axis[k] = sums[k] / size
            else:
                sums[3] /= weight
        while i < rows - 1 and path[i, TURNED] < end:
            i += 1
        if not on_oil or found >= rings.shape[0]:
            break
        for k in range(3):
            rings[found, k] = axis[k]
        rings[found, 3] = sums[3]
        rings[found, 4] = middle
        found += 1
    return found


@jit
def flare_angle(rings: Array, count: int) -> float:
    """Greatest angle between the axes of any two rings [rad]."""
    most = 0.0
    for i in range(count):
        for j in range(i):
            chord = 0.0
            for k in range(3):
                chord += (rings[i, k] - rings[j, k]) ** 2
            most = max(most, 2.0 * math.asin(min(1.0, 0.5 * math.sqrt(chord))))
    return most


@jit
def summarize(
    p: Record,
    path: Array,
    rows: int,
    end: int,
    oiled: bool,
    arrows: Array,
    rings: Array,
    out: Record,
) -> None:
    """Fill the record `out` (dtype RESULT) from a path.

    `arrows` holds the distance of the middle arrow [m] and how much nearer the V is per metre from
    mid-lane; a release with less slip than `least_slip` has no length and no roll (NaN).
    """
    last = path[rows - 1]
    out["end"] = end
    out["x"] = last[X]
    out["y"] = last[Y]
    out["direction"] = math.atan2(-last[VX], last[VY])
    out["speed"] = math.sqrt(last[VX] ** 2 + last[VY] ** 2)
    out["time"] = last[T]
    out["arrows_x"] = _arrows(path, rows, arrows[0], arrows[1])
    x, y = _outermost(path, rows)
    out["outermost_x"] = x
    out["outermost_y"] = y
    out["hook"] = math.nan
    if end == AT_PINS:
        out["hook"] = path[0, X] + p["vx"] / p["vy"] * (last[Y] - path[0, Y]) - last[X]
    slip = path[0, SLIP]
    out["half_slip_y"] = math.nan
    out["roll_y"] = math.nan
    if slip > p["least_slip"]:
        out["half_slip_y"] = _distance_of_slip(path, rows, LEFT_HALF * slip)
        out["roll_y"] = _distance_of_slip(path, rows, LEFT_TENTH * slip)
    out["sharpest"] = _sharpest(path, rows)
    count = find_rings(p, path, rows, oiled, rings)
    out["rings"] = count
    out["flare"] = flare_angle(rings, count)
    least = path[0, LOAD]
    for i in range(rows):
        least = min(least, path[i, LOAD])
    out["least_load"] = least


@jit
def _follow(path: Array, rows: int, step: float, across: Array) -> None:
    """Where the centre is across the lane at 0, `step`, ... [m]; past its end, where it ended."""
    i = 1
    for k in range(len(across)):
        goal = k * step
        while i < rows - 1 and path[i, Y] < goal:
            i += 1
        run = path[i, Y] - path[i - 1, Y]
        share = min(1.0, max(0.0, (goal - path[i - 1, Y]) / run)) if run > 0.0 else 1.0
        across[k] = path[i - 1, X] + share * (path[i, X] - path[i - 1, X])


@jit
def roll_batch(
    shots: NDArray[np.void],
    film: Array,
    zones: Array,
    arrows: Array,
    results: NDArray[np.void],
    tracks: Array,
    begin: int,
    end: int,
) -> None:
    """Roll and summarize the shots `begin` to `end`; paths are not kept.

    `tracks` (shots, feet) receives where each centre is across the lane at every whole foot [m],
    if it has room for any.
    """
    path = np.empty((MAX_STEPS, len(rolling.COLUMNS)))
    rings = np.empty((MOST_RINGS, RING))
    oiled = zones.shape[0] == 0
    for i in range(begin, end):
        rows, stop = rolling.roll(shots[i], film, zones, path)
        summarize(shots[i], path, rows, stop, oiled, arrows, rings, results[i])
        if tracks.shape[1] > 0:
            _follow(path, rows, shots[i]["foot"], tracks[i])
