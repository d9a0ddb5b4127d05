"""The table of check values as text: what a source has, what the library gives, do they agree."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, zip_longest
from textwrap import wrap

from tests.published.facts import FACTS, Check, Fact, not_checked

MARKS = {
    "published": "a named source",
    "textbook": "standard mechanics and mathematics",
    "derived": "follows from other values",
    "common practice": "knowledge of the trade, no source",
    "memory": "recalled, without the document in hand",
}
AGREES = {"value": "yes", "consistent": "consistent", "taken": "taken"}
OUTCOMES = (*AGREES.values(), "no", "not run")
LEGEND = """\
What a source has, beside what the library gives. They agree:
  yes         a number, within what is allowed. Of a legal limit: where the
              library begins to warn or refuse, found by trying values.
  consistent  the source has a rule, a range or an input. "Expected" then says
              in words what is tested; it is no proof of the source's number.
  taken       the library has this constant from the source: nothing is proved.
"""
LEAST, MOST = 72, 110  # letters in a line
INDENT = "  "


def text(checks: Sequence[Check], width: int = 80) -> str:
    """The table by mark and source, a row for each fact that the README does not leave out."""
    widths, left_out = _widths(min(max(width, LEAST), MOST)), not_checked()
    rows = [
        (row, *_outcome(row, [c for c in checks if c.row.id == row.id]))
        for row in FACTS.values()
        if row.id not in left_out
    ]
    lines = [LEGEND]
    for mark, words in MARKS.items():
        lines += [f"== {mark.upper()}: {words} ".ljust(sum(widths) + 8, "="), ""]
        lines += _lines(("quantity", "expected", "got", "agrees"), widths)
        of_mark = [row for row in rows if row[0].mark == mark]
        order = list(dict.fromkeys(fact.source for fact, *_ in of_mark))
        of_mark.sort(key=lambda row: (order.index(row[0].source), OUTCOMES.index(row[-1])))
        for source, group in groupby(of_mark, key=lambda row: row[0].source):
            lines += wrap(source, sum(widths) + 8)
            for fact, expected, got, agrees in group:
                lines += _lines((_quantity(fact, agrees), expected, got, agrees), widths)
        lines.append("")
    return "\n".join([*lines, *_counts(rows, len(left_out))])


def _widths(width: int) -> list[int]:
    """Widths of the columns, of a line as wide as that."""
    free = width - 4 * len(INDENT) - len("consistent")
    expected, got = free // 3, free * 17 // 64
    return [free - expected - got, expected, got, len("consistent")]


def _quantity(fact: Fact, agrees: str) -> str:
    """What the row is about; with its value, where that is not what is expected."""
    says_value = agrees == "consistent" and fact.text != "yes"
    return f"{fact.quantity}: {fact.given}" if says_value else fact.quantity


def _outcome(row: Fact, checks: list[Check]) -> tuple[str, str, str]:
    """Expected, got, and one of `OUTCOMES`.

    Of several checks those that disagree, if any: numbers as a range, words from the first.
    """
    if not checks:
        return row.given, "-", "not run"
    wrong = [c for c in checks if not c.agrees]
    shown = wrong or checks
    numbers = [c.got for c in shown if not isinstance(c.got, str)]
    ends = (_number(end, shown[0]) for end in (min(numbers), max(numbers))) if numbers else ()
    got = row.with_unit(" to ".join(dict.fromkeys(ends))) if numbers else str(shown[0].got)
    return shown[0].expected, got, "no" if wrong else AGREES[shown[0].kind]


def _number(got: float, check: Check) -> str:
    """A number with the digits of what is expected; with all if it disagrees."""
    return f"{got:.{check.digits}f}" if check.agrees else f"{got:.12g}"


def _lines(cells: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    """One row as lines of text, each cell wrapped to the width of its column."""
    columns = [
        wrap(cell, width, break_on_hyphens=False) for cell, width in zip(cells, widths, strict=True)
    ]
    for parts in zip_longest(*columns, fillvalue=""):
        padded = (part.ljust(width) for part, width in zip(parts, widths, strict=True))
        yield (INDENT + INDENT.join(padded)).rstrip()


def _counts(rows: list[tuple[Fact, str, str, str]], left_out: int) -> Iterator[str]:
    """How many rows of each mark came out how, and what is not in the table."""
    found = Counter((fact.mark, agrees) for fact, *_, agrees in rows)
    totals = Counter(agrees for *_, agrees in rows)
    yield "".join([f"{len(rows)} rows".ljust(16), *(f"{words:>12}" for words in OUTCOMES)])
    for mark in MARKS:
        yield "".join([mark.ljust(16), *(f"{found[mark, words]:12}" for words in OUTCOMES)])
    yield "".join(["all".ljust(16), *(f"{totals[words]:12}" for words in OUTCOMES)])
    yield ""
    yield f"{left_out} other rows are not checked or not reproduced: listed with the reasons in"
    yield "tests/published/README.md. Below, pytest counts its tests: several may look at"
    yield "one row, and some at none."
