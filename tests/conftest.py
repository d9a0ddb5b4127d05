"""The reference case of the physics tests, a way to change it, and tolerances in words.

A 15 lb ball (27 in, RG 2.50, differential 0.050, intermediate 0.015 in, no top weight) for a
right-hander's PAP 5 over and 1/2 up, with two grips given hole by hole. All of it is invented.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import settings

import workbook as wb

settings.register_profile("physics", deadline=None, derandomize=True, database=None)
settings.load_profile("physics")

TWO_TEN_THOUSANDTHS_INCH = 2e-4  # of an RG
SIX_THOUSANDTHS_INCH = 6e-3  # of a place on the ball whose check value has two decimals
HUNDREDTH_OUNCE = 0.01
FIFTIETH_MILLIMETRE = 0.02  # of the centre of mass
FIFTIETH_BOARD = 0.02
HUNDREDTH_DEGREE = 0.01
FIVE_THOUSANDTHS_MPH = 0.005
MILLISECOND = 0.001
ROUNDING = 1e-9

BOWLER = wb.Bowler(
    pap_over_in=5.0,
    pap_up_in=0.5,
    speed_mph=18,
    rev_rate_rpm=350,
    axis_rotation_deg=50,
    axis_tilt_deg=12,
)
BALL = wb.Ball(
    weight_lb=15, rg_low_in=2.50, differential_in=0.050, intermediate_in=0.015, cover="reactive"
)
PIN_UP = wb.Layout(drilling_angle_deg=45, pin_to_pap_in=4.5, val_angle_deg=25)
PIN_DOWN = wb.Layout(drilling_angle_deg=45, pin_to_pap_in=4.5, val_angle_deg=75)
TOWARD_THUMB = wb.Layout(drilling_angle_deg=60, pin_to_pap_in=5, val_angle_deg=30)
STRAIGHT_FROM_8 = wb.Line(laydown_board=8, launch_deg=0)


@pytest.fixture(autouse=True, scope="session")
def progress_of_our_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Nothing that a test answers reaches the progress of whoever runs the tests."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("WORKBOOK_DATA", str(tmp_path_factory.mktemp("progress")))
        yield


def _grip(finger: dict[str, float], thumb: dict[str, float]) -> wb.Grip:
    fingers = [wb.Hole(over_in=x, up_in=2.609375, **finger) for x in (-0.609375, 0.609375)]
    return wb.Grip((*fingers, wb.Hole(over_in=0, up_in=-2.625, **thumb)))


BENCH = _grip(dict(diameter_in=31 / 32, depth_in=2.75), dict(diameter_in=1, depth_in=3))
USUAL = _grip(
    dict(diameter_in=31 / 32, depth_in=1.75, insert_inner_in=0.75),
    dict(diameter_in=1.375, depth_in=2.75, insert_inner_in=1),
)
SETUP = wb.Setup(BOWLER, BALL, PIN_UP, USUAL, wb.Surface(grit=2000))


def changed(setup: wb.Setup = SETUP, **changes: Any) -> wb.Setup:
    """`setup` with parts (grip=...) or fields of bowler, ball or layout (rg_low_in=...) changed."""
    parts = {name: changes.pop(name) for name in list(changes) if hasattr(setup, name)}
    setup = replace(setup, **parts)
    for part in ("bowler", "ball", "layout", "assumptions"):
        record = getattr(setup, part)
        mine = {name: changes.pop(name) for name in list(changes) if hasattr(record, name)}
        setup = replace(setup, **{part: replace(record, **mine)}) if mine else setup
    assert not changes, f"unknown: {changes}"
    return setup
