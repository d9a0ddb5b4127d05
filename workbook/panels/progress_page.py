"""What is mastered, what comes back when, and what to take next: the page of one's own progress."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from html import escape
from pathlib import Path

import ipywidgets as widgets

from workbook.errors import InputRefused
from workbook.layout_tables import Table
from workbook.panels.controls import tick
from workbook.panels.exercise_html import CARD_STYLE, LEVELS
from workbook.panels.files import FileRow
from workbook.panels.html import STYLE, list_html, table_html
from workbook.panels.kept import Kept
from workbook.practice import schedule
from workbook.practice.catalogue import FOLDER, catalogue
from workbook.practice.exercise import Exercise
from workbook.practice.schedule import DAYS, LAST, Standing

BOXES = (
    "Five boxes after S. Leitner, 1972 (from memory): right moves an exercise one box up, wrong "
    f"back to box 1. After {', '.join(str(days) for days in DAYS[:-1])} and {DAYS[-1]} days by box "
    "it comes back; the days are our assumption. Right before it is due, or only after all three "
    f"hints, moves it nowhere. Mastered means box {LAST}."
)
QUESTIONS = (
    "Set all {count} answers aside and start with none?",
    "Sure? Every exercise will be new again. The old file stays where it is, under another name.",
)
TEXTS = ("summary", "next", "back", "chapters", "said")


class ProgressPage:
    """Tables of what was answered, and what can be done with the answers.

    Parameters
    ----------
    exercises : mapping of str to Exercise
        By id, in the order to do them in.
    """

    def __init__(self, exercises: Mapping[str, Exercise]) -> None:
        self.exercises = dict(exercises)
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
        return f"Wrote {_count(len(self.kept.read()), 'answer')} to {file.absolute()}."

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
        question = QUESTIONS[number - 1].format(count=len(self.kept.answers)) if number else ""
        self.question.value = f'<p role="alert"><strong>{escape(question)}</strong></p>'
        self.confirm.layout.display = "" if number else "none"

    def _say(self, text: str) -> None:
        self.texts["said"].value = f'<p role="status">{escape(text)}</p>'

    def _tell(self) -> None:
        standings, now = self.kept.standings(), datetime.now(UTC)
        self.texts["summary"].value = self._summary(standings, now)
        shown = not self.kept.shared
        self.texts["next"].value = self._next(standings, now) if shown else ""
        self.texts["back"].value = self._back(standings, now) if shown else ""
        self.texts["chapters"].value = self._chapters(standings, now) if shown else ""

    def _summary(self, standings: Mapping[str, Standing], now: datetime) -> str:
        if self.kept.shared:
            return f"<p>{escape(self.kept.said)}</p>"
        known = [one for name, one in standings.items() if name in self.exercises]
        done, mastered = sum(one.right > 0 for one in known), sum(one.mastered for one in known)
        back = sum(one.due <= now for one in known)
        words = (
            f"Of {_count(len(self.exercises), 'exercise')}, {done} answered right at least once, "
            f"{mastered} mastered, {back} to be done again now."
        )
        notes = [f"Kept on this computer alone, in {self.kept.folder}."] if self.kept.folder else []
        notes += [self.kept.said] if self.kept.said else []
        return f"<p><strong>{words}</strong></p>{list_html(notes)}"

    def _next(self, standings: Mapping[str, Standing], now: datetime) -> str:
        names = schedule.next_up(list(self.exercises), standings, now)
        lines = []
        for name in names:
            one = self.exercises[name]
            why = "came back" if name in standings else "new"
            lines.append(f"{one.title}: page {one.chapter}, {LEVELS[one.level - 1]}; {why}")
        if not lines:
            return (
                "<h3>What next</h3><p>Nothing today: all are answered and none has come back.</p>"
            )
        return f"<h3>What next</h3>{list_html(lines)}"

    def _back(self, standings: Mapping[str, Standing], now: datetime) -> str:
        """When what was answered comes back, soonest first."""
        known = [one for name, one in standings.items() if name in self.exercises]
        rows = []
        for one in sorted(known, key=lambda one: (one.due, one.exercise)):
            exercise = self.exercises[one.exercise]
            box = f"{one.box}, mastered" if one.mastered else str(one.box)
            rows.append((exercise.title, exercise.chapter, box, _when(one.due, now),
                         f"{one.right}", f"{one.wrong}"))  # fmt: skip
        if not rows:
            return ""
        head = ("exercise", "page", "box", "comes back", "right", "not yet")
        return f"<h3>What comes back when</h3>{table_html(Table(head, tuple(rows)))}<p>{BOXES}</p>"

    def _chapters(self, standings: Mapping[str, Standing], now: datetime) -> str:
        rows = []
        for chapter in dict.fromkeys(one.chapter for one in self.exercises.values()):
            names = [name for name, one in self.exercises.items() if one.chapter == chapter]
            known = [standings[name] for name in names if name in standings]
            counts = (len(names), len(names) - len(known), sum(one.right > 0 for one in known),
                      sum(one.mastered for one in known),
                      sum(one.due <= now for one in known))  # fmt: skip
            rows.append((chapter, *map(str, counts)))
        head = ("page", "exercises", "new", "answered right", "mastered", "to be done again now")
        return f"<h3>Page by page</h3>{table_html(Table(head, tuple(rows)))}"

    def _button(self, words: str, act: Callable[[], None]) -> widgets.Button:
        button = widgets.Button(description=words)
        button.on_click(lambda _button: act())
        return button.add_class(f"workbook-progress-{words.split()[0].lower().rstrip(',')}")

    def _arranged(self) -> widgets.VBox:
        t, b = self.texts, self.buttons
        row = widgets.Layout(flex_flow="row wrap")
        self.question = widgets.HTML()
        self.confirm = widgets.VBox([
            self.question, widgets.HBox([b["yes"], b["no"]], layout=row)
        ])  # fmt: skip
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


def _when(due: datetime, now: datetime) -> str:
    """In words, with the date of this computer's clock."""
    if due <= now:
        return "now"
    days = (due.astimezone().date() - now.astimezone().date()).days
    away = {0: "later today", 1: "tomorrow"}.get(days, f"in {days} days")
    return f"{away} ({due.astimezone():%d %b})"


def _count(number: int, words: str) -> str:
    return f"{number} {words}{'s' * (number != 1)}"


def show_progress(folder: Path | None = None) -> ProgressPage:
    """What is mastered, what comes back when, what to take next; export, and starting anew.

    Parameters
    ----------
    folder : Path, optional
        Where the exercise files are; left out, the workbook's own.

    Raises
    ------
    InputRefused
        An exercise file that is not of the form.
    """
    return ProgressPage(catalogue(FOLDER if folder is None else folder))
