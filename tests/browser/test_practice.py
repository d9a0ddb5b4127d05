"""Exercises in a real browser: a student answers by keyboard and mouse, and sees what is kept."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Visit
from tests.browser.test_start_page import ROUNDING_OF_A_SCROLLBAR
from workbook.practice.catalogue import catalogue

pytestmark = pytest.mark.slow
CHAPTER = "00_start_here"
EXERCISES = [one for one in catalogue().values() if one.chapter == CHAPTER]
MENU, ANSWER = ".workbook-card-menu select", ".workbook-card-answer"
FOCUSED = "(document.activeElement.closest('label') ?? document.activeElement).innerText.trim()"
SIZES = [(1400, 900), (1024, 768), (512, 384)]


@pytest.fixture(scope="module")
def visit(browser, lab):
    visit = Visit.of(browser, lab.page(f"{CHAPTER}.ipynb"))
    visit.runs_by_itself()
    yield visit
    visit.page.close()


def choose(page, kind):
    """Choose the first exercise of a kind with the keyboard."""
    place = next(place for place, one in enumerate(EXERCISES) if one.kind == kind)
    menu = page.locator(MENU)
    menu.focus()
    page.keyboard.press("Home")
    for _step in range(place):
        page.keyboard.press("ArrowDown")
    title = page.locator(".workbook-card-head h3")
    expect(title).to_have_text(EXERCISES[place].title)
    return EXERCISES[place]


def press(page, button, by):
    """Press a button of the card."""
    found = page.locator(f"button.workbook-card-{button}")
    if by == "mouse":
        found.click()
    else:
        found.focus()
        page.keyboard.press("Enter" if by == "Enter" else "Space")


def tab_to(page, words):
    """Go forward with the Tab key to a button or a radio button with these words."""
    for _step in range(10):
        if page.evaluate(FOCUSED) == words:
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"the Tab key does not come to {words}")


def says(page, text, words):
    expect(page.locator(f".workbook-card-{text}")).to_contain_text(words)


def test_a_choice_by_mouse_and_by_keyboard(visit):
    page, one = visit.page, choose(visit.page, "choice")
    wrong = next(choice for choice in one.choices if not choice.right)
    right = next(choice for choice in one.choices if choice.right)
    press(page, "check", "mouse")
    says(page, "outcome", "Not attempted.")
    page.locator(ANSWER).get_by_text(wrong.text, exact=True).click()
    press(page, "check", "mouse")
    says(page, "outcome", "Not yet.")
    page.locator(MENU).focus()
    page.keyboard.press("Tab")  # into the group, which is one stop
    assert page.evaluate(FOCUSED) == wrong.text
    for _step in one.choices:
        if page.evaluate(FOCUSED) != right.text:
            page.keyboard.press("ArrowDown")
    assert page.evaluate(FOCUSED) == right.text
    tab_to(page, "Check")
    page.keyboard.press("Space")
    says(page, "outcome", "Correct.")
    says(page, "explanation", "Why.")
    expect(page.locator(f"{MENU} option:checked")).to_contain_text("; done)")


def test_a_number_hints_and_show(visit):
    page, _one = visit.page, choose(visit.page, "number")
    page.locator(f"{ANSWER} input").focus()
    page.keyboard.type("a lot")
    page.keyboard.press("Enter")
    says(page, "outcome", "Cannot check:")
    page.keyboard.press("Control+a")
    page.keyboard.type("-987654")
    page.keyboard.press("Enter")
    says(page, "outcome", "Not yet. Too small.")
    for count, by in enumerate(("mouse", "Space", "Enter"), 1):
        press(page, "hint", by)
        says(page, "hints", f"Hints, {count} of 3")
    press(page, "show", "Enter")
    says(page, "explanation", "The answer:")
    right = page.locator(".workbook-card-explanation").inner_text()
    number = re.search(r"The answer: (\S+)", right)[1]
    page.locator(f"{ANSWER} input").fill(number)
    press(page, "check", "mouse")
    says(page, "outcome", "It is not counted")


def test_what_was_typed_is_there_when_one_comes_back(visit):
    page = visit.page
    choose(page, "choice")
    choose(page, "number")
    assert page.locator(f"{ANSWER} input").input_value()


def test_names_and_live_regions(visit):
    page = visit.page
    for one in EXERCISES:
        choose_again = page.locator(MENU)
        choose_again.select_option(index=EXERCISES.index(one))
        says(page, "head", one.title)
        if one.picture:
            picture = page.locator("img.workbook-card-picture")
            expect(picture).to_have_attribute("alt", one.picture["words"])
        for box in page.locator(f"{ANSWER} :is(input[type=text], textarea, .noUi-handle)").all():
            expect(box).to_have_attribute("aria-label", re.compile(r"\S"))
    for text in ("outcome", "hints", "explanation"):
        live = page.locator(f".workbook-card-{text} [role=status]")
        expect(live).to_have_attribute("aria-live", "polite")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: str(size[0]))
def test_nothing_sticks_out_of_the_card(visit, size):
    page = visit.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.wait_for_function("(wide) => innerWidth === wide", arg=size[0])
    for place, one in enumerate(EXERCISES):
        page.locator(MENU).select_option(index=place)
        says(page, "head", one.title)
        wide, room = page.locator(".workbook-card").evaluate(
            "it => [it.scrollWidth, it.clientWidth]"
        )
        assert wide <= room + ROUNDING_OF_A_SCROLLBAR, one.id


def test_progress_is_seen_on_its_own_page(visit, browser, lab):
    other = Visit.of(browser, lab.page("13_progress.ipynb"))
    try:
        page = other.page
        done = page.locator(".workbook-progress-summary")
        done.wait_for()
        expect(done).to_contain_text("1 answered right at least once, 0 mastered")
        answered = [next(one.title for one in EXERCISES if one.kind == kind)
                    for kind in ("choice", "number")]  # fmt: skip
        for title in answered:
            expect(page.locator(".workbook-progress-back")).to_contain_text(title)
        assert other.strangers() == [] and visit.strangers() == []
    finally:
        other.page.close()
