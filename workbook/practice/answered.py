"""One answer to an exercise: what is kept of it, and the row it is kept in."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Self

from workbook import errors
from workbook.errors import InputRefused, shown

CORRECT, NOT_YET = OUTCOMES = ("correct", "not yet")
MOST_GIVEN = 10_000
MOST_HINTS = 3
Row = tuple[str, int, bytes, str, int, str]
"""exercise, seed, given (UTF-8, lone surrogates passed), outcome, hints, time (ISO 8601, UTC)"""


@dataclass(frozen=True)
class Answered:
    """One answer to one exercise.

    Parameters
    ----------
    exercise : str
        Id, such as "04_lay_it_out/arc_not_chord".
    seed : int
        Which variant, from 0 to 1e15.
    given : str
        What was typed, as typed: any text of at most 10 000 letters.
    outcome : {"correct", "not yet"}
        Other outcomes are not kept.
    hints : int
        Hint steps seen before, from 0 to 3.
    at : datetime
        When, with a time zone; kept as UTC.

    Raises
    ------
    InputRefused
        Anything else.
    """

    exercise: str
    seed: int
    given: str
    outcome: str
    hints: int
    at: datetime

    def __post_init__(self) -> None:
        errors.text("exercise", self.exercise)
        if not self.exercise:
            raise InputRefused("exercise is missing: give its id.")
        if not isinstance(self.given, str):
            raise InputRefused(f"given must be text, not {shown(self.given)}.")
        if len(self.given) > MOST_GIVEN:
            raise InputRefused(
                f"given of {len(self.given)} letters must be text of 0 to {MOST_GIVEN} letters."
            )
        errors.choice("outcome", self.outcome, OUTCOMES)
        object.__setattr__(self, "seed", errors.whole("seed", self.seed, 0, 10**15))
        object.__setattr__(self, "hints", errors.whole("hints", self.hints, 0, MOST_HINTS))
        object.__setattr__(self, "at", _in_utc(self.at))

    def row(self) -> Row:
        """The answer as it is stored; times of this form sort as text."""
        given = self.given.encode("utf-8", "surrogatepass")
        at = self.at.isoformat(timespec="microseconds")
        return self.exercise, self.seed, given, self.outcome, self.hints, at

    @classmethod
    def from_row(cls, row: Row) -> Self:
        """Return the answer that was stored as `row`."""
        exercise, seed, given, outcome, hints, at = row
        text = given.decode("utf-8", "surrogatepass")
        return cls(exercise, seed, text, outcome, hints, datetime.fromisoformat(at))


def _in_utc(at: object) -> datetime:
    if not isinstance(at, datetime):
        raise InputRefused(f"at must be a date and time, not {shown(at)}.")
    try:
        if at.utcoffset() is not None:
            return at.astimezone(UTC)
    except OverflowError:  # within hours of the first or last year
        raise InputRefused(f"at {shown(str(at))} is outside the years 1 to 9999.") from None
    raise InputRefused(f"at {shown(str(at))} needs a time zone.")
