"""How sure a difference is: everything that nobody knows well, drawn at once over its range.

Each assumption is drawn evenly over its registered range, and the ball's turn at release over the
whole circle, with one seeded Sobol design (scipy.stats.qmc). A and B get the same draws, so that
what moves both alike does not widen their difference.
"""

from dataclasses import dataclass, fields, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.stats import qmc

from workbook import sources
from workbook.assumptions import Assumptions
from workbook.ball import COVERS
from workbook.lane import Lane
from workbook.line import Line
from workbook.rolling import Shots, roll_many
from workbook.setup import Setup

DRAWS = 32
LOW, HIGH = 10, 90  # percentiles of a band
NUMERICAL = ("slip_scale", "ring_film")  # how we calculate and draw, not how the world is
MOVED = tuple(f.name for f in fields(Assumptions) if f.name not in NUMERICAL)
OTHER_COVERS = {f"{part}_{cover}": cover for part in ("mu_dry", "absorbed") for cover in COVERS}


@dataclass(frozen=True)
class Range:
    """From the 10th to the 90th percentile, widened to hold the answer at our best values.

    Unit as the quantity's name says.
    """

    low: float
    high: float

    @property
    def decided(self) -> bool:
        """Whether zero lies outside."""
        return self.low > 0.0 or self.high < 0.0


def difference_ranges(
    a: Setup, b: Setup, lane: Lane, line: Line, *, draws: int = DRAWS
) -> dict[str, Range]:
    """Band of B minus A for each reported quantity of `Shot`.

    A quantity that more than a tenth of the draws do not have (a gutter ball, no roll) is left out.
    """
    one, two = (roll_many(_drawn(setup, draws), lane, line) for setup in (a, b))
    ranges = {}
    for name in Shots.__dataclass_fields__:
        difference = getattr(two, name) - getattr(one, name)
        there = difference[np.isfinite(difference)]
        if len(there) >= 0.9 * draws:
            # the first row is our best values: some of them stand at an end of their range, so
            # the answer that is shown may lie outside the middle of the draws
            low, high = np.percentile(there, (LOW, HIGH))
            best = there[0] if np.isfinite(difference[0]) else low
            ranges[name] = Range(float(min(low, best)), float(max(high, best)))
    return ranges


def _drawn(setup: Setup, draws: int) -> list[Setup]:
    """The setup with its assumptions and its turn at release drawn anew."""
    keys = [key for key in MOVED if OTHER_COVERS.get(key, setup.ball.cover) == setup.ball.cover]
    columns = [MOVED.index(key) for key in keys]
    ends = [sources.FACTS[key].range for key in keys]
    many = [setup]
    for row in _design(draws):
        values = {
            key: low + (high - low) * float(row[column])
            for key, column, (low, high) in zip(keys, columns, ends, strict=True)
        }
        turn = 360.0 * float(row[-1]) - 180.0
        many.append(
            replace(
                setup,
                bowler=replace(setup.bowler, release_phase_deg=turn),
                assumptions=replace(setup.assumptions, **values),
            )
        )
    return many


@lru_cache
def _design(draws: int) -> NDArray[np.float64]:
    """One column for each assumption and one for the turn at release, in 0 to 1."""
    design: NDArray[np.float64] = qmc.Sobol(len(MOVED) + 1, seed=1).random(draws)
    return design
