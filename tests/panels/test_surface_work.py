"""The panel of surfaces, driven as a reader drives it, in strict mode."""

import contextlib
import io
from dataclasses import replace

import pytest

import workbook as wb
from tests.panels.conftest import ends, words
from workbook import demo
from workbook.panels import surface_work, work_the_surface
from workbook.panels.panel import Panel
from workbook.panels.surface_work import SurfaceWork

DRAWS, LEVER_DRAWS = 8, 4


@pytest.fixture(autouse=True, scope="module")
def few_draws():
    """The bands take most of a panel's time, and are the same code with few draws."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(surface_work, "DRAWS", DRAWS)
        patch.setattr(surface_work, "LEVER_DRAWS", LEVER_DRAWS)
        yield


@pytest.fixture
def held():
    return SurfaceWork(demo.USUAL)


@pytest.fixture(scope="module")
def still():
    """One panel for the tests that change nothing."""
    return SurfaceWork(demo.USUAL)


@pytest.mark.slow
def test_every_control_to_low_high_and_default(held):
    for name, control in held.panel.controls.items():
        for value in ends(control):
            control.value = value
            assert held.panel.status.value == "", (name, value)
            assert held.panel.values == held.panel._shown, name
    held.panel.settle()
    assert held.panel.images["surface"].value[:4] == b"\x89PNG"


def test_it_starts_with_the_demo_and_says_the_grit_and_its_band(still):
    up, down = demo.pin_up_and_down()
    assert (still.a, still.b) == (up, down)
    found, band = wb.match_grit(up, down), wb.match_grit_band(up, down, draws=DRAWS)
    said = words(still.panel, "sentence")
    assert f"B at {round(found.grit, -1):.0f} grit reads where A (pin up, 2000 grit) does" in said
    assert f"between {round(band.low, -1):.0f} and {round(band.high, -1):.0f} grit" in said
    assert "P1500 and P2000" in said


def test_it_says_so_when_no_grit_does_it(held):
    held.panel.set(grit_a="polished")
    assert "No grit from 180 to 5000 brings B there" in words(held.panel, "sentence")
    assert "Between 5000 grit and polish" in words(held.panel, "sentence")
    held.panel.set(style="both hands, no thumb", grit_a="180", cover_b="polyester")
    assert "rougher still" in words(held.panel, "sentence")
    held.panel.set(grit_a="polished", cover_a="polyester", cover_b="reactive")
    assert "Even polished B is earlier" in words(held.panel, "sentence")
    held.panel.settle()
    assert "made equal" not in words(held.panel, "numbers")


def test_wear_moves_both_and_is_called_an_assumption(held):
    assert words(held.panel, "wear") == ""
    held.panel.set(grit_a="500", games=6.0)
    held.panel.settle()
    assert held.a.surface == wb.worn(wb.Surface(grit=500), 6).surface
    assert held.b.surface == wb.worn(wb.Surface(grit=2000), 6).surface
    assert words(held.panel, "wear").count("(assumption)") == 2


def test_levers_follow_when_the_controls_rest_and_only_for_another_a(held):
    before = held.levers
    held.panel.set(grit_b="500")
    held.panel.settle()
    assert held.levers is before
    held.panel.set(pin_a="pin down")
    assert held.levers is before
    held.panel.settle()
    assert held.levers == wb.lever_swings(held.a, draws=LEVER_DRAWS) != before
    assert "surface, 500 grit to polish" in held.panel.pictures["surface"].describe()


@pytest.mark.parametrize("quantity", ["length_ft", "breakpoint_ft"])
def test_the_code_gives_the_same_answer(held, quantity):
    held.panel.set(style="one hand, no thumb", grit_a="500", cover_b="urethane", games=3.0)
    held.panel.set(quantity=quantity)
    held.panel.settle()
    code, names, out = words(held.panel, "code").strip(), {}, io.StringIO()
    assert len(code.splitlines()) <= 8
    with contextlib.redirect_stdout(out):
        exec(code, names)  # the panel's own lines
    assert (names["a"], names["b"]) == (held.a, held.b)
    assert out.getvalue().strip() == repr(held.found.grit)


def test_what_a_cannot_do_is_refused_and_the_last_picture_stays(held, monkeypatch):
    monkeypatch.setattr(Panel, "strict", False)
    hurled = replace(demo.STYLES[demo.USUAL].bowler, speed_mph=25.0, rev_rate_rpm=0.0)
    monkeypatch.setitem(demo.STYLES, "junior", replace(demo.STYLES["junior"], bowler=hurled))
    said = held.panel.texts["sentence"].value
    held.panel.set(cover_a="polyester", grit_a="polished", style="junior")
    assert "length of A is missing on the reference lane" in held.panel.status.value
    assert held.panel.texts["sentence"].value == said


def test_cautions_labels_and_pads_are_on_the_panel(held):
    notes = words(held.panel, "notes")
    for caution in ("sand wet", "respirator", "spin", "qualified", "current rules", "1651"):
        assert caution in notes
    assert "makers' labels" in words(held.panel, "abrasives")
    held.panel.set(grit_b="180")
    held.panel.settle()
    assert "B: 180 grit is rougher than the friction assumptions" in words(held.panel, "notes")


def test_names_for_screen_readers(still):
    names = {(where.split(" ", 1)[1], what): said for where, what, said in still.panel.names.names}
    assert names[".workbook-grit-a .noUi-handle", "aria-label"] == "A: sanded to [grit]"
    assert names["img.workbook-surface", "alt"].startswith("Friction against an oil film")


def test_a_style_that_nobody_has_is_refused():
    with pytest.raises(wb.InputRefused, match="style"):
        work_the_surface("nobody")
