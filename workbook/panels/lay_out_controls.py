"""The controls of the panel that lays out one ball, and where they stand."""

from inspect import signature
from typing import Any

import ipywidgets as widgets

from workbook import demo, sources
from workbook.errors import InputRefused
from workbook.grip import SPAN_IN, Grip, Hole
from workbook.lane import Lane
from workbook.layout import read_marks
from workbook.panels import record_controls as records
from workbook.panels.controls import folded, slider, switch, tick, wide
from workbook.panels.html import STYLE, list_html
from workbook.panels.panel import Panel
from workbook.panels.record_controls import BALL, BOWLER, LAYOUT, VAL_DEG, Controls, Values
from workbook.setup import Setup
from workbook.tables import shown
from workbook.typed import number_from

LANE = Lane.house()
PITCHES = {
    f"{hole}_{way}": (f"{way}_pitch_in", f"{hole}: {way} pitch")
    for hole in ("middle", "ring", "thumb") for way in ("forward", "lateral")
}  # fmt: skip
SPANS = {"middle_span": "middle span, cut to cut", "ring_span": "ring span, cut to cut"}
HOLES = {
    "finger_bore": ("diameter_in", "finger bore"),
    "finger_inner": ("insert_inner_in", "hole in the insert"),
    "finger_depth": ("depth_in", "finger depth"),
    "thumb_hole": ("diameter_in", "thumb hole"),
    "thumb_slug": ("diameter_in", "bore of the thumb's slug"),
    "thumb_depth": ("depth_in", "thumb depth"),
}
TICKS = ("thumb", "inserts", "slug")
GRIP = (*TICKS, *SPANS, "bridge", *HOLES, *PITCHES)
MARKS = {
    "pin_over": "pin over", "pin_up": "pin up",
    "mark_over": "PSA or CG mark over", "mark_up": "PSA or CG mark up",
}  # fmt: skip


def controls(style: str, setup: Setup) -> Controls:
    """All controls; the panel starts with the setup and a bowler of the clinic."""
    made: Controls = {"pin": switch("pin", list(VAL_DEG), "pin up")}
    made |= {
        name: records.of_layout(name, setup.layout, "pin-to-PAP" if "pap" in name else "")
        for name in LAYOUT
    }
    made |= records.of_bowler(style) | records.of_ball(setup.ball)
    made |= _of_grip(demo.STYLES[style].thumb)
    low, high = sources.FACTS["kappa"].range
    made["scale_oz"] = widgets.FloatSlider(
        1.0, min=1.0 / high, max=1.0 / low, step=0.05, readout_format=".2f",
        description="1 oz taped on reads [oz]", **wide(),
    )  # fmt: skip
    for name, words in MARKS.items():
        made[name] = widgets.Text(
            description=f"{words} [in]", continuous_update=False, placeholder="e.g. 1 3/4",
            tooltip="From the grip centre over the surface: over along the midline, then up.",
            **wide(),
        )  # fmt: skip
    return made


def _of_grip(thumb: bool) -> Controls:
    usual = {name: sources.value(f"usual_{name}") for name in HOLES}
    made: Controls = {
        "thumb": tick("thumb hole", on=thumb),
        "inserts": tick("finger inserts", on=True),
        "slug": tick("thumb slug", on=True),
    }
    low, high = SPAN_IN
    for name, words in (*SPANS.items(), ("bridge", "bridge")):
        value, ends = sources.value("usual_span"), (low, high)
        if name == "bridge":
            value, ends = sources.value("usual_bridge"), (0.0, 2.0)
        made[name] = widgets.FloatSlider(
            value, min=ends[0], max=ends[1], step=0.0625, description=f"{words} [in]",
            readout_format=".4f", **wide(),
        )  # fmt: skip
    for name, (field, words) in HOLES.items():
        made[name] = slider(Hole, field, usual[name], 1 / 32, words=words, digits=4)
    for name, (field, words) in PITCHES.items():
        made[name] = slider(Hole, field, 0.0, 1 / 16, words=words, digits=4)
    return made


