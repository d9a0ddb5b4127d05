"""Residuals, region, and the measured ring on the ball. All tracks are invented."""

import itertools

import numpy as np
import pytest

from tests.draw.invented import ball, circle, point
from workbook.draw.ball_picture import BallPicture
from workbook.draw.residual_picture import ResidualPicture
from workbook.scenes import TrackMarks
from workbook.scenes_track import TrackScene

TURN = np.linspace(0, 2 * np.pi, 40)


def scene(count=9, wide=0.1, known=(0.05, -0.02), hand="right", off=None):
    place = np.linspace(-110, 110, count)
    off = np.tile([0.05, -0.05], count)[:count] if off is None else np.asarray(off)
    region = np.column_stack([wide * np.cos(TURN), wide / 2 * np.sin(TURN)])
    return TrackScene(place, off, 1 / 16, np.abs(off) > 0.25, region, known, "PAP known", hand)


@pytest.fixture(scope="module")
def picture():
    return ResidualPicture()


@pytest.mark.parametrize("count", [3, 9, 24, 60])
@pytest.mark.parametrize("wide", [0.03, 0.9])
def test_words_stay_on_the_picture_and_off_each_other(picture, count, wide):
    picture.show(scene(count, wide))
    picture.image()
    renderer = picture.canvas.get_renderer()
    for axes in picture.figure.axes:
        boxes = [t.get_window_extent(renderer) for t in axes.texts
                 if t.get_visible() and t.get_text()]  # fmt: skip
        assert all(b.x0 >= 0 and b.x1 <= 960 and b.y0 >= 0 and b.y1 <= 270 for b in boxes)
        if count <= 24:
            assert not any(a.overlaps(b) for a, b in itertools.combinations(boxes, 2))


def test_distances_are_drawn_in_sixteenths_and_the_doubtful_apart(picture):
    picture.show(scene(off=[1 / 16, -2 / 16, 0, 0.9], count=4))
    assert picture.dots.get_ydata() == pytest.approx([1, -2, 0])
    assert picture.far.get_ydata() == pytest.approx([6])  # no room for more: at the edge


def test_a_left_handers_region_is_the_mirror_image(picture):
    at = {}
    for hand in ("right", "left"):
        picture.show(scene(hand=hand))
        at[hand] = picture.region.get_paths()[0].vertices[:40], picture.known.get_xydata()
    for right, left in zip(at["right"], at["left"], strict=True):
        assert left == pytest.approx(right * [-1, 1])


def test_it_says_what_it_shows(picture):
    picture.show(scene(3))
    said = picture.describe()
    assert "point 2 -0.05 in" in said and "0.10 in over and 0.05 in up" in said
    assert "PAP known: 0.05 in" in said


def test_every_measured_point_is_seen_once_on_the_ball():
    pap = point(67, 4)
    ring = circle(pap, 100, 60)
    track = TrackMarks(ring[::7], ring, circle(pap, 1, 20))
    picture = BallPicture(count=1)
    picture.show((ball("A", pin=None, mass_mark=None, rings=0, track=track),))
    seen = [len(view.points.get_xydata()) for view in picture.views]
    assert sum(seen) == len(ring[::7]) and min(seen) > 0
    assert picture.sides[1].get_text() == "far side" and "measured points" in picture.describe()
    picture.show((ball("A"),))
    assert not any(view.points.get_visible() for view in picture.views)
    assert picture.sides[1].get_text() == "PAP side"
