"""Pairs of balls that differ in one cause only: it alone is named, and it brings all.

What a symmetric core's RGs have to be for that is worked out by hand (textbook: the mean and the
deviator of an inertia tensor).
"""

import math
from dataclasses import replace

import pytest

import workbook as wb
from tests.conftest import changed

SWING = wb.Line(laydown_board=25, arrow_board=17)
HOUSE = wb.Lane.house()
FIFTIETH_BOARD = FIFTIETH_FOOT = 0.02
LOW, HIGH = 2.50, 2.55
# two of three axes have the high RG: 2.50^2 + 2 x 2.55^2 = 19.255 = LESS^2 + 2 MORE^2
LESS = 2.515
MORE = math.sqrt((LOW**2 + 2 * HIGH**2 - LESS**2) / 2)


def core(low, high, **more):
    """An undrilled ball with a symmetric core of these RGs [in]."""
    return changed(
        grip=wb.Grip(), rg_low_in=low, differential_in=high - low, intermediate_in=0.0, **more
    )  # fmt: skip


PLAIN = core(LOW, HIGH)
ALONE = {
    # all squares of the RGs grow by the same
    "RG": core(math.sqrt(LOW**2 + 0.8), math.sqrt(HIGH**2 + 0.8)),
    # the mean of the squares stays: both are as heavy to turn, one is rounder
    "flare": core(LESS, MORE),
    "static balance": core(LOW, HIGH, top_weight_oz=2.5),
    "cover and surface": replace(PLAIN, surface=wb.Surface(grit=500)),
    "release": core(LOW, HIGH, rev_rate_rpm=400),
}


@pytest.mark.parametrize("cause", ALONE)
def test_one_cause_brings_the_whole_difference(cause):
    c = wb.compare(PLAIN, ALONE[cause], HOUSE, SWING)
    moved = []
    for quantity, near in (("entry_board", FIFTIETH_BOARD), ("length_ft", FIFTIETH_FOOT)):
        difference = getattr(c.shot_b, quantity) - getattr(c.shot_a, quantity)
        shares = c.shares[quantity]
        assert set(shares) == {cause}
        assert shares[cause] == pytest.approx(difference, abs=near)
        moved.append(abs(difference) / near)
    assert max(moved) > 10  # at the same rev rate RG moves the length, hardly the board


def test_two_causes_keep_to_their_own_quantity():
    """Ice: flare follows from the core alone, whatever the surface."""
    rounder = replace(ALONE["flare"], surface=wb.Surface(grit=500))
    ice = wb.Lane.of_friction([(0, 0.0)])
    shares = wb.compare(PLAIN, rounder, ice, SWING).shares["flare_in"]
    assert set(shares) == {"flare", "cover and surface"}
    assert shares["cover and surface"] == pytest.approx(0.0, abs=1e-9)
    assert shares["flare"] < -0.5
