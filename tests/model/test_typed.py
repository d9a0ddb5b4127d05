"""Numbers as people type them. Expected values are read off the text by eye."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.refusals.refusal import examples, refused
from workbook.errors import InputRefused
from workbook.typed import NO_UNIT, UNITS, number_from, pair_from


@pytest.mark.parametrize(
    ("text", "value"),
    [("4 1/2", 4.5), ("4½", 4.5), ("4 ½", 4.5), ("4.5", 4.5), ("4,5", 4.5), ("-1/4", -0.25),
     ("4-1/2", 4.5), ("-4-1/2", -4.5), ("− 3⁄8", -0.375), ("+7/2", 3.5), (".5", 0.5), ("5.", 5.0),
     ('4 1/2"', 4.5), ("3 in", 3.0), ("350rpm", 350.0), ("18.5 MPH", 18.5), ("12°", 12.0),
     ("45 deg", 45.0), (" 0 ", 0.0), ("1,25 in.", 1.25), ("-⅜″", -0.375), ("2.4 s", 2.4),
     ("3½ boards", 3.5), ("1 board", 1.0), ("15 LB", 15.0), ("14 1/2 lbs", 14.5), ("2.5oz.", 2.5),
     ("1/4 ounce", 0.25), ("2000 grit", 2000.0), ("0,4 µm", 0.4), ("0.4 μm", 0.4), ("1 um", 1.0),
     ("12 %", 12.0), ("12%", 12.0), ("12 per cent", 12.0), ("40 feet", 40.0), ("40'", 40.0)],
)  # fmt: skip
def test_what_people_type(text, value):
    assert number_from(text) == value


@pytest.mark.parametrize(
    "text",
    ["", " ", "four", "4 5/2", "1/0", "1/2/3", "4 -1/2", "1e5", "nan", "inf", "0x10", "1_0",
     "1,000,000", "4.5.6", "٣", "5 yards", "5\0", "--1", "1/ 2/", "½½", "9" * 30, "1 " * 50],
)  # fmt: skip
def test_anything_else_is_refused_in_a_sentence(text):
    refused(lambda: number_from(text))


@pytest.mark.parametrize("unit", UNITS)
def test_each_unit_behind_its_own_numbers_and_no_other(unit):
    for written in UNITS[unit]:
        assert number_from(f"4,5 {written}", unit) == number_from(f"4.5{written}", unit) == 4.5
        assert number_from(f"4 1/2 {written.upper()}") == 4.5
        for other in UNITS:
            if other != unit:
                refused(lambda w=written, o=other: number_from(f"4 {w}", o), f'with "{other}"')
        refused(lambda w=written: number_from(f"4 {w}", NO_UNIT), "without a unit")


def test_no_sign_belongs_to_two_units():
    signs = [written for unit in UNITS.values() for written in unit]
    assert len(signs) == len(set(signs)) and all(sign == sign.lower() for sign in signs)


def test_only_the_unit_that_is_wanted():
    assert number_from("18 mph", "mph") == 18.0 and number_from("18", "mph") == 18.0
    refused(lambda: number_from("18 mph", "in"), "'18 mph'", 'with "in" or without a unit')
    for bad in (None, 3, 4.5, b"4"):
        refused(lambda bad=bad: number_from(bad), "must be text")
        refused(lambda bad=bad: pair_from(bad), "must be text")


@pytest.mark.parametrize(
    ("text", "pair"),
    [("4, 1/2", (4, 0.5)), ("-3 1/4,5", (-3.25, 5)), ("4,5, 0,5", (4.5, 0.5)),
     ("4,5; -0,25", (4.5, -0.25)), ("4½\t-¼", (4.5, -0.25)), ('4 1/2", 3/8 in', (4.5, 0.375)),
     ("4,5", (4, 5))],
)  # fmt: skip
def test_pairs(text, pair):
    assert pair_from(text) == pair


def test_what_is_no_pair_or_two_pairs_is_refused():
    for text in ("4", "", "4 5", ",", "4;5;6", "1 1/2"):
        refused(lambda text=text: pair_from(text), "not two numbers")
    refused(lambda: pair_from("4,5,6"), "two ways", "semicolon")


@given(st.text(max_size=70) | st.text('0123456789 /.,-+½"°in;', max_size=14))
@examples(400)
def test_no_text_does_anything_but_give_a_number_or_a_refusal(text):
    for read in (number_from, pair_from):
        try:
            found = read(text)
        except InputRefused:
            continue
        assert all(map(math.isfinite, found if isinstance(found, tuple) else (found,)))


@given(st.integers(-40, 40), st.integers(0, 15))
@examples(100)
def test_every_sixteenth_comes_back(whole, part):
    sign = "-" if whole < 0 else ""
    text = f"{sign}{abs(whole)} {part}/16"
    assert number_from(text) == (-1 if whole < 0 else 1) * (abs(whole) + part / 16)
