"""The line: where the ball is laid down and where it is aimed."""

import math
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from workbook import errors, sources, units
from workbook.inputs import Inputs, quantity

Length = TypeVar("Length", float, NDArray[np.float64])

BOARD_IN = sources.value("lane_width") / sources.value("boards")
MIDDLE_BOARD = 20


def board_at(x_m: Length) -> Length:
    """Board under a place across the lane [m], x from mid-lane toward the bowling-hand side."""
    return MIDDLE_BOARD - x_m / (BOARD_IN * units.INCH)


def across_m(board: float) -> float:
    """Place across the lane [m] of a board's centre."""
    return (MIDDLE_BOARD - board) * BOARD_IN * units.INCH


def arrow_ft(board: float) -> float:
    """Distance [ft] of the line of arrows at a board: a V, nearest at the edges (common practice).

    The arrows stand on boards 5, 10, ... 35; between them the line is straight.
    """
    middle, outer = sources.value("arrow_center_ft"), sources.value("arrow_outer_ft")
    return middle - (middle - outer) * abs(board - MIDDLE_BOARD) / 15.0


@dataclass(frozen=True, kw_only=True)
class Line(Inputs):
    """Laydown board, and either the launch angle or the board crossed at the arrows.

    Boards count from the bowler's own side.

    Parameters
    ----------
    laydown_board : float
        Board under the ball's centre at the foul line [board].
    launch_deg : float, optional
        Launch angle [deg], positive toward the bowling-hand side; its limits hold every line that
        arrow boards can give.
    arrow_board : float, optional
        Board that the launch line crosses at the arrows [board].

    Raises
    ------
    InputRefused
        A value outside its limits, or not exactly one of launch angle and arrow board.
    """

    laydown_board: float = quantity("laydown board", "", 1.0, 39.0)
    launch_deg: float | None = quantity("launch angle", "deg", -17.0, 17.0, None, optional=True)
    arrow_board: float | None = quantity("arrow board", "", 1.0, 39.0, None, optional=True)

    def __post_init__(self) -> None:
        super().__post_init__()
        if (self.launch_deg is None) == (self.arrow_board is None):
            given = "neither" if self.launch_deg is None else "both"
            raise errors.InputRefused(
                f"line has {given} of them: give either a launch angle from -17 to 17 deg or an "
                "arrow board from 1 to 39."
            )

    @property
    def angle_deg(self) -> float:
        """Launch angle [deg], positive toward the bowling-hand side."""
        if self.launch_deg is not None:
            return self.launch_deg
        assert self.arrow_board is not None
        across = (self.laydown_board - self.arrow_board) * BOARD_IN / 12.0
        return math.atan2(across, arrow_ft(self.arrow_board)) / units.DEGREE
