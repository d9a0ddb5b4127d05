"""The exercise files follow exercises/README.md, and their answers follow from the library."""

import tomllib
from pathlib import Path

import pytest

import workbook as wb
from workbook import demo

FOLDER = Path(__file__).parents[1] / "exercises"
FILES = sorted(FOLDER.glob("*/*.toml"))
KINDS = {"number", "choice", "order", "predict", "target", "words", "drill"}
NEEDED = {
    "form", "id", "title", "kind", "level", "teaches", "prompt", "hints", "explanation", "mark",
    "source",
}  # fmt: skip
MARKS = {"published", "textbook", "derived", "common practice", "assumption", "memory"}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_form(file):
    exercise = tomllib.loads(file.read_text(encoding="utf-8"))
    assert set(exercise) >= NEEDED
    assert exercise["id"] == f"{file.parent.name}/{file.stem}"
    assert exercise["kind"] in KINDS and exercise["mark"] in MARKS
    assert len(exercise["hints"]) == 3 and 1 <= exercise["level"] <= 5
    if exercise["kind"] == "choice":
        right = [choice for choice in exercise["choices"] if choice.get("right")]
        assert len(right) == 1
        assert all(c.get("right") or c["coaching"] for c in exercise["choices"])


def test_every_key_is_documented():
    documented = (FOLDER / "README.md").read_text(encoding="utf-8")
    for key in set().union(*(tomllib.loads(f.read_text(encoding="utf-8")) for f in FILES)):
        assert f"`{key}`" in documented or f"`[[{key}]]`" in documented


def test_pin_up_flares_more_by_about_an_inch():
    up, down = demo.pin_up_and_down()
    comparison = wb.compare(up, down)
    assert 0.75 < comparison.shot_a.flare_in - comparison.shot_b.flare_in < 1.5
