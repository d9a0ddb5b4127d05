"""Check values of the reference case: an independent calculation of ours (mark: derived)."""

from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from tests.conftest import (
    BALL,
    BENCH,
    BOWLER,
    FIFTIETH_BOARD,
    FIFTIETH_MILLIMETRE,
    FIVE_THOUSANDTHS_MPH,
    HUNDREDTH_DEGREE,
    HUNDREDTH_OUNCE,
    MILLISECOND,
    PIN_DOWN,
    PIN_UP,
    SETUP,
    SIX_THOUSANDTHS_INCH,
    STRAIGHT_FROM_8,
    TOWARD_THUMB,
    TWO_TEN_THOUSANDTHS_INCH,
    USUAL,
    changed,
)
from workbook import rolling
from workbook.core import roll as kernel

MM = 25.4
SOLVED = wb.Grip.usual(span_in=4.25)  # spans solved on the sphere
GRIPS = {"bench": BENCH, "usual": USUAL, "usual from its span": SOLVED}
# RG low / int / high, differential, intermediate [in], removed [oz], centre of mass [mm]
DRILLED = [
    ("bench", PIN_UP, (2.5046, 2.5293, 2.5546, 0.0500, 0.0252), 4.61, (0, -0.23, -1.16)),
    ("bench", PIN_DOWN, (2.5134, 2.5287, 2.5465, 0.0332, 0.0178), 4.61, (0, -0.23, -1.16)),
    *(
        row
        for usual in ("usual", "usual from its span")
        for row in (
            (usual, PIN_UP, (2.4989, 2.5283, 2.5536, 0.0547, 0.0252), 2.83, (0, 0.05, -0.77)),
            (usual, PIN_DOWN, (2.5050, 2.5296, 2.5463, 0.0413, 0.0167), 2.83, (0, 0.05, -0.77)),
        )
    ),
]
# board, entry angle [deg], speed [mph], time [s] at 60 ft on the reference lane, usual grip
SHOTS = [
    (PIN_UP, False, (30.902, 6.869, 14.896, 2.4144)),
    (PIN_UP, True, (30.126, 6.067, 14.935, 2.4144)),
    (PIN_DOWN, False, (30.397, 6.749, 14.909, 2.4120)),
    (PIN_DOWN, True, (29.698, 5.922, 15.016, 2.4120)),
]
# pin and PSA, over and up [in], for a PAP 5 over and 1/2 up
MARKS = [
    (PIN_UP, (1.84, 4.27), (2.31, -2.47)),
    (PIN_DOWN, (0.45, 1.22), (5.96, -3.32)),
    (TOWARD_THUMB, (0.74, 4.25), (1.17, -2.49)),
]


def name(value):
    if isinstance(value, wb.Layout):
        return f"VAL {value.val_angle_deg:g}"
    return None if isinstance(value, (tuple, float)) else str(value)


@pytest.mark.parametrize(("grip", "layout", "rgs", "removed", "centre"), DRILLED, ids=name)
def test_drilled_ball(grip, layout, rgs, removed, centre):
    d = changed(grip=GRIPS[grip], layout=layout).drilled
    found = (
        d.rg_low_in, d.rg_intermediate_in, d.rg_high_in, d.differential_in, d.intermediate_in
    )  # fmt: skip
    assert found == pytest.approx(rgs, abs=TWO_TEN_THOUSANDTHS_INCH)
    assert d.removed_oz == pytest.approx(removed, abs=HUNDREDTH_OUNCE)
    centre_mm = [MM * v for v in d.center_of_mass_in]
    assert centre_mm == pytest.approx(centre, abs=FIFTIETH_MILLIMETRE)


@pytest.mark.parametrize(("layout", "pin", "psa"), MARKS, ids=name)
def test_places_of_pin_and_psa(layout, pin, psa):
    marks = layout.place(BOWLER.pap, BALL)
    assert marks.pin_in == pytest.approx(pin, abs=SIX_THOUSANDTHS_INCH)
    assert marks.psa_in == pytest.approx(psa, abs=SIX_THOUSANDTHS_INCH)


def balanced(setup: wb.Setup, lane: wb.Lane, line: wb.Line) -> wb.Shots:
    """The shot with the centre of mass put back into the ball's centre."""
    body = replace(rolling.Body.of(setup), c=np.zeros(3))
    record = rolling.record(body, setup, line, rolling.friction(setup))
    records = np.array([record], kernel.SHOT)
    return rolling.shots_from(rolling.roll_records(records, lane, "right"), records)


@pytest.mark.parametrize("grip", ["usual", "usual from its span"])
@pytest.mark.parametrize(("layout", "with_balance", "at_pins"), SHOTS, ids=name)
def test_shot_on_the_reference_lane(layout, with_balance, at_pins, grip):
    setup, lane = changed(layout=layout, grip=GRIPS[grip]), wb.Lane.reference()
    shot = (wb.roll if with_balance else balanced)(setup, lane, STRAIGHT_FROM_8)
    board, angle, speed, time = at_pins
    assert shot.entry_board == pytest.approx(board, abs=FIFTIETH_BOARD)
    assert shot.entry_angle_deg == pytest.approx(angle, abs=HUNDREDTH_DEGREE)
    assert shot.entry_speed_mph == pytest.approx(speed, abs=FIVE_THOUSANDTHS_MPH)
    assert shot.time_s == pytest.approx(time, abs=MILLISECOND)


def test_rolling_alone():
    """Symmetric, uniform, balanced: friction 0.04 to 40 ft, 0.20 from there."""
    board_m = 41.5 / 39 * 0.0254
    setup = changed(
        differential_in=0, intermediate_in=0, grip=wb.Grip(), speed_mph=8 / 0.44704,
        rev_rate_rpm=300, axis_rotation_deg=45, axis_tilt_deg=15,
    )  # fmt: skip
    lane = wb.Lane.of_friction([(0, 0.04), (40, 0.20)])
    shot = wb.roll(setup, lane, wb.Line(laydown_board=2, launch_deg=0))
    tenth_millimetre, two_thousandths_degree, tenth_millisecond = 1e-4, 2e-3, 1e-4
    assert shot.total_hook_boards * board_m == pytest.approx(0.634628, abs=tenth_millimetre)
    assert shot.entry_angle_deg == pytest.approx(5.151532, abs=two_thousandths_degree)
    assert shot.time_s == pytest.approx(2.477643, abs=tenth_millisecond)


def test_intermediate_differential_counts_from_the_highest_rg():
    """The governing body's convention (published: USBC glossary); some pages have it wrong."""
    ball = replace(BALL, rg_low_in=2.50, differential_in=0.050, intermediate_in=0.015)
    assert (ball.rg_high_in, ball.rg_intermediate_in) == pytest.approx((2.550, 2.535))
    undrilled = replace(SETUP, ball=ball, grip=wb.Grip()).drilled
    assert undrilled.rg_high_in - undrilled.rg_intermediate_in == pytest.approx(0.015)
