"""The first panel: one ball, two layouts, one lane."""

from dataclasses import replace
from html import escape
from typing import Any

import ipywidgets as widgets

from workbook import demo
from workbook.as_code import comparison_code, grip_code
from workbook.ball import COVERS, Ball
from workbook.bowler import Bowler
from workbook.certainty import difference_ranges
from workbook.comparison import Comparison, compare
from workbook.draw.ball_picture import BallPicture
from workbook.draw.lane_picture import LanePicture
from workbook.grip import Grip
from workbook.lane import Lane
from workbook.layout import Layout
from workbook.line import Line
from workbook.panels.controls import folded, menu, slider, steps, switch, wide
from workbook.panels.files import FileRow
from workbook.panels.html import STYLE, list_html, numbers_html, shares_html, spoken_html
from workbook.panels.panel import Answer, Panel, Values
from workbook.sentences import compare_sentence, notes, slider_notes
from workbook.setup import Setup
from workbook.staging import ball_scene, lane_scene
from workbook.surface import Surface

VAL_DEG = {"pin up": demo.PIN_UP_VAL_DEG, "pin down": demo.PIN_DOWN_VAL_DEG}
POLISHED = "polished"
GRITS = ("180", "360", "500", "800", "1000", "1500", "2000", "3000", "4000", "5000", POLISHED)
LANES = {name: getattr(Lane, name)() for name in ("house", "flat", "heavy", "dry", "reference")}
GRIPS = {"with thumb hole": True, "no thumb hole": False}
FROM_FILE = "as in the file"
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


