"""The first panel, driven as a reader drives it, in strict mode."""

import io
import re
import threading
import time
from dataclasses import replace
from html import unescape

import pytest
from PIL import Image

import workbook as wb
from tests.panels.conftest import ends
from workbook import demo
from workbook.errors import InputRefused
from workbook.panels import layout_pair, two_layouts
from workbook.panels.layout_pair import LayoutPair
from workbook.panels.panel import Panel
from workbook.panels.record_controls import OWN
from workbook.tables import comparison_rows


@pytest.fixture
def held():
    return LayoutPair(demo.USUAL)


@pytest.fixture(scope="module")
def still():
    """One panel for the tests that say that nothing was changed."""
    return LayoutPair(demo.USUAL)


@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
@pytest.mark.parametrize("style", [
    demo.USUAL, *(pytest.param(style, marks=pytest.mark.slow)
                  for style in demo.STYLES if style != demo.USUAL),
])  # fmt: skip
def test_every_control_to_low_high_and_default(style):
    """Both hands, with and without a thumb hole."""
    panel = two_layouts(style)
    for name, control in panel.controls.items():
        values = ends(control)
        if name == "differential_in":
            values[0] = 0.015  # less than the intermediate is refused: tested below
        if name == "intermediate_in":
            values[1] = 0.05
        for value in values:
            control.value = value
            assert panel.status.value == "", (name, value)
            assert panel.values == panel._shown, name
    panel.settle()
    sizes = {name: Image.open(io.BytesIO(image.value)).size for name, image in panel.images.items()}
    assert sizes == {"lane": (1920, 1080), "balls": (1920, 660)}


def test_moving_a_first_control_changes_picture_and_numbers():
    panel = two_layouts()
    for name in ("pin_b", "distance_a", "drilling_a", "grit_a"):
        pictures = [image.value for image in panel.images.values()]
        text = panel.texts["numbers"].value
        control = panel.controls[name]
        control.value = next(v for v in ends(control) if v != control.value)
        assert panel.texts["numbers"].value != text, name
        assert [image.value for image in panel.images.values()] != pictures, name


def counted(panel):
    """The values that the panel answers from now on."""
    calls, answer = [], panel._answer
    panel._answer = lambda values: calls.append(values) or answer(values)
    return calls


@pytest.mark.parametrize("moves", [
    {"distance_a": 3.0, "drilling_a": 30.0}, {"pin_b": "pin up"}, {"val_a": 40.0},
    {"style": "senior"}, {"speed_mph": 16.0}, {"distance_a": 0.5},
])  # fmt: skip
def test_each_move_is_answered_once(moves):
    panel = two_layouts()
    calls = counted(panel)
    panel._changed()
    assert not calls
    if len(moves) == 1:
        for name, value in moves.items():
            panel.controls[name].value = value
    else:
        panel.set(**moves)
    assert len(calls) == 1
    panel._changed()
    assert len(calls) == 1


def test_the_numbers_are_those_of_the_library():
    panel = two_layouts()
    comparison = wb.compare(*demo.pin_up_and_down(), line=demo.STYLES[demo.USUAL].line)
    for row in comparison_rows(comparison):
        assert all(f">{cell}<" in panel.texts["numbers"].value for cell in row.cells)


def test_the_code_gives_the_same_answer(held):
    held.panel.set(distance_a=3.5, grit_a="500", pin_b="pin up", hand="left", grip="no thumb hole")
    held.panel.settle()
    code = unescape(re.sub("<[^>]+>", "", held.panel.texts["code"].value))
    names = {}
    exec(code, names)  # the panel's own lines
    assert comparison_rows(names["c"]) == comparison_rows(held.comparison)
    assert len(code.splitlines()) <= 8


def test_switch_and_val_slider_follow_each_other():
    panel = two_layouts()
    panel.controls["pin_a"].value = "pin down"
    assert panel.controls["val_a"].value == demo.PIN_DOWN_VAL_DEG
    panel.controls["val_a"].value = 50
    assert panel.controls["pin_a"].value is None
    panel.controls["val_a"].value = demo.PIN_UP_VAL_DEG
    assert panel.controls["pin_a"].value == "pin up"
    panel.controls["distance_a"].value = 0.5  # now the pin lies under the fingers
    assert panel.controls["pin_a"].value is None
    assert "pin down" in panel.pictures["lane"].describe()


def test_the_menu_of_bowlers_says_when_the_release_is_none_of_theirs(held):
    controls = held.panel.controls
    controls["speed_mph"].value = 15.0
    assert controls["style"].value == OWN
    controls["style"].value = "senior"
    assert held.comparison.a.bowler == demo.STYLES["senior"].bowler


