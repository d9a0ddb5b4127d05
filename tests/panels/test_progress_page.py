"""The page of one's own progress: what it says of answers, and what it does with them."""

import csv
import re
from datetime import UTC, datetime, timedelta
from html import unescape
from pathlib import Path

import pytest

from workbook.panels import show_progress
from workbook.panels.kept import SHARED
from workbook.practice.answered import Answered
from workbook.practice.progress import Progress

FILES = Path(__file__).with_name("practice_files")
NOW = datetime.now(UTC)


@pytest.fixture(autouse=True)
def data(tmp_path, monkeypatch):
    monkeypatch.setenv("WORKBOOK_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("WORKBOOK_SHARED", raising=False)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "data"


def record(name, outcome, days_ago, exercise="90_kinds"):
    with Progress() as progress:
        at = NOW - timedelta(days=days_ago)
        progress.record(Answered(f"{exercise}/{name}", 1, "as typed", outcome, 0, at))


def said(page, name):
    return " ".join(unescape(re.sub("<[^>]+>", " ", page.texts[name].value)).split())


def test_without_answers_everything_is_new():
    page = show_progress(FILES)
    assert "Of 7 exercises, 0 answered right at least once, 0 mastered" in said(page, "summary")
    assert said(page, "next").count("; new.") == 3 and said(page, "back") == ""
    assert "90_kinds 7 7 0 0 0" in said(page, "chapters")


def test_it_says_what_came_back_what_is_mastered_and_what_is_next(data):
    for days_ago in (40, 38, 33, 24, 7):  # each after its box's days: boxes 2, 3, 4, 5, 5
        record("up_or_down", "correct", days_ago)
    record("guess", "not yet", 3)
    record("half_of_it", "correct", 0)
    record("gone_since", "correct", 9)
    page = show_progress(FILES)
    assert "2 answered right at least once, 1 mastered, 1 to be done again" in said(page, "summary")
    assert str(data) in said(page, "summary")
    assert said(page, "next").startswith("What next Guess first. Page 90_kinds, fairly easy; came")
    back = said(page, "back")
    assert "Guess first 90_kinds 1 now 0 1" in back
    assert re.search(r"Half of it 90_kinds 2 (in 2 days|tomorrow) \(\d\d \w+\) 1 0", back)
    assert re.search(r"Up or down\? 90_kinds 5, mastered in \d+ days", back)
    assert "S. Leitner, 1972" in back and "the days are our assumption" in back
    assert "90_kinds 7 4 2 1 1" in said(page, "chapters")


def test_refresh_sees_what_another_page_kept():
    page = show_progress(FILES)
    record("guess", "correct", 0)
    page.buttons["refresh"].click()
    assert "1 answered right" in said(page, "summary")


def test_export_writes_a_table_and_replaces_one_only_if_asked(tmp_path):
    page = show_progress(FILES)
    record("guess", "correct", 0)
    page.files.press("export")
    assert f"Wrote 1 answer to {tmp_path / 'my answers.csv'}." in page.files.said.value
    rows = list(csv.DictReader((tmp_path / "my answers.csv").open(encoding="utf-8")))
    assert [row["given"] for row in rows] == ["as typed"]
    record("guess", "not yet", 1)
    page.files.press("export")
    assert "Wrote" not in page.files.said.value
    page.again.value = True
    page.files.press("export")
    assert "Wrote 2 answers" in page.files.said.value and not page.again.value


def test_starting_anew_asks_twice_and_says_where_the_old_answers_are(data):
    page = show_progress(FILES)
    page.buttons["anew"].click()
    assert "no answers yet" in said(page, "said") and page.confirm.layout.display == "none"
    record("guess", "correct", 0)
    page.buttons["yes"].click()  # nothing was asked
    page.buttons["anew"].click()
    assert "Set 1 answer aside" in page.question.value and page.confirm.layout.display == ""
    page.buttons["no"].click()
    assert "Nothing was changed." in said(page, "said")
    page.buttons["anew"].click()
    page.buttons["yes"].click()
    assert "Sure?" in page.question.value
    with Progress() as progress:
        assert len(progress.answers()) == 1
    page.buttons["yes"].click()
    assert page.confirm.layout.display == "none" and "0 answered" in said(page, "summary")
    place = Path(re.search(r"The old answers are in (.*)\.$", said(page, "said"))[1])
    assert place.is_file() and place.parent == data


def test_a_file_that_cannot_be_moved_is_told(monkeypatch):
    from workbook.errors import InputRefused

    def held(_self):
        raise InputRefused("it is held.")

    record("guess", "correct", 0)
    page = show_progress(FILES)
    monkeypatch.setattr(Progress, "reset", held)
    for button in ("anew", "yes", "yes"):
        page.buttons[button].click()
    assert said(page, "said") == "it is held." and "1 answered" in said(page, "summary")


def test_a_shared_page_shows_nobody_s_answers(monkeypatch, data):
    monkeypatch.setenv("WORKBOOK_SHARED", "1")
    page = show_progress(FILES)
    assert said(page, "summary") == SHARED and not data.exists()
    page.files.press("export")
    page.buttons["anew"].click()
    assert not any(said(page, name) for name in ("next", "back", "chapters"))


def test_the_workbooks_own_exercises_are_listed():
    assert "00_start_here" in said(show_progress(), "chapters")
