"""The first panel: one ball, two layouts, one lane."""

from collections.abc import Callable
from dataclasses import MISSING, fields, replace
from functools import partial
from pathlib import Path
from typing import Any

from workbook import demo, errors
from workbook.as_code import comparison_code, grip_code
from workbook.assumptions import Assumptions
from workbook.certainty import bands
from workbook.comparison import Comparison, compare
from workbook.draw.ball_picture import BallPicture
from workbook.draw.lane_picture import LanePicture
from workbook.grip import Grip
from workbook.layout import Layout
from workbook.line import Line
from workbook.notes import notes, slider_notes
from workbook.panels import layout_pair_controls as made
from workbook.panels import record_controls as records
from workbook.panels.controls import offer_number
from workbook.panels.files import FileRow
from workbook.panels.html import code_html, list_html, numbers_html, shares_html, spoken_html
from workbook.panels.layout_pair_controls import SHARED
from workbook.panels.panel import Answer, Panel, Values
from workbook.panels.record_controls import BALL, BOWLER, GRIPS, LANES, LINE, OWN, POLISHED, VAL_DEG
from workbook.sentences import compare_sentence
from workbook.setup import Setup
from workbook.staging import ball_scene, lane_scene

FROM_FILE = "as in the file"
DRAWS = 64  # of what nobody knows well, each time the controls rest


