"""The one file form of a setup: JSON with a format name and a version.

The form follows the input records themselves, so a new field needs no code here.
"""

import json
import os
import tempfile
from dataclasses import fields, is_dataclass
from os import PathLike
from pathlib import Path
from typing import Any, TypeVar

from workbook.errors import InputRefused, shown
from workbook.grip import Grip, Hole
from workbook.inputs import Inputs

FORMAT = "bowling-ball setup"
VERSION = 1
MOST_BYTES = 1_000_000
Record = TypeVar("Record")


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
    try:
        if kind is Grip:
            holes = values.get("holes", [])
            if not isinstance(holes, list):
                raise InputRefused(f"holes must be a list, not {shown(holes)}.")
            values["holes"] = tuple(
                from_plain(Hole, hole, f"{where}, hole {i}") for i, hole in enumerate(holes, 1)
            )
        return kind(**values)
    except InputRefused as why:
        text = str(why)
        raise InputRefused(text if text.startswith(where) else f"{where}: {text}") from None


def write(path: str | PathLike[str], setup: Inputs) -> None:
    """Write `setup` through a neighbour file that takes the place of `path` only when whole."""
    plain = {"format": FORMAT, "version": VERSION, **to_plain(setup)}
    file = Path(path)
    try:
        handle, name = tempfile.mkstemp(dir=file.parent, prefix=f".{file.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as out:
                json.dump(plain, out, indent=2, ensure_ascii=False, allow_nan=False)
                out.write("\n")
                out.flush()
                os.fsync(out.fileno())
            os.replace(name, file)
        except BaseException:
            os.unlink(name)
            raise
    except OSError as why:
        raise InputRefused(f"{file} cannot be written: {why.strerror}.") from None


def read(path: str | PathLike[str], kind: type[Record]) -> Record:
    """Read a setup of the class `kind`."""
    file = Path(path)
    try:
        if file.stat().st_size > MOST_BYTES:
            size = file.stat().st_size / 1e6
            raise InputRefused(f"{file.name} is {size:.1f} MB, outside 0 to 1 MB: not a setup.")
        plain = json.loads(file.read_bytes().decode("utf-8-sig"))
    except OSError as why:
        raise InputRefused(f"{file} cannot be read: {why.strerror}.") from None
    except UnicodeDecodeError:
        raise InputRefused(f"{file.name} is not UTF-8 text: it is damaged or no setup.") from None
    except json.JSONDecodeError as why:
        raise InputRefused(
            f"{file.name} row {why.lineno}, column {why.colno}: the file is damaged ({why.msg})."
        ) from None
    except ValueError:  # a whole number of thousands of digits
        raise InputRefused(f"{file.name} holds a number that is too long.") from None
    except RecursionError:
        raise InputRefused(f"{file.name} is nested too deeply: it is no setup.") from None
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        raise InputRefused(f'{file.name} is no setup: "format" must be "{FORMAT}".')
    version = plain.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise InputRefused(f"{file.name}: version must be a whole number from 1, not "
                           f"{shown(version)}.")  # fmt: skip
    if version > VERSION:
        raise InputRefused(
            f"{file.name} has version {version}, newer than {VERSION}, the newest this workbook "
            "knows: update the workbook."
        )
    body = {k: v for k, v in plain.items() if k not in ("format", "version")}
    return from_plain(kind, body, file.name)
