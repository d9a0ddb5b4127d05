"""Invented measurements of the clinic's bowlers: what a coach would have written down.

Made by rolling each bowler's ball, pin up, down the house lane: points of its first oil ring with a
seeded random error, times and lengths rounded as they are read. Nobody measured them.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from workbook import demo, sources, units
from workbook.core import sphere
from workbook.lane import Lane
from workbook.rolling import Shot, roll
from workbook.setup import Setup

CIRCUMFERENCE_IN = sources.value("usual_circumference")
SEED = 20  # one that is no rare one for the usual bowler
SPARE = "ball A, for spares"  # with so little differential its first ring keeps to the PAP
PLACES_DEG = (-110, -85, -60, -30, 0, 30, 60, 85, 110)  # round the ring, 0 on the grip's side
FRAMES_A_SECOND, TURNS, DISTANCE_FT, PICTURE_IN = 60.0, 3.0, 60.0, 5.0


@dataclass(frozen=True)
class Measurements:
    """What was written down of one bowler.

    Parameters
    ----------
    points : tuple of (over, up)
        Places on the first oil ring, to the nearest 1/16 [in].
    distance_ft, time_s : float
        From the foul line [ft], and the time it took [s].
    turns, frames, frames_a_second : float
        Of a video from release on [1, 1, 1/s].
    along_in, across_in : float
        A piece of the track on a picture from above: along and across the line [in].
    tape_in : float
        Tape across the track through the end opposite the PAP [in].
    """

    points: tuple[tuple[float, float], ...]
    distance_ft: float
    time_s: float
    turns: float
    frames: float
    frames_a_second: float
    along_in: float
    across_in: float
    tape_in: float


def clinic_setup(style: str, ball: str = SPARE) -> Setup:
    """A ball of the clinic pin up for one of its bowlers, laid out as in chapter 01."""
    setup = demo.setup(val_angle_deg=demo.PIN_UP_VAL_DEG, style=style)
    return replace(setup, ball=demo.balls()[ball])


def measurements(style: str, ball: str = SPARE) -> Measurements:
    """The invented measurements of a bowler of the clinic with one of its balls; always the same.

    Points of the ring have the error `track_error` of `sources`, along and across, and are then
    rounded to 1/16 in.
    """
    setup = clinic_setup(style, ball)
    shot, bowler = roll(setup, Lane.house(), demo.STYLES[style].line, gutters=False), setup.bowler
    rotation = bowler.axis_rotation_deg * units.DEGREE
    assert shot.time_s is not None
    return Measurements(
        points=_points(shot, list(demo.STYLES).index(style)),
        distance_ft=DISTANCE_FT,
        time_s=round(shot.time_s, 2),
        turns=TURNS,
        frames=round(TURNS * 60.0 * FRAMES_A_SECOND / bowler.rev_rate_rpm),
        frames_a_second=FRAMES_A_SECOND,
        along_in=_to(8, PICTURE_IN * math.cos(rotation)),
        across_in=_to(8, PICTURE_IN * math.sin(rotation)),
        tape_in=_to(8, (90.0 - bowler.axis_tilt_deg) / 180.0 * CIRCUMFERENCE_IN),
    )


def _points(shot: Shot, number: int) -> tuple[tuple[float, float], ...]:
    """Places on the first ring, each off by the measuring error along and across."""
    ring, arc = shot.rings[0], units.arc_per_inch(CIRCUMFERENCE_IN)
    opening = ring.opening_deg * units.DEGREE
    grip = sphere.tangent_toward(ring.axis, sphere.Z)
    side = sphere.cross(ring.axis, grip)
    random = np.random.default_rng(SEED + number)
    found = []
    for place in np.multiply(PLACES_DEG, units.DEGREE):
        toward = math.cos(place) * grip + math.sin(place) * side
        point = sphere.go(ring.axis, toward, opening)
        off = np.array(sphere.square_to(point)) * random.normal(
            0.0, sources.value("track_error") * arc, (2, 1)
        )
        over, up = sphere.over_up(sphere.unit(point + off.sum(axis=0)))
        found.append((_to(16, over / arc), _to(16, up / arc)))
    return tuple(found)


def _to(parts: int, inches: float) -> float:
    """Rounded to the nearest of so many parts of an inch."""
    return round(inches * parts) / parts
