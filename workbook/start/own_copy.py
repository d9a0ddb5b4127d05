"""The reader's own copy of the notebooks that an installed package carries.

Copied once. An update brings new pages and those that the reader left as they were; beside a page
with changes of the reader's it puts the new one, as ``NAME.new.ipynb``, and touches no other.
"""

import hashlib
import json
import os
import shutil
from pathlib import Path

MANIFEST = ".workbook-copied.json"
"""In the copy: the digest of each file as it was when the package last brought it."""


def bring(content: Path, target: Path) -> list[str]:
    """Bring the folder `target` up to the package's `content`; never over a change of the reader's.

    Returns
    -------
    list of str
        The files with a new version lying beside the reader's own, by their path in the folder.
    """
    known, beside = _read(target), []
    for source in sorted(path for path in content.rglob("*") if path.is_file()):
        name = source.relative_to(content).as_posix()
        new, mine = _digest(source), target / name
        if known.get(name) == new:
            continue  # seen before; deleted or changed since, that is the reader's business
        if mine.exists() and _digest(mine) not in (known.get(name), new):
            place = _place_beside(mine, target, known)
            _copy(source, place)
            beside.append(place.relative_to(target).as_posix())
            known[beside[-1]] = new
        else:
            _copy(source, mine)
        known[name] = new
    _write(target, known)
    return beside


def _place_beside(mine: Path, target: Path, known: dict[str, str]) -> Path:
    """Return NAME.new.ipynb, or NAME.new2.ipynb where the reader has worked in that one too."""
    count = 1
    while True:
        place = mine.with_name(f"{mine.stem}.new{count if count > 1 else ''}{mine.suffix}")
        offered = known.get(place.relative_to(target).as_posix())
        if not place.exists() or _digest(place) == offered:
            return place
        count += 1


def _copy(source: Path, target: Path) -> None:
    """Copy through a neighbour, so that a full disk leaves no half of a page."""
    target.parent.mkdir(parents=True, exist_ok=True)
    spare = target.with_name(target.name + ".part")
    try:
        shutil.copyfile(source, spare)
        os.replace(spare, target)
    finally:
        spare.unlink(missing_ok=True)


def _digest(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()


def _read(target: Path) -> dict[str, str]:
    try:
        found = json.loads((target / MANIFEST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return found if isinstance(found, dict) else {}


def _write(target: Path, known: dict[str, str]) -> None:
    text = json.dumps(known, indent=1, sort_keys=True)
    (target / MANIFEST).write_text(text + "\n", encoding="utf-8")
