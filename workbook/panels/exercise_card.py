"""The exercises of a chapter on one card: to be answered, hinted at, marked and explained."""

import asyncio
import random
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from html import escape
from itertools import count
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from workbook import errors
from workbook.errors import InputRefused
from workbook.panels import exercise_html as html
from workbook.panels.answer_boxes import AnswerBox, answer_box
from workbook.panels.controls import menu
from workbook.panels.exercise_menu import first_of, menu_options
from workbook.panels.exercise_picture import exercise_picture
from workbook.panels.html import STYLE
from workbook.panels.kept import SEEDS, Kept
from workbook.panels.names import Names
from workbook.panels.panel import ONE_AT_A_TIME
from workbook.practice.answered import MOST_HINTS
from workbook.practice.attempt import Attempt
from workbook.practice.catalogue import FOLDER, catalogue, chapters
from workbook.practice.exercise import Exercise
from workbook.practice.posed import MOST_SEED, pose

BUTTONS = {
    "check": "Check", "hint": "Hint", "show": "Show", "other": "Other numbers",
}  # fmt: skip
TEXTS = ("head", "prompt", "outcome", "points", "hints", "explanation", "foot", "kept")
# The page holds back what is typed while the kernel is busy, but sends a press at once [s].
TYPED_FIRST_S = 0.1
STAYS_TYPED = ("words", "drill")  # whatever the numbers are
_numbers = count(1)


