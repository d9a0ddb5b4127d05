"""The one call of pip, and its complaints in one sentence."""

import re
import subprocess
import tomllib
from pathlib import Path

from workbook.start.refusal import Refusal

DISK_FULL = "The disk is full: the workbook needs about 1 GB for its .venv in this folder."
NO_NETWORK = (
    "The packages could not be fetched, for want of a network or of an index that has them; "
    "connect, or give a folder of wheels with `python3 -m workbook --wheels DIR`."
)
_NETWORK_SIGNS = (
    "Failed to establish a new connection",
    "Name or service not known",
    "Temporary failure in name resolution",
    "Max retries exceeded",
    "Cannot connect to proxy",
    "ProxyError",
    "ReadTimeoutError",
    "(from versions: none)",
)


def install(python: Path, root: Path, extras: list[str], wheels: Path | None) -> None:
    """Install the checkout `root` with `extras` into the environment of `python`.

    pip keeps the person's own configuration and proxies; with `wheels` it uses that folder alone.

    Raises
    ------
    Refusal
        If pip fails.
    """
    # Compiling every file would nearly double the first start; Python compiles what it imports.
    # fmt: off
    command = [str(python), "-m", "pip", "install", "--quiet", "--no-input", "--no-user",
               "--disable-pip-version-check", "--no-compile"]
    # fmt: on
    if wheels:
        command += ["--no-index", "--find-links", str(wheels)]
    command += ["--editable", f".[{','.join(extras)}]" if extras else "."]
    done = subprocess.run(
        command, cwd=root, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise Refusal(complaint(done.stdout + done.stderr, wheels))


def download(python: str, root: Path, folder: Path) -> None:
    """Fill `folder` with all that `install` needs, for this kind of computer and Python.

    Raises
    ------
    Refusal
        If pip fails.
    """
    # What a build needs is no dependency of what it builds: pip has to be told.
    build = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["build-system"]
    # fmt: off
    command = [python, "-m", "pip", "download", "--quiet", "--no-input",
               "--disable-pip-version-check", "--dest", str(folder), ".",
               *build["requires"], "editables"]
    # fmt: on
    done = subprocess.run(
        command, cwd=root, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise Refusal(complaint(done.stdout + done.stderr, None))


def complaint(output: str, wheels: Path | None) -> str:
    """Return the sentence for the `output` of a failed pip."""
    if "No space left on device" in output:
        return DISK_FULL
    lacking = re.search(r"No matching distribution found for ([^\s;(]+)", output)
    if wheels and lacking:
        return f"The wheel folder {wheels} has no fitting file for {lacking[1]}."
    if any(sign in output for sign in _NETWORK_SIGNS):
        return NO_NETWORK
    last_words = [line for line in output.splitlines() if line.startswith("ERROR")] or [output]
    return f"pip could not install the packages; it said: {last_words[-1].strip()}"
