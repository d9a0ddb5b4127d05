"""An exercise as one student gets it: with that student's numbers drawn and written in."""

import random
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from workbook import errors
from workbook.errors import InputRefused
from workbook.practice.braces import ANSWER, BRACES
from workbook.practice.calculations import Call
from workbook.practice.exercise import Exercise, Value
from workbook.practice.plain_words import number_words

MOST_SEED = 10**15
TRIES = 60
APART = 2.5
"""A right and a typical wrong answer lie so many tolerances apart, else the draw is made again."""


@dataclass(frozen=True)
class Posed:
    """One variant of an exercise.

    Parameters
    ----------
    exercise : Exercise
    seed : int
        0 for the numbers of the worked example.
    drawn : mapping of str to float
    """

    exercise: Exercise
    seed: int
    drawn: Mapping[str, float]

    @cached_property
    def right(self) -> float:
        """The right number, of kind number [its unit]."""
        answer = self.exercise.answer
        assert answer is not None
        if answer.computed is None or not self.drawn:
            return answer.value
        return answer.computed.value(self.drawn)

    @property
    def right_words(self) -> str:
        """The right number with no more decimals than the tolerance is worth, and its unit."""
        answer = self.exercise.answer
        assert answer is not None
        return f"{number_words(self.right, answer.tolerance)} {answer.unit}".rstrip()

    @cached_property
    def wrong(self) -> tuple[float, ...]:
        """The typical wrong numbers, of kind number, in the order of the file."""
        return tuple(self.value(one.value) for one in self.exercise.wrong if one.value is not None)

    @cached_property
    def wanted(self) -> float:
        """What a target asks for [its unit]."""
        assert self.exercise.target is not None
        return self.value(self.exercise.target.wanted)

    def value(self, one: Value) -> float:
        """A number of the file, or what its calculation gives here."""
        return one.value(self.drawn) if isinstance(one, Call) else one

    def filled(self, text: str) -> str:
        """`text` with this student's numbers, and "{answer}", in place of their braces."""

        def put(found: re.Match[str]) -> str:
            name = found[1]
            if name == ANSWER:
                assert self.exercise.answer is not None
                return number_words(self.right, self.exercise.answer.tolerance)
            return number_words(self.drawn[name])

        return BRACES.sub(put, text)

    @property
    def told_apart(self) -> bool:
        """Whether typical wrong numbers, and those of the question, lie clear of the right one."""
        answer = self.exercise.answer
        if answer is None:
            return True
        clear = APART * answer.tolerance
        copied = any(abs(one - self.right) <= answer.tolerance for one in self.drawn.values())
        return not copied and all(abs(one - self.right) > clear for one in self.wrong)


def pose(exercise: Exercise, seed: int = 0) -> Posed:
    """Return the variant of `exercise` that belongs to `seed`; 0 is the worked example.

    Numbers are drawn evenly over their ranges, and again where a typical wrong answer or a number
    of the question would be taken for the right one, or the library has no answer.

    Raises
    ------
    InputRefused
        A seed that is no whole number from 0 to 1e15, or no draw that works.
    """
    seed = errors.whole("seed", seed, 0, MOST_SEED)
    if seed == 0 or not exercise.draws:
        return Posed(exercise, seed, {name: one.worked for name, one in exercise.draws.items()})
    source = random.Random(f"{exercise.id} {seed}")
    for _try in range(TRIES):
        drawn = {
            name: round(one.low + one.step * source.randint(0, one.steps), 9)
            for name, one in exercise.draws.items()
        }
        posed = Posed(exercise, seed, drawn)
        try:
            if posed.told_apart:
                return posed
        except InputRefused:
            continue
    raise InputRefused(f"{exercise.id} has no numbers for seed {seed}: its ranges are wrong.")
