"""Colours against published yardsticks for contrast and against models of colour blindness."""

import itertools

import numpy as np
import pytest
from matplotlib.colors import to_rgb

from workbook.draw import style

# Machado, Oliveira, Fernandes, IEEE Trans. Vis. Comput. Graph. 15 (2009), severity 1.0;
# figures from memory
BLINDNESS = {
    "none": np.eye(3),
    "protan": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deutan": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "tritan": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}
GRAPHICS, WORDS = 3.0, 4.5  # published: W3C WCAG 2.1, success criteria 1.4.11 and 1.4.3
CLEARLY_APART = 30.0  # CIELAB distance; common practice, no source: about 2 is just visible


def linear(colour):
    rgb = np.array(to_rgb(colour))
    return np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)


def contrast(one, other):
    """Published: W3C WCAG 2.1, definition of contrast ratio."""
    light, dark = sorted((linear(c) @ (0.2126, 0.7152, 0.0722) for c in (one, other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lab(rgb):
    xyz = (
        np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
        @ rgb
    )
    ratio = xyz / (0.9505, 1.0, 1.089)
    f = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


@pytest.mark.parametrize("kind", BLINDNESS)
def test_the_two_setups_stay_apart_for_colour_blind_eyes(kind):
    a, b = (lab(np.clip(BLINDNESS[kind] @ linear(style.SETUPS[k].colour), 0, 1)) for k in "AB")
    assert np.linalg.norm(a - b) > CLEARLY_APART


def test_the_two_setups_differ_in_grey_in_line_and_in_mark():
    a, b = style.SETUPS["A"], style.SETUPS["B"]
    assert abs(lab(linear(a.colour))[0] - lab(linear(b.colour))[0]) > 20
    assert a.dashes != b.dashes and a.face != style.PAPER and b.face == style.PAPER


@pytest.mark.parametrize(
    ("label", "ground"), list(itertools.product("AB", ["wood", "oil", "ball"]))
)
def test_lines_stand_out_from_the_lane_and_the_ball(label, ground):
    colour = {"wood": style.WOOD, "oil": style.OIL(1.0), "ball": style.BALL}[ground]
    assert contrast(style.SETUPS[label].colour, colour) >= GRAPHICS


@pytest.mark.parametrize(
    ("words", "ground"),
    [
        *itertools.product(
            [style.INK, style.MUTED, style.SETUPS["A"].words, style.SETUPS["B"].words],
            [style.PAPER, style.ROW, style.BALL],
        ),
        (style.SETUPS["A"].words, style.GUTTER),
        (style.SETUPS["B"].words, style.GUTTER),
        (style.WARNING, style.PAPER),
        (style.SETUPS["A"].letter, style.SETUPS["A"].face),
        (style.SETUPS["B"].letter, style.SETUPS["B"].face),
    ],
)
def test_words_can_be_read_on_their_ground(words, ground):
    assert contrast(words, ground) >= WORDS
