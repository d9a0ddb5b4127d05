"""Every exercise file: nothing wrong with it, and a shelf that is full enough."""

from collections import Counter
from pathlib import Path

import pytest

from workbook.errors import InputRefused
from workbook.practice import catalogue as shelf
from workbook.practice import exercise_file
from workbook.practice.answering import CANNOT_CHECK, NOT_ATTEMPTED, mark
from workbook.practice.file_check import faults
from workbook.practice.posed import pose

FOLDER = Path(__file__).parents[1] / "exercises"
FILES = sorted(FOLDER.glob("*/*.toml"))
EXERCISES = [exercise_file.read(file) for file in FILES]
IDS = [one.id for one in EXERCISES]


@pytest.mark.parametrize("file", FILES, ids=IDS)
def test_right_and_wrong_answers_of_fifty_students_are_told_apart(file):
    """Worked value against the library, each wrong answer with its coaching, hints, sources."""
    text = file.read_text(encoding="utf-8")
    assert faults(text, file.name, f"{file.parent.name}/{file.stem}") == []


@pytest.mark.parametrize("exercise", EXERCISES, ids=IDS)
def test_an_empty_box_is_not_attempted(exercise):
    for empty in (None, "", "  ", [], {}, ()):
        assert mark(pose(exercise), empty).kind == NOT_ATTEMPTED


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
