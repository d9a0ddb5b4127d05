"""The shot in time in a real browser: plays, stops, follows the slider, rests when out of sight."""

import re

import numpy as np
import pytest

import workbook as wb
from tests.browser.conftest import Visit
from workbook import demo

pytestmark = pytest.mark.slow
# Each frame copies the still part of the lane once.
COUNT = """() => {
  const pen = CanvasRenderingContext2D.prototype, draw = pen.drawImage;
  window.frames_drawn = 0;
  pen.drawImage = function (...given) { frames_drawn += 1; return draw.apply(this, given); };
}"""
MOVE = """(slider, time) => {
  slider.value = time;
  slider.dispatchEvent(new Event("input"));
}"""

HIDE = """(hidden) => {
  Object.defineProperty(document, "hidden", { configurable: true, get: () => hidden });
  document.dispatchEvent(new Event("visibilitychange"));
}"""
MEGABYTE = 2**20


@pytest.fixture(scope="module")
def page(browser, lab):
    visit = Visit.of(browser, lab.page("05_watch_it_roll.ipynb"))
    visit.runs_by_itself()
    visit.rest()
    page = visit.page
    page.evaluate(COUNT)
    yield page
    assert visit.strangers() == []
    page.close()


@pytest.fixture
def view(page):
    """The view from above and beside, in sight, paused at the start."""
    view = page.locator(".workbook-rolling")
    view.scroll_into_view_if_needed()
    view.locator("input").evaluate(MOVE, 0.0)
    return view


def drawn(page, pause_ms=400):
    """Frames drawn during a pause."""
    before = page.evaluate("frames_drawn")
    page.wait_for_timeout(pause_ms)
    return page.evaluate("frames_drawn") - before


def test_it_draws_while_it_plays_and_not_after_the_end(page, view):
    assert drawn(page) == 0
    view.locator("select").select_option("1")
    view.get_by_role("button", name="Play").click()
    assert drawn(page) > 2
    view.get_by_role("button", name="Play").wait_for()  # it says Pause until the end
    assert drawn(page) == 0
    assert all("at the pins" in text for text in view.locator("p").all_inner_texts())
    view.get_by_role("button", name="Play").click()  # from the start again
    assert float(view.locator("input").input_value()) < 1.0


def test_pause_and_out_of_sight_draw_nothing(page, view):
    view.locator("select").select_option("0.125")
    view.get_by_role("button", name="Play").click()
    assert drawn(page) > 2
    page.locator(".jp-Cell").last.scroll_into_view_if_needed()
    page.wait_for_timeout(300)
    assert drawn(page) == 0
    view.scroll_into_view_if_needed()
    page.wait_for_timeout(300)
    assert drawn(page) > 2
    view.get_by_role("button", name="Pause").click()
    assert drawn(page) == 0


def test_a_window_that_nobody_sees_draws_nothing(page, view):
    view.locator("select").select_option("0.125")
    view.get_by_role("button", name="Play").click()
    assert drawn(page) > 2
    page.evaluate(HIDE, True)
    at = view.locator("input").input_value()
    assert drawn(page) == 0
    page.evaluate(HIDE, False)
    assert drawn(page) > 2
    gone = float(view.locator("input").input_value()) - float(at)
    assert gone < 0.4, "the shot waited, as the page did"
    view.get_by_role("button", name="Pause").click()


def test_playing_and_new_shots_keep_no_memory(page, view):
    asked = page.context.new_cdp_session(page)

    def kept():
        asked.send("HeapProfiler.collectGarbage")
        return asked.send("Runtime.getHeapUsage")["usedSize"]

    def play_and_change():
        view.locator("select").select_option("1")
        view.locator("input").evaluate(MOVE, 0.0)
        view.get_by_role("button", name="Play").click()
        for key in ("ArrowLeft", "ArrowRight"):
            view.scroll_into_view_if_needed()
            page.locator(".workbook-grit-b .noUi-handle").press(key)
            page.wait_for_timeout(300)
        view.get_by_role("button", name="Play").wait_for()

    play_and_change()  # what is made once is there afterwards
    before = kept()
    for _ in range(4):
        play_and_change()
    assert kept() - before < 2 * MEGABYTE


def test_the_readings_are_those_of_the_shot_at_that_time(page, view):
    view.locator("input").evaluate(MOVE, 2.0)
    style = demo.STYLES[demo.USUAL]
    shots = [wb.roll(s, wb.Lane.house(), style.line) for s in demo.pin_up_and_down()]
    for text, shot in zip(view.locator("p").all_inner_texts(), shots, strict=True):
        path = shot.path
        found = re.fullmatch(
            r"2\.00 s: hook\nboard (\S+)\n(\S+) ft\n(\S+) mph\n(\S+) rpm\n(\S+) turns, "
            r"10 oil rings", text.strip(),
        )  # fmt: skip
        assert found, text
        for said, name, least in zip(found.groups(), (path.board, path.distance_ft, path.speed_mph,
                                                      path.rev_rate_rpm),
                                     (0.1, 0.1, 0.1, 2.0), strict=False):  # fmt: skip
            assert float(said) == pytest.approx(np.interp(2.0, path.time_s, name), abs=least)


def test_the_keyboard_plays_and_moves_the_time(page, view):
    view.get_by_role("button", name="Play").focus()
    page.keyboard.press("Space")
    assert drawn(page) > 2
    page.keyboard.press("Space")
    slider = view.get_by_role("slider", name="time since release [s]")
    before = float(slider.input_value())
    slider.focus()
    page.keyboard.press("ArrowRight")
    assert float(slider.input_value()) > before
    assert slider.get_attribute("aria-valuetext").endswith(" s")


def test_a_new_shot_takes_the_place_of_the_old(page, view):
    label = view.locator(".workbook-rolling-lane").get_attribute("aria-label")
    page.locator(".workbook-grit-b .noUi-handle").press("ArrowLeft")
    page.wait_for_function(
        """(old) => document.querySelector(".workbook-rolling-lane").ariaLabel !== old""", arg=label
    )
    assert "1500 grit" in view.inner_text()
