"""`compare` as typed: its report, its picture, its refusals."""

import subprocess
import sys

import pytest
from PIL import Image

from workbook import demo
from workbook.commands.compare import main


@pytest.fixture(autouse=True)
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_without_files_it_shows_the_demo_and_says_so(here, capsys):
    assert main([]) == 0
    said = capsys.readouterr().out
    assert said.startswith(demo.NOTE)
    for words in (
        "differential [in]", "hook potential [boards]", "What causes B - A",
        "In words: On the lane A and B differ by less than", "qualified pro-shop operator",
    ):  # fmt: skip
        assert words in said
    image = Image.open(here / "comparison.png")
    assert image.size[0] == 1400 and "breakpoint" in image.text["Description"]


def test_two_files_are_compared_and_named_after_them(here, capsys):
    for name, setup in zip(("up", "down"), demo.pin_up_and_down("senior"), strict=True):
        setup.to_json(here / f"{name}.json")
    assert main(["up.json", "down.json", "--lane", "dry", "--picture", "p.png"]) == 0
    said = capsys.readouterr().out
    assert "Shot on the dry lane" in said and demo.NOTE not in said and "14.5 mph" in said
    assert (here / "p.png").exists() and not (here / "comparison.png").exists()


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["one.json"], "number of setup files 1 is outside 0 (the demo) or 2"),
        (["a.json", "b.json"], "a.json in"),
        (["--lane", "nowhere.csv"], "nowhere.csv in"),
        (["--laydown", "50"], "laydown board 50 is outside 1 to 39."),
        (["--picture", "no/such/folder.png"], "must end in .png and lie in a folder"),
        (["--picture", "table.txt"], "must end in .png"),
    ],
)
def test_refusals_are_one_sentence(arguments, sentence, capsys):
    assert main(arguments) == 2
    error = capsys.readouterr().err
    assert sentence in error and len(error.strip().splitlines()) == 1


def test_the_warming_module_runs():
    subprocess.run([sys.executable, "-m", "workbook.warm"], check=True)
