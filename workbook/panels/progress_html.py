"""The tables of the progress page as HTML."""

from collections.abc import Mapping
from datetime import datetime

from workbook.layout_tables import Table
from workbook.panels.exercise_html import LEVELS
from workbook.panels.html import list_html, table_html
from workbook.practice import schedule
from workbook.practice.exercise import Exercise
from workbook.practice.schedule import DAYS, LAST, Standing

BOXES = (
    "Five boxes after S. Leitner, 1972 (from memory): right moves an exercise one box up, wrong "
    f"back to box 1. After {', '.join(str(days) for days in DAYS[:-1])} and {DAYS[-1]} days by box "
    "it comes back; the days are our assumption. Right before it is due, or only after all three "
    f"hints, moves it nowhere. Mastered means box {LAST}."
)


class ProgressTables:
    """What stands on the page.

    Parameters
    ----------
    exercises : mapping of str to Exercise
        By id, in the order to do them in.
    standings : mapping of str to Standing
        Of those that were answered; of others than `exercises` nothing is said.
    now : datetime
        With a time zone.
    """

    def __init__(
        self, exercises: Mapping[str, Exercise], standings: Mapping[str, Standing], now: datetime
    ) -> None:
        self.exercises, self.now = exercises, now
        self.standings = {name: one for name, one in standings.items() if name in exercises}

    def summary(self, notes: list[str]) -> str:
        """How many in all, and notes."""
        known = list(self.standings.values())
        words = (
            f"Of {count_words(len(self.exercises), 'exercise')}, "
            f"{_right(known)} answered right at least once, {_mastered(known)} mastered, "
            f"{self._back(known)} to be done again now."
        )
        return f"<p><strong>{words}</strong></p>{list_html(notes)}"

    def next(self) -> str:
        """What to take next."""
        lines = []
        for name in schedule.next_up(list(self.exercises), self.standings, self.now):
            one = self.exercises[name]
            why = "came back" if name in self.standings else "new"
            stop = "" if one.title.endswith(("?", "!")) else "."
            level = LEVELS[one.level - 1]
            lines.append(f"{one.title}{stop} Page {one.chapter}, {level}; {why}.")
        nothing = "<p>Nothing today: all are answered and none has come back.</p>"
        return f"<h3>What next</h3>{list_html(lines) or nothing}"

    def back(self) -> str:
        """When what was answered comes back, soonest first; nothing before the first answer."""
        rows = []
        for one in sorted(self.standings.values(), key=lambda one: (one.due, one.exercise)):
            exercise = self.exercises[one.exercise]
            box = f"{one.box}, mastered" if one.mastered else str(one.box)
            when = when_words(one.due, self.now)
            rows.append((exercise.title, exercise.chapter, box, when, f"{one.right}",
                         f"{one.wrong}"))  # fmt: skip
        if not rows:
            return ""
        head = ("exercise", "page", "box", "comes back", "right", "not yet")
        table = table_html(Table(head, tuple(rows)))
        return f"<h3>What comes back when</h3>{table}<p>{BOXES}</p>"

    def chapters(self) -> str:
        """Counts, page by page."""
        rows = []
        for chapter in dict.fromkeys(one.chapter for one in self.exercises.values()):
            names = [name for name, one in self.exercises.items() if one.chapter == chapter]
            known = [self.standings[name] for name in names if name in self.standings]
            counts = (len(names), len(names) - len(known), _right(known), _mastered(known),
                      self._back(known))  # fmt: skip
            rows.append((chapter, *map(str, counts)))
        head = ("page", "exercises", "new", "answered right", "mastered", "to be done again now")
        return f"<h3>Page by page</h3>{table_html(Table(head, tuple(rows)))}"

    def _back(self, known: list[Standing]) -> int:
        return sum(one.due <= self.now for one in known)


def when_words(due: datetime, now: datetime) -> str:
    """When something comes back, with the date of this computer's clock."""
    if due <= now:
        return "now"
    days = (due.astimezone().date() - now.astimezone().date()).days
    away = {0: "later today", 1: "tomorrow"}.get(days, f"in {days} days")
    return f"{away} ({due.astimezone():%d %b})"


def count_words(number: int, words: str) -> str:
    """So many of what `words` names."""
    return f"{number} {words}{'s' * (number != 1)}"


def _right(known: list[Standing]) -> int:
    return sum(one.right > 0 for one in known)


def _mastered(known: list[Standing]) -> int:
    return sum(one.mastered for one in known)
