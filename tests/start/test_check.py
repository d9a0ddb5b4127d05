"""`check` as typed: its table, and a check that fails."""

import os
import re
import subprocess
import sys
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


@pytest.fixture(scope="module")
def said():
    done = subprocess.run(
        [sys.executable, "-m", "workbook", "check"],
        cwd=ROOT,
        env=os.environ | {environment.INSIDE: "1", "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.mark.slow
@pytest.mark.parametrize(
    ("mark", "source", "quantity", "expected", "got"),
    [("derived", "sin b = sin p sin V", "pin buffer, 4 in pin-to-PAP", "1.7733 in ± 1e-4",
      r"1\.773\d+"),
     ("published", "USBC equipment specifications", "greatest ball weight", "16.00 lb (exact)",
      "16"),
     ("textbook", "university computational", "r 0.10 m, 10 m/s", "12.482 m ± 0.001",
      r"12\.48\d+")],
)  # fmt: skip
def test_a_row_has_mark_source_quantity_expected_and_got(
    said, mark, source, quantity, expected, got
):
    cells = (re.escape(mark), re.escape(source), re.escape(quantity), re.escape(expected), got)
    assert re.search("^" + r".* {2,}".join(cells) + " +yes$", said, flags=re.MULTILINE)


@pytest.mark.slow
def test_every_row_that_is_not_listed_is_there_and_agrees(said):
    rows = [line.split()[0] for line in said.splitlines() if line.endswith("  yes")]
    count = len(FACTS) - len(not_checked())
    assert len(rows) == count
    assert f"{count} checks: " in said and f"{count} yes, 0 no, 0 not run." in said
    assert f"{len(not_checked())} rows that are not checked or not reproduced are listed" in said
    order = ["published", "textbook", "derived", "common", "memory"]
    assert list(dict.fromkeys(rows)) == order and rows == sorted(rows, key=order.index)


@pytest.mark.slow
def test_a_check_that_fails_says_no(tmp_path, monkeypatch, capfd):
    (tmp_path / "planted.py").write_text(PLANTED, encoding="utf-8")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    monkeypatch.setenv("PYTEST_ADDOPTS", "-p planted -k pins_are_a_foot_apart")
    assert check.main(ROOT, []) == 1
    said = capfd.readouterr().out
    assert re.search(r"^published .* pin spacing +12 in \(exact\) +11 +no$", said, re.MULTILINE)
    assert "0 yes, 1 no, " in said
    assert "pin_spacing: pin spacing: expected 12 in (exact) (USBC lane specifications)" in said


@pytest.mark.parametrize(("word", "extras"), [("check", ["test"]), ("compare", [])])
def test_the_packages_of_the_tests_are_asked_for(word, extras, monkeypatch, capsys):
    asked = []
    monkeypatch.setattr(environment, "ensure", lambda root, extras, *rest: asked.append(extras))
    with pytest.raises(SystemExit):
        command.run([word, "--help"])
    assert asked == [extras] and f"workbook {word}" in capsys.readouterr().out