class ExerciseCard:
    """One card: a menu of exercises, and all of them with what was filled in and came of it.

    Parameters
    ----------
    exercises : mapping of str to Exercise
        By id, at least one, in the order to do them in.
    seed : int or None
        Which variant is shown first; None for the user's own.
    """

    def __init__(self, exercises: Mapping[str, Exercise], seed: int | None) -> None:
        self.exercises, self._first_seed = dict(exercises), seed
        self.kept = Kept()
        self.attempts: dict[str, Attempt] = {}
        self.boxes: dict[str, AnswerBox] = {}
        self.pictures: dict[str, widgets.Widget] = {}
        self._telling = self._pressed = False
        self.texts = {name: widgets.HTML() for name in TEXTS}
        self.buttons = {name: widgets.Button(description=words) for name, words in BUTTONS.items()}
        acts: dict[str, Callable[[], None]] = {
            "check": self._check_when_typed, "hint": self.hint, "show": self.show,
            "other": self.other_numbers,
        }  # fmt: skip
        for name, act in acts.items():
            self.buttons[name].on_click(lambda _button, act=act: act())
        begin = first_of(self.exercises, self.kept.standings(), datetime.now(UTC))
        self.menu = menu("exercise", self._options(), begin)
        self.menu.layout.width = "640px"
        self.menu.style.description_width = "64px"
        self.menu.observe(self._chosen, names="value")
        self.mark = f"workbook-card-{next(_numbers)}"
        self.names = Names()
        self.names.on_msg(self._typed)
        self.box = self._arranged()
        self.choose(begin)

    @property
    def current(self) -> str:
        """Id of the exercise that is shown."""
        return self.menu.value

    @property
    def attempt(self) -> Attempt:
        """What has happened to it."""
        return self.attempts[self.current]

    def choose(self, exercise: str) -> None:
        """Show an exercise as it was left."""
        with ONE_AT_A_TIME:
            if self.current != exercise:
                self.menu.value = exercise  # comes back here
                return
            if exercise not in self.attempts:
                seed = self.kept.seed(exercise) if self._first_seed is None else self._first_seed
                self._pose(exercise, seed)
            self._place()
            self._tell()

    def check(self) -> None:
        """Mark what is filled in, and keep the answer."""
        with ONE_AT_A_TIME:
            box = self.boxes[self.current]
            attempt = self.attempt
            attempt.check(box.answer(), box.given(), datetime.now(UTC))
            self._keep()
            self._tell()

    def _keep(self) -> None:
        """Keep what is to be kept; the rest waits for the next time."""
        waiting = self.attempt.to_keep
        while waiting and self.kept.record(waiting[0]):
            del waiting[0]

    def hint(self) -> None:
        """Show one hint more."""
        with ONE_AT_A_TIME:
            self.attempt.hint()
            self._tell()

    def show(self) -> None:
        """Show the answer and why; a right one is not counted afterwards."""
        with ONE_AT_A_TIME:
            self.attempt.show(datetime.now(UTC))
            self._keep()
            self._tell()

    def other_numbers(self) -> None:
        """Draw other numbers for this exercise."""
        with ONE_AT_A_TIME:
            before = self.attempt.posed.drawn
            for _try in range(5):  # a small range may draw the same again
                self._pose(self.current, random.randint(1, SEEDS))
                if self.attempt.posed.drawn != before:
                    break
            self._place()
            self._tell()

    def _pose(self, name: str, seed: int) -> None:
        exercise = self.exercises[name]
        try:
            posed = pose(exercise, seed)
        except InputRefused:  # no draw works for this seed
            posed = pose(exercise, 0)
        seen = self.attempts[name].hints if name in self.attempts else 0
        self.attempts[name] = Attempt(posed, seen)
        if exercise.kind not in STAYS_TYPED or name not in self.boxes:
            box = self.boxes[name] = answer_box(posed)
            box.widget.add_class("workbook-card-answer")
            if box.text is not None:
                box.text.on_msg(self._entered)
            for one in box.inputs:
                one.observe(self._changed, names="value")

    def _place(self) -> None:
        """Put the exercise's own widgets on the card."""
        exercise, name = self.attempt.posed.exercise, self.current
        if exercise.picture and name not in self.pictures:
            self.pictures[name] = _picture(exercise)
        self.middle.children = [
            *([self.pictures[name]] if exercise.picture else []), self.boxes[name].widget,
        ]  # fmt: skip
        self.buttons["other"].layout.display = "" if exercise.draws else "none"
        within = f".{self.mark} .workbook-card-answer"
        names = [[f"{within} {part}".strip(), *said] for part, *said in self.boxes[name].names] + [
            [f".{self.mark} .workbook-card-menu select", "aria-label", "exercise"]
        ]
        if exercise.picture:
            names.append(
                [f".{self.mark} img.workbook-card-picture", "alt", exercise.picture["words"]]
            )
        self.names.names = names

    def _tell(self) -> None:
        """Say everything as it stands now."""
        attempt, box = self.attempt, self.boxes[self.current]
        said = {
            "head": html.head_html(attempt.posed),
            "prompt": html.prompt_html(attempt.posed),
            "outcome": html.outcome_html(attempt),
            "points": html.points_html(attempt),
            "hints": html.hints_html(attempt),
            "explanation": html.explanation_html(attempt),
            "foot": html.foot_html(attempt),
            "kept": f'<p class="workbook-small" role="status">{escape(self.kept.said)}</p>'
            if self.kept.said
            else "",
        }
        for name, text in said.items():
            self.texts[name].value = text
        self.texts["outcome"].remove_class("workbook-stale")
        self.buttons["hint"].disabled = attempt.hints >= MOST_HINTS
        box.hold(attempt.waits)
        if self.current in self.pictures:  # a picture could tell what is to be guessed
            guessed = attempt.waits or attempt.explained
            hidden = attempt.posed.exercise.kind == "predict" and not guessed
            self.pictures[self.current].layout.display = "none" if hidden else ""
        if box.points is not None:
            box.points.layout.display = "" if attempt.marking else "none"
        options = self._options()
        if list(self.menu.options) != options:
            self._telling, chosen = True, self.current
            self.menu.options, self.menu.value = options, chosen
            self._telling = False

    def _changed(self, _change: object) -> None:
        """What was said was said of another answer."""
        self.texts["outcome"].add_class("workbook-stale")

    def _options(self) -> list[tuple[str, str]]:
        return menu_options(self.exercises, self.kept.standings(), datetime.now(UTC))

    def _chosen(self, change: dict[str, Any]) -> None:
        if not self._telling and change["new"] is not None:
            self.choose(change["new"])

    def _entered(self, _text: widgets.Text, said: object, _buffers: object) -> None:
        """Enter in a box of one line means Check."""
        if isinstance(said, dict) and said.get("event") == "submit":
            self._check_when_typed()

    def _check_when_typed(self) -> None:
        """Check a moment later, after the last letters have come in."""
        pressed = self.current

        def check() -> None:
            self._pressed = False
            if self.current == pressed:
                self.check()

        if self._pressed:  # twice in a row is once
            return
        try:
            asyncio.get_running_loop().call_later(TYPED_FIRST_S, check)
            self._pressed = True
        except RuntimeError:  # a script or a test
            check()

    def _typed(self, _names: Names, said: dict[str, Any], _buffers: object) -> None:
        """Take the number that was typed beside a slider, or say why not."""
        with ONE_AT_A_TIME:
            try:
                self.boxes[self.current].typed(said["classes"], said["text"])
            except InputRefused as why:
                words = f"{why} The slider stays where it is."
                self.texts["outcome"].value = f'<p role="alert">{escape(words)}</p>'

    def _arranged(self) -> widgets.VBox:
        self.menu.add_class("workbook-card-menu")
        for name, text in self.texts.items():
            text.add_class(f"workbook-card-{name}")
        for name, button in self.buttons.items():
            button.add_class(f"workbook-card-{name}")
        self.middle = widgets.VBox()
        row = widgets.HBox(list(self.buttons.values()), layout=widgets.Layout(flex_flow="row wrap"))
        t = self.texts
        box = widgets.VBox([
            widgets.HTML(STYLE + html.CARD_STYLE), self.menu, t["head"], t["prompt"], self.middle,
            row, t["outcome"], t["points"], t["hints"], t["explanation"], t["foot"], t["kept"],
            self.names,
        ])  # fmt: skip
        return box.add_class("workbook-card").add_class(self.mark)

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(self.box)


def _picture(exercise: Exercise) -> widgets.Widget:
    """The picture, or its words and why there is none."""
    try:
        return exercise_picture(exercise.picture).add_class("workbook-card-picture")
    except InputRefused as why:
        words = f"{exercise.picture['words']} (The picture is missing: {why})"
        return widgets.HTML(f"<p>{escape(words)}</p>")


def practise(chapter: str, seed: int | None = None, folder: Path | None = None) -> ExerciseCard:
    """The exercises of a chapter on a card.

    Parameters
    ----------
    chapter : str
        Such as "05_watch_it_roll".
    seed : int, optional
        Which variant of the numbers, from 0 (the worked example) to 1e15; left out, this user's.
    folder : Path, optional
        Where the exercise files are, in a folder for each chapter; left out, the workbook's own.

    Raises
    ------
    InputRefused
        A chapter without exercises, a seed outside the limits, or a file that is not of the form.
    """
    if seed is not None:
        seed = errors.whole("seed", seed, 0, MOST_SEED)
    where = FOLDER if folder is None else folder
    errors.choice("chapter", chapter, chapters(where))
    # a faulty file stops its own chapter alone
    return ExerciseCard(catalogue(where, chapter), seed)
