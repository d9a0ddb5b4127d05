"""The panel that shows a shot in time, driven as a reader drives it, in strict mode."""

from html import unescape

import numpy as np
import pytest

import workbook as wb
from tests.panels.conftest import ends, words
from workbook import demo
from workbook.panels import watch_it_roll
from workbook.panels.record_controls import OWN
from workbook.panels.watch import WatchItRoll

LINE = demo.STYLES[demo.USUAL].line


@pytest.fixture
def held():
    return WatchItRoll(demo.USUAL)


@pytest.fixture(scope="module")
def still():
    """One panel at rest for the tests that change nothing."""
    held = WatchItRoll(demo.USUAL)
    held.panel.settle()
    return held


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
@pytest.mark.parametrize("style", [
    demo.USUAL, *(pytest.param(style, marks=pytest.mark.slow)
                  for style in ("left-hander", "both hands, no thumb")),
])  # fmt: skip
def test_every_control_to_low_high_and_default(style):
    panel = watch_it_roll(style)
    for name, control in panel.controls.items():
        for value in ends(control):
            control.value = value
            assert panel.status.value == "", (name, value)
            assert panel.values == panel._shown, name
    panel.settle()


def test_it_starts_with_pin_up_against_pin_down(still):
    up, down = demo.pin_up_and_down()
    assert (still.shown.a, still.shown.b) == (up, down)
    assert still.shown.shot_a.entry_board == wb.roll(up, wb.Lane.house(), LINE).entry_board


def test_a_moved_control_moves_the_curves_at_once_and_the_balls_at_rest(held):
    for name, value in (("pin_b", "pin up"), ("grit_a", "500"), ("lane", "heavy"),
                        ("arrow_board_a", 15.0), ("rev_rate_rpm", 400.0)):  # fmt: skip
        curves, sent = held.panel.images["curves"].value, held.rolling.shot
        held.panel.controls[name].value = value
        assert held.panel.images["curves"].value != curves and held.rolling.shot is sent, name
        held.panel.settle()
        assert held.rolling.shot != sent, name


def frames(ball):
    return np.frombuffer(ball["frames"], "<f4").reshape(-1, 12)


def test_the_page_gets_the_shots_that_are_shown(still):
    shots = still.shown.shot_a, still.shown.shot_b
    for ball, shot in zip(still.rolling.shot["balls"], shots, strict=True):
        sent = frames(ball)
        assert sent[0, 0] == 25.0 and sent[-1, 1] == pytest.approx(60.0)
        assert sent[-1, 0] == pytest.approx(shot.entry_board, abs=1e-4)
        assert sent[-1, 9:] == pytest.approx(shot.path.spin_axis[-1], abs=1e-5)
        assert ball["end_s"] == shot.time_s and len(ball["rings"]) == len(shot.rings)
        assert len(ball["ring_s"]) == len(shot.rings) and len(ball["holes"]) == 3


def test_the_film_is_sent_with_the_top_of_the_picture_first(still):
    """High boards are above for a right-hander; the same film, counted alike, for a left-hander."""
    lefty = WatchItRoll("left-hander")
    right, left = (
        np.frombuffer(held.rolling.shot["oil"]["rgba"], np.uint8).reshape(39, -1, 4)
        for held in (still, lefty)
    )
    assert np.array_equal(right, left[::-1]) and len(np.unique(right[:, 0], axis=0)) > 5


def test_each_its_own_line(held):
    panel = held.panel
    box = panel.controls["laydown_board_b"].layout
    assert box.display == "none"
    panel.controls["own"].value = True
    assert box.display == ""  # B's line starts from A's: as yet there is nothing to say of it
    assert "own line" not in words(panel, "sentence")
    panel.set(grit_b="500", laydown_board_b=27.0)
    own = wb.roll(held.shown.b, wb.Lane.house(), wb.Line(laydown_board=27, arrow_board=17))
    assert held.shown.shot_b.entry_board == own.entry_board
    said = words(panel, "sentence")
    assert f"B (27 over 17) comes in on board {own.entry_board:.1f}" in said
    assert "Both on A's line: B rolls" in said
    assert held.same_spot.shot_b.entry_board != own.entry_board
    for on in (False, True):
        panel.controls["own"].value = on
    assert held.shown.shot_b.entry_board == own.entry_board, "put away and shown again"
    panel.settle()
    assert frames(held.rolling.shot["balls"][1])[0, 0] == 27.0
    panel.controls["own"].value = False
    assert held.shown.shot_b.entry_board == held.same_spot.shot_b.entry_board


def test_the_code_gives_the_same_answer(held, capsys):
    held.panel.set(style="one hand, no thumb", grit_b="polished", lane="dry", own=True)
    held.panel.set(laydown_board_b=28.0)
    held.panel.settle()
    names = {}
    exec(words(held.panel, "code").strip(), names)  # the panel's own lines
    assert names["c"].shot_b.entry_board == held.same_spot.shot_b.entry_board
    assert names["own"].entry_board == held.shown.shot_b.entry_board
    assert str(held.shown.shot_b.entry_board) in capsys.readouterr().out


def test_switch_and_menu_say_what_came_out(held):
    held.panel.controls["speed_mph"].value = 15.0
    assert held.panel.controls["style"].value == OWN
    held.panel.controls["pap_over_in"].value = 0.0
    said, pin = held.panel.controls["pin_b"].value, held.shown.b.drilled.pin_side
    assert held.shown.b.layout.val_angle_deg == demo.PIN_DOWN_VAL_DEG
    assert said == (f"pin {pin}" if pin == "down" else None)


def test_a_gutter_ball_is_told(held):
    held.panel.set(own=True)
    held.panel.set(laydown_board_b=5.0, arrow_board_b=1.0)
    held.panel.settle()
    assert "goes into the gutter" in words(held.panel, "sentence")
    assert held.rolling.shot["balls"][1]["gutter"] is True


def test_notes_tell_phases_and_whose_definition_they_are(still):
    shot, said = still.shown.shot_a, unescape(still.panel.texts["notes"].value)
    assert f"A: skid to {shot.length_ft:.1f} ft, hook to {shot.roll_ft:.1f} ft" in said
    assert "our definitions, no standard's" in said


def test_a_bowler_that_nobody_knows_is_refused():
    with pytest.raises(wb.InputRefused, match="style must be"):
        watch_it_roll("nobody")
