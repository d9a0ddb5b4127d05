"""The controls of the first panel, and where they stand."""

from collections.abc import Mapping

import ipywidgets as widgets

from workbook import demo, sources
from workbook.ball import COVERS, Ball
from workbook.bowler import Bowler
from workbook.grip import SPAN_IN
from workbook.lane import STANDARD, Lane
from workbook.layout import Layout
from workbook.line import Line
from workbook.panels.controls import folded, menu, slider, steps, switch, tick, wide
from workbook.panels.html import STYLE
from workbook.panels.panel import Panel
from workbook.setup import Setup

VAL_DEG = {"pin up": demo.PIN_UP_VAL_DEG, "pin down": demo.PIN_DOWN_VAL_DEG}
OWN = "none of them: as set here"
POLISHED = "polished"
GRITS = ("180", "360", "500", "800", "1000", "1500", "2000", "3000", "4000", "5000", POLISHED)
LANES = {name: getattr(Lane, name)() for name in STANDARD}
GRIPS = {"with thumb hole": True, "no thumb hole": False}
# fields of the records, with the slider's step and decimals
BOWLER = {
    "pap_over_in": (0.125, 3), "pap_up_in": (0.125, 3), "speed_mph": (0.25, 2),
    "rev_rate_rpm": (10, 0), "axis_rotation_deg": (5, 0), "axis_tilt_deg": (1, 0),
}  # fmt: skip
BALL = {
    "weight_lb": (0.5, 1), "rg_low_in": (0.01, 2), "differential_in": (0.001, 3),
    "intermediate_in": (0.001, 3), "top_weight_oz": (0.25, 2), "pin_to_cg_in": (0.25, 2),
}  # fmt: skip
LINE = ("laydown_board", "arrow_board")
SHARED = {
    "distance": "pin-to-PAP [in]", "drilling": "drilling angle [°]", "grit": "surface [grit]",
}  # fmt: skip

Controls = dict[str, widgets.ValueWidget]


def controls(style: str, setups: Mapping[str, Setup]) -> Controls:
    """All controls; the panel starts with the setups "a" and "b" and a bowler of the clinic."""
    made: Controls = {}
    for letter, setup in setups.items():
        up = setup.layout.val_angle_deg == demo.PIN_UP_VAL_DEG
        made[f"pin_{letter}"] = switch(
            f"{letter.upper()} is", list(VAL_DEG), "pin up" if up else "pin down"
        )
    for letter, setup in setups.items():
        made |= _of_layout(letter, setup.layout)
    made["apart"] = tick("A and B apart", "own pin distance, drilling angle and surface for each")
    return made | _of_bowler(style) | _of_ball(setups["a"].ball) | _of_lane(style)


def _of_layout(letter: str, layout: Layout) -> Controls:
    return {
        f"distance_{letter}": slider(
            Layout, "pin_to_pap_in", layout.pin_to_pap_in, 0.125, digits=3),
        f"drilling_{letter}": slider(
            Layout, "drilling_angle_deg", layout.drilling_angle_deg, 5, digits=0),
        f"grit_{letter}": steps("surface [grit]", GRITS, "2000"),
        f"val_{letter}": slider(
            Layout, "val_angle_deg", layout.val_angle_deg, 5, digits=0,
            words=f"{letter.upper()}: VAL angle"),
    }  # fmt: skip


def _of_bowler(style: str) -> Controls:
    who = demo.STYLES[style].bowler
    made: Controls = {
        "style": menu("bowler of the clinic", [*demo.STYLES, OWN], style),
        "hand": menu("hand", ["right", "left"], who.hand),
    }
    return made | {
        name: slider(Bowler, name, getattr(who, name), step, digits=digits)
        for name, (step, digits) in BOWLER.items()
    }


def _of_ball(ball: Ball) -> Controls:
    made: Controls = {
        name: slider(Ball, name, getattr(ball, name), step, digits=digits)
        for name, (step, digits) in BALL.items()
    }
    return made | {"cover": menu("cover", list(COVERS), ball.cover)}


def _of_lane(style: str) -> Controls:
    """Grip, lane and line."""
    who = demo.STYLES[style]
    lanes = [
        (f"{name}: {lane.volume_ml:.0f} mL, {lane.length_ft:.0f} ft", name)
        for name, lane in LANES.items()
    ]
    low, high = SPAN_IN
    made: Controls = {
        "grip": menu("grip", list(GRIPS), next(w for w, t in GRIPS.items() if t == who.thumb)),
        "span": widgets.FloatSlider(
            sources.value("usual_span"), min=low, max=high, step=0.0625,
            description="span, cut to cut [in]", readout_format=".4f", **wide(),
        ),
        "lane": menu("lane", lanes, "house"),
    }  # fmt: skip
    made |= {name: slider(Line, name, getattr(who.line, name), 0.5, digits=1) for name in LINE}
    return made | {"light": tick("light bands of what could be", on=True)}


def offer(menu: widgets.Dropdown | widgets.SelectionSlider, choice: str) -> None:
    """Add a choice to the end of a list, and keep what is chosen."""
    if choice not in menu.options:
        chosen = menu.value
        menu.options = [*menu.options, choice]
        menu.value = chosen


def offer_grit(slider: widgets.SelectionSlider, grit: str) -> None:
    """Let a slider of grits stand at one that a file brings."""
    if grit not in slider.options:
        chosen = slider.value
        grits = sorted({*slider.options, grit} - {POLISHED}, key=float)
        slider.options = [*grits, POLISHED]
        slider.value = chosen


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
