"""What is mastered, what comes back when, and what to take next: the page of one's own progress."""

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from html import escape
from pathlib import Path

import ipywidgets as widgets

from workbook.errors import InputRefused
from workbook.panels.controls import tick
from workbook.panels.exercise_html import CARD_STYLE
from workbook.panels.files import FileRow
from workbook.panels.html import STYLE
from workbook.panels.kept import Kept
from workbook.panels.progress_html import ProgressTables, count_words
from workbook.practice.catalogue import FOLDER, catalogue, chapters
from workbook.practice.exercise import Exercise

QUESTIONS = (
    "Set {count} aside and start with none?",
    "Sure? Every exercise will be new again. The old file stays where it is, under another name.",
)
TEXTS = ("summary", "next", "back", "chapters", "said")


class ProgressPage:
    """Tables of what was answered, and what can be done with the answers.

    Parameters
    ----------
    exercises : mapping of str to Exercise
        By id, in the order to do them in.
    faults : sequence of str
        What is wrong with the files of chapters that are left out.
    """

    def __init__(self, exercises: Mapping[str, Exercise], faults: Sequence[str] = ()) -> None:
        self.exercises, self.faults = dict(exercises), list(faults)
        self.kept = Kept()
        self.asked = 0  # questions answered with yes on the way to starting anew
        self.texts = {name: widgets.HTML() for name in TEXTS}
        for name, text in self.texts.items():
            text.add_class(f"workbook-progress-{name}")
        self.again = tick("replace an earlier table of answers of that name")
        self.files = FileRow("my answers.csv", {"export": self.export})
        self.buttons = {
            "refresh": self._button("Refresh", self.refresh),
            "anew": self._button("Start anew", self.start_anew),
            "yes": self._button("Yes", self.yes),
            "no": self._button("No, keep them", self.no),
        }
        self.box = self._arranged()
        self.refresh()

    def refresh(self) -> None:
        """Read the answers again: another page may have added some."""
        self.kept.read()
        self._ask(0)
        self._tell()

    def export(self, file: Path) -> str:
        """Write all answers as a table for a spreadsheet."""
        self.kept.use(lambda progress: progress.export_csv(file, overwrite=self.again.value))
        self.again.value = False
        return f"Wrote {count_words(len(self.kept.read()), 'answer')} to {file.absolute()}."

    def start_anew(self) -> None:
        """Ask once."""
        self.kept.read()
        self._ask(1 if self.kept.answers else 0)
        self._say("" if self.kept.answers else "There are no answers yet.")

    def yes(self) -> None:
        """Ask the next question, or do it."""
        if 0 < self.asked < len(QUESTIONS):
            self._ask(self.asked + 1)
        elif self.asked:
            self._ask(0)
            self._set_aside()

    def no(self) -> None:
        """Leave everything as it is."""
        self._ask(0)
        self._say("Nothing was changed.")

    def _set_aside(self) -> None:
        try:
            place = self.kept.use(lambda progress: progress.reset())
        except InputRefused as why:
            self._say(str(why))
            return
        self.kept.read()
        self._tell()
        self._say(f"You start anew. The old answers are in {place}." if place else "")

    def _ask(self, number: int) -> None:
        self.asked = number
        question = (
            QUESTIONS[number - 1].format(count=count_words(len(self.kept.answers), "answer"))
            if number
            else ""
        )
        # a double press must not answer both questions
        yes, no = self.buttons["yes"], self.buttons["no"]
        self.answers.children = [yes, no] if number < len(QUESTIONS) else [no, yes]
        self.question.value = f'<p role="alert"><strong>{escape(question)}</strong></p>'
        self.confirm.layout.display = "" if number else "none"

    def _say(self, text: str) -> None:
        self.texts["said"].value = f'<p role="status">{escape(text)}</p>'

    def _tell(self) -> None:
        if self.kept.shared:
            self.texts["summary"].value = f"<p>{escape(self.kept.said)}</p>"
            return
        tables = ProgressTables(self.exercises, self.kept.standings(), datetime.now(UTC))
        where = self.kept.folder
        notes = [f"Kept on this computer alone, in {where}."] if where else []
        notes += [self.kept.said] if self.kept.said else []
        notes += self.faults
        self.texts["summary"].value = tables.summary(notes)
        self.texts["next"].value = tables.next()
        self.texts["back"].value = tables.back()
        self.texts["chapters"].value = tables.chapters()

    def _button(self, words: str, act: Callable[[], None]) -> widgets.Button:
        button = widgets.Button(description=words)
        button.on_click(lambda _button: act())
        return button.add_class(f"workbook-progress-{words.split()[0].lower().rstrip(',')}")

    def _arranged(self) -> widgets.VBox:
        t, b = self.texts, self.buttons
        row = widgets.Layout(flex_flow="row wrap")
        self.question = widgets.HTML()
        self.answers = widgets.HBox([b["yes"], b["no"]], layout=row)
        self.confirm = widgets.VBox([self.question, self.answers])
        files = [self.files.box, self.again, b["anew"], self.confirm]
        if self.kept.shared:
            files = []
        box = widgets.VBox([
            widgets.HTML(STYLE + CARD_STYLE), t["summary"], b["refresh"], t["next"], t["back"],
            t["chapters"], *files, t["said"],
        ])  # fmt: skip
        return box.add_class("workbook-card").add_class("workbook-progress")

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(self.box)


def show_progress(folder: Path | None = None) -> ProgressPage:
    """What is mastered, what comes back when, what to take next; export, and starting anew.

    Parameters
    ----------
    folder : Path, optional
        Where the exercise files are; left out, the workbook's own.

    Raises
    ------
    InputRefused
        A folder without exercises.
    """
    where = FOLDER if folder is None else folder
    exercises: dict[str, Exercise] = {}
    faults = []
    for chapter in chapters(where):
        try:
            exercises |= catalogue(where, chapter)
        except InputRefused as why:  # stops its own chapter alone
            faults.append(str(why))
    return ProgressPage(exercises, faults)
