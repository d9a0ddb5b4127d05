"""Invented demo data: a bowler of the winter clinic at a small eight-lane house, and ball C.

Nothing here is a measured person or a product.
"""

from workbook.ball import Ball
from workbook.bowler import Bowler
from workbook.grip import Grip
from workbook.layout import Layout
from workbook.setup import Setup
from workbook.surface import Surface

NOTE = "Invented demo data: no real bowler, ball or house."
PIN_UP_VAL_DEG = 25.0
PIN_DOWN_VAL_DEG = 75.0


def bowler(hand: str = "right") -> Bowler:
    """The clinic's middle bowler: 18 mph, 350 rpm, rotation 50, tilt 12, PAP 5 over 1/2 up."""
    return Bowler(
        hand=hand,
        pap_over_in=5.0,
        pap_up_in=0.5,
        speed_mph=18.0,
        rev_rate_rpm=350.0,
        axis_rotation_deg=50.0,
        axis_tilt_deg=12.0,
    )


def ball() -> Ball:
    """Ball C: 15 lb, reactive, RG 2.50, differential 0.050, a mild asymmetric core."""
    return Ball(
        weight_lb=15.0, rg_low_in=2.50, differential_in=0.050, intermediate_in=0.015,
        top_weight_oz=2.5, cover="reactive",
    )  # fmt: skip


def setup(
    *,
    val_angle_deg: float,
    drilling_angle_deg: float = 45.0,
    pin_to_pap_in: float = 4.5,
    grit: float = 2000.0,
    name: str = "",
) -> Setup:
    """Ball C for the clinic's middle bowler, with a usual grip."""
    layout = Layout(
        drilling_angle_deg=drilling_angle_deg,
        pin_to_pap_in=pin_to_pap_in,
        val_angle_deg=val_angle_deg,
    )
    return Setup(bowler(), ball(), layout, Grip.usual(), Surface(grit=grit), name=name)


def pin_up_and_down() -> tuple[Setup, Setup]:
    """The same ball pin up and pin down: nothing but the VAL angle differs."""
    return (
        setup(val_angle_deg=PIN_UP_VAL_DEG, name="pin up"),
        setup(val_angle_deg=PIN_DOWN_VAL_DEG, name="pin down"),
    )
