"""What was answered, kept in one file in the user's data folder; no account, nothing is sent."""

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from os import PathLike
from pathlib import Path
from typing import Self

import platformdirs

from workbook import errors, text_file
from workbook.errors import InputRefused, one_line
from workbook.practice import answers_csv
from workbook.practice import progress_file as files
from workbook.practice.answered import Answered, Row

__all__ = ["Answered", "Progress"]

FOLDER = "WORKBOOK_DATA"
"""Environment variable that names another folder for progress."""


class Progress:
    """The answers of this computer's user; several kernels may have them open at once.

    Parameters
    ----------
    folder : path, optional
        Where the file is; made if missing. Left out, the folder that WORKBOOK_DATA names, or
        "bowling-layout-workbook" where this system keeps the data of programs.

    Raises
    ------
    InputRefused
        What names no folder, or a file that a newer workbook wrote.
    """

    def __init__(self, folder: str | PathLike[str] | None = None) -> None:
        self.folder = text_file.place(_usual_folder() if folder is None else folder).absolute()
        self.file = self.folder / files.NAME
        self._turn = threading.RLock()  # one connection, used by one thread at a time
        self._db: sqlite3.Connection | None = None
        self._lock: sqlite3.Connection | None = None
        self._place: tuple[int, int] | None = None
        self._aside: list[str] = []
        self._why = ""  # why the file cannot be written; `_db` is then a copy in memory
        self._closed = False
        self._open()

    @property
    def said(self) -> str:
        """What the user has to know about the file: one sentence, or "" if all is well."""
        notes = [*self._aside, *([self._why] if self._why else [])]
        return "; ".join(notes) + "." if notes else ""

    def record(self, answered: Answered) -> None:
        """Keep one answer; it is on the disk when this returns. Kept already, it is kept once.

        A file that turns out to be damaged is set aside (`said` names it) and a new one begun.

        Raises
        ------
        InputRefused
            The disk is full, the folder can only be read, or somebody holds the file too long.
            What was kept before still is, and the same answer can be recorded again.
        """
        errors.instance("answer", answered, Answered)
        row = answered.row()
        with self._turn:
            self._check_not_closed()
            try:
                with self._alone():
                    self._add(row)
            except (OSError, sqlite3.Error) as why:
                self._let_go()
                raise InputRefused(f"{self._cannot(why)}.") from None

    def answers(self, exercise: str | None = None) -> list[Answered]:
        """Return the answers in order of time, of one exercise or of all.

        From a file that cannot be written, what could be read when it was opened.

        Raises
        ------
        InputRefused
            A file that can no longer be read.
        """
        with self._turn:
            self._check_not_closed()
            return [Answered.from_row(row) for row in self._rows(exercise)]

    def export_csv(self, path: str | PathLike[str], *, overwrite: bool = False) -> None:
        """Write all answers as a table for a spreadsheet, see `answers_csv.write`.

        Raises
        ------
        InputRefused
            A place that cannot be written or holds something else; what is there stays as it was.
        """
        file = text_file.place(path)
        there = os.path.realpath(file.parent) == os.path.realpath(self.folder)
        if there and file.name.startswith(files.NAMES):
            raise InputRefused(f"{one_line(file.name)} is kept for progress: give another name.")
        answers_csv.write(file, self.answers(), overwrite=overwrite)

    def reset(self) -> Path | None:
        """Set the file aside under a free name with today's date and start anew.

        Returns
        -------
        Path or None
            Where the old answers are; None if there were none.

        Raises
        ------
        InputRefused
            A file that cannot be moved; it stays as it was.
        """
        with self._turn:
            self._check_not_closed()
            place = None
            try:
                with self._alone():
                    if self._has_none():
                        return None
                    self._let_go_of_file()
                    place = files.set_aside(self.file)
                    self._current()
                    return place
            except (OSError, sqlite3.Error) as why:
                self._let_go()
                kept = f"kept as {place.name}, but no new one is begun" if place else "not moved"
                raise InputRefused(f"{self._named()} is {kept}: {files.reason(why)}.") from None

    def close(self) -> None:
        """Close the file; nothing more can be recorded or read here."""
        with self._turn:
            self._closed = True
            self._let_go()

    def __enter__(self) -> Self:
        """Return self."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close the file."""
        self.close()

    def _open(self) -> None:
        try:
            with self._alone():
                self._current()
        except (OSError, sqlite3.Error) as why:
            self._let_go()
            self._why = self._cannot(why)
            self._db = files.in_memory(self.file)
        except InputRefused:
            self._let_go()
            raise

    def _current(self) -> sqlite3.Connection:
        """The connection to the file that has the name now; to be asked for under the lock."""
        if self._db is None or self._why or self._was_moved():
            self._let_go_of_file()
            self._db = self._sound()
            found = self.file.stat()
            self._place, self._why = (found.st_dev, found.st_ino), ""
        return self._db

    def _sound(self) -> sqlite3.Connection:
        if files.left_behind(self.file):
            self._set_damaged_aside()
        if not self.file.exists():
            files.create(self.file)
        try:
            return files.opened(self.file)
        except sqlite3.Error as why:
            if not files.is_damage(why):
                raise
        self._set_damaged_aside()
        files.create(self.file)
        return files.opened(self.file)

    def _set_damaged_aside(self) -> None:
        place = files.set_aside(self.file, "damaged")
        self._aside.append(
            f"{self._named()} was damaged: it is kept as {place.name}, and a new one is begun"
        )

    def _add(self, row: Row) -> None:
        try:
            files.add(self._current(), row)
        except BaseException as why:  # an interrupt too must not leave a transaction open
            self._let_go_of_file()
            if not files.is_damage(why):
                raise
            files.add(self._current(), row)  # opening sets a damaged file aside

    def _rows(self, exercise: str | None) -> list[Row]:
        for last in (False, True):
            try:
                if self._db is None or (not self._why and self._was_moved()):
                    self._open()
                assert self._db is not None
                return files.rows(self._db, exercise)
            except sqlite3.Error as why:
                self._let_go()
                if last or not files.is_damage(why):
                    raise InputRefused(
                        f"{self._named()} cannot be read: {files.reason(why)}."
                    ) from None
        raise AssertionError

    def _has_none(self) -> bool:
        try:
            return not files.rows(self._current())
        except sqlite3.Error as why:
            if not files.is_damage(why) and not files.is_read_only(why):
                raise
            return False  # whatever it holds, it may be moved

    def _was_moved(self) -> bool:
        """Whether another kernel has set aside the file that is open here."""
        try:
            found = self.file.stat()
        except OSError:
            return True
        return (found.st_dev, found.st_ino) != self._place

    @contextmanager
    def _alone(self) -> Iterator[None]:
        if self._lock is None:
            self.folder.mkdir(parents=True, exist_ok=True)
            self._lock = files.lock(self.folder)
        with files.alone(self._lock):
            yield

    def _let_go(self) -> None:
        """Close everything, so that the next try starts afresh."""
        self._let_go_of_file()
        if self._lock is not None:
            self._lock.close()
            self._lock = None

    def _let_go_of_file(self) -> None:
        if self._db is not None:
            self._db.close()
            self._db = None

    def _check_not_closed(self) -> None:
        if self._closed:
            raise InputRefused(f"{self._named()} is closed here: open it again.")

    def _named(self) -> str:
        return f"{files.NAME} in {one_line(str(self.folder), 100)}"

    def _cannot(self, why: Exception) -> str:
        return f"{self._named()} cannot be written, so answers are not kept: {files.reason(why)}"


def _usual_folder() -> str:
    named = os.environ.get(FOLDER)
    return named or platformdirs.user_data_dir("bowling-layout-workbook", appauthor=False)
