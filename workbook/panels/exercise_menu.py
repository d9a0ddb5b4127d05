"""What the menu of a card says of each exercise, and where a student begins."""

from collections.abc import Mapping
from datetime import datetime

from workbook.panels.exercise_html import LEVELS
from workbook.practice import schedule
from workbook.practice.exercise import Exercise
from workbook.practice.schedule import Standing


def menu_options(
    exercises: Mapping[str, Exercise], standings: Mapping[str, Standing], now: datetime
) -> list[tuple[str, str]]:
    """Number, title, level and whether it is done, and the id of each exercise."""
    back = set(schedule.due(standings, now))
    return [
        (
            f"{place}. {one.title} ({LEVELS[one.level - 1]}; {_done(standings.get(name), back)})",
            name,
        )
        for place, (name, one) in enumerate(exercises.items(), 1)
    ]


def first_of(
    exercises: Mapping[str, Exercise], standings: Mapping[str, Standing], now: datetime
) -> str:
    """The exercise to begin with: one that has come back, else a new one, else the first."""
    names = list(exercises)
    return next(iter(schedule.next_up(names, standings, now, 1)), names[0])


def _done(standing: Standing | None, back: set[str]) -> str:
    if standing is None:
        return "new"
    if not standing.right:
        return "not yet"
    return "done, to be done again" if standing.exercise in back else "done"
