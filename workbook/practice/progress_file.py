"""The SQLite file that progress is kept in: made, checked, brought up to date, set aside.

Whoever writes to the file or moves it holds the lock of its folder (`alone`), so two kernels that
find a damaged file at the same time do not move each other's new one away.
"""

import os
import random
import sqlite3
import time
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from datetime import datetime
from hashlib import blake2b
from itertools import count
from pathlib import Path
from typing import cast
from urllib.parse import quote

from workbook.errors import InputRefused, one_line
from workbook.practice.answered import Row

NAME = "progress.sqlite3"
LOCK = "progress.lock"
NAMES = (NAME, LOCK)
TAILS = ("", "-wal", "-shm", "-journal")  # what SQLite keeps beside a file and must go with it
APPLICATION_ID = 0x424C5750
WAIT_S = 5.0

MIGRATIONS: tuple[tuple[str, ...], ...] = (
    (
        "CREATE TABLE answer (id INTEGER PRIMARY KEY, exercise TEXT NOT NULL, "
        "seed INTEGER NOT NULL, given BLOB NOT NULL, outcome TEXT NOT NULL, "
        "hints INTEGER NOT NULL, at TEXT NOT NULL, seal BLOB NOT NULL)",
        "CREATE INDEX answer_when ON answer (exercise, at)",
    ),
)
"""Step n brings a file of form n to form n + 1. Files are out there: steps are only added."""

# An answer of the same microsecond and content is the same one, tried again after a refusal.
_ADD = (
    "INSERT INTO answer (exercise, seed, given, outcome, hints, at, seal) "
    "SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7 "
    "WHERE NOT EXISTS (SELECT 1 FROM answer WHERE exercise = ?1 AND at = ?6 AND seal = ?7)"
)
_GET = (
    "SELECT exercise, seed, given, outcome, hints, at, seal FROM answer "
    "WHERE ?1 IS NULL OR exercise = ?1 ORDER BY at, id"
)
_DAMAGE = {  # a fixed statement that is no longer understood also means another content
    sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_ERROR, sqlite3.SQLITE_TOOBIG,
    sqlite3.SQLITE_MISMATCH, sqlite3.SQLITE_SCHEMA, sqlite3.SQLITE_FORMAT,
}  # fmt: skip
_CLOSED = "it or its folder cannot be opened for writing"
_REASONS = {
    sqlite3.SQLITE_FULL: "the disk is full",
    sqlite3.SQLITE_IOERR: "the disk reports an error",
    sqlite3.SQLITE_READONLY: _CLOSED,
    sqlite3.SQLITE_CANTOPEN: _CLOSED,
    sqlite3.SQLITE_PERM: _CLOSED,
}


class Damaged(sqlite3.DatabaseError):
    """A file that SQLite can read but that is not, or no longer, one of ours."""


@contextmanager
def _in_any_letters() -> Iterator[None]:
    """Python fails to read SQLite's own message when it quotes what is damaged."""
    try:
        yield
    except UnicodeDecodeError:
        raise Damaged("its tables are not what was written") from None


@_in_any_letters()
def add(db: sqlite3.Connection, row: Row) -> None:
    """Add one answer in a transaction of its own; it is on the disk when this returns."""
    db.execute("BEGIN IMMEDIATE")
    db.execute(_ADD, (*row, _seal(row)))
    db.execute("COMMIT")


@_in_any_letters()
def rows(db: sqlite3.Connection, exercise: str | None = None) -> list[Row]:
    """Return the answers in order of time, of one exercise or of all.

    Raises
    ------
    Damaged
        An answer that is not what was written.
    """
    found = []
    for *row, seal in db.execute(_GET, (exercise,)):
        if _seal(row) != seal:
            raise Damaged("an answer is not what was written")
        found.append(cast(Row, tuple(row)))
    return found


def _seal(row: Iterable[object]) -> bytes:
    """A checksum: SQLite notices a broken page, not a letter that changed inside a text."""
    return blake2b(ascii(tuple(row)).encode(), digest_size=8).digest()


@_in_any_letters()
def opened(file: Path) -> sqlite3.Connection:
    """Open `file` for writing, in the newest form.

    Raises
    ------
    InputRefused
        A file of a newer form.
    sqlite3.Error
        A file that cannot be opened or is damaged (`is_damage` tells).
    """
    with closing(connect(file, "ro")) as db:  # reading alone leaves a damaged file as it was found
        _check_file(db)
    db = connect(file, "rw")
    try:
        # fullfsync: on a Mac a plain fsync does not reach the disk
        for setting in ("journal_mode=WAL", "synchronous=FULL", "fullfsync=ON"):
            db.execute(f"PRAGMA {setting}").fetchall()
        _bring_up_to_date(db)
        _check_answers(db)
        db.execute("DELETE FROM answer WHERE 0")  # whether it can be written is known from here on
    except BaseException:
        db.close()
        raise
    return db


def create(file: Path) -> None:
    """Make an empty file, whole or not at all: a kill on the way leaves nothing half made."""
    new = file.with_name(f"{file.name}.new")
    for tail in TAILS:
        new.with_name(new.name + tail).unlink(missing_ok=True)
    with closing(connect(new, "rwc")) as db:
        db.execute(f"PRAGMA application_id={APPLICATION_ID}")
        _bring_up_to_date(db)
    os.replace(new, file)


