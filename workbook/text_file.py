"""Reading and writing a small text file whole, or refusing it in one sentence."""

import os
import re
import secrets
import shutil
import stat
from pathlib import Path

from workbook.errors import InputRefused, one_line, shown

SHARED = "WORKBOOK_SHARED"
"""Set for a page that others see: its panels leave this computer's files alone."""
MOST_BYTES = 1_000_000
LINE_END = re.compile("\r\n|\r|\n")


def place(path: object) -> Path:
    """Return `path` as a `Path`, "~" as the home folder.

    Raises
    ------
    InputRefused
        Something that names no file.
    """
    name = os.fspath(path) if isinstance(path, os.PathLike) else path
    if not isinstance(name, str) or "\0" in name or not Path(name).name:
        raise InputRefused(f"file must be the name of a file, not {shown(name)}.")
    try:
        return Path(name).expanduser()
    except RuntimeError:
        raise InputRefused(
            f"file {shown(name)} starts with a home folder that is not there."
        ) from None


def read(file: Path) -> str:
    """Return the text of `file`, without a byte-order mark.

    Raises
    ------
    InputRefused
        A file that is missing, no plain file, above 1 MB, or not UTF-8 text.
    """
    name = one_line(file.name)
    try:
        found = file.stat()
        if not stat.S_ISREG(found.st_mode):  # a pipe would wait for ever
            raise InputRefused(f"{name} cannot be read: it is a folder or a device, not a file.")
        with file.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1) if found.st_size <= MOST_BYTES else b""
    except (OSError, UnicodeEncodeError) as why:
        raise InputRefused(f"{_whole(file)} cannot be read: {_reason(why)}.") from None
    if max(found.st_size, len(data)) > MOST_BYTES:
        size = max(found.st_size, len(data)) / 1e6
        raise InputRefused(
            f"{name} is too big: {size:g} MB is outside 0 to {MOST_BYTES / 1e6:g} MB."
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as why:
        text = why.object[: why.start].decode("utf-8") + "\0"
    if "\0" in text:
        lines = LINE_END.split(text[: text.index("\0")])
        raise InputRefused(
            f"{name} row {len(lines)}, character {len(lines[-1]) + 1}: this is not UTF-8 text, so "
            "the file is damaged or was saved in another form."
        )
    return text


def write(file: Path, text: str, *, overwrite: bool = True) -> None:
    """Write `text` through a neighbour file that takes the place of `file` only when whole.

    Raises
    ------
    InputRefused
        A place that cannot be written, or a file that is there already and not to be overwritten;
        an older file there stays as it was.
    """
    spare = file.with_name(f".{secrets.token_hex(8)}.tmp")
    try:
        if not overwrite:
            file.open("x").close()  # the place is ours, or it was taken
        try:
            with spare.open("x", encoding="utf-8", newline="\n") as out:
                out.write(text)
                out.flush()
                os.fsync(out.fileno())
            if file.exists():
                shutil.copymode(file, spare)
            os.replace(spare, file)
        except BaseException:
            spare.unlink(missing_ok=True)
            if not overwrite:
                file.unlink(missing_ok=True)
            raise
    except FileExistsError:
        raise InputRefused(f"{_whole(file)} is there already: give another name.") from None
    except (OSError, UnicodeEncodeError) as why:
        raise InputRefused(f"{_whole(file)} cannot be written: {_reason(why)}.") from None


def _whole(file: Path) -> str:
    return f"{one_line(file.name)} in {one_line(str(file.parent.absolute()), 100)}"


def _reason(why: OSError | UnicodeEncodeError) -> str:
    if isinstance(why, FileNotFoundError):
        return "there is no such file or folder"
    return (isinstance(why, OSError) and why.strerror) or "not a name or text for a file"
