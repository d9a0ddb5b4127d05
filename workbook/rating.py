"""The two headline numbers of a setup, on the reference lane so that they do not need a line."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from workbook.core import roll as kernel
from workbook.lane import Lane
from workbook.line import MIDDLE_BOARD, Line
from workbook.rolling import Body, Shots, friction, record, roll, roll_records, shots_from
from workbook.setup import Setup

STRAIGHT = Line(laydown_board=MIDDLE_BOARD, launch_deg=0.0)
REFERENCE = Lane.reference()


@dataclass(frozen=True)
class Rating:
    """What a setup does on the reference lane (the same film on all boards, no gutters).

    Parameters
    ----------
    hook_potential_boards : float
        Total hook [board].
    length_ft : float or None
        Distance at which half of the release slip has gone [ft]; None for a release that already
        rolls, or a ball that slides all the way.
    """

    hook_potential_boards: float
    length_ft: float | None


def rate(setup: Setup) -> Rating:
    """Rate a setup.

    Raises
    ------
    InputRefused
        Not a `Setup`.
    """
    shot = roll(setup, REFERENCE, STRAIGHT, gutters=False)
    assert shot.total_hook_boards is not None  # without gutters every ball reaches the pins
    return Rating(shot.total_hook_boards, shot.length_ft)


def rate_bodies(thrower: Setup, bodies: Sequence[Body]) -> Shots:
    """Throw bodies on the reference lane with the release, grip and surface of one setup."""
    surface = friction(thrower)
    records = np.array(
        [record(body, thrower, STRAIGHT, surface, gutters=False) for body in bodies], kernel.SHOT
    )
    return shots_from(roll_records(records, REFERENCE, thrower.bowler.hand), records)
