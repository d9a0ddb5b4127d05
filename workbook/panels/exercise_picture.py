"""The picture of an exercise, drawn as the panels draw theirs, without figures that answer it."""

import io
import warnings
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

import ipywidgets as widgets
from PIL import Image

from workbook import demo
from workbook.ball_reading import read_ball
from workbook.draw.ball_picture import CAPTION_IN, BallPicture
from workbook.draw.curves_picture import CurvesPicture
from workbook.draw.lane_picture import LanePicture
from workbook.draw.picture import DPI, Picture
from workbook.draw.spec_picture import SpecPicture
from workbook.draw.surface_picture import SurfacePicture
from workbook.errors import LegalLimit
from workbook.levers import lever_swings
from workbook.line import Line
from workbook.panels.panel import ONE_AT_A_TIME, SHARP
from workbook.practice.setups import OF_LINE, lane_from, setup_from, split_line
from workbook.rolling import roll
from workbook.scenes import LABELS
from workbook.scenes_spec import spec_scene
from workbook.setup import Setup
from workbook.staging import ball_scene, lane_scene
from workbook.staging_roll import curves_scene
from workbook.staging_surface import surface_scene

KINDS: dict[str, Callable[[], Picture]] = {
    "lane": LanePicture, "curves": CurvesPicture, "spec": SpecPicture, "surface": SurfacePicture,
}  # fmt: skip
DRAWS = 32  # of what nobody knows well, for the levers
LANE = "house"
RINGS = "oil rings, the first darkest"


def exercise_picture(about: Mapping[str, Any]) -> widgets.Image:
    """The picture that an exercise file describes, as wide as it is drawn.

    Its words for those who cannot see it are `about["words"]`, never the picture's own: those give
    the figures that are asked for.

    Parameters
    ----------
    about : mapping
        An exercise's `picture`.
    """
    with ONE_AT_A_TIME, warnings.catch_warnings():
        warnings.simplefilter("ignore", LegalLimit)
        setups = [setup_from(about[key]) for key in ("a", "b") if key in about]
        picture = _picture(about["kind"], len(setups))
        picture.show(_scene(about, setups))
        wide = widgets.Layout(width=f"{picture.width_in * DPI:.0f}px", height="auto")
        return widgets.Image(value=_png(picture, about), format="png", layout=wide)


def _png(picture: Picture, about: Mapping[str, Any]) -> bytes:
    """The picture; of balls at rest without the room for figures under them."""
    png = picture.png(SHARP)
    if about["kind"] != "balls" or "lane" in about:
        return png
    out, sheet = io.BytesIO(), Image.open(io.BytesIO(png))
    foot = round(CAPTION_IN * DPI * SHARP)
    sheet.crop((0, 0, sheet.width, sheet.height - foot)).save(out, "PNG")
    return out.getvalue()


@cache
def _picture(kind: str, count: int) -> Picture:
    """Made once a kernel: that takes most of the time."""
    return BallPicture(count) if kind == "balls" else KINDS[kind]()


def _scene(about: Mapping[str, Any], setups: list[Setup]) -> Any:
    kind, a = about["kind"], setups[0]
    if kind == "spec":
        return spec_scene(read_ball(a.ball, a.bowler, a.grip, a.surface), "the ball")
    if kind == "surface":
        return surface_scene(a, setups[-1], lever_swings(a, draws=DRAWS))
    rolls = kind != "balls" or "lane" in about
    lane, line = lane_from(about.get("lane", LANE)), _line(about)
    shots = [roll(one, lane, line) if rolls else None for one in setups]
    if kind == "balls":
        scenes = (ball_scene(*one) for one in zip(LABELS, setups, shots, strict=False))
        return tuple(replace(scene, caption=RINGS if rolls else "") for scene in scenes)
    rolled = [shot for shot in shots if shot]
    return lane_scene(lane, setups, rolled) if kind == "lane" else curves_scene(setups, rolled)


def _line(about: Mapping[str, Any]) -> Line:
    """The line that is given, or the one that A's bowler plays."""
    given = {name: about[name] for name in OF_LINE if name in about}
    return split_line({**given, "style": about["a"].get("style", demo.USUAL)})[0]
