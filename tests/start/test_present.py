"""`present` before the page is up: the chapter, the port, what a shared page leaves alone."""

import asyncio
import socket
from types import SimpleNamespace

import psutil
import pytest
from tornado.web import HTTPError

from workbook import text_file
from workbook.commands import present, room_for_more
from workbook.commands.shown_page import RoomForMore
from workbook.draw import style
from workbook.panels.files import FileRow
from workbook.start import command
from workbook.start.refusal import Refusal


@pytest.fixture
def root(tmp_path):
    (tmp_path / "notebooks").mkdir()
    for name in ("00_start_here", "05_oil", "05_oil.new", "11_the_model"):
        (tmp_path / f"notebooks/{name}.ipynb").write_text("{}")
    return tmp_path


@pytest.mark.parametrize(
    ("word", "name"),
    [("00", "00_start_here"), ("0", "00_start_here"), ("5", "05_oil"), ("05", "05_oil"),
     ("05_oil", "05_oil"), ("05_oil.ipynb", "05_oil"), ("notebooks/11_the_model.ipynb",
     "11_the_model")],
)  # fmt: skip
def test_a_chapter_has_a_number_and_a_name(root, word, name):
    assert present.find(root / "notebooks", word) == root / f"notebooks/{name}.ipynb"


@pytest.mark.parametrize("word", ["6", "1", "oil", "", "..", "-1", "../05_oil.txt"])
def test_an_unknown_chapter_is_refused_with_those_there_are(root, word):
    with pytest.raises(Refusal) as refused:
        present.main(root, [f"--port={9}", "--", word], None, False)
    assert str(refused.value) == (
        f"There is no chapter {word}; there are 00_start_here, 05_oil, 11_the_model."
    )


@pytest.mark.parametrize("words", [[], ["--share"]])
def test_a_taken_port_is_refused(root, words):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(Refusal, match=rf"^Port {port} cannot be used .*: give another with"):
            present.main(root, words, port, False)


def test_a_port_out_of_range_is_refused(root, capsys):
    with pytest.raises(SystemExit):
        present.main(root, ["--port", "65536"], None, False)
    assert "the port 65536 is not a number from 1 to 65535" in capsys.readouterr().err


@pytest.mark.parametrize(("value", "done"), [(None, 1), ("1", 0)])
def test_a_shared_page_leaves_files_alone(monkeypatch, value, done):
    monkeypatch.delenv(text_file.SHARED, raising=False)
    if value:
        monkeypatch.setenv(text_file.SHARED, value)
    files = []
    row = FileRow("mine.json", {"save": lambda file: files.append(file) or "saved"})
    row.press("save")
    assert len(files) == done and ("saved" in row.said.value) == bool(done)


def test_both_new_commands_are_listed(capsys):
    with pytest.raises(SystemExit):
        command.run(["--help"])
    said = capsys.readouterr().out
    assert "present:" in said and "wheels:" in said


def test_no_kernel_is_started_without_room_for_it(monkeypatch):
    tight = SimpleNamespace(available=room_for_more.SPARE_BYTES - 1)
    monkeypatch.setattr(psutil, "virtual_memory", lambda: tight)
    with pytest.raises(HTTPError) as refused:
        asyncio.run(RoomForMore().start_kernel())
    assert refused.value.status_code == 503


def test_not_more_kernels_than_a_class_has_pupils(monkeypatch):
    monkeypatch.setattr(RoomForMore, "list_kernel_ids", lambda _self: ["x"] * room_for_more.MOST)
    with pytest.raises(HTTPError, match="503"):
        asyncio.run(RoomForMore().start_kernel())


def test_pictures_read_the_size_of_letters_that_present_sets():
    assert present.LETTERS == style.VARIABLE