def grip_from(values: Values, around_in: float) -> Grip:
    """The grip that the controls describe, on a ball of that circumference [in]."""
    return Grip.from_spans(**_spans(values), circumference_in=around_in)


def grip_code(values: Values, around_in: float) -> str:
    """The same as code, what has its default value left out."""
    usual = signature(Grip.from_spans).parameters
    spans = _spans(values) | {"circumference_in": around_in}
    given = [f"{name}={v!r}" for name, v in spans.items() if v != usual[name].default]
    return f"wb.Grip.from_spans({', '.join(given)})"


def _spans(values: Values) -> dict[str, Any]:
    sizes = {f"{name}_in": values[name] for name in (*SPANS, "bridge", *HOLES)}
    pitches = {
        f"{hole}_pitch_in": (values[f"{hole}_forward"], values[f"{hole}_lateral"])
        for hole in ("middle", "ring", "thumb")
    }
    bare = {} if values["inserts"] else {"finger_inner_in": None}
    bare |= {} if values["slug"] else {"thumb_slug_in": None}
    return sizes | pitches | bare | {"thumb": values["thumb"]}


def read_back(setup: Setup, values: Values) -> str:
    """The layout of a drilled ball from its measured marks, for the bowler's PAP, as HTML."""
    typed = {name: values[name].strip() for name in MARKS}
    if not any(typed.values()):
        return (
            "Measure pin and mass mark from the grip centre: over along the midline, then up. Type "
            "all four; the layout for the PAP set under Bowler appears here."
        )
    try:
        found = {name: _typed(MARKS[name], text) for name, text in typed.items()}
        reading = read_marks(
            setup.bowler.pap, setup.ball, (found["pin_over"], found["pin_up"]),
            (found["mark_over"], found["mark_up"]),
        )  # fmt: skip
    except InputRefused as refusal:
        return list_html([str(refusal)])
    layout = reading.layout
    said = (
        f"Layout: drilling angle {shown(layout.drilling_angle_deg, 1)}°, pin to PAP "
        f"{shown(layout.pin_to_pap_in, 2)} in, VAL angle {shown(layout.val_angle_deg, 1)}°."
    )
    return list_html([said, *reading.doubts])


def _typed(words: str, text: str) -> float:
    try:
        return number_from(text)
    except InputRefused as why:
        raise InputRefused(f"{words}: {why}") from None


def arrange(panel: Panel, files: widgets.Widget) -> None:
    """Switch and the three numbers on top, ball beside its marks, maps, the rest folded away."""
    c, row = panel.controls, widgets.Layout(flex_flow="row wrap", width="100%")
    first = widgets.GridBox([c["pin"], *(c[name] for name in LAYOUT)])
    first.add_class("workbook-first")
    for name in ("pin", *LAYOUT):
        c[name].layout.grid_area = "auto / span 6" if name == "pin" else "auto / span 2"
    back = widgets.VBox([widgets.HBox([c[n] for n in MARKS], layout=row), panel.texts["back"]])
    folds = {
        "Bowler": widgets.HBox([c[n] for n in ("style", "hand", *BOWLER)], layout=row),
        "Ball": widgets.HBox([c[n] for n in (*BALL, "cover")], layout=row),
        "Grip": widgets.HBox(
            [
                widgets.HBox([c[n] for n in part], layout=row)
                for part in (TICKS, (*SPANS, "bridge", *HOLES), PITCHES)
            ],
            layout=row,
        ),
        "The scale": c["scale_oz"],
        "Read a drilled ball": back,
        "Save and load": files,
        "Copy as code": panel.texts["code"],
    }
    panel.images["ball"].layout.width = "100%"
    beside = widgets.HBox([panel.images["ball"], panel.texts["marks"]])
    beside.add_class("workbook-beside")
    panel.arrange([
        widgets.HTML(STYLE), first, folded(folds), panel.status, panel.texts["sentence"],
        beside, panel.images["maps"], panel.texts["holes"], panel.texts["notes"],
    ])  # fmt: skip
