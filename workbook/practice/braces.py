"""Names in braces in the texts of an exercise: which texts are filled in, and with what."""

import re
from collections.abc import Iterator

from workbook.errors import shown
from workbook.practice.exercise import Exercise
from workbook.practice.toml_lines import Place
from workbook.practice.toml_reader import TomlReader

BRACES = re.compile(r"\{([a-z_]+)\}")
NAME = re.compile(r"[a-z_]{1,30}")
ANSWER = "answer"
_NAMED = (
    "title", "teaches", "source", "caution", "look", "items", "points", "example", "steps",
)  # fmt: skip


def check_braces(reader: TomlReader, exercise: Exercise) -> None:
    """Refuse a name that nothing stands for, or one in a text that is shown as it is.

    Raises
    ------
    InputRefused
        With the line.
    """
    drawn = tuple(exercise.draws)
    asked: tuple[str, ...] = (ANSWER,) if exercise.answer else ()
    for place, text, known in (*_filled(exercise, drawn, asked), *_plain(exercise)):
        for name in BRACES.findall(text):
            if known is None:
                raise reader.refuse(place, f"{{{name}}} is not filled in here: write it out.")
            if name not in known:
                raise reader.refuse(place, f"nothing is drawn for {{{name}}}.")


def check_name(reader: TomlReader, place: Place, name: str, taken: tuple[str, ...]) -> None:
    """Refuse a name that could not stand in braces, or that something else has already.

    Raises
    ------
    InputRefused
        With the line.
    """
    if not NAME.fullmatch(name):
        raise reader.refuse(place, f"name {shown(name)} must be of the letters a to z and _.")
    if name in (*taken, ANSWER):
        raise reader.refuse(place, f"name {shown(name)} stands for something else already.")


def _filled(
    one: Exercise, drawn: tuple[str, ...], answer: tuple[str, ...]
) -> Iterator[tuple[Place, str, tuple[str, ...] | None]]:
    yield ("prompt",), one.prompt, drawn
    yield from ((("hints",), hint, drawn) for hint in one.hints)
    yield ("explanation",), one.explanation, (*drawn, *answer)
    yield from ((("wrong", i, "coaching"), w.coaching, drawn) for i, w in enumerate(one.wrong))
    yield from ((("choices", i, "coaching"), c.coaching, drawn) for i, c in enumerate(one.choices))


def _plain(one: Exercise) -> Iterator[tuple[Place, str, None]]:
    for name in _NAMED:
        found = getattr(one, name)
        yield from (((name,), text, None) for text in ([found] if type(found) is str else found))
    for i, choice in enumerate(one.choices):
        yield ("choices", i, "text"), choice.text, None
    for i, wrong in enumerate(one.wrong):
        yield ("wrong", i, "says"), wrong.says, None
    if one.sheet:
        yield from ((("sheet", "columns"), text, None) for text in one.sheet.columns)
    if one.picture:
        yield ("picture", "words"), one.picture["words"], None
    if one.answer:
        yield ("answer", "unit"), one.answer.unit, None
    if one.target:
        yield ("target", "words"), one.target.words, None
        for i, lever in enumerate(one.target.levers.values()):
            yield ("target", "lever", i, "words"), lever.words, None
