"""Speed, revs, rotation and tilt as they are measured, each with the error of its method."""

import math
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from workbook import errors, sources, units
from workbook.bowler import Bowler
from workbook.core import release, sphere
from workbook.inputs import limits
from workbook.lane import Lane
from workbook.line import Line
from workbook.rolling import roll
from workbook.setup import Setup

STOPWATCH_S = sources.value("stopwatch_error")
TAPE_IN, USUAL_IN = sources.value("track_error"), sources.value("usual_circumference")
ROUNDS = 4  # of a correction whose own slope is below a tenth


class Measured(NamedTuple):
    """A value, and how far off the method lets it be, either way, in the same unit."""

    value: float
    error: float


class ReleaseMatch(NamedTuple):
    """How revs match speed at release (textbook: sliding of a rigid sphere).

    Parameters
    ----------
    surface_mph : float
        Speed of the ball's surface at the contact from its revs [mph].
    percent : float
        The same in percent of the ball's speed [%].
    slip_mph : float
        Speed of the contact point over the lane [mph].
    pull_deg : float
        Direction in which friction pulls [deg]: 0 straight back toward the bowler, 90 straight to
        the side to which the ball hooks, more is forward.
    """

    surface_mph: float
    percent: float
    slip_mph: float
    pull_deg: float


def mean_speed_mph(
    distance_ft: float, time_s: float, time_error_s: float = STOPWATCH_S
) -> Measured:
    """Mean speed [mph] over a distance from the foul line, and its error [mph].

    The ball slows down on its way, so this is below its speed at release: `release_speed_mph`.

    Parameters
    ----------
    distance_ft : float
        From the foul line [ft].
    time_s, time_error_s : float
        Time, and how far off it may be [s]: 0.1 s by a hand that reacts (assumption), one frame of
        a video, 1/60 s for 60 frames a second.

    Raises
    ------
    InputRefused
        A number outside its limits, or a speed that is.
    """
    distance = errors.number("distance", distance_ft, "ft", 5.0, sources.value("lane_length"))
    time = errors.number("time", time_s, "s", 0.1, 10.0)
    off = errors.number("error of the time", time_error_s, "s", 0.0, 1.0)
    mean = distance * units.FOOT / time / units.MPH
    low, high, unit = limits(Bowler, "speed_mph")
    # only a release has the bowler's limits: a slow ball's mean lies below them
    errors.number(
        f"mean speed of {distance:g} ft in {time:g} s", round(mean, 2), unit, low / 2, high
    )
    return Measured(mean, mean * off / time)


def release_speed_mph(
    mean_mph: float, distance_ft: float, setup: Setup, lane: Lane, line: Line
) -> float:
    """Speed at release [mph] of a ball whose mean speed from the foul line is `mean_mph` [mph].

    Worked out by rolling `setup`, whose own speed does not matter, down `lane` on `line`; as sure
    as the friction that the model assumes.

    Raises
    ------
    InputRefused
        A speed or distance outside its limits.
    """
    distance = errors.number("distance", distance_ft, "ft", 5.0, sources.value("lane_length"))
    low, high, unit = limits(Bowler, "speed_mph")
    mean = errors.number("mean speed", mean_mph, unit, low / 2, high)
    speed = max(mean, low)
    for _ in range(ROUNDS):
        _within("speed_mph", speed, f"a mean of {mean:.1f} mph")
        bowler = replace(setup.bowler, speed_mph=speed)
        path = roll(replace(setup, bowler=bowler), lane, line, gutters=False).path
        time = float(np.interp(distance, path.distance_ft, path.time_s))
        speed += mean - distance * units.FOOT / time / units.MPH
    _within("speed_mph", speed, f"a mean of {mean:.1f} mph")
    return speed


def rev_rate_rpm(turns: float, frames: float, frames_a_second: float) -> Measured:
    """Rev rate [rpm] from a video, and its error if the count is one frame off [rpm].

    Common practice, no source: turns x 60 x frames a second / frames.

    Parameters
    ----------
    turns : float
        Turns of the ball counted from release on, halves and quarters allowed [1].
    frames : float
        Frames that they took [1].
    frames_a_second : float
        Of the video as it was taken, not as it is played [1/s].

    Raises
    ------
    InputRefused
        A number outside its limits, or a rev rate that is.
    """
    turns = errors.number("turns", turns, "", 0.25, 40.0)
    frames = errors.number("frames", frames, "", 2.0, 10_000.0)
    rate = errors.number("frames a second", frames_a_second, "", 10.0, 2000.0)
    rpm = turns * 60.0 * rate / frames
    _within("rev_rate_rpm", rpm, f"{turns:g} turns in {frames:g} frames at {rate:g} a second")
    return Measured(rpm, rpm / frames)


