"""Energy of the whole body, with the off-centre mass bobbing as the ball turns (textbook)."""

import math

import numpy as np
import pytest

import workbook as wb
from tests.conftest import BENCH, PIN_DOWN, SETUP, changed
from workbook import rolling
from workbook.core import roll as kernel

# some of these balls have more static imbalance than the rules allow
pytestmark = pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
G = 9.80665
STRAIGHT = wb.Line(laydown_board=20, launch_deg=0)
# of some 35 J/kg; the integration keeps a millionth of a metre per second a step
MILLIJOULE_PER_KILOGRAM = 1e-3


def energy(setup, lane):
    """Kinetic and potential energy per mass [J/kg] along the shot, and the path."""
    path = wb.roll(setup, lane, STRAIGHT, gutters=False).path
    t = path.table
    spin_body = t[:, kernel.W1 : kernel.W3 + 1]
    body = rolling.Body.of(setup)
    c = path.ball_to_lane @ body.c
    spin = np.einsum("nij,nj->ni", path.ball_to_lane, spin_body @ path.axes)
    rise = np.cross(spin, c)[:, 2]  # the centre of mass goes up and down with the turning ball
    moments = np.diag(path.axes @ body.inertia @ path.axes.T)
    kinetic = t[:, kernel.CVX] ** 2 + t[:, kernel.CVY] ** 2 + rise**2
    kinetic += np.sum(moments * spin_body**2, axis=1)
    return 0.5 * kinetic + G * c[:, 2], path


@pytest.mark.parametrize("layout", [SETUP.layout, PIN_DOWN], ids=["pin up", "pin down"])
@pytest.mark.parametrize("grip", [SETUP.grip, BENCH], ids=["usual", "bench"])
def test_nothing_is_lost_without_friction(grip, layout):
    total, _ = energy(changed(grip=grip, layout=layout), wb.Lane.of_friction([(0, 0.0)]))
    assert np.ptp(total) < MILLIJOULE_PER_KILOGRAM


@pytest.mark.parametrize("lane", ["reference", "house", "dry", "zones"])
def test_energy_only_falls(lane):
    zones = [(0, 0.04), (40, 0.20)]
    lane = wb.Lane.of_friction(zones) if lane == "zones" else getattr(wb.Lane, lane)()
    rng = np.random.default_rng(11)
    for _ in range(40):
        setup = changed(
            speed_mph=rng.uniform(14, 21), rev_rate_rpm=rng.uniform(150, 500),
            axis_rotation_deg=rng.uniform(0, 90), axis_tilt_deg=rng.uniform(0, 30),
            release_phase_deg=rng.uniform(-180, 180), top_weight_oz=rng.uniform(-3, 3),
        )  # fmt: skip
        total, path = energy(setup, lane)
        gained = np.maximum.accumulate(total[::-1])[::-1] - total  # most regained later
        assert np.max(gained) < MILLIJOULE_PER_KILOGRAM
        # and what is lost is the work of friction (trapezoids over the steps: to 2 %)
        power = path.table[:, kernel.MU] * path.table[:, kernel.LOAD] * path.table[:, kernel.SLIP]
        work = np.trapezoid(power * np.tanh(path.table[:, kernel.SLIP] / 0.02), path.time_s)
        assert total[0] - total[-1] == pytest.approx(work, rel=0.02)


def test_load_swings_by_a_third_of_g_at_one_millimetre():
    """60 rad/s and a centre of mass 1 mm off the axis: w^2 c = 3.6 m/s^2 (derived)."""
    spinning = dict(rev_rate_rpm=60 * 30 / math.pi, axis_rotation_deg=0, axis_tilt_deg=0)
    setup = changed(differential_in=0, intermediate_in=0, grip=wb.Grip(), pin_to_cg_in=6.75,
                    top_weight_oz=15 * 16 / (27 * 25.4 / (2 * math.pi)), pap_up_in=0,
                    layout=wb.Layout(drilling_angle_deg=90, pin_to_pap_in=6.75, val_angle_deg=0),
                    **spinning)  # fmt: skip
    off_axis = np.array(setup.drilled.center_of_mass_in) * 25.4
    assert np.linalg.norm(off_axis) == pytest.approx(1.0)
    path = wb.roll(setup, wb.Lane.of_friction([(0, 0.0)]), STRAIGHT).path
    swing = np.linalg.norm(np.cross(off_axis, setup.bowler.pap.vector(27.0)))
    load = path.table[:, kernel.LOAD]
    assert np.ptp(load) / 2 == pytest.approx(3.6 * swing, rel=0.02)
    assert np.mean(load) == pytest.approx(G, rel=0.02)
