"""Words, parts and groups of holes; calls with the wrong things; whatever else may be thrown in."""

import math
import os
import warnings
from dataclasses import FrozenInstanceError, fields, replace
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import workbook as wb
from tests.refusals.refusal import (
    BALL,
    BOWLER,
    HOLE,
    NOT_THAT,
    SETUP,
    VALID,
    accepted,
    examples,
    refused,
    refused_or,
)  # fmt: skip

SHOT = wb.Setup(**SETUP)
LANE, LINE = wb.Lane.house(), wb.Line(laydown_board=22, launch_deg=2)


@pytest.mark.parametrize(
    ("record", "name", "words", "allowed"),
    [
        (wb.Bowler, "hand", "hand", "right or left"),
        (wb.Ball, "cover", "cover", "polyester, urethane or reactive"),
    ],
)
def test_a_word_is_one_of_a_few(record, name, words, allowed):
    for bad in (
        "",
        "Right",
        "both",
        "reactive ",
        "x" * 300,
        3,
        True,
        [],
        ("right",),
        np.array("a"),
    ):
        refused(
            lambda bad=bad: record(**VALID[record] | {name: bad}), f"{words} must be {allowed},"
        )
    refused(lambda: record(**VALID[record] | {name: None}), f"{words} is missing: give {allowed}.")


def test_names_are_short_texts_on_one_line():
    makers = [
        ("hole name", lambda name: wb.Hole(**HOLE | {"name": name})),
        ("setup name", lambda name: wb.Setup(**SETUP | {"name": name})),
        ("lane name", lambda name: wb.Lane(name, np.zeros((61, 39)))),
    ]
    for words, make in makers:
        for fine in ("", "x" * 60, "Kugel 3 – „dull“", "左手", np.str_("ball")):
            assert make(fine).name == fine
        for bad in (
            3,
            True,
            b"x",
            ["x"],
            "two\nlines",
            "tab\t",
            "\0",
            "\ud800",
            "\u2028",
            "\x1b[0m",
        ):
            refused(
                lambda make=make, bad=bad: make(bad), f"{words} must be text of 0 to 60 letters"
            )
        refused(lambda make=make: make("x" * 61), f"{words} of 61 letters", "0 to 60")
        refused(lambda make=make: make(None), f"{words} is missing")


def test_polished_is_true_or_false_and_excludes_a_grit():
    for bad in (1, 0, "yes", [], math.nan):
        refused(lambda bad=bad: wb.Surface(polished=bad), "polished must be True or False, not ")
    refused(lambda: wb.Surface(polished=None), "polished is missing")
    for both in (dict(grit=500, polished=True), {}):
        refused(lambda both=both: wb.Surface(**both), "grit from 180 to 5000 or polished")


def test_a_line_has_a_launch_angle_or_an_arrow_board():
    for both in (dict(launch_deg=1, arrow_board=10), {}):
        refused(lambda both=both: wb.Line(laydown_board=20, **both), "-17 to 17 deg", "1 to 39")


def test_two_numbers_that_do_not_go_together_are_refused():
    refused(
        lambda: wb.Ball(**BALL | dict(differential_in=0.03, intermediate_in=0.0301)),
        "intermediate differential 0.0301 in is outside 0 to 0.03 in",
    )
    accepted(lambda: wb.Ball(**BALL | dict(differential_in=0.03, intermediate_in=0.03)))
    refused(
        lambda: wb.Hole(**HOLE | dict(diameter_in=1, insert_inner_in=1)),
        "hole inside the insert 1 in is outside 0.25 in to less than 1 in",
    )


@pytest.mark.parametrize("part", ["bowler", "ball", "layout", "grip", "surface", "assumptions"])
def test_each_part_of_a_setup_is_what_its_name_says(part):
    kind = type(SETUP[part]).__name__
    for bad in (*NOT_THAT[1:], SETUP["ball" if part != "ball" else "bowler"], type(SETUP[part])):
        text = refused(lambda bad=bad: wb.Setup(**SETUP | {part: bad}), f"{part} must be a")
        assert kind in text
    refused(lambda: wb.Setup(**SETUP | {part: None}), f"{part} is missing", kind)
    if part != "assumptions":
        refused(lambda: wb.Setup(**{k: v for k, v in SETUP.items() if k != part}), "is missing")


