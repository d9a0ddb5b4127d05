"""Which way the axis goes on the ball: the rings leave the grip, the PAP goes toward the PSA.

60 x 5 x 30, usual grip, reference lane; figures by an independent calculation of ours (derived).
A horizontal spin alone cannot tell the sign: a ball turned the other way would pass neither test.
"""

import numpy as np
import pytest

import workbook as wb
from tests.conftest import SIX_THOUSANDTHS_INCH, STRAIGHT_FROM_8, TOWARD_THUMB, changed

INCH_PER_DEGREE = 27.0 / 360.0
THUMB = wb.Pap(0.0, -2.625).vector(27.0)
ONE_DEGREE, TENTH_INCH, HUNDREDTH_INCH = 1.0, 0.1, 0.01


@pytest.fixture(scope="module")
def setup():
    return changed(layout=TOWARD_THUMB)


@pytest.fixture(scope="module")
def shot(setup):
    return wb.roll(setup, wb.Lane.reference(), STRAIGHT_FROM_8)


def test_pap_goes_toward_the_psa(setup, shot):
    psa = wb.Pap(*setup.drilled.marks.psa_in).vector(27.0)
    apart = np.degrees(np.arccos(shot.path.spin_axis @ psa))
    at_30_ft = np.interp(30.0, shot.path.distance_ft, apart)
    assert (apart[0], at_30_ft) == pytest.approx((63.0, 50.0), abs=ONE_DEGREE)
    turn_by_turn = [ring.axis @ psa for ring in shot.rings if ring.distance_ft < 25.0]
    assert np.all(np.diff(turn_by_turn) > 0)


def distance_from_thumb(ring):
    """From the centre of the thumb hole to the ring, over the surface [in]."""
    return INCH_PER_DEGREE * abs(np.degrees(np.arccos(ring.axis @ THUMB)) - ring.opening_deg)


def test_rings_leave_the_grip(shot):
    from_thumb = [distance_from_thumb(ring) for ring in shot.rings]
    at_30_ft = np.interp(30.0, [ring.distance_ft for ring in shot.rings], from_thumb)
    at_release = np.degrees(np.arccos(shot.path.spin_axis[0] @ THUMB)) - 90.0 - 12.0  # the tilt
    assert INCH_PER_DEGREE * abs(at_release) == pytest.approx(2.1, abs=TENTH_INCH)
    assert at_30_ft == pytest.approx(3.4, abs=TENTH_INCH)
    assert np.all(np.diff(from_thumb) > 0)


def test_spin_axis_at_release_is_the_pap(setup, shot):
    assert shot.path.spin_axis[0] == pytest.approx(setup.bowler.pap.vector(27.0), abs=1e-12)
    assert shot.path.axis_tilt_deg[0] == pytest.approx(12.0)
    assert shot.path.axis_rotation_deg[0] == pytest.approx(50.0)


def test_outline_is_where_the_lane_touched(shot):
    """Straight down in the lane frame, at mid-revolution, is on the ring's outline."""
    contact = -shot.path.ball_to_lane[:, 2, :]  # the lane's downward direction in the ball frame
    for ring in shot.rings[:-1]:
        here = contact[np.argmin(np.abs(shot.path.distance_ft - ring.distance_ft))]
        outline = ring.outline(721)
        gap = INCH_PER_DEGREE * np.degrees(np.arccos(np.max(outline @ here)))
        assert np.linalg.norm(outline, axis=1) == pytest.approx(1.0)
        assert gap < 0.25  # the axis moves about as much as this within one revolution


def test_flare_is_the_widest_gap_of_axes_and_zero_without_differential(shot):
    axes = np.array([ring.axis for ring in shot.rings])
    widest = INCH_PER_DEGREE * np.degrees(np.arccos(np.min(axes @ axes.T)))
    assert shot.flare_in == pytest.approx(widest, abs=SIX_THOUSANDTHS_INCH)
    round_ball = changed(differential_in=0, intermediate_in=0, grip=wb.Grip())
    still = wb.roll(round_ball, wb.Lane.reference(), STRAIGHT_FROM_8)
    assert len(still.rings) > 5 and still.flare_in < HUNDREDTH_INCH
