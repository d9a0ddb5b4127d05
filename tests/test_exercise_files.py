"""Every exercise file: of the form, tested as stub, right and typically wrong, over 50 seeds."""

import math
import re
from collections import Counter
from pathlib import Path

import pytest

from workbook.errors import InputRefused
from workbook.practice import catalogue as shelf
from workbook.practice import exercise_file
from workbook.practice.answering import CANNOT_CHECK, CORRECT, NOT_ATTEMPTED, NOT_YET, mark, reading
from workbook.practice.posed import pose

FOLDER = Path(__file__).parents[1] / "exercises"
FILES = sorted(FOLDER.glob("*/*.toml"))
EXERCISES = [exercise_file.read(file) for file in FILES]
IDS = [one.id for one in EXERCISES]
SEEDS = range(50)
each = pytest.mark.parametrize("exercise", EXERCISES, ids=IDS)


def right_answer(posed):
    exercise = posed.exercise
    return {
        "number": lambda: posed.right,
        "choice": lambda: next(one.text for one in exercise.choices if one.right),
        "order": lambda: exercise.items,
        "target": lambda: {name: lever.worked for name, lever in exercise.target.levers.items()},
        "words": lambda: {"text": exercise.example, "points": range_of(exercise.points)},
        "drill": lambda: [["1"] * len(exercise.sheet.columns)] * exercise.sheet.rows,
    }["choice" if exercise.kind == "predict" else exercise.kind]()


def range_of(points):
    return list(range(1, len(points) + 1))


@each
def test_an_empty_box_is_not_attempted(exercise):
    for empty in (None, "", "  ", [], {}, ()):
        assert mark(pose(exercise), empty).kind == NOT_ATTEMPTED


@each
def test_the_right_answer_is_correct(exercise):
    assert mark(pose(exercise), right_answer(pose(exercise))).kind == CORRECT


@each
def test_every_typical_wrong_answer_gets_its_own_coaching(exercise):
    posed = pose(exercise)
    for choice in exercise.choices:
        if not choice.right:
            assert (found := mark(posed, choice.text)).kind == NOT_YET
            assert found.said == choice.coaching
    for place, wrong in enumerate(exercise.wrong):
        coaching = posed.filled(wrong.coaching)
        if exercise.kind == "words":
            assert wrong.says and wrong.says not in exercise.example
            continue
        given = {"number": lambda place=place: posed.wrong[place],
                 "order": lambda wrong=wrong: wrong.items,
                 "target": lambda wrong=wrong: wrong.settings}[exercise.kind]()  # fmt: skip
        found = mark(posed, given)
        assert found.kind == NOT_YET and coaching in found.said, wrong


@each
def test_a_start_that_nobody_moved_is_not_the_answer(exercise):
    if exercise.target:
        start = {name: lever.start for name, lever in exercise.target.levers.items()}
        assert mark(pose(exercise), start).kind == NOT_YET


@each
def test_the_worked_value_and_the_library_agree(exercise):
    answer = exercise.answer
    if answer and answer.computed:
        worked = {name: one.worked for name, one in exercise.draws.items()}
        assert answer.computed.value(worked) == pytest.approx(
            answer.value, abs=answer.tolerance / 2
        )
    assert not exercise.draws or answer is None or answer.computed, "nothing works out the variants"


@each
def test_every_variant_has_one_answer_that_can_be_reached(exercise):
    if not exercise.draws:
        return
    for seed in SEEDS:
        posed = pose(exercise, seed)
        if exercise.answer:
            assert math.isfinite(posed.right) and posed.told_apart, seed
        assert mark(posed, right_answer(posed)).kind == CORRECT, seed
        for place in range(len(posed.wrong)):
            assert mark(posed, posed.wrong[place]).kind == NOT_YET, (seed, place)
    assert len({tuple(pose(exercise, seed).drawn.items()) for seed in SEEDS}) > 5


@each
def test_hints_lead_on_and_do_not_give_it_away(exercise):
    assert len(set(exercise.hints)) == 3
    if exercise.answer:
        figure = f"{exercise.answer.value:g}"
        number = re.compile(rf"(?<![\d.]){re.escape(figure)}(?![\d.]*\d)")
        assert not any(number.search(text) for text in (*exercise.hints, exercise.prompt))


@each
def test_a_published_fact_names_its_source(exercise):
    assert exercise.source or exercise.mark in ("common practice", "derived", "assumption")


def test_there_are_forty_ideas_ten_drills_and_pictures_for_a_third():
    kinds = Counter(one.kind for one in EXERCISES)
    assert len(EXERCISES) >= 40 and len({one.teaches for one in EXERCISES}) == len(EXERCISES)
    assert kinds["drill"] >= 10 and len(kinds) == 7
    assert 3 * sum(bool(one.picture) for one in EXERCISES) >= len(EXERCISES)
    assert len({one.chapter for one in EXERCISES}) == 7


def test_the_catalogue_has_them_all_easy_ones_first():
    found = shelf.catalogue(FOLDER)
    assert set(found) == set(IDS)
    for chapter in {one.chapter for one in EXERCISES}:
        levels = [one.level for one in found.values() if one.chapter == chapter]
        assert levels == sorted(levels)


def test_every_key_and_calculation_is_documented():
    documented = (FOLDER / "README.md").read_text(encoding="utf-8")
    keys = {*exercise_file.ALWAYS, "caution", "[picture]", "[draw.NAME]"}
    for word in (*keys, *exercise_file.KINDS, *exercise_file.PERMITTED):
        assert f"`{word}`" in documented, word


def test_an_unknown_exercise_is_refused():
    with pytest.raises(InputRefused, match="there is no exercise"):
        shelf.exercise("which_flares_least")
    assert shelf.check("which_flares_more", object()).kind == CANNOT_CHECK


def test_a_reading_is_told_with_the_outcome():
    for exercise in EXERCISES:
        if exercise.target:
            posed = pose(exercise)
            start = {name: lever.start for name, lever in exercise.target.levers.items()}
            assert math.isfinite(reading(posed, start))
