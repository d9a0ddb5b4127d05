"""The ball drawing: which side is which, hidden halves, words. All balls are invented."""

import itertools
import warnings

import numpy as np
import pytest
from PIL import Image

from tests.draw.invented import ball, circle, hook, lane, point
from workbook.draw.ball_picture import BallPicture
from workbook.draw.overview import overview_png
from workbook.draw.projection import GRIP, View
from workbook.scenes import BallScene, HoleOutline

RIM = tuple(
    HoleOutline(str(place), circle(point(*place), 7, 40))
    for place in ((90, 0), (86, 40), (-93, 10), (0, -88), (0, 86), (-23, -3))
)
SCENES = {
    "usual": (
        ball("A"),
        ball("B", title="pin down", mass_kind="CG", pin=point(6, 16), over=(0, 1)),
    ),
    "left": (ball("A", hand="left"), ball("B", hand="left", rings=0, holes=())),
    "one": (ball("B", rings=1),),
    "marks close to each other": (
        ball("A", pin=point(64, 8), mass_mark=point(65, 4)),
        ball("B", pin=point(66.7, 6.7), mass_mark=point(66.7, 6.7)),
    ),
    "marks on the rim and behind": (
        ball("A", pin=point(89, 30), mass_mark=point(-100, -5)),
        ball("B", pin=point(-89, 0), mass_mark=point(0, -89)),
    ),
    "holes on the rim": (ball("A", holes=RIM),),
    "long words": (ball("A", title="word " * 60, caption="word " * 90),),
    "none": (),
}


@pytest.fixture(scope="module")
def picture():
    return BallPicture()


def texts(picture, axes):
    renderer = picture.canvas.get_renderer()
    return {
        (t.get_text(), id(t)): t.get_window_extent(renderer)
        for t in axes.texts
        if t.get_visible() and t.get_text()
    }


@pytest.mark.parametrize("name", SCENES)
def test_words_stay_in_their_view_and_off_each_other(picture, name):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        picture.show(SCENES[name])
        picture.image()
        picture.png(2)
    for axes in picture.figure.axes:
        boxes = texts(picture, axes)
        for (said, _), box in boxes.items():
            assert axes.bbox.x0 - 1 <= box.x0 and box.x1 <= axes.bbox.x1 + 1, said
            assert axes.bbox.y0 - 1 <= box.y0 and box.y1 <= axes.bbox.y1 + 1, said
        for (one, first), (other, second) in itertools.combinations(boxes.items(), 2):
            assert not first.overlaps(second), (one, other)


@pytest.mark.parametrize(("hand", "side"), [("right", 1), ("left", -1)])
def test_the_axis_point_is_drawn_on_the_hands_side_of_the_grip(picture, hand, side):
    """Textbook: y up and z toward the viewer put x at the right. A left-hander is the mirror image.

    Fingers are up in both; in the view of the axis point the grip lies on the other side of it.
    """
    picture.show((ball("A", hand=hand),))
    grip, pap = picture.views[:2]
    right, up = grip.marks["PAP"].get_xydata()[0]
    assert right * side > 0.5 and 0 < up < 0.3
    assert pap.marks["PAP"].get_xydata()[0] == pytest.approx([0.0, 0.0], abs=1e-12)
    fingers = [area.vertices.mean(axis=0) for area in grip.holes.get_paths()]
    assert fingers[0][1] > 0.4 and fingers[1][1] > 0.4 and fingers[2][1] < -0.4
    assert fingers[1][0] * side > fingers[0][0] * side  # ring finger nearer to the axis point
    assert all(area.vertices[:, 0].mean() * side < 0 for area in pap.holes.get_paths())


def test_the_val_stands_upright_through_the_axis_point(picture):
    picture.show((ball("A"),))
    across, up = picture.views[1].lines["VAL"].get_data()
    assert across[np.isfinite(across)] == pytest.approx(0.0, abs=1e-9)
    assert np.nanmin(up) < -0.95 and np.nanmax(up) > 0.95


