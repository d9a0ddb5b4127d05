"""What tests of building and of setting up share: a copy of the checkout, empty environments."""

import os
import shutil
import subprocess
import venv
from pathlib import Path

from workbook.start import environment, places

OF_THE_PROJECT = ("README.md", "LICENSE", "pyproject.toml", "workbook", "notebooks", "exercises")
PATIENCE_S = 600


def copy_of_checkout(target: Path, *more: str) -> Path:
    """The files that a build needs, and `more`, without caches and environments."""
    litter = shutil.ignore_patterns("__pycache__", ".*")
    for name in (*OF_THE_PROJECT, *more):
        source = places.PACKAGE.parent / name
        if source.is_dir():
            shutil.copytree(source, target / name, ignore=litter)
        else:
            target.mkdir(exist_ok=True)
            shutil.copy(source, target / name)
    return target


def empty_environment(folder: Path) -> Path:
    """The interpreter of a new environment with nothing but pip."""
    venv.EnvBuilder(symlinks=os.name != "nt", with_pip=True).create(folder)
    return folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def run(*command: object, cwd: Path, **variables: str) -> str:
    """Run a command that must succeed, away from this process's own environment."""
    kept = {name: value for name, value in os.environ.items()
            if name not in ("PYTHONPATH", environment.INSIDE, "PYTEST_ADDOPTS")}  # fmt: skip
    done = subprocess.run(
        list(map(str, command)), cwd=cwd, env=kept | variables, stdin=subprocess.DEVNULL,
        capture_output=True, text=True, check=False, timeout=PATIENCE_S,
    )  # fmt: skip
    assert done.returncode == 0, (done.stdout + done.stderr)[-3000:]
    return done.stdout + done.stderr
