"""The controls of the panel that shows a shot in time, and where they stand."""

import ipywidgets as widgets

from workbook import demo
from workbook.line import Line
from workbook.panels import record_controls as records
from workbook.panels.controls import folded, slider, switch, tick
from workbook.panels.html import STYLE
from workbook.panels.panel import Panel
from workbook.panels.record_controls import BOWLER, LINE, VAL_DEG, Controls

COLUMNS = {"a": "auto / 1 / auto / span 3", "b": "auto / 4 / auto / span 3"}
BOARDS = {"laydown_board": "laydown board", "arrow_board": "arrow board"}


def controls(style: str) -> Controls:
    """All controls; A starts pin up and B pin down, with a bowler of the clinic."""
    line = demo.STYLES[style].line
    made: Controls = {
        f"pin_{letter}": switch(f"{letter.upper()} is", list(VAL_DEG), words)
        for letter, words in zip("ab", VAL_DEG, strict=True)
    }
    for letter in "ab":
        made[f"grit_{letter}"] = records.of_surface(f"{letter.upper()}: surface [grit]")
    made |= records.of_bowler(style)
    made |= {name: one for name, one in records.of_lane(style).items() if name == "lane"}
    made["own"] = tick("each its own line", "B's line apart from A's")
    for letter in "ab":
        for name in LINE:
            made[f"{name}_{letter}"] = slider(Line, name, getattr(line, name), 0.5, digits=1)
    place_lines(made, own=False)
    return made


def arrange(panel: Panel, rolling: widgets.DOMWidget) -> None:
    """Switches, surfaces, bowler and lane on top; the shot in time, then the curves."""
    c, row = panel.controls, widgets.Layout(flex_flow="row wrap", width="100%")
    each = {"pin_a": "a", "pin_b": "b", "grit_a": "a", "grit_b": "b", "style": "a", "lane": "b"}
    first = widgets.GridBox([c[name] for name in each])
    first.add_class("workbook-first").add_class("workbook-columns")
    for name, column in each.items():
        c[name].layout.grid_area = COLUMNS[column]
    lines = [widgets.HBox([c[f"{n}_{letter}"] for n in LINE], layout=row) for letter in "ab"]
    folds = {
        "Lines": widgets.VBox([c["own"], *lines]),
        "Bowler": widgets.HBox([c[n] for n in ("hand", *BOWLER)], layout=row),
        "What causes the difference": panel.texts["shares"],
        "Copy as code": panel.texts["code"],
    }
    panel.arrange([
        widgets.HTML(STYLE), first, folded(folds), panel.status, panel.texts["sentence"],
        rolling, panel.images["curves"], panel.texts["notes"],
    ])  # fmt: skip


def place_lines(c: Controls, *, own: bool) -> None:
    """Show B's own line, or one line for both."""
    for name, words in BOARDS.items():
        c[f"{name}_a"].description = f"A: {words}" if own else f"{words}, both"
        c[f"{name}_b"].description = f"B: {words}"
        c[f"{name}_b"].layout.display = "" if own else "none"
