"""The glossary is in order, without repeats, and knows the words that the pages show."""

import re
from pathlib import Path

import nbformat
import pytest

from workbook import demo
from workbook.comparison import compare
from workbook.glossary import TERMS, term_in
from workbook.tables import comparison_rows

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"


def test_alphabetical_without_repeats_and_one_sentence_each():
    names = [term.name.lower() for term in TERMS]
    assert names == sorted(set(names))
    for term in TERMS:
        assert term.meaning.endswith(".") and term.meaning.count(". ") == 0


def test_every_quantity_of_the_table_is_explained():
    known = " ".join(term.name for term in TERMS)
    for row in comparison_rows(compare(*demo.pin_up_and_down())):
        words = row.words.split(" (")[0].split(":")[0]
        base = {"static": "static balance", "RG low": "RG", "RG high": "RG",
                "RG about the PAP": "RG", "weight removed": None, "board at the arrows": "board",
                "breakpoint board": "breakpoint", "breakpoint distance": "breakpoint",
                "board at the pins": "board", "speed at the pins": None,
                "intermediate": "intermediate differential", "half the slip gone at": "length",
                "roll": "roll"}.get(words, words)  # fmt: skip
        assert base is None or base in known, words


def test_no_two_terms_share_a_name():
    names = [name.lower() for term in TERMS for name in (term.name, *term.also)]
    assert len(names) == len(set(names))
    for term in TERMS:
        for name in term.also:
            assert term_in(name) == term, name


# what a student meets there and may not know
MET = {
    "02_read_the_ball": "core cover differential intermediate RG pin CG PSA flare symmetric",
    "03_measure_the_bowler": "PAP tilt midline track rev",
    "04_lay_it_out": "VAL span pitch insert balance buffer drilling cut",
    "05_watch_it_roll": "skid hook roll slip film migration ring carried band",
    "06_surface": "abrasive wear grit friction polished length lever breakpoint Ra",
}


@pytest.mark.parametrize("chapter", MET)
def test_the_words_of_a_chapter_are_in_the_glossary(chapter):
    page = nbformat.read(NOTEBOOKS / f"{chapter}.ipynb", as_version=4)
    text = " ".join(cell.source for cell in page.cells)
    names = " ".join(name for term in TERMS for name in (term.name, *term.also))
    for word in MET[chapter].split():
        assert re.search(rf"\b{word}", names, re.IGNORECASE), word
        assert re.search(rf"\b{word}", text, re.IGNORECASE), f"{word} is not met in {chapter}"
