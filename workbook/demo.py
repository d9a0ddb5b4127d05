"""Invented demo data: six bowlers and a dozen balls of a winter clinic at a small eight-lane house.

Nothing here is a measured person or a product.
"""

from dataclasses import dataclass
from pathlib import Path

from workbook.ball import Ball
from workbook.ball_csv import read_balls
from workbook.bowler import Bowler
from workbook.grip import Grip
from workbook.layout import Layout
from workbook.line import Line
from workbook.setup import Setup
from workbook.surface import Surface

NOTE = "Invented demo data: no real bowler, ball or house."
PIN_UP_VAL_DEG = 25.0
PIN_DOWN_VAL_DEG = 75.0


@dataclass(frozen=True)
class Style:
    """A bowler of the clinic: release, whether the ball has a thumb hole, and a line that fits.

    The line brings a pin-up ball C at 2000 grit to the pocket on the house lane.
    """

    bowler: Bowler
    thumb: bool
    line: Line


def _style(
    hand: str,
    pap: tuple[float, float],
    release: tuple[float, float, float, float],
    thumb: bool,
    line: tuple[float, float],
) -> Style:
    speed, revs, rotation, tilt = release
    bowler = Bowler(
        hand=hand, pap_over_in=pap[0], pap_up_in=pap[1], speed_mph=speed, rev_rate_rpm=revs,
        axis_rotation_deg=rotation, axis_tilt_deg=tilt,
    )  # fmt: skip
    return Style(bowler, thumb, Line(laydown_board=line[0], arrow_board=line[1]))


STYLES = {
    "in the middle": _style("right", (5.0, 0.5), (18.0, 350.0, 50.0, 12.0), True, (25.0, 17.0)),
    "left-hander": _style("left", (4.75, 0.25), (17.0, 300.0, 55.0, 15.0), True, (18.0, 11.0)),
    "both hands, no thumb": _style(
        "right", (4.5, 0.75), (18.0, 450.0, 40.0, 8.0), False, (27.0, 17.0)
    ),
    "one hand, no thumb": _style(
        "right", (4.25, 0.0), (17.5, 380.0, 55.0, 10.0), False, (27.0, 17.0)
    ),
    "senior": _style("right", (5.25, 0.25), (14.5, 180.0, 40.0, 18.0), True, (18.0, 13.0)),
    "junior": _style("right", (4.5, 0.5), (13.5, 150.0, 30.0, 15.0), True, (17.0, 13.0)),
}
USUAL = "in the middle"


def ball() -> Ball:
    """Ball C: 15 lb, reactive, RG 2.50, differential 0.050, a mild asymmetric core."""
    return Ball(
        weight_lb=15.0, rg_low_in=2.50, differential_in=0.050, intermediate_in=0.015,
        top_weight_oz=2.5, cover="reactive",
    )  # fmt: skip


def balls() -> dict[str, Ball]:
    """The dozen invented balls of the clinic by name, from the table beside this module."""
    return read_balls(Path(__file__).with_name("clinic_balls.csv"))


def setup(
    *,
    val_angle_deg: float,
    drilling_angle_deg: float = 45.0,
    pin_to_pap_in: float = 4.5,
    grit: float = 2000.0,
    name: str = "",
    style: str = USUAL,
) -> Setup:
    """Ball C for a bowler of the clinic, with a usual grip."""
    layout = Layout(
        drilling_angle_deg=drilling_angle_deg,
        pin_to_pap_in=pin_to_pap_in,
        val_angle_deg=val_angle_deg,
    )
    who = STYLES[style]
    return Setup(
        who.bowler, ball(), layout, Grip.usual(thumb=who.thumb), Surface(grit=grit), name=name
    )


def pin_up_and_down(style: str = USUAL) -> tuple[Setup, Setup]:
    """The same ball pin up and pin down: nothing but the VAL angle differs."""
    return (
        setup(val_angle_deg=PIN_UP_VAL_DEG, name="pin up", style=style),
        setup(val_angle_deg=PIN_DOWN_VAL_DEG, name="pin down", style=style),
    )
