"""Making, keeping and mending .venv, with pip and the hand-over played by stand-ins."""

import errno
import importlib.util
import platform
import sys

import pytest

from workbook.start import environment, installing, stamp
from workbook.start.refusal import Refusal

PYPROJECT = """
[project]
dependencies = ["numpy>=1.26"]
optional-dependencies = { test = ["pytest>=8"] }
"""


class HandedOver(Exception):
    """Stands in for the process that execv would replace."""


@pytest.fixture
def stage(tmp_path, monkeypatch):
    """A checkout without .venv; records what is created, installed and handed over to."""
    (tmp_path / "pyproject.toml").write_text(PYPROJECT)
    log = []
    folder = tmp_path / ".venv"

    def create(where):
        log.append("create")
        where.mkdir(exist_ok=True)
        (where / stamp.NAME).unlink(missing_ok=True)

    def hand_over(python, argv, *marks):
        log.append("inside" if python.is_relative_to(folder) else "base")
        raise HandedOver

    monkeypatch.delenv(environment.INSIDE, raising=False)
    monkeypatch.setattr(environment, "missing", lambda root, extras: ["numpy"])
    monkeypatch.setattr(environment, "_create", create)
    monkeypatch.setattr(environment, "_answers", lambda where: where.exists())
    monkeypatch.setattr(
        environment, "_is_complete", lambda where, root, extras: (where / stamp.NAME).exists()
    )
    monkeypatch.setattr(environment, "install", lambda *given: log.append(["install", given[2]]))
    monkeypatch.setattr(environment, "_hand_over", hand_over)

    def start(extras=(), wheels=None):
        log.clear()
        with pytest.raises(HandedOver):
            environment.ensure(tmp_path, list(extras), wheels, [])
        return list(log)

    start.root, start.folder, start.patch = tmp_path, folder, monkeypatch
    return start


def test_the_first_start_installs_and_the_second_does_not(stage):
    assert stage() == ["create", ["install", []], "inside"]
    assert stage() == ["inside"]


def test_the_test_extra_is_added_once_and_then_serves_both(stage):
    stage()
    assert stage(["test"]) == [["install", ["test"]], "inside"]
    assert stage(["test"]) == ["inside"]
    assert stage() == ["inside"]


def test_new_dependencies_are_installed_into_the_same_environment(stage):
    stage()
    (stage.root / "pyproject.toml").write_text(PYPROJECT.replace("1.26", "2.0"))
    assert stage() == [["install", []], "inside"]


def test_an_environment_that_does_not_answer_is_rebuilt(stage):
    stage()
    stage.patch.setattr(environment, "_answers", lambda where: False)
    stage.patch.setattr(stamp, "fits", lambda *given: False)
    assert stage() == ["create", ["install", []], "inside"]


def test_an_environment_that_lost_a_package_is_rebuilt(stage):
    stage()
    answers = iter([False, True])
    stage.patch.setattr(environment, "_is_complete", lambda *given: next(answers))
    assert stage() == ["create", ["install", []], "inside"]


def test_from_inside_a_stale_environment_the_base_interpreter_mends_it(stage):
    stage.patch.setattr(sys, "prefix", str(stage.folder))
    assert stage() == ["base"]


def test_an_environment_of_ones_own_is_used_as_it_is(stage):
    stage.patch.setattr(environment, "missing", lambda root, extras: [])
    assert environment.ensure(stage.root, [], None, []) is None
    assert not stage.folder.exists()


def test_a_missing_wheel_folder_is_named(stage):
    with pytest.raises(Refusal, match=r"There is no wheel folder .*usb\."):
        environment.ensure(stage.root, [], stage.root / "usb", [])


def test_a_full_disk_is_named(stage):
    def full(folder):
        raise OSError(errno.ENOSPC, "No space left on device")

    stage.patch.setattr(environment, "_create", full)
    with pytest.raises(Refusal, match=r"^The disk is full: [^.]*\.venv in this folder\.$"):
        environment.ensure(stage.root, [], None, [])


def test_a_missing_ensurepip_names_the_debian_package(tmp_path, monkeypatch):
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None)
    major, minor, _ = platform.python_version_tuple()
    with pytest.raises(Refusal, match=rf"install the package python{major}\.{minor}-venv\.$"):
        environment._create(tmp_path / ".venv")


# What pip 23 and 25 print, shortened; from runs with the network off or a folder short of a file.
OFFLINE = """WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError(
'<pip>: Failed to establish a new connection: [Errno -3] Temporary failure in name resolution')'
ERROR: Could not find a version that satisfies the requirement hatchling>=1.26 (from versions: none)
ERROR: No matching distribution found for hatchling>=1.26"""


def test_no_network_points_to_the_wheel_folder():
    assert "--wheels DIR" in installing.complaint(OFFLINE, None)


def test_a_short_wheel_folder_names_what_it_lacks(tmp_path):
    said = installing.complaint(OFFLINE, tmp_path)
    assert said == f"The wheel folder {tmp_path} has no fitting file for hatchling>=1.26."


def test_a_full_disk_is_recognised_in_what_pip_says():
    output = (
        "ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device"
    )
    assert installing.complaint(output, None) == installing.DISK_FULL


def test_any_other_failure_passes_on_the_last_error_of_pip():
    said = installing.complaint("noise\nERROR: first\nERROR: the cause\nnotice", None)
    assert said.endswith("it said: ERROR: the cause")
