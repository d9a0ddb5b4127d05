"""Hostile answers and hostile files, and a watch that nothing of them is run."""

import builtins
import os
import subprocess
import sys
from collections import OrderedDict, UserDict, deque
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from unittest import mock

import numpy as np
from hypothesis import strategies as st

from tests.practice.made import COMMON, TEXTS


class Ran(BaseException):
    """Something hostile was run; no handler of ours takes it."""


def ran(*_given, **_named):
    raise Ran


METHODS = (
    "__str__", "__repr__", "__eq__", "__ne__", "__len__", "__iter__", "__getitem__", "__bool__",
    "__float__", "__int__", "__index__", "__hash__", "__contains__", "__lt__", "__abs__", "__neg__",
    "__add__", "__sub__", "__rsub__", "__format__", "__call__", "__getattr__", "__next__", "keys",
    "items", "get", "strip", "lower", "casefold", "isdigit", "translate", "splitlines", "encode",
    "is_integer", "as_integer_ratio", "__round__", "__trunc__", "__enter__", "__reduce__",
)  # fmt: skip
BODY = dict.fromkeys(METHODS, ran)
KINDS = [type("Nasty", (base,), BODY) for base in (object, str, int, float, list, tuple, dict)]
NAMES = ["x" * 5000, "a\nb", "\x1b[2J", "<script>", "{0.__class__}"]
OBJECTS = [
    *(kind() for kind in KINDS), KINDS[1]("9"), KINDS[2](9), KINDS[3](9.0), KINDS[4]([9]),
    KINDS[6]({"text": "x"}), type("Hidden", (), {"__class__": property(ran)})(),
    *(type(name, (), {})() for name in NAMES),
    object(), print, Ran, ..., NotImplemented, np.arange(3), np.array("9"), np.datetime64("2020"),
    np.complex128(9), np.bool_(True), np.longdouble("1e400"), Decimal("9"), Decimal("sNaN"),
    Fraction(9, 7), Fraction(10**400), 9j, b"9", bytearray(b"9"), memoryview(b"9"), range(9),
    deque([1]), UserDict(text="x"), OrderedDict(text="x", points=[1]), (one for one in [9]),
    os, sys, np.float64("nan"), np.str_("9"), 10**5000, -(2**64), "1" * 200_000, {1: 2}, {None: 1},
    {(): 1}, {"text": "x", "points": {1: 2}},
]  # fmt: skip
ITSELF: list = []
ITSELF.append(ITSELF)
OBJECTS.append(ITSELF)


@dataclass(frozen=True)
class Held:
    """Stands for one of `OBJECTS`: the test tool itself would call their methods."""

    place: int


def unheld(answer):
    """`answer` with the objects themselves in it."""
    if type(answer) is Held:
        return OBJECTS[answer.place]
    if type(answer) in (list, tuple):
        return type(answer)(unheld(one) for one in answer)
    if type(answer) is dict:
        return {name: unheld(one) for name, one in answer.items()}
    return answer


STRINGS = [
    "__import__('os').system('x')", "exec('1')", "{0.__class__}", "%s%n", "${jndi:x}", "{answer}",
    "{turns}", "<img src=x onerror=alert(1)>", "'; DROP TABLE answer; --", "nan", "inf", "-inf",
    "1e999", "0x10", "1_000", "NaN", "\0", "\u202e9", "٣", "9" * 70, "1/0", "4 1/0", "=1+1",
    "lambda: 9", "9 mph; 9", "-" * 50, ";" * 5000, "\n" * 5000, "½½", "𝟗", "²", "skid\x00",
]  # fmt: skip
LETTERS = st.characters(exclude_categories=())  # lone surrogates too
SINGLE = (
    st.text(LETTERS, max_size=80) | st.sampled_from(STRINGS) | st.floats() | st.integers()
    | st.integers(-2, 12) | st.none() | st.booleans() | st.binary(max_size=8)
    | st.builds(Held, st.integers(0, len(OBJECTS) - 1))
    | st.decimals() | st.fractions() | st.dates() | st.complex_numbers()
    | st.sampled_from(["pin up", "skid", "hook", "roll", "9", "7", "1; 2\n3; 4\n5; 6"])
)  # fmt: skip
KEYS = st.sampled_from(["angle", "text", "points", "other", "", "__class__", "\n"]) | st.text(
    LETTERS, max_size=9
)
ODD_KEYS = KEYS | st.integers() | st.floats() | st.none() | st.tuples(st.integers())
ANSWERS = st.recursive(
    SINGLE,
    lambda inner: st.lists(inner, max_size=5) | st.tuples(inner, inner) | st.tuples(
        inner, inner, inner) | st.dictionaries(KEYS, inner, max_size=4) | st.dictionaries(
        ODD_KEYS, inner, max_size=3),
    max_leaves=12,
)  # fmt: skip

