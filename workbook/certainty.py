"""How sure a difference is: what each assumption, moved alone over its range, does to it.

This is a first, cheap answer: one assumption at a time, and the ball's phase at release, which
nobody measures. The true spread, with all of them at once, is wider.
"""

from dataclasses import dataclass, replace

import numpy as np

from workbook import sources
from workbook.ball import COVERS
from workbook.lane import Lane
from workbook.line import Line
from workbook.rolling import Shots, roll_many
from workbook.setup import Setup

PHASES_DEG = tuple(float(phase) for phase in range(-180, 180, 30))
COVER_KEYS = tuple(f"{part}_{cover}" for part in ("mu_dry", "absorbed") for cover in COVERS)
MOVED = (
    *COVER_KEYS, "mu_oil", "kept", "track_width", "film_cap", "film_ratio", "lane_roughness",
    "ra_at_2000", "ra_exponent", "ra_polished", "kappa", "insert_density",
)  # fmt: skip


@dataclass(frozen=True)
class Range:
    """Least and greatest value; unit as the quantity's name says."""

    low: float
    high: float

    @property
    def decided(self) -> bool:
        """Whether every value has the same sign."""
        return self.low > 0.0 or self.high < 0.0


def difference_ranges(a: Setup, b: Setup, lane: Lane, line: Line) -> dict[str, Range]:
    """Range of B minus A for each reported quantity, the same thing moved in both.

    A quantity that some of the shots do not have (a gutter ball, no roll) is left out.
    """
    covers = {a.ball.cover, b.ball.cover}
    keys = [key for key in MOVED if key not in COVER_KEYS or key.rsplit("_", 1)[1] in covers]
    one, two = (roll_many(_what_ifs(setup, keys), lane, line) for setup in (a, b))
    ranges = {}
    for name in Shots.__dataclass_fields__:
        difference = getattr(two, name) - getattr(one, name)
        if np.all(np.isfinite(difference)):
            ranges[name] = Range(float(difference.min()), float(difference.max()))
    return ranges


def _what_ifs(setup: Setup, keys: list[str]) -> list[Setup]:
    """The setup as it is, turned otherwise at release, and with each assumption at its ends."""
    turned = [
        replace(setup, bowler=replace(setup.bowler, release_phase_deg=phase))
        for phase in PHASES_DEG
    ]
    moved = [
        replace(setup, assumptions=replace(setup.assumptions, **{key: end}))
        for key in keys
        for end in sources.FACTS[key].range
    ]
    return [setup, *turned, *moved]
