"""The glossary's page, and the hover texts of controls that come from it."""

import re
from html import unescape

import ipywidgets as widgets
import pytest

from tests.panels.conftest import words
from workbook.glossary import TERMS, matching, term_in
from workbook.panels import controls, lay_it_out, show_glossary, two_layouts
from workbook.panels.panel import Panel


@pytest.fixture
def page():
    return show_glossary()


def rows(page):
    """The cells of each row of the table, the heads first."""
    found = re.findall(r"<tr>(.*?)</tr>", page.texts["terms"].value, re.S)
    cell = re.compile(r"<t[hd][^>]*>(.*?)</t[hd]>", re.S)
    return [[unescape(one) for one in cell.findall(row)] for row in found]


def test_each_term_stands_there_once_with_heads(page):
    head, *found = rows(page)
    assert head == ["term", "what it means", "unit", "positive"]
    assert '<th scope="col">term</th>' in page.texts["terms"].value
    assert [row[0].partition(" (")[0] for row in found] == [term.name for term in TERMS]
    assert [row[1:] for row in found] == [[t.meaning, t.unit, t.positive] for t in TERMS]
    assert f"{len(TERMS)} of {len(TERMS)} terms" in words(page, "count")


def test_what_is_typed_leaves_the_terms_that_hold_it(page):
    page.controls["find"].value = "  Oil RING "
    names = [row[0] for row in rows(page)[1:]]
    assert any(name.startswith("oil ring") for name in names) and len(names) < len(TERMS) / 3
    assert f"{len(names)} of " in words(page, "count")
    page.controls["find"].value = "mass bias"
    assert [row[0] for row in rows(page)[1:]][-1].startswith("PSA (mass bias")
    page.controls["find"].value = ""
    assert len(rows(page)) == len(TERMS) + 1


@pytest.mark.parametrize(
    "typed", ["no such word", "<script>alert(1)</script>", "\\", "((", "x" * 9999]
)
def test_what_is_in_no_term_is_said(page, typed):
    page.controls["find"].value = typed
    assert words(page, "count").strip() == "No term has these words."
    assert page.texts["terms"].value == "" and page.status.value == ""


def test_the_search_ends_where_no_letter_is_left():
    assert matching("") == TERMS
    assert all("flare" in f"{t.name} {t.meaning}".lower() for t in matching("flare"))


def sentence(name):
    return next(term.meaning for term in TERMS if term.name == name)


def test_hovering_over_a_slider_says_the_glossarys_sentence():
    c = lay_it_out().controls
    assert c["pin_to_pap_in"].tooltip == sentence("pin-to-PAP")
    assert c["val_angle_deg"].tooltip == f"{sentence('VAL angle')} Positive: toward the grip."
    assert c["rg_low_in"].tooltip == sentence("RG")
    assert list(c["pin"].tooltips) == [sentence("pin up, pin down")] * 2
    assert "midline" in c["pin_up"].tooltip  # a place on the ball here, not the layout
    assert c["hand"].tooltip is None


def test_a_text_of_its_own_stays_and_pictures_have_none():
    panel = two_layouts()
    assert panel.controls["apart"].tooltip.startswith("own pin distance")
    for image in panel.images.values():
        assert image.tooltip is None


def test_every_slider_of_a_record_is_explained():
    for name, control in {**two_layouts().controls, **lay_it_out().controls}.items():
        if isinstance(control, widgets.FloatSlider) and name not in ("scale_oz", *WITHOUT):
            assert control.tooltip, name


WITHOUT = ("finger_bore", "finger_depth", "thumb_hole", "thumb_depth")  # plain words


def test_the_longest_term_wins_and_parts_of_words_are_none():
    for text, name in (("B: VAL angle [°]", "VAL angle"), ("VAL", "VAL"), ("low RG [in]", "RG"),
                       ("pin to CG [in]", "pin-to-CG"), ("intermediate [in]",
                       "intermediate differential"), ("A: sanded to [grit]", "grit")):  # fmt: skip
        assert term_in(text).name == name
    assert term_in("spinning") is None and term_in("") is None and controls.hover("hand") == ""


def test_a_page_of_words_has_no_picture_to_draw(page):
    assert isinstance(page, Panel) and page.images == {}
    page.settle()