class TwoLayouts:
    """Holds what the sliders do not show: files loaded, and which controls go where."""

    def __init__(self, style: str, *, alike: bool = False) -> None:
        up, down = demo.pin_up_and_down(style)
        self.alike = alike
        self.bases = {"a": up, "b": up if alike else down}
        self.line = demo.STYLES[style].line
        self.comparison: Comparison | None = None
        self.files = FileRow(self)
        self.panel = Panel(
            controls=self._controls(style),
            pictures={"lane": LanePicture(), "balls": BallPicture()},
            texts=("sentence", "notes", "numbers", "shares", "code"),
            answer=self._answer,
        )
        self._arrange()
        controls = self.panel.controls
        controls["style"].observe(self._style_chosen, names="value")
        controls["apart"].observe(self._taken_apart, names="value")
        for letter in "ab":
            controls[f"pin_{letter}"].observe(self._switched(letter), names="value")
            controls[f"val_{letter}"].observe(self._turned(letter), names="value")

    # What the controls mean

    def _answer(self, values: Values) -> Answer:
        a, b = (self.setup(letter, values) for letter in "ab")
        line = Line(**{name: values[name] for name in LINE})
        c = self.comparison = compare(a, b, LANES[values["lane"]], line)
        shots = (c.shot_a, c.shot_b)
        return Answer(
            scenes={
                "lane": lane_scene(c.lane, (a, b), shots),
                "balls": tuple(
                    ball_scene(label, setup, shot)
                    for label, setup, shot in zip("AB", (a, b), shots, strict=True)
                ),
            },
            texts={"sentence": spoken_html(compare_sentence(c, {})), "numbers": numbers_html(c)},
            later=(
                lambda: self._words(c, values),
                lambda: {"notes": list_html([*notes(c), *slider_notes(c)])},
            ),
        )

    def _words(self, c: Comparison, values: Values) -> dict[str, str]:
        ranges = difference_ranges(c.a, c.b, c.lane, c.line)
        return {
            "sentence": spoken_html(compare_sentence(c, ranges)),
            "shares": shares_html(c),
            "code": f"<pre>{escape(comparison_code(c, self._grip_code(values)))}</pre>",
        }

    def setup(self, letter: str, values: Values) -> Setup:
        """The setup that the controls describe."""
        own = letter if values["apart"] else "a"
        base = self.bases[letter]
        grit = values[f"grit_{own}"]
        val = values[f"val_{letter}"]
        setup = replace(
            base,
            bowler=replace(
                base.bowler, hand=values["hand"], **{name: values[name] for name in BOWLER}
            ),
            ball=replace(base.ball, cover=values["cover"], **{name: values[name] for name in BALL}),
            layout=Layout(
                drilling_angle_deg=values[f"drilling_{own}"],
                pin_to_pap_in=values[f"distance_{own}"],
                val_angle_deg=val,
            ),
            grip=self._grip(values),
            surface=Surface(polished=True) if grit == POLISHED else Surface(grit=float(grit)),
        )
        return replace(setup, name=f"pin {setup.drilled.pin_side}")

    def _grip(self, values: Values) -> Grip:
        if values["grip"] == FROM_FILE:
            return self.bases["a"].grip
        return Grip.usual(values["span"], thumb=GRIPS[values["grip"]])

    def _grip_code(self, values: Values) -> str:
        if values["grip"] == FROM_FILE:
            return grip_code(self.bases["a"].grip)
        thumb = "" if GRIPS[values["grip"]] else ", thumb=False"
        return f"wb.Grip.usual({values['span']!r}{thumb})"

    # What moves together

    def _style_chosen(self, change: dict[str, Any]) -> None:
        style = demo.STYLES[change["new"]]
        self.panel.set(
            hand=style.bowler.hand,
            grip=next(words for words, thumb in GRIPS.items() if thumb == style.thumb),
            **{name: getattr(style.bowler, name) for name in BOWLER},
            **{name: getattr(style.line, name) for name in LINE},
        )

    def _switched(self, letter: str) -> Any:
        def switched(change: dict[str, Any]) -> None:
            if change["new"]:
                self.panel.controls[f"val_{letter}"].value = VAL_DEG[change["new"]]

        return switched

    def _turned(self, letter: str) -> Any:
        def turned(change: dict[str, Any]) -> None:
            words = next((w for w, val in VAL_DEG.items() if val == change["new"]), None)
            self.panel.controls[f"pin_{letter}"].value = words

        return turned

    def _taken_apart(self, _change: object = None) -> None:
        """Show B's own sliders, from where A's stand, or put them away."""
        controls, apart = self.panel.controls, self.panel.controls["apart"].value
        for name, words in SHARED.items():
            a, b = controls[f"{name}_a"], controls[f"{name}_b"]
            a.description = f"A: {words}" if apart else words
            b.description = f"B: {words}"
            b.layout.display = "" if apart else "none"
            if apart and b.value != a.value:
                b.value = a.value
        self._place(apart)

    def load(self, letter: str, setup: Setup) -> None:
        """Take a setup from a file: bowler, ball and grip for both, layout and surface for one."""
        grit = setup.surface.grit
        values: dict[str, Any] = {
            "hand": setup.bowler.hand,
            "cover": setup.ball.cover,
            "grip": FROM_FILE,
            "apart": True,
            f"val_{letter}": setup.layout.val_angle_deg,
            f"distance_{letter}": setup.layout.pin_to_pap_in,
            f"drilling_{letter}": setup.layout.drilling_angle_deg,
            f"grit_{letter}": POLISHED if grit is None else f"{grit:g}",
            **{name: getattr(setup.bowler, name) for name in BOWLER},
            **{name: getattr(setup.ball, name) for name in BALL},
        }
        menu_before = self.panel.controls["grip"].options
        self.panel.controls["grip"].options = [*GRIPS, FROM_FILE]
        before = dict(self.bases)
        other = "b" if letter == "a" else "a"
        self.bases[letter] = setup
        self.bases[other] = replace(
            self.bases[other], bowler=setup.bowler, ball=setup.ball, grip=setup.grip,
            assumptions=setup.assumptions,
        )  # fmt: skip
        try:
            self.panel.set(**values)
        except ValueError:
            self.bases = before
            self.panel.controls["grip"].options = menu_before
            raise

    # What there is, and where

    def _controls(self, style: str) -> dict[str, widgets.ValueWidget]:
        who, a = demo.STYLES[style], self.bases["a"]
        controls: dict[str, widgets.ValueWidget] = {
            "pin_a": switch("A is", list(VAL_DEG), "pin up"),
            "pin_b": switch("B is", list(VAL_DEG), "pin up" if self.alike else "pin down"),
        }
        for letter in "ab":
            layout = self.bases[letter].layout
            controls |= {
                f"distance_{letter}": slider(
                    Layout, "pin_to_pap_in", layout.pin_to_pap_in, 0.125, digits=3),
                f"drilling_{letter}": slider(
                    Layout, "drilling_angle_deg", layout.drilling_angle_deg, 5, digits=0),
                f"grit_{letter}": steps("surface [grit]", GRITS, "2000"),
                f"val_{letter}": slider(
                    Layout, "val_angle_deg", layout.val_angle_deg, 5, digits=0,
                    words=f"{letter.upper()}: VAL angle"),
            }  # fmt: skip
        controls["apart"] = widgets.Checkbox(
            False, description="A and B apart", indent=False,
            tooltip="own pin distance, drilling angle and surface for each",
        )  # fmt: skip
        controls["style"] = menu("bowler of the clinic", list(demo.STYLES), style)
        controls["hand"] = menu("hand", ["right", "left"], who.bowler.hand)
        for name, (step, digits) in BOWLER.items():
            controls[name] = slider(Bowler, name, getattr(who.bowler, name), step, digits=digits)
        for name, (step, digits) in BALL.items():
            controls[name] = slider(Ball, name, getattr(a.ball, name), step, digits=digits)
        controls["cover"] = menu("cover", list(COVERS), a.ball.cover)
        controls["grip"] = menu("grip", list(GRIPS), next(iter(GRIPS))
                                if who.thumb else "no thumb hole")  # fmt: skip
        controls["span"] = widgets.FloatSlider(
            4.25, min=3, max=5.5, step=0.0625, description="span, cut to cut [in]",
            readout_format=".4f", **wide(),
        )  # fmt: skip
        lanes = [
            (f"{name}: {lane.volume_ml:.0f} mL, {lane.length_ft:.0f} ft", name)
            for name, lane in LANES.items()
        ]
        controls["lane"] = menu("lane", lanes, "house")
        for name in LINE:
            controls[name] = slider(Line, name, getattr(who.line, name), 0.5, digits=1)
        return controls

    def _arrange(self) -> None:
        """Switch on top, the three sliders under it, pictures and words, the rest folded away."""
        panel, c = self.panel, self.panel.controls
        row = widgets.Layout(flex_flow="row wrap", width="100%")
        each = [f"{name}_{letter}" for name in ("pin", *SHARED, "val") for letter in "ab"]
        self.first = widgets.GridBox([c[name] for name in each] + [c["apart"]])
        self.first.add_class("workbook-first")
        folds = {
            "Bowler": widgets.HBox([c[n] for n in ("style", "hand", *BOWLER)], layout=row),
            "Ball": widgets.HBox([c[n] for n in (*BALL, "cover")], layout=row),
            "Grip": widgets.HBox([c["grip"], c["span"]], layout=row),
            "Lane and line": widgets.HBox([c[n] for n in ("lane", *LINE)], layout=row),
            "What causes the difference": panel.texts["shares"],
            "Save and load": self.files.box,
            "Copy as code": panel.texts["code"],
        }  # fmt: skip
        panel.arrange([
            widgets.HTML(STYLE), self.first, folded(folds), panel.status, panel.texts["sentence"],
            panel.images["lane"], panel.texts["notes"], panel.images["balls"],
            panel.texts["numbers"],
        ])  # fmt: skip
        self._taken_apart()

    def _place(self, apart: bool) -> None:
        """A's controls in the left column and B's in the right; shared ones three in a row."""
        c = self.panel.controls
        (self.first.add_class if apart else self.first.remove_class)("workbook-columns")
        for letter, column in (
            ("a", "auto / 1 / auto / span 3"),
            ("b", "auto / 4 / auto / span 3"),
        ):
            c[f"pin_{letter}"].layout.grid_area = column
            for name in (*SHARED, "val"):
                c[f"{name}_{letter}"].layout.grid_area = column if apart else "auto / span 2"
        c["apart"].layout.grid_area = "auto / span 2"


def two_layouts(style: str = demo.USUAL, *, alike: bool = False) -> Panel:
    """Pin up against pin down: the switches, pin distance, drilling angle, grit, and all the rest.

    Parameters
    ----------
    style : str
        A bowler of the invented clinic (`workbook.demo.STYLES`).
    alike : bool
        Start with both balls pin up, so that a reader can predict first.
    """
    if style not in demo.STYLES:
        raise ValueError(f"style must be one of {', '.join(demo.STYLES)}, not {style!r}.")
    return TwoLayouts(style, alike=alike).panel
