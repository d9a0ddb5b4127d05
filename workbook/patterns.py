"""Oil patterns of our own invention, as tables of units (61 feet x 39 boards).

Each is a profile across times a profile along. Real patterns hold 20 to 30 mL, and house shots have
8 to 20 times as much oil in the middle as outside (common practice); ours has 7 times as much at
the foul line. The numbers here are invented.
"""

import numpy as np
from numpy.typing import NDArray

from workbook import sources

FEET = np.arange(61.0)
BOARDS = np.arange(1.0, 40.0)
REFERENCE_UM = sources.value("reference_film")
Table = NDArray[np.float64]


def _across(outside: float, middle: float, edge: float, width: float) -> Table:
    """Units from `outside` to `middle`, half-way at board `edge` from either side."""
    inward = np.minimum(BOARDS, 40.0 - BOARDS)
    step = 1.0 / (1.0 + np.exp(-(inward - edge) / width))
    low, high = step.min(), step.max()
    units: Table = outside + (middle - outside) * (step - low) / (high - low)
    return units


def _along(length: float, last: float) -> Table:
    """Share of the film: from 1 at the foul line to `last` at `length` [ft], none a foot later."""
    share = 1.0 - (1.0 - last) * FEET / length
    return np.where(length >= FEET, share, 0.0)


def house() -> Table:
    """40 ft, 24 mL, about 28 units in the middle and 4 outside, falling by 75 % to the end."""
    return np.outer(_along(40.0, 0.25), _across(4.0, 28.0, 9.8, 1.2))


def flat() -> Table:
    """The house's length and volume, half again as much oil in the middle as outside."""
    return np.outer(_along(40.0, 0.25), _across(13.2, 19.75, 10.0, 2.0))


def heavy() -> Table:
    """46 ft, about 30 mL."""
    return np.outer(_along(46.0, 0.3), _across(6.0, 24.5, 8.2, 1.5))


def dry() -> Table:
    """34 ft, about 14 mL."""
    return np.outer(_along(34.0, 0.2), _across(3.0, 20.0, 9.8, 1.5))


def reference_um() -> Table:
    """Film in um: the same on all boards, about 25 mL, ending softly at 40 ft."""
    along = REFERENCE_UM / (1.0 + np.exp((FEET - 40.0) / 0.5))
    return np.repeat(along[:, None], len(BOARDS), axis=1)
