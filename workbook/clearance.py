"""How far marks and oil rings keep from the edges of the holes, over the ball's surface."""

from itertools import combinations
from typing import NamedTuple

import numpy as np

from workbook import units
from workbook.core import sphere
from workbook.path import Ring
from workbook.rolling import Shot
from workbook.setup import Setup

STEPS = 201  # of depth


class Clearance(NamedTuple):
    """From something on the ball to the nearest bore: its name and the gap [in], below 0 inside."""

    what: str
    hole: str
    gap_in: float


def mark_clearances(setup: Setup) -> tuple[Clearance, ...]:
    """Of the pin and of the mass mark (PSA or CG) to the nearest hole; empty without holes."""
    pin, psa, cg = setup.layout.directions(setup.bowler.pap, setup.ball)
    mass = ("PSA", psa) if setup.ball.asymmetric else ("CG mark", cg)
    arc = units.arc_per_inch(setup.ball.circumference_in)
    return tuple(
        _nearest(setup, what, [sphere.angle(at, entry) / arc for entry in _entries(setup)])
        for what, at in (("pin", pin), mass)
        if setup.grip.holes
    )


def ring_clearance(setup: Setup, shot: Shot) -> Clearance | None:
    """Of the oil ring that comes nearest to a hole; None without rings or holes."""
    if not shot.rings or not setup.grip.holes:
        return None
    found = [_of_ring(setup, ring) for ring in shot.rings]
    return min(found, key=lambda one: one.gap_in)


def bores_that_meet(setup: Setup) -> list[tuple[str, str, float]]:
    """Pairs of holes whose bores run into each other inside the ball, and at what depth [in]."""
    around, found = setup.ball.circumference_in, []
    radius = around / (2.0 * np.pi)
    for one, other in combinations(setup.grip.holes, 2):
        depth = np.linspace(0.0, min(one.depth_in, other.depth_in), STEPS)[:, None]
        middles = [
            radius * hole.entry(around) + depth * hole.inward(around) for hole in (one, other)
        ]
        apart = np.linalg.norm(middles[0] - middles[1], axis=1)
        met = np.flatnonzero(apart < (one.diameter_in + other.diameter_in) / 2)
        if len(met):
            found.append((one.name, other.name, float(depth[met[0], 0])))
    return found


def rings_over_holes(setup: Setup, shot: Shot | None) -> tuple[bool, ...]:
    """For each oil ring of the shot, whether the middle of the track runs over a bore."""
    if shot is None or not setup.grip.holes:
        return (False,) * len(shot.rings if shot else ())
    return tuple(_of_ring(setup, ring).gap_in < 0.0 for ring in shot.rings)


def _of_ring(setup: Setup, ring: Ring) -> Clearance:
    arc = units.arc_per_inch(setup.ball.circumference_in)
    opening = ring.opening_deg * units.DEGREE
    away = [abs(sphere.angle(ring.axis, entry) - opening) / arc for entry in _entries(setup)]
    return _nearest(setup, "oil ring", away)


def _entries(setup: Setup) -> list[sphere.Vector]:
    return [hole.entry(setup.ball.circumference_in) for hole in setup.grip.holes]


def _nearest(setup: Setup, what: str, away_in: list[float]) -> Clearance:
    """The hole whose edge is nearest, given distances to the holes' middles [in]."""
    holes = setup.grip.holes
    gaps = [far - hole.diameter_in / 2 for far, hole in zip(away_in, holes, strict=True)]
    i = int(np.argmin(gaps))
    return Clearance(what, holes[i].name, gaps[i])
