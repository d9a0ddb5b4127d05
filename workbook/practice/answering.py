"""Marking an answer. Whatever is typed or handed over is only looked at, never run."""

from collections.abc import Mapping
from dataclasses import dataclass

from workbook import errors, typed
from workbook.errors import InputRefused, shown
from workbook.practice.exercise import Target
from workbook.practice.plain_answer import plain
from workbook.practice.plain_words import number_words
from workbook.practice.posed import Posed

CORRECT, NOT_YET, NOT_ATTEMPTED, CANNOT_CHECK = OUTCOMES = (
    "correct", "not yet", "not attempted", "cannot check",
)  # fmt: skip
MOST_LETTERS = 10_000
OPTIONAL = "remark"
"""A column of a drill's sheet whose words begin so may stay empty."""


@dataclass(frozen=True)
class Outcome:
    """What became of an answer.

    Parameters
    ----------
    kind : {"correct", "not yet", "not attempted", "cannot check"}
    said : str
        What to say to the student; never the right answer.
    """

    kind: str
    said: str

    def __str__(self) -> str:
        return f"{self.kind.capitalize()}. {self.said}".strip()


def mark(posed: Posed, answer: object) -> Outcome:
    """Mark an answer to a posed exercise.

    Parameters
    ----------
    posed : Posed
    answer : object
        number: what was typed, or a number; choice and predict: a text of the choices or its place
        from 1; order: the items in order, or their places in the file's order from 1; target:
        a mapping of lever to number; words: a mapping with "text" and "points" (places from 1 of
        what the student says it holds); drill: the lines of the sheet as text, or rows of cells.
    """
    try:
        given = plain(answer)
        if given is None or given in ([], {}) or (isinstance(given, str) and not given.strip()):
            moves = posed.exercise.kind == "target"
            said = "No slider is moved yet." if moves else "Nothing is filled in yet."
            return Outcome(NOT_ATTEMPTED, said)
        return _MARKERS[posed.exercise.kind](posed, given)
    except InputRefused as why:
        return Outcome(CANNOT_CHECK, f"{why}")


def _number(posed: Posed, answer: object) -> Outcome:
    right = posed.exercise.answer
    assert right is not None
    if isinstance(answer, str):
        value = _typed(answer, right.unit)
    else:
        value = errors.number("answer", answer, right.unit, -1e9, 1e9)
    if abs(value - posed.right) <= right.tolerance * (1 + 1e-9):
        return Outcome(CORRECT, "")
    gaps = [abs(value - one) for one in posed.wrong]
    if gaps and min(gaps) <= max(right.tolerance, 1e-9) * (1 + 1e-9):
        wrong = posed.exercise.wrong[gaps.index(min(gaps))]
        return Outcome(NOT_YET, posed.filled(wrong.coaching))
    if posed.right and abs(value + posed.right) <= right.tolerance * (1 + 1e-9):
        return Outcome(NOT_YET, "The size is right; look at the sign.")
    return Outcome(NOT_YET, f"Too {'large' if value > posed.right else 'small'}.")


def _typed(text: str, unit: str) -> float:
    """A number, with the exercise's own unit behind it or without."""
    known = next((key for key, written in typed.UNITS.items() if unit in written), typed.NO_UNIT)
    if known == typed.NO_UNIT:
        text = text.strip().removesuffix(unit)
    return typed.number_from(text, known)


def _choice(posed: Posed, answer: object) -> Outcome:
    choices = posed.exercise.choices
    texts = [one.text for one in choices]
    chosen = choices[_place("choice", answer, texts)]
    return Outcome(CORRECT, "") if chosen.right else Outcome(NOT_YET, posed.filled(chosen.coaching))


def _order(posed: Posed, answer: object) -> Outcome:
    items = posed.exercise.items
    if not isinstance(answer, list):
        raise InputRefused(f"an order must be a list of the items, not {shown(answer)}.")
    if len(answer) != len(items):
        raise InputRefused(f"{len(items)} places are to be filled, and {len(answer)} are.")
    given = tuple(items[_place("item", one, list(items))] for one in answer)
    if given == items:
        return Outcome(CORRECT, "")
    if len(set(given)) < len(given):
        raise InputRefused("an item stands there twice.")
    for wrong in posed.exercise.wrong:
        if given == wrong.items:
            return Outcome(NOT_YET, posed.filled(wrong.coaching))
    right = sum(one == other for one, other in zip(given, items, strict=True))
    return Outcome(NOT_YET, f"{right} of {len(items)} stand where they belong.")


def _target(posed: Posed, answer: object) -> Outcome:
    target = posed.exercise.target
    assert target is not None
    found = reading(posed, _settings(target, answer))
    found = float(number_words(found))  # judged as it is shown
    miss = _miss(target, found, posed.wanted)
    said = (
        f"{target.words[:1].upper()}{target.words[1:]} {number_words(found)} {target.unit}".rstrip()
    )
    said += f"; wanted is {_wanted_words(target, posed.wanted)}"
    if miss == 0.0:
        return Outcome(CORRECT, f"{said}.")
    for wrong in posed.exercise.wrong:
        if miss * _miss(target, reading(posed, wrong.settings), posed.wanted) > 0.0:
            return Outcome(NOT_YET, f"{said}. {posed.filled(wrong.coaching)}")
    return Outcome(NOT_YET, f"{said}: too {'much' if miss > 0 else 'little'}.")


