"""The panel's benchmark moves what it says and its answers are right; no time is asserted."""

import io
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

import workbook as wb
from workbook import demo
from workbook.tables import comparison_rows

sys.path.insert(0, str(Path(__file__).parent))
import panel_speed

TWENTIETH_OF_A_GREY_LEVEL = 0.05  # on the average over a picture; a missing word is more

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def measured():
    return panel_speed.kernel_part(moves=3, rounds=1)


def test_every_move_gives_other_pictures_and_numbers(measured):
    _, held = measured
    panel = held.panel
    for name, values in panel_speed.MOVES.items():
        for value in panel_speed.forth_and_back(values, len(values) + 2):
            before = [panel.images["balls"].value, panel.texts["numbers"].value, value]
            same = panel.controls[name].value == value
            panel_speed.move(panel, name, value)
            after = [panel.images["balls"].value, panel.texts["numbers"].value, value]
            assert same or (before[0] != after[0] and before[1] != after[1]), (name, value)


def test_the_numbers_at_the_end_are_those_of_the_library(measured):
    panel = measured[1].panel
    panel.set(distance_a=3.0, drilling_a=70.0, grit_a="500")
    panel.settle()
    a, b = (
        replace(
            setup,
            layout=replace(setup.layout, pin_to_pap_in=3.0, drilling_angle_deg=70.0),
            surface=wb.Surface(grit=500),
        )
        for setup in demo.pin_up_and_down()
    )
    comparison = wb.compare(a, b, wb.Lane.house(), demo.STYLES[demo.USUAL].line)
    for row in comparison_rows(comparison):
        assert all(f">{cell}<" in panel.texts["numbers"].value for cell in row.cells), row
    sizes = [Image.open(io.BytesIO(image.value)).size for image in panel.images.values()]
    assert sizes == [(1920, 1080), (1920, 660)]


def test_what_is_compared_is_the_same_picture(measured):
    """Drawn anew by matplotlib and saved, or kept and only moved."""
    held = measured[1]
    for name, (_, anew) in panel_speed.drawn_anew(held).items():
        kept = np.asarray(held.panel.pictures[name].image(1), dtype=float)
        new = np.asarray(Image.open(io.BytesIO(anew)).convert("RGB"), dtype=float)
        assert np.abs(kept - new).mean() < TWENTIETH_OF_A_GREY_LEVEL


def test_the_table_has_a_line_for_each_control_and_way(measured):
    table, _ = measured
    assert len(table) == 2 * len(panel_speed.MOVES) + 2
    assert all(time > 0 for took in table for time in took.times)
    assert "25 median" in str(table[0])


def test_each_chapter_has_its_lines():
    table = panel_speed.chapters_part(moves=2, rounds=1)
    assert len(table) == 2 * len(panel_speed.CHAPTERS)
    assert all(time > 0 for took in table for time in took.times)
