"""Shares and tables of a comparison."""

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest

import workbook as wb
from workbook import demo
from workbook.comparison import CAUSES, SHOT_QUANTITIES, compare
from workbook.shares import shapley
from workbook.tables import comparison_frame, shares_frame, shown

UP, DOWN = demo.pin_up_and_down()


@pytest.fixture(scope="module")
def pin():
    return compare(UP, DOWN)


def other(setup):
    """The same bowler with another ball, cover, surface and release phase."""
    return replace(
        setup,
        ball=replace(setup.ball, rg_low_in=2.55, differential_in=0.03, cover="urethane"),
        surface=wb.Surface(grit=800),
        bowler=replace(setup.bowler, speed_mph=17),
    )


def test_shares_add_up_to_the_difference():
    c = compare(UP, other(DOWN))
    assert set(c.shares["entry_board"]) == set(CAUSES)
    for key in SHOT_QUANTITIES:
        difference = getattr(c.shot_b, key) - getattr(c.shot_a, key)
        # to the accuracy of two shots: those of the mixtures are rounded differently
        assert sum(c.shares[key].values()) == pytest.approx(difference, abs=0.01)


def test_shares_are_the_mean_over_all_orders():
    """Shapley 1953: the value is the mean marginal effect over all permutations."""
    worth = dict(zip([(x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)],
                     np.random.default_rng(3).normal(size=8), strict=True))  # fmt: skip
    worth = {tuple(map(bool, key)): value for key, value in worth.items()}
    for i in range(3):
        effects = []
        for order in permutations(range(3)):
            before = [False] * 3
            for j in order[: order.index(i)]:
                before[j] = True
            after = list(before)
            after[i] = True
            effects.append(worth[tuple(after)] - worth[tuple(before)])
        assert shapley(worth, i) == pytest.approx(np.mean(effects), abs=1e-12)


def test_only_what_differs_is_a_cause():
    rough = replace(UP, surface=wb.Surface(grit=500))
    assert set(compare(UP, rough).shares["entry_board"]) == {"cover and surface"}
    assert compare(UP, UP).shares["entry_board"] == {}


def test_frames_carry_units_and_the_same_numbers(pin):
    frame = comparison_frame(pin)
    value = frame.loc[("Drilled ball", "differential [in]"), "B - A"]
    assert value == pin.b.drilled.differential_in - pin.a.drilled.differential_in
    shares = shares_frame(pin)
    assert shares.loc["flare [in]", "B - A"] == pytest.approx(
        pin.shot_b.flare_in - pin.shot_a.flare_in, abs=0.01
    )


def test_numbers_for_people():
    assert shown(-0.004, 2) == "0.00" and shown(0.5, 1, sign=True) == "+0.5"
    assert shown(None, 2) == "-"


def test_bowlers_of_two_hands_are_refused():
    left = replace(UP, bowler=replace(UP.bowler, hand="left"))
    with pytest.raises(wb.InputRefused, match="hand of B must be right like that of A, not left"):
        compare(UP, left)
