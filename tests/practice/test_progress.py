"""Progress: what was kept comes back, whoever else writes; a failure is a sentence, not a loss."""

import csv
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import threading
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.practice.kernels import ARC, PIN, ROOT, answer, kept_by, kernel
from tests.refusals.refusal import examples, one_sentence, refused
from workbook.practice import progress_file
from workbook.practice.progress import Answered, Progress

# Written by hand, but for the seal. Files of this form are out there.
FORM_1 = """
CREATE TABLE answer (id INTEGER PRIMARY KEY, exercise TEXT NOT NULL, seed INTEGER NOT NULL,
    given BLOB NOT NULL, outcome TEXT NOT NULL, hints INTEGER NOT NULL, at TEXT NOT NULL,
    seal BLOB NOT NULL);
CREATE INDEX answer_when ON answer (exercise, at);
INSERT INTO answer VALUES (1, '04_lay_it_out/arc_not_chord', 7, x'3420312f32', 'not yet', 2,
    '2026-03-01T09:00:00.250000+00:00', x'a8f50b1fc87a4876');
PRAGMA application_id = 1112299344;
PRAGMA user_version = 1;
"""
OLD = Answered(ARC, 7, "4 1/2", "not yet", 2, datetime(2026, 3, 1, 9, 0, 0, 250000, tzinfo=UTC))
EXTRA = ("ALTER TABLE answer ADD COLUMN note TEXT NOT NULL DEFAULT ''",)

NO_RIGHTS = pytest.mark.skipif(sys.platform == "win32", reason="folders have no such rights there")


@pytest.fixture
def progress(tmp_path):
    with Progress(tmp_path) as one:
        yield one


def in_file(folder, sql, name="progress.sqlite3"):
    with closing(sqlite3.connect(Path(folder) / name, isolation_level=None)) as db:
        return db.executescript(sql) if ";" in sql else db.execute(sql).fetchall()


def test_answers_come_back_in_order_of_time(tmp_path):
    with Progress(tmp_path) as progress:
        for n in (3, 1, 2):
            progress.record(answer(n, PIN if n == 2 else ARC))
        assert progress.said == ""
    with Progress(tmp_path) as again:
        assert again.answers() == [answer(1), answer(2, PIN), answer(3)]
        assert again.answers(PIN) == [answer(2, PIN)]
        assert again.answers("no/such") == []


@examples(60)
@given(
    typed=st.text(st.characters(exclude_categories=()), max_size=80),
    at=st.datetimes(timezones=st.sampled_from([UTC, timezone(timedelta(hours=-9, minutes=-30))]),
                    min_value=datetime(2, 1, 1), max_value=datetime(9998, 1, 1)),
    seed=st.integers(0, 10**15),
    hints=st.integers(0, 3),
)  # fmt: skip
def test_any_text_comes_back_as_typed(typed, at, seed, hints):
    with tempfile.TemporaryDirectory() as folder:
        given = Answered(ARC, seed, typed, "not yet", hints, at)
        with Progress(folder) as progress:
            progress.record(given)
        with Progress(folder) as progress:
            (found,) = progress.answers()
            assert found == given and found.at.tzinfo == UTC


@pytest.mark.parametrize(
    "typed",
    ["", "a\0b", "'; DROP TABLE answer; --", '"', "🎳", "\ud83d", "\ud83d\ude00", "x" * 10**4],
)
def test_awkward_text(progress, typed):
    progress.record(answer(1, given=typed))
    assert progress.answers() == [answer(1, given=typed)]


@pytest.mark.parametrize(
    ("changed", "part"),
    [
        ({"exercise": ""}, "exercise"), ({"exercise": "a\nb"}, "exercise"),
        ({"exercise": None}, "exercise"), ({"seed": -1}, "seed -1"), ({"seed": 0.5}, "seed"),
        ({"seed": True}, "seed"), ({"given": None}, "given"), ({"given": b"x"}, "given"),
        ({"given": "x" * 10_001}, "10001 letters"), ({"outcome": "cannot check"}, "not yet"),
        ({"hints": 4}, "hints 4"), ({"at": "today"}, "'today'"),
        ({"at": datetime(2026, 3, 1)}, "time zone"),
        ({"at": datetime.min.replace(tzinfo=timezone(timedelta(hours=1)))}, "years 1 to 9999"),
    ],
)  # fmt: skip
def test_what_is_no_answer_is_refused(changed, part):
    kept = dict(exercise=ARC, seed=1, given="4", outcome="correct", hints=0, at=OLD.at)
    refused(lambda: Answered(**kept | changed), part)


