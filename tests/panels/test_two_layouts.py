"""The first panel, driven as a reader drives it, in strict mode."""

import io

import ipywidgets as widgets
import pytest
from PIL import Image

from workbook import demo
from workbook.comparison import compare
from workbook.errors import InputRefused
from workbook.panels import two_layouts
from workbook.panels.panel import Panel
from workbook.tables import comparison_rows, shown


@pytest.fixture(autouse=True)
def strict(monkeypatch):
    monkeypatch.setattr(Panel, "strict", True)


def ends(control):
    """Low, high and default of a control."""
    if isinstance(control, widgets.FloatSlider):
        return [control.min, control.max, control.value]
    labels = [label if isinstance(label, str) else label[1] for label in control.options]
    return [labels[0], labels[-1], control.value]


def test_every_control_to_low_high_and_default():
    panel = two_layouts()
    for control in panel.controls.values():
        for value in ends(control):
            before = dict(panel.values)
            control.value = value
            assert panel.status.value == ""
            assert panel.values == panel._shown or before == panel.values
    for image in panel.images.values():
        assert Image.open(io.BytesIO(image.value)).size[0] == 960


def test_moving_a_control_changes_picture_and_numbers():
    panel = two_layouts()
    for name in ("pin_b", "distance_a", "drilling_b", "grit_a"):
        pictures = [image.value for image in panel.images.values()]
        text = panel.texts["numbers"].value
        control = panel.controls[name]
        control.value = next(v for v in ends(control) if v != control.value)
        assert panel.texts["numbers"].value != text, name
        assert [image.value for image in panel.images.values()] != pictures, name


def test_the_same_values_are_not_answered_twice():
    calls = []
    panel = two_layouts()
    answer = panel._answer
    panel._answer = lambda values: calls.append(values) or answer(values)
    panel._changed()
    assert not calls
    panel.set(distance_a=3.0, distance_b=3.0)
    assert len(calls) == 1


def test_the_numbers_are_those_of_the_library():
    panel = two_layouts()
    for row in comparison_rows(compare(*demo.pin_up_and_down())):
        assert f">{shown(row.b, row.digits)}<" in panel.texts["numbers"].value


def test_a_refusal_leaves_the_last_picture_and_says_why(monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    panel = two_layouts()
    pictures = [image.value for image in panel.images.values()]

    def refuse(values):
        raise InputRefused("ball speed 30 mph is outside 8 to 25 mph.")

    good, panel._answer = panel._answer, refuse
    panel.controls["distance_a"].value = 2.0
    assert "ball speed 30 mph is outside" in panel.status.value
    assert [image.value for image in panel.images.values()] == pictures
    panel._answer = good
    panel.controls["distance_a"].value = 2.25
    assert panel.status.value == ""
    assert [image.value for image in panel.images.values()] != pictures


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
