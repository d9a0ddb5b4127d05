"""How sure an equal grit is: everything that nobody knows well, drawn at once."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workbook import errors
from workbook.certainty import HIGH, LOW
from workbook.core import roll as kernel
from workbook.draws import Draw, draw
from workbook.equal_grit import FINE, LOOKS, Where, log_grits, match_grit, with_grits
from workbook.lane import Lane
from workbook.line import Line
from workbook.rolling import friction, record
from workbook.scatter import Scatter
from workbook.setup import Setup

Array = NDArray[np.float64]


@dataclass(frozen=True)
class GritBand:
    """The middle four fifths of equal grits.

    Parameters
    ----------
    draws : int
        How many there were.
    low, high : float or None
        The 10th and 90th percentile, widened to hold the answer at our best values [grit]; None
        where that end lies beyond 180 or 5000.
    without : int
        Draws without an answer between 180 and 5000.
    """

    draws: int
    low: float | None
    high: float | None
    without: int


def match_grit_band(
    a: Setup,
    b: Setup,
    quantity: str = "length_ft",
    lane: Lane | None = None,
    line: Line | None = None,
    *,
    draws: int = 64,
) -> GritBand:
    """How sure the equal grit is: one for each draw, the same draws for A and B.

    A draw in which B reads too early even at 5000 grit counts as finer than that, one in which it
    reads too late even at 180 as rougher. Between 17 grits the reading is taken to be straight in
    the grit's logarithm. Parameters and refusals as in `match_grit`.

    Raises
    ------
    InputRefused
        As in `match_grit`, or a number of draws outside 2 to 65536.
    """
    where = Where.of(a, b, quantity, lane, line)
    draws = errors.whole("number of draws", draws, 2, 65536)
    drawn_a, drawn_b = (draw(one, where.line, Scatter(), draws) for one in (a, b))
    wanted = where.read(_records(drawn_a, gutters=where.gutters), a.bowler.hand)
    places = log_grits(LOOKS[0])
    each = _records(drawn_b, gutters=where.gutters)
    table = np.concatenate(
        [
            with_grits(each[i : i + 1], one.thrower.assumptions, places)
            for i, one in enumerate(drawn_b)
        ]
    )
    values = where.read(table, b.bowler.hand).reshape(len(drawn_b), -1)
    own = math.log(b.surface.grit or FINE)
    best, *found = (_nearest(places, row, own) for row in values - wanted[:, None])
    exact = match_grit(a, b, quantity, lane, line).grit
    best = best if exact is None else math.log(exact)
    known = [place for place in found if not math.isnan(place)]
    low, high = np.percentile(known, (LOW, HIGH), method="nearest") if known else (best, best)
    # widened to hold the best, as all bands are: some best values stand at an end of their range
    ends = [
        math.exp(end) if math.isfinite(end) else None for end in (min(low, best), max(high, best))
    ]
    return GritBand(draws, ends[0], ends[1], sum(not math.isfinite(place) for place in found))


def _records(drawn: list[Draw], *, gutters: bool) -> NDArray[np.void]:
    return np.array(
        [
            record(one.body, one.thrower, one.line, friction(one.thrower), gutters=gutters)
            for one in drawn
        ],
        kernel.SHOT,
    )


def _nearest(places: Array, off: Array, own: float) -> float:
    """The crossing nearest to B's own surface; endless beyond the grits; NaN if none is known."""
    with np.errstate(invalid="ignore"):
        at = np.nonzero(off[:-1] * off[1:] <= 0.0)[0]
    if len(at):
        step = off[at + 1] - off[at]
        share = np.divide(-off[at], step, out=np.zeros(len(at)), where=step != 0.0)
        found = places[at] + share * (places[at + 1] - places[at])
        return float(found[np.argmin(np.abs(found - own))])
    there = off[np.isfinite(off)]
    if not len(there):
        return math.nan
    return math.inf if there[0] < 0.0 else -math.inf
