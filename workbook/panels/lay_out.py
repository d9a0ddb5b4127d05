"""The panel that lays out one ball: marks, holes, maps over the place of the pin."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from workbook import demo, errors, sources
from workbook.as_code import layout_code
from workbook.assumptions import Assumptions
from workbook.certainty import drilled_bands
from workbook.draw.ball_picture import BallPicture
from workbook.draw.map_picture import MapPicture
from workbook.drilling import kappa_from_scale
from workbook.grip import Grip
from workbook.hole_shares import HoleEffects, hole_effects
from workbook.layout import Layout
from workbook.layout_tables import distances_table, grip_table, holes_table, marks_table
from workbook.layout_words import layout_notes, layout_sentence, static_words
from workbook.notes import slider_notes
from workbook.panels import lay_out_controls as made
from workbook.panels import record_controls as records
from workbook.panels.files import FileRow
from workbook.panels.html import code_html, list_html, spoken_html, table_html
from workbook.panels.panel import Answer, Panel, Values
from workbook.panels.record_controls import BALL, BOWLER, LAYOUT, OWN, VAL_DEG
from workbook.pin_places import pin_map, with_pin_anywhere
from workbook.rating import REFERENCE, STRAIGHT
from workbook.rolling import Shot, roll
from workbook.setup import Setup
from workbook.staging import ball_scene, pin_map_scene

DRAWS = 64  # of what nobody knows well, each time the controls rest
TAPED_OZ = 1.0
FROM_FILE = (
    "The grip is the file's, as in the tables; moving a control of the grip makes a new one."
)


class LayOut:
    """Holds what the controls do not show: the setup that they change."""

    def __init__(self, style: str) -> None:
        self.base = demo.pin_up_and_down(style)[0]
        self.setup = self.base
        self.mapped: Setup | None = None  # what the maps on show were made for
        self.grip: Grip | None = None  # from a file
        self.files = FileRow("my setup.json", {"save": self.save, "load": self.load_file})
        self.controls = made.controls(style, self.base)
        self.panel = Panel(
            controls=self.controls,
            pictures={"ball": BallPicture(count=1), "maps": MapPicture()},
            texts=("sentence", "marks", "holes", "notes", "back", "code"),
            answer=self._answer,
            follow={"style": self._style_chosen, "pin": self._switched}
            | dict.fromkeys(made.GRIP, self._grip_moved),
        )
        made.arrange(self.panel, self.files.box)

    def _answer(self, values: Values) -> Answer:
        setup = self.setup = self._setup(values)
        shot = roll(setup, REFERENCE, STRAIGHT, gutters=False)
        effects, words = hole_effects(setup), f"pin {setup.drilled.pin_side}"
        scenes: dict[str, Any] = {"ball": (ball_scene("A", setup, shot),)}
        same_maps = with_pin_anywhere(setup) == self.mapped
        if same_maps:
            scenes["maps"] = pin_map_scene(setup, pin_map(setup), shot)
        return Answer(
            scenes=scenes,
            texts={
                "sentence": spoken_html(layout_sentence(setup, effects, shot)),
                "marks": "<br>".join(
                    table_html(table)
                    for table in (marks_table(setup), distances_table(setup), grip_table(setup))
                ),
                "holes": table_html(holes_table(effects)),
                "back": made.read_back(setup, values),
            },
            says={
                "pin": words if VAL_DEG.get(words) == setup.layout.val_angle_deg else None,
                "style": records.style_of(setup.bowler, values),
            },
            later=(
                lambda: Answer() if same_maps else self._maps(setup, shot),
                lambda: self._sure(setup, effects, shot),
                lambda: self._words(setup, shot, self._grip_code(values)),
            ),
        )

    def _maps(self, setup: Setup, shot: Shot) -> Answer:
        scene = pin_map_scene(setup, pin_map(setup), shot)
        self.mapped = with_pin_anywhere(setup)
        return Answer(scenes={"maps": scene})

    def _sure(self, setup: Setup, effects: HoleEffects, shot: Shot) -> Answer:
        known = ("kappa",) if setup.assumptions.kappa != sources.value("kappa") else ()
        sure = drilled_bands(setup, draws=DRAWS, known=known)
        return Answer(
            texts={
                "sentence": spoken_html(layout_sentence(setup, effects, shot, sure)),
                "holes": table_html(holes_table(effects, sure))
                + f"<p>{static_words(setup, sure)}</p>",
            }
        )

    def _words(self, setup: Setup, shot: Shot, grip: str) -> Answer:
        line = demo.STYLES[demo.USUAL].line
        idle = slider_notes(setup, made.LANE, line, "this ball")
        notes = [FROM_FILE] * bool(self.grip) + [*layout_notes(setup, shot), *idle]
        return Answer(
            texts={"notes": list_html(notes), "code": code_html(layout_code(setup, grip))}
        )

    def _setup(self, values: Values) -> Setup:
        assumed = replace(
            self.base.assumptions, kappa=kappa_from_scale(TAPED_OZ, values["scale_oz"])
        )
        setup = replace(
            self.base,
            bowler=records.bowler_from(self.base.bowler, values),
            ball=records.ball_from(self.base.ball, values),
            layout=Layout(**{name: values[name] for name in LAYOUT}),
            grip=self.grip or made.grip_from(values, self.base.ball.circumference_in),
            assumptions=assumed,
            name="",
        )
        return replace(setup, name=f"pin {setup.drilled.pin_side}")

    def _style_chosen(self, chosen: str) -> None:
        if chosen == OWN:
            return
        style = demo.STYLES[chosen]
        self.base = replace(self.base, bowler=style.bowler, assumptions=Assumptions())
        self.panel.set(
            hand=style.bowler.hand,
            thumb=style.thumb,
            **{name: getattr(style.bowler, name) for name in BOWLER},
        )

    def _switched(self, chosen: str | None) -> None:
        if chosen:
            self.controls["val_angle_deg"].value = VAL_DEG[chosen]

    def _grip_code(self, values: Values) -> str:
        around = self.base.ball.circumference_in
        return "" if self.grip else made.grip_code(values, around)

    def _grip_moved(self, _value: Any) -> None:
        """A grip of the controls takes the place of one from a file."""
        self.grip = None

    def save(self, file: Path) -> str:
        """Write the setup to a file; one that is there already is kept."""
        self._setup(self.panel.values).to_json(file, overwrite=False)  # what stands there now
        return f"Saved as {file.absolute()}."

    def load_file(self, file: Path) -> str:
        """Take over the setup of a file."""
        self.load(Setup.from_json(file))
        return f"Loaded {file.name}."

    def load(self, setup: Setup) -> None:
        """Take over a setup; all of it or nothing."""
        before = self.base, self.grip
        values: Values = {
            "hand": setup.bowler.hand, "cover": setup.ball.cover,
            "scale_oz": TAPED_OZ / setup.assumptions.kappa,
            **{name: getattr(setup.bowler, name) for name in BOWLER},
            **{name: getattr(setup.ball, name) for name in BALL},
            **{name: getattr(setup.layout, name) for name in LAYOUT},
        }  # fmt: skip
        self.base, self.grip = setup, setup.grip
        try:
            self.panel.set(**values)
        except errors.InputRefused:
            self.base, self.grip = before
            raise
        self.grip = setup.grip  # moving controls may have put one of theirs in its place
        self.panel.refresh()


def lay_it_out(style: str = demo.USUAL) -> Panel:
    """One ball laid out: pin distance, drilling angle, VAL angle, grip; marks, holes and maps.

    Parameters
    ----------
    style : str
        A bowler of the invented clinic (`workbook.demo.STYLES`).

    Raises
    ------
    InputRefused
        A style that is not in the clinic.
    """
    errors.choice("style", style, tuple(demo.STYLES))
    return LayOut(style).panel
