"""Textbook examples of sliding and rolling, and other textbook values."""

import math

import numpy as np
import pytest

import workbook as wb
from tests.conftest import changed
from tests.published.facts import fact
from tests.published.sliding import slide
from workbook import units
from workbook.core import mass

FOOT = 0.3048


def test_beer_johnston_ball_with_backspin():
    """Vector Mechanics: Dynamics, edition not at hand; inputs from memory."""
    example = fact("text_A")
    ball = slide(4.25 * 0.0254, 25 * FOOT, -9.0, 0.10, 32.2 * FOOT)
    example.check(ball.time)
    assert (ball.speed / FOOT, ball.distance / FOOT) == pytest.approx((16.95, 52.46), abs=0.01)
    assert example.note.startswith("then 16.95 ft/s after 52.46 ft")
    slip, loss = 25 + 9 * 4.25 / 12, 0.10 * 32.2  # it is the closed form's answer
    assert 2 * slip / (7 * loss) == pytest.approx(example.value, abs=5e-4)


def test_halliday_resnick_walker_ball_without_spin():
    """Chapter 11, edition not at hand; inputs from memory: R 11 cm, 8.5 m/s, mu 0.21."""
    example = fact("text_B")
    ball = slide(0.11, 8.5, 0.0, 0.21, 9.8)
    example.check(ball.time)
    assert (ball.distance, ball.speed) == pytest.approx((8.60, 6.07), abs=0.01)
    assert example.note == "8.60 m, 6.07 m/s"


def test_distance_to_roll_without_spin():
    """R 0.10 m, 10 m/s, mu 0.2, g 9.81: 2 v/(7 mu g), 12 v^2/(49 mu g), then 5/7 v."""
    ball = slide(0.10, 10.0, 0.0, 0.2, 9.81)
    fact("text_C").check(ball.distance)
    assert (ball.time, ball.speed) == pytest.approx((1.4562, 7.1429), abs=1e-4)


@pytest.mark.parametrize("friction", [0.04, 0.20])
def test_contact_point_of_a_uniform_sphere_loses_seven_halves_of_friction(friction):
    """arXiv 1106.2247."""
    ball = slide(0.108, 8.0, 10.0, friction, 9.80665)
    fact("seven_halves").check(ball.slip_loss / (friction * 9.80665), rel=1e-6)


def test_rms_over_mean_roughness_of_a_gaussian_surface():
    surface = wb.Surface(grit=500)
    from_ball = surface.combined_roughness_um() ** 2 - changed().assumptions.lane_roughness ** 2
    fact("rms_ra").check(math.sqrt(from_ball) / surface.ra_um())


def test_rg_of_a_uniform_ball():
    """R sqrt(2/5): at side roll the most turn there can be is atan(2/5 R s0 / v)."""
    uniform = fact("uniform_rg")
    bowler = changed(axis_rotation_deg=90, axis_tilt_deg=0).bowler
    surface = 4.25 * units.INCH * bowler.rev_rate_rpm * units.RPM
    turn = bowler.most_turn_deg(uniform.value, 8.5 * math.pi)
    k = math.tan(math.radians(turn)) * bowler.speed_mph * units.MPH / surface
    assert 4.25 * math.sqrt(k) == pytest.approx(uniform.value, abs=1e-9)
    uniform.check(uniform.value * math.sqrt(0.4 / k))  # the RG that would turn as far as 2/5 does


def test_half_ball_cut_out_as_a_hole_has_the_rg_of_the_ball():
    """To a thousandth: a hole as wide as the ball has a vertical rim, and a real one has not."""
    radius = 4.25
    half = mass.cylinder(radius, np.array([0, 0, radius]), np.array([0, 0, -1.0]), radius, radius)
    assert half.mass == pytest.approx(2 / 3 * math.pi * radius**3, rel=1e-3)
    assert half.first / half.mass == pytest.approx(np.array([0, 0, 3 / 8 * radius]), abs=1e-3)
    rgs = np.sqrt(np.diag(half.inertia) / half.mass)
    assert rgs == pytest.approx(np.full(3, radius * math.sqrt(0.4)), abs=1e-3)
