"""Physical constants stand in the registry of sources and nowhere else.

Every number in the records and kernels is one of these: a plain counting number, a number that a
declaration explains (limits, registry, glossary), or one listed here with the reason why it is no
physical constant.
"""

import ast
from pathlib import Path

import pytest

from workbook import sources

PACKAGE = Path(sources.__file__).parent
PLAIN = {*range(13), 0.5, 60, 90, 180, 360, 100, 1000}
DECLARED = {"quantity", "number", "whole", "_fact", "Term", "round", "shown", "Claim", "field"}
# file: numbers that are no physical constants, and what they are
LISTED = {
    "ball_reading.py": ({17, 0.05, 64}, "places of the pin, a step of RG, draws"),
    "ball_words.py": ({0.02, 0.0005}, "when a share is shown with a decimal; what shows as equal"),
    "certainty.py": ({256, 0.9}, "draws; share of them that a band needs"),
    "comparison.py": ({25.0, 17.0}, "the usual line"),
    "core/compiled.py": ({16}, "letters of a digest"),
    "core/friction.py": ({19.0}, "boards on either side of the middle one"),
    "core/mass.py": ({24}, "points of a quadrature"),
    "core/ring_fit.py": ({0.3, 40, 0.25, 1.25}, "longest step and steps of a root finder"),
    "core/roll.py": (None, "coefficients of Dormand and Prince, columns, error control"),
    "core/summary.py": (
        {1.524, 0.1, 400},
        "definitions: 5 ft, a tenth of the slip; room for rings",
    ),
    "demo.py": (None, "invented demo data"),
    "demo_tracks.py": (None, "invented demo data"),
    "drilling.py": ({4096, 256}, "sizes of caches"),
    "equal_grit.py": ({0.05, 17, 65}, "how near is equal; grits that are looked at"),
    "equal_grit_band.py": ({64}, "draws"),
    "errors.py": ({15}, "letters shown"),
    "friction_at.py": ({256}, "draws"),
    "grip.py": ({2.5, 49, 30}, "where no finger is; points of a rim, steps of a root finder"),
    "lane.py": ({0.1}, "shortest zone"),
    "lane_csv.py": ({200.0, 40, 61.0}, "limit and shape of a table"),
    "layout.py": ({6.75, 0.05, 64}, "limits of a reading, lines of a tape"),
    "levers.py": (None, "usual ranges of levers: common practice, no source"),
    "line.py": ({20, 15.0}, "the middle board; boards from the middle arrow to an outer one"),
    "path.py": ({181}, "points of an outline"),
    "patterns.py": (None, "invented patterns"),
    "clearance.py": ({201}, "steps of depth"),
    "pin_places.py": ({28, 19}, "places of the pin"),
    "rolling.py": ({1e6, 64, 15.0}, "no gutter; shots in a chunk; boards between arrows"),
    "setup_file.py": ({20}, "digits of a number in a file"),
    "staging_roll.py": ({61, 131}, "frames of a shot"),
    "staging_surface.py": ({25, 64}, "films of a drawn line, draws"),
    "surface_tables.py": ({2.0}, "films of a table"),
    "staging.py": ({61, 25}, "points of a drawn line"),
    "sentences.py": ({0.9, 0.6, 0.05, 0.1}, "when a cause is called the only or the main one"),
    "tables.py": ({39.5, 0.005}, "the lane's edge; shares too small to show"),
    "units.py": (None, "conversions"),
    "sources.py": (None, "the registry"),
    "reports.py": ({44, 96}, "widths of text"),
    "scenes.py": ({27.0, 0.02}, "default of a drawing; share of the film that counts as oil"),
    "track.py": ({73, 0.01, 181}, "points of outlines; limit of an input"),
    "track_words.py": ({16, 64}, "parts of an inch"),
    "typed.py": ({15}, "digits of a number"),
    "text_file.py": ({1_000_000}, "greatest file"),
    "__main__.py": (None, "the oldest Python"),
}
FILES = sorted([*PACKAGE.glob("*.py"), *PACKAGE.glob("core/*.py")])


def numbers(file):
    """(line, number) of every number in code that no declaration explains."""
    tree, explained = ast.parse(file.read_text(encoding="utf-8")), set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            if name in DECLARED:
                explained |= {id(inner) for inner in ast.walk(node)}
    return [
        (node.lineno, node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and type(node.value) in (int, float)
        and id(node) not in explained
    ]  # fmt: skip


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.relative_to(PACKAGE).as_posix())
def test_no_constant_outside_the_registry(file):
    allowed, _reason = LISTED.get(file.relative_to(PACKAGE).as_posix(), ({}, ""))
    if allowed is None:
        return
    loose = [
        (line, value) for line, value in numbers(file)
        if value not in PLAIN and value not in allowed and not 0 < abs(value) <= 1e-5
        and value not in (1e-3,)
    ]  # fmt: skip
    assert not loose, f"give these a mark, a source and a range in sources.py: {loose}"


def test_the_list_is_no_longer_than_it_has_to_be():
    for name, (allowed, _reason) in LISTED.items():
        found = {value for _line, value in numbers(PACKAGE / name)}
        assert allowed is None or set(allowed) <= found, (name, set(allowed) - found)


def test_every_constant_is_used():
    text = "\n".join(file.read_text(encoding="utf-8") for file in PACKAGE.rglob("*.py"))
    fields = {f"mu_dry_{c}" for c in ("polyester", "urethane", "reactive")}
    for key in sources.FACTS:
        assert text.count(f'"{key}"') >= 2 or key in fields, key


def test_every_assumption_has_a_range_that_holds_its_value():
    fixed = {"reference_film", "anchor_grit"}  # definitions of ours
    for key, fact in sources.FACTS.items():
        low, high = fact.range
        assert low <= fact.value <= high, key
        if fact.mark == "assumption" and key not in fixed:
            assert low < high, key
        if fact.mark == "published":
            assert fact.source, key