def in_memory(file: Path) -> sqlite3.Connection:
    """Return a copy of what can be read of a file that cannot be written; empty if nothing can.

    Raises
    ------
    InputRefused
        A file of a newer form.
    """
    # A closed WAL file in a read-only folder opens only as one that nobody changes.
    for mode in ("ro", "ro&immutable=1"):
        copy = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
        try:
            with closing(connect(file, mode)) as db:
                db.execute("BEGIN")
                _check_file(db)  # holds the file from here on: `backup` would wait without end
                db.backup(copy)
            _bring_up_to_date(copy)
            _check_answers(copy)
            return copy
        except sqlite3.Error:
            copy.close()
        except BaseException:
            copy.close()
            raise
    empty = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    _bring_up_to_date(empty)
    return empty


def connect(file: Path, mode: str) -> sqlite3.Connection:
    """Open `file` with SQLite's `mode`: ro, rw (only if it is there) or rwc."""
    path = file.absolute().as_posix()
    uri = f"file://{'' if path.startswith('/') else '/'}{quote(os.fsencode(path))}?mode={mode}"
    db = sqlite3.connect(
        uri, uri=True, timeout=WAIT_S, isolation_level=None, check_same_thread=False
    )
    db.text_factory = lambda data: data.decode("utf-8", "surrogateescape")  # the seal decides
    return db


@_in_any_letters()
def _check_file(db: sqlite3.Connection) -> None:
    if _number(db, "application_id") != APPLICATION_ID:
        raise Damaged("it is not a file of this workbook")
    form = _number(db, "user_version")
    if form > len(MIGRATIONS):
        raise InputRefused(
            f"{NAME} was written by a newer workbook (form {form}, and this one knows 1 to "
            f"{len(MIGRATIONS)}): bring the workbook up to date, or move that file away."
        )
    if form < 1:
        raise Damaged("it has no form")
    # not quick_check: an index of its own mind hides answers, and the file is small
    found = db.execute("PRAGMA integrity_check(1)").fetchone()
    if found != ("ok",):
        raise Damaged("its pages do not fit together")


def _check_answers(db: sqlite3.Connection) -> None:
    rows(db)
    db.execute(f"EXPLAIN {_ADD}", ("", 0, b"", "", 0, "", b"")).fetchall()  # still understood


def _bring_up_to_date(db: sqlite3.Connection) -> None:
    form = _number(db, "user_version")
    if form == len(MIGRATIONS):
        return
    db.execute("BEGIN IMMEDIATE")  # all steps or none; the caller closes what fails
    for step in MIGRATIONS[form:]:
        for statement in step:
            db.execute(statement)
    db.execute(f"PRAGMA user_version={len(MIGRATIONS)}")
    db.execute("COMMIT")


def _number(db: sqlite3.Connection, pragma: str) -> int:
    return int(db.execute(f"PRAGMA {pragma}").fetchone()[0])


def left_behind(file: Path) -> bool:
    """Whether there is no `file` but something that SQLite would take for its newest part."""
    return not file.exists() and any(map(os.path.lexists, _with_tails(file)))


def set_aside(file: Path, word: str = "") -> Path:
    """Move `file` and what belongs to it to a free name with today's date; return its new place."""
    day = datetime.now().astimezone().date().isoformat()
    for n in count(1):
        parts = (file.stem, day, word, str(n) if n > 1 else "")
        place = file.with_name("-".join(filter(None, parts)) + file.suffix)
        if not any(map(os.path.lexists, _with_tails(place))):
            break
    moved: list[tuple[Path, Path]] = []
    try:
        for old, new in zip(_with_tails(file), _with_tails(place), strict=True):
            if os.path.lexists(old):
                os.rename(old, new)
                moved.append((old, new))
    except OSError:
        for old, new in reversed(moved):
            os.rename(new, old)
        raise
    return place


def _with_tails(file: Path) -> list[Path]:
    return [file.with_name(file.name + tail) for tail in TAILS]


def lock(folder: Path) -> sqlite3.Connection:
    """Open the lock of `folder`: an empty file, because SQLite's locks end with their process."""
    file = folder / LOCK
    db = connect(file, "rwc")
    if file.exists() and file.stat().st_size:
        os.truncate(file, 0)  # by name: closing a file by hand would end the locks on it
    db.execute("PRAGMA busy_timeout=0")
    return db


@contextmanager
def alone(held: sqlite3.Connection) -> Iterator[None]:
    """Hold the lock, once nobody else does.

    Raises
    ------
    sqlite3.OperationalError
        Somebody else has held it for WAIT_S.
    """
    end = time.monotonic() + WAIT_S
    try:
        while not held.in_transaction:
            try:
                held.execute("PRAGMA journal_mode=MEMORY").fetchall()  # no file beside the lock
                held.execute("BEGIN EXCLUSIVE")
                held.execute("PRAGMA user_version=0")  # refused where BEGIN only came to read
            except sqlite3.OperationalError as why:
                if _code(why) != sqlite3.SQLITE_BUSY or time.monotonic() > end:
                    raise
                time.sleep(random.uniform(0.001, 0.005))  # SQLite waits longer, and so starves
        yield
    finally:
        held.rollback()


def is_damage(why: BaseException) -> bool:
    """Whether `why` says that the content is broken, not that the file is out of reach."""
    return isinstance(why, Damaged) or _code(why) in _DAMAGE


def is_read_only(why: BaseException) -> bool:
    """Whether `why` says that the file cannot be written; its folder may still let it be moved."""
    return _code(why) == sqlite3.SQLITE_READONLY


def reason(why: BaseException) -> str:
    """Return why something failed in a few words."""
    if isinstance(why, OSError):
        return why.strerror or "the disk reports an error"
    if _code(why) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return f"another window has held it for more than {WAIT_S:g} s"
    return _REASONS.get(_code(why), one_line(str(why)))


def _code(why: BaseException) -> int:
    """SQLite's code without the extension; -1 where there is none."""
    code = getattr(why, "sqlite_errorcode", -1)
    return code & 0xFF if code >= 0 else -1
