"""Flare on ice, where mechanics gives it (textbook): the axis goes round the pin in a cone.

A symmetric core free of torque precesses about its axis of symmetry, the pin. Over more than half a
turn of that the widest gap of two axes is the cone's width, twice the pin-to-PAP distance; the gap
between the first and the last axis grows and shrinks again. So flare is not that of first and last.
"""

import math

import numpy as np
import pytest

import workbook as wb
from tests.conftest import changed

ICE, STRAIGHT = wb.Lane.of_friction([(0, 0.0)]), wb.Line(laydown_board=20, launch_deg=0)
TWENTIETH_INCH = 0.05
RADIUS_IN = 27.0 / (2 * math.pi)
LOW, HIGH, RPM, MPH = 2.50, 2.56, 600.0, 8.0


def thrown(pin_to_pap_in):
    setup = changed(
        grip=wb.Grip(), rg_low_in=LOW, differential_in=HIGH - LOW, intermediate_in=0.0,
        pin_to_pap_in=pin_to_pap_in, rev_rate_rpm=RPM, speed_mph=MPH,
    )  # fmt: skip
    return wb.roll(setup, ICE, STRAIGHT)


def turns_of_the_cone(pin_to_pap_in):
    """How often the axis goes round the pin on its way (Euler: (1 - I3/I) w3), by hand."""
    seconds = 60 * 0.3048 / (MPH * 0.44704)
    along = RPM / 60 * math.cos(pin_to_pap_in / RADIUS_IN)
    return (1 - LOW**2 / HIGH**2) * along * seconds


@pytest.mark.parametrize("pin_to_pap_in", [1.0, 2.0, 3.0])
def test_flare_is_the_width_of_the_cone(pin_to_pap_in):
    assert turns_of_the_cone(pin_to_pap_in) > 0.75
    shot = thrown(pin_to_pap_in)
    # axes are means over a revolution, a twentieth of the cone, and meet its far side to half that
    assert shot.flare_in == pytest.approx(2 * pin_to_pap_in, abs=TWENTIETH_INCH)
    first_and_last = RADIUS_IN * math.acos(float(shot.rings[0].axis @ shot.rings[-1].axis))
    assert first_and_last < shot.flare_in - 0.5


def test_rings_go_round_the_pin_at_eulers_rate():
    shot = thrown(2.0)
    layout = changed(pin_to_pap_in=2.0)
    pin = wb.Pap(*layout.drilled.marks.pin_in).vector(27.0)
    axes = np.array([ring.axis for ring in shot.rings])
    flat = axes - np.outer(axes @ pin, pin)
    flat /= np.linalg.norm(flat, axis=1)[:, None]
    steps = np.arccos(np.sum(flat[1:] * flat[:-1], axis=1))
    revolutions = RPM / 60 * 60 * 0.3048 / (MPH * 0.44704)
    expected = 2 * math.pi * turns_of_the_cone(2.0) / revolutions
    assert steps == pytest.approx(np.full(len(steps), expected), rel=1e-3)
