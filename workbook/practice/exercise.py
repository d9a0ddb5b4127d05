"""An exercise as data: what is asked, what is right, what goes wrong typically, and why."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from workbook.practice.calculations import Call

KINDS = ("number", "choice", "order", "predict", "target", "words", "drill")
MARKS = ("published", "textbook", "derived", "common practice", "assumption", "memory")
RULES = ("within", "at least", "at most")
Value = float | Call
"""A number, or a permitted calculation of it."""


@dataclass(frozen=True)
class Choice:
    """One of several answers; a wrong one has coaching."""

    text: str
    right: bool
    coaching: str


@dataclass(frozen=True)
class Number:
    """The right number.

    Parameters
    ----------
    value : float
        Worked by hand or taken from a source, for the numbers of seed 0.
    unit : str
    tolerance : float
        How far off an answer may be, in the same unit.
    source : str
        Where the worked value is from.
    computed : Call or None
        The same by the library; of use where numbers are drawn.
    """

    value: float
    unit: str
    tolerance: float
    source: str
    computed: Call | None


@dataclass(frozen=True)
class Wrong:
    """A typical wrong answer and what to say to it.

    Parameters
    ----------
    coaching : str
    value : float, Call or None
        Of kind number.
    items : tuple of str
        Of kind order, in the wrong order.
    settings : mapping of str to float
        Of kind target; all settings that miss on the same side get the coaching.
    says : str
        Of kind words: the misconception in words.
    """

    coaching: str
    value: Value | None = None
    items: tuple[str, ...] = ()
    settings: Mapping[str, float] = field(default_factory=dict)
    says: str = ""


@dataclass(frozen=True)
class Lever:
    """What a student may move to reach a target: limits and where it starts, in `unit`."""

    words: str
    unit: str
    low: float
    high: float
    start: float
    worked: float


@dataclass(frozen=True)
class Target:
    """Settings to be found, of which the library works out whether they do it.

    Parameters
    ----------
    levers : mapping of str to Lever
        By the name in braces that `reading` has for them.
    reading : Call
        What the settings give.
    words, unit : str
        What that is, for "... reads 46.2 ft".
    rule : {"within", "at least", "at most"}
    wanted : float or Call
    margin : float
        How near is near enough, for "within" [unit].
    """

    levers: Mapping[str, Lever]
    reading: Call
    words: str
    unit: str
    rule: str
    wanted: Value
    margin: float


@dataclass(frozen=True)
class Draw:
    """A number that differs from student to student: low, low + step, ... up to high."""

    low: float
    high: float
    step: float
    worked: float

    @property
    def steps(self) -> int:
        """How many steps fit."""
        return int((self.high - self.low) / self.step + 1e-9)


@dataclass(frozen=True)
class Sheet:
    """What is recorded at a drill: a line a shot or measurement, a number or word a column."""

    columns: tuple[str, ...]
    rows: int


@dataclass(frozen=True)
class Exercise:
    """One exercise. Which of the last fields are filled depends on its kind.

    Parameters
    ----------
    id : str
        Chapter and name, like the path of its file.
    title, teaches, prompt, explanation : str
    kind : str
        One of `KINDS`.
    level : int
        1 (easy) to 5.
    hints : tuple of three str
        Remind, point, almost tell.
    mark, source : str
        How well the fact is known (one of `MARKS`), and where it is from; may be empty.
    caution : str
        Where hands or tools are involved.
    look : str
        Of kind predict: what to do in the panel afterwards.
    """

    id: str
    title: str
    kind: str
    level: int
    teaches: str
    prompt: str
    hints: tuple[str, ...]
    explanation: str
    mark: str
    source: str
    caution: str = ""
    look: str = ""
    picture: Mapping[str, Any] = field(default_factory=dict)
    draws: Mapping[str, Draw] = field(default_factory=dict)
    choices: tuple[Choice, ...] = ()
    answer: Number | None = None
    items: tuple[str, ...] = ()
    target: Target | None = None
    points: tuple[str, ...] = ()
    example: str = ""
    steps: tuple[str, ...] = ()
    sheet: Sheet | None = None
    wrong: tuple[Wrong, ...] = ()

    @property
    def chapter(self) -> str:
        """The folder of its file."""
        return self.id.partition("/")[0]
