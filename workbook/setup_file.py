"""The one file form of a setup or a bowler: JSON with a format name and a version.

The form follows the input records themselves, so a new field needs no code here.
"""

import json
import os
import warnings
from dataclasses import dataclass, fields, is_dataclass
from os import PathLike
from pathlib import Path
from typing import Any, Self, TypeVar

from workbook import text_file
from workbook.errors import InputRefused, LegalLimit, one_line, shown
from workbook.grip import Grip, Hole
from workbook.inputs import Inputs

VERSION = 1
Record = TypeVar("Record")


@dataclass(frozen=True)
class Saved(Inputs):
    """Input records that have a file of their own."""

    def to_json(self, path: str | PathLike[str], *, overwrite: bool = True) -> None:
        """Write the record to a file, all or nothing.

        Raises
        ------
        InputRefused
            A place that cannot be written, or a file that is there already and not to be
            overwritten: also one that holds no such record this workbook can read. An older file
            there stays as it was.
        """
        write(path, self, overwrite=overwrite)

    @classmethod
    def from_json(cls, path: str | PathLike[str]) -> Self:
        """Read a record of this class from a file.

        Raises
        ------
        InputRefused
            A file that is damaged, of a newer version, or holds a value outside its limits.
        """
        return read(path, cls)


def to_plain(record: Any) -> Any:
    """Return the record as plain dictionaries, lists, numbers and words."""
    if is_dataclass(record):
        return {f.name: to_plain(getattr(record, f.name)) for f in fields(record)}
    if isinstance(record, tuple):
        return [to_plain(one) for one in record]
    return record


def from_plain(kind: type[Record], plain: Any, where: str) -> Record:
    """Build the record `kind` from plain data; `where` names the place for a refusal.

    Raises
    ------
    InputRefused
        Data of the wrong form, an unknown name, or a value outside its limits.
    """
    if not isinstance(plain, dict):
        raise InputRefused(f"{where} must be a group of named values, not {shown(plain)}.")
    known = {f.name: f for f in fields(kind)}  # type: ignore[arg-type]
    unknown = sorted(set(plain) - set(known))
    if unknown:
        raise InputRefused(f"{where} has an unknown entry {shown(unknown[0])}.")
    values = {}
    for name, value in plain.items():
        inner = known[name].metadata.get("kind")
        values[name] = from_plain(inner(), value, f"{where}, {name}") if inner else value
    if kind is Grip and "holes" in values:
        values["holes"] = _holes(values["holes"], where)
    try:
        return kind(**values)
    except InputRefused as why:
        raise InputRefused(f"{where}: {why}") from None


def _holes(plain: Any, where: str) -> tuple[Hole, ...]:
    if not isinstance(plain, list):
        raise InputRefused(f"{where}: holes must be a list, not {shown(plain)}.")
    return tuple(from_plain(Hole, hole, f"{where}, hole {i}") for i, hole in enumerate(plain, 1))


def write(path: str | PathLike[str], record: Inputs, *, overwrite: bool = True) -> None:
    """Write `record` all or nothing; only a file that holds a readable one may be replaced.

    Raises
    ------
    InputRefused
        A place that cannot be written, or something there that is not to be lost.
    """
    file = text_file.place(path)
    if overwrite and os.path.lexists(file) and not file.is_dir():
        _check_replaceable(file, type(record))
    plain = {"format": _format(type(record)), "version": VERSION, **to_plain(record)}
    text = json.dumps(plain, indent=2, ensure_ascii=False, allow_nan=False)
    text_file.write(file, text + "\n", overwrite=overwrite)


def read(path: str | PathLike[str], kind: type[Record]) -> Record:
    """Read a record of the class `kind`.

    Raises
    ------
    InputRefused
        A file that is damaged, of another kind or a newer version, or holds a value outside its
        limits.
    """
    file = text_file.place(path)
    name, noun = one_line(file.name), kind.__name__.lower()
    plain = _parsed(text_file.read(file), name, noun)
    if not isinstance(plain, dict):
        raise InputRefused(f"{name} must be a group of named values, not {shown(plain)}.")
    if plain.get("format") != _format(kind):
        found = shown(plain.get("format"))
        raise InputRefused(f'{name} is no {noun}: format must be "{_format(kind)}", not {found}.')
    version = plain.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise InputRefused(
            f"{name}: version must be a whole number from 1 up, not {shown(version)}."
        )
    if version > VERSION:
        raise InputRefused(
            f"{name} has version {shown(version)}, newer than {VERSION}, the newest this workbook "
            "knows: update the workbook."
        )
    body = {k: v for k, v in plain.items() if k not in ("format", "version")}
    return from_plain(kind, body, name)


def _format(kind: type) -> str:
    return f"bowling-ball {kind.__name__.lower()}"


def _check_replaceable(file: Path, kind: type[Inputs]) -> None:
    """Refuse to replace what this workbook could not have written as it stands."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", LegalLimit)
            read(file, kind)
    except InputRefused as why:
        name = one_line(file.name)
        raise InputRefused(f"{name} stays as it is, give another name: {why}") from None


def _parsed(text: str, name: str, noun: str) -> Any:
    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        plain = dict(pairs)
        if len(plain) < len(pairs):
            names = [entry for entry, _ in pairs]
            twice = next(entry for entry in names if names.count(entry) > 1)
            raise InputRefused(f"{name} has the entry {shown(twice)} twice in one group.")
        return plain

    def whole(digits: str) -> float:
        return int(digits) if len(digits) < 20 else float(digits)  # int() refuses very long ones

    try:
        return json.loads(text, object_pairs_hook=once, parse_int=whole)
    except json.JSONDecodeError as why:
        raise InputRefused(
            f"{name} row {why.lineno}, column {why.colno}: the file is damaged there."
        ) from None
    except RecursionError:
        raise InputRefused(f"{name} is nested too deeply: it is none of ours.") from None
