"""What is said of equal grits: every outcome has its sentence, with its own numbers."""

from dataclasses import replace

import pytest

from workbook import demo
from workbook.equal_grit import EqualGrit, Leap
from workbook.equal_grit_band import GritBand
from workbook.surface_words import equal_sentence

UP, _DOWN = demo.pin_up_and_down()
FOUND = EqualGrit("length_ft", 1234.0, 45.0, 45.01, 30.0, 48.0, 46.0, 49.0)  # invented
NONE = replace(FOUND, grit=None, found_ft=None)


@pytest.mark.parametrize(
    ("found", "band", "words"),
    [
        (FOUND, None, "B at 1230 grit reads where A (pin up, 2000 grit) does: length 45.0 ft"),
        (FOUND, None, "As it is, B reads 46.0 ft. Nearest in the table: P1200 and P1500."),
        (
            FOUND,
            GritBand(64, 800.0, 2000.0, 0),
            "In four of five tries it lies between 800 and 2000 grit",
        ),
        (FOUND, GritBand(64, None, 2000.0, 9), "between something rougher than 180 and 2000 grit"),
        (FOUND, GritBand(64, 800.0, None, 9), "between 800 and something finer than 5000 grit"),
        (FOUND, GritBand(64, None, None, 64), "leaves any grit open"),
        (replace(FOUND, others=(300.0,)), None, "So does 300 grit."),
        (replace(FOUND, quantity="breakpoint_ft"), None, "breakpoint 45.0 ft on the house lane"),
        (replace(FOUND, grit=2000.0), None, "Nearest in the table: P2000."),
        (replace(NONE, leap=Leap(250.0, 44.0, 46.5)), None, "leaps from 44.0 to 46.5 ft"),
        (replace(NONE, most_ft=44.0), None, "it goes from 30.0 to 44.0 ft, polished 49.0 ft"),
        (replace(NONE, most_ft=44.0), None, "Between 5000 grit and polish"),
        (replace(NONE, most_ft=44.0, polished_ft=44.5), None, "Even polished B is earlier"),
        (replace(NONE, least_ft=46.0), None, "rougher still"),
        (replace(NONE, least_ft=None, most_ft=None), None, "B has none at any grit"),
    ],
)
def test_each_outcome_is_said(found, band, words):
    assert words in equal_sentence(UP, found, band)
