"""A folder filled by `wheels` sets the workbook up on a computer without any network."""

import os
import shutil
import subprocess
import sys

import pytest

from tests.start.from_scratch import copy_of_checkout, run
from workbook.start import environment, installing
from workbook.start.refusal import Refusal

# nobody listens there: without `unshare`, a pip that asks an index all the same fails
DEAD = {"PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_EXTRA_INDEX_URL": "", "PIP_FIND_LINKS": "",
        "PIP_CONFIG_FILE": os.devnull, "PIP_RETRIES": "0", "no_proxy": "*"}  # fmt: skip


def without_network():
    """The words before a command that take every network away, where Linux lets us."""
    words = ["unshare", "--map-root-user", "--net"]
    able = shutil.which("unshare") and not subprocess.run([*words, "true"], check=False).returncode
    return words if able else []


@pytest.mark.slow
def test_a_filled_folder_sets_up_without_a_network(tmp_path):
    first, second, wheels = tmp_path / "first", tmp_path / "second", tmp_path / "usb stick"
    for folder in (first, second):
        copy_of_checkout(folder)
    said = run(
        sys.executable, "-m", "workbook", "wheels", wheels, cwd=first, **{environment.INSIDE: "1"}
    )
    assert f"{wheels} holds {len(list(wheels.iterdir()))} files" in said
    said = run(*without_network(), sys.executable, "-m", "workbook", "--wheels", wheels, "compare",
               cwd=second, **DEAD)  # fmt: skip
    assert (second / ".venv").is_dir() and (second / "comparison.png").is_file()
    assert "Installing the packages" in said


def test_what_the_build_needs_is_fetched_too(tmp_path, monkeypatch):
    (tmp_path / "pyproject.toml").write_text('[build-system]\nrequires = ["some-builder>=3"]')
    asked = []

    def pip(command, **_rest):
        asked.append(command)
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr(subprocess, "run", pip)
    installing.download("python", tmp_path, tmp_path / "usb")
    assert {".", "some-builder>=3", "editables", str(tmp_path / "usb")} <= set(asked[0])


def test_no_network_while_fetching_is_said_in_one_sentence(tmp_path, monkeypatch):
    (tmp_path / "pyproject.toml").write_text('[build-system]\nrequires = ["x"]')
    monkeypatch.setattr(
        subprocess, "run",
        lambda command, **_rest: subprocess.CompletedProcess(command, 1, "", "ProxyError"),
    )  # fmt: skip
    with pytest.raises(Refusal) as refused:
        installing.download("python", tmp_path, tmp_path / "usb")
    assert str(refused.value) == installing.NO_NETWORK
