"""From shots to their drawing data in time and along the lane."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from workbook.core import release
from workbook.core import roll as kernel
from workbook.lane import Lane
from workbook.path import Path
from workbook.rolling import Shot
from workbook.scenes import LABELS
from workbook.scenes_roll import CURVES, Curves, CurvesScene, RollingBall, RollScene
from workbook.setup import Setup
from workbook.staging import ball_scene

Array = NDArray[np.float64]
# frames of a shot: so many a turn, that a slow page still sees which way the ball turns
FEWEST, MOST, A_TURN = 61, 131, 6


def roll_scene(lane: Lane, setups: Sequence[Setup], shots: Sequence[Shot]) -> RollScene:
    """One or two shots in time, labelled A and B."""
    hand = setups[0].bowler.hand
    film = lane.film_um if hand == "right" else lane.film_um[:, ::-1]
    balls = (
        _rolling(label, setup, shot)
        for label, setup, shot in zip(LABELS, setups, shots, strict=False)
    )
    return RollScene(tuple(balls), film, hand)


def curves_scene(setups: Sequence[Setup], shots: Sequence[Shot]) -> CurvesScene:
    """How speed, spin, slip, friction and oil run along the lane, labelled A and B."""
    return CurvesScene(
        tuple(
            Curves(
                label,
                setup.name,
                shot.path.distance_ft,
                {key: getattr(shot.path, key) for key in CURVES},
                *_phase_ends(shot),
            )
            for label, setup, shot in zip(LABELS, setups, shots, strict=False)
        )
    )


def _rolling(label: str, setup: Setup, shot: Shot) -> RollingBall:
    path = shot.path
    turned = path.table[:, kernel.TURNED] / (2.0 * math.pi)
    frames = min(max(math.ceil(A_TURN * turned[-1]) + 1, FEWEST), MOST)
    times = np.linspace(0.0, path.time_s[-1], frames)

    def at(values: Array) -> Array:
        return np.interp(times, path.time_s, values)

    hook_s, roll_s = (
        None if ft is None else float(np.interp(ft, path.distance_ft, path.time_s))
        for ft in _phase_ends(shot)
    )
    return RollingBall(
        ball=ball_scene(label, setup, shot),
        name=setup.name,
        time_s=times,
        board=at(path.board),
        distance_ft=at(path.distance_ft),
        speed_mph=at(path.speed_mph),
        rev_rate_rpm=at(path.rev_rate_rpm),
        revolutions=at(turned),
        turn=turns_at(path, times),
        axis=np.column_stack([at(column) for column in path.spin_axis.T]),
        ring_s=np.interp(np.arange(1, len(shot.rings) + 1), turned, path.time_s),
        hook_s=hook_s,
        roll_s=roll_s,
        gutter=shot.gutter_ft is not None,
    )


def _phase_ends(shot: Shot) -> tuple[float | None, float | None]:
    return (0.0, 0.0) if shot.already_rolls else (shot.length_ft, shot.roll_ft)


def turns_at(path: Path, times: Array) -> Array:
    """How the ball is turned at times [s]: quaternions (w, x, y, z) ball -> lane, array (n, 4).

    Between two steps of the path the ball turns about one axis at one rate.
    """
    kept = path.table[:, kernel.Q0 : kernel.Q3 + 1]
    kept = kept / np.linalg.norm(kept, axis=1, keepdims=True)
    i = np.clip(np.searchsorted(path.time_s, times, side="right") - 1, 0, len(path) - 2)
    a, b = kept[i], kept[i + 1]
    share = (times - path.time_s[i]) / (path.time_s[i + 1] - path.time_s[i])
    cosine = np.sum(a * b, axis=1)
    b = np.where(cosine[:, None] < 0.0, -b, b)  # both signs are one turn: take the short way
    angle = np.maximum(np.arccos(np.clip(np.abs(cosine), 0.0, 1.0)), 1e-9)
    weights = np.sin(np.stack([(1.0 - share) * angle, share * angle])) / np.sin(angle)
    return _product(weights[0][:, None] * a + weights[1][:, None] * b,
                    release.quaternion(path.axes))  # fmt: skip


def _product(p: Array, q: Array) -> Array:
    """Turn by q first and then by each of p: quaternions (n, 4) and (4,)."""
    pw, px, py, pz = p.T
    w, x, y, z = q
    return np.stack(
        [
            pw * w - px * x - py * y - pz * z,
            pw * x + px * w + py * z - pz * y,
            pw * y - px * z + py * w + pz * x,
            pw * z + px * y - py * x + pz * w,
        ],
        axis=1,
    )
