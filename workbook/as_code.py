"""A comparison as the front-door lines that reproduce it."""

from dataclasses import fields
from typing import Any

from workbook.comparison import Comparison
from workbook.grip import Grip
from workbook.lane import STANDARD
from workbook.setup import Setup


def comparison_code(c: Comparison, grip: str = "") -> str:
    """Python lines that give the same answer.

    Parameters
    ----------
    c : Comparison
        On one of the lanes of `Lane`, both setups with the same grip.
    grip : str
        Code of the grip; its holes one by one when left out.
    """
    shared = c.a.bowler == c.b.bowler and c.a.ball == c.b.ball and c.a.grip == c.b.grip
    if not shared:
        raise ValueError("A and B must share bowler, ball and grip to be written in a few lines.")
    if c.lane.name not in STANDARD:
        raise ValueError(f"the lane {c.lane.name} is none of {', '.join(STANDARD)}.")
    lines = [
        "import workbook as wb",
        f"bowler = {call(c.a.bowler)}",
        f"ball = {call(c.a.ball)}",
        f"grip = {grip or grip_code(c.a.grip)}",
        f"a = {_setup(c.a)}",
        f"b = {_setup(c.b)}",
        f"c = wb.compare(a, b, wb.Lane.{c.lane.name}(), {call(c.line)})",
        "print(wb.report(c))",
    ]
    return "\n".join(lines)


def layout_code(setup: Setup, grip: str = "") -> str:
    """Python lines that give the same answer on one laid-out ball; `grip` as above."""
    lines = [
        "import workbook as wb",
        f"bowler = {call(setup.bowler)}",
        f"ball = {call(setup.ball)}",
        f"grip = {grip or grip_code(setup.grip)}",
        f"a = {_setup(setup)}",
        "print(wb.layout_report(a))",
    ]
    return "\n".join(lines)


def call(record: Any) -> str:
    """An input record as a call of its class, what has its default value left out."""
    given = [
        f"{f.name}={getattr(record, f.name)!r}"
        for f in fields(record)
        if getattr(record, f.name) != f.default
    ]
    return f"wb.{type(record).__name__}({', '.join(given)})"


def grip_code(grip: Grip) -> str:
    """The holes of a grip, one by one."""
    return f"wb.Grip([{', '.join(call(hole) for hole in grip.holes)}])"


def _setup(setup: Setup) -> str:
    parts = f"bowler, ball, {call(setup.layout)}, grip, {call(setup.surface)}, {setup.name!r}"
    if setup.assumptions != Setup.__dataclass_fields__["assumptions"].default:
        parts += f", {call(setup.assumptions)}"
    return f"wb.Setup({parts})"