def _wanted_words(target: Target, wanted: float) -> str:
    words = f"{number_words(wanted)} {target.unit}".rstrip()
    if target.rule == "within":
        return f"{words}, give or take {number_words(target.margin)}"
    return f"{target.rule} {words}"


def reading(posed: Posed, settings: Mapping[str, float]) -> float:
    """What settings of a target's levers give [the target's unit]."""
    target = posed.exercise.target
    assert target is not None
    return target.reading.value({**posed.drawn, **settings})


def _settings(target: Target, answer: object) -> dict[str, float]:
    if not isinstance(answer, dict):
        raise InputRefused(f"settings must be named numbers, not {shown(answer)}.")
    for name in answer:
        errors.choice("setting", name, tuple(target.levers))
    return {
        name: errors.number(lever.words, answer.get(name), lever.unit, lever.low, lever.high)
        for name, lever in target.levers.items()
    }


def _miss(target: Target, found: float, wanted: float) -> float:
    """How far a reading is beside what is wanted; 0 if it does it."""
    off = found - wanted
    if target.rule == "at least":
        return min(off, 0.0)
    if target.rule == "at most":
        return max(off, 0.0)
    return off if abs(off) > target.margin * (1 + 1e-9) else 0.0


def _words(posed: Posed, answer: object) -> Outcome:
    points = posed.exercise.points
    if not isinstance(answer, dict) or not isinstance(answer.get("text"), str):
        raise InputRefused("an explanation must be a text and the points that it holds.")
    if not answer["text"].strip():
        return Outcome(NOT_ATTEMPTED, "Nothing is written yet.")
    if len(answer["text"]) > MOST_LETTERS:
        raise InputRefused(f"the text is longer than {MOST_LETTERS} letters.")
    ticked = answer.get("points", [])
    if not isinstance(ticked, list):
        raise InputRefused(f"points must be a list of places, not {shown(ticked)}.")
    held = {errors.whole("point", one, 1, len(points)) for one in ticked}
    if len(held) == len(points):
        return Outcome(CORRECT, "By your own marking it holds every point.")
    missing = [one for place, one in enumerate(points, 1) if place not in held]
    return Outcome(NOT_YET, f"{len(missing)} of {len(points)} points are not ticked.")


def _drill(posed: Posed, answer: object) -> Outcome:
    sheet = posed.exercise.sheet
    assert sheet is not None
    rows = _cells(answer)
    missing: list[str] = []
    for place, row in enumerate(rows, 1):
        if len(row) != len(sheet.columns):
            raise InputRefused(
                f"line {place} needs {len(sheet.columns)} entries with semicolons between, and has "
                f"{len(row)}: {', '.join(sheet.columns)}."
            )
        for column, cell in zip(sheet.columns, row, strict=True):
            _check_cell(place, column, cell)
            if not cell and not column.startswith(OPTIONAL):
                missing.append(f"line {place}, {column}")
    if missing:
        return Outcome(NOT_YET, f"Still empty: {'; '.join(missing[:3])}.")
    full = len(rows)
    if full < sheet.rows:
        return Outcome(NOT_YET, f"{full} of {sheet.rows} lines are filled in.")
    return Outcome(CORRECT, f"{full} lines are recorded. What they show is for you and your coach.")


def _check_cell(place: int, column: str, cell: str) -> None:
    """Refuse what is no number in a column that has a unit in brackets behind its words."""
    unit = column.partition("[")[2].rstrip("]")
    if cell and unit:
        try:
            _typed(cell, unit)
        except InputRefused as why:
            raise InputRefused(f"line {place}, {column}: {why}") from None


def _cells(answer: object) -> list[list[str]]:
    if isinstance(answer, str):
        if len(answer) > MOST_LETTERS:
            raise InputRefused(f"the sheet is longer than {MOST_LETTERS} letters.")
        lines = [line for line in answer.splitlines() if line.strip()]
        return [[cell.strip() for cell in line.replace("\t", ";").split(";")] for line in lines]
    if not isinstance(answer, list):
        raise InputRefused(f"a sheet must be lines of text, not {shown(answer)}.")
    rows = []
    for row in answer:
        if not isinstance(row, list):
            raise InputRefused(f"a line of a sheet must be a list, not {shown(row)}.")
        rows.append([_cell(cell) for cell in row])
    return rows


def _cell(cell: object) -> str:
    if isinstance(cell, (list, dict)):
        raise InputRefused(f"an entry of a sheet must be a number or a word, not {shown(cell)}.")
    if cell is None or cell != cell:  # a table's own sign for nothing is no number
        return ""
    return cell.strip() if isinstance(cell, str) else shown(cell)


def _place(what: str, answer: object, texts: list[str]) -> int:
    """Where in `texts` an answer stands, given as text or as a place from 1."""
    if isinstance(answer, str) and answer.strip() in texts:
        return texts.index(answer.strip())
    if isinstance(answer, str):
        try:
            answer = typed.number_from(answer)
        except InputRefused:
            raise InputRefused(f"{shown(answer)} is none of the {what}s.") from None
    return errors.whole(what, answer, 1, len(texts)) - 1


_MARKERS = {
    "number": _number, "choice": _choice, "predict": _choice, "order": _order, "target": _target,
    "words": _words, "drill": _drill,
}  # fmt: skip
