"""Spelling and units of what students read: exercises, the pages' words, the glossary.

The word list is pyspellchecker's, which comes with the package, and `words.txt` beside this file.
"""

import re
import tomllib
from pathlib import Path

import nbformat
import pytest
from spellchecker import SpellChecker

from workbook.glossary import TERMS

ROOT = Path(__file__).parents[1]
OWN = {word for word in (ROOT / "tests/words.txt").read_text("utf-8").split("\n")[1:] if word}
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
EXERCISES = sorted((ROOT / "exercises").glob("*/*.toml"))
# names for the library, not words for students
NAMES = (
    "id",
    "kind",
    "calculation",
    "of",
    "name",
    "style",
    "cover",
    "lane",
    "grip",
    "ball",
    "mark",
)
# code, formulas, addresses, names in braces, words that are partly signs or figures
NO_WORDS = re.compile(
    r"```.*?```|^ {4,}.*?$|`[^`]*`|\$\$.*?\$\$|\$[^$\n]*\$|\]\([^)]*\)|https?://\S+|\{[a-z_]+\}"
    r"|\w*[_\d²³µω]\w*(?:\.\w+)*",
    re.DOTALL | re.MULTILINE,
)
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)?")
AMERICAN = {
    "aluminum", "analyze", "analyzed", "behavior", "caliber", "center", "centered", "centerline",
    "centers", "color", "colored", "colors", "favor", "favorite", "gray", "honor", "jewelry",
    "labeled", "labor", "meters", "micrometer", "micrometers", "millimeter", "millimeters", "mold",
    "neighbor", "neighboring", "neighbors", "plow", "skeptical", "traveled", "traveling",
}  # fmt: skip
# how a unit is written behind a number, and what else people write for it
UNITS = {
    "in": ("in", "inch", "inches"), "ft": ("ft", "foot", "feet"), "mph": ("mph",), "rpm": ("rpm",),
    "board": ("board", "boards"), "deg": ("deg", "degree", "degrees"), "grit": ("grit",),
    "oz": ("oz", "ounce", "ounces"), "lb": ("lb", "pound", "pounds"), "µm": ("µm",), "mL": ("mL",),
    "s": ("s", "second", "seconds"),
}  # fmt: skip
WRITTEN = {form for forms in UNITS.values() for form in forms}
WRONG = {form.lower(): unit for unit, forms in UNITS.items() for form in forms} | {
    "μm": "µm",  # a Greek letter in place of the sign for micro
    "ins": "in", "fts": "ft", "mphs": "mph", "mp": "mph", "rpms": "rpm", "rev": "rpm",
    "brd": "board", "brds": "board", "bd": "board", "bds": "board", "degs": "deg", "dg": "deg",
    "grits": "grit", "ozs": "oz", "lbs": "lb", "um": "µm", "microns": "µm", "mic": "µm",
    "mls": "mL", "ml": "mL", "sec": "s", "secs": "s",
}  # fmt: skip
FIGURE = re.compile(r"(?<![\w.])(\d+(?:[.,/]\d+)*[½¼¾⅛⅜⅝⅞]?|[½¼¾⅛⅜⅝⅞])([ \u00a0]?)([A-Za-zµμ°%]+)")


def strings(value):
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for name, one in value.items():
            if name not in NAMES:
                yield from strings(one)
    elif isinstance(value, list):
        for one in value:
            yield from strings(one)


def text_of(path):
    """All that a student reads in a file, by paragraph."""
    if path.suffix == ".toml":
        return "\n".join(strings(tomllib.loads(path.read_text("utf-8"))))
    cells = nbformat.read(path, as_version=4).cells
    return "\n".join(cell.source for cell in cells if cell.cell_type == "markdown")


@pytest.fixture(scope="module")
def known():
    return SpellChecker().word_frequency


def misspelt(text, known):
    found = {word.lower().replace("’", "'") for word in WORD.findall(NO_WORDS.sub(" ", text))}
    words = {word.removesuffix("'s") for word in found if len(word) > 1}
    return sorted(
        word for word in words if word in AMERICAN or not (word in OWN or word in known)
    )  # fmt: skip


def odd_units(text):
    """Each number with a unit that is not written as everywhere else, and how it should be."""
    found = []
    text = re.sub(r"^#+ \d+", "", text, flags=re.MULTILINE)  # numbers of headings
    for number, space, unit in FIGURE.findall(text):
        if unit in WRITTEN:
            right = None if space else f"{number} {unit}"
        elif unit == "°":
            right = f"{number}°" if space else None
        else:
            right = WRONG.get(unit) or WRONG.get(unit.lower())
        if right:
            found.append((f"{number}{space}{unit}", right))
    return found


@pytest.mark.parametrize("path", [*NOTEBOOKS, *EXERCISES], ids=lambda path: path.stem)
def test_spelling_and_units(path, known):
    text = text_of(path)
    assert misspelt(text, known) == [], "mend it, or add a right word to tests/words.txt"
    assert odd_units(text) == [], "write units as the other pages do"


def test_spelling_and_units_of_the_glossary(known):
    text = "\n".join(" ".join((t.name, t.meaning, t.unit, t.positive, *t.also)) for t in TERMS)
    assert misspelt(text, known) == [] and odd_units(text) == []


def test_misspellings_are_seen(known):
    text = "A diferential by the ball's neighbour, not color. `wrld` $wrld$ {wrld} x_wrld"
    assert misspelt(text, known) == ["color", "diferential"]


@pytest.mark.parametrize(
    "text", ["14 MPH", "5 degs", "3 ins", "14mph", "45 °", "10 lbs", "3½ Boards", "0.4 μm",
             "0.4 um", "350 RPM", "2 Ft", "½ Inches", "25 ml", "2000 grits", "2.4 sec"]
)  # fmt: skip
def test_odd_units_are_seen(text):
    assert len(odd_units(f"It says {text}.")) == 1


@pytest.mark.parametrize(
    "text", ["14 mph", "5°", "3 in", "1/2 in, 3½ boards", "12 %", "12%", "0.4 µm", "4½ in", "2 Feb",
             "1 Aug 2018", "45° x 4 1/2 in x 25°", "in 3 steps", "25 mL", "3 sets", "360 turns"]
)  # fmt: skip
def test_units_as_they_are_written_pass(text):
    assert odd_units(text) == []


def test_the_own_word_list_is_sorted_and_small(known):
    assert sorted(OWN) == [
        word for word in (ROOT / "tests/words.txt").read_text("utf-8").split("\n")[1:] if word
    ]
    assert len(OWN) < 150 and not any(word in known for word in OWN)
