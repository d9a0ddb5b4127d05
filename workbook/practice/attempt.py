"""One student at one exercise: what was asked for, what came of it, and what of it is kept."""

from dataclasses import dataclass, field
from datetime import datetime

from workbook.practice.answered import MOST_GIVEN, MOST_HINTS, Answered
from workbook.practice.answering import CORRECT, NOT_YET, Outcome, mark
from workbook.practice.posed import Posed

NOT_COUNTED = "It is not counted, because the answer was shown here before."
SHOWN = "[shown]"
DONE = "It is kept already."
GUESSED = "Your guess is in, and stays."
MARK_IT = "Your text is in. Tick the points that it holds, and press Check again."


@dataclass
class Attempt:
    """What has happened to one variant of an exercise since its card was made.

    Parameters
    ----------
    posed : Posed
    hints : int
        Hint steps seen, from 0 to 3.
    outcome : Outcome or None
        Of the last answer; None before one, and while `waits`.
    explained : bool
        Whether the explanation is to be seen.
    waits : bool
        Of kind predict, whether the guess is in and the student looks first; it stays as it is.
    marking : bool
        Of kind words, whether the points are to be seen.
    """

    posed: Posed
    hints: int = 0
    outcome: Outcome | None = None
    explained: bool = False
    waits: bool = False
    marking: bool = False
    _held: Outcome | None = None  # of a guess, until the student has looked
    to_keep: list[Answered] = field(default_factory=list)  # not kept as yet, the oldest first
    _shown: bool = False  # a right answer proves nothing any more
    _solved: bool = False  # a right answer is kept, or to be
    _last: str | None = None  # the answer that is to be kept, or is

    def hint(self) -> None:
        """One hint more."""
        self.hints = min(self.hints + 1, MOST_HINTS)

    def show(self, now: datetime) -> None:
        """The answer and why: kept as not yet at that time, unless an answer is kept already."""
        if self._last is None and not self.explained:
            self.to_keep.append(self._answered(SHOWN, NOT_YET, now))
        self._explain()

    def _explain(self) -> None:
        """The explanation; a guess that waits gets its outcome too."""
        self._told_a_guess()
        self.explained = self._shown = True

    def check(self, answer: object, given: str, now: datetime) -> None:
        """Mark an answer; what is to be kept of it joins `to_keep`.

        Parameters
        ----------
        answer : object
            As `answering.mark` takes it.
        given : str
            The same as text.
        now : datetime
            With a time zone.
        """
        if self.waits:
            self._explain()
            return
        found = mark(self.posed, answer)
        if self._begins_marking(found):
            return
        self.outcome = found
        if found.kind not in (CORRECT, NOT_YET):
            return
        self._keep(found, given[:MOST_GIVEN], now)
        if self.posed.exercise.kind == "predict" and not self.explained:
            self.waits, self._held, self.outcome = True, found, None
        elif found.kind == CORRECT:
            self.explained = self._shown = True

    def _begins_marking(self, found: Outcome) -> bool:
        """Whether a text is in whose points have not been seen yet."""
        first = self.posed.exercise.kind == "words" and not self.marking
        if first and found.kind in (CORRECT, NOT_YET):
            self.marking, self.outcome = True, None
            return True
        return False

    def _keep(self, found: Outcome, given: str, now: datetime) -> None:
        """The same answer again is not kept twice, nor a right one after it was shown."""
        if given == self._last:
            return
        if found.kind == CORRECT and self._shown:
            why = DONE if self._solved else NOT_COUNTED
            self.outcome = Outcome(CORRECT, f"{found.said} {why}".strip())
            return
        self._last = given
        self._solved = self._solved or found.kind == CORRECT
        self.to_keep.append(self._answered(given, found.kind, now))

    def _answered(self, given: str, outcome: str, now: datetime) -> Answered:
        exercise = self.posed.exercise.id
        return Answered(exercise, self.posed.seed, given[:MOST_GIVEN], outcome, self.hints, now)

    def _told_a_guess(self) -> None:
        if self.waits:
            self.waits, self.outcome, self._held = False, self._held, None