def axis_rotation_deg(along: float, across: float, error: float) -> Measured:
    """Axis rotation [deg] from the track's angle to the line, and its error [deg].

    A piece of the track as the ball is let go, seen from above, on a picture or along a tape: so
    much of it runs along the ball's line, so much across (geometry, derived).

    Parameters
    ----------
    along, across : float
        In any one unit; across positive when the track points to the side away from the bowling
        hand, along negative beyond 90 degrees.
    error : float
        How far off either may be, in the same unit.

    Raises
    ------
    InputRefused
        A number outside its limits, or a rotation that is.
    """
    along = errors.number("track along the line", along, "", -1000.0, 1000.0)
    across = errors.number("track across the line", across, "", -1000.0, 1000.0)
    long = math.hypot(along, across)
    off = errors.number("error of the track's lengths", error, "", 0.0, 1000.0)
    if long <= off:
        raise errors.InputRefused(
            f"track {along:g} along and {across:g} across is no longer than its error {off:g}: "
            "measure a longer piece."
        )
    rotation = math.atan2(across, along) / units.DEGREE
    _within("axis_rotation_deg", rotation, f"a track {along:g} along and {across:g} across")
    return Measured(rotation, math.asin(off / long) / units.DEGREE)


def axis_tilt_deg(tape_in: float, circumference_in: float, error_in: float = TAPE_IN) -> Measured:
    """Axis tilt [deg] from a tape laid across the track, and its error [deg].

    The tape runs over the surface from ring to ring through the end of the axis that is opposite
    the PAP: 90 - 180 x tape / circumference (spherical geometry, derived).

    Parameters
    ----------
    tape_in : float
        Distance over the surface [in].
    circumference_in : float
        Circumference of the ball [in].
    error_in : float
        How far off either end of the tape may be [in]; default 1/16 (assumption).

    Raises
    ------
    InputRefused
        A number outside its limits, or a tilt that is.
    """
    around = errors.circumference(circumference_in)
    tape = errors.number("tape over the track", tape_in, "in", 0.0, around / 2)
    off = errors.number("error of the tape", error_in, "in", 0.0, 1.0)
    tilt = 90.0 - 180.0 * tape / around
    _within("axis_tilt_deg", tilt, f"{tape:g} in of tape")
    return Measured(tilt, 180.0 * math.sqrt(2) * off / around)


def release_match(bowler: Bowler, circumference_in: float = USUAL_IN) -> ReleaseMatch:
    """How the revs of a release match its speed, on a ball of that circumference [in].

    Raises
    ------
    InputRefused
        A circumference outside its limits.
    """
    radius = units.radius_m(errors.circumference(circumference_in))
    axis = release.axis_in_lane(
        bowler.axis_rotation_deg * units.DEGREE, bowler.axis_tilt_deg * units.DEGREE, 0.0
    )
    spin = bowler.rev_rate_rpm * units.RPM * axis
    surface = sphere.cross(spin, np.array([0.0, 0.0, -radius]))
    slip = surface + np.array([0.0, bowler.speed_mph * units.MPH, 0.0])
    surface_mph = math.hypot(surface[0], surface[1]) / units.MPH
    return ReleaseMatch(
        surface_mph=surface_mph,
        percent=100.0 * surface_mph / bowler.speed_mph,
        slip_mph=math.hypot(slip[0], slip[1]) / units.MPH,
        pull_deg=math.atan2(slip[0], slip[1]) / units.DEGREE,
    )


def _within(name: str, value: float, source: str) -> None:
    """Refuse a measured value that no bowler may have; `source` says what it comes from."""
    low, high, unit = limits(Bowler, name)
    words = Bowler.__dataclass_fields__[name].metadata["words"]
    errors.number(f"{words} from {source}:", round(value, 2), unit, low, high)
