"""Bowler files: they come back equal, damage is named, what is there is never lost."""

import json
from pathlib import Path

import pytest

import workbook as wb
from tests.refusals.refusal import BOWLER, SETUP, refused

# Written by hand. Files of this form are out there: it can only be added to.
GOLDEN = (Path(__file__).parent / "bowler_version_1.json").read_text(encoding="utf-8")
GOLD = wb.Bowler(hand="left", pap_over_in=4.5, pap_up_in=-0.25, speed_mph=16.5, rev_rate_rpm=275,
                 axis_rotation_deg=60, axis_tilt_deg=14)  # fmt: skip
OTHER = wb.Bowler(**BOWLER)
PLAIN = json.loads(GOLDEN)


@pytest.fixture
def file(tmp_path):
    return tmp_path / "ann.json"


def test_the_written_form_of_version_1_stays(file):
    GOLD.to_json(file)
    assert file.read_text() == GOLDEN and wb.Bowler.from_json(str(file)) == GOLD


def test_another_bowler_may_take_the_place_of_a_readable_one(file):
    file.write_text(GOLDEN)
    refused(lambda: OTHER.to_json(file, overwrite=False), "ann.json", "there already")
    assert wb.Bowler.from_json(file) == GOLD
    OTHER.to_json(file)
    assert wb.Bowler.from_json(file) == OTHER


@pytest.mark.parametrize(
    ("data", "parts"),
    [("", ("row 1, column 1", "damaged")), (GOLDEN[:90], ("row ", "damaged")),
     (PLAIN | {"version": 2}, ("version 2", "newer than 1", "update")),
     (PLAIN | {"format": "bowling-ball setup"}, ("is no bowler", '"bowling-ball bowler"')),
     (PLAIN | {"speed_mph": 26}, ("ball speed 26 mph is outside 8 to 25 mph",)),
     (PLAIN | {"hand": "both"}, ("hand must be right or left",)),
     (PLAIN | {"size": 1}, ("unknown entry 'size'",)), ([1], ("named values",))],
)  # fmt: skip
def test_damage_is_named_and_never_written_over(file, data, parts):
    text = data if isinstance(data, str) else json.dumps(data)
    file.write_text(text)
    refused(lambda: wb.Bowler.from_json(file), "ann.json", *parts)
    for overwrite in (True, False):
        refused(lambda overwrite=overwrite: OTHER.to_json(file, overwrite=overwrite), "ann.json")
        assert [p.read_text() for p in file.parent.iterdir()] == [text]


def test_a_setup_is_no_bowler_and_the_other_way_round(file):
    wb.Setup(**SETUP).to_json(file)
    before = file.read_bytes()
    refused(lambda: wb.Bowler.from_json(file), "is no bowler", "'bowling-ball setup'")
    refused(lambda: OTHER.to_json(file), "stays as it is, give another name")
    assert file.read_bytes() == before
