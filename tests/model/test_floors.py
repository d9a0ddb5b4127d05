"""Imports go down the floors only, and the front door needs nothing but the standard library."""

import ast
import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "workbook"
FLOORS = dict.fromkeys(("units", "sources", "errors", "inputs"), 0) | {
    "core": 1, "scenes": 3, "sentences": 3, "reports": 3, "as_code": 3, "staging": 3, "notes": 3,
    "tables": 3, "draw": 4, "panels": 5,
    "ball_words": 3, "ball_tables": 3, "scenes_spec": 3, "scenes_map": 3,
    "layout_tables": 3, "layout_words": 3,
    "typed": 0, "scenes_track": 3, "staging_track": 3, "track_tables": 3, "track_words": 3,
    "scenes_roll": 3, "staging_roll": 3, "roll_words": 3,
    "scenes_surface": 3, "staging_surface": 3, "surface_words": 3, "surface_tables": 3,
    "start": 6, "commands": 6, "__main__": 6,
}  # fmt: skip
OTHERWISE = 2  # the friendly layer, the front door, and what stands beside it
# above which floor (inclusive) a library may be imported; all others anywhere
FROM_FLOOR = {"pandas": 3, "matplotlib": 4, "PIL": 4, "ipywidgets": 5, "anywidget": 5}
ONLY_PANELS = {"ipywidgets", "anywidget"}
FILES = sorted(PACKAGE.rglob("*.py"))


def part(parts):
    """First name below the package: the part of the house a module belongs to."""
    return parts[1] if len(parts) > 1 else ""


def floor(name):
    return FLOORS.get(name, OTHERWISE)


def imported(file):
    """Every module that a file imports, as (line, full name)."""
    found = []
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file.name}:{node.lineno}: relative import"
            if node.module == "workbook" or node.module.endswith((".core", ".draw", ".panels")):
                found += [(node.lineno, f"{node.module}.{alias.name}") for alias in node.names]
            else:
                found.append((node.lineno, node.module))
    return found


def trespasses(file):
    home = part(("workbook", *file.relative_to(PACKAGE).with_suffix("").parts))
    here = 7 if home == "__init__" else floor(home)  # the front door names all, and loads it late
    for line, module in imported(file):
        parts = module.split(".")
        where = f"{file.relative_to(ROOT)}:{line} imports {module}"
        if "pyplot" in parts or "pylab" in parts:
            yield where
        elif parts[0] == "workbook":
            target = part(parts)
            if floor(target) > here or (home == "core" and target != "core"):
                yield where
        elif here < FROM_FLOOR.get(parts[0], 0) or (parts[0] in ONLY_PANELS and home != "panels"):
            yield where


@pytest.mark.parametrize("file", FILES, ids=lambda f: str(f.relative_to(PACKAGE)))
def test_imports_go_down_the_floors(file):
    assert list(trespasses(file)) == []


@pytest.mark.parametrize(
    ("place", "text"),
    [("core/roll.py", "from workbook import units"), ("ball.py", "import pandas"),
     ("layout.py", "from workbook.draw import style"), ("units.py", "from workbook import ball"),
     ("draw/style.py", "import matplotlib.pyplot as plt"), ("draw/style.py", "import ipywidgets"),
     ("start/lab.py", "import ipywidgets"), ("scenes.py", "from workbook.panels import x")],
)  # fmt: skip
def test_a_trespass_is_seen(tmp_path, monkeypatch, place, text):
    monkeypatch.setattr(sys.modules[__name__], "PACKAGE", tmp_path / "workbook")
    monkeypatch.setattr(sys.modules[__name__], "ROOT", tmp_path)
    file = tmp_path / "workbook" / place
    file.parent.mkdir(parents=True)
    file.write_text(text, encoding="utf-8")
    assert len(list(trespasses(file))) == 1


def test_the_front_door_loads_only_the_standard_library():
    program = (
        "import json, sys; before = set(sys.modules); import workbook; dir(workbook);"
        "print(json.dumps(sorted(set(sys.modules) - before)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True
    )
    loaded = {name.partition(".")[0] for name in json.loads(done.stdout)}
    assert "workbook" in loaded
    assert loaded - set(sys.stdlib_module_names) == {"workbook"}


def test_everything_promised_is_behind_the_front_door():
    import workbook

    assert all(hasattr(workbook, name) for name in workbook.__all__)
    assert not hasattr(workbook, "Lanes")
