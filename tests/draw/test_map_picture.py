"""The maps over the place of the pin."""

from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from tests.conftest import SETUP, changed
from workbook.draw.map_picture import MapPicture
from workbook.pin_places import pin_map
from workbook.rating import REFERENCE, STRAIGHT
from workbook.staging import pin_map_scene

FLAT = changed(grip=wb.Grip(), differential_in=0.0, intermediate_in=0.0)


def scene(setup):
    shot = wb.roll(setup, REFERENCE, STRAIGHT, gutters=False)
    return pin_map_scene(setup, pin_map(setup), shot)


@pytest.fixture(scope="module")
def picture():
    return MapPicture()


def dot(picture):
    return np.array(picture.pins[0].get_xydata()[0])


def test_moving_the_pin_keeps_the_maps(picture):
    picture.show(scene(SETUP))
    drawn, before = list(picture.drawn), dot(picture)
    picture.show(scene(replace(SETUP, layout=replace(SETUP.layout, val_angle_deg=80))))
    assert picture.drawn == drawn and np.linalg.norm(dot(picture) - before) > 0.2
    picture.show(scene(changed(rg_low_in=2.55)))
    assert not set(map(id, picture.drawn)) & set(map(id, drawn))
    axes = picture.maps[0]
    kept = len(axes.collections) + len(axes.patches) + len(axes.texts) + len(axes.lines)
    for rg in (2.47, 2.6):
        picture.show(scene(changed(rg_low_in=rg)))
    assert len(axes.collections) + len(axes.patches) + len(axes.texts) + len(axes.lines) <= kept + 9


def test_a_left_hander_sees_the_mirror_image(picture):
    picture.show(scene(SETUP))
    right = dot(picture)
    picture.show(scene(changed(hand="left")))
    assert dot(picture) == pytest.approx(right * (-1, 1))


def test_the_words_are_those_of_the_ball(picture):
    picture.show(scene(SETUP))
    d = SETUP.drilled
    assert f"differential {d.differential_in:.3f} in" in picture.heads[0].get_text()
    assert f"here {d.intermediate_in:.3f} in" in picture.describe()
    assert "Static imbalance above 3 oz at no place" in picture.describe()


def test_limits_are_drawn_where_places_pass_them(picture):
    picture.show(scene(changed(top_weight_oz=5.0, differential_in=0.058)))
    assert "Hatched" in picture.foot.get_text() and "Dashed" in picture.foot.get_text()
    picture.show(scene(changed(weight_lb=9, top_weight_oz=5.0, differential_in=0.03)))
    assert "Hatched" not in picture.foot.get_text() and "Dashed" not in picture.foot.get_text()


@pytest.mark.filterwarnings("error")
def test_a_ball_that_is_the_same_everywhere(picture):
    picture.show(scene(FLAT))
    assert len(picture.png()) > 1000
    assert "Flare from 0.0 to 0.0 in" in picture.describe()


def test_another_number_of_maps_is_refused(picture):
    few = replace(scene(SETUP), layers=())
    with pytest.raises(ValueError, match="room for 3 maps"):
        MapPicture().show(few)