def test_the_same_answer_is_kept_once_and_another_beside_it(progress):
    twice = [answer(1), answer(1, given="4.5"), answer(1)]
    for one in twice:
        progress.record(one)
    assert progress.answers() == twice[:2]


def test_an_answer_is_on_the_disk_when_record_returns(progress):
    assert progress._db.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    assert progress._db.execute("PRAGMA synchronous").fetchone() == (2,)  # FULL in SQLite's manual


@pytest.mark.parametrize("named", [True, False])
def test_where_the_file_is(tmp_path, monkeypatch, named):
    monkeypatch.delenv("WORKBOOK_DATA", raising=False)
    if named:
        monkeypatch.setenv("WORKBOOK_DATA", str(tmp_path / "new" / "folder"))
    else:
        usual = "platformdirs.user_data_dir"
        monkeypatch.setattr(usual, lambda name, appauthor: str(tmp_path / name / str(appauthor)))
    with Progress() as progress:
        place = ("new", "folder") if named else ("bowling-layout-workbook", "False")
        assert progress.file == tmp_path.joinpath(*place, "progress.sqlite3")
        assert progress.file.exists()


def test_loading_is_light():
    program = (
        "import sys, workbook.practice.progress, workbook.practice.schedule\nprint(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True)
    assert not {"numpy", "pandas", "matplotlib", "ipywidgets"} & set(done.stdout.split())
    assert "workbook.practice.schedule" in done.stdout


# Several at once


def test_two_kernels_writing_at_once_lose_nothing(tmp_path):
    kept = kept_by([kernel(tmp_path, first, 300) for first in (0, 1000)])
    assert [len(one) for one in kept] == [300, 300]
    with Progress(tmp_path) as progress:
        assert [one.seed for one in progress.answers()] == [*range(300), *range(1000, 1300)]


def test_threads_share_one_progress(progress):
    def some(first):
        for n in range(first, first + 20):
            progress.record(answer(n))

    threads = [threading.Thread(target=some, args=(100 * t,)) for t in range(6)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert len(progress.answers()) == 120


def test_a_kernel_goes_on_in_the_new_file_when_another_resets(tmp_path, progress):
    progress.record(answer(1))
    with Progress(tmp_path) as other:
        place = other.reset()
        progress.record(answer(2))
        assert other.answers() == progress.answers() == [answer(2)]
    progress.close()
    assert in_file(tmp_path, "SELECT seed FROM answer", place.name) == [(1,)]
    with Progress(tmp_path) as again:
        assert again.answers() == [answer(2)] and again.said == ""


# What stands in the way


@contextmanager
def full_disk(progress, monkeypatch):
    """Let SQLite run out of pages."""
    connect = progress_file.connect

    def small(file, mode):
        db = connect(file, mode)
        db.execute("PRAGMA max_page_count=12")
        return db

    with monkeypatch.context() as patch:
        patch.setattr(progress_file, "connect", small)
        progress._let_go()
        yield


def test_a_full_disk_loses_nothing_that_was_kept(progress, monkeypatch):
    big, kept = "x" * 9000, []
    with full_disk(progress, monkeypatch):
        for n in range(20):
            try:
                progress.record(answer(n, given=big))
            except ValueError as why:
                assert "the disk is full" in one_sentence(str(why))
                break
            kept.append(n)
        assert 0 < len(kept) < 10
        assert [one.seed for one in progress.answers()] == kept
        progress._let_go()
    progress.record(answer(n, given=big))
    assert [one.seed for one in progress.answers()] == [*kept, n] and progress.said == ""


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of files")
def test_a_disk_that_refuses_to_write_loses_nothing_that_was_kept(tmp_path):
    limit = "import resource; resource.setrlimit(resource.RLIMIT_FSIZE, (300_000, 300_000))\n"
    program = f"{limit}from tests.practice import kernels\nexec(kernels.RECORDS)"
    done = subprocess.run(
        [sys.executable, "-c", program, tmp_path, "0", "5000"], cwd=ROOT, input="go\n",
        capture_output=True, text=True,
    )  # fmt: skip
    assert (
        "InputRefused: progress.sqlite3 in" in done.stderr
        and "the disk reports an error" in done.stderr
    )
    kept = [int(n) for n in done.stdout.split()]
    assert kept
    with Progress(tmp_path) as progress:
        assert [one.seed for one in progress.answers()] == kept and progress.said == ""


@pytest.mark.parametrize(
    ("why", "part"),
    [(sqlite3.OperationalError("database or disk is full"), "disk is full"),
     (OSError(28, "No space left on device"), "No space left")],
)  # fmt: skip
def test_a_failure_is_said_and_the_answer_can_be_recorded_again(progress, monkeypatch, why, part):
    progress.record(answer(1))
    with monkeypatch.context() as patch:
        patch.setattr(progress_file, "add", lambda db, row: (_ for _ in ()).throw(why))
        refused(lambda: progress.record(answer(2)), part, str(progress.folder)[:50])
    progress.record(answer(2))
    assert progress.answers() == [answer(1), answer(2)]


def test_an_interrupt_leaves_no_transaction_open(tmp_path, progress, monkeypatch):
    def interrupted(db, row):
        db.execute("BEGIN IMMEDIATE")
        raise KeyboardInterrupt

    with monkeypatch.context() as patch, pytest.raises(KeyboardInterrupt):
        patch.setattr(progress_file, "add", interrupted)
        progress.record(answer(1))
    with Progress(tmp_path) as other:
        other.record(answer(2))
    progress.record(answer(1))
    assert len(progress.answers()) == 2


@pytest.mark.parametrize("name", ["progress.sqlite3", "progress.lock"])
def test_a_file_that_is_held_too_long_is_said(tmp_path, monkeypatch, name):
    monkeypatch.setattr(progress_file, "WAIT_S", 0.1)
    with Progress(tmp_path) as progress:
        progress.record(answer(1))
        with closing(sqlite3.connect(tmp_path / name, isolation_level=None)) as other:
            other.execute("BEGIN EXCLUSIVE")
            refused(lambda: progress.record(answer(2)), "another window", "0.1 s")
            assert progress.answers() == [answer(1)]
        progress.record(answer(2))
        assert len(progress.answers()) == 2 and progress.said == ""


def test_a_folder_that_cannot_be_says_so_each_time(tmp_path):
    (tmp_path / "file").write_text("mine")
    with Progress(tmp_path / "file" / "folder") as progress:
        assert "cannot be written" in one_sentence(progress.said)
        for n in range(2):
            assert refused(lambda n=n: progress.record(answer(n))) == progress.said
        assert progress.answers() == []
        refused(progress.reset)
        (tmp_path / "file").unlink()
        progress.record(answer(1))
        assert progress.answers() == [answer(1)] and progress.said == ""


@contextmanager
def read_only(*places):
    """Take the right to write away, from root by being nobody for a while."""
    for place in places:
        place.chmod(0o555 if place.is_dir() else 0o444)
    root = os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)
        for place in places:
            place.chmod(0o755 if place.is_dir() else 0o644)


@pytest.fixture
def folder():
    """A folder that anyone may read; pytest's own is for its user alone."""
    with tempfile.TemporaryDirectory() as name:
        os.chmod(name, 0o755)
        yield Path(name) / "progress"


@NO_RIGHTS
@pytest.mark.parametrize("closed", [True, False])
@pytest.mark.parametrize("steps", [(), (EXTRA,)])
def test_a_read_only_folder_is_read(folder, monkeypatch, closed, steps):
    with Progress(folder) as before:
        before.record(answer(1))
        killed = shutil.copytree(folder, folder.with_name("killed"))  # with the answer in its -wal
    folder = folder if closed else killed
    monkeypatch.setattr(progress_file, "MIGRATIONS", (*progress_file.MIGRATIONS, *steps))
    with read_only(folder, *folder.iterdir()), Progress(folder) as progress:
        assert "opened for writing" in one_sentence(progress.said)
        for _ in range(2):
            assert progress.answers() == [answer(1)]
            assert refused(lambda: progress.record(answer(2))) == progress.said


@NO_RIGHTS
def test_a_lock_that_cannot_be_held_is_said(folder):
    with Progress(folder) as before:
        before.record(answer(1))
    folder.chmod(0o777)
    before.file.chmod(0o666)
    with read_only(folder / "progress.lock"), Progress(folder) as progress:
        assert "opened for writing" in one_sentence(progress.said)
        assert progress.answers() == [answer(1)]


# Forms


@pytest.fixture
def form_1(tmp_path):
    in_file(tmp_path, FORM_1)
    return tmp_path


def test_a_file_of_form_1_is_read(form_1):
    with Progress(form_1) as progress:
        assert progress.answers() == [OLD] and progress.said == ""


def test_an_older_file_is_brought_up_to_date(form_1, monkeypatch):
    monkeypatch.setattr(progress_file, "MIGRATIONS", (*progress_file.MIGRATIONS, EXTRA))
    with Progress(form_1) as progress:
        progress.record(answer(10**6))
        assert progress.answers() == [OLD, answer(10**6)] and progress.said == ""
    assert in_file(form_1, "SELECT note FROM answer") == [("",), ("",)]
    assert in_file(form_1, "PRAGMA user_version") == [(2,)]


def test_a_step_that_fails_leaves_the_older_file(form_1, monkeypatch):
    steps = (*EXTRA, "CREATE TABLE big AS SELECT zeroblob(1e6)")
    monkeypatch.setattr(progress_file, "MIGRATIONS", (*progress_file.MIGRATIONS, steps))
    connect = progress_file.connect

    def small(file, mode):
        db = connect(file, mode)
        db.execute("PRAGMA max_page_count=20")
        return db

    monkeypatch.setattr(progress_file, "connect", small)
    with Progress(form_1) as progress:
        assert "the disk is full" in one_sentence(progress.said)
        assert progress.answers() == [OLD]
    assert in_file(form_1, "PRAGMA user_version") == [(1,)]
    assert "note" not in str(in_file(form_1, "SELECT sql FROM sqlite_schema"))


def test_a_newer_file_is_refused_and_kept(form_1):
    in_file(form_1, "PRAGMA user_version = 7")
    data = (form_1 / "progress.sqlite3").read_bytes()
    refused(lambda: Progress(form_1), "newer", "form 7")
    assert (form_1 / "progress.sqlite3").read_bytes() == data
    assert not list(form_1.glob("progress-*"))


# Starting anew, tables, closing


def test_reset_keeps_the_old_answers_under_a_free_name(tmp_path, progress):
    assert progress.reset() is None
    places = []
    for n in range(3):
        progress.record(answer(n))
        places.append(progress.reset())
        assert progress.answers() == [] and progress.said == ""
    day = datetime.now().astimezone().date().isoformat()
    assert [one.name for one in places] == [f"progress-{day}{n}.sqlite3" for n in ("", "-2", "-3")]
    for n, place in enumerate(places):
        assert in_file(tmp_path, "SELECT seed FROM answer", place.name) == [(n,)]


def test_a_reset_that_cannot_move_all_moves_nothing(tmp_path, progress, monkeypatch):
    progress.record(answer(1))
    rename = os.rename

    def not_the_wal(old, new):
        if str(old).endswith("-wal"):
            raise PermissionError(13, "Permission denied")
        rename(old, new)

    with Progress(tmp_path) as other, monkeypatch.context() as patch:  # so that there is a -wal
        patch.setattr(os, "rename", not_the_wal)
        refused(progress.reset, "not moved", "Permission denied")
        assert other.answers() == progress.answers() == [answer(1)]
    assert not list(tmp_path.glob("progress-*"))


def test_the_table_is_safe_in_a_spreadsheet(tmp_path, progress):
    typed = ["4 1/2", '=HYPERLINK("x")', "+1", "-1/4", "@a", "\t=1", " =1", "a,b\n=c", "a\0\ud800",
             "17; 9;=2+3", "-1", "+1.5;-2"]  # fmt: skip
    for n, one in enumerate(typed):
        progress.record(answer(n, given=one, hints=1))
    progress.export_csv(tmp_path / "answers.csv")
    with (tmp_path / "answers.csv").open(encoding="utf-8", newline="") as stream:
        header, *rows = csv.reader(stream)
    assert header == ["exercise", "variant", "given", "outcome", "hints seen", "time (UTC)"]
    assert rows[0] == [ARC, "0", "4 1/2", "correct", "1", "2026-03-01 09:00:00"]
    assert [row[2] for row in rows[1:]] == [
        "'=HYPERLINK(\"x\")", "+1", "'-1/4", "'@a", "'\t'=1", "' =1", "a,b\n'=c", "a��",
        "17; 9;'=2+3", "-1", "+1.5;-2",
    ]  # fmt: skip


def test_the_table_takes_the_place_of_another_table_only(tmp_path, progress):
    table, other = tmp_path / "answers.csv", tmp_path / "other.csv"
    other.write_text("mine")
    progress.export_csv(table)
    refused(lambda: progress.export_csv(table), "answers.csv", "is there already")
    refused(lambda: progress.export_csv(other, overwrite=True), "other.csv", "no table of answers")
    refused(lambda: progress.export_csv(tmp_path, overwrite=True), "no table of answers")
    refused(lambda: progress.export_csv(progress.file, overwrite=True), "kept for progress")
    progress.record(answer(1))
    progress.export_csv(table, overwrite=True)
    assert len(table.read_text().splitlines()) == 2 and other.read_text() == "mine"


def test_closed_is_closed(progress):
    progress.close()
    progress.close()
    for call in (lambda: progress.record(answer(1)), progress.answers, progress.reset):
        refused(call, "closed")
