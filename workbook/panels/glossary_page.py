"""The glossary on a page: a box to type into, and a table of the terms that hold what is typed."""

import ipywidgets as widgets

from workbook.glossary import TERMS, matching
from workbook.layout_tables import Table
from workbook.panels.html import STYLE, spoken_html, table_html
from workbook.panels.panel import Answer, Panel, Values

HEAD = ("term", "what it means", "unit", "positive")
SENTENCES = """<style>
.workbook-terms .workbook-tables td { white-space: normal; text-align: left; vertical-align: top; }
.workbook-terms .workbook-tables td:nth-child(3) { white-space: nowrap; }
.workbook-terms .workbook-tables th { text-align: left; vertical-align: top; }
</style>"""


def show_glossary() -> Panel:
    """All terms of the workbook as a table, and a box that leaves those with the words in it."""
    find = widgets.Text(
        description="find", placeholder="a word, e.g. flare", continuous_update=True,
        style={"description_width": "initial"}, layout={"width": "400px", "max_width": "100%"},
    )  # fmt: skip
    panel = Panel(
        controls={"find": find}, pictures={}, texts=("count", "terms"), answer=_answer
    )  # fmt: skip
    panel.arrange([widgets.HTML(STYLE + SENTENCES), find, panel.status, panel.texts["count"],
                   panel.texts["terms"]])  # fmt: skip
    return panel


def _answer(values: Values) -> Answer:
    found = matching(values["find"])
    rows = tuple((_name(*one), one.meaning, one.unit, one.positive) for one in found)
    said = f"{len(found)} of {len(TERMS)} terms" if found else "No term has these words"
    return Answer(
        texts={
            "count": spoken_html(f"{said}."),
            "terms": table_html(Table(HEAD, rows)) if found else "",
        }
    )


def _name(name: str, _meaning: str, _unit: str, _positive: str, also: tuple[str, ...]) -> str:
    """The name, and in brackets the others that are no mere plural or part of it."""
    others = [one for one in also if one not in name and name.rstrip("s") not in one]
    return f"{name} ({', '.join(others)})" if others else name
