"""The shot in time, drawn by the page: sent once a shot, nothing is asked of Python in between."""

from pathlib import Path
from typing import Any

import anywidget
import numpy as np
import traitlets

from workbook.draw import style
from workbook.draw.lane_frame import (
    ARROW_BOARDS,
    DECK_END_FT,
    GUTTER_BOARDS,
    SEAMS,
    pin_places,
)
from workbook.lane import BOARDS
from workbook.line import arrow_ft
from workbook.scenes_roll import RollingBall, RollScene

PARTS = ("rolling_shot.js", "rolling_lane.js", "rolling_ball.js", "rolling_view.js")
THIN = 3  # every so many points of a line on the ball are enough here
LANE = {
    "boards": BOARDS, "gutter": GUTTER_BOARDS, "end_ft": DECK_END_FT, "seams": list(SEAMS),
    "arrows": [[board, arrow_ft(board)] for board in ARROW_BOARDS],
    "pins": [list(place) for place in pin_places()],
}  # fmt: skip
LOOKS = {
    name: getattr(style, name.upper())
    for name in ("ink", "muted", "paper", "wood", "seam", "gutter", "pin", "ball", "hole")
}


class RollingView(anywidget.AnyWidget):
    """Lane and turning balls with play, pause, a slider of time and a choice of speed.

    `shot` is what the page draws, as `show` packs it; the page keeps one shot at a time.
    """

    _esm = "\n".join(Path(__file__).with_name(part).read_text("utf-8") for part in PARTS)
    _css = """
    .workbook-rolling { font-size: 15px; width: 100%; }
    .workbook-rolling canvas { display: block; }
    .workbook-rolling-bar { display: flex; flex-wrap: wrap; gap: 4px 12px; align-items: center;
      padding: 2px 4px; }
    .workbook-rolling-bar button { width: 5.6em; font: inherit; padding: 3px; }
    .workbook-rolling-bar input { flex: 1 1 120px; min-width: 0; }
    .workbook-rolling-bar output, .workbook-rolling p { font-variant-numeric: tabular-nums; }
    .workbook-rolling-bar select { font: inherit; }
    .workbook-rolling-balls { display: flex; }
    .workbook-rolling-balls > div { flex: 1 1 50%; min-width: 0; display: flex; gap: 10px;
      align-items: center; justify-content: center; padding-top: 4px; }
    .workbook-rolling-narrow > div { flex-flow: column; }
    .workbook-rolling p { margin: 4px 0; white-space: pre-line; line-height: 1.4;
      min-height: 8.4em; width: 11.5em; }
    """
    shot: Any = traitlets.Dict().tag(sync=True)

    def show(self, scene: RollScene) -> None:
        """Send a scene to the page, which goes on from the time it shows."""
        feet = len(scene.film_um)
        shades = style.OIL(np.clip(scene.film_um.T / style.DEEPEST_OIL_UM, 0.0, 1.0), bytes=True)
        # the first row is the top of the picture: the high boards of a right-hander
        rows = shades[::-1] if scene.hand == "right" else shades
        self.shot = {
            "hand": scene.hand,
            "lane": LANE,
            "looks": LOOKS,
            "oil": {"feet": feet, "rgba": rows.tobytes()},
            "balls": [_sent(ball) for ball in scene.balls],
            "words": f"the lane from above. {scene.describe()}",
        }


def _sent(rolling: RollingBall) -> dict[str, Any]:
    ball, look = rolling.ball, style.SETUPS[rolling.ball.label]
    dash = list(look.dashes[1]) if isinstance(look.dashes, tuple) else []
    frames = np.column_stack([
        rolling.board, rolling.distance_ft, rolling.speed_mph, rolling.rev_rate_rpm,
        rolling.revolutions, rolling.turn, rolling.axis,
    ])  # fmt: skip
    marks = (("pin", ball.pin), (ball.mass_kind, ball.mass_mark), ("PAP", ball.pap))
    return {
        "label": ball.label, "name": rolling.name,
        "colour": look.colour, "words": look.words, "face": look.face,
        "mark": look.mark_pt / 2 + 1, "dash": dash,
        "end_s": float(rolling.time_s[-1]), "hook_s": rolling.hook_s, "roll_s": rolling.roll_s,
        "gutter": rolling.gutter, "ring_s": rolling.ring_s.tolist(),
        "frames": _packed(frames),
        "holes": [_packed(hole.outline) for hole in ball.holes],
        "rings": [_packed(ring[::THIN]) for ring in ball.rings],
        "lines": [_packed(line[::THIN]) for line in (ball.midline, ball.grip_line)],
        "marks": [[name, place.tolist()] for name, place in marks if place is not None],
    }  # fmt: skip


def _packed(numbers: np.ndarray) -> bytes:
    return numbers.astype("<f4").tobytes()
