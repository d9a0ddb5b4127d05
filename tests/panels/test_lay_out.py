"""The panel that lays out one ball, driven as a reader drives it, in strict mode."""

import ipywidgets as widgets
import pytest

import workbook as wb
from tests.panels.conftest import ends, words
from workbook import demo
from workbook.errors import InputRefused
from workbook.panels import lay_it_out
from workbook.panels.lay_out import LayOut
from workbook.panels.panel import Panel
from workbook.panels.record_controls import OWN


@pytest.fixture
def held():
    return LayOut(demo.USUAL)


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
def test_every_control_to_low_high_and_default(held):
    panel = held.panel
    for name, control in panel.controls.items():
        if isinstance(control, widgets.Text):
            continue
        values = ends(control)
        # beyond what a grip or a ball can be; refused in words, tested below
        values = [v for v in values if _possible(name, v)]
        for value in values:
            control.value = value
            assert panel.status.value == "", (name, value)
            assert held.setup.layout.pin_to_pap_in == panel.values["pin_to_pap_in"]
    panel.settle()
    assert panel.status.value == ""


def _possible(name, value):
    tight = {
        "differential_in": value >= 0.015, "intermediate_in": value <= 0.05,
        "middle_span": 3.5 <= value <= 5.5, "ring_span": 3.5 <= value <= 5.5,
        "finger_bore": value > 0.75, "finger_inner": value < 0.96,
        "thumb_hole": value < 1.375, "thumb_slug": value > 1.0,
    } if isinstance(value, float) else {}  # fmt: skip
    return tight.get(name, True)


