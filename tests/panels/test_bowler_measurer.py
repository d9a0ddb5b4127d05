"""The panel that measures a bowler, driven as a reader drives it, in strict mode."""

from dataclasses import replace
from html import unescape

import ipywidgets as widgets
import pytest

import workbook as wb
from tests.panels.conftest import ends, words
from workbook import demo
from workbook.panels import measure_the_bowler
from workbook.panels.bowler_measurer import BowlerMeasurer
from workbook.panels.panel import Panel
from workbook.panels.record_controls import OWN

TRACK = "-3, 1 3/4\n-2¾; -½\n-2,5, -2,5\n\n-3.125, -4.75 in\n-4, 3 3/4\n-6 1/2, 5 1/4"
POINTS = [(-3, 1.75), (-2.75, -0.5), (-2.5, -2.5), (-3.125, -4.75), (-4, 3.75), (-6.5, 5.25)]


@pytest.fixture(autouse=True)
def elsewhere(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def held():
    return BowlerMeasurer(demo.USUAL)


@pytest.fixture(scope="module")
def one():
    """One panel for the tests that choose all that they look at."""
    return BowlerMeasurer(demo.USUAL)


def test_every_control_to_low_high_and_default(held):
    panel = held.panel
    for name, control in panel.controls.items():
        if isinstance(control, (widgets.Text, widgets.Textarea)):
            continue
        for value in ends(control):
            control.value = value
            assert panel.status.value == "", (name, value)
    panel.settle()
    assert held.reading and panel.status.value == ""


def test_typed_points_are_read_as_the_front_door_reads_them(held):
    panel = held.panel
    panel.set(points=TRACK, error="1/8")
    expected = wb.pap_from_track(POINTS, error_in=1 / 8)
    assert tuple(held.reading.pap) == tuple(expected.pap)
    assert panel.controls["style"].value == OWN and "clinic" not in words(panel, "numbers")
    panel.settle()
    assert "Invented" not in words(panel, "notes")
    lines = words(panel, "code").strip().splitlines()
    names: dict = {}
    exec("\n".join(lines), names)  # the panel's own lines
    assert tuple(names["r"].pap) == pytest.approx(tuple(expected.pap))
    assert names["bowler"] == held.bowler


def test_a_bad_line_is_told_with_its_number_and_the_last_answer_stays(held, monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    panel = held.panel
    picture, sentence = panel.images["ball"].value, panel.texts["sentence"].value
    panel.controls["points"].value = "-3, 1\n\n-3, two\n4, 5"
    assert "line 3: '-3, two' is not two numbers" in unescape(panel.status.value)
    assert (panel.images["ball"].value, panel.texts["sentence"].value) == (picture, sentence)
    assert panel.controls["points"].value == "-3, 1\n\n-3, two\n4, 5"
    panel.controls["points"].value = TRACK
    assert panel.status.value == ""
    for name, text, said in (
        ("time_s", "fast", "time: 'fast' is no number"), ("tape_in", "2", "2 in of tape"),
        ("turns", "", "turns is missing: fill it in"), ("time_s", "1", "4 to 25 mph"),
        ("distance_ft", "10 in", "from the foul line: '10 in' has a unit"),
    ):  # fmt: skip
        before = panel.controls[name].value
        panel.controls[name].value = text
        assert said in unescape(panel.status.value), name
        panel.controls[name].value = before
        assert panel.status.value == ""


@pytest.mark.parametrize("style", demo.STYLES)
def test_each_bowler_of_the_clinic_is_found_again(one, style):
    held, panel = one, one.panel
    panel.controls["style"].value = style
    panel.settle()
    who = demo.STYLES[style]
    assert panel.controls["style"].value == style and held.bowler.hand == who.bowler.hand
    assert held.bowler.speed_mph == pytest.approx(who.bowler.speed_mph, abs=0.1)
    assert held.bowler.rev_rate_rpm == pytest.approx(who.bowler.rev_rate_rpm, rel=0.05)
    assert held.bowler.axis_rotation_deg == pytest.approx(who.bowler.axis_rotation_deg, abs=2)
    notes = words(panel, "notes")
    assert "Invented" in notes and ("agreed point" in notes) == (not who.thumb)
    assert "without an agreed number" in notes and f"{style}" in notes


def test_a_ball_that_flares_shows_another_pap(held):
    before = held.reading.pap_over_in
    held.panel.controls["ball"].value = "ball C, mild"
    assert before - held.reading.pap_over_in > 0.1 and held.panel.controls["style"].value != OWN
    held.panel.controls["points"].value = TRACK
    held.panel.controls["ball"].value = "ball A, for spares"
    assert held.panel.controls["points"].value == TRACK  # one's own points stay


def test_saved_and_loaded(held):
    held.files.press("save")
    assert wb.Bowler.from_json("my bowler.json") == held.bowler
    held.files.press("save")
    assert "there already" in unescape(held.files.said.value)
    lefty = replace(held.bowler, hand="left", rev_rate_rpm=411.0)
    lefty.to_json("my bowler.json")
    held.files.press("load")
    panel = held.panel
    assert panel.controls["hand"].value == "left" and "411" in words(panel, "numbers")
    assert panel.controls["style"].value == "compare with my bowler.json"
    replace(lefty, rev_rate_rpm=422.0).to_json("my bowler.json")
    held.files.press("load")
    assert "422" in words(panel, "numbers")
    assert list(panel.controls["style"].options).count("compare with my bowler.json") == 1


def test_without_revs_there_is_a_pap_but_no_bowler_to_save(held, tmp_path):
    held.panel.set(turns="", frames="")
    held.panel.settle()
    assert "rev rate is missing" in words(held.panel, "notes") and held.bowler is None
    held.files.press("save")
    assert "rev rate is missing" in held.files.said.value and not list(tmp_path.iterdir())


def test_a_damaged_file_changes_nothing(held, tmp_path):
    (tmp_path / "my bowler.json").write_text("{")
    before = held.panel.values
    held.files.press("load")
    assert "damaged" in held.files.said.value and held.panel.values == before


def test_a_bowler_that_nobody_has_is_refused():
    with pytest.raises(wb.InputRefused, match="style must be"):
        measure_the_bowler("nobody")


def test_loading_a_bowler_keeps_what_was_typed(held, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    held.files.press("save")
    mine = "-3, 1 3/4\n-2 3/4, -1/2\n-2 1/2, -2 1/2\n-3 1/8, -4 3/4\n-4, 3 3/4\n-6 1/2, 5 1/4"
    held.panel.set(points=mine, time_s="2.60")
    held.files.press("load")
    assert "Loaded" in held.files.said.value
    values = held.panel.values
    assert values["points"] == mine and values["time_s"] == "2.60"
    assert "my bowler.json" in values["style"]


def test_what_is_still_the_invented_bowlers_is_told_and_can_be_emptied(held):
    held.panel.set(points="-3, 1 3/4\n-2 3/4, -1/2\n-2 1/2, -2 1/2\n-3 1/8, -4 3/4\n-4, 3 3/4")
    held.panel.settle()
    assert "still those of the invented bowler" in held.panel.texts["notes"].value
    held.empty.click()
    held.panel.settle()
    assert "still those" not in held.panel.texts["notes"].value and held.bowler is None


def test_points_of_two_rings_are_called_so_at_once(held):
    held.panel.controls["points"].value += "\n6, 1"
    held.panel.settle()
    assert "do not use this PAP" in held.panel.texts["sentence"].value
    assert "Measure point 10 again first" in held.panel.texts["notes"].value
