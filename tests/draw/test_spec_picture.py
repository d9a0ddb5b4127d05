"""The picture of a spec sheet: marks at their values, words clear of each other. Balls invented."""

import itertools

import pytest

from workbook.draw.spec_picture import SpecPicture
from workbook.scenes_spec import SpecRow, SpecScene


def scene(*rgs, uniform=2.718, title="ball X: 15 lb, reactive"):
    rows = zip(("undrilled", "pin up", "pin down"), ("", "A", "B"), rgs, strict=True)
    return SpecScene(title, uniform, tuple(SpecRow(*row) for row in rows))


SCENES = {
    "usual": scene((2.5, 2.535, 2.55), (2.499, 2.529, 2.554), (2.505, 2.53, 2.547)),
    "hardly any differential": scene((2.69, 2.7, 2.7), (2.69, 2.695, 2.708), (2.693, 2.697, 2.703)),
    "none": scene((2.4, 2.4, 2.4), (2.396, 2.4, 2.41), (2.399, 2.4, 2.4)),
    "at the limits": scene((2.46, 2.46, 2.52), (2.46, 2.52, 2.52), (2.74, 2.79, 2.8)),
    "beyond the scale": scene((2.90, 2.90, 2.98), (2.89, 2.895, 2.99), (2.36, 2.38, 2.39)),
    "long name": scene((2.5, 2.5, 2.55), (2.5, 2.5, 2.55), (2.5, 2.5, 2.55), title="word " * 80,
                       uniform=2.738),
}  # fmt: skip


@pytest.fixture(scope="module")
def picture():
    return SpecPicture()


def texts(picture):
    renderer = picture.canvas.get_renderer()
    found = [t for t in picture.figure.findobj(lambda a: hasattr(a, "get_text")) if t.get_text()]
    return [(t.get_text(), t.get_window_extent(renderer)) for t in found if t.get_visible()]


@pytest.mark.parametrize("name", SCENES)
def test_words_stay_on_the_picture_and_off_each_other(picture, name):
    picture.show(SCENES[name])
    picture.image()
    said = texts(picture)
    assert len(said) > 30
    for words, box in said:
        assert box.x0 >= 0 and box.x1 <= 100 * picture.width_in and box.y0 >= 0, words
        assert box.y1 <= 100 * picture.height_in, words
    for (one, first), (other, second) in itertools.combinations(said, 2):
        assert not first.overlaps(second), (one, other)


def test_marks_stand_at_their_values(picture):
    picture.show(SCENES["usual"])
    placed = [[mark.get_xdata()[0] for mark in row] for row in picture.rg.marks[1:]]
    assert placed == [[2.5, 2.535, 2.55], [2.499, 2.529, 2.554], [2.505, 2.53, 2.547]]
    # by hand: 2.55 - 2.535 and 2.55 - 2.5
    assert [mark.get_xdata()[0] for mark in picture.differential.marks[0]] == pytest.approx(
        [0.015, 0.05]
    )
    assert picture.rg.marks[0][0].get_xdata()[0] == picture.even.get_xdata()[0] == 2.718
    assert picture.share.get_xdata()[0] == pytest.approx(0.0025)  # 5 % of 0.050, published rule
    numbers = [[text.get_text() for text in row] for row in picture.rg.numbers[1:]]
    assert numbers[2] == ["2.505", "2.530", "2.547"]


def test_what_lies_beyond_the_scale_stands_at_its_end_with_its_own_number(picture):
    picture.show(SCENES["beyond the scale"])
    assert picture.rg.marks[1][2].get_xdata()[0] == 2.90
    assert picture.rg.numbers[1][2].get_text() == "2.980 ›"
    assert picture.rg.numbers[3][0].get_text() == "‹ 2.360"
    assert picture.differential.numbers[0][2].get_text() == "0.080"


def test_artists_are_made_once_and_bytes_repeat(picture):
    picture.show(SCENES["usual"])
    first, before = picture.png(), len(picture.figure.findobj())
    for one in SCENES.values():
        picture.show(one)
        picture.png()
    picture.show(SCENES["usual"])
    assert picture.png() == first and len(picture.figure.findobj()) == before


def test_the_words_hold_the_facts(picture):
    picture.show(SCENES["usual"])
    for fact in ("ball X: 15 lb, reactive", "2.460 to 2.800 in", "2.718 in for every axis",
                 "0.060 in", "Undrilled: RG low 2.500, intermediate 2.535, high 2.550 in",
                 "Pin down", "differential 0.042 in, intermediate 0.017 in"):  # fmt: skip
        assert fact in picture.describe()
