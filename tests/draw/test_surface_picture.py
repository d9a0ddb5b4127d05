"""Friction under a film, and what levers are worth: drawn where the numbers say."""

from dataclasses import replace

import numpy as np
import pytest
from matplotlib.text import Text

from workbook.draw import style
from workbook.draw.surface_picture import SurfacePicture
from workbook.levers import Lever, Swing
from workbook.scenes_surface import FrictionCurve, SurfaceScene

FILMS = np.array([0.0, 1.0, 6.0])
BANDS = {"A": [[0.18, 0.04, 0.02], [0.2, 0.05, 0.03], [0.25, 0.08, 0.05]],
         "B": [[0.11, 0.03, 0.02], [0.12, 0.04, 0.03], [0.13, 0.06, 0.05]]}  # fmt: skip
LEVERS = (
    Lever("surface", "coarse to fine", Swing(5.0, 3.0, 7.5), Swing(8.0)),
    Lever("pin", "here to there", None, Swing(1.0, 0.5, 2.0)),
)  # invented
SCENE = SurfaceScene(
    FILMS,
    tuple(FrictionCurve(label, "a cover", np.array(band)) for label, band in BANDS.items()),
    "A",
    LEVERS,
)


@pytest.fixture
def picture():
    picture = SurfacePicture()
    picture.show(SCENE)
    return picture


def test_lines_and_bands_lie_on_the_numbers(picture):
    for label, (low, best, high) in BANDS.items():
        assert picture.lines[label].get_xydata().tolist() == np.column_stack([FILMS, best]).tolist()
        around = picture.bands[label].get_paths()[0].vertices
        assert around[:, 1].min() == min(low) and around[:, 1].max() == max(high)
        assert picture.words[label].get_text() == f"{label} a cover"
    assert picture.lines["A"].get_linestyle() != picture.lines["B"].get_linestyle()


def test_bars_are_as_long_as_the_swings_with_the_first_on_top(picture):
    top, second = picture.rows - 1, picture.rows - 2
    assert picture.bars[0][top].get_width() == 5.0 and picture.bars[1][top].get_width() == 8.0
    assert list(picture.whiskers[0][top].get_xdata()) == [3.0, 7.5]
    assert len(picture.whiskers[1][top].get_xdata()) == 0  # no band, no thin line
    assert picture.bars[0][second].get_width() == 0 and picture.bars[1][second].get_width() == 1.0
    assert picture.names[top].get_text() == "surface"
    assert "has none" in picture.values[0][second].get_text()
    assert picture.names[0].get_text() == ""


def test_every_bar_and_band_fits_its_axis(picture):
    for end in (3.0, 11.9, 29.0, 55.0):
        wide = Lever("surface", "", Swing(2.0, 1.0, end), Swing(end))
        picture.show(replace(SCENE, levers=(wide,)))
        assert all(axes.get_xlim()[1] >= end for axes in picture.lever_axes)


def test_only_what_moves_is_drawn_again(picture):
    before = picture.png()
    kept = dict(picture._backgrounds)
    picture.show(replace(SCENE, levers=(replace(LEVERS[0], length_ft=Swing(4.0)), LEVERS[1])))
    assert picture.png() != before and picture._backgrounds == kept


def test_words_for_those_who_cannot_see_it(picture):
    said = picture.describe()
    assert "A (a cover): 0.20 on dry boards (0.18 to 0.25)" in said
    assert "surface, coarse to fine: length 5.0 (3.0 to 7.5) ft, hook 8.0 boards" in said
    picture.show(replace(SCENE, levers=()))
    assert "lever" not in picture.describe() and picture.head.get_text() == ""


def test_no_letters_smaller_than_the_small_ones(picture):
    picture.canvas.draw()
    texts = picture.figure.findobj(Text)
    sizes = [text.get_fontsize() for text in texts if text.get_text()]
    assert min(sizes) >= style.SMALL


def test_more_levers_than_rows_are_refused():
    with pytest.raises(ValueError, match="room for 1 levers"):
        SurfacePicture(rows=1).show(SCENE)