VALUES = st.sampled_from([
    "0", "-1", "1e400", "nan", "-inf", "9" * 4000, "0x" + "F" * 3000, "1e6", "2.5", "true", '""',
    '"x"', "'os.system'", '"{turns}"', '"{angle}"', '"{nobody}"', "[]", "{}", "[[[[]]]]", "[1, 2]",
    '["a", "b", "c"]', '["a", "a", "a"]', "2020-01-01", "12:00:00", '{ calculation = "os.system" }',
    '{ calculation = "eval", a = "1" }', '{ calculation = ["plus"] }', '{ calculation = "plus" }',
    '{ calculation = "over", a = 1, b = 0 }', '{ calculation = "rated", of = "__class__" }',
    '{ calculation = "rolled", of = "entry_board", lane = "\\n" }', '{ a.b.c.d = 1 }',
    '{ calculation = "drilled", of = "top_oz", assumptions = 1 }', '"' + "y" * 2990 + '"',
    '{ calculation = "plus", a = 1e9, b = 1e9 }', '{ calculation = "sine", deg = "{turns}" }',
    '"\\u0000\\u001b[2J"', '"<script>alert(1)</script>"', '"{0.__class__.__mro__}"', '"%s %n"',
    "[" * 40 + "]" * 40, "[" * 990 + "]" * 990, "{ a = " * 30 + "1" + " }" * 30, '"\\ud800"',
    '{ calculation = "friction", film_um = 0, cover = "reactive", style = 1 }', '"04_x/y"',
    '"order"', '"number"', '"target"', '"at least"', '{ "" = 1, "\\n" = 2 }', '"within"',
])  # fmt: skip
LINES = st.sampled_from([
    "[draw.turns]", "[draw.answer]\nlow = 0\nhigh = 1\nstep = 1\nworked = 0", "[draw]", "[[draw]]",
    "[draw.x]\nlow = 0\nhigh = 1e6\nstep = 1e-6\nworked = 1", "[answer]", "[[answer]]", "[[wrong]]",
    "[draw.x]\nlow = 0\nhigh = 1\nstep = 0\nworked = 1", "[picture]\nkind = 'lane'\nwords = 'x'",
    "[draw.x]\nlow = 0\nhigh = 1\nstep = nan\nworked = 1", "[draw.'x y']\nlow = 1", "level = 1",
    "[draw.x]\nlow = -inf\nhigh = inf\nstep = inf\nworked = 1", "\x07", "\x00", "\u2028", "\x85",
    "[picture]\nkind = 'balls'\nwords = 'x'\na = { differential_in = 0.08 }\nlaydown_board = 'x'",
    "[picture]\nkind = 'balls'\nwords = 'x'\na = { grit = 500, polished = true }", "= =", '"""',
    "a" + ".a" * 1500 + " = 1", "[" + ".".join("b" * 900) + "]", "# " + "c" * 3990, "d" * 5000,
    "[[target.lever]]\nname = 'a'\nwords = 'x'\nunit = ''\nlow = 1\nhigh = 0\nstart = 0",
    "[target.lever]", "wrong = 3", "wrong = [1]",
    "[[choices]]\ntext = 'pin up'\ncoaching = '{turns}'",
    "[os.system]", "x = 1\n" * 3, "[[wrong]]\ncoaching = '{answer}'\nvalue = 9", "['wrong']",
])  # fmt: skip


OWN = COMMON.count("\n")


@st.composite
def hostile_files(draw):
    """The text of a valid file with some of its lines changed, or text like TOML, or any text."""
    kind = draw(st.sampled_from([*TEXTS] * 3 + ["any", "like"]))
    if kind == "any":
        return draw(st.text(LETTERS, max_size=300))
    if kind == "like":
        return draw(st.text("ab=[]{}\"'\n.,#0123456789 \\-_", max_size=200))
    lines = TEXTS[kind].split("\n")
    for _ in range(draw(st.integers(1, 3))):
        least = draw(st.sampled_from([0, OWN, OWN]))  # mostly in what a kind has of its own
        at = draw(st.integers(min(least, len(lines) - 1), len(lines) - 1))
        way = draw(st.integers(0, 6))
        if way <= 2:
            lines[at] = lines[at].partition("=")[0] + "= " + draw(VALUES)
        elif way == 3:
            lines[at : at + 1] = []
        elif way == 4:
            lines[at : at + 1] = [lines[at]] * draw(st.integers(2, 12))
        elif way == 5:
            lines[at : at + 1] = [lines[at], draw(LINES)]
        else:
            cut = draw(st.integers(0, len(lines[at])))
            lines[at] = lines[at][:cut] + draw(st.text(LETTERS, max_size=3)) + lines[at][cut:]
    return "\n".join(lines)


@contextmanager
def nothing_runs():
    """Fail where code is made or run, a module is loaded that was not, or a program is started."""
    load = builtins.__import__

    def known(name, *rest, **named):
        if name not in sys.modules:
            raise Ran(name)
        return load(name, *rest, **named)

    with ExitStack() as watch:
        for place, name in ((os, "system"), (os, "popen"), (os, "fork"), (subprocess, "Popen"),
                            (builtins, "eval"), (builtins, "exec"), (builtins, "compile"),
                            (builtins, "open")):  # fmt: skip
            watch.enter_context(mock.patch.object(place, name, ran))
        watch.enter_context(mock.patch.object(builtins, "__import__", known))
        yield
