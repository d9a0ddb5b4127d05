"""A damaged file is set aside with all that belongs to it, named, and replaced; never silently."""

import shutil
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.practice.kernels import answer, kept_by, kernel
from tests.refusals.refusal import examples, one_sentence
from workbook import InputRefused
from workbook.practice.progress import Progress

NAME = "progress.sqlite3"
# some longer than a page of 4096 bytes, so that the file has pages of every kind
KEPT = [answer(n, given="typed " * (1 if n % 7 else 900)) for n in range(60)]


def recorded(folder):
    progress = Progress(folder)
    for one in KEPT:
        progress.record(one)
    return progress


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """The bytes of a sound file, and of its -wal if the kernel was killed before it closed."""
    folder = tmp_path_factory.mktemp("whole")
    with recorded(folder):
        open_files = ((folder / NAME).read_bytes(), (folder / f"{NAME}-wal").read_bytes())
    return (folder / NAME).read_bytes(), open_files


def by_sql(sql):
    def damage(file):
        with closing(sqlite3.connect(file, isolation_level=None)) as db:
            db.execute(sql)

    return damage


def only_wal(file):
    file.rename(file.with_name(f"{NAME}-wal"))


KINDS = {
    "empty": lambda file: file.write_bytes(b""),
    "text": lambda file: file.write_text("no database " * 400),
    "half": lambda file: file.write_bytes(file.read_bytes()[: file.stat().st_size // 2]),
    "one page short": lambda file: file.write_bytes(file.read_bytes()[:-4096]),
    "another's": by_sql("PRAGMA application_id = 7"),
    "form 0": by_sql("PRAGMA user_version = 0"),
    "form below 0": by_sql("PRAGMA user_version = -1"),
    "no table": by_sql("DROP TABLE answer"),
    "a column short": by_sql("ALTER TABLE answer DROP COLUMN hints"),
    "a letter changed": by_sql("UPDATE answer SET outcome = 'not yet' WHERE id = 3"),
    "zeros in the middle": lambda file: file.write_bytes(
        file.read_bytes()[:8192] + bytes(4096) + file.read_bytes()[12288:]
    ),
    "no letters": lambda file: file.write_bytes(
        file.read_bytes().replace(b"CREATE TABLE answer (", b"CREATE TABLE answer \xbc")
    ),
    "only its -wal": only_wal,
}


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_set_aside_and_named(tmp_path, whole, kind):
    file = tmp_path / NAME
    file.write_bytes(whole[0])
    KINDS[kind](file)
    found = {one.name: one.read_bytes() for one in tmp_path.iterdir()}
    with Progress(tmp_path) as progress:
        assert progress.answers() == []
        progress.record(KEPT[0])
        said = one_sentence(progress.said)
    (name,) = {one.name.partition(".")[0] for one in tmp_path.glob("progress-*")}
    assert f"kept as {name}.sqlite3" in said and str(tmp_path)[:50] in said
    for old, data in found.items():
        assert (tmp_path / old.replace("progress", name)).read_bytes() == data
    with Progress(tmp_path) as again:
        assert again.answers() == KEPT[:1] and again.said == ""


def test_what_belongs_to_it_goes_with_it_to_a_free_name(tmp_path):
    for turn in ("", "-2"):
        for tail in ("", "-wal", "-shm"):
            (tmp_path / (NAME + tail)).write_bytes(b"damaged" + tail.encode())
        with Progress(tmp_path) as progress:
            (place,) = tmp_path.glob(f"progress-*-damaged{turn}.sqlite3")
            assert place.name in progress.said
        for tail in ("", "-wal"):  # SQLite makes -shm anew from -wal whenever it looks
            assert (tmp_path / (place.name + tail)).read_bytes() == b"damaged" + tail.encode()


def test_damage_found_while_it_is_open(tmp_path):
    with recorded(tmp_path) as progress:
        KINDS["a letter changed"](progress.file)
        assert progress.answers() == []
        assert "was damaged" in one_sentence(progress.said)
    with recorded(tmp_path) as progress:
        KINDS["no table"](progress.file)
        progress.record(answer(99))
        assert progress.answers() == [answer(99)]
        assert "was damaged" in one_sentence(progress.said)


def test_a_damaged_lock_does_not_matter(tmp_path):
    (tmp_path / "progress.lock").write_text("no database " * 400)
    with recorded(tmp_path) as progress:
        assert progress.said == "" and progress.answers() == KEPT


@pytest.mark.parametrize("turn", range(3))
def test_two_kernels_that_find_it_at_once(tmp_path, turn):
    (tmp_path / NAME).write_bytes(b"damaged" * 1000)
    kept = kept_by([kernel(tmp_path, first, 20) for first in (0, 100, 200)])
    said = [line for one in kept for line in one if line.startswith("said")]
    assert len(said) == len(list(tmp_path.glob("progress-*"))) == 1
    with Progress(tmp_path) as progress:
        assert [one.seed for one in progress.answers()] == [
            n for first in (0, 100, 200) for n in range(first, first + 20)
        ]


def outcome(folder, damaged):
    """Open what is in `folder` and hold what comes of it to the four clear outcomes."""
    try:
        progress = Progress(folder)
    except InputRefused as why:
        assert "newer workbook" in one_sentence(str(why))
        assert (folder / NAME).read_bytes() == damaged
        return "newer"
    with progress:
        found = progress.answers()
        aside = list(folder.glob("progress-*-damaged.sqlite3"))
        if "cannot be written" in progress.said:
            assert found in (KEPT, []) and not aside and one_sentence(progress.said)
            place = progress.reset()
            assert place.read_bytes() == damaged and progress.said == ""
            progress.record(answer(99))
            assert progress.answers() == [answer(99)]
            return "read only"
        progress.record(answer(99))
        assert progress.answers() == [*found, answer(99)]
        if progress.said:
            assert aside[0].name in one_sentence(progress.said)
            assert found == [] and aside[0].read_bytes() == damaged
            return "set aside"
    assert not aside
    return found


def changed(data, flips):
    data = bytearray(data)
    for place, sign in flips:
        data[place % len(data)] ^= sign
    return bytes(data)


FLIPS = st.lists(st.tuples(st.integers(0, 2**20), st.integers(1, 255)), min_size=1, max_size=4)


@examples(150)
@given(data=st.data())
def test_any_damage_has_a_clear_outcome(whole, data):
    kind = data.draw(st.sampled_from(["flips", "cut", "bytes", "grown"]))
    damaged = {
        "flips": lambda: changed(whole[0], data.draw(FLIPS)),
        "cut": lambda: whole[0][: data.draw(st.integers(0, len(whole[0]) - 1))],
        "bytes": lambda: data.draw(st.binary(max_size=300)),
        "grown": lambda: whole[0] + data.draw(st.binary(min_size=1, max_size=5000)),
    }[kind]()
    with tempfile.TemporaryDirectory() as name:
        (Path(name) / NAME).write_bytes(damaged)
        result = outcome(Path(name), damaged)
        assert result in ("newer", "read only", "set aside") or result == KEPT


def test_a_file_that_calls_itself_read_only_can_be_reset(whole, tmp_path):
    damaged = changed(whole[0], [(18, 1)])  # the version that may write, in SQLite's file format
    (tmp_path / NAME).write_bytes(damaged)
    assert outcome(tmp_path, damaged) == "read only"


@examples(60)
@given(flips=FLIPS)
def test_a_damaged_wal_loses_only_the_newest_answers(whole, flips):
    """SQLite ends where a checksum is wrong, as after a kill: no way to tell one from the other."""
    main, wal = whole[1]
    with tempfile.TemporaryDirectory() as name:
        (Path(name) / NAME).write_bytes(main)
        (Path(name) / f"{NAME}-wal").write_bytes(changed(wal, flips))
        result = outcome(Path(name), main)
        assert result == KEPT[: len(result)]


@pytest.mark.slow
def test_every_bit_of_the_header(whole, tmp_path):
    seen = set()
    for place in range(100):
        for bit in range(8):
            folder = tmp_path / f"{place}-{bit}"
            folder.mkdir()
            damaged = changed(whole[0], [(place, 1 << bit)])
            (folder / NAME).write_bytes(damaged)
            result = outcome(folder, damaged)
            assert isinstance(result, str) or result == KEPT
            seen.add(str(result)[:9])
            shutil.rmtree(folder)
    assert {"newer", "set aside"} <= seen
