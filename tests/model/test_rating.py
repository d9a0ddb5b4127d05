"""The two headline numbers against a second method, on a reference lane that is written out here.

The reference lane is a definition of ours (assumption): 1.9213 um on all boards, ending softly at
40 ft. The second method is `tests/reference/motion.py`, which knows neither gutters nor ratings.
"""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import workbook as wb
from tests.conftest import SETUP, changed
from tests.reference import motion

HUNDREDTH_BOARD, HUNDREDTH_FOOT, FOOT = 0.01, 0.01, 0.3048
EVEN = 1.9213 / (1 + np.exp((np.arange(61.0) - 40) / 0.5))
LANE = wb.Lane("written out", np.repeat(EVEN[:, None], 39, axis=1))
MIDDLE = wb.Line(laydown_board=20, launch_deg=0)
# hooks so much from the middle that on a lane with gutters it would end in one
STRONG = changed(speed_mph=13, rev_rate_rpm=520, axis_rotation_deg=75, axis_tilt_deg=5)


def slip(state, p):
    """Speed of the contact point over the lane [m/s]."""
    spin, ahead, up = state[4:7], state[7:10], state[10:13]
    turning = np.cross(spin, -p.radius * up)
    return math.hypot(state[2] + turning @ np.cross(ahead, up), state[3] + turning @ ahead)


def half_slip_ft(setup):
    """Where half of the release slip has gone, by the second method."""
    p = motion.throw(setup, LANE)
    start = motion.release(setup, MIDDLE, p)

    def half(_t, state, p):
        return slip(state, p) - slip(start, p) / 2

    half.terminal = True
    run = solve_ivp(motion.slope, (0, 10), start, args=(p,), method="DOP853", rtol=1e-9,
                    atol=1e-11, events=half)  # fmt: skip
    return run.y_events[0][0][1] / FOOT


@pytest.mark.parametrize("setup", [SETUP, STRONG], ids=["reference case", "strong"])
def test_hook_potential_and_length_are_those_of_the_reference_lane(setup):
    hook = motion.shot(setup, LANE, MIDDLE).board - 20  # thrown straight from board 20
    rating = wb.rate(setup)
    assert rating.hook_potential_boards == pytest.approx(hook, abs=HUNDREDTH_BOARD)
    assert rating.length_ft == pytest.approx(half_slip_ft(setup), abs=HUNDREDTH_FOOT)


def test_a_ball_is_rated_though_it_would_end_in_the_gutter():
    assert wb.roll(STRONG, LANE, MIDDLE).gutter_ft is not None
    assert wb.rate(STRONG).hook_potential_boards > 20
