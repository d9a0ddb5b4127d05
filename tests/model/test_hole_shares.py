"""What each hole does: shares against drilling by hand, and the table as it is printed."""

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest

import workbook as wb
from tests.conftest import BENCH, SETUP, changed
from workbook.hole_shares import QUANTITIES
from workbook.layout_tables import holes_table, text_table


def test_shares_are_the_mean_over_all_orders_of_drilling():
    effects = wb.hole_effects(SETUP)
    holes, found = SETUP.grip.holes, {hole: [] for hole in SETUP.grip.holes}
    for order in permutations(holes):
        for i, hole in enumerate(order):
            with_it, without = (
                replace(SETUP, grip=wb.Grip(order[:n])).drilled.differential_in for n in (i + 1, i)
            )
            found[hole].append(with_it - without)
    by_hand = [np.mean(found[hole]) for hole in holes]
    assert effects.shares["differential_in"] == pytest.approx(by_hand, abs=1e-12)


@pytest.mark.parametrize("setup", [
    SETUP, changed(grip=BENCH), changed(grip=wb.Grip.usual(thumb=False)),
    changed(intermediate_in=0.0), changed(top_weight_oz=3.0), changed(grip=wb.Grip()),
])  # fmt: skip
def test_the_table_adds_up(setup):
    effects = wb.hole_effects(setup)
    for key, shares in effects.shares.items():
        after = effects.before[key] + sum(shares)
        assert after == pytest.approx(effects.after[key], abs=1e-9), key
    n = len(effects.holes)
    for words, *cells in holes_table(effects).rows:
        numbers = [float(cell) for cell in cells]
        last_digit = 10.0 ** -len(cells[0].partition(".")[2])
        # each of n + 2 printed numbers is off by half of the last digit at most
        off = abs(sum(numbers[: n + 1]) - numbers[n + 1])
        assert off <= (n + 2) / 2 * last_digit + 1e-9, words


def test_the_drilled_column_is_the_drilled_ball():
    effects, d = wb.hole_effects(SETUP), SETUP.drilled
    assert effects.after["differential_in"] == d.differential_in
    assert effects.after["weight_oz"] == pytest.approx(16 * d.weight_lb, rel=1e-12)
    assert effects.after["top_oz"] == d.static_balance.top_oz


def test_holes_alike_on_both_sides_of_the_centreline_take_the_same():
    """Middle and ring finger mirror each other: same weight, opposite side weight."""
    effects = wb.hole_effects(SETUP)
    middle, ring, _thumb = zip(*effects.shares.values(), strict=True)
    both = {key: (m, r) for key, m, r in zip(effects.shares, middle, ring, strict=True)}
    for key in ("weight_oz", "top_oz", "finger_oz"):
        assert both[key][0] == pytest.approx(both[key][1], rel=1e-6)
    assert both["side_oz"][0] == pytest.approx(-both["side_oz"][1], rel=1e-6)


def test_a_symmetric_ball_has_no_psa_to_move():
    assert set(wb.hole_effects(changed(intermediate_in=0.0)).shares) == set(QUANTITIES[:-1])


def test_no_warning_for_the_steps_of_a_legal_ball(recwarn):
    heavy = changed(top_weight_oz=4.5)  # undrilled beyond 3 oz, drilled within
    wb.hole_effects(heavy)
    assert not recwarn.list


def test_the_bands_of_a_table_hold_what_is_drilled():
    effects, bands = wb.hole_effects(SETUP), wb.drilled_bands(SETUP, draws=64)
    assert set(effects.after) <= set(bands)
    for key, after in effects.after.items():
        assert bands[key].low - 1e-9 <= after <= bands[key].high + 1e-9, key
    assert all(row[-1] for row in holes_table(effects, bands).rows)


def test_text_table_lines_up():
    lines = text_table(holes_table(wb.hole_effects(SETUP))).splitlines()
    assert len({len(line) for line in lines[1:]}) == 1


def test_a_scale_is_known_by_an_ounce_on_the_equator():
    """Textbook: an ounce at the radius is a moment of 1 oz R; the scale reads it over kappa R."""
    assert wb.kappa_from_scale(1.0, 1.0) == 1.0
    assert wb.kappa_from_scale(1.0, 1.6) == pytest.approx(0.625)
    kappa = wb.kappa_from_scale(2.0, 2.5)
    plain, taped = (changed(top_weight_oz=oz, pin_to_cg_in=0.0, kappa=kappa, grip=wb.Grip(),
                            layout=wb.Layout(drilling_angle_deg=0, pin_to_pap_in=0,
                                             val_angle_deg=0), pap_over_in=0, pap_up_in=0)
                    for oz in (0.0, 2.5))  # fmt: skip
    moved = taped.drilled.center_of_mass_in[2] - plain.drilled.center_of_mass_in[2]
    radius = 27.0 / (2 * np.pi)
    assert moved == pytest.approx(2.0 / (15 * 16) * radius, rel=1e-9)  # as 2 oz at the radius
    for taped_oz, read_oz in ((1.0, 0.9), (1.0, 2.0), (1.0, None), ("1", 1.0), (0.0, 1.0)):
        with pytest.raises(wb.InputRefused):
            wb.kappa_from_scale(taped_oz, read_oz)
