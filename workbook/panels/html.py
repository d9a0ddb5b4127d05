"""Tables of a comparison as HTML, and the panels' few style rules."""

from html import escape
from itertools import groupby

from workbook import tables
from workbook.comparison import Comparison
from workbook.layout_tables import Table

STYLE = """<style>
.workbook-panel { font-size: 15px; width: 100%; container-type: inline-size; }
.workbook-panel > *, .workbook-panel .widget-box > * { /* full width has margins beside it */
  max-width: calc(100% - 4px) !important; }
.workbook-panel .widget-label, .workbook-panel .widget-readout { font-size: 14px; }
.workbook-first { display: grid !important; grid-template-columns: repeat(6, minmax(0, 1fr));
  column-gap: 8px; align-items: center; }
.workbook-first > * { width: auto !important; }
.workbook-first .widget-label { width: 120px !important; }
.workbook-columns .widget-label { width: 150px !important; }
.workbook-first .widget-readout { min-width: 62px; }
.workbook-first .widget-toggle-buttons { display: flex; align-items: center; }
.workbook-first .widget-toggle-buttons .widget-label { width: 36px !important; }
.workbook-sentence p { font-size: 17px; line-height: 1.35; margin: 4px; min-height: 4.1em; }
.workbook-notes li { line-height: 1.4; }
.workbook-status { color: #a8123e; font-weight: bold; }
.workbook-kept { color: var(--jp-ui-font-color1, #1d2127); font-weight: normal; }
.workbook-tables { display: flex; flex-wrap: wrap; overflow-x: auto; gap: 4px 36px;
  align-items: flex-start; }
.workbook-panel .widget-html-content { min-width: 0; max-width: 100%; }
.workbook-tables table { border-collapse: collapse; }
.workbook-tables td, .workbook-tables th { padding: 1px 8px; line-height: 1.35; text-align: right;
  white-space: nowrap; }
.workbook-tables tr > :first-child { text-align: left; white-space: normal; }
.workbook-tables [scope=row] { font-weight: normal; }
.workbook-tables tr:nth-child(even) > * { background: rgba(120, 120, 120, 0.09); }
.workbook-beside { align-items: center; }
.workbook-beside > * { flex: 1 1 50%; min-width: 0; }
.workbook-code textarea { width: 100%; box-sizing: border-box; font: 13px monospace; }
@container (max-width: 760px) { /* a narrow or zoomed window, or Lab's file browser beside it */
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
    return _scrolling(f"<div>{ball_and_rating}</div>{shot}", "the numbers")


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
        f"{_scrolling(table, 'what causes the difference')}<p>Each property of A is swapped for "
        "that of B, one at a time and in every order; the shares add up to the difference. Hook "
        "potential and the length are rated on the reference lane, the rest is this shot. "
        "Sharpness is the most turn of the path in any 5 ft. Flare stands for how the spin axis "
        "moves in the ball, its direction included: differentials and axes.</p>"
    )


def table_html(table: Table) -> str:
    """A table of words and numbers."""
    return _scrolling(_table(table.head, [_line(row) for row in table.rows]), table.head[0])


def _table(head: tuple[str, ...], lines: list[str]) -> str:
    return f"<table>{_line(head, 'th')}{''.join(lines)}</table>"


def _scrolling(tables_html: str, called: str) -> str:
    """Tables in a box that the keyboard can scroll sideways where there is no room for them."""
    name = escape(called or "table", quote=True)
    return (
        f'<div class="workbook-tables" tabindex="0" role="region" aria-label="{name}">'
        f"{tables_html}</div>"
    )


def _line(cells: tuple[str, ...], kind: str = "td") -> str:
    """A row of a table; its first cell is the row's heading."""
    first, *rest = (escape(cell) for cell in cells)
    scope = "col" if kind == "th" else "row"
    others = "".join(f"<{kind}>{cell}</{kind}>" for cell in rest)
    return f'<tr><th scope="{scope}">{first}</th>{others}</tr>'
