"""Bowling-ball layouts worked out: where the holes go, and what that does down the lane.

The front door: `import workbook as wb`. Everything loads when it is first used, so that importing
the package needs nothing but the standard library (`python3 -m workbook` relies on it).
"""

import importlib
from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from workbook.assumptions import Assumptions
    from workbook.ball import Ball
    from workbook.bowler import Bowler, Pap
    from workbook.certainty import Bands, bands
    from workbook.comparison import Comparison, compare
    from workbook.drilling import Drilled, drill
    from workbook.errors import InputRefused, LegalLimit
    from workbook.grip import Grip, Hole
    from workbook.lane import Lane
    from workbook.layout import DistanceLayout, Layout, read_marks
    from workbook.line import Line
    from workbook.rating import Rating, rate
    from workbook.reports import report
    from workbook.rolling import Shot, Shots, roll, roll_many
    from workbook.scatter import Scatter
    from workbook.setup import Setup
    from workbook.surface import Surface

_HOMES = {
    "assumptions": ("Assumptions",),
    "ball": ("Ball",),
    "bowler": ("Bowler", "Pap"),
    "certainty": ("Bands", "bands"),
    "comparison": ("Comparison", "compare"),
    "drilling": ("Drilled", "drill"),
    "errors": ("InputRefused", "LegalLimit"),
    "grip": ("Grip", "Hole"),
    "lane": ("Lane",),
    "layout": ("DistanceLayout", "Layout", "read_marks"),
    "line": ("Line",),
    "rating": ("Rating", "rate"),
    "reports": ("report",),
    "rolling": ("Shot", "Shots", "roll", "roll_many"),
    "scatter": ("Scatter",),
    "setup": ("Setup",),
    "surface": ("Surface",),
}
_HOME = {name: module for module, names in _HOMES.items() for name in names}

__all__ = [
    "Assumptions", "Ball", "Bands", "Bowler", "Comparison", "DistanceLayout", "Drilled", "Grip",
    "Hole", "InputRefused", "Lane", "Layout", "LegalLimit", "Line", "Pap", "Rating", "Scatter",
    "Setup", "Shot", "Shots", "Surface", "bands", "compare", "drill", "rate", "read_marks",
    "report", "roll", "roll_many",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> "list[str]":
    return sorted([*globals(), *__all__])
