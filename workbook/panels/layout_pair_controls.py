"""The controls of the first panel, and where they stand."""

from collections.abc import Mapping

import ipywidgets as widgets

from workbook import demo
from workbook.panels import record_controls as records
from workbook.panels.controls import folded, switch, tick
from workbook.panels.html import STYLE
from workbook.panels.panel import Panel
from workbook.panels.record_controls import BALL, BOWLER, LINE, VAL_DEG, Controls
from workbook.setup import Setup

SHARED = {
    "distance": "pin-to-PAP [in]", "drilling": "drilling angle [°]", "grit": "surface [grit]",
}  # fmt: skip


def controls(style: str, setups: Mapping[str, Setup]) -> Controls:
    """All controls; the panel starts with the setups "a" and "b" and a bowler of the clinic."""
    made: Controls = {}
    for letter, setup in setups.items():
        up = setup.layout.val_angle_deg == demo.PIN_UP_VAL_DEG
        made[f"pin_{letter}"] = switch(
            f"{letter.upper()} is", list(VAL_DEG), "pin up" if up else "pin down"
        )
    for letter, setup in setups.items():
        made |= {
            f"distance_{letter}": records.of_layout("pin_to_pap_in", setup.layout),
            f"drilling_{letter}": records.of_layout("drilling_angle_deg", setup.layout),
            f"grit_{letter}": records.of_surface(),
            f"val_{letter}": records.of_layout(
                "val_angle_deg", setup.layout, f"{letter.upper()}: VAL angle"
            ),
        }
    made["apart"] = tick("A and B apart", "own pin distance, drilling angle and surface for each")
    made |= records.of_bowler(style) | records.of_ball(setups["a"].ball)
    made |= records.of_grip(style) | records.of_lane(style)
    return made | {"light": tick("light bands of what could be", on=True)}


def arrange(panel: Panel, files: widgets.Widget) -> widgets.GridBox:
    """Switch on top, the three sliders under it, pictures and words, the rest folded away.

    Returns the box of the first controls, for `place`.
    """
    c, row = panel.controls, widgets.Layout(flex_flow="row wrap", width="100%")
    each = [f"{name}_{letter}" for name in ("pin", *SHARED, "val") for letter in "ab"]
    first = widgets.GridBox([c[name] for name in each] + [c["apart"]])
    first.add_class("workbook-first")
    folds = {
        "Bowler": widgets.HBox([c[n] for n in ("style", "hand", *BOWLER)], layout=row),
        "Ball": widgets.HBox([c[n] for n in (*BALL, "cover")], layout=row),
        "Grip": widgets.HBox([c["grip"], c["span"]], layout=row),
        "Lane and line": widgets.HBox([c[n] for n in ("lane", *LINE, "light")], layout=row),
        "What causes the difference": panel.texts["shares"],
        "Save and load": files,
        "Copy as code": panel.texts["code"],
    }  # fmt: skip
    panel.arrange([
        widgets.HTML(STYLE), first, folded(folds), panel.status, panel.texts["sentence"],
        panel.images["lane"], panel.texts["notes"], panel.images["balls"],
        panel.texts["numbers"],
    ])  # fmt: skip
    place(first, c, apart=False)
    return first


def place(first: widgets.GridBox, c: Controls, *, apart: bool) -> None:
    """A's controls in the left column and B's in the right; shared ones three in a row."""
    (first.add_class if apart else first.remove_class)("workbook-columns")
    for name, words in SHARED.items():
        c[f"{name}_a"].description = f"A: {words}" if apart else words
        c[f"{name}_b"].description = f"B: {words}"
        c[f"{name}_b"].layout.display = "" if apart else "none"
    for letter, column in (("a", "auto / 1 / auto / span 3"), ("b", "auto / 4 / auto / span 3")):
        c[f"pin_{letter}"].layout.grid_area = column
        for name in (*SHARED, "val"):
            c[f"{name}_{letter}"].layout.grid_area = column if apart else "auto / span 2"
    c["apart"].layout.grid_area = "auto / span 2"