def test_a_grip_is_a_few_holes_apart_from_each_other():
    apart = [wb.Hole(over_in=x, up_in=2, diameter_in=0.5, depth_in=1) for x in range(-4, 5)]
    assert len(wb.Grip(apart[:8]).holes) == 8 and wb.Grip().holes == ()
    assert wb.Grip(apart[:2]).holes == tuple(apart[:2])
    refused(lambda: wb.Grip(apart), "number of holes 9 is outside 0 to 8")
    for bad in (None, 3, "middle", b"x", apart[0], math.nan, wb.Grip):
        refused(lambda bad=bad: wb.Grip(bad), "holes must be a list of Hole, not ")
    for bad in ([3], ["hole"], [apart[0], wb.Ball(**BALL)]):
        refused(lambda bad=bad: wb.Grip(bad), "hole", "must be a Hole, not ")
    refused(lambda: wb.Grip([None]), "Hole")

    def two(distance):  # along the midline the distance over the surface is the one given
        near = [replace(apart[0], up_in=0, over_in=x) for x in (-distance / 2, distance / 2)]
        return wb.Grip([replace(near[0], name="middle"), replace(near[1], name="ring")])

    refused(lambda: two(0.45), "middle", "ring", "0.45", "0.5 in")
    assert two(0.55)


RECORDS = [SHOT, *(SETUP[p] for p in ("bowler", "ball", "layout", "grip", "surface")), LINE, LANE,
           wb.Hole(**HOLE), wb.DistanceLayout(**VALID[wb.DistanceLayout])]  # fmt: skip


@pytest.mark.parametrize("record", RECORDS, ids=lambda record: type(record).__name__)
def test_records_cannot_be_changed(record):
    for f in fields(record):
        with pytest.raises(FrozenInstanceError):
            setattr(record, f.name, getattr(record, f.name))
        with pytest.raises(FrozenInstanceError):
            delattr(record, f.name)


def test_the_film_of_a_lane_cannot_be_changed_through_any_door():
    film = np.ones((61, 39))
    lane = wb.Lane("mine", film)
    film[:] = 9.0
    assert lane.film_um.max() == 1.0
    with pytest.raises(ValueError, match="read-only"):
        lane.film_um[0, 0] = 5.0


HOSTILE = st.one_of(
    st.none(), st.booleans(), st.integers(), st.integers(10**308, 10**320), st.floats(),
    st.floats(0, 20), st.complex_numbers(), st.text(max_size=80), st.binary(max_size=80),
    st.fractions(), st.decimals(), st.dates(), st.lists(st.floats(), max_size=3),
    st.dictionaries(st.text(max_size=3), st.integers(), max_size=2),
    st.sampled_from([
        np.float64(5), np.float32("nan"), np.int8(7), np.bool_(1), np.zeros(2), np.array(5.0),
        np.zeros((61, 39)), np.datetime64("NaT"), object(), type, len, Ellipsis, NotImplemented,
        10**5000, Decimal("NaN"), Fraction(1, 3), wb.Bowler, "right", LANE, LINE, *RECORDS,
    ]),
)  # fmt: skip


@pytest.mark.slow
@given(st.data())
@examples(2000)
def test_hostile_calls_give_a_record_or_a_sentence(data):
    record = data.draw(st.sampled_from(list(VALID)))
    names = [f.name for f in fields(record)]
    changed = data.draw(st.lists(st.sampled_from(names), min_size=1, unique=True))
    values = VALID[record] | {name: data.draw(HOSTILE) for name in changed}
    made = refused_or(lambda: record(**values), record)
    if made is not None and record is not wb.Grip:
        for f in fields(record):
            if "unit" in f.metadata and (value := getattr(made, f.name)) is not None:
                assert type(value) is float and math.isfinite(value)


@given(HOSTILE, HOSTILE, HOSTILE)
@examples(400)
def test_hostile_lanes_give_a_lane_or_a_sentence(name, film, zones):
    refused_or(lambda: wb.Lane(name, film, zones), wb.Lane)
    refused_or(lambda: wb.Lane("mine", np.zeros((61, 39)), [(0, 0.1), zones]), wb.Lane)
    refused_or(lambda: wb.Lane.of_friction(zones), wb.Lane)
    refused_or(lambda: wb.Lane.of_friction([(name, film)]), wb.Lane)


def test_a_refusal_changes_nothing_else(tmp_path):
    def world():
        return (
            list(warnings.filters), os.getcwd(), dict(os.environ), np.geterr(), repr(SHOT),
            os.umask(os.umask(0o022)), sorted(tmp_path.iterdir()),
        )  # fmt: skip

    os.umask(0o022)
    before = world()
    for call in (
        lambda: wb.Bowler(**BOWLER | {"speed_mph": 30}),
        lambda: wb.Ball(**BALL | {"differential_in": 0.07, "intermediate_in": 0.08}),
        lambda: wb.Lane("mine", np.full((61, 39), 1e9)),
        lambda: wb.Lane.from_csv(tmp_path / "none.csv"),
        lambda: wb.Setup.from_json(tmp_path / "none.json"),
        lambda: SHOT.to_json(tmp_path / "none" / "x.json"),
        lambda: wb.roll(SHOT, LANE, "straight"),
    ):
        refused(call)
    assert world() == before
