"""The card of exercises, driven as a student does: every kind empty, right, wrong and shown."""

import io
import re
from html import unescape
from pathlib import Path

import ipywidgets as widgets
import pytest
from PIL import Image

from workbook.errors import InputRefused
from workbook.panels import exercise_card, practise
from workbook.panels.exercise_card import ExerciseCard
from workbook.panels.kept import SHARED
from workbook.panels.lever_sliders import lever_class, step_of
from workbook.practice.attempt import DONE, GUESSED, NOT_COUNTED, SHOWN
from workbook.practice.catalogue import catalogue
from workbook.practice.exercise import Lever
from workbook.practice.progress import Progress

FILES = Path(__file__).with_name("practice_files")
KINDS = catalogue(FILES)
CHAPTER = "90_kinds"
AT_HAND = catalogue()
CHAPTERS = list(dict.fromkeys(one.chapter for one in AT_HAND.values()))


@pytest.fixture(autouse=True)
def data(tmp_path, monkeypatch):
    monkeypatch.setenv("WORKBOOK_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("WORKBOOK_SHARED", raising=False)
    return tmp_path / "data"


@pytest.fixture
def card():
    return practise(CHAPTER, folder=FILES)


def at(card, name):
    card.choose(f"{CHAPTER}/{name}")
    return card


def said(card, name):
    """A text of the card without its HTML."""
    return " ".join(unescape(re.sub("<[^>]+>", " ", card.texts[name].value)).split())


def kept():
    with Progress() as progress:
        return [(one.exercise.partition("/")[2], one.outcome, one.given, one.hints)
                for one in progress.answers()]  # fmt: skip


def fill(card, answer):
    """Put an answer into the box of the exercise that is shown."""
    box, kind = card.boxes[card.current].widget, card.exercises[card.current].kind
    if kind == "number":
        box.children[0].value = answer
    elif kind == "order":
        for menu, item in zip(box.children, answer, strict=True):
            menu.value = item
    elif kind == "target":
        for slider, value in zip(box.children, answer, strict=True):
            slider.value = value
    elif kind == "words":
        text, points = answer
        box.children[0].value = text
        for place, tick in enumerate(box.children[1].children[1:], 1):
            tick.value = place in points
    else:
        box.value = answer


# name of the exercise, a wrong answer, what is said to it, the right answer
DRIVEN = {
    "up_or_down": ("down", "Look up.", "up"),
    "three_in_order": (("three", "two", "one"), "That is largest first.", ("one", "two", "three")),
    "enough_of_it": (
        (1.0, 1.0),
        "The sum is 2 in; wanted is 4 in, give or take 0.05. More of both.",
        (2.125, 1.875),
    ),
    "throw_three": ("17; 9\n18; 8", "2 of 3 lines are filled in.", "17; 9\n18; 8\n16; 10"),
}
EMPTY = {"three_in_order": ("", "", ""), "up_or_down": None, "throw_three": " ", "guess": None,
         "half_of_it": "  ", "say_why": (" ", ())}  # fmt: skip


@pytest.mark.parametrize("name", [one.partition("/")[2] for one in KINDS])
def test_an_empty_box_is_not_attempted_and_nothing_is_kept(card, name):
    at(card, name).check()
    assert said(card, "outcome").startswith("Not attempted.")
    if name in EMPTY:
        fill(card, EMPTY[name])
        card.check()
        assert said(card, "outcome").startswith("Not attempted.")
    assert kept() == [] and said(card, "explanation") == "" and card.kept.said == ""


@pytest.mark.parametrize("name", DRIVEN)
def test_wrong_is_coached_right_is_explained_and_both_are_kept(card, name):
    wrong, coaching, right = DRIVEN[name]
    fill(at(card, name), wrong)
    card.check()
    assert said(card, "outcome") == f"Not yet. {coaching}"
    assert said(card, "explanation") == ""
    fill(card, right)
    card.check()
    right_said = "Recorded." if name == "throw_three" else "Correct."
    assert said(card, "outcome").startswith(right_said)
    why = " ".join(KINDS[card.current].explanation.split())
    assert f"Why. {why}" in said(card, "explanation")
    assert [one[:2] for one in kept()] == [(name, "not yet"), (name, "correct")]
    assert "; done)" in dict((key, words) for words, key in card.menu.options)[card.current]


def test_a_number_in_its_variant_with_coaching_and_as_people_write_it(card):
    posed = at(card, "half_of_it").attempt.posed
    assert posed.seed > 0 and f"half of {posed.drawn['whole']:g} in" in said(card, "prompt")
    for typed, begins in (("a half", "Cannot check: 'a half' is no number"),
                          ("4 lb", "Cannot check: '4 lb' has a unit"),
                          (f"{2 * posed.drawn['whole']:g}", "Not yet. You doubled"),
                          ("0", "Not yet. Too small."),
                          (f"{posed.right:g} in", "Correct.")):  # fmt: skip
        fill(card, typed)
        card.check()
        assert said(card, "outcome").startswith(begins)
    assert [one[1] for one in kept()] == ["not yet", "not yet", "correct"]
    assert f"The answer: {posed.right:g} in" in said(card, "explanation")


def test_a_guess_is_held_until_the_student_has_looked(card):
    fill(at(card, "guess"), "less")
    card.check()
    assert said(card, "outcome").startswith(f"{GUESSED} Move the slider in the panel.")
    assert card.boxes[card.current].widget.disabled and said(card, "explanation") == ""
    assert [one[:3] for one in kept()] == [("guess", "not yet", "less")]
    card.check()
    assert said(card, "outcome") == "Not yet. Move it once more."
    assert "It was more." in said(card, "explanation")
    fill(card, "more")
    card.check()
    assert said(card, "outcome") == f"Correct. {NOT_COUNTED}" and len(kept()) == 1


def test_points_are_ticked_once_the_text_is_written(card):
    at(card, "say_why")
    points = card.boxes[card.current].points
    assert points.layout.display == "none" and said(card, "points") == ""
    fill(card, ("It has a cause.", ()))
    card.check()
    assert points.layout.display == "" and kept() == []
    assert "Tick the points" in said(card, "outcome")
    assert "The cause brings the effect." in said(card, "points")
    assert "“It just does.” What brings it about?" in said(card, "points")
    fill(card, ("It has a cause.", (1,)))
    card.check()
    assert said(card, "outcome") == "Not yet. 1 of 2 points are not ticked."
    fill(card, ("It has a cause.", (1, 2)))
    card.check()
    assert said(card, "outcome").startswith("Correct.")
    assert kept()[1][2] == "It has a cause.\n[points held: 1, 2]"


def test_what_levers_give_is_told_after_check_only(card):
    at(card, "enough_of_it")
    everything = " ".join(said(card, name) for name in card.texts)
    fill(card, (3.0, 1.0))
    assert "The sum is" not in everything + said(card, "outcome")
    card.check()
    assert said(card, "outcome").startswith("Correct. The sum is 4 in; wanted is 4 in")
    first, second = card.boxes[card.current].widget.children
    assert (first.min, first.max, first.step) == (0, 6.75, 0.125)
    card._typed(None, {"classes": [lever_class(1)], "text": "1 7/8 in"}, [])
    assert second.value == 1.875
    card._typed(None, {"classes": [lever_class(1)], "text": "11"}, [])
    assert second.value == 1.875 and "10 in" in said(card, "outcome")


@pytest.mark.parametrize(("low", "high", "start", "worked", "step"), [
    (180, 5000, 2000, 560, 20), (0, 90, 25, 70, 1.25), (0, 6.75, 4.5, 3.375, 0.125),
    (10, 25, 18, 16.5, 0.25), (0, 1, 0.5, 0.123456789, 0.001), (3, 3, 3, 3, 1),
])  # fmt: skip
def test_a_slider_reaches_its_ends_its_start_and_the_worked_setting(low, high, start, worked, step):
    assert step_of(Lever("way", "in", low, high, start, worked)) == pytest.approx(step)


def test_hints_come_one_at_a_time_and_are_counted(card):
    at(card, "up_or_down")
    for seen, last in ((1, "First"), (2, "Second"), (3, "Third"), (3, "Third")):
        card.hint()
        assert said(card, "hints").startswith(f"Hints, {seen} of 3")
        assert said(card, "hints").endswith(f"{last} hint of up_or_down.")
    fill(card, "up")
    card.check()
    assert kept() == [("up_or_down", "correct", "up", 3)]


@pytest.mark.parametrize("name", [one.partition("/")[2] for one in KINDS])
def test_what_was_shown_is_not_counted_as_right(card, name):
    at(card, name).show()
    posed = card.attempt.posed
    right = {"half_of_it": f"{getattr(posed, 'right', 0):g}" if posed.exercise.answer else "",
             "guess": "more", "say_why": ("So.", (1, 2))}.get(name) or DRIVEN[name][2]  # fmt: skip
    assert posed.filled(KINDS[card.current].explanation).split()[0] in said(card, "explanation")
    fill(card, right)
    card.check()
    if name == "say_why":
        card.check()
    first = "Recorded." if name == "throw_three" else "Correct."
    assert said(card, "outcome").startswith(first) and NOT_COUNTED in said(card, "outcome")
    assert [one[:3] for one in kept()] == [(name, "not yet", SHOWN)]


def test_what_one_solved_oneself_is_done_and_not_called_shown(card):
    fill(at(card, "half_of_it"), "0")
    posed = card.attempt.posed
    for given in (f"{posed.right:g}", f"{posed.right:g} in"):
        fill(card, given)
        assert "workbook-stale" in card.texts["outcome"]._dom_classes
        card.check()
        assert "workbook-stale" not in card.texts["outcome"]._dom_classes
    assert DONE in said(card, "outcome") and [one[1] for one in kept()] == ["correct"]


def test_a_picture_waits_for_the_guess(card):
    """It could tell what is to be guessed."""
    picture = at(card, "guess").pictures[card.current]
    assert picture.layout.display == "none"
    fill(card, "less")
    card.check()
    assert picture.layout.display == ""


def test_show_says_the_right_answer_of_each_kind(card):
    for name, words in (("up_or_down", "The answer: up"), ("guess", "The answer: more"),
                        ("three_in_order", "The right order one two three"),
                        ("enough_of_it", "first length 2.125 in, second length 1.875 in; the sum "
                                         "is 4 in"),
                        ("say_why", "A good answer. The cause brings the effect."),
                        ("throw_three", "Why. Three shots show little.")):  # fmt: skip
        at(card, name).show()
        assert words in said(card, "explanation"), name


def test_the_same_answer_again_is_kept_once_and_other_numbers_begin_anew(card):
    before = at(card, "half_of_it").attempt.posed
    assert card.buttons["other"].layout.display == ""
    for _press in range(3):
        fill(card, "0")
        card.check()
    assert len(kept()) == 1
    card.show()
    card.other_numbers()
    posed = card.attempt.posed
    assert posed.drawn != before.drawn and said(card, "explanation") == ""
    assert card.boxes[card.current].answer() == ""
    fill(card, f"{posed.right:g}")
    card.check()
    assert [one[1] for one in kept()] == ["not yet", "correct"]
    at(card, "up_or_down")
    assert card.buttons["other"].layout.display == "none"


def test_nothing_typed_is_lost_on_the_way_to_another_exercise(card):
    fill(at(card, "half_of_it"), "12")
    card.check()
    outcome = card.texts["outcome"].value
    fill(at(card, "say_why"), ("half a thou", ()))
    fill(at(card, "throw_three"), "17; 9")
    card.check()
    for name, answer in (("half_of_it", "12"), ("say_why", {"text": "half a thou", "points": []}),
                         ("throw_three", "17; 9")):  # fmt: skip
        assert card.boxes[at(card, name).current].answer() == answer
    assert at(card, "half_of_it").texts["outcome"].value == outcome


def test_a_user_gets_the_same_numbers_again_and_another_user_others(card, monkeypatch, tmp_path):
    again = practise(CHAPTER, folder=FILES)
    monkeypatch.setenv("WORKBOOK_DATA", str(tmp_path / "another"))
    other = practise(CHAPTER, folder=FILES)
    seeds = [at(one, "half_of_it").attempt.posed.seed for one in (card, again, other)]
    assert seeds[0] == seeds[1] != seeds[2]
    given = practise(CHAPTER, seed=0, folder=FILES)
    assert at(given, "half_of_it").attempt.posed.drawn == {"whole": 9}


def test_texts_are_shown_and_nothing_in_them_acts(card):
    at(card, "half_of_it")
    prompt = card.texts["prompt"].value
    assert "<strong>half</strong>" in prompt and "<li>one</li>" in prompt
    assert "&lt;script&gt;" in prompt and "a link" in prompt
    assert not re.search(r"<(script|a|img|b)\b", prompt) and "example.org" not in prompt
    assert "Caution. Mind <b>your</b> fingers." in said(card, "prompt")
    assert said(card, "foot") == "How sure: derived."
    card.show()
    assert said(card, "foot") == "How sure: derived; plain arithmetic."
    fill(card, "<img src=x onerror=alert(1)>")
    card.check()
    assert "<img" not in card.texts["outcome"].value


def test_a_drill_has_steps_a_sheet_to_copy_out_and_its_caution(card):
    at(card, "throw_three")
    words = said(card, "prompt")
    assert "Stay behind the foul line." in words and "Throw. Write it down." in words
    assert "line board pins 1" in words and re.search(r"\b3\b", words)


def test_every_control_has_a_name(card):
    for name in KINDS:
        card.choose(name)
        names = {(where.removeprefix(f".{card.mark} "), what): words
                 for where, what, words in card.names.names}  # fmt: skip
        picture = KINDS[name].picture
        assert names.get(("img.workbook-card-picture", "alt")) == picture.get("words")
        assert all(names.values())
        kind = KINDS[name].kind
        part = {"number": " input", "words": " textarea", "drill": " textarea", "order": "",
                "target": f" .{lever_class(0)} .noUi-handle"}.get(kind, "")  # fmt: skip
        if kind != "order":  # its menus have labels of their own
            assert names[f".workbook-card-answer{part}", "aria-label"]


@pytest.mark.parametrize("name", [one.partition("/")[2] for one in KINDS])
def test_pictures_are_drawn(card, name):
    at(card, name)
    if not KINDS[card.current].picture:
        return
    image = Image.open(io.BytesIO(card.pictures[card.current].value))
    assert image.width >= 960 and len(image.convert("RGB").getcolors(10**7)) > 20


def test_a_shared_page_reads_and_keeps_nothing(monkeypatch, data):
    monkeypatch.setenv("WORKBOOK_SHARED", "1")
    card = at(practise(CHAPTER, folder=FILES), "up_or_down")
    assert said(card, "kept") == SHARED
    fill(card, "up")
    card.check()
    assert said(card, "outcome").startswith("Correct.")
    assert said(card, "kept") == SHARED and not data.exists()


@pytest.mark.parametrize("name", ["up_or_down", "guess"])
def test_what_could_not_be_kept_is_kept_with_the_next_check(card, monkeypatch, name):
    """Also a right answer, and a guess that waits: what is shown by then does not take it away."""

    def full(*_):
        raise InputRefused("the disk is full.")

    at(card, name)
    fill(card, next(one.text for one in KINDS[card.current].choices if one.right))
    with monkeypatch.context() as patch:
        patch.setattr(Progress, "record", full)
        card.check()
    card.check()
    assert ["correct" in one for one in kept()] == [True]


def test_what_storage_says_is_told_and_the_answer_can_be_kept_later(card, monkeypatch):
    def full(*_):
        raise InputRefused("the disk is full.")

    fill(at(card, "up_or_down"), "down")
    with monkeypatch.context() as patch:
        patch.setattr(Progress, "record", full)
        card.check()
    assert said(card, "kept") == "the disk is full." and kept() == []
    assert said(card, "outcome").startswith("Not yet.")
    card.check()
    assert said(card, "kept") == "" and len(kept()) == 1


def test_a_damaged_file_is_told(data):
    data.mkdir()
    (data / "progress.sqlite3").write_bytes(b"no database" * 100)
    assert "damaged" in said(practise(CHAPTER, folder=FILES), "kept")


def test_it_begins_with_what_is_new_and_enter_means_check(card):
    begun = card.current
    fill(at(card, "half_of_it"), "0")
    card._entered(None, {"event": "submit"}, [])
    assert said(card, "outcome").startswith("Not yet.")
    assert practise(CHAPTER, folder=FILES).current != "90_kinds/half_of_it" == begun


def test_without_a_draw_or_a_picture_the_exercise_is_there_all_the_same(card, monkeypatch):
    def refused(*_):
        raise InputRefused("no such shot.")

    usual = exercise_card.pose
    monkeypatch.setattr(exercise_card, "exercise_picture", refused)
    monkeypatch.setattr(exercise_card, "pose", lambda *of: (refused if of[1] else usual)(*of))
    at(card, "half_of_it").other_numbers()
    assert "half of 9 in" in said(card, "prompt")
    shown = at(practise(CHAPTER, folder=FILES), "guess").middle.children[0].value
    assert "Curves along the lane. (The picture is missing: no such shot.)" in shown


def test_what_there_is_not_is_refused():
    with pytest.raises(InputRefused, match="chapter must be"):
        practise("90_nothing", folder=FILES)
    with pytest.raises(InputRefused, match="seed"):
        practise(CHAPTER, seed=-1, folder=FILES)


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_every_exercise_at_hand_shows_is_hinted_checked_and_explained(chapter):
    card = practise(chapter)
    assert isinstance(card, ExerciseCard)
    for name in card.exercises:
        card.choose(name)
        for act in (card.check, card.hint, card.hint, card.hint, card.show):
            act()
        assert said(card, "outcome").startswith("Not attempted."), name
        assert said(card, "head") and said(card, "prompt") and said(card, "explanation")
        assert "{" not in said(card, "prompt") + said(card, "hints") + said(card, "explanation")
        if card.exercises[name].picture:
            assert isinstance(card.pictures[name], widgets.Image), name
    assert {one[1:3] for one in kept()} == {("not yet", SHOWN)}
