"""Controls for the input records, shared by the panels, and the records that they describe."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import ipywidgets as widgets

from workbook import demo, sources
from workbook.ball import COVERS, Ball
from workbook.bowler import Bowler
from workbook.grip import SPAN_IN, Grip
from workbook.lane import STANDARD, Lane
from workbook.layout import Layout
from workbook.line import Line
from workbook.panels.controls import menu, slider, steps, wide
from workbook.surface import Surface

# what the switch of the pin means
VAL_DEG = {"pin up": demo.PIN_UP_VAL_DEG, "pin down": demo.PIN_DOWN_VAL_DEG}
OWN = "none of them: as set here"
POLISHED = "polished"
GRITS = (
    "180", "360", "500", "800", "1000", "1200", "1500", "2000", "2500",
    "3000", "4000", "5000", POLISHED,
)  # fmt: skip
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
LAYOUT = {
    "pin_to_pap_in": (0.125, 3), "drilling_angle_deg": (5, 0), "val_angle_deg": (5, 0),
}  # fmt: skip
LINE = ("laydown_board", "arrow_board")

Controls = dict[str, widgets.ValueWidget]
Values = Mapping[str, Any]


def of_layout(name: str, layout: Layout, words: str = "") -> widgets.FloatSlider:
    """The slider of one of the three numbers of a layout."""
    step, digits = LAYOUT[name]
    return slider(Layout, name, getattr(layout, name), step, digits=digits, words=words)


def of_bowler(style: str) -> Controls:
    """The clinic's menu, the hand, and a slider for each number of the bowler."""
    who = demo.STYLES[style].bowler
    made: Controls = {
        "style": menu("bowler of the clinic", [*demo.STYLES, OWN], style),
        "hand": menu("hand", ["right", "left"], who.hand),
    }
    return made | {
        name: slider(Bowler, name, getattr(who, name), step, digits=digits)
        for name, (step, digits) in BOWLER.items()
    }


def of_ball(ball: Ball) -> Controls:
    """A slider for each number of the spec sheet, and the cover."""
    made: Controls = {
        name: slider(Ball, name, getattr(ball, name), step, digits=digits)
        for name, (step, digits) in BALL.items()
    }
    return made | {"cover": menu("cover", list(COVERS), ball.cover)}


def of_grip(style: str) -> Controls:
    """With or without a thumb hole, and the span."""
    low, high = SPAN_IN
    return {
        "grip": menu("grip", list(GRIPS), grip_words(demo.STYLES[style].thumb)),
        "span": widgets.FloatSlider(
            sources.value("usual_span"), min=low, max=high, step=0.0625,
            description="span, cut to cut [in]", readout_format=".4f", **wide(),
        ),
    }  # fmt: skip


def of_lane(style: str) -> Controls:
    """The lane, and the line of a bowler of the clinic."""
    lanes = [
        (f"{name}: {lane.volume_ml:.0f} mL, {lane.length_ft:.0f} ft", name)
        for name, lane in LANES.items()
    ]
    made: Controls = {"lane": menu("lane", lanes, "house")}
    line = demo.STYLES[style].line
    return made | {name: slider(Line, name, getattr(line, name), 0.5, digits=1) for name in LINE}


def of_surface(words: str = "surface [grit]", grit: str = "2000") -> widgets.SelectionSlider:
    """A slider of grits, polished at its end."""
    return steps(words, GRITS, grit)


def bowler_from(base: Bowler, values: Values) -> Bowler:
    """`base` with what the controls say."""
    return replace(base, hand=values["hand"], **{name: values[name] for name in BOWLER})


def ball_from(base: Ball, values: Values) -> Ball:
    """`base` with what the controls say."""
    return replace(base, cover=values["cover"], **{name: values[name] for name in BALL})


def grip_from(values: Values) -> Grip:
    """The usual grip that the controls describe."""
    return Grip.usual(values["span"], thumb=GRIPS[values["grip"]])


def surface_from(grit: str) -> Surface:
    """The surface that a slider of grits names."""
    return Surface(polished=True) if grit == POLISHED else Surface(grit=float(grit))


def grip_words(thumb: bool) -> str:
    """The grip's name in the menu."""
    return next(words for words, has_thumb in GRIPS.items() if has_thumb == thumb)


def style_of(bowler: Bowler, values: Values) -> str:
    """What the clinic's menu says: the bowler chosen while the release is theirs."""
    known = demo.STYLES.get(values["style"])
    return values["style"] if known and known.bowler == bowler else OWN


def offer(menu: widgets.Dropdown | widgets.SelectionSlider, choice: str) -> None:
    """Add a choice to the end of a list, and keep what is chosen."""
    if choice not in menu.options:
        chosen = menu.value
        menu.options = [*menu.options, choice]
        menu.value = chosen
