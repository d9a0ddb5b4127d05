"""The check of exercise files: each planted fault is told in one sentence, with its line."""

import time

import pytest

from tests.practice.made import TEXTS
from tests.refusals.refusal import one_sentence
from workbook.practice.exercise import KINDS
from workbook.practice.file_check import faults


def faults_of(kind, *changes, own_id=""):
    text = TEXTS[kind]
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    found = faults(text, f"{kind}.toml", own_id)
    for sentence in found:
        one_sentence(sentence)
    return text, found


@pytest.mark.parametrize("kind", KINDS)
def test_the_made_exercises_are_in_order(kind):
    assert faults_of(kind, own_id=f"04_lay_it_out/{kind}")[1] == []


@pytest.mark.parametrize(
    ("kind", "old", "new", "at", "parts"),
    [
        ("number", "value = 9", "value = 9.1", "value = 9.1", ("9.1 is worked", "has 9.")),
        ("number", "a = 2,", "a = 3,", "value = 9", ("9 is worked", "has 13")),
        ("number", 'b = "{turns}" }', 'b = "{twists}" }', "[answer.computed]", ("{twists}",)),
        ("number", "b = 3", "b = 5", "[[wrong]]", ("taken for right", "seed 0")),
        ("number", "step = 0.5", "step = 7", "[draw.turns]", ("50 students get only 2",)),
        ("number", "tolerance = 0.05", "tolerance = 3", "[[wrong]]", ("taken for right",)),
        ("number", '"What is asked?"', '"Is it 9?"', "prompt", ("9, is given away",)),
        ("number", '"Point."', '"It is 9."', "hints", ("9, is given away",)),
        ("number", '"Point."', '"Remind."', "hints", ("same",)),
        ("number", '"a book, page 1"', '""', "source", ("marked textbook", "source")),
        ("number", '"Below zero."', '"It is {answer}."', 'coaching = "It', ("{answer}",)),
        ("number", '"Invented"', '"For {turns}"', "title", ("{turns}", "not filled in")),
        ("choice", "right = true", "right = false", "[[choices]]", ("coaching",)),
        ("choice", '"Because it is so."', '"{answer}"', "explanation", ("{answer}",)),
        ("order", '"hook", "skid", "roll"', '"hook", "skid", "spin"', "items = [\"hook", ("same",)),
        ("target", "worked = 25", "worked = 60", "worked", ("not taken for right", "pin stands")),
        ("target", "start = 90", "start = 25", "start", ("does it already",)),
        ("target", "angle = 80", "angle = 25", "[[wrong]]", ("taken for right",)),
        ("target", "{angle}", "{angel}", "worked", ("'{angel}'",)),
        ("target", 'name = "angle"', 'name = "An angle"', "name", ("letters a to z",)),
        ("words", '"It is magic."', '"The holes take mass"', "says", ("good example",)),
        ("drill", "rows = 3", "rows = 2.5", "rows", ("whole number",)),
        ("drill", "level = 2", "level = 9", "level", ("level 9 is outside 1 to 5",)),
    ],
)  # fmt: skip
def test_a_fault_and_its_line(kind, old, new, at, parts):
    text, found = faults_of(kind, (old, new))
    assert len(found) == 1 and all(part in found[0] for part in parts), found
    line = next(n for n, words in enumerate(text.split("\n"), 1) if words.startswith(at))
    assert found[0].startswith(f"{kind}.toml line {line}: "), (line, found)


def test_several_faults_are_told_together():
    _, found = faults_of(
        "number", ('"a book, page 1"', '""'), ('"Point."', '"Remind."'), ("value = 9", "value = 8"),
        own_id="04_lay_it_out/other",
    )  # fmt: skip
    assert len(found) == 4 and "must be '04_lay_it_out/other'" in found[0]


def test_coaching_that_is_never_said_is_a_fault():
    again = '\n[[wrong]]\nvalue = 7\ncoaching = "Another."\n'
    _, found = faults_of("number", ('"Below zero."\n', '"Below zero."\n' + again))
    assert len(found) == 1 and "coaching of another" in found[0]


def test_a_tolerance_finer_than_what_is_shown_is_a_fault():
    changes = [("value = 9", "value = 2.00001"), ("tolerance = 0.05", "tolerance = 0.000001"),
               ("b = 1\n", "b = -6\n"), ("a = 2, b", "a = 2.0000025, b")]  # fmt: skip
    _, found = faults_of("number", *changes)
    assert len(found) == 1 and "written 2 is not taken for right" in found[0], found


@pytest.mark.slow
def test_slow_numbers_that_never_work_come_to_an_end():
    """Of 2 and 9 turns neither is told apart, which shows after the slowest calculations."""
    slow = '{ calculation = "times", a = 0, b = { calculation = "equal_grit", a = {}, b = {} } }'
    wrong = f'[[wrong]]\ncoaching = "{{i}}"\n[wrong.value]\na = {slow}\nb = {{value}}\n'
    text = TEXTS["number"].split("[[wrong]]")[0].replace("step = 0.5", "step = 7")
    for i, value in enumerate((100, 101, 102, 103, 104, 105, 5, 19)):
        text += wrong.replace("{i}", f"Number {i}.").replace("{value}", str(value))
        text += 'calculation = "plus"\n'
    begun = time.monotonic()
    (found,) = faults(text, "slow.toml")
    assert "no numbers for seed 1" in found and time.monotonic() - begun < 60
