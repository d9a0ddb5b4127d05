"""The first page in a real browser: it runs when it is opened and follows the keyboard."""

import re

import pytest

from tests.browser.conftest import Visit

pytestmark = pytest.mark.slow
FIRST = ("pin-a", "pin-b", "distance-a", "drilling-a", "grit-a")
SWITCHES, SLIDERS = FIRST[:2], FIRST[2:]
PIXELS = """(picture) => {
  const canvas = document.createElement("canvas");
  canvas.width = picture.naturalWidth; canvas.height = picture.naturalHeight;
  canvas.getContext("2d").drawImage(picture, 0, 0);
  return canvas.toDataURL();
}"""
PIXEL = 1
ROUNDING_OF_A_SCROLLBAR = 2 * PIXEL


@pytest.fixture(scope="module")
def start(browser, lab):
    """The first page as it comes up, untouched until the tests below move something."""
    visit = Visit.of(browser, lab.address)
    yield visit
    visit.page.close()


@pytest.fixture
def rested(start):
    """The first page with sharp pictures and nothing under way."""
    start.rest()
    return start


def test_the_first_page_runs_when_it_is_opened(start):
    start.runs_by_itself()


def test_opening_a_page_does_not_change_it(start):
    """Lab saves a changed page after a while, outputs and all."""
    start.wait_for_picture()
    start.page.wait_for_selector(".lm-TabBar-tab.lm-mod-current:not(.jp-mod-dirty)")


def test_at_rest_pictures_are_sharp_and_the_sentence_has_bands(rested):
    before = rested.picture
    rested.handle("distance-a").press("ArrowRight")
    rested.rest(since=before)
    assert re.search(r"\(\d+\.\d+( \w+)? to \d+\.\d+( \w+)?\)", rested.text("sentence"))


@pytest.mark.parametrize("name", FIRST)
def test_the_keyboard_alone_moves_a_first_control(rested, name):
    page, picture = rested.page, rested.picture
    numbers, sentence = rested.text("numbers"), rested.text("sentence")
    pixels = page.locator("img.workbook-balls").evaluate(PIXELS)
    if name in SWITCHES:
        rested.focus_other_side(name)
        page.keyboard.press("Space" if name == "pin-a" else "Enter")
    else:
        rested.handle(name).press("ArrowRight")
    rested.rest(since=picture)
    assert rested.text("numbers") != numbers
    assert page.locator("img.workbook-balls").evaluate(PIXELS) != pixels
    # a step of a slider may be too small for the sentence, which rounds to one decimal
    assert name in SLIDERS or rested.text("sentence") != sentence
    assert rested.text("status") == ""


def test_the_tab_key_comes_to_every_first_control(rested):
    page, reached = rested.page, []
    page.locator(".workbook-pin-a button").first.focus()
    while len(reached) < 20 and "grit-a" not in reached:
        reached.append(page.evaluate(
            """(names) => names.find((name) =>
            document.activeElement.matches(`.workbook-${name} :is(button, .noUi-handle)`))""",
            FIRST,
        ))  # fmt: skip
        page.keyboard.press("Tab")
    assert [name for name in dict.fromkeys(reached) if name] == list(FIRST)


def test_running_the_cell_again_leaves_one_answer_to_a_move(rested):
    page = rested.page
    page.locator(".jp-CodeCell .jp-InputPlaceholder").first.click()  # unfolds the code
    page.locator(".jp-CodeCell .cm-content").first.click()
    for _ in range(3):
        before = rested.picture
        page.keyboard.press("Control+Enter")
        rested.rest(since=before)
    assert page.locator(".workbook-panel").count() == 1
    for name in SLIDERS:
        before, frames = rested.picture, rested.frames
        rested.handle(name).press("ArrowLeft")
        # on a busy machine the sharp picture may come long after the plain one
        page.wait_for_function("(count) => firstFrames.length >= count", arg=frames + 2)
        rested.rest(since=before)
        assert rested.frames - frames == 2, "one picture at once and the sharp one"


def test_screen_readers_find_names(rested):
    panel = rested.page.locator(".workbook-panel")
    rested.names_for_screen_readers()
    for name, pressed in (("A is: pin up", "true"), ("A is: pin down", "false")):
        assert panel.get_by_role("button", name=name).get_attribute("aria-pressed") == pressed
    fold = panel.get_by_role("button", name="Bowler")
    assert fold.get_attribute("aria-expanded") == "false"
    grit = panel.locator(".workbook-grit-a .noUi-handle")
    shown = panel.locator(".workbook-grit-a .widget-readout").inner_text()
    assert grit.get_attribute("aria-valuetext") == shown
    assert panel.locator("[aria-live=polite]").inner_text() == rested.text("sentence")


def test_numbers_are_taken_as_people_type_them(rested):
    box = rested.page.locator(".workbook-distance-a .widget-readout")
    before, was = rested.picture, box.inner_text()

    def typed(text):
        box.fill(text)
        box.press("Enter")

    typed("5 1/4 in")
    rested.rest(since=before)
    assert box.inner_text() == "5.250" and rested.text("status") == ""
    for text, told in (("99", "pin-to-PAP 99 in is outside 0 to 6.75 in"), ("far", "is no number")):
        typed(text)
        rested.page.locator(".workbook-status", has_text=told).wait_for()
        assert box.inner_text() == "5.250"
        assert "The slider stays where it is" in rested.text("status")
    typed("5 5/16")  # the page snaps the slider to its step; the number stays
    rested.page.locator(".workbook-status", has_text="pin-to-PAP 5.3125 in").wait_for()
    rested.page.wait_for_timeout(300)
    assert "5.3125" in rested.text("status")
    box.fill("6")
    box.press("Escape")
    assert "6.0" not in box.inner_text()
    before = rested.picture
    typed(was.replace(".", ","))
    rested.rest(since=before)
    assert box.inner_text() == was and rested.text("status") == ""


@pytest.fixture(params=[(1024, 768), (512, 384)], ids=["1024 x 768", "1024 x 768 at 200 %"])
def small(rested, request):
    """A smaller window; zoomed to 200 %, a page has half the pixels each way."""
    wide, high = request.param
    rested.page.set_viewport_size({"width": wide, "height": high})
    rested.page.wait_for_function("(wide) => innerWidth === wide", arg=wide)
    yield rested
    rested.page.set_viewport_size({"width": 1280, "height": 800})


def test_nothing_sticks_out_of_a_small_window(small):
    page = small.page
    wide, room = page.locator(".workbook-panel").evaluate("it => [it.scrollWidth, it.clientWidth]")
    assert wide <= room + ROUNDING_OF_A_SCROLLBAR
    for name in FIRST:
        parts = page.locator(f".workbook-{name} :is(button, .noUi-handle)")
        for part in parts.all():
            part.click(trial=True)  # scrolls it into view and asks whether a click would arrive


def test_the_second_page_runs_when_it_is_opened(browser, lab):
    visit = Visit.of(browser, lab.page("01_two_layouts.ipynb"))
    try:
        visit.runs_by_itself()
        assert visit.strangers() == []
    finally:
        visit.page.close()


def test_nothing_is_asked_of_other_machines(rested):
    """Last, so that it knows what all tests above have caused."""
    assert rested.strangers() == []
