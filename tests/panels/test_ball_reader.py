"""The panel of a ball's spec sheet, driven as a reader drives it, in strict mode."""

import io
from dataclasses import replace
from html import unescape

import pytest
from PIL import Image

import workbook as wb
from tests.panels.conftest import ends, words
from workbook import demo
from workbook.panels import read_the_ball
from workbook.panels.ball_reader import USUAL, BallReader
from workbook.panels.panel import Panel
from workbook.panels.record_controls import OWN

ODD = wb.Ball(
    weight_lb=15.24, rg_low_in=2.4874, differential_in=0.0485, intermediate_in=0.0125,
    top_weight_oz=2.6, pin_to_cg_in=2.9, cover="urethane", circumference_in=26.9,
)  # fmt: skip


@pytest.fixture(autouse=True)
def elsewhere(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def held():
    return BallReader(USUAL)


@pytest.fixture(scope="module")
def still():
    """One panel for the tests that say that nothing was changed."""
    return BallReader(USUAL)


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
def test_every_control_to_low_high_and_default():
    panel = read_the_ball()
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
    assert Image.open(io.BytesIO(panel.images["spec"].value)).size == (1520, 854)


def test_each_ball_of_the_clinic_is_read(held):
    for name, ball in demo.balls().items():
        held.panel.controls["ball"].value = name
        assert held.reading.ball == held.now() == ball
        assert words(held.panel, "sentence").strip().startswith(f"B{name[1:]}:")
        assert held.panel.controls["ball"].value == name


def test_a_moved_slider_makes_it_none_of_them(held):
    before, picture = words(held.panel, "numbers"), held.panel.images["spec"].value
    held.panel.controls["rg_low_in"].value = 2.6
    assert held.panel.controls["ball"].value == OWN
    assert held.reading.ball == replace(demo.ball(), rg_low_in=2.6)
    assert words(held.panel, "numbers") != before and held.panel.images["spec"].value != picture
    held.panel.controls["ball"].value = USUAL
    assert held.reading.ball == demo.ball()


def test_bowlers_of_the_clinic(held):
    for name, style in demo.STYLES.items():
        held.panel.controls["style"].value = name
        assert held.reading.pin_up.bowler == style.bowler
        assert held.reading.pin_up.grip.has_thumb == style.thumb


def test_the_code_gives_the_same_answer(held):
    held.panel.set(style="one hand, no thumb", grit="polished", rg_low_in=2.55, cover="urethane")
    held.panel.settle()
    code = words(held.panel, "code").strip()
    assert len(code.splitlines()) <= 8
    names = {}
    exec(code, names)  # the panel's own lines
    assert names["r"].higher_rg == held.reading.higher_rg
    assert names["r"].greatest_flare == held.reading.greatest_flare


def test_a_refusal_leaves_the_last_picture_and_says_why(monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    panel = read_the_ball()
    picture = panel.images["spec"].value
    panel.controls["intermediate_in"].value = 0.07
    assert "intermediate differential 0.07 in is outside 0 to 0.05 in" in panel.status.value
    assert panel.images["spec"].value == picture
    panel.controls["intermediate_in"].value = 0.015
    assert panel.status.value == ""


def test_saved_and_loaded(held):
    held.panel.set(rg_low_in=2.55, cover="urethane")
    saved = held.now()
    held.files.press("save ball")
    assert wb.read_balls("my balls.csv") == {"my ball": saved}
    held.panel.controls["ball"].value = USUAL
    held.files.press("save ball")
    assert "another ball 'my ball'" in unescape(held.files.said.value)
    assert wb.read_balls("my balls.csv") == {"my ball": saved}
    held.replace.value = True
    held.files.press("save ball")
    assert wb.read_balls("my balls.csv") == {"my ball": demo.ball()}
    assert held.replace.value is False  # each replacing is asked for by itself


def test_a_loaded_table_stands_in_the_menu_to_the_last_digit(held):
    """Lab's slider answers with its nearest step, as the moves here do."""
    wb.write_balls("my balls.csv", {"odd": ODD, "C again": demo.ball()})
    held.files.press("load balls")
    panel = held.panel
    assert panel.controls["ball"].value == "odd (my balls.csv)" and held.reading.ball == ODD
    for name, step in (("rg_low_in", 2.487), ("weight_lb", 15.2), ("differential_in", 0.048)):
        panel.controls[name].value = step
    assert held.reading.ball == ODD
    panel.settle()
    assert "ball circumference 26.9 in" in words(panel, "notes")
    panel.controls["ball"].value = "C again (my balls.csv)"
    assert held.reading.ball == demo.ball()
    held.files.press("load balls")  # once more: nothing twice
    assert list(panel.controls["ball"].options).count("odd (my balls.csv)") == 1


@pytest.mark.parametrize("text", ["", "name;cover", "name,cover\nx,leather\n", None])
def test_a_file_that_cannot_be_loaded_changes_nothing(still, tmp_path, text):
    if text is not None:
        (tmp_path / "my balls.csv").write_text(text)
    before, options = still.panel.values, still.panel.controls["ball"].options
    still.files.press("load balls")
    assert "my balls.csv" in still.files.said.value
    assert still.panel.values == before and still.panel.controls["ball"].options == options


def test_names_for_screen_readers(still):
    still.panel.settle()
    names = {(where.split(" ", 1)[1], what): said for where, what, said in still.panel.names.names}
    assert names[".workbook-rg-low-in .noUi-handle", "aria-label"] == "low RG [in]"
    assert "uniform ball" in names["img.workbook-spec", "alt"]


def test_a_ball_that_nobody_has_is_refused():
    with pytest.raises(wb.InputRefused, match="ball must be"):
        read_the_ball("ball Z")
