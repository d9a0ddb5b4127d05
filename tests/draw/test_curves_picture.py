"""The curves along the lane: invented curves, no physics."""

import io

import numpy as np
import pytest
from PIL import Image

from workbook.draw.curves_picture import CurvesPicture
from workbook.scenes_roll import CURVES, Curves, CurvesScene

FT = np.linspace(0.0, 60.0, 61)
HIGHEST = {"speed_mph": 18, "rev_rate_rpm": 550, "slip_mph": 14, "friction": 0.2,
           "axis_rotation_deg": 50, "axis_tilt_deg": 12, "lane_film_um": 5,
           "carried_film_um": 1.5}  # fmt: skip


def falling(label, hook=45.0, roll=53.0, name="", **factors):
    """Everything falls by a third along the lane."""
    values = {key: top * (1 - FT / 180) * factors.get(key, 1.0) for key, top in HIGHEST.items()}
    return Curves(label, name, FT, values, hook, roll)


@pytest.fixture(scope="module")
def picture():
    return CurvesPicture()


def show(picture, *curves):
    picture.show(CurvesScene(curves))
    return picture


def xy(line):
    return np.asarray(line.get_xydata())


def test_each_graph_shows_both_curves_with_its_unit(picture):
    show(picture, falling("A"), falling("B", speed_mph=0.9))
    assert set(picture.graphs) == set(CURVES) == set(HIGHEST)
    assert xy(picture.lines["speed_mph", "A"])[[0, -1], 1] == pytest.approx((18, 12))
    assert xy(picture.lines["speed_mph", "B"])[[0, -1], 1] == pytest.approx((16.2, 10.8))
    assert picture.graphs["speed_mph"].get_title(loc="left") == "speed [mph]"


def test_phases_are_marked_on_the_curves_and_on_top(picture):
    show(picture, falling("A", hook=45, roll=53), falling("B", hook=30, roll=None))
    speed = "speed_mph"
    assert xy(picture.skids[speed, "A"]) == pytest.approx(np.array([[45, 18 * 0.75]]))
    assert xy(picture.rolls[speed, "A"]) == pytest.approx(np.array([[53, 18 * (1 - 53 / 180)]]))
    assert len(xy(picture.rolls[speed, "B"])) == 0
    words = {label: [text.get_text() for text in picture.said[label]] for label in "AB"}
    assert words == {"A": ["skid to 45.0 ft", "hook to 53.0 ft", "roll"],
                     "B": ["skid to 30.0 ft", "hook", ""]}  # fmt: skip


def test_words_that_find_no_room_shrink_or_go(picture):
    show(picture, falling("A", hook=50, roll=53), falling("B", hook=59, roll=59.5))
    assert [text.get_text() for text in picture.said["A"]] == ["skid to 50.0 ft", "hook", "roll"]
    assert [text.get_text() for text in picture.said["B"]] == ["skid to 59.0 ft", "", ""]


def test_scales_stay_while_curves_move_and_grow_where_they_must(picture):
    show(picture, falling("A"), falling("B"))
    axes = picture.graphs["rev_rate_rpm"]
    before = axes.get_ylim()
    show(picture, falling("A", rev_rate_rpm=0.8), falling("B"))
    assert axes.get_ylim() == before
    for factor in (1.3, 10):
        show(picture, falling("A"), falling("B", rev_rate_rpm=factor))
        assert axes.get_ylim()[1] >= 550 * factor
    show(picture, falling("A"), falling("B"))
    assert axes.get_ylim() == before


def test_the_letters_of_two_equal_lines_stand_apart(picture):
    show(picture, falling("A"), falling("B"))
    for key, axes in picture.graphs.items():
        tops = [picture.letters[key, label].get_position()[1] for label in "AB"]
        px = abs(tops[0] - tops[1]) / np.ptp(axes.get_ylim()) * axes.bbox.height
        assert px > 12, key


def test_one_shot_alone_leaves_nothing_of_the_other(picture):
    show(picture, falling("A"), falling("B"))
    both = picture.png()
    show(picture, falling("A"))
    assert all(len(xy(picture.lines[key, "B"])) == 0 for key in CURVES)
    assert picture.png() != both and "B (" not in picture.describe()


def test_it_says_in_words_what_it_shows(picture):
    show(picture, falling("A", name="pin up"), falling("B", name="pin down"))
    words = picture.describe()
    assert "A (pin up): skid to 45.0 ft, hook to 53.0 ft, roll to 60.0 ft." in words
    assert "speed 18 to 12 mph" in words and "our definitions" in words


def test_sizes(picture):
    show(picture, falling("A"))
    assert Image.open(io.BytesIO(picture.png(2))).size == (1920, 940)
