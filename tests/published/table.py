"""The table of check values as text: what a source has, what the library gives, do they agree."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, zip_longest
from textwrap import wrap

from tests.published.facts import FACTS, Check, Fact, not_checked

MARKS = ("published", "textbook", "derived", "common practice", "memory")
WIDTHS = {"mark": 9, "source": 30, "quantity": 36, "expected": 20, "got": 22, "agrees": 7}


def text(checks: Sequence[Check]) -> str:
    """The table, grouped by mark, a row for each fact that the README does not leave out."""
    left_out = not_checked()
    facts = [row for mark in MARKS for row in FACTS.values() if row.mark == mark]
    rows = [
        (row, *_outcome(row, [c for c in checks if c.row.id == row.id]))
        for row in facts
        if row.id not in left_out
    ]
    lines = [*_lines(WIDTHS), "  ".join("-" * width for width in WIDTHS.values())]
    for _, group in groupby(rows, key=lambda row: row[0].mark):
        for fact, expected, got, agrees in group:
            lines += _lines((fact.mark, fact.source or "-", fact.quantity, expected, got, agrees))
        lines.append("")
    return "\n".join([*lines, *_counts(rows, len(left_out))])


def _outcome(row: Fact, checks: list[Check]) -> tuple[str, str, str]:
    """Expected, got, and "yes", "no" or "not run".

    Of several checks those that disagree, if any: numbers as a range, words from the first.
    """
    if not checks:
        return row.expected, "-", "not run"
    wrong = [c for c in checks if not c.agrees]
    shown = wrong or checks
    numbers = [c.got for c in shown if not isinstance(c.got, str)]
    digits = 12 if wrong else 7
    ends = (f"{end:.{digits}g}" for end in (min(numbers), max(numbers))) if numbers else ()
    got = " to ".join(dict.fromkeys(ends)) or str(shown[0].got)
    return shown[0].expected, got, "no" if wrong else "yes"


def _lines(cells: Sequence[str]) -> Iterator[str]:
    """One row as lines of text, each cell wrapped to the width of its column."""
    columns = [
        wrap(cell, width, break_on_hyphens=False)
        for cell, width in zip(cells, WIDTHS.values(), strict=True)
    ]
    for parts in zip_longest(*columns, fillvalue=""):
        cells = (part.ljust(width) for part, width in zip(parts, WIDTHS.values(), strict=True))
        yield "  ".join(cells).rstrip()


def _counts(rows: list[tuple[Fact, str, str, str]], left_out: int) -> Iterator[str]:
    found = Counter(agrees for *_, agrees in rows)
    marks = Counter(fact.mark for fact, *_ in rows)
    of_marks = ", ".join(f"{marks[mark]} {mark}" for mark in MARKS)
    yield f"{len(rows)} checks: {of_marks}."
    yield f"{found['yes']} yes, {found['no']} no, {found['not run']} not run."
    yield "Got in words: the row is a limit, an order or an input: its test says what agrees."
    yield (
        f"{left_out} rows that are not checked or not reproduced are listed with reasons in "
        "tests/published/README.md."
    )
