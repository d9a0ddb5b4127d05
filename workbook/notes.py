"""What a coach has to mind beside the numbers: rules, marks, rings, doubts, idle sliders."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from workbook import sources
from workbook.clearance import rings_over_holes
from workbook.comparison import Comparison
from workbook.inputs import limits
from workbook.lane import POCKET_BOARDS, POCKET_DEG, Lane
from workbook.layout import Layout
from workbook.line import MIDDLE_BOARD, Line
from workbook.rolling import Shot, roll_many
from workbook.setup import Setup

ROUGHEST = sources.value("roughest_grit")
HARDLY = sources.value("idle_slider")
BEYOND_HEAD_PIN = 2 * MIDDLE_BOARD - POCKET_BOARDS[1]  # where the pocket of the other side begins
PLACES = 9  # of a slider, evenly over its range
LAYOUT_SLIDERS = ("drilling_angle_deg", "val_angle_deg", "pin_to_pap_in")


def notes(c: Comparison) -> list[str]:
    """What to mind: legal limits, marks in holes, rings over holes, doubtful shots."""
    lines = []
    for label, setup, shot in (("A", c.a, c.shot_a), ("B", c.b, c.shot_b)):
        said = ball_notes(setup)
        if setup.surface.grit is not None and setup.surface.grit < ROUGHEST:
            said.append(
                f"{setup.surface.grit:g} grit is rougher than the friction assumptions were made "
                f"for ({ROUGHEST:g} and finer): doubtful."
            )
        over = rings_over_holes(setup, shot)
        if any(over):
            said.append(f"{sum(over)} of {len(over)} oil rings run over a hole.")
        lines += [f"{label}: {note}" for note in (*said, *shot.notes)]
    return _pocket(c) + lines


def ball_notes(setup: Setup) -> list[str]:
    """What to mind of a drilled ball: legal limits, marks in holes, a doubtful density."""
    said = [*setup.ball.legal_notes, *setup.drilled.legal_notes, *setup.drilled.notes]
    density = setup.ball.mean_density_g_cm3
    if setup.ball.filler_density_g_cm3 is None and density < sources.value("light_material"):
        said.append(
            f"The holes are cut as if the ball were {density:.2f} g/cm3 throughout; a light "
            "ball is denser under its cover, so what drilling does to it is doubtful."
        )
    return said


def _pocket(c: Comparison) -> list[str]:
    """Where the two come in against the best pocket; nothing for gutter balls."""
    places = [
        f"{label} {_against_pocket(shot)}"
        for label, shot in (("A", c.shot_a), ("B", c.shot_b))
        if shot.entry_board is not None
    ]
    if not places:
        return []
    (low, high), (least, most) = POCKET_BOARDS, POCKET_DEG
    return [
        f"{', '.join(places)}. Best pocket: boards {low:.0f} to {high:.0f} at {least:.0f} to "
        f"{most:.0f} degrees (published, USBC)."
    ]


def _against_pocket(shot: Shot) -> str:
    assert shot.entry_board is not None and shot.entry_angle_deg is not None
    board, angle = round(shot.entry_board, 1), round(shot.entry_angle_deg, 1)
    if board < POCKET_BOARDS[0]:
        return f"comes in light of the pocket, on board {board:.1f}"
    if board > BEYOND_HEAD_PIN:
        return f"crosses over to the other side of the head pin, on board {board:.1f}"
    if board > POCKET_BOARDS[1]:
        return f"comes in high of the pocket, on board {board:.1f}"
    if angle < POCKET_DEG[0]:
        return f"hits the pocket, but flat: {angle:.1f} degrees"
    if angle > POCKET_DEG[1]:
        return f"hits the pocket, but steep: {angle:.1f} degrees"
    return "hits the pocket"


def slider_notes(setup: Setup, lane: Lane, line: Line, called: str) -> list[str]:
    """Sentences on sliders that hardly move this ball here, worked out over their whole range."""
    said: list[str] = []
    for name in LAYOUT_SLIDERS:
        low, high, _ = limits(Layout, name)
        words = Layout.__dataclass_fields__[name].metadata["words"]
        layouts = [
            replace(setup.layout, **{name: float(value)})
            for value in np.linspace(low, high, PLACES)
        ]
        shots = roll_many([replace(setup, layout=layout) for layout in layouts], lane, line)
        hook, roll = _spread(shots.total_hook_boards), _spread(shots.roll_ft)
        if hook is None or hook >= HARDLY or (roll is not None and roll >= HARDLY):
            continue
        also = (
            " and no ball rolls before the pins"
            if roll is None
            else (f" and the roll by {roll:.1f} ft")
        )
        said.append(
            f"The {words} can hardly matter for {called} here: at {PLACES} places over its range "
            f"the hook moves by {hook:.1f} boards{also}."
        )
    return said


def _spread(values: NDArray[np.float64]) -> float | None:
    """Greatest minus smallest; None where no shot has one, endless where only some have."""
    there = np.isfinite(values)
    if not there.any():
        return None
    return float(np.ptp(values)) if there.all() else float("inf")
