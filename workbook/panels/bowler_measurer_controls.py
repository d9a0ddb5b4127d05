"""The controls of the panel that measures a bowler, and what their texts say."""

import ipywidgets as widgets

from workbook import demo, errors, sources
from workbook.ball import Ball
from workbook.demo_tracks import CIRCUMFERENCE_IN, SPARE, Measurements, measurements
from workbook.errors import InputRefused
from workbook.measuring import (
    Measured,
    axis_rotation_deg,
    axis_tilt_deg,
    mean_speed_mph,
    rev_rate_rpm,
)  # fmt: skip
from workbook.panels.controls import folded, menu, slider, steps, tick
from workbook.panels.html import STYLE
from workbook.panels.panel import Panel
from workbook.panels.record_controls import OWN, Controls, Values
from workbook.track import ERROR_IN
from workbook.track_words import inches
from workbook.typed import number_from, pair_from

ERRORS = ("1/32", "1/16", "3/32", "1/8", "3/16", "1/4")
BY_HAND, BY_FRAME = "a stopwatch", "frames of the video"
# text fields: words, unit that may be written behind the number
TYPED = {
    "distance_ft": ("from the foul line", "ft"),
    "time_s": ("time", "s"),
    "frames_a_second": ("frames a second", ""),
    "turns": ("turns", ""),
    "frames": ("frames they took", ""),
    "along_in": ("along the line", "in"),
    "across_in": ("across the line", "in"),
    "length_error_in": ("each within", "in"),
    "tape_in": ("tape over the track", "in"),
}
GROUPS = {
    "speed": ("distance_ft", "time_s"),
    "revs": ("turns", "frames", "frames_a_second"),
    "rotation": ("along_in", "across_in", "length_error_in"),
    "tape": ("tape_in",),
}
LENGTH_ERROR = "1/4"
FIRST = ("style", "ball", "hand", "error")


def controls(style: str) -> Controls:
    """All controls; the panel starts with a bowler of the clinic."""
    who = demo.STYLES[style]
    made: Controls = {
        "style": menu("bowler", [*demo.STYLES, OWN], style),
        "ball": menu("thrown with", list(demo.balls()), SPARE),
        "hand": menu("hand", ["right", "left"], who.bowler.hand),
        "thumb": tick("thumb hole", "a ball without one has an agreed grip centre", on=who.thumb),
        "error": steps("measured to [in]", ERRORS, inches(ERROR_IN)),
        "around_in": slider(
            Ball, "circumference_in", CIRCUMFERENCE_IN, 0.01, words="circumference"
        ),
        "points": widgets.Textarea(
            description="over, up [in]", continuous_update=False, rows=10,
            layout=widgets.Layout(flex="0 0 270px", width="270px", height="232px"),
            style={"description_width": "100px"},
        ),
        "timed": menu("timed with", [BY_HAND, BY_FRAME], BY_HAND),
    }  # fmt: skip
    for name, (words, unit) in TYPED.items():
        made[name] = widgets.Text(
            description=f"{words} [{unit}]" if unit else words, continuous_update=False,
            placeholder="not measured", style={"description_width": "165px"},
            layout=widgets.Layout(width="290px", max_width="100%"),
        )  # fmt: skip
    for name in ("timed", "around_in"):
        made[name].style.description_width, made[name].layout.width = "165px", "290px"
    for name, text in texts_of(measurements(style)).items():
        made[name].value = text
    return made


def texts_of(found: Measurements) -> dict[str, str]:
    """What the text fields hold for the invented measurements of a bowler of the clinic."""
    plain = ("distance_ft", "turns", "frames", "frames_a_second")
    return {
        "points": "\n".join(f"{inches(over)}, {inches(up)}" for over, up in found.points),
        "time_s": f"{found.time_s:.2f}",
        "length_error_in": LENGTH_ERROR,
        **{name: f"{getattr(found, name):g}" for name in plain},
        **{name: inches(getattr(found, name)) for name in ("along_in", "across_in", "tape_in")},
    }


def left_over(values: Values, filled: dict[str, str]) -> list[str]:
    """Groups whose fields are still those of the invented bowler although the points are not."""
    if values["points"] == filled["points"]:
        return []
    return [
        group for group, names in GROUPS.items()
        if all(values[name] and values[name] == filled[name] for name in names)
    ]  # fmt: skip


