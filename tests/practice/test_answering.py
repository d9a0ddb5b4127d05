"""Marking: the four outcomes for each kind. What is right or wrong is read off the made files."""

from fractions import Fraction

import numpy as np
import pytest

from tests.practice.made import RIGHT, TEXTS, made
from workbook.practice.answering import (
    CANNOT_CHECK,
    CORRECT,
    NOT_ATTEMPTED,
    NOT_YET,
    Outcome,
    mark,
)  # fmt: skip
from workbook.practice.posed import pose

POSED = {kind: pose(made(kind)) for kind in TEXTS}


def said(kind, answer, outcome, *parts):
    found = mark(POSED[kind], answer)
    assert found.kind == outcome, found
    assert all(part in found.said for part in parts), found
    return found.said


@pytest.mark.parametrize("kind", TEXTS)
def test_right_empty_and_foreign_answers_of_each_kind(kind):
    said(kind, RIGHT[kind], CORRECT)
    for empty in (None, "", " \n", [], (), {}):
        said(kind, empty, NOT_ATTEMPTED)
    for foreign in (object(), b"9", {1, 2}, True, print, {"a": object()}, [[[[1]]]], [0] * 301):
        said(kind, foreign, CANNOT_CHECK)


@pytest.mark.parametrize(
    "answer", [9, 9.0, "9", "9,0", "9.04", "8 31/32", "+9", "8,96 MPH", " 9 mph ", "18/2",
               np.float64(9.01), np.int8(9), np.longdouble(9), Fraction(903, 100), 9.05, 8.95]
)  # fmt: skip
def test_numbers_as_people_write_them(answer):
    said("number", answer, CORRECT)


@pytest.mark.parametrize(
    ("answer", "outcome", "part"),
    [(7, NOT_YET, "Added where it multiplies, with 4."), ("-1", NOT_YET, "Below zero."),
     ("7.05", NOT_YET, "Added"), ("7.2", NOT_YET, "Too small."), (-9, NOT_YET, "sign"),
     (9.06, NOT_YET, "Too large."), ("9 ft", CANNOT_CHECK, "mph"), ("nine", CANNOT_CHECK, "number"),
     (float("nan"), CANNOT_CHECK, "finite"), (float("inf"), CANNOT_CHECK, "finite"),
     (10**400, CANNOT_CHECK, "finite"), (2e9, CANNOT_CHECK, "outside"), ([9], CANNOT_CHECK, ""),
     ("9" * 5000, CANNOT_CHECK, "longer")],
)  # fmt: skip
def test_numbers_that_are_wrong_or_none(answer, outcome, part):
    said("number", answer, outcome, part)


def test_the_exercises_own_unit_may_stand_behind_and_no_other():
    shots = pose(made("number", ('unit = "mph"', 'unit = "shots"')))
    plain = pose(made("number", ('unit = "mph"', 'unit = ""')))
    degrees = pose(made("number", ('unit = "mph"', 'unit = "deg"')))
    assert {mark(shots, text).kind for text in ("9 shots", "9shots", "9")} == {CORRECT}
    assert {mark(degrees, text).kind for text in ("9°", "9 degrees", "9 deg")} == {CORRECT}
    for posed, text in ((shots, "9 mph"), (plain, "9 mph"), (degrees, "9 in"), (shots, "shots")):
        assert mark(posed, text).kind == CANNOT_CHECK


def test_a_choice_by_its_text_or_place():
    for answer in ("pin up", " pin up ", "1", 1, 1.0, np.int64(1)):
        said("choice", answer, CORRECT)
    said("predict", "2", NOT_YET, "Look again.")
    for answer in ("pin", "PIN UP", 0, 3, 1.5, -1, "nan", ["pin up"]):
        said("choice", answer, CANNOT_CHECK)


def test_orders():
    said("order", (1, "2", "roll"), CORRECT)
    said("order", ["hook", "skid", "roll"], NOT_YET, "It slides first.")
    said("order", [3, 2, 1], NOT_YET, "1 of 3 stand where they belong")
    said("order", [1, 1, 2], CANNOT_CHECK, "twice")
    said("order", [1, 2], CANNOT_CHECK, "3 places are to be filled, and 2 are")
    said("order", "skid, hook, roll", CANNOT_CHECK, "list")


