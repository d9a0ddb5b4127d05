"""Make .venv once, mend it when needed, and go on inside it."""

import errno
import importlib.util
import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

from workbook.start import stamp
from workbook.start.installed import missing
from workbook.start.installing import DISK_FULL, install
from workbook.start.refusal import Refusal

INSIDE = "WORKBOOK_INSIDE"
"""Set for an interpreter whose environment has just been seen to."""
PIP_BYTES = 30e6
"""More than pip takes on the disk, unpacked and packed."""


def ensure(root: Path, extras: list[str], wheels: Path | None, argv: list[str]) -> None:
    """Return if this interpreter can run the checkout `root`; otherwise hand over to .venv's.

    An environment of the person's own, with ``pip install -e .`` done, is left as it is.

    Raises
    ------
    Refusal
        If no environment can be made.
    """
    if os.environ.pop(INSIDE, None):
        return
    folder = root / ".venv"
    inside = Path(sys.prefix).resolve() == folder.resolve()
    if not inside and not missing(root, extras):
        return
    ready = stamp.fits(folder, root, extras) and _is_complete(folder, root, extras)
    if inside and ready:
        return
    if inside:
        # Nobody can rebuild the floor he stands on: the interpreter behind .venv does it.
        _hand_over(Path(getattr(sys, "_base_executable", sys.executable)), argv)
    if not ready:
        _fill(folder, root, extras, wheels)
    _hand_over(_python(folder), argv, INSIDE)


def _fill(folder: Path, root: Path, extras: list[str], wheels: Path | None) -> None:
    if wheels and not wheels.is_dir():
        raise Refusal(f"There is no wheel folder {wheels}.")
    damaged = stamp.fits(folder, root, extras) or not _answers(folder)
    try:
        if damaged:
            _create(folder)
        print("Installing the packages ...", file=sys.stderr, flush=True)
        install(_python(folder), root, extras, wheels)
        stamp.write(folder, root, extras)
    except OSError as error:
        if error.errno == errno.ENOSPC:
            raise Refusal(DISK_FULL) from error
        raise Refusal(f"Cannot make {folder}: {error.strerror}.") from error
    if not _is_complete(folder, root, extras):
        raise Refusal(f"{folder} is still incomplete after the install; delete it and try again.")


def _create(folder: Path) -> None:
    if importlib.util.find_spec("ensurepip") is None:
        version = f"{sys.version_info.major}.{sys.version_info.minor}"
        raise Refusal(
            f"This Python has no ensurepip module to make an environment with; "
            f"on Debian or Ubuntu install the package python{version}-venv."
        )
    if folder.exists():
        print("Rebuilding .venv, which is damaged ...", file=sys.stderr, flush=True)
    else:
        print("Setting up once, about a minute ...", file=sys.stderr, flush=True)
    try:
        venv.EnvBuilder(clear=True, symlinks=os.name != "nt", with_pip=True).create(folder)
    except subprocess.CalledProcessError as error:
        # ensurepip keeps its reason to itself.
        if shutil.disk_usage(folder).free < PIP_BYTES:
            raise Refusal(DISK_FULL) from error
        raise Refusal(f"Cannot put pip into {folder} ({error}).") from error


def _python(folder: Path) -> Path:
    return folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def _answers(folder: Path) -> bool:
    return _succeeds([str(_python(folder)), "-c", "import pip"], folder.parent)


def _is_complete(folder: Path, root: Path, extras: list[str]) -> bool:
    return _succeeds([str(_python(folder)), "-m", "workbook.start.installed", *extras], root)


def _succeeds(command: list[str], cwd: Path) -> bool:
    try:
        return not subprocess.run(command, cwd=cwd, capture_output=True, check=False).returncode
    except OSError:
        return False


def _hand_over(python: Path, argv: list[str], *marks: str) -> None:
    """Run the same command under `python` in place of this process, with `marks` set."""
    command = [str(python), "-m", "workbook", *argv]
    os.environ.update(dict.fromkeys(marks, "1"))
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name == "posix":
        os.execv(python, command)
    child = subprocess.Popen(command)
    while True:
        try:
            sys.exit(child.wait())
        except KeyboardInterrupt:
            # The console sends Ctrl-C to both; the child decides when to end.
            continue