def points_from(text: str) -> list[tuple[float, float]]:
    """The points of a text, one a line; blank lines do not count.

    Raises
    ------
    InputRefused
        A line that is not two numbers; the sentence names the line.
    """
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip():
            try:
                found.append(pair_from(line.strip(), "in"))
            except InputRefused as why:
                raise InputRefused(f"line {number}: {why}") from None
    return found


def measured_from(values: Values) -> dict[str, Measured | None]:
    """What the typed fields say, by group; None for a group of which nothing is filled in.

    Raises
    ------
    InputRefused
        A field that is no number, one that its group lacks, or a value outside its limits.
    """
    n = {name: _number(values, name) for name in TYPED}
    found: dict[str, Measured | None] = dict.fromkeys(GROUPS)
    for group, names in GROUPS.items():
        # frames a second and the error of the lengths stay when the rest is emptied
        if any(n[name] is not None for name in names[:2]):
            lacks = [TYPED[name][0] for name in names if n[name] is None]
            if lacks:
                raise InputRefused(f"{lacks[0]} is missing: fill it in, or empty its neighbours.")
            found[group] = _measured(group, [float(n[name] or 0.0) for name in names], n, values)
    return found


def _measured(
    group: str, given: list[float], n: dict[str, float | None], values: Values
) -> Measured:
    if group == "speed":
        by_hand, rate = values["timed"] == BY_HAND, n["frames_a_second"]
        if not by_hand and not rate:
            raise InputRefused("frames a second is missing: a time from frames needs it.")
        if not by_hand:
            rate = errors.number("frames a second", rate, "1/s", 1.0, 1000.0)
        off = sources.value("stopwatch_error") if by_hand else 1.0 / (rate or 1.0)
        return mean_speed_mph(given[0], given[1], min(off, 1.0))
    if group == "revs":
        return rev_rate_rpm(*given)
    if group == "rotation":
        return axis_rotation_deg(*given)
    tilt = axis_tilt_deg(given[0], values["around_in"], number_from(values["error"]))
    # 9 times in 10, as the tilt from the ring
    return Measured(tilt.value, sources.value("ninety_percent") * tilt.error)


def _number(values: Values, name: str) -> float | None:
    words, unit = TYPED[name]
    text = values[name].strip()
    try:
        return number_from(text, unit) if text else None
    except InputRefused as why:
        raise InputRefused(f"{words}: {why}") from None


def arrange(panel: Panel, files: widgets.Widget, empty: widgets.Widget) -> None:
    """Who and how on top, the points beside the ball, the other measurements under them."""
    c, row = panel.controls, widgets.Layout(flex_flow="row wrap", width="100%")
    first = widgets.GridBox([c[name] for name in FIRST])
    first.add_class("workbook-first")
    for name in FIRST:
        c[name].layout.grid_area = "auto / span 3"
    groups = [
        widgets.VBox([widgets.HTML(f"<b>{words}</b>"), *(c[name] for name in names)])
        for words, names in (
            ("Speed", (*GROUPS["speed"], "timed")), ("Revs, from a video", GROUPS["revs"]),
            ("Rotation: a piece of track", GROUPS["rotation"]), ("Tilt, by tape", GROUPS["tape"]),
            ("The ball", ("around_in", "thumb")),
        )
    ]  # fmt: skip
    panel.images["ball"].layout = widgets.Layout(flex="1 1 0%", min_width="0", height="auto")
    beside = widgets.HBox([c["points"], panel.images["ball"]], layout={"align_items": "center"})
    tables = widgets.HBox([panel.texts["numbers"], panel.texts["match"]], layout=row)
    folds = {
        "Speed, revs, rotation, tape": widgets.VBox([widgets.HBox(groups, layout=row), empty]),
        "Save and load": files,
        "Copy as code": panel.texts["code"],
    }
    panel.arrange([
        widgets.HTML(STYLE), first, panel.status, panel.texts["sentence"], beside,
        panel.images["track"], folded(folds), tables, panel.texts["notes"],
    ])  # fmt: skip