def test_a_target_is_met_from_both_sides_of_what_is_wanted():
    said("target", {"angle": 26}, CORRECT, "pin stands 4.2", "wanted is 4.25 in, give or take 0.1")
    said("target", {"angle": 85}, NOT_YET, "Too low.")
    assert "Too low." not in said("target", {"angle": 0}, NOT_YET, "too much")
    said("target", {}, NOT_ATTEMPTED)
    for answer in ({"angle": 91}, {"angle": None}, {"angle": "25 x"}, {"other": 25}, [25],
                   {"angle": 25, "other": 1}, {1: 25}):  # fmt: skip
        said("target", answer, CANNOT_CHECK)


@pytest.mark.parametrize(
    ("rule", "wanted", "right", "wrong", "start"),
    [("at least", 4.2, [0, 25], [30, 90], 90), ("at most", 4.2, [30, 90], [0, 25], 0)],
)
def test_a_target_of_one_side_has_no_upper_or_no_lower_end(rule, wanted, right, wrong, start):
    posed = pose(made("target", ('"within"', f'"{rule}"'), ("margin = 0.1\n", ""),
                      ("wanted = 4.25", f"wanted = {wanted}")))  # fmt: skip
    assert {mark(posed, {"angle": one}).kind for one in right} == {CORRECT}
    assert {mark(posed, {"angle": one}).kind for one in wrong} == {NOT_YET}


def test_a_column_with_a_unit_holds_numbers_and_a_remark_may_be_missing():
    drill = made("drill", ('["shot", "board"]', '["shot", "speed [mph]", "remark: anything"]'))
    sheet = "1; 17 1/2 mph; \n2; 16,5; fast\n3; 17; "
    assert mark(pose(drill), sheet).kind == CORRECT
    refused = mark(pose(drill), sheet.replace("16,5", "quick"))
    assert refused.kind == CANNOT_CHECK and "line 2, speed [mph]: 'quick'" in refused.said
    empty = mark(pose(drill), sheet.replace("16,5", ""))
    assert empty == Outcome(NOT_YET, "Still empty: line 2, speed [mph].")


def test_words_are_marked_by_the_student():
    said("words", {"text": "x"}, NOT_YET, "2 of 2 points are not ticked")
    said("words", {"text": "x", "points": [2, 2]}, NOT_YET, "1 of 2")
    said("words", {"text": " ", "points": [1, 2]}, NOT_ATTEMPTED)
    for answer in ("x", ["x"], {"text": 1}, {"text": "x", "points": [3]}, {"points": [1]},
                   {"text": "x", "points": "12"}, {"text": "x" * 10_001}):  # fmt: skip
        said("words", answer, CANNOT_CHECK)


def test_a_sheet_as_text_or_rows_of_cells():
    said("drill", [(1, 12.5), ("2", "x"), [3, 0]], CORRECT, "3 lines are recorded")
    for hole in (None, "", " ", float("nan"), np.nan):
        said("drill", [[1, 12], [2, hole], [3, 4]], NOT_YET, "Still empty: line 2, board")
    said("drill", "1;2\n\n2;3\n", NOT_YET, "2 of 3")
    said(
        "drill", "1;2;3\n2;3\n3;4", CANNOT_CHECK, "line 1 needs 2 entries", "and has 3: shot, board"
    )
    said("drill", [1, 2, 3], CANNOT_CHECK, "line")
    said("drill", "x" * 10_001, CANNOT_CHECK, "longer")


def test_coaching_has_the_students_own_numbers():
    posed = pose(made("number"), 3)
    turns = f"{posed.drawn['turns']:g}"
    assert mark(posed, posed.drawn["turns"] + 3).said == (
        f"Added where it multiplies, with {turns}."
    )
    draw = "[draw.turns]\nlow = 2\nhigh = 9\nstep = 1\nworked = 4\n\n"
    for kind, old, answer in (("choice", "Look again.", 2), ("target", "Too low.", {"angle": 80}),
                              ("order", "It slides first.", [2, 1, 3])):  # fmt: skip
        at = {"choice": "[[choices]]", "target": "[target]", "order": "[[wrong]]"}[kind]
        posed = pose(made(kind, (old, f"{old} It is {{turns}}."), (at, draw + at)))
        assert mark(posed, answer).said.endswith("It is 4."), kind
