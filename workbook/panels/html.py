"""Tables of a comparison as HTML, and the panels' few style rules."""

from html import escape
from itertools import groupby

from workbook import tables
from workbook.comparison import Comparison
from workbook.layout_tables import Table

STYLE = """<style>
.workbook-panel { font-size: 15px; }
.workbook-panel > *, .workbook-panel .widget-box > * { /* full width has margins beside it */
  max-width: calc(100% - 4px) !important; }
.workbook-panel .widget-label, .workbook-panel .widget-readout { font-size: 14px; }
.workbook-first { display: grid !important; grid-template-columns: repeat(6, minmax(0, 1fr));
  column-gap: 8px; align-items: center; }
.workbook-first > .jupyter-widgets { width: auto; }
.workbook-first .widget-label { width: 120px !important; }
.workbook-columns .widget-label { width: 150px !important; }
.workbook-first .widget-readout { min-width: 46px; }
.workbook-first .widget-toggle-buttons { display: flex; align-items: center; }
.workbook-first .widget-toggle-buttons .widget-label { width: 36px !important; }
.workbook-sentence p { font-size: 17px; line-height: 1.35; margin: 4px; min-height: 4.1em; }
.workbook-notes li { line-height: 1.4; }
.workbook-status { color: #a8123e; font-weight: bold; }
.workbook-tables { display: flex; flex-wrap: wrap; overflow-x: auto; gap: 4px 36px; align-items: flex-start; }
.workbook-tables table { border-collapse: collapse; }
.workbook-tables td, .workbook-tables th { padding: 1px 8px; line-height: 1.35; text-align: right;
  white-space: nowrap; }
.workbook-tables td:first-child, .workbook-tables th:first-child { text-align: left;
  white-space: normal; }
.workbook-tables tr:nth-child(even) td { background: rgba(120, 120, 120, 0.09); }
.workbook-beside { align-items: center; }
.workbook-beside > * { flex: 1 1 50%; min-width: 0; }
.workbook-code textarea { width: 100%; box-sizing: border-box; font: 13px monospace; }
@media (max-width: 820px) { /* a narrow window, or a zoomed one: one control a row */
  .workbook-beside { flex-flow: column; }
  .workbook-first { display: flex !important; flex-flow: column; align-items: stretch; } }
</style>"""


def spoken_html(sentence: str) -> str:
    """The sentence, read aloud by a screen reader when it changes."""
    return f'<p role="status" aria-live="polite">{escape(sentence)}</p>'


def code_html(code: str) -> str:
    """Lines of code in a box that takes the focus: the keyboard can select and copy them."""
    rows = len(code.splitlines()) + 1
    return (
        f'<textarea readonly rows="{rows}" wrap="off" aria-label="the answer as code">'
        f"{escape(code)}</textarea>"
    )


def list_html(said: list[str]) -> str:
    """Notes as a list; nothing when there are none."""
    lines = "".join(f"<li>{escape(note)}</li>" for note in said)
    return f"<ul>{lines}</ul>" if lines else ""


def numbers_html(c: Comparison) -> str:
    """The comparison's rows as HTML tables: A, B and the difference."""
    parts = []
    for group, rows in groupby(tables.comparison_rows(c), key=lambda row: row.group):
        lines = [_line((f"{row.words} [{row.unit}]", *row.cells)) for row in rows]
        parts.append(_table((group, "A", "B", "B − A"), lines))
    ball_and_rating, shot = "".join(parts[:2]), "".join(parts[2:])
    return f'<div class="workbook-tables"><div>{ball_and_rating}</div>{shot}</div>'


def shares_html(c: Comparison) -> str:
    """How much of the difference each cause brings; the shares add up."""
    causes = tables.causes_shown(c)
    if not causes:
        return "A and B do not differ in anything that moves the ball."
    lines = [
        _line((f"{words} [{unit}]",
               *(tables.shown(c.shares[key][cause], 2, sign=True) for cause in causes),
               tables.shown(sum(c.shares[key].values()), 2, sign=True)))
        for key, (words, unit) in tables.SHARED_OUT.items() if key in c.shares
    ]  # fmt: skip
    table = _table(("B − A", *causes, "together"), lines)
    return (
        f'<div class="workbook-tables">{table}</div><p>Each property of A is swapped for that of '
        "B, one at a time and in every order; the shares add up to the difference. Flare stands "
        "for how the spin axis moves in the ball, its direction included: differentials and axes."
        "</p>"
    )


def table_html(table: Table) -> str:
    """A table of words and numbers."""
    lines = [_line(row) for row in table.rows]
    return f'<div class="workbook-tables">{_table(table.head, lines)}</div>'


def _table(head: tuple[str, ...], lines: list[str]) -> str:
    return f"<table>{_line(head, 'th')}{''.join(lines)}</table>"


def _line(cells: tuple[str, ...], kind: str = "td") -> str:
    return "<tr>" + "".join(f"<{kind}>{escape(cell)}</{kind}>" for cell in cells) + "</tr>"
