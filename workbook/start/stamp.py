"""The stamp in .venv that lets the second start skip pip."""

import hashlib
import json
import tomllib
from pathlib import Path

NAME = "workbook-stamp.json"


def fits(venv: Path, root: Path, extras: list[str]) -> bool:
    """Return whether `venv` was filled for `root` as it is now, with at least `extras`."""
    stamp = _read(venv)
    return stamp.get("digest") == _digest(root) and set(extras) <= set(stamp.get("extras", []))


def write(venv: Path, root: Path, extras: list[str]) -> None:
    """Record in `venv` that it was filled for `root` with `extras`."""
    text = json.dumps({"digest": _digest(root), "extras": extras})
    (venv / NAME).write_text(text, encoding="utf-8")


def _read(venv: Path) -> dict:
    try:
        return json.loads((venv / NAME).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}


def _digest(root: Path) -> str:
    # The folder counts too: an editable install points at it, and people move folders.
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needs = [project["dependencies"], project["optional-dependencies"], str(root.resolve())]
    return hashlib.sha256(json.dumps(needs).encode()).hexdigest()
