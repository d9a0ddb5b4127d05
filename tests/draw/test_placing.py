"""Where words go: by hand on small cases, and by sweeping many."""

import itertools

import numpy as np
import pytest

from workbook.draw.placing import around, flank, spread


def test_spread_leaves_places_alone_that_are_far_enough_apart():
    assert spread([30.0, 10.0], 5.0, 0.0, 40.0) == [30.0, 10.0]


def test_spread_parts_neighbours_evenly_and_stays_inside():
    assert spread([20.0, 20.0], 6.0, 0.0, 40.0) == [17.0, 23.0]
    assert spread([39.0, 39.5], 6.0, 0.0, 40.0) == [34.0, 40.0]
    assert spread([], 6.0, 0.0, 40.0) == []


@pytest.mark.parametrize("wanted", list(itertools.product([0.0, 11.0, 12.0, 40.0], repeat=3)))
def test_spread_keeps_gap_order_and_limits(wanted):
    placed = np.array(spread(wanted, 6.0, 0.0, 40.0))
    assert np.diff(np.sort(placed)).min() >= 6.0 - 1e-9
    assert placed.min() >= -1e-9 and placed.max() <= 40.0 + 1e-9
    assert np.all(np.argsort(placed, kind="stable") == np.argsort(wanted, kind="stable"))


@pytest.mark.parametrize(("one", "other"), list(itertools.product(range(0, 61, 3), repeat=2)))
def test_words_beside_two_marks_never_touch(one, other):
    widths, gap, low, high = [11.0, 12.0], 1.0, 0.0, 67.0
    lefts = flank([one, other], widths, gap, low, high)
    spans = [(left, left + width) for left, width in zip(lefts, widths, strict=True)]
    assert all(low <= left and right <= high for left, right in spans)
    assert spans[0][1] <= spans[1][0] or spans[1][1] <= spans[0][0]
    assert not any(left < mark < right for left, right in spans for mark in (one, other))


def test_one_word_goes_right_unless_there_is_no_room():
    assert flank([10.0], [5.0], 1.0, 0.0, 20.0) == [11.0]
    assert flank([18.0], [5.0], 1.0, 0.0, 20.0) == [12.0]


def test_a_name_avoids_what_is_there_and_the_edge():
    size, bounds = np.array([30.0, 14.0]), np.array([-100.0, -100.0, 100.0, 100.0])
    free = around(np.array([0.0, 0.0]), size, np.empty((0, 4)), bounds, 9.0)
    assert free[0] >= 9.0  # to the right of its mark
    blocked = around(np.array([0.0, 0.0]), size, free[None, :], bounds, 9.0)
    assert blocked[2] <= free[0] or blocked[3] <= free[1] or blocked[1] >= free[3]
    at_edge = around(
        np.array([98.0, 98.0]), size, np.array([[91.0, 91.0, 105.0, 105.0]]), bounds, 9.0
    )
    assert at_edge[2] <= 100.0 and at_edge[3] <= 100.0
    assert at_edge[2] <= 91.0 or at_edge[3] <= 91.0
