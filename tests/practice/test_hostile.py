"""Hostile answers and hostile files: a clear outcome each time, in time, and nothing is run."""

import time

import pytest
from hypothesis import given

from tests.practice.made import RIGHT, TEXTS, made
from tests.practice.nasty import ANSWERS, OBJECTS, Ran, hostile_files, nothing_runs, unheld
from tests.refusals.refusal import examples
from workbook.practice.answering import CANNOT_CHECK, OUTCOMES, mark
from workbook.practice.file_check import faults
from workbook.practice.posed import pose

POSED = {kind: pose(made(kind)) for kind in TEXTS}
LONGEST = 400
MANY_S = 10  # a slow computer in a bad moment; usually a thousandth of that
FEW = (0, 1, 2)


@pytest.fixture(autouse=True, scope="module")
def all_loaded():
    """What is loaded late is loaded before the watch begins."""
    for kind, answer in RIGHT.items():
        mark(POSED[kind], answer)
        faults(TEXTS[kind], "made.toml", seeds=FEW)


def clear(said):
    assert len(said) < LONGEST and said.isprintable() and said.strip() == said, said
    return said


def marked(kind, answer):
    begun = time.monotonic()
    found = mark(POSED[kind], answer)
    assert time.monotonic() - begun < MANY_S
    assert found.kind in OUTCOMES, found
    if found.kind == CANNOT_CHECK:
        assert found.said.endswith(".") and len(found.said) > 5
    clear(found.said)
    return found


def test_the_watch_sees_what_is_run():
    for hostile in ("eval('1')", "__import__('antigravity')", "__import__('os').system('x')"):
        code = compile(hostile, "hostile", "eval")
        run = eval
        with nothing_runs(), pytest.raises(Ran):
            run(code)
    with pytest.raises(Ran):
        str(OBJECTS[0])


@pytest.mark.parametrize("kind", TEXTS)
def test_objects_with_minds_of_their_own(kind):
    with nothing_runs():
        for one in OBJECTS:
            for answer in (one, [one], {"text": one}, {"angle": one}, [[one, one]] * 3,
                           {"text": "x", "points": [one]}, (one, one, one)):  # fmt: skip
                marked(kind, answer)


@pytest.mark.parametrize("count", [200, pytest.param(5000, marks=pytest.mark.slow)])
def test_hostile_answers_to_each_kind(count):
    @examples(count)
    @given(ANSWERS)
    def each(answer):
        with nothing_runs():
            for kind in TEXTS:
                marked(kind, unheld(answer))

    each()


@pytest.mark.parametrize("count", [100, pytest.param(1000, marks=pytest.mark.slow)])
def test_hostile_files(count):
    @examples(count)
    @given(hostile_files())
    def each(text):
        begun = time.monotonic()
        with nothing_runs():
            found = faults(text, "hostile.toml", seeds=FEW)
        assert time.monotonic() - begun < MANY_S
        for said in found:
            assert said.startswith("hostile.toml") and clear(said).endswith("."), said

    each()
