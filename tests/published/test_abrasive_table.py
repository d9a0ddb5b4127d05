"""FEPA 43 / ISO 6344, the P series (published): the table that the library and the page show."""

import pytest

import workbook as wb
from tests.published.facts import fact
from tests.published.test_fepa_p_series import SERIES
from workbook.surface_tables import abrasives_table

KNOWN = {one.name: one for one in wb.abrasive_series()}


@pytest.mark.parametrize("row", SERIES)
def test_the_published_grains_are_taken_over(row):
    fact(row).check_taken(KNOWN[row].grain_um)


def test_what_is_beyond_the_series_is_a_label_without_a_grain():
    end = fact("P_end").value
    for one in wb.abrasive_series():
        assert (one.grain_um is None) == (one.grit > end)
        assert one.name.startswith("P") == (one.grit <= end)
    assert [name for name in KNOWN if not name.startswith("P")] == ["3000", "4000", "5000"]


def test_the_page_shows_every_grain():
    shown = {row[0]: row[1] for row in abrasives_table().rows}
    assert float(shown["P240"]) == fact("P240").value
    assert shown["3000"] == "a maker's label" and len(shown) == len(SERIES) + 3
