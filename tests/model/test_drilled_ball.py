"""Smaller things about a drilled ball: RG about the PAP, CG of the spec sheet, marks in holes.

Textbook mechanics and distances on the sphere, by hand.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from tests.conftest import BENCH, PIN_DOWN, PIN_UP, SETUP, USUAL, changed

MILLIONTH_INCH = 1e-6


@pytest.mark.parametrize("layout", [PIN_UP, PIN_DOWN], ids=["pin up", "pin down"])
@pytest.mark.parametrize("grip", [USUAL, BENCH], ids=["usual", "bench"])
def test_rg_about_the_pap_lies_on_the_ellipsoid_of_inertia(grip, layout):
    """Its square is the mean of the principal ones, weighed with cos^2 of the angles to them."""
    setup = changed(grip=grip, layout=layout)
    d = setup.drilled
    axes = np.linalg.eigh(d.inertia_per_mass)[1]
    cosines = axes.T @ setup.bowler.pap.vector(27.0)
    rgs = np.array([d.rg_low_in, d.rg_intermediate_in, d.rg_high_in])
    expected = math.sqrt(float(cosines**2 @ rgs**2))
    assert d.rg_pap_in == pytest.approx(expected, abs=MILLIONTH_INCH)


@pytest.mark.parametrize("top_weight_oz", [-3.0, 1.0, 3.0])
def test_rgs_of_the_spec_sheet_are_those_about_the_balls_own_cg(top_weight_oz):
    """A body is swung about its centre of mass: top weight leaves an undrilled ball's RGs alone."""
    ball = SETUP.ball
    d = changed(grip=wb.Grip(), top_weight_oz=top_weight_oz).drilled
    found = d.rg_low_in, d.rg_intermediate_in, d.rg_high_in
    expected = ball.rg_low_in, ball.rg_intermediate_in, ball.rg_high_in
    assert found == pytest.approx(expected, abs=MILLIONTH_INCH)


def with_hole_beside(mark, off_in, setup):
    """A single inch-wide hole whose centre lies `off_in` inches above that mark."""
    over, up = getattr(setup.drilled.marks, mark)
    hole = wb.Hole(over_in=over, up_in=up + off_in, diameter_in=1.0, depth_in=1.0, name="trial")
    return replace(setup, grip=wb.Grip((hole,))).drilled.notes


SYMMETRIC, ASYMMETRIC = changed(intermediate_in=0.0), changed(intermediate_in=0.015)


@pytest.mark.parametrize(
    ("setup", "mark", "words"),
    [
        (SYMMETRIC, "pin_in", "pin"),
        (ASYMMETRIC, "pin_in", "pin"),
        (SYMMETRIC, "cg_in", "CG mark"),
        (ASYMMETRIC, "psa_in", "mass-bias mark"),
    ],
)
def test_a_mark_less_than_half_a_bore_away_falls_into_the_hole(setup, mark, words):
    said = f"The {words} falls into the trial hole."
    assert with_hole_beside(mark, 0.45, setup) == (said,)
    assert with_hole_beside(mark, 0.55, setup) == ()


def test_only_the_mark_that_a_core_is_laid_out_by_counts():
    assert with_hole_beside("psa_in", 0.0, SYMMETRIC) == ()
    assert with_hole_beside("cg_in", 0.0, ASYMMETRIC) == ()
