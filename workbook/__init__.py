"""Bowling-ball layouts worked out: where the holes go, and what that does down the lane.

The front door: `import workbook as wb`. Everything loads when it is first used, so that importing
the package needs nothing but the standard library (`python3 -m workbook` relies on it).
"""

import importlib
from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from workbook import practice as practice
    from workbook.abrasives import Abrasive, abrasive_series
    from workbook.assumptions import Assumptions
    from workbook.ball import Ball
    from workbook.ball_csv import read_balls, write_balls
    from workbook.ball_reading import BallReading, read_ball
    from workbook.bowler import Bowler, Pap
    from workbook.certainty import Bands, bands, drilled_bands
    from workbook.comparison import Comparison, compare
    from workbook.drilling import Drilled, drill, kappa_from_scale
    from workbook.equal_grit import EqualGrit, match_grit
    from workbook.equal_grit_band import GritBand, match_grit_band
    from workbook.errors import InputRefused, LegalLimit
    from workbook.friction_at import friction_band, friction_under
    from workbook.grip import Grip, Hole
    from workbook.hole_shares import HoleEffects, hole_effects
    from workbook.lane import Lane
    from workbook.layout import DistanceLayout, Layout, read_marks
    from workbook.levers import Lever, lever_swings
    from workbook.line import Line
    from workbook.measuring import (
        Measured,
        ReleaseMatch,
        axis_rotation_deg,
        axis_tilt_deg,
        mean_speed_mph,
        release_match,
        release_speed_mph,
        rev_rate_rpm,
    )
    from workbook.pin_places import PinMap, pin_map
    from workbook.rating import Rating, rate
    from workbook.reports import layout_report, report
    from workbook.rolling import Shot, Shots, roll, roll_many
    from workbook.scatter import Scatter
    from workbook.setup import Setup
    from workbook.surface import Surface
    from workbook.track import TrackReading, pap_from_track
    from workbook.wear import WearWorth, Worn, wear_worth, worn

_HOMES = {
    "abrasives": ("Abrasive", "abrasive_series"),
    "assumptions": ("Assumptions",),
    "ball": ("Ball",),
    "ball_csv": ("read_balls", "write_balls"),
    "ball_reading": ("BallReading", "read_ball"),
    "bowler": ("Bowler", "Pap"),
    "certainty": ("Bands", "bands", "drilled_bands"),
    "comparison": ("Comparison", "compare"),
    "drilling": ("Drilled", "drill", "kappa_from_scale"),
    "equal_grit": ("EqualGrit", "match_grit"),
    "equal_grit_band": ("GritBand", "match_grit_band"),
    "errors": ("InputRefused", "LegalLimit"),
    "friction_at": ("friction_band", "friction_under"),
    "grip": ("Grip", "Hole"),
    "hole_shares": ("HoleEffects", "hole_effects"),
    "lane": ("Lane",),
    "layout": ("DistanceLayout", "Layout", "read_marks"),
    "levers": ("Lever", "lever_swings"),
    "line": ("Line",),
    "measuring": (
        "Measured", "ReleaseMatch", "axis_rotation_deg", "axis_tilt_deg", "mean_speed_mph",
        "release_match", "release_speed_mph", "rev_rate_rpm",
    ),
    "pin_places": ("PinMap", "pin_map"),
    "rating": ("Rating", "rate"),
    "reports": ("layout_report", "report"),
    "rolling": ("Shot", "Shots", "roll", "roll_many"),
    "scatter": ("Scatter",),
    "setup": ("Setup",),
    "surface": ("Surface",),
    "track": ("TrackReading", "pap_from_track"),
    "wear": ("WearWorth", "Worn", "wear_worth", "worn"),
}  # fmt: skip
_HOME = {name: module for module, names in _HOMES.items() for name in names}

__all__ = [
    "Abrasive", "Assumptions", "Ball", "BallReading", "Bands", "Bowler", "Comparison",
    "DistanceLayout", "Drilled", "EqualGrit", "Grip", "GritBand", "Hole", "HoleEffects",
    "InputRefused", "Lane", "Layout", "LegalLimit", "Lever", "Line", "Measured", "Pap", "PinMap",
    "Rating", "ReleaseMatch", "Scatter", "Setup", "Shot", "Shots", "Surface", "TrackReading",
    "WearWorth", "Worn", "abrasive_series", "axis_rotation_deg", "axis_tilt_deg", "bands",
    "compare", "drill", "drilled_bands", "friction_band", "friction_under", "hole_effects",
    "kappa_from_scale", "layout_report", "lever_swings", "match_grit", "match_grit_band",
    "mean_speed_mph", "pap_from_track", "pin_map", "rate", "read_ball", "read_balls", "read_marks",
    "release_match", "release_speed_mph", "report", "rev_rate_rpm", "roll", "roll_many",
    "wear_worth", "worn", "write_balls",
]  # fmt: skip


def __getattr__(name: str) -> Any:
    if name == "practice":
        return importlib.import_module(f"{__name__}.practice")
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(importlib.import_module(f"{__name__}.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> "list[str]":
    return sorted([*globals(), *__all__, "practice"])
