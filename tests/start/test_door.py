"""The door: an old Python, the command line, the exit status."""

import ast
import sys
from pathlib import Path

import pytest

from workbook import __main__ as door
from workbook.start import command, places
from workbook.start.refusal import Refusal

PACKAGE = Path(door.__file__).parent


@pytest.mark.parametrize("name", ["__init__.py", "__main__.py"])
def test_an_old_python_can_read_as_far_as_the_refusal(name):
    tree = ast.parse((PACKAGE / name).read_text(encoding="utf-8"), feature_version=(3, 7))
    subscripts = [node.value for node in ast.walk(tree) if isinstance(node, ast.Subscript)]
    # `list[str]` outside quotes is read from Python 3.9 on, and fails on import before.
    assert not {"list", "dict", "tuple", "set", "type"} & {ast.unparse(node) for node in subscripts}


def test_an_old_python_is_refused_in_one_sentence(monkeypatch, capsys):
    monkeypatch.setattr(sys, "version_info", (3, 9, 2))
    assert door.main([]) == 1
    said = capsys.readouterr().err
    assert said == "The workbook needs Python 3.11 or newer, and this is Python 3.9.\n"


@pytest.mark.parametrize("port", ["0", "65536", "-5", "eighty", "88.5"])
def test_a_port_out_of_range_is_refused(port, capsys):
    with pytest.raises(SystemExit) as ended:
        command.run([f"--port={port}"])
    assert ended.value.code == 2
    assert f"the port {port} is not a number from 1 to 65535" in capsys.readouterr().err


def test_words_after_the_command_are_left_alone():
    assert command.split(["test", "--port", "x"]) == ([], "test", ["--port", "x"])
    assert command.split(["compare", "a.json", "test"]) == ([], "compare", ["a.json", "test"])
    assert command.split(["--no-browser"]) == (["--no-browser"], None, [])


def test_a_wheel_folder_may_be_called_test():
    assert command.split(["--wheels", "test"]) == (["--wheels", "test"], None, [])


def test_a_refusal_ends_with_its_sentence_alone(monkeypatch, capsys):
    def refuse(argv):
        raise Refusal("No.")

    monkeypatch.setattr(command, "_run", refuse)
    assert command.run([]) == 1
    assert capsys.readouterr().err == "No.\n"


def test_ctrl_c_ends_without_a_traceback(monkeypatch, capsys):
    def interrupt(argv):
        raise KeyboardInterrupt

    monkeypatch.setattr(command, "_run", interrupt)
    assert command.run([]) == 130
    assert capsys.readouterr().err == "Stopped.\n"


@pytest.fixture
def installed_package(tmp_path, monkeypatch):
    """Pretend that the package was installed from a wheel, with one page in it."""
    package = tmp_path / "site-packages" / "workbook"
    page = package / "_content" / places.FIRST_NOTEBOOK
    page.parent.mkdir(parents=True)
    page.write_text("page")
    monkeypatch.setattr(places, "PACKAGE", package)
    return package


def test_an_installed_package_copies_its_notebooks_once(installed_package, tmp_path):
    root = places.notebooks_root(tmp_path)
    assert root == tmp_path / "bowling-layout-workbook"
    (root / places.FIRST_NOTEBOOK).write_text("my own notes")
    assert places.notebooks_root(tmp_path) == root
    assert (root / places.FIRST_NOTEBOOK).read_text() == "my own notes"


@pytest.mark.parametrize("word", ["test", "check"])
def test_an_installed_package_has_no_tests_to_run(installed_package, capsys, word):
    assert command.run([word]) == 1
    assert capsys.readouterr().err.startswith("The tests come with a checkout")


def test_missing_notebooks_are_named(installed_package, tmp_path):
    root = places.notebooks_root(tmp_path)
    (root / places.FIRST_NOTEBOOK).unlink()
    with pytest.raises(Refusal, match=r"00_start_here\.ipynb is missing"):
        places.notebooks_root(tmp_path)


def test_everything_private_stays_inside_the_folder(tmp_path):
    assert all(
        Path(path).is_relative_to(tmp_path) for path in places.private_state(tmp_path).values()
    )
