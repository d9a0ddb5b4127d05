"""What is wrong with an exercise file beyond its form: worked values, right and wrong answers."""

import re
from collections.abc import Callable, Iterable
from functools import partial
from typing import Any

from workbook.errors import InputRefused
from workbook.practice.answering import CORRECT, NOT_YET, Outcome, mark
from workbook.practice.exercise import Exercise, Wrong
from workbook.practice.exercise_file import parse
from workbook.practice.plain_words import number_words
from workbook.practice.posed import Posed, pose
from workbook.practice.toml_lines import Place
from workbook.practice.toml_reader import TomlReader

SEEDS = range(50)
FEWEST_VARIANTS = 6
WITHOUT_SOURCE = ("common practice", "derived", "assumption")


def faults(
    text: str, name: str, own_id: str = "", seeds: Iterable[int] = SEEDS
) -> list[str]:  # fmt: skip
    """Return a sentence for each fault in the exercise that is written in `text`.

    Parameters
    ----------
    text : str
    name : str
        What the file is called in the sentences.
    own_id : str
        The id that belongs to the file's place; "" if any will do.
    seeds : iterable of int
        The variants that are posed and answered; no more of them after a fault.
    """
    try:
        exercise = parse(text, name)
    except InputRefused as why:
        return [str(why)]
    check = _Check(exercise, TomlReader(name, text))
    if own_id and exercise.id != own_id:
        check.fault(("id",), f"id must be {own_id!r}, like the file's path.")
    check.texts()
    check.worked()
    check.variants(tuple(seeds))
    return check.found


def right_answer(posed: Posed) -> Any:
    """An answer that must be taken for right, as the file has it."""
    one, target = posed.exercise, posed.exercise.target
    if one.kind == "number":
        return posed.right
    if one.kind == "order":
        return list(one.items)
    if target:
        return {name: lever.worked for name, lever in target.levers.items()}
    if one.kind == "words":
        return {"text": one.example, "points": [*range(1, len(one.points) + 1)]}
    if one.sheet:
        return [["1"] * len(one.sheet.columns)] * one.sheet.rows
    return next(choice.text for choice in one.choices if choice.right)


class _Check:
    """Collects the faults of one exercise, one for each place in its file."""

    def __init__(self, exercise: Exercise, reader: TomlReader) -> None:
        self.exercise, self.reader = exercise, reader
        self.found: list[str] = []
        self.places: set[Place] = set()

    def fault(self, place: Place, words: str) -> None:
        if place not in self.places:
            self.places.add(place)
            self.found.append(str(self.reader.refuse(place, words)))

    def tried(self, place: Place, work: Callable[[], Any]) -> Any:
        """What `work` gives; None after a refusal, which is a fault."""
        try:
            return work()
        except InputRefused as why:
            return self.fault(place, str(why))

    def texts(self) -> None:
        """Hints that lead on, a fact with its source, a misconception that is none."""
        one = self.exercise
        if len(set(one.hints)) < len(one.hints):
            self.fault(("hints",), "two hints are the same.")
        if one.mark not in WITHOUT_SOURCE and not one.source:
            self.fault(("source",), f"a fact marked {one.mark} must name its source.")
        if one.answer:
            figure = re.escape(f"{one.answer.value:g}")
            number = re.compile(rf"(?<![\d.]){figure}(?![\d.]*\d)")
            for key, texts in (("prompt", (one.prompt,)), ("hints", one.hints)):
                if any(number.search(words) for words in texts):
                    self.fault((key,), f"the right number, {one.answer.value:g}, is given away.")
        for i, wrong in enumerate(one.wrong):
            if wrong.says and wrong.says in one.example:
                self.fault(("wrong", i, "says"), "the good example says the same.")

    def worked(self) -> None:
        """The worked value and the library agree, within half of the tolerance."""
        answer = self.exercise.answer
        if answer is None:
            return
        if answer.computed is None:
            if self.exercise.draws:
                self.fault(("answer",), "numbers are drawn, but computed is missing.")
            return
        drawn = {name: one.worked for name, one in self.exercise.draws.items()}
        place, call = ("answer", "value"), answer.computed
        found = self.tried(("answer", "computed"), partial(call.value, drawn))
        if found is not None and abs(found - answer.value) > answer.tolerance / 2:
            self.fault(place, f"value {answer.value:g} is worked, the library has {found:.6g}.")

    def variants(self, seeds: tuple[int, ...]) -> None:
        """Right and typical wrong answers of each variant are told apart."""
        if self.found:  # what is wrong with the file itself would come again with every seed
            return
        seen = set()
        first: Place = ("draw", *list(self.exercise.draws)[:1])
        for seed in seeds if self.exercise.draws else seeds[:1]:
            posed = self.tried(first, partial(pose, self.exercise, seed))
            if posed and self.right(posed):
                self.wrong(posed)
                seen.add(tuple(posed.drawn.values()))
            if self.found:
                return
        if self.exercise.draws and len(seen) < min(FEWEST_VARIANTS, len(seeds)):
            self.fault(first, f"{len(seeds)} students get only {len(seen)} variants.")

    def right(self, posed: Posed) -> bool:
        """Whether the right answer is taken for right, and a start that nobody moved is not."""
        one, at = self.exercise, _at(posed)
        place: Place = ("target", "lever", 0, "worked") if one.target else ("answer",)
        given = self.tried(place, partial(right_answer, posed))
        if given is None:
            return False
        if (outcome := mark(posed, given)).kind != CORRECT:
            self.fault(place, f"the right answer is not taken for right{at}{_why(outcome)}.")
        elif one.answer and mark(posed, number_words(given)).kind != CORRECT:
            words = f"the right number written {number_words(given)} is not taken for right{at}."
            self.fault(("answer", "tolerance"), words)
        elif one.target:
            start = {name: lever.start for name, lever in one.target.levers.items()}
            if mark(posed, start).kind == CORRECT:
                self.fault(("target", "lever", 0, "start"), f"the start does it already{at}.")
        return not self.found

    def wrong(self, posed: Posed) -> None:
        for i, choice in enumerate(self.exercise.choices):
            if not choice.right:
                self.coached(posed, ("choices", i, "text"), choice.text, choice.coaching)
        for i, wrong in enumerate(self.exercise.wrong):
            place: Place = ("wrong", i)
            given = self.tried(place, partial(_given, posed, wrong))
            if given is not None:
                self.coached(posed, place, given, wrong.coaching)

    def coached(self, posed: Posed, place: Place, given: Any, coaching: str) -> None:
        outcome = mark(posed, given)
        if outcome.kind == CORRECT:
            self.fault(place, f"this wrong answer is taken for right{_at(posed)}.")
        elif outcome.kind != NOT_YET:
            self.fault(place, f"this wrong answer cannot be marked{_at(posed)}{_why(outcome)}.")
        elif posed.seed == 0 and posed.filled(coaching) not in outcome.said:
            self.fault(place, "this wrong answer gets the coaching of another.")


def _at(posed: Posed) -> str:
    return f" with the numbers of seed {posed.seed}" if posed.drawn else ""


def _why(outcome: Outcome) -> str:
    first = outcome.said.partition(". ")[0].rstrip(".")
    return f": {first}" if first else ""


def _given(posed: Posed, wrong: Wrong) -> Any:
    """The wrong answer as it would be handed in; None where a student marks it."""
    if wrong.value is not None:
        return posed.value(wrong.value)
    return list(wrong.items) or dict(wrong.settings) or None
