"""Every row of the table is either checked by a test that names it, or listed with its reason."""

import ast
from pathlib import Path

import pytest

from tests.published import facts, table
from tests.published.facts import FACTS, Check, not_checked

HERE = Path(__file__).parent


def claimed():
    """Ids that stand as a string in a test, but not those of this file."""
    found = set()
    for file in HERE.glob("test_*.py"):
        if file != Path(__file__):
            tree = ast.parse(file.read_text(encoding="utf-8"))
            found |= {n.value for n in ast.walk(tree) if isinstance(n, ast.Constant)
                      and isinstance(n.value, str)}  # fmt: skip
    return found & set(FACTS)


def test_every_row_is_checked_or_listed_and_none_is_both():
    checked, reasons = claimed(), not_checked()
    assert checked & set(reasons) == set()
    assert checked | set(reasons) == set(FACTS)
    assert all(len(reason.split()) >= 3 for reason in reasons.values())


def test_every_row_that_a_test_names_has_been_compared(recorded):
    assert recorded == claimed()


def test_every_row_has_a_mark_and_the_published_ones_a_source():
    for row in FACTS.values():
        assert row.mark in table.MARKS
        assert row.source or row.mark in ("common practice", "derived"), row.id


@pytest.fixture
def checks(monkeypatch):
    """An empty list of checks for a test that makes its own."""
    monkeypatch.setattr(facts, "CHECKS", [])
    return facts.CHECKS


@pytest.mark.parametrize(
    ("row", "right", "wrong", "words"),
    [("buffer_1", {"got": 1.7734}, {"got": 1.7735}, "1.7733 in ± 1e-4"),
     ("pin_spacing", {"got": 12.0}, {"got": 12.000001}, "12 in (exact)"),
     ("lane_length", {"got": 60.02, "rel": 5e-4}, {"got": 60.02, "rel": 1e-4}, "60 ft ± 0.5 in"),
     ("flare_rev", {"got": 0.528, "within": 0.01}, {"got": 0.5, "within": 0.01},
      "0.52832 in ± 0.01"),
     ("buffer_2", {"got": 2.8321}, {"got": float("nan")}, "2.8321 in ± 1e-4")],
)  # fmt: skip
def test_a_check_asserts_and_keeps_what_was_found(checks, row, right, wrong, words):
    FACTS[row].check(**right)
    with pytest.raises(AssertionError, match=f"{row}: .*got {wrong['got']}"):
        FACTS[row].check(**wrong)
    assert [(c.got, c.agrees) for c in checks] == [(right["got"], True), (wrong["got"], False)]
    assert {c.expected for c in checks} == {words}


def test_bands_and_words_are_kept_too(checks):
    FACTS["hole_weight"].check_between(2.5)
    with pytest.raises(AssertionError, match="2 to 4 oz"):
        FACTS["hole_weight"].check_between(4.5)
    with pytest.raises(AssertionError, match="got viscous"):
        FACTS["coulomb"].check_that(False, "viscous")
    assert [c.agrees for c in checks] == [True, False, False]


def test_of_several_checks_the_table_shows_the_range_or_what_disagrees():
    loss, men = FACTS["speed_loss"], FACTS["tour_men"]
    yes = [Check(loss, loss.expected, got, True) for got in (3.25, 2.0, 2.5)]
    no = [Check(men, men.expected, got, got == "a") for got in ("a", "b", "c")]
    lines = table.text(yes + no).splitlines()
    (line,) = (line for line in lines if line.endswith("  yes"))
    assert "1.5 to 4.5 mph" in line and "2 to 3.25" in line
    (line,) = (line for line in lines if line.endswith("  no"))
    assert "436 rpm (typical)" in line and " b " in line
    assert lines[-3].startswith("1 yes, 1 no, ")
