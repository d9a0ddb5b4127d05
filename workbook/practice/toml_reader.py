"""Values of a TOML file, checked; a refusal names the file and the line."""

import tomllib
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from workbook import errors
from workbook.errors import InputRefused, one_line, shown
from workbook.practice.toml_lines import Place, lines_of, nearest

MOST_LETTERS = 3000
# the standard reader's time and memory grow with the square of the names in one dotted key
MOST_IN_LINE, MOST_IN_FILE = 4000, 60_000
DEEPEST = 20
T = TypeVar("T")


def load(text: str, name: str) -> dict[str, Any]:
    """Return what stands in the TOML file called `name`, if it is of a sensible size and depth.

    Raises
    ------
    InputRefused
        Not TOML, too long, or tables within tables within tables.
    """
    if len(text) > MOST_IN_FILE:
        raise InputRefused(f"{name} of {len(text)} letters is longer than {MOST_IN_FILE}.")
    for line, words in enumerate(text.split("\n"), 1):
        if len(words) > MOST_IN_LINE:
            raise InputRefused(
                f"{name} line {line}: the line is longer than {MOST_IN_LINE} letters."
            )
    try:
        plain = tomllib.loads(text)
    except tomllib.TOMLDecodeError as why:
        raise InputRefused(f"{name}: this is no TOML: {one_line(str(why), 120)}.") from None
    except (RecursionError, ValueError, OverflowError):
        raise InputRefused(f"{name}: nested too deeply, or a number that is too long.") from None
    inner: list[Any] = [plain]
    for _deep in range(DEEPEST):
        inner = [part for one in inner for part in _parts(one)]
    if inner:
        raise InputRefused(f"{name}: nested too deeply.")
    return plain


def _parts(one: Any) -> list[Any]:
    return list(one.values()) if isinstance(one, dict) else one if isinstance(one, list) else []


class TomlReader:
    """Reads values at a place in a file, and refuses them with their line.

    Parameters
    ----------
    name : str
        The file, as it is called in a refusal.
    text : str
        What stands in it.
    """

    def __init__(self, name: str, text: str) -> None:
        self.name, self.lines = name, lines_of(text)

    def refuse(self, place: Place, words: str) -> InputRefused:
        """A refusal of what stands at `place`."""
        return InputRefused(f"{self.name} line {nearest(self.lines, place)}: {words}")

    def said(self, place: Place, check: Callable[..., T], *given: Any) -> T:
        """What `check` returns; its own refusal with the line."""
        try:
            return check(*given)
        except InputRefused as why:
            raise self.refuse(place, str(why)) from None

    def only(self, table: Mapping[str, Any], place: Place, allowed: tuple[str, ...]) -> None:
        """Refuse a key that is not known here."""
        for key in table:
            if key not in allowed:
                raise self.refuse((*place, key), f"{shown(key)} is not known here.")

    def table(
        self,
        table: Mapping[str, Any],
        place: Place,
        key: str,
        missing: dict[str, Any] | None = None,
    ) -> dict[str, Any]:
        """The table called `key`."""
        given = table.get(key, missing)
        if not isinstance(given, dict):
            what = "is missing" if given is None else f"must be a table, not {shown(given)}"
            raise self.refuse((*place, key), f"{shown(key)} {what}.")
        return given

    def tables(
        self, plain: Mapping[str, Any], key: str, least: int, most: int, place: Place = ()
    ) -> list[dict[str, Any]]:
        """The tables under [[`key`]]."""
        given = plain.get(key, [])
        if not isinstance(given, list) or not all(isinstance(one, dict) for one in given):
            raise self.refuse((*place, key), f"{key} must be tables, each under [[{key}]].")
        if not least <= len(given) <= most:
            raise self.refuse(
                (*place, key), f"{key}: {len(given)} given, {least} to {most} wanted."
            )
        return given

    def text(
        self, table: Mapping[str, Any], place: Place, key: str, *, empty: bool = False,
        missing: str | None = None,
    ) -> str:  # fmt: skip
        """The text called `key`."""
        given = table.get(key, missing)
        if given is None:
            raise self.refuse((*place, key), f"{key} is missing.")
        return self.as_text((*place, key), given, empty=empty)

    def as_text(self, place: Place, given: object, *, empty: bool = False) -> str:
        """`given`, if it is a text of a sensible length."""
        name = next(str(part) for part in reversed(place) if isinstance(part, str))
        if not isinstance(given, str):
            raise self.refuse(place, f"{name} must be text, not {shown(given)}.")
        if len(given) > MOST_LETTERS:
            raise self.refuse(place, f"{name} is longer than {MOST_LETTERS} letters.")
        if not empty and not given.strip():
            raise self.refuse(place, f"{name} is empty.")
        return given.strip()

    def texts(
        self, table: Mapping[str, Any], place: Place, key: str, least: int, most: int
    ) -> tuple[str, ...]:
        """The list of texts called `key`."""
        given = table.get(key)
        if not isinstance(given, list) or not least <= len(given) <= most:
            raise self.refuse((*place, key), f"{key} must be a list of {least} to {most} texts.")
        return tuple(self.as_text((*place, key), one) for one in given)

    def choice(
        self, table: Mapping[str, Any], place: Place, key: str, allowed: tuple[str, ...]
    ) -> str:
        """The word called `key`, one of those allowed."""
        return self.said((*place, key), errors.choice, key, table.get(key), allowed)

    def number(
        self, table: Mapping[str, Any], place: Place, key: str, low: float = -1e6, high: float = 1e6
    ) -> float:
        """The number called `key`, inside its limits."""
        return self.said((*place, key), errors.number, key, table.get(key), "", low, high)

    def whole(self, table: Mapping[str, Any], place: Place, key: str, low: int, high: int) -> int:
        """The whole number called `key`, inside its limits."""
        return self.said((*place, key), errors.whole, key, table.get(key), low, high)

    def distinct(self, place: Place, texts: list[str]) -> None:
        """Refuse texts of which two are the same."""
        if len(set(texts)) < len(texts):
            raise self.refuse(place, "two of them are the same.")
