"""The glossary is in order, without repeats, and knows the words that the pages show."""

from workbook import demo
from workbook.comparison import compare
from workbook.glossary import TERMS
from workbook.tables import comparison_rows


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