class LayoutPair:
    """Holds what the controls do not show: the setups that they change, and what moves together."""

    def __init__(self, style: str, *, alike: bool = False) -> None:
        up, down = demo.pin_up_and_down(style)
        self.bases = {"a": up, "b": up if alike else down}
        self.loaded = False
        self.comparison: Comparison | None = None
        self.files = FileRow("my setup.json", {
            f"{verb} {letter.upper()}": partial(act, letter)
            for letter in "ab"
            for verb, act in (("save", self.save), ("load into", self.load_file))
        })  # fmt: skip
        follow: dict[str, Callable[[Any], None]] = {
            "style": self._style_chosen, "apart": self._taken_apart, "span": self._span_moved,
        }  # fmt: skip
        for letter in "ab":
            follow[f"pin_{letter}"] = partial(self._switched, letter)
        self.controls = made.controls(style, self.bases)
        self.panel = Panel(
            controls=self.controls,
            pictures={"lane": LanePicture(), "balls": BallPicture()},
            texts=("sentence", "notes", "numbers", "shares", "code"),
            answer=self._answer,
            follow=follow,
        )
        self.first = made.arrange(self.panel, self.files.box)

    # What the controls mean

    def _answer(self, values: Values) -> Answer:
        a, b = (self.setup(letter, values) for letter in "ab")
        if a.surface != b.surface:
            a, b = (_with_surface(one) for one in (a, b))
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
            texts={"sentence": spoken_html(compare_sentence(c)), "numbers": numbers_html(c)},
            says=self._what_came_out({"a": a, "b": b}, values),
            later=(
                lambda: self._sure(c, values),
                lambda: self._words(c, values),
                lambda: self._notes(c),
            ),
        )

    def _sure(self, c: Comparison, values: Values) -> Answer:
        how = bands(c.a, c.b, c.lane, c.line, draws=DRAWS)
        light = how if values["light"] else None
        return Answer(
            scenes={"lane": lane_scene(c.lane, (c.a, c.b), (c.shot_a, c.shot_b), light)},
            texts={"sentence": spoken_html(compare_sentence(c, how))},
        )

    def _words(self, c: Comparison, values: Values) -> Answer:
        code = comparison_code(c, self._grip_code(values))
        return Answer(texts={"shares": shares_html(c), "code": code_html(code)})

    def _notes(self, c: Comparison) -> Answer:
        lines = [*self._beside(), *notes(c), *slider_notes(c.a, c.lane, c.line, "A")]
        return Answer(texts={"notes": list_html(lines)})

    def now(self, letter: str) -> Setup:
        """The setup of that letter as it stands."""
        return self.setup(letter, self.panel.values)

    def setup(self, letter: str, values: Values) -> Setup:
        """The setup that the controls describe; a name from a file stays while it fits."""
        own = letter if values["apart"] else "a"
        base = self.bases[letter]
        setup = replace(
            base,
            bowler=records.bowler_from(base.bowler, values),
            ball=records.ball_from(base.ball, values),
            layout=Layout(
                drilling_angle_deg=values[f"drilling_{own}"],
                pin_to_pap_in=values[f"distance_{own}"],
                val_angle_deg=values[f"val_{letter}"],
            ),
            grip=self._grip(values),
            surface=records.surface_from(values[f"grit_{own}"]),
        )
        return setup if setup == base else replace(setup, name=f"pin {setup.drilled.pin_side}")

    def _grip(self, values: Values) -> Grip:
        if values["grip"] == FROM_FILE:
            return self.bases["a"].grip
        return records.grip_from(values)

    def _grip_code(self, values: Values) -> str:
        if values["grip"] == FROM_FILE:
            return grip_code(self.bases["a"].grip)
        thumb = "" if GRIPS[values["grip"]] else ", thumb=False"
        return f"wb.Grip.usual({values['span']!r}{thumb})"

    def _beside(self) -> list[str]:
        """What a file brought that no control here shows."""
        if not self.loaded:
            return []
        base, found = self.bases["a"], []
        for record, known in ((base.bowler, (*BOWLER, "hand")), (base.ball, (*BALL, "cover")),
                              (base.assumptions, ())):  # fmt: skip
            for f in fields(record):
                value = getattr(record, f.name)
                if f.name not in known and f.default not in (MISSING, value):
                    unit = f.metadata["unit"]
                    found.append(f"{f.metadata['words']} {value:g}{' ' + unit if unit else ''}")
        return [f"From the file, and not shown by a control: {', '.join(found)}."] if found else []

    # What moves together

    def _style_chosen(self, chosen: str) -> None:
        if chosen == OWN:
            return
        style = demo.STYLES[chosen]
        for letter, base in self.bases.items():
            self.bases[letter] = replace(base, bowler=style.bowler, assumptions=Assumptions())
        self.panel.set(
            hand=style.bowler.hand,
            grip=records.grip_words(style.thumb),
            **{name: getattr(style.bowler, name) for name in BOWLER},
            **{name: getattr(style.line, name) for name in LINE},
        )

    def _switched(self, letter: str, chosen: str | None) -> None:
        if chosen:
            self.controls[f"val_{letter}"].value = VAL_DEG[chosen]

    def _what_came_out(self, setups: dict[str, Setup], values: Values) -> Values:
        """Switches and the clinic's menu say what the sliders make, and nothing else."""
        says: Values = {}
        for letter, setup in setups.items():
            words = f"pin {setup.drilled.pin_side}"
            usual = VAL_DEG.get(words) == setup.layout.val_angle_deg
            says[f"pin_{letter}"] = words if usual else None
        return says | {"style": records.style_of(setups["a"].bowler, values)}

    def _span_moved(self, _span: float) -> None:
        """A span makes a usual grip: it takes the place of one from a file."""
        if self.controls["grip"].value == FROM_FILE:
            self.controls["grip"].value = records.grip_words(self.bases["a"].grip.has_thumb)

    def _taken_apart(self, apart: bool) -> None:
        """Show B's own sliders, from where A's stand, or put them away."""
        controls = self.controls
        if apart:
            for name in SHARED:
                controls[f"{name}_b"].value = controls[f"{name}_a"].value
        made.place(self.first, controls, apart=apart)

    def save(self, letter: str, file: Path) -> str:
        """Write the setup of that letter to a file; one that is there already is kept."""
        self.now(letter).to_json(file, overwrite=False)
        return f"Saved {letter.upper()} as {file.absolute()}."

    def load_file(self, letter: str, file: Path) -> str:
        """Read a file into that letter; its bowler, ball and grip hold for both."""
        self.load(letter, Setup.from_json(file))
        return (
            f"Loaded {letter.upper()} from {file.name}; its bowler, ball and grip now hold for "
            "A and B."
        )

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
        controls = self.controls
        before = dict(self.bases), self.loaded
        menus = {name: controls[name].options for name in ("grip", "grit_a", "grit_b")}
        self.loaded = True
        with self.panel.moving_together():
            records.offer(controls["grip"], FROM_FILE)
            for one in "ab":
                offer_number(controls[f"grit_{one}"], values[f"grit_{letter}"])
        other = "b" if letter == "a" else "a"
        self.bases[letter] = setup
        self.bases[other] = replace(
            self.bases[other], bowler=setup.bowler, ball=setup.ball, grip=setup.grip,
            assumptions=setup.assumptions,
        )  # fmt: skip
        try:
            self.panel.set(**values)
        except errors.InputRefused:
            self.bases, self.loaded = before
            with self.panel.moving_together():
                for name, options in menus.items():
                    chosen = controls[name].value
                    controls[name].options = options
                    controls[name].value = chosen
            raise
        self.panel.refresh()


def _with_surface(setup: Setup) -> Setup:
    """With the surface in the name, unless a file gave the name."""
    ours = setup.name.startswith("pin ")
    return replace(setup, name=f"{setup.name}, {setup.surface}") if ours else setup


def two_layouts(style: str = demo.USUAL, *, alike: bool = False) -> Panel:
    """Pin up against pin down: the switches, pin distance, drilling angle, grit, and all the rest.

    Parameters
    ----------
    style : str
        A bowler of the invented clinic (`workbook.demo.STYLES`).
    alike : bool
        Start with both balls pin up, so that a reader can predict first.

    Raises
    ------
    InputRefused
        A style that is not in the clinic.
    """
    errors.choice("style", style, tuple(demo.STYLES))
    return LayoutPair(style, alike=alike).panel
