"""The page on the model with a case of the reader's own, and with a formula that is wrong."""

import re
from pathlib import Path

import nbformat
import pandas as pd
import pytest

FILE = Path(__file__).parents[1] / "notebooks" / "11_the_model.ipynb"
CELLS = nbformat.read(FILE, as_version=4).cells
CODE = [cell.source for cell in CELLS if cell.cell_type == "code"]
# the indented lines under "Change something of your own"
OFFERED = re.findall(r"^\* another (\w+):\n\n((?: {6}.+\n)+)", CELLS[-1].source, re.MULTILINE)
CASE = "# a case of your own goes here"


def run(code):
    names = {}
    with pd.option_context("display.float_format", None, "display.max_colwidth", 50):
        for source in code:
            exec(source, names)
    return names


def with_case(line):
    (at,) = (i for i, source in enumerate(CODE) if CASE in source)
    lines = CODE[at].splitlines()
    assert lines[0].startswith("setup, other =") and lines[1].startswith(CASE)
    lines[1] = line
    return [*CODE[:at], "\n".join(lines), *CODE[at + 1 :]]


@pytest.mark.slow
@pytest.mark.parametrize(("what", "line"), OFFERED, ids=[what for what, _ in OFFERED])
def test_all_tables_agree_with_each_case_that_the_page_offers(what, line):
    own = run(with_case(re.sub(r"^ {6}", "", line, flags=re.MULTILINE)))
    demo, _ = own["demo"].pin_up_and_down()
    part = {"layout": "layout", "PAP": "bowler", "span": "grip"}[what]
    assert getattr(own["setup"], part) != getattr(demo, part)


def test_the_page_offers_a_layout_a_pap_and_a_span():
    assert [what for what, _ in OFFERED] == ["layout", "PAP", "span"]


@pytest.mark.parametrize(
    ("right", "wrong"),
    [("pin = cos(p) * pap + sin(p)", "pin = cos(p) * pap - sin(p)"),
     ("volume = 2 / 3 * pi * (R**3 - s**1.5) - ", "volume = 2 / 3 * pi * (R**3 - s**1.5) + "),
     ("cross(axis[0], at) @ axis[1]", "cross(at, axis[0]) @ axis[1]")],
)  # fmt: skip
def test_a_wrong_formula_stops_its_cell(right, wrong):
    code = "\0".join(CODE)
    assert code.count(right) == 1
    with pytest.raises(AssertionError, match="the two sides differ"):
        run(code.replace(right, wrong).split("\0"))
