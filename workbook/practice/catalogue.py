"""All exercises of a folder by their id, easy ones first within a chapter."""

from functools import cache
from pathlib import Path

from workbook.errors import InputRefused, one_line, shown
from workbook.practice import exercise_file
from workbook.practice.answering import Outcome, mark
from workbook.practice.exercise import Exercise
from workbook.practice.posed import pose

PACKAGE = Path(__file__).parents[1]
CARRIED = PACKAGE / "_content/exercises"
# a wheel carries them inside the package, a checkout has them beside it
FOLDER = CARRIED if CARRIED.is_dir() else PACKAGE.parent / "exercises"


@cache
def catalogue(folder: Path = FOLDER, chapter: str = "*") -> dict[str, Exercise]:
    """Return the exercises of a folder, or of a chapter in it, in the order to do them in.

    Raises
    ------
    InputRefused
        A file that is not of the form, or whose id is not its path.
    """
    found = []
    for file in sorted(folder.glob(f"{chapter}/*.toml")):
        one = exercise_file.read(file)
        if one.id != f"{file.parent.name}/{file.stem}":
            raise InputRefused(f"{file.name}: id {shown(one.id)} is not its path.")
        found.append(one)
    found.sort(key=lambda one: (one.chapter, one.level, one.id))
    return {one.id: one for one in found}


def chapters(folder: Path = FOLDER) -> tuple[str, ...]:
    """Return the chapters that have exercises.

    Raises
    ------
    InputRefused
        If none has.
    """
    found = tuple(sorted({file.parent.name for file in folder.glob("*/*.toml")}))
    if not found:
        raise InputRefused(f"there are no exercises in {one_line(str(folder), 100)}.")
    return found


def exercise(name: str) -> Exercise:
    """Return an exercise by its id, or by the last part of it where that is enough.

    Raises
    ------
    InputRefused
        No such exercise, or several.
    """
    if isinstance(name, str):
        folder = name.partition("/")[0]  # a faulty file stops its own chapter alone
        known = catalogue(FOLDER, folder) if folder in chapters() else catalogue()
        if name in known:
            return known[name]
        fits = [one for key, one in known.items() if key.partition("/")[2] == name]
        if len(fits) == 1:
            return fits[0]
    raise InputRefused(f"there is no exercise {shown(name)}; see wb.practice.ids().")


def ids(chapter: str = "") -> list[str]:
    """Return the ids of all exercises, or of a chapter, in the order to do them in."""
    return [key for key, one in catalogue().items() if chapter in ("", one.chapter)]


def check(name: str, answer: object, seed: int = 0) -> Outcome:
    """Mark an answer to the exercise `name`; nothing is kept.

    Parameters
    ----------
    name : str
        Id of the exercise.
    answer : object
        What was typed, or a number; see `answering.mark` for the other kinds. Places are those of
        the file, while a card shuffles.
    seed : int
        Which variant; 0 is the worked example.

    Raises
    ------
    InputRefused
        No such exercise, or a seed outside 0 to 1e15.

    Examples
    --------
    >>> print(check("00_start_here/which_flares_more", "pin down").kind)
    not yet
    """
    return mark(pose(exercise(name), seed), answer)
