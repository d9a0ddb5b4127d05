"""What the tests of all panels share: strict mode, the ends of a control, words without marks."""

import re
from html import unescape

import ipywidgets as widgets
import pytest

from workbook.panels.panel import Panel


@pytest.fixture(autouse=True)
def strict(monkeypatch):
    """What would only be told in the status line is raised."""
    monkeypatch.setattr(Panel, "strict", True)


def ends(control):
    """Low, high and default of a control."""
    if isinstance(control, widgets.FloatSlider):
        return [control.min, control.max, control.value]
    if isinstance(control, widgets.Checkbox):
        return [True, False]
    values = [one[1] if isinstance(one, tuple) else one for one in control.options]
    return [values[0], values[-1], control.value]


def words(panel, name):
    """A text of the panel without its HTML."""
    return unescape(re.sub("<[^>]+>", " ", panel.texts[name].value))
