"""Functions called with the wrong things: they refuse them by the name the person knows."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import workbook as wb
from tests.refusals.refusal import NOT_THAT, SETUP, examples, refused, refused_or

SHOT = wb.Setup(**SETUP)
LANE, LINE = wb.Lane.house(), wb.Line(laydown_board=22, launch_deg=2)

SPANS = dict(middle_span_in=4.25, ring_span_in=4.375)


@pytest.mark.parametrize(
    ("name", "words", "low", "high"),
    [
        ("middle_span_in", "middle span", 2.0, 6.0),
        ("ring_span_in", "ring span", 2.0, 6.0),
        ("bridge_in", "bridge", 0.0, 2.0),
        ("finger_bore_in", "finger bore", 0.25, 1.5),
        ("finger_inner_in", "hole inside the insert", 0.25, 1.5),
        ("finger_depth_in", "hole depth", 0.25, 4.0),
        ("thumb_hole_in", "thumb hole", 0.25, 1.5),
        ("thumb_slug_in", "hole diameter", 0.25, 1.5),
        ("thumb_depth_in", "hole depth", 0.25, 4.0),
        ("circumference_in", "ball circumference", 26.5, 27.2),
    ],
)
def test_spans_are_refused_like_the_holes_they_make(name, words, low, high):
    limits = f"{low:g} to {high:g} in"
    for bad in (
        math.nextafter(low, -9),
        math.nextafter(high, 99),
        math.nan,
        math.inf,
        "4",
        True,
        1j,
    ):
        refused(lambda bad=bad: wb.Grip.from_spans(**SPANS | {name: bad}), words, limits)
    if name not in ("finger_inner_in", "thumb_slug_in"):  # there None means a bare hole
        refused(lambda: wb.Grip.from_spans(**SPANS | {name: None}), words, "is missing", limits)


def test_the_usual_grip_refuses_its_span_by_name():
    refused(lambda: wb.Grip.usual(1.9), "span 1.9 in is outside 2 to 6 in")
    refused(lambda: wb.Grip.usual(span_in="wide"), "span must be a number from 2 to 6 in")
    assert not wb.Grip.usual(thumb=False).has_thumb
    for bad in (None, "no", 1):
        refused(lambda bad=bad: wb.Grip.usual(thumb=bad), "thumb", "True or False")


def test_distances_that_no_layout_has_are_refused():
    for made in (
        dict(pin_to_pap_in=3, psa_to_pap_in=6.75, pin_buffer_in=3.01),
        dict(pin_to_pap_in=3, psa_to_pap_in=2, pin_buffer_in=1),
        dict(pin_to_pap_in=0, psa_to_pap_in=6.75, pin_buffer_in=0),
    ):
        distances = wb.DistanceLayout(**made)
        refused(distances.layout, "outside what this pin-to-PAP distance allows", " in ")


@pytest.mark.parametrize("call", ["roll", "roll_many", "compare"])
@pytest.mark.parametrize("place", ["setup", "lane", "line"])
def test_a_shot_needs_a_setup_a_lane_and_a_line(call, place):
    given = dict(setup=SHOT, lane=LANE, line=LINE)
    for bad in NOT_THAT:
        if call == "compare" and bad is None and place != "setup":
            continue  # there are defaults

        def shoot(bad=bad):
            a, b, c = (given | {place: bad}).values()
            return wb.compare(SHOT, a, b, c) if call == "compare" else getattr(wb, call)(a, b, c)

        refused(shoot, place)


def test_a_rating_needs_a_setup():
    for bad in NOT_THAT:
        refused(lambda bad=bad: wb.rate(bad), "setup", "a Setup")


def test_many_shots_need_as_many_lines():
    for setups, lines in (([SHOT] * 2, [LINE] * 3), ([], [LINE]), ([SHOT], []), ([], [])):
        text = refused(lambda s=setups, n=lines: wb.roll_many(s, LANE, n), "number of ")
        assert str(len(setups)) in text or str(len(lines)) in text
    refused(lambda: wb.roll_many([SHOT, None], LANE, LINE), "setup is missing")
    refused(lambda: wb.roll_many(SHOT, LANE, [LINE, "straight"]), "line must be a Line")
    for bad in (0, -1, "all", math.nan, True):
        refused(lambda bad=bad: wb.roll_many(SHOT, LANE, LINE, workers=bad), "workers")


def test_gutters_are_there_or_not():
    for bad in (None, 1, "no"):
        refused(lambda bad=bad: wb.roll(SHOT, LANE, LINE, gutters=bad), "gutters", "True or False")


def test_only_shots_of_one_hand_are_compared():
    left = replace(SHOT, bowler=replace(SHOT.bowler, hand="left"))
    refused(lambda: wb.compare(SHOT, left), "hand of B must be right", "left")


@pytest.mark.parametrize("part", ["ball", "layout", "grip", "bowler", "assumptions"])
def test_drilling_needs_all_parts(part):
    names = ("ball", "layout", "grip", "bowler", "assumptions")
    for bad in NOT_THAT[part == "assumptions" :]:
        parts = [(SETUP | {part: bad})[name] for name in names]
        refused(lambda parts=parts: wb.drill(*parts), part)


MARKS = dict(pap=wb.Pap(5.0, 0.5), ball=SETUP["ball"], pin_in=(2.0, 3.0), mark_in=(1.0, -3.0))


def test_marks_are_read_from_places_on_a_ball():
    assert wb.read_marks(**MARKS).layout.pin_to_pap_in > 0
    for part, words in (("pap", "PAP"), ("ball", "ball")):
        for bad in NOT_THAT:
            refused(lambda part=part, bad=bad: wb.read_marks(**MARKS | {part: bad}), words)
    for part, words in (("pin_in", "pin"), ("mark_in", "mark")):
        for bad in (None, 3, "ab", (1,), (1, 2, 3), {}, np.zeros(2)):
            refused(lambda part=part, bad=bad: wb.read_marks(**MARKS | {part: bad}), words)
        for i, direction, most in ((0, "over", 13.5), (1, "up", 6.75)):
            for bad in (most + 0.01, -most - 0.01, math.nan, "1", None, True):
                at = (bad, 1.0) if i == 0 else (1.0, bad)
                refused(
                    lambda part=part, at=at: wb.read_marks(**MARKS | {part: at}),
                    f"{words} {direction}", f"-{most:g} to {most:g} in",
                )  # fmt: skip
    refused(lambda: wb.read_marks(**MARKS | {"pin_in": (5, 0.5)}), "from pin to PAP", "0.05 to")
    refused(lambda: wb.read_marks(**MARKS | {"mark_in": (2, 3)}), "from pin to mark", "0.05 to")
    for bad in (wb.Pap(math.nan, 0), wb.Pap("5", 0), wb.Pap(5, None), wb.Pap(7, 0), wb.Pap(5, 2.1)):
        refused(lambda bad=bad: wb.read_marks(**MARKS | {"pap": bad}), "PAP")
    for bad in (-0.1, math.nan, "1", None, True, 2.0):
        refused(lambda bad=bad: wb.read_marks(**MARKS, mark_error_in=bad), "mark error", " in")


PLACES = st.tuples(st.floats(-13.5, 13.5), st.floats(-6.75, 6.75))


@given(PLACES, PLACES, st.floats(0, 6.75), st.floats(-2, 2))
@examples(150)
def test_any_two_places_on_a_ball_give_a_layout_or_a_sentence(pin, mark, over, up):
    call = lambda: wb.read_marks(wb.Pap(over, up), SETUP["ball"], pin, mark)  # noqa: E731
    reading = refused_or(call, object)
    assert reading is None or 0 <= reading.layout.val_angle_deg <= 90