def test_taken_apart_b_has_its_own_sliders_from_where_a_stands(held):
    controls = held.panel.controls
    controls["distance_a"].value = 3.0
    assert held.comparison.b.layout.pin_to_pap_in == 3.0
    controls["apart"].value = True
    assert controls["distance_b"].value == 3.0 and controls["distance_b"].layout.display == ""
    controls["distance_b"].value = 5.0
    assert held.comparison.a.layout.pin_to_pap_in == 3.0
    assert held.comparison.b.layout.pin_to_pap_in == 5.0


@pytest.mark.parametrize("style", demo.STYLES)
def test_a_bowler_of_the_clinic_brings_release_grip_and_line(held, style):
    held.panel.controls["style"].value = style
    a = held.comparison.a
    assert a.bowler == demo.STYLES[style].bowler
    assert a.grip.has_thumb == demo.STYLES[style].thumb
    assert held.comparison.line == demo.STYLES[style].line
    assert 16.5 < held.comparison.shot_a.entry_board < 18.5  # near the pocket, as demo promises


def test_saved_and_loaded(held, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    files = held.files
    held.panel.set(distance_a=3.25, grit_a="polished", speed_mph=16.5, grip="no thumb hole")
    saved = held.comparison.a
    files.press("save A")
    assert wb.Setup.from_json("my setup.json") == saved
    files.press("save A")
    assert "is there already" in files.said.value  # and the file is kept
    held.panel.controls["style"].value = "senior"
    files.press("load into B")
    b = held.comparison.b
    assert (b.bowler, b.ball, b.grip) == (saved.bowler, saved.ball, saved.grip)
    assert (b.layout, b.surface) == (saved.layout, saved.surface)
    assert held.comparison.a.bowler == saved.bowler


def test_what_a_file_brings_without_a_control_is_told_and_leaves_with_it(
    held, tmp_path, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    fresh = held.comparison
    odd = replace(
        fresh.a,
        name="my old favourite",
        bowler=replace(fresh.a.bowler, release_phase_deg=90),
        assumptions=replace(fresh.a.assumptions, mu_dry_reactive=0.25),
    )
    odd.to_json("my setup.json")
    held.files.press("load into A")
    held.panel.settle()
    notes = held.panel.texts["notes"].value
    assert "release phase 90 deg" in notes and "dry friction of reactive 0.25" in notes
    assert held.comparison.a == odd
    held.panel.controls["style"].value = "senior"
    held.panel.controls["style"].value = demo.USUAL
    held.panel.controls["grip"].value = "with thumb hole"
    assert held.comparison.a.bowler == fresh.a.bowler
    assert held.comparison.a.assumptions == fresh.a.assumptions


@pytest.mark.parametrize("name", ["", ".", "x" * 300 + ".json", "~nosuchuser/x.json", "no/x.json"])
def test_a_file_name_that_is_none_is_said_so(still, tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    still.files.name.value = name
    for words in ("save A", "load into A"):
        still.files.said.value = ""
        still.files.press(words)
        assert still.files.said.value.startswith('<span role="status">')
        assert "Saved" not in still.files.said.value and "Loaded" not in still.files.said.value
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("text", ["", "{", '{"format": "something else"}'])
def test_a_file_that_cannot_be_loaded_changes_nothing(still, tmp_path, monkeypatch, text):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my setup.json").write_text(text)
    still.files.name.value = "my setup.json"
    before = still.panel.values
    still.files.press("load into A")
    assert "my setup.json" in still.files.said.value
    assert still.panel.values == before


def test_what_stands_between_the_steps_of_a_slider_is_kept(held, tmp_path, monkeypatch):
    """Lab's slider answers with its nearest step, as the two moves here do."""
    monkeypatch.chdir(tmp_path)
    odd = demo.setup(val_angle_deg=27.5, grit=1234, name="between the steps")
    odd = replace(odd, bowler=replace(odd.bowler, pap_over_in=4.8125))
    odd.to_json("my setup.json")
    held.files.press("load into A")
    held.panel.controls["pap_over_in"].value = 4.875
    held.panel.controls["val_a"].value = 30.0
    held.panel.settle()
    assert held.comparison.a == odd and "between the steps" in held.panel.texts["code"].value
    assert "PAP over 4.8125 in" in held.panel.status.value
    held.files.name.value = "again.json"
    held.files.press("save A")
    assert wb.Setup.from_json("again.json") == odd
    held.panel.controls["pap_over_in"].value = 4.75  # as near to the number as the step before
    assert held.comparison.a.bowler.pap_over_in == 4.75
    held.panel.controls["span"].value = 4.0
    assert held.comparison.a.grip == wb.Grip.usual(4.0)


def test_a_setup_that_a_slider_cannot_reach_is_refused_whole(held, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    demo.setup(val_angle_deg=25).to_json("my setup.json")
    held.panel.controls["distance_a"].max = 4.0
    before = held.panel.values
    held.files.press("load into A")
    assert "pin-to-PAP" in held.files.said.value
    assert held.panel.values == before


def test_a_refusal_leaves_the_last_picture_and_says_why(monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    panel = two_layouts()
    pictures = [image.value for image in panel.images.values()]
    panel.controls["intermediate_in"].value = 0.07
    assert "intermediate differential 0.07 in is outside 0 to 0.05 in" in panel.status.value
    assert [image.value for image in panel.images.values()] == pictures
    panel.controls["intermediate_in"].value = 0.015
    assert panel.status.value == ""


def test_a_fault_of_ours_is_told_and_raised_in_strict_mode(monkeypatch):
    def fail(values):
        raise ZeroDivisionError("division by zero")

    panel = two_layouts()
    panel._answer = fail
    with pytest.raises(ZeroDivisionError):
        panel.controls["distance_a"].value = 2.0
    monkeypatch.setattr(Panel, "strict", False)
    panel.controls["distance_a"].value = 2.25
    assert "The workbook itself failed" in panel.status.value


def test_set_moves_all_or_none():
    panel = two_layouts()
    before = panel.values
    with pytest.raises(InputRefused, match="pin-to-PAP"):
        panel.set(drilling_a=60.0, distance_a=9.0)
    assert panel.values == before


@pytest.mark.parametrize(("name", "value", "words"), [
    ("drilling_a", 300, "drilling angle"), ("drilling_a", float("nan"), "finite number"),
    ("speed_mph", "fast", "must be a number"), ("grit_a", "1234", "choices"),
    ("speed", 3, "control"),
])  # fmt: skip
def test_a_value_that_a_control_cannot_take_is_refused(still, name, value, words):
    panel = still.panel
    before = panel.values
    with pytest.raises(InputRefused, match=words):
        panel.set(**{name: value})
    assert panel.values == before


def test_a_style_that_nobody_has_is_refused():
    with pytest.raises(InputRefused, match="style must be"):
        two_layouts("x")


def test_a_fault_at_rest_leaves_the_rest_of_the_work(held, monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    monkeypatch.setattr(layout_pair, "bands", lambda *_args, **_options: 1 / 0)
    held.panel.controls["distance_a"].value = 3.0
    held.panel.settle()
    assert "ZeroDivisionError" in held.panel.status.value
    assert Image.open(io.BytesIO(held.panel.images["balls"].value)).size == (1920, 660)
    assert "wb.Layout(drilling_angle_deg=45.0, pin_to_pap_in=3.0" in held.panel.texts["code"].value


def test_a_move_in_another_thread_is_not_lost():
    """The second answer starts while the first is being worked out; the last values win."""
    panel = two_layouts()
    begun, answer = threading.Event(), panel._answer

    def slow(values):
        begun.set()
        time.sleep(0.05)
        return answer(values)

    panel._answer = slow
    other = threading.Thread(target=lambda: panel.set(distance_a=3.0))
    other.start()
    begun.wait()
    panel.controls["distance_a"].value = 5.0
    other.join()
    assert panel.controls["distance_a"].value == 5.0
    assert panel._shown["distance_a"] == 5.0


def test_names_for_screen_readers():
    panel = two_layouts()
    names = {(selector.split(" ", 1)[1], attribute): text
             for selector, attribute, text in panel.names.names}  # fmt: skip
    assert "pin-to-PAP" in names[".workbook-distance-a .noUi-handle", "aria-label"]
    assert "breakpoint" in names["img.workbook-lane", "alt"]
    assert "Holes: middle, ring, thumb" in names["img.workbook-balls", "alt"]


@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
def test_extreme_setups_are_told_not_hidden(held):
    held.panel.set(laydown_board=5.0, arrow_board=1.0)
    assert "gutter" in held.panel.texts["sentence"].value
    held.panel.set(laydown_board=20.0, arrow_board=20.0, axis_rotation_deg=-20.0, apart=True)
    held.panel.controls["grit_b"].value = "500"
    held.panel.settle()
    assert "backs up" in held.panel.texts["sentence"].value
    held.panel.set(axis_rotation_deg=50.0, apart=False, differential_in=0.07, intermediate_in=0.01)
    held.panel.settle()
    assert "legal limit of 0.06 in" in held.panel.texts["notes"].value
    held.panel.set(differential_in=0.0, intermediate_in=0.0, top_weight_oz=0.0)
    held.panel.settle()
    assert "can hardly matter" in held.panel.texts["notes"].value
