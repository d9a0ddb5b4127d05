"""What counts as installed, and the order of the checks."""

import json
import subprocess
import sys
import tomllib
from importlib import metadata
from importlib.util import find_spec
from types import SimpleNamespace

import pytest

from workbook.start import checks, installed
from workbook.start.places import PACKAGE


class Installed(metadata.Distribution):
    """A distribution as pip records it: two lines of metadata and the place it came from."""

    def __init__(self, url, editable, requires):
        self.texts = {
            "direct_url.json": json.dumps({"url": url, "dir_info": {"editable": editable}}),
            "METADATA": "".join(f"Requires-Dist: {line}\n" for line in requires) + "Name: x\n",
        }

    def read_text(self, filename):
        return self.texts.get(filename)

    def locate_file(self, path):
        raise NotImplementedError


@pytest.fixture
def install(monkeypatch, tmp_path):
    def install(editable=True, folder=tmp_path, requires=("pip",)):
        distribution = Installed(folder.as_uri(), editable, requires)
        monkeypatch.setattr(metadata, "distribution", lambda name: distribution)

    return install


def test_an_editable_install_of_this_checkout_is_complete(install, tmp_path):
    install(requires=["pytest>=8", "numba>=0.60; python_version < '3.15'"])
    assert installed.missing(tmp_path, []) == []


def test_an_absent_package_is_named(install, tmp_path):
    install(requires=["pillow>=10", "no-such-package>=1", "nor-this; extra == 'test'"])
    assert installed.missing(tmp_path, []) == ["no-such-package"]
    assert installed.missing(tmp_path, ["test"]) == ["no-such-package", "nor-this"]


def test_an_install_of_another_checkout_does_not_count(install, tmp_path):
    install(folder=tmp_path / "elsewhere")
    assert installed.missing(tmp_path, []) == [installed.DISTRIBUTION]


def test_a_copy_in_site_packages_does_not_count(install, tmp_path):
    install(editable=False)
    assert installed.missing(tmp_path, []) == [installed.DISTRIBUTION]


@pytest.fixture
def commands(monkeypatch, tmp_path):
    """Record the commands of the checks; mypy is the one that fails."""
    ran = []

    def run(command, **options):
        assert command[:2] == [sys.executable, "-m"]
        ran.append(command[2:])
        return subprocess.CompletedProcess(command, int(command[2] == "mypy"))

    def start(command, **options):
        ran.append(["beside", *command[2:]])
        options["stdout"].write("what ran beside")
        return SimpleNamespace(wait=lambda: 1, terminate=lambda: None)

    monkeypatch.setattr(subprocess, "run", run)
    monkeypatch.setattr(subprocess, "Popen", start)
    return ran


def test_one_failure_fails_the_whole_but_stops_nothing(commands, tmp_path, capsys):
    assert checks.run(tmp_path, []) == 1
    assert [command[0] for command in commands] == ["beside", "ruff", "mypy", "pytest"]
    assert commands[0][2:] == list(checks.BESIDE)
    assert commands[-1][1:] == [f"--ignore={folder}" for folder in checks.BESIDE]
    said = capsys.readouterr().out
    assert "what ran beside" in said
    assert said.endswith("Failed: mypy, pytest tests/browser tests/start.\n")


def test_words_for_pytest_run_pytest_alone(commands, tmp_path):
    assert checks.run(tmp_path, ["-k", "lane"]) == 0
    assert commands == [["pytest", "-k", "lane"]]


def test_every_requirement_is_found_under_the_name_it_is_imported_by():
    project = tomllib.loads((PACKAGE.parent / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    for name in installed.required(wanted, []):
        assert find_spec(installed.IMPORT_NAMES.get(name, name.replace("-", "_"))), name