@pytest.mark.parametrize("centre", [GRIP, point(66.7, 6.7), point(-30, 40)])
def test_lines_are_cut_at_the_horizon(centre):
    view = View.toward(centre, "right")
    for opening in (30.0, 70.0, 90.0):
        for axis in (point(50, 20), point(120, -30), point(170, 5), centre):
            ring = circle(axis, opening, 361)
            runs = view.near_runs(ring)
            visible = ring @ centre >= 0
            assert sum(map(len, runs)) >= visible.sum()
            assert bool(runs) == bool(visible.any())
            if visible.all() or not runs:
                continue
            ends = np.array([run[k] for run in runs for k in (0, -1)])
            closed = visible[0] and visible[-1]  # the seam of the ring may lie on the near side
            on_rim = np.isclose(np.linalg.norm(ends, axis=1), 1.0)
            assert on_rim.sum() >= len(ends) - 2 * closed
            assert max(np.linalg.norm(np.vstack(runs), axis=1)) <= 1.0 + 1e-12


def test_hidden_marks_and_holes_are_not_drawn(picture):
    far = HoleOutline("far", circle(point(180, 0), 7, 40))
    half = HoleOutline("half", circle(point(-90, 0), 7, 40))
    picture.show((ball("A", holes=(far, half), pin=point(150, 0)),))
    grip = picture.views[0]
    assert not grip.marks["pin"].get_visible() and not grip.names["pin"].get_visible()
    assert grip.marks["PAP"].get_visible()
    assert len(grip.holes.get_paths()) == 1
    edge = grip.holes.get_paths()[0].vertices
    assert np.linalg.norm(edge, axis=1).max() <= 1.0 + 1e-12
    # half a cap of 7 degrees, seen edge-on: its chord is the rim and only the sagitta shows
    assert np.ptp(edge[:, 1]) == pytest.approx(2 * np.sin(np.radians(7)), rel=0.02)
    assert np.ptp(edge[:, 0]) == pytest.approx(1 - np.cos(np.radians(7)), abs=0.003)


def test_a_ring_over_a_hole_is_said_and_shown(picture):
    picture.show((ball("A", over=(0, 1)), ball("B")))
    assert picture.warnings[0].get_text() == "2 rings run over a hole"
    assert picture.warnings[1].get_text() == ""
    assert picture.views[0].warned.get_segments() and not picture.views[2].warned.get_segments()
    assert "2 of them over a hole" in picture.describe()


def test_artists_are_made_once_and_bytes_repeat(picture):
    picture.show(SCENES["usual"])
    first, before = picture.png(), len(picture.figure.findobj())
    for name in itertools.islice(itertools.cycle(SCENES), 50):
        picture.show(SCENES[name])
        picture.png()
    picture.show(SCENES["usual"])
    assert picture.png() == first
    assert len(picture.figure.findobj()) == before


def test_too_many_balls_are_refused_and_the_last_picture_stays():
    picture = BallPicture(count=1)
    picture.show((ball("A"),))
    before = picture.png()
    with pytest.raises(ValueError, match="room for 1"):
        picture.show((ball("A"), ball("B")))
    assert picture.png() == before


def test_the_words_hold_the_facts():
    """Inches by hand: 27 in around the ball, so 13 1/3 degrees an inch."""
    said = ball(
        "A", pin=point(40 / 1.5, 40), mass_mark=point(-40 / 3, -20), pap=point(200 / 3, 0)
    ).describe()
    for fact in (
        "A (pin up)",
        "right-handed",
        "middle finger, ring finger, thumb",
        "pin 2.00 in over, 3.00 in up",
        "PSA 1.00 in toward the middle finger, 1.50 in down",
        "PAP 5.00 in over",
        "12 oil rings",
        "flare 4.1 in",
    ):
        assert fact in said
    bare = ball("B", hand="left", rings=0, holes=(), caption="").describe()
    assert "Holes: none" in bare and "No oil rings" in bare and "PAP side is at the left" in bare


def test_the_overview_holds_lane_and_balls(tmp_path):
    path = tmp_path / "overview.png"
    overview_png(path, lane(hook("A")), (ball("A"), ball("B")))
    with Image.open(path) as sheet:
        assert sheet.width == 1400 and 950 <= sheet.height <= 1150
        assert "Lane for a right-handed bowler" in sheet.text["Description"]
        assert "12 oil rings" in sheet.text["Description"]


def test_a_ball_scene_refuses_an_unknown_label():
    with pytest.raises(ValueError, match="C"):
        BallScene(**{**vars(ball("A")), "label": "C"})
