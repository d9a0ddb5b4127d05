"""The maps against balls drilled and rolled one by one, and clearances against hand values."""

import math
from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from tests.conftest import SETUP, changed
from workbook.clearance import (
    bores_that_meet,
    mark_clearances,
    ring_clearance,
    rings_over_holes,
)
from workbook.pin_places import pin_map
from workbook.rating import REFERENCE, STRAIGHT


@pytest.mark.parametrize("setup", [SETUP, changed(hand="left", intermediate_in=0.0, pap_up_in=-1)])
def test_each_place_is_a_ball_of_its_own(setup):
    mapped = pin_map(setup)
    angles, distances = (
        np.linspace(0, high, n) for high, n in zip((90, 6.75), mapped.flare_in.shape, strict=True)
    )
    for i, j in ((0, 9), (5, 18), (11, 4), (18, 27), (9, 0)):
        layout = replace(setup.layout, pin_to_pap_in=distances[j], val_angle_deg=angles[i])
        one = replace(setup, layout=layout)
        d = one.drilled
        shot = wb.roll(one, REFERENCE, STRAIGHT, gutters=False)
        assert mapped.differential_in[i, j] == pytest.approx(d.differential_in, abs=1e-9)
        assert mapped.intermediate_in[i, j] == pytest.approx(d.intermediate_in, abs=1e-9)
        assert mapped.flare_in[i, j] == pytest.approx(shot.flare_in, abs=1e-6)
        assert mapped.static_oz[i, j] == pytest.approx(max(map(abs, d.static_balance_oz)), abs=1e-9)
        x, y, z = mapped.places[i, j]
        inch = setup.ball.circumference_in / (2 * math.pi)
        assert (math.atan2(x, z) * inch, math.asin(y) * inch) == pytest.approx(d.marks.pin_in)


def test_the_pin_itself_changes_no_map_and_the_grip_does():
    moved = replace(SETUP, layout=replace(SETUP.layout, pin_to_pap_in=2.0, val_angle_deg=70))
    assert pin_map(moved) is pin_map(SETUP)
    assert pin_map(changed(grip=wb.Grip.usual(thumb=False))) is not pin_map(SETUP)


def test_what_is_no_setup_is_refused():
    for call in (pin_map, wb.hole_effects, wb.layout_report, wb.drilled_bands):
        with pytest.raises(wb.InputRefused, match="setup"):
            call("a ball")


def test_clearances_by_hand():
    """Pin straight over the PAP, PAP on the midline: all on one great circle through the hole."""
    hole = wb.Hole(over_in=0, up_in=5, diameter_in=1, depth_in=2, name="upper")
    setup = changed(
        grip=wb.Grip((hole,)),
        pap_over_in=0,
        pap_up_in=0,
        pin_to_cg_in=0.0,
        layout=wb.Layout(drilling_angle_deg=0, pin_to_pap_in=3, val_angle_deg=0),
    )
    pin, psa = mark_clearances(setup)
    assert pin.what == "pin" and pin.hole == "upper"
    assert pin.gap_in == pytest.approx(5 - 3 - 0.5)
    # a quarter of 27 in along the way to the PAP and past it: 3.75 in below the midline
    assert psa.gap_in == pytest.approx(5 + 3.75 - 0.5)
    shot = wb.roll(setup, REFERENCE, STRAIGHT, gutters=False)
    nearest = ring_clearance(setup, shot)
    entry = hole.entry(27.0)
    gaps = [
        np.min(np.arccos(np.clip(ring.outline(721) @ entry, -1, 1))) * 27 / (2 * math.pi) - 0.5
        for ring in shot.rings
    ]
    assert nearest.gap_in == pytest.approx(min(gaps), abs=0.01)
    assert sum(rings_over_holes(setup, shot)) == sum(gap < 0 for gap in gaps)
    assert ring_clearance(replace(setup, grip=wb.Grip()), shot) is None
    assert mark_clearances(replace(setup, grip=wb.Grip())) == ()


def test_bores_that_meet_by_hand():
    """Two radial bores 1 in wide, middles 1.2 in apart at the surface: 1 in apart at 5/6 of R."""
    radius = 27 / (2 * math.pi)
    half = radius * math.asin(0.6 / radius)
    holes = [wb.Hole(over_in=x, up_in=0.0, diameter_in=1, depth_in=2, name=n)
             for x, n in ((-half, "one"), (half, "two"))]  # fmt: skip
    ((one, two, depth),) = bores_that_meet(changed(grip=wb.Grip(holes)))
    assert (one, two) == ("one", "two") and depth == pytest.approx(radius / 6, abs=0.02)
    apart = [replace(hole, depth_in=0.5) for hole in holes]
    assert bores_that_meet(changed(grip=wb.Grip(apart))) == []
