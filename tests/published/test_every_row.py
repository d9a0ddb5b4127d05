"""Every row of the table is either checked by a test that names it, or listed with its reason."""

import ast
from pathlib import Path

import pytest

from tests.published import facts, table
from tests.published.facts import FACTS, not_checked

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


def test_every_row_has_a_mark_and_all_but_common_practice_a_source():
    for row in FACTS.values():
        assert row.mark in table.MARKS
        assert bool(row.source) == (row.mark != "common practice"), row.id
        assert row.source.startswith("recalled: ") == (row.mark == "memory"), row.id


@pytest.fixture
def checks(monkeypatch):
    """An empty list of checks for a test that makes its own."""
    monkeypatch.setattr(facts, "CHECKS", [])
    return facts.CHECKS


@pytest.mark.parametrize(
    ("row", "right", "wrong", "words"),
    [("buffer_1", {"got": 1.7734}, {"got": 1.7735}, "1.7733 ± 0.0001 in"),
     ("pin_spacing", {"got": 12.0}, {"got": 12.1}, "12 in exactly"),
     ("static_max", {"got": 3.000001, "rel": 1e-6}, {"got": 3.0001, "rel": 1e-6},
      "3.0 oz exactly"),
     ("lane_length", {"got": 60.02, "rel": 5e-4}, {"got": 60.04, "rel": 5e-4}, "60.00 ± 0.03 ft"),
     ("flare_rev", {"got": 0.528, "within": 0.01}, {"got": 0.5, "within": 0.01},
      "0.52832 ± 0.01 in"),
     ("buffer_2", {"got": 2.8321}, {"got": float("nan")}, "2.8321 ± 0.0001 in")],
)  # fmt: skip
def test_a_check_asserts_and_keeps_what_was_found(checks, row, right, wrong, words):
    FACTS[row].check(**right)
    with pytest.raises(AssertionError, match=f"{row}: .*got {wrong['got']}"):
        FACTS[row].check(**wrong)
    assert [(c.got, c.agrees) for c in checks] == [(right["got"], True), (wrong["got"], False)]
    assert {c.expected for c in checks} == {words} and {c.kind for c in checks} == {"value"}


def test_bands_words_and_constants_are_kept_too(checks):
    FACTS["hole_weight"].check_between(2.5)
    with pytest.raises(AssertionError, match=r"between 2\.0 and 4.0 oz"):
        FACTS["hole_weight"].check_between(4.5)
    with pytest.raises(AssertionError, match=r"dry-style .*got viscous"):
        FACTS["coulomb"].check_that(False, "dry-style", "viscous")
    FACTS["pocket_boards"].check_taken(17, 18)
    with pytest.raises(AssertionError, match=r"17 to 18 board .*got 17 to 19 board"):
        FACTS["pocket_boards"].check_taken(17, 19)
    assert [(c.kind, c.agrees) for c in checks] == [
        ("consistent", True), ("consistent", False), ("consistent", False),
        ("taken", True), ("taken", False),
    ]  # fmt: skip


@pytest.fixture
def made(checks):
    """Checks of four rows: a range of numbers, one that is wrong, words, and a constant."""
    for got in (3.25, 2.0, 2.5):
        FACTS["speed_loss"].check_between(got)
    FACTS["boards"].check(39.0)
    for got in (39.0, 39.0000001):
        with pytest.raises(AssertionError):
            FACTS["boards"].check(got, within=-1)
    FACTS["tour_men"].check_that(True, "at 18 mph, loses some", "loses 3 mph")
    FACTS["pin_spacing"].check_taken(12)
    return checks


@pytest.mark.parametrize("width", [80, 95, 300])
def test_the_table_shows_ranges_what_disagrees_and_the_kinds_apart(made, width):
    lines = table.text(made, width).splitlines()
    assert max(map(len, lines)) in (width, 110)

    def ends(words):
        return [" ".join(line.split()) for line in lines if line.endswith(words)]

    (line,) = ends("  consistent")[1:]
    assert line.startswith("tour sample 2020, men") and "loses 3 mph" in line
    assert "between 1.5 and" in ends("  consistent")[0] and "2.0 to 3.2" in ends("  consistent")[0]
    assert ends("  taken") == ["pin spacing 12 in 12 in taken"]
    assert ends("  no") == ["boards 39 exactly 39 to 39.0000001 no"]
    assert [int(n) for n in lines[-5].split()[1:-1]] == [0, 2, 1, 1]
    assert lines.count("USBC equipment specifications") == 1


def test_a_table_at_80_columns_keeps_each_row_in_its_place():
    lines = [line for line in table.text([]).splitlines() if line.startswith(table.INDENT)]
    rows = [line for line in lines if line.endswith("  not run")]
    assert len(rows) == len(FACTS) - len(not_checked()) and max(map(len, lines)) <= 80
    assert len({line.rindex("not run") for line in rows}) == 1