def test_what_no_grip_can_be_is_refused_and_the_last_answer_stays(held, monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    before = held.panel.texts["holes"].value
    held.panel.controls["finger_inner"].value = 1.25
    assert "hole inside the insert 1.25 in is outside" in held.panel.status.value
    assert held.panel.texts["holes"].value == before
    held.panel.controls["inserts"].value = False
    assert held.panel.status.value == "" and held.panel.texts["holes"].value != before


def test_the_tables_are_those_of_the_library(held):
    effects = wb.hole_effects(held.setup)
    assert f"{effects.shares['differential_in'][2]:+.4f}" in words(held.panel, "holes")
    assert f"{held.setup.drilled.marks.pin_in[0]:.2f}" in words(held.panel, "marks")
    assert "could be" in words(held.panel, "holes")  # the bands have come


def test_the_code_gives_the_same_ball(held, capsys):
    held.panel.set(middle_span=4.0, thumb_forward=0.25, slug=False, scale_oz=1.25, hand="left")
    held.panel.settle()
    names = {}
    exec(held.panel.texts["code"].value.partition(">")[2].partition("<")[0].replace("&#x27;", "'"),
         names)  # fmt: skip
    assert names["a"] == held.setup
    assert f"{held.setup.drilled.differential_in:.4f}" in capsys.readouterr().out


def test_switch_menu_and_sliders_say_what_came_out(held):
    controls = held.panel.controls
    controls["pin"].value = "pin down"
    assert controls["val_angle_deg"].value == 75 and held.setup.drilled.pin_side == "down"
    controls["val_angle_deg"].value = 40
    assert controls["pin"].value is None
    controls["speed_mph"].value = 15
    assert controls["style"].value == OWN
    controls["style"].value = "one hand, no thumb"
    assert not held.setup.grip.has_thumb and controls["thumb"].value is False
    assert held.setup.bowler == demo.STYLES["one hand, no thumb"].bowler


def test_maps_follow_the_pin_at_once_and_the_rest_when_it_rests(held):
    panel = held.panel
    before = panel.images["maps"].value
    panel.controls["val_angle_deg"].value = 60
    assert panel.images["maps"].value != before
    drawn = panel.images["maps"].value
    panel.controls["drilling_angle_deg"].value = 90
    assert panel.images["maps"].value == drawn
    panel.settle()
    assert panel.images["maps"].value != drawn
    assert f"{held.setup.drilled.differential_in:.3f} in" in panel.pictures["maps"].describe()


def test_measured_marks_give_the_layout_back(held):
    marks = held.setup.drilled.marks
    typed = {"pin_over": marks.pin_in[0], "pin_up": marks.pin_in[1],
             "mark_over": marks.psa_in[0], "mark_up": marks.psa_in[1]}  # fmt: skip
    held.panel.set(**{name: f"{value:.2f}" for name, value in typed.items()})
    assert "drilling angle 45.0°, pin to PAP 4.50 in, VAL angle 25.0°" in words(held.panel, "back")
    held.panel.set(pin_over="1 7/8", mark_up="-2½")
    assert "Layout: drilling angle" in words(held.panel, "back")
    for text in ("", "two", "99"):
        held.panel.controls["pin_over"].value = text
        assert "pin over" in words(held.panel, "back") and held.panel.status.value == ""


def test_saved_and_loaded(held, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    hole = wb.Hole(over_in=0.5, up_in=2.5, diameter_in=1, depth_in=2)
    odd = demo.setup(val_angle_deg=27.3, name="odd")
    odd = wb.Setup(odd.bowler, odd.ball, odd.layout, wb.Grip((hole,)), wb.Surface(grit=1234), "odd",
                   wb.Assumptions(kappa=0.8))  # fmt: skip
    odd.to_json("odd.json")
    held.files.name.value = "odd.json"
    held.files.press("load")
    assert held.setup.layout.val_angle_deg == 27.3 and held.setup.grip == odd.grip
    assert held.setup.surface == odd.surface and held.setup.assumptions.kappa == pytest.approx(0.8)
    held.panel.controls["val_angle_deg"].value = 25.0  # the nearest step, as Lab answers
    assert held.setup.layout.val_angle_deg == 27.3
    held.files.name.value = "again.json"
    held.files.press("save")
    assert wb.Setup.from_json("again.json").grip == odd.grip
    held.panel.controls["middle_span"].value = 4.0
    assert held.setup.grip != odd.grip
    held.files.name.value = "none.json"
    held.files.press("load")
    assert "none.json" in held.files.said.value


def test_a_style_that_nobody_has_is_refused():
    with pytest.raises(InputRefused, match="style"):
        lay_it_out("nobody")


def test_a_file_that_differs_in_its_grip_alone_is_taken(held, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    held.panel.set(middle_span=4.75, ring_span=4.875)
    long = held.setup.grip
    held.files.name.value = "long.json"
    held.files.press("save")
    held.panel.set(middle_span=3.5, ring_span=3.5)
    held.files.press("load")
    assert held.setup.grip == long and "4.750" in words(held.panel, "marks")
    held.panel.settle()
    assert "The grip is the file's" in words(held.panel, "notes")
    held.panel.controls["val_angle_deg"].value = 40
    assert held.setup.grip == long


def test_a_scale_at_the_end_of_its_range_and_a_chosen_bowler(held):
    odd = demo.setup(val_angle_deg=25)
    odd = wb.Setup(
        wb.Bowler(**{**vars(odd.bowler), "pap_over_in": 4.8}), odd.ball, odd.layout, odd.grip,
        odd.surface, "odd", wb.Assumptions(kappa=0.53),
    )  # fmt: skip
    held.load(odd)
    assert held.setup.assumptions.kappa == pytest.approx(0.53)
    held.panel.controls["style"].value = "left-hander"
    assert held.setup.bowler == demo.STYLES["left-hander"].bowler


def test_a_refused_move_changes_nothing_behind_the_controls(held):
    hole = wb.Hole(over_in=0.5, up_in=2.5, diameter_in=1, depth_in=2)
    base = held.setup
    held.load(wb.Setup(base.bowler, base.ball, base.layout, wb.Grip((hole,)), base.surface, "one"))
    with pytest.raises(InputRefused, match="bridge"):
        held.panel.set(thumb=not held.panel.values["thumb"], bridge=99)
    held.panel.controls["val_angle_deg"].value = 50
    assert held.setup.grip.holes == (hole,)
