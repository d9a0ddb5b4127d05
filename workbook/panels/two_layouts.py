"""The first panel: one ball, two layouts, one lane."""

from dataclasses import replace

import ipywidgets as widgets

from workbook import demo, tables
from workbook.comparison import Comparison, compare
from workbook.draw.ball_picture import BallPicture
from workbook.draw.lane_picture import LanePicture
from workbook.lane import Lane
from workbook.layout import Layout
from workbook.panels.panel import Answer, Panel, Values
from workbook.setup import Setup
from workbook.staging import ball_scene, lane_scene
from workbook.surface import Surface

VAL_DEG = {"pin up": demo.PIN_UP_VAL_DEG, "pin down": demo.PIN_DOWN_VAL_DEG}
POLISHED = "polished"
GRITS = ("180", "360", "500", "800", "1000", "1500", "2000", "3000", "4000", "5000", POLISHED)
WIDE = {"style": {"description_width": "150px"}, "layout": widgets.Layout(width="430px")}


def two_layouts() -> Panel:
    """Pin up against pin down: the switch, pin distance, drilling angle, grit, for A and for B."""
    lane = Lane.house()
    setups = dict(zip("ab", demo.pin_up_and_down(), strict=True))

    def answer(values: Values) -> Answer:
        a, b = (_setup(setups[letter], letter, values) for letter in "ab")
        comparison = compare(a, b, lane)
        return Answer(
            scenes={
                "lane": lane_scene(lane, (a, b), (comparison.shot_a, comparison.shot_b)),
                "balls": (
                    ball_scene("A", a, comparison.shot_a),
                    ball_scene("B", b, comparison.shot_b),
                ),
            },
            texts={"numbers": numbers_html(comparison)},
        )

    controls: dict[str, widgets.ValueWidget] = {}
    for letter, side in (("a", "pin up"), ("b", "pin down")):
        controls |= _controls(letter, side)
    panel = Panel(
        controls=controls,
        pictures={"lane": LanePicture(), "balls": BallPicture()},
        texts=("numbers",),
        answer=answer,
    )
    columns = [
        widgets.VBox([control for name, control in controls.items() if name.endswith(f"_{letter}")])
        for letter in "ab"
    ]
    panel.box.children = [
        widgets.HBox(columns, layout=widgets.Layout(flex_flow="row wrap")),
        panel.status,
        *panel.images.values(),
        *panel.texts.values(),
    ]
    return panel


def _controls(letter: str, side: str) -> dict[str, widgets.ValueWidget]:
    label = letter.upper()
    return {
        f"pin_{letter}": widgets.ToggleButtons(
            options=list(VAL_DEG), value=side, description=label, style={"button_width": "120px"}
        ),
        f"distance_{letter}": widgets.FloatSlider(
            4.5, min=0, max=6.75, step=0.125, description=f"{label}: pin-to-PAP [in]",
            readout_format=".3f", **WIDE,
        ),
        f"drilling_{letter}": widgets.FloatSlider(
            45, min=0, max=180, step=5, description=f"{label}: drilling angle [°]",
            readout_format=".0f", **WIDE,
        ),
        f"grit_{letter}": widgets.SelectionSlider(
            options=GRITS, value="2000", description=f"{label}: surface grit", **WIDE
        ),
    }  # fmt: skip


def _setup(base: Setup, letter: str, values: Values) -> Setup:
    grit = values[f"grit_{letter}"]
    return replace(
        base,
        layout=Layout(
            drilling_angle_deg=values[f"drilling_{letter}"],
            pin_to_pap_in=values[f"distance_{letter}"],
            val_angle_deg=VAL_DEG[values[f"pin_{letter}"]],
        ),
        surface=Surface(polished=True) if grit == POLISHED else Surface(grit=float(grit)),
        name=values[f"pin_{letter}"],
    )


def numbers_html(c: Comparison) -> str:
    """The comparison's rows as an HTML table: A, B and the difference."""
    lines = ['<table class="workbook-table"><tr><th></th><th>A</th><th>B</th><th>B − A</th></tr>']
    group = ""
    for row in tables.comparison_rows(c):
        if row.group != group:
            group = row.group
            lines.append(f'<tr><th colspan="4" style="text-align:left">{group}</th></tr>')
        cells = (
            tables.shown(row.a, row.digits),
            tables.shown(row.b, row.digits),
            tables.shown(row.difference, row.digits, sign=True),
        )
        numbers = "".join(f'<td style="text-align:right">{cell}</td>' for cell in cells)
        lines.append(f"<tr><td>{row.words} [{row.unit}]</td>{numbers}</tr>")
    return "".join(lines) + "</table>"
