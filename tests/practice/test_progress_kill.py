"""A kernel that is killed at any moment has lost nothing that it said was kept."""

import random
import sqlite3
import time
from contextlib import closing

import pytest

from tests.practice.kernels import kernel
from workbook.practice.progress import Progress

KILLS = 100


def killed(folder, first, after_s):
    """The numbers that a kernel says are kept before it is killed."""
    one = kernel(folder, first)
    one.stdin.write("go\n")
    one.stdin.flush()
    time.sleep(after_s)
    one.kill()  # SIGKILL
    said, why = one.communicate()
    assert one.returncode == -9 and why == ""
    return [int(line) for line in said.split("\n")[:-1]]  # a line that was cut short is no word


@pytest.mark.slow
def test_a_hundred_kills_lose_nothing_that_was_kept(tmp_path):
    chance, kept, first = random.Random(12), [], 0
    for _ in range(KILLS):
        said = killed(tmp_path, first, chance.uniform(0.05, 0.4))
        assert said == list(range(first, first + len(said)))
        kept += said
        first += len(said) + 1  # the next one may be there: written, not yet said
    with Progress(tmp_path) as progress:
        found = [one.seed for one in progress.answers()]
        assert progress.said == ""
    assert len(kept) > KILLS  # even where the disk is slow
    assert found == sorted(set(found)) and set(kept) <= set(found)
    assert len(found) <= len(kept) + KILLS
    assert not list(tmp_path.glob("progress-*"))
    with closing(sqlite3.connect(tmp_path / "progress.sqlite3")) as db:
        assert db.execute("PRAGMA quick_check").fetchall() == [("ok",)]
        written = [n for (n,) in db.execute("SELECT seed FROM answer ORDER BY id")]
    assert written == found  # in order of writing as well as of time
