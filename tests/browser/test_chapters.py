"""Each chapter's panel once in a real browser: runs when opened, one answer to a move, names."""

import pytest

from tests.browser.conftest import Visit
from tests.browser.test_start_page import ROUNDING_OF_A_SCROLLBAR

pytestmark = pytest.mark.slow
# the chapter, and a slider that moves its first picture
CHAPTERS = {
    "02_read_the_ball.ipynb": "rg-low-in",
    "03_measure_the_bowler.ipynb": "error",
    "04_lay_it_out.ipynb": "pin-to-pap-in",
    "05_watch_it_roll.ipynb": "grit-b",
    "06_surface.ipynb": "grit-b",
}


@pytest.fixture(scope="module", params=CHAPTERS)
def chapter(request, browser, lab):
    """A chapter as it comes up, and the slider."""
    visit = Visit.of(browser, lab.page(request.param))
    yield visit, CHAPTERS[request.param]
    visit.page.close()


def test_it_runs_when_it_is_opened(chapter):
    visit, _slider = chapter
    visit.runs_by_itself()
    visit.rest()
    visit.names_for_screen_readers()
    assert visit.strangers() == []


def test_a_key_gives_one_picture_and_a_sharp_one_and_so_it_does_when_run_again(chapter):
    visit, slider = chapter
    visit.rest()
    for again in (False, True):
        if again:
            visit.page.locator(".jp-CodeCell .jp-InputPlaceholder").first.click()
            visit.page.locator(".jp-CodeCell .cm-content").first.click()
            before = visit.picture
            visit.page.keyboard.press("Control+Enter")
            visit.rest(since=before)
        before, frames = visit.picture, visit.frames
        visit.handle(slider).press("ArrowRight")
        visit.rest(since=before)
        assert visit.frames - frames == 2 and visit.text("status") == ""
    assert visit.page.locator(".workbook-panel").count() == 1


@pytest.mark.parametrize("size", [(1024, 768), (512, 384)])
def test_nothing_sticks_out_of_a_small_window(chapter, size):
    visit, _slider = chapter
    page = visit.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.wait_for_function("(wide) => innerWidth === wide", arg=size[0])
    wide, room = page.locator(".workbook-panel").evaluate("it => [it.scrollWidth, it.clientWidth]")
    assert wide <= room + ROUNDING_OF_A_SCROLLBAR
