"""What the tests of all panels share: strict mode, the ends of a control, words without marks."""

import re
from functools import cache
from html import unescape

import ipywidgets as widgets
import pytest

from workbook.draw.ball_picture import BallPicture
from workbook.draw.curves_picture import CurvesPicture
from workbook.draw.lane_picture import LanePicture
from workbook.draw.map_picture import MapPicture
from workbook.draw.residual_picture import ResidualPicture
from workbook.draw.spec_picture import SpecPicture
from workbook.draw.surface_picture import SurfacePicture
from workbook.panels import ball_reader, bowler_measurer, lay_out, layout_pair, surface_work, watch
from workbook.panels.panel import Panel

PICTURES = {
    layout_pair: (LanePicture, BallPicture),
    ball_reader: (SpecPicture,),
    bowler_measurer: (BallPicture, ResidualPicture),
    lay_out: (BallPicture, MapPicture),
    surface_work: (SurfacePicture,),
    watch: (CurvesPicture,),
}


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


@pytest.fixture(autouse=True, scope="module")
def pictures_made_once():
    """Panels of one module share their pictures: making them takes most of the time of a panel."""
    with pytest.MonkeyPatch.context() as patch:
        for module, kinds in PICTURES.items():
            for kind in kinds:
                patch.setattr(module, kind.__name__, cache(kind))
        yield
