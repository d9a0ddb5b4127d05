"""Speed, revs, rotation, tilt and their errors: hand values; the way back from a rolled shot."""

import math

import numpy as np
import pytest

import workbook as wb
from tests.conftest import BOWLER, HUNDREDTH_DEGREE, SETUP, changed
from tests.refusals.refusal import refused

LANE, LINE = wb.Lane.house(), wb.Line(laydown_board=25, arrow_board=17)


def test_mean_speed_by_hand():
    """60 ft in 2.5 s are 24 ft/s, 24 x 3600 / 5280 mph; a tenth of a second of 2.5 is 4 %."""
    found = wb.mean_speed_mph(60, 2.5, 0.1)
    assert found == pytest.approx((24 * 3600 / 5280, 24 * 3600 / 5280 * 0.04))


@pytest.mark.parametrize("speed", [12.0, 18.0, 21.0])
@pytest.mark.parametrize("distance", [15.0, 60.0])
def test_release_speed_is_that_of_the_ball_that_has_this_mean(speed, distance):
    """Rolled at `speed`, timed along its own path, read back."""
    setup = changed(speed_mph=speed)
    path = wb.roll(setup, LANE, LINE, gutters=False).path
    i = np.searchsorted(path.distance_ft, distance) - 1
    there = path.distance_ft[i]
    mean = there / path.time_s[i] * 3600 / 5280
    assert mean < speed
    back = wb.release_speed_mph(mean, there, changed(speed_mph=15), LANE, LINE)
    assert back == pytest.approx(speed, abs=0.01)


def test_revs_by_hand():
    """3 turns in 45 frames at 60 a second are 3 turns in 3/4 s: 240 rpm; a frame is 1/45 of it."""
    assert wb.rev_rate_rpm(3, 45, 60) == pytest.approx((240, 240 / 45))


@pytest.mark.parametrize(
    ("along", "across", "degrees"),
    [
        (3, 3, 45),
        (1, 0, 0),
        (0, 2, 90),
        (math.sqrt(3), 1, 30),
        (-1, 4, 104.0362),
        (4, -1, -14.0362),
    ],
)
def test_rotation_by_hand(along, across, degrees):
    assert wb.axis_rotation_deg(along, across, 0).value == pytest.approx(degrees, abs=1e-4)


def test_rotation_error_is_the_angle_that_a_length_off_makes():
    """1 off square to a track 2 long turns it by 30 degrees at most."""
    assert wb.axis_rotation_deg(2, 0, 1).error == pytest.approx(30.0)


def test_tape_error_is_that_of_both_ends():
    """0.15 in of a 27 in ball are 2 degrees; of a tape across the pole one end counts half."""
    assert wb.axis_tilt_deg(12, 27, 0.15).error == pytest.approx(math.sqrt(2) * 1.0)
    assert wb.axis_tilt_deg(13.5, 27).value == 0.0


def test_release_match_by_hand():
    """R omega cos tilt against v; slip by the law of cosines, with the rotation between them."""
    radius_ft = 27 / (2 * math.pi) / 12
    surface = 350 * 2 * math.pi * 60 * radius_ft / 5280 * math.cos(math.radians(12))
    m = wb.release_match(BOWLER)
    assert m.surface_mph == pytest.approx(surface, rel=1e-6)
    assert m.percent == pytest.approx(100 * surface / 18, rel=1e-6)
    slip = math.sqrt(18**2 + surface**2 - 2 * 18 * surface * math.cos(math.radians(50)))
    assert m.slip_mph == pytest.approx(slip, rel=1e-6)
    assert math.sin(math.radians(m.pull_deg)) * slip == pytest.approx(
        surface * math.sin(math.radians(50)), rel=1e-6
    )


def test_the_pull_is_the_way_a_rolled_ball_first_turns():
    """Early in a shot the change of velocity points where friction pulls, slightly to the hook."""
    bowler = changed(axis_tilt_deg=12.0).bowler
    setup = changed(grip=wb.Grip(), differential_in=0, intermediate_in=0)
    path = wb.roll(setup, wb.Lane.of_friction([(0, 0.2)]), wb.Line(laydown_board=20, launch_deg=0),
                   gutters=False).path  # fmt: skip
    i = 10
    v, way = path.speed_mph, [math.radians(d) for d in path.direction_deg]
    aside = v[i] * math.sin(way[i]) - v[0] * math.sin(way[0])
    back = v[0] * math.cos(way[0]) - v[i] * math.cos(way[i])
    pull = math.degrees(math.atan2(aside, back))
    assert pull == pytest.approx(wb.release_match(bowler).pull_deg, abs=HUNDREDTH_DEGREE)


def test_end_over_end_that_outruns_the_ball_is_pushed_forward():
    fast = changed(rev_rate_rpm=700, speed_mph=8, axis_rotation_deg=0, axis_tilt_deg=0).bowler
    assert abs(wb.release_match(fast).pull_deg) == pytest.approx(180.0)


@pytest.mark.parametrize(
    ("call", "parts"),
    [(lambda: wb.mean_speed_mph(60, 1.0), ("60 ft in 1 s", "40.91 mph", "4 to 25 mph")),
     (lambda: wb.mean_speed_mph(0, 2.0), ("distance 0 ft", "5 to 60 ft")),
     (lambda: wb.mean_speed_mph(60, None), ("time is missing",)),
     (lambda: wb.mean_speed_mph(60, 2.5, -1), ("error of the time -1 s",)),
     (lambda: wb.rev_rate_rpm(3, 2, 60), ("3 turns in 2 frames", "5400 rpm", "0 to 700 rpm")),
     (lambda: wb.rev_rate_rpm(0, 2, 60), ("turns 0", "0.25 to 40")),
     (lambda: wb.axis_rotation_deg(-1, -1, 0), ("axis rotation", "-135 deg", "-20 to 110 deg")),
     (lambda: wb.axis_rotation_deg(0, 0, 0.1), ("no longer than its error 0.1",)),
     (lambda: wb.axis_tilt_deg(2, 27), ("2 in of tape", "76.67 deg", "0 to 60 deg")),
     (lambda: wb.axis_tilt_deg(14, 27), ("tape over the track 14 in", "0 to 13.5 in")),
     (lambda: wb.release_match(BOWLER, 30), ("circumference 30 in",)),
     (lambda: wb.release_speed_mph(24.9, 60, SETUP, LANE, LINE), ("ball speed", "8 to 25 mph"))],
)  # fmt: skip
def test_what_cannot_be_is_refused(call, parts):
    refused(call, *parts)
