"""Variants: the same seed gives the same numbers, today and after every update."""

from dataclasses import replace

import pytest

from tests.practice.made import made
from tests.refusals.refusal import refused
from workbook.practice.exercise import Draw
from workbook.practice.posed import MOST_SEED, pose

# Written down when the first exercises were published: a student's numbers must not change.
FIRST_DRAWS = {1: 6.0, 2: 9.0, 7: 4.0, 123456789: 3.5, MOST_SEED: 6.0}


@pytest.fixture(scope="module")
def number():
    return made("number")


@pytest.mark.parametrize(("seed", "turns"), FIRST_DRAWS.items())
def test_the_numbers_of_a_seed_stay(number, seed, turns):
    assert pose(number, seed).drawn == {"turns": turns}


def test_seed_0_is_the_worked_example_and_equal_seeds_are_equal(number):
    assert pose(number).drawn == {"turns": 4.0} and pose(number).right == 9.0
    for seed in range(1, 40):
        assert pose(number, seed) == pose(number, seed)


def test_draws_lie_on_the_steps_and_reach_both_ends(number):
    found = {pose(number, seed).drawn["turns"] for seed in range(1, 400)}
    steps = {2 + 0.5 * i for i in range(15)}
    # at 2 turns the first wrong answer, 2 + 3, is the right one, 2 * 2 + 1: drawn again
    assert found == steps - {2.0}


def test_another_exercise_has_other_numbers(number):
    other = replace(number, id="04_lay_it_out/other")
    seeds = range(1, 30)
    assert [pose(number, s).drawn for s in seeds] != [pose(other, s).drawn for s in seeds]


def test_right_and_wrong_of_a_variant_by_hand(number):
    for seed in range(1, 50):
        posed = pose(number, seed)
        turns = posed.drawn["turns"]
        assert posed.right == 2 * turns + 1 and posed.wrong == (turns + 3, -1)
        assert posed.told_apart


def test_texts_are_filled_with_the_numbers():
    one = made("number", ('"Because it is so."', '"{turns} turns make {answer} mph, {Not} {}."'))
    assert pose(one).filled(one.explanation) == "4 turns make 9 mph, {Not} {}."


def test_ranges_that_never_work_are_refused_and_end(number):
    stuck = replace(number, draws={"turns": Draw(2, 2.0001, 0.0001, 2)})
    refused(lambda: pose(stuck, 5), "no numbers for seed 5", "ranges")


@pytest.mark.parametrize("seed", [-1, 0.5, "1", None, True, float("nan"), 1e16, 10**400])
def test_a_seed_is_a_whole_number(number, seed):
    refused(lambda: pose(number, seed), "seed")
