"""Every row of the table is either checked by a test that names it, or listed with its reason."""

import ast
import re
from pathlib import Path

from tests.published.facts import FACTS

HERE = Path(__file__).parent
MARKS = {"published", "textbook", "derived", "common practice", "memory"}


def claimed():
    """Ids that stand as a string in a test, but not those of this file."""
    found = set()
    for file in HERE.glob("test_*.py"):
        if file != Path(__file__):
            tree = ast.parse(file.read_text(encoding="utf-8"))
            found |= {n.value for n in ast.walk(tree) if isinstance(n, ast.Constant)
                      and isinstance(n.value, str)}  # fmt: skip
    return found & set(FACTS)


def listed():
    """Ids at the head of a list item of the README, with their reasons."""
    text = (HERE / "README.md").read_text(encoding="utf-8")
    items = re.findall(r"^\* ((?:`\w+`(?:, )?)+): (.+)$", text, flags=re.MULTILINE)
    return {id: reason for ids, reason in items for id in re.findall(r"`(\w+)`", ids)}


def test_every_row_is_checked_or_listed_and_none_is_both():
    checked, reasons = claimed(), listed()
    assert checked & set(reasons) == set()
    assert checked | set(reasons) == set(FACTS)
    assert all(len(reason.split()) >= 3 for reason in reasons.values())


def test_every_row_has_a_mark_and_the_published_ones_a_source():
    for row in FACTS.values():
        assert row.mark in MARKS
        assert row.source or row.mark in ("common practice", "derived"), row.id
