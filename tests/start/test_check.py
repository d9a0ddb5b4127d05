"""`check` as typed: its table, and a check that fails."""

import os
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from tests.published.facts import FACTS, not_checked
from workbook.commands import check
from workbook.start import command, environment

ROOT = Path(__file__).parents[2]
# a library that has the pins eleven inches apart
PLANTED = """
from dataclasses import replace
from workbook import sources
sources.FACTS["pin_spacing"] = replace(sources.FACTS["pin_spacing"], value=11.0)
"""


def run(columns):
    done = subprocess.run(
        [sys.executable, "-m", "workbook", "check"],
        cwd=ROOT,
        env=os.environ
        | {environment.INSIDE: "1", "PYTHONIOENCODING": "utf-8", "COLUMNS": str(columns)},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def said():
    return run(80)


def cells(line):
    return re.split(r" {2,}", line.strip())


@pytest.mark.slow
@pytest.mark.parametrize(
    ("mark", "source", "row"),
    [("DERIVED", "spherical geometry",
      ["pin buffer, 4.5 in, 45", "2.8321 ± 0.0001 in", "2.8321 in", "yes"]),
     ("PUBLISHED", "USBC equipment specifications",
      ["greatest ball weight", "16.00 lb exactly", "16.00 lb", "yes"]),
     ("PUBLISHED", "USBC lane specifications", ["pin spacing", "12 in", "12 in", "taken"]),
     ("PUBLISHED", "FEPA 43 / ISO 6344, P series",
      ["mean grain P180", "82 um", "82 um", "taken"]),
     ("TEXTBOOK", "closed form of a sliding uniform sphere",
      ["r 0.10 m, 10 m/s, no spin,", "12.482 ± 0.001 m", "12.482 m", "yes"])],
)  # fmt: skip
def test_a_row_stands_under_its_mark_and_source(said, mark, source, row):
    before = []
    for line in said.split("\n== " + mark)[1].splitlines():
        if cells(line) == row:
            break
        before.append(line)
    assert cells(line) == row
    headings = [line for line in before[1:] if line and not line.startswith(" ")]
    assert headings[-1] == source and not any(line.startswith("==") for line in headings)


@pytest.mark.slow
def test_every_row_that_is_not_listed_is_there_and_counted_by_kind(said):
    lines = said.splitlines()
    found = Counter(cells(line)[-1] for line in lines if line.startswith("  "))
    count = len(FACTS) - len(not_checked())
    assert found["yes"] + found["consistent"] + found["taken"] == count
    (total,) = (line.split()[1:] for line in lines if line.startswith("all "))
    assert total == [str(found[kind]) for kind in ("yes", "consistent", "taken")] + ["0", "0"]
    assert f"{count} rows " in said
    assert f"{len(not_checked())} other rows are not checked or not reproduced" in said
    marks = [line.split(":")[0] for line in lines if line.startswith("== ")]
    assert marks == ["== PUBLISHED", "== TEXTBOOK", "== DERIVED", "== COMMON PRACTICE", "== MEMORY"]


@pytest.mark.slow
def test_the_table_takes_the_width_of_the_terminal(said):
    assert max(map(len, said.splitlines())) == 80
    assert max(map(len, run(120).splitlines())) == 110


@pytest.mark.slow
def test_a_check_that_fails_says_no(tmp_path, monkeypatch, capfd):
    (tmp_path / "planted.py").write_text(PLANTED, encoding="utf-8")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    monkeypatch.setenv("PYTEST_ADDOPTS", "-p planted -k pins_are_a_foot_apart")
    assert check.main(ROOT, []) == 1
    said = capfd.readouterr().out
    rows = [cells(line) for line in said.splitlines()]
    assert ["pin spacing", "12 in", "11 in", "no"] in rows
    (total,) = (row[1:5] for row in rows if row[0] == "all")
    assert total == ["0", "0", "0", "1"]
    assert "pin_spacing: pin spacing: expected 12 in (USBC lane specifications)" in said


@pytest.mark.parametrize(("word", "extras"), [("check", ["test"]), ("compare", [])])
def test_the_packages_of_the_tests_are_asked_for(word, extras, monkeypatch, capsys):
    asked = []
    monkeypatch.setattr(environment, "ensure", lambda root, extras, *rest: asked.append(extras))
    with pytest.raises(SystemExit):
        command.run([word, "--help"])
    assert asked == [extras] and f"workbook {word}" in capsys.readouterr().out
