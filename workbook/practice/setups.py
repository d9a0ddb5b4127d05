"""A setup described by plain names and numbers, as exercise files do."""

import warnings
from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from workbook import demo, errors
from workbook.ball import Ball
from workbook.bowler import Bowler
from workbook.errors import InputRefused, LegalLimit
from workbook.grip import Grip
from workbook.lane import Lane
from workbook.layout import Layout
from workbook.line import Line
from workbook.setup import Setup
from workbook.surface import Surface

LANES = {
    "house": Lane.house, "reference": Lane.reference, "flat": Lane.flat, "heavy": Lane.heavy,
    "dry": Lane.dry,
}  # fmt: skip
PARTS: dict[str, type] = {"bowler": Bowler, "ball": Ball, "layout": Layout, "surface": Surface}
OF_PARTS = {field.name: part for part, kind in PARTS.items() for field in fields(kind)}
OF_LINE = tuple(field.name for field in fields(Line))
GRIPS = ("usual", "no thumb", "none")


def setup_from(about: Mapping[str, Any]) -> Setup:
    """Return the demo's pin-up setup with what `about` changes.

    Parameters
    ----------
    about : mapping
        "style" (a bowler of the clinic), "grip" ("usual", "no thumb", "none"), and any field of
        `Bowler`, `Ball`, `Layout` and `Surface` by its name and in its unit.

    Raises
    ------
    InputRefused
        An unknown name, or a value that the record refuses.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", LegalLimit)  # an exercise may ask about such a ball
        return _changed(about)


def _changed(about: Mapping[str, Any]) -> Setup:
    style = errors.choice("style", about.get("style", demo.USUAL), tuple(demo.STYLES))
    setup = demo.setup(val_angle_deg=demo.PIN_UP_VAL_DEG, style=style)
    if "grip" in about:
        setup = replace(setup, grip=_grip(errors.choice("grip", about["grip"], GRIPS)))
    for part, kind in PARTS.items():
        mine = {name: value for name, value in about.items() if OF_PARTS.get(name) == part}
        if part == "surface" and mine:
            setup = replace(setup, surface=kind(**mine))
        elif mine:
            setup = replace(setup, **{part: replace(getattr(setup, part), **mine)})
    unknown = sorted(set(about) - set(OF_PARTS) - {"style", "grip"})
    if unknown:
        raise InputRefused(f"a setup has no {errors.shown(unknown[0])}.")
    return setup


def surface_from(about: Mapping[str, Any]) -> Surface:
    """Return the surface that `about` names by "grit" or "polished"."""
    for name in about:
        if OF_PARTS.get(name) != "surface":
            raise InputRefused(f"a surface has no {errors.shown(name)}.")
    return Surface(**about)


def lane_from(name: object) -> Lane:
    """Return one of the lanes in `LANES`."""
    return LANES[errors.choice("lane", name, tuple(LANES))]()


def split_line(about: Mapping[str, Any]) -> tuple[Line, dict[str, Any]]:
    """Return the line in `about` (the bowler's own by default) and what is left of `about`."""
    given = {name: about[name] for name in OF_LINE if name in about}
    style = errors.choice("style", about.get("style", demo.USUAL), tuple(demo.STYLES))
    line = Line(**given) if given else demo.STYLES[style].line
    return line, {name: value for name, value in about.items() if name not in OF_LINE}


def _grip(words: str) -> Grip:
    return Grip() if words == "none" else Grip.usual(thumb=words == "usual")
