"""A shot in time and along the lane: its path, scipy's turns, a ball that nothing slows."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial.transform import Rotation, Slerp

import workbook as wb
from tests.conftest import SETUP, changed
from workbook.staging_roll import curves_scene, roll_scene, turns_at

LINE = wb.Line(laydown_board=25, arrow_board=17)
HOUSE = wb.Lane.house()
NOBODYS = changed(grip=wb.Grip(), differential_in=0.0, intermediate_in=0.0)  # no core, no holes
TENTH_DEGREE = np.radians(0.1)
TWENTIETH_BOARD = 0.05


def scene(setup, lane=HOUSE, line=LINE):
    shot = wb.roll(setup, lane, line)
    return roll_scene(lane, (setup,), (shot,)), shot


@pytest.fixture(scope="module")
def usual():
    return scene(SETUP)


def turns(quaternions):
    """Of (w, x, y, z); scipy puts w last."""
    return Rotation.from_quat(quaternions[:, [1, 2, 3, 0]])


def test_the_ball_is_turned_as_on_its_path(usual):
    _scene, shot = usual
    found = turns(turns_at(shot.path, shot.path.time_s))
    assert found.as_matrix() == pytest.approx(shot.path.ball_to_lane, abs=1e-9)


def test_between_steps_it_turns_as_scipy_turns_it(usual):
    rolling, shot = usual
    ball = rolling.balls[0]
    path = shot.path
    expected = Slerp(path.time_s, Rotation.from_matrix(path.ball_to_lane))(ball.time_s)
    assert (turns(ball.turn) * expected.inv()).magnitude() == pytest.approx(0.0, abs=1e-7)


def test_a_ball_that_nothing_slows_turns_evenly_about_its_pap():
    """Textbook: no torque and no core; 350 rpm about the axis of release for its whole way."""
    ball = scene(NOBODYS, wb.Lane.of_friction([(0, 1e-6)]))[0].balls[0]
    axis = turns(ball.turn[:1]).apply(NOBODYS.bowler.pap.vector(27.0))[0]
    step = Rotation.from_rotvec(350 * 2 * np.pi / 60 * ball.time_s[:, None] * axis)
    expected = step * turns(ball.turn[:1])
    assert (turns(ball.turn) * expected.inv()).magnitude().max() < TENTH_DEGREE
    assert ball.revolutions[-1] == pytest.approx(350 / 60 * ball.time_s[-1], rel=1e-4)


def test_straight_lines_between_frames_keep_to_the_path(usual):
    rolling, shot = usual
    ball, path = rolling.balls[0], shot.path
    assert np.ptp(np.diff(ball.time_s)) < 1e-12
    for name, least in (("board", TWENTIETH_BOARD), ("distance_ft", 0.01), ("speed_mph", 0.05)):
        drawn = np.interp(path.time_s, ball.time_s, getattr(ball, name))
        assert np.max(np.abs(drawn - getattr(path, name))) < least, name


def test_phases_are_told_by_the_slip(usual):
    rolling, shot = usual
    ball, path = rolling.balls[0], shot.path
    for when, left in ((ball.hook_s, 0.5), (ball.roll_s, 0.1)):
        slip = np.interp(when, path.time_s, path.slip_mph)
        assert slip == pytest.approx(left * path.slip_mph[0], abs=0.1)


def test_a_ring_for_each_turn_on_oil(usual):
    ball = usual[0].balls[0]
    turned = np.interp(ball.ring_s, ball.time_s, ball.revolutions)
    assert turned == pytest.approx(np.arange(1, len(ball.ball.rings) + 1), abs=0.01)
    # a ring's turn has its middle on oil, so half a turn earlier the ball was on it
    last = np.interp(turned[-1] - 0.5, ball.revolutions, ball.distance_ft)
    assert HOUSE.length_ft - 3 < last < HOUSE.length_ft + 1


@pytest.mark.parametrize("speed, revs", [(8.0, 700.0), (25.0, 700.0), (8.0, 0.0)])
def test_neighbouring_frames_are_less_than_half_a_turn_apart(speed, revs):
    """Else the page would turn the ball backwards; and the data stay small."""
    setup = changed(speed_mph=speed, rev_rate_rpm=revs, axis_rotation_deg=5.0)
    ball = scene(setup, line=wb.Line(laydown_board=20, launch_deg=0))[0].balls[0]
    steps = np.diff(ball.revolutions)
    assert steps.max() < 0.5 and len(ball.time_s) <= 131
    between = (turns(ball.turn[1:]) * turns(ball.turn[:-1]).inv()).magnitude() / (2 * np.pi)
    assert between == pytest.approx(steps, abs=0.02)


def test_a_left_hander_has_the_same_numbers_on_the_mirrored_film():
    lopsided = replace(HOUSE, film_um=HOUSE.film_um * np.linspace(0.5, 1.5, 39))
    mirrored = replace(lopsided, film_um=lopsided.film_um[:, ::-1])
    right, left = scene(SETUP, lopsided)[0], scene(changed(hand="left"), mirrored)[0]
    assert left.film_um == pytest.approx(right.film_um)
    assert left.balls[0].board == pytest.approx(right.balls[0].board, abs=1e-9)


def test_a_gutter_ball_ends_in_the_gutter():
    ball = scene(SETUP, line=wb.Line(laydown_board=5, arrow_board=1))[0].balls[0]
    assert ball.gutter and ball.distance_ft[-1] < 60 and "the gutter" in ball.describe()
    assert ball.roll_s is None


def test_curves_are_the_path_and_its_phases(usual):
    shot = usual[1]
    (curves,) = curves_scene((SETUP,), (shot,)).curves
    assert curves.values["speed_mph"] == pytest.approx(shot.path.speed_mph)
    names, begins, ends = zip(*curves.phases(), strict=True)
    assert names == ("skid", "hook", "roll") and begins[1:] == ends[:-1]
    assert ends == pytest.approx((shot.length_ft, shot.roll_ft, 60.0))


def test_a_ball_released_rolling_does_nothing_but_roll():
    """Textbook: v = w R; 27 in a turn, 1056 in a minute for each mph."""
    rolling = changed(
        NOBODYS, speed_mph=15.0, rev_rate_rpm=15 * 1056 / 27, axis_rotation_deg=0.0,
        axis_tilt_deg=0.0,
    )  # fmt: skip
    both, shot = scene(rolling, line=wb.Line(laydown_board=20, launch_deg=0))
    assert curves_scene((rolling,), (shot,)).curves[0].phases() == [
        ("roll", 0.0, pytest.approx(60.0))
    ]
    assert both.balls[0].hook_s == both.balls[0].roll_s == 0.0
