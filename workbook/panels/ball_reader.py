"""Chapter 02's panel: a ball's spec sheet, what it means and what drilling will do to it."""

from pathlib import Path

import ipywidgets as widgets

from workbook import demo, errors
from workbook.ball import Ball
from workbook.ball_csv import add_ball, read_balls
from workbook.ball_reading import BallReading, flare_bands, read_ball
from workbook.ball_tables import flare_table, spec_table
from workbook.ball_words import (
    Bands,
    ball_code,
    ball_reading_notes,
    ball_sentence,
    hidden_words,
)
from workbook.draw.spec_picture import SpecPicture
from workbook.grip import Grip
from workbook.panels import record_controls as records
from workbook.panels.controls import folded, menu, tick
from workbook.panels.files import FileRow
from workbook.panels.html import STYLE, code_html, list_html, spoken_html, table_html
from workbook.panels.panel import Answer, Panel, Values
from workbook.panels.record_controls import BALL, OWN, Controls
from workbook.scenes_spec import spec_scene

USUAL = "ball C, mild"
NAMELESS = "the ball as set here"
COMMENT = "Balls saved from the workbook's panel 'read the ball'."
# shorter than the records' own words, for a column of half a page
SHORT = {"intermediate_in": "intermediate [in]", "pin_to_cg_in": "pin to CG [in]"}


class BallReader:
    """Holds what the controls do not show: all balls by name, and which one was chosen."""

    def __init__(self, name: str) -> None:
        self.balls = demo.balls()
        self.base = self.balls[name]
        self.reading: BallReading | None = None
        self.own_name = widgets.Text("my ball", description="name", layout={"width": "340px"})
        self.replace = tick("replace a ball of that name", "only if it may go from the file")
        self.files = FileRow("my balls.csv", {"save ball": self.save, "load balls": self.load})
        self._take(self.base)
        self.controls = self._controls(name)
        self.panel = Panel(
            controls=self.controls,
            pictures={"spec": SpecPicture()},
            texts=("sentence", "numbers", "notes", "code"),
            answer=self._answer,
            follow={"ball": self._chosen},
        )
        self._arrange()

    def now(self) -> Ball:
        """The ball that the controls describe."""
        return self._ball(self.panel.values)

    def save(self, file: Path) -> str:
        """Put the ball into a table of balls; another one of that name gives way only if asked."""
        name = self.own_name.value.strip()
        add_ball(file, name, self.now(), replace=self.replace.value, comment=COMMENT)
        self.replace.value = False
        return f"Saved {name} in {file.absolute()}."

    def load(self, file: Path) -> str:
        """Offer the balls of a table in the menu, and choose the first."""
        found = {f"{name} ({file.name})": ball for name, ball in read_balls(file).items()}
        if not found:
            return f"{file.name} holds no ball yet."
        self.balls |= found
        control = self.controls["ball"]
        first = next(iter(found))
        with self.panel.moving_together():
            control.options = [*self.balls, OWN]
            control.value = OWN  # so that choosing the ball that was shown is a choice too
        control.value = first
        count = f"{len(found)} ball{'s' * (len(found) != 1)}"
        return f"Loaded {count} from {file.name} into the menu."

    def _controls(self, name: str) -> Controls:
        made: Controls = {"ball": menu("ball", [*self.balls, OWN], name)}
        made |= {"style": menu("bowler", list(demo.STYLES), demo.USUAL)}
        made |= records.of_ball(self.base) | {"grit": records.of_surface()}
        for control, words in SHORT.items():
            made[control].description = words
        for control, step, digits in (("rg_low_in", 0.001, 3), ("weight_lb", 0.1, 1)):
            made[control].step, made[control].readout_format = step, f".{digits}f"  # as printed
        return made

    def _answer(self, values: Values) -> Answer:
        ball, who = self._ball(values), demo.STYLES[values["style"]]
        chosen = values["ball"] if self.balls.get(values["ball"]) == ball else OWN
        name = NAMELESS if chosen == OWN else chosen
        surface = records.surface_from(values["grit"])
        reading = read_ball(ball, who.bowler, Grip.usual(thumb=who.thumb), surface)
        self.reading = reading
        return Answer(
            scenes={"spec": spec_scene(reading, name)},
            texts={
                "sentence": spoken_html(ball_sentence(reading, name)),
                "numbers": _tables(reading),
            },
            says={"ball": chosen},
            later=(lambda: self._sure(reading, name), lambda: self._words(reading)),
        )

    def _sure(self, reading: BallReading, name: str) -> Answer:
        flare = flare_bands(reading)
        sentence = ball_sentence(reading, name, flare)
        return Answer(texts={"sentence": spoken_html(sentence), "numbers": _tables(reading, flare)})

    def _words(self, reading: BallReading) -> Answer:
        said = [*hidden_words(reading.ball), *ball_reading_notes(reading)]
        return Answer(texts={"notes": list_html(said), "code": code_html(ball_code(reading))})

    def _ball(self, values: Values) -> Ball:
        return records.ball_from(self.base, values)

    def _take(self, ball: Ball) -> None:
        self.base = ball

    def _chosen(self, name: str) -> None:
        if name != OWN:
            self._take(self.balls[name])
            self.panel.set(
                cover=self.base.cover, **{name: getattr(self.base, name) for name in BALL}
            )

    def _arrange(self) -> None:
        panel, c = self.panel, self.controls
        first = widgets.GridBox(list(c.values()))
        first.add_class("workbook-first")
        for control in c.values():
            control.layout.grid_area = "auto / span 3"  # two in a row leave the sliders some length
        row = widgets.HBox([self.own_name, self.replace], layout={"flex_flow": "row wrap"})
        folds = {
            "Save and load": widgets.VBox([row, self.files.box]),
            "Copy as code": panel.texts["code"],
        }
        panel.arrange([
            widgets.HTML(STYLE), first, folded(folds), panel.status, panel.texts["sentence"],
            panel.images["spec"], panel.texts["numbers"], panel.texts["notes"],
        ])  # fmt: skip


def _tables(reading: BallReading, flare: Bands | None = None) -> str:
    return f"{table_html(spec_table(reading))}<br>{table_html(flare_table(reading, flare))}"


def read_the_ball(name: str = USUAL) -> Panel:
    """A ball's spec sheet: kind of core, RGs against a uniform ball, what drilling does, flare.

    Parameters
    ----------
    name : str
        A ball of the invented clinic (`workbook.demo.balls`).

    Raises
    ------
    InputRefused
        A ball that is not in the clinic.
    """
    errors.choice("ball", name, tuple(demo.balls()))
    return BallReader(name).panel
