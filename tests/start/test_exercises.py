"""`exercises` as typed: files in order, faults with their line, and the table."""

import re

import pytest

from tests.practice.made import TEXTS
from workbook.commands import exercises
from workbook.practice import catalogue as shelf
from workbook.start import command, environment


@pytest.fixture
def files(tmp_path):
    """Two files in order, where their ids say that they are."""
    folder = tmp_path / "04_lay_it_out"
    folder.mkdir()
    for kind in ("number", "order"):
        (folder / f"{kind}.toml").write_text(TEXTS[kind], encoding="utf-8")
    return sorted(folder.iterdir())


def said(capsys, *words):
    status = exercises.main([str(word) for word in words])
    return status, capsys.readouterr().out.splitlines()


def test_files_in_order_are_counted(files, capsys):
    assert said(capsys, "check", *files) == (0, ["2 exercises are in order."])
    assert said(capsys, "check", files[0]) == (0, ["1 exercise is in order."])


def test_each_fault_is_a_line_and_the_status_says_so(files, capsys):
    number, order = files
    number.write_text(TEXTS["number"].replace("value = 9", "value = 8"), encoding="utf-8")
    order = order.rename(order.with_name("other.toml"))
    status, lines = said(capsys, "check", number, order, number.parent, number.with_name("no"))
    assert status == 1 and len(lines) == 5
    assert lines[0].startswith("04_lay_it_out/number.toml line 20: value 8 is worked")
    assert lines[1].startswith("04_lay_it_out/other.toml line 2: id must be '04_lay_it_out/other'")
    assert "folder" in lines[2] and "no such file" in lines[3]
    assert lines[4] == "4 of 4 exercises have a fault."


def test_no_file_means_all_that_there_are(files, capsys, monkeypatch):
    monkeypatch.setattr(exercises, "FOLDER", files[0].parents[1])
    assert said(capsys, "check") == (0, ["2 exercises are in order."])


def test_the_table_has_all_exercises_in_the_order_to_do_them_in(capsys):
    status, lines = said(capsys, "list")
    rows = [re.split(r" {2,}", line) for line in lines]
    assert status == 0 and rows[0] == ["id", "level", "kind", "title"]
    assert [row[0] for row in rows[1:]] == shelf.ids()
    for name, level, kind, title in rows[1:]:
        one = shelf.exercise(name)
        assert (int(level), kind, title) == (one.level, one.kind, one.title)


def test_a_broken_file_ends_the_table_with_a_sentence(files, capsys, monkeypatch):
    files[0].write_text("form = 2", encoding="utf-8")
    monkeypatch.setattr(exercises, "catalogue", lambda: shelf.catalogue(files[0].parents[1]))
    assert exercises.main(["list"]) == 1
    assert "number.toml" in capsys.readouterr().err


@pytest.mark.parametrize("words", [[], ["mend"], ["check", "--all"]])
def test_anything_else_is_refused(words, capsys):
    with pytest.raises(SystemExit):
        exercises.main(words)
    assert "python3 -m workbook exercises" in capsys.readouterr().err


def test_the_command_line_knows_it(monkeypatch, files, capsys):
    asked = []
    monkeypatch.setattr(environment, "ensure", lambda root, extras, *rest: asked.append(extras))
    assert command.run(["exercises", "check", str(files[0])]) == 0
    assert asked == [[]] and capsys.readouterr().out == "1 exercise is in order.\n"
