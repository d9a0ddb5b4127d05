"""Which exercises are mastered, which come back when, and what to take next.

Five boxes, after Sebastian Leitner, "So lernt man lernen", Herder, 1972 (from memory): what is
answered right moves one box up, what is answered wrong goes back to the first. Ours, not his: the
days, that what has reached the last box counts as mastered, and that it comes back from there.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from workbook.errors import InputRefused, shown
from workbook.practice.answered import CORRECT, MOST_HINTS, Answered

DAYS = (1, 2, 4, 8, 16)
"""Days until an exercise comes back, by box. Our assumption: the boxes are Leitner's, these are
not."""
EARLY = timedelta(hours=8)
"""How much sooner it may be, so that ten o'clock today and nine o'clock tomorrow are a day apart.
Our assumption."""
FIRST, LAST = 1, len(DAYS)


@dataclass(frozen=True)
class Standing:
    """How one exercise stands.

    Parameters
    ----------
    exercise : str
        Its id.
    box : int
        From 1 to 5.
    due : datetime
        When it comes back.
    mastered : bool
        Whether it is in the last box.
    right, wrong : int
        How many answers were correct, and how many not yet.
    """

    exercise: str
    box: int
    due: datetime
    mastered: bool
    right: int
    wrong: int


def standings(answers: Iterable[Answered], now: datetime) -> dict[str, Standing]:
    """Return the standing of every exercise that was answered, by id.

    Right moves one box up and wrong goes back to box 1, with two exceptions of ours:

    * Right only after all three hints stays in its box, because the last hint almost tells.
    * Right before it is due changes nothing, because that shows what was remembered from just
      before, not what is still known after a while; or else five clicks in a row would master it.

    Parameters
    ----------
    answers : iterable of Answered
        In any order.
    now : datetime
        With a time zone. An answer from later, as from a clock that was wrong, is left out until
        then; or else its exercise would stay away so long.

    Raises
    ------
    InputRefused
        A time without a time zone.
    """
    _check_time(now)
    found: dict[str, Standing] = {}
    for one in sorted((one for one in answers if one.at <= now), key=lambda one: one.at):
        new = Standing(one.exercise, FIRST, one.at, False, 0, 0)
        found[one.exercise] = _after(found.get(one.exercise, new), one)
    return found


def due(standings: Mapping[str, Standing], now: datetime) -> list[str]:
    """Return the ids of the exercises that have come back, longest overdue first.

    Raises
    ------
    InputRefused
        A time without a time zone.
    """
    _check_time(now)
    back = [one for one in standings.values() if one.due <= now]
    return [one.exercise for one in sorted(back, key=lambda one: (one.due, one.exercise))]


def next_up(
    ids_in_order: Sequence[str], standings: Mapping[str, Standing], now: datetime, count: int = 3
) -> list[str]:
    """Return at most `count` exercises to take next: those that came back, then new ones.

    Parameters
    ----------
    ids_in_order : sequence of str
        Every exercise there is, in the order of the catalogue; what is not among them is left out.
    standings : mapping of str to Standing
        By id; what is not in it is new.
    now : datetime
        With a time zone.
    count : int

    Raises
    ------
    InputRefused
        A time without a time zone.
    """
    there = set(ids_in_order)
    back = [exercise for exercise in due(standings, now) if exercise in there]
    new = [exercise for exercise in ids_in_order if exercise not in standings]
    return [*back, *new][: max(count, 0)]


def _after(standing: Standing, answered: Answered) -> Standing:
    at = answered.at
    if answered.outcome != CORRECT:
        return replace(_moved(standing, FIRST, at), wrong=standing.wrong + 1)
    right = standing.right + 1
    if at < standing.due:
        return replace(standing, right=right)
    up = 0 if answered.hints >= MOST_HINTS else 1
    return replace(_moved(standing, min(standing.box + up, LAST), at), right=right)


def _moved(standing: Standing, box: int, at: datetime) -> Standing:
    back = at + timedelta(days=DAYS[box - 1]) - EARLY
    return replace(standing, box=box, due=back, mastered=box == LAST)


def _check_time(now: object) -> None:
    if not isinstance(now, datetime) or now.utcoffset() is None:
        raise InputRefused(f"now must be a time with a time zone, not {shown(now)}.")
