"""Two setups side by side on one lane, and which of their differences causes what.

The causes are Shapley shares: groups of properties are swapped from A to B one by one, in every
order, and each group gets its mean effect over the orders (L. S. Shapley, A value for n-person
games, Contributions to the Theory of Games II, 1953). The shares add up to the difference.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy as np

from workbook import errors
from workbook.core import roll as kernel
from workbook.lane import Lane
from workbook.line import Line
from workbook.rating import REFERENCE, STRAIGHT, Rating, rate
from workbook.rolling import Body, Shot, Shots, friction, record, roll, roll_records, shots_from
from workbook.setup import Setup
from workbook.shares import shapley

CAUSES = ("RG", "flare", "static balance", "cover and surface", "release")
SHOT_QUANTITIES = (
    "entry_board", "entry_angle_deg", "entry_speed_mph", "total_hook_boards", "breakpoint_board",
    "breakpoint_ft", "length_ft", "roll_ft", "sharpness_deg", "flare_in",
)  # fmt: skip
RATED = {"hook_potential_boards": "total_hook_boards", "rated_length_ft": "length_ft"}


@dataclass(frozen=True, eq=False)
class Comparison:
    """Setups A and B on one lane and line.

    Parameters
    ----------
    a, b : Setup
    lane : Lane
    line : Line
    shot_a, shot_b : Shot
    rating_a, rating_b : Rating
    """

    a: Setup
    b: Setup
    lane: Lane
    line: Line
    shot_a: Shot
    shot_b: Shot
    rating_a: Rating
    rating_b: Rating

    @cached_property
    def shares(self) -> dict[str, dict[str, float]]:
        """Per quantity and cause, how much of "B minus A" it brings, worked out when asked for.

        The unit ends the quantity's name. Only causes that differ are listed; a quantity that some
        mixture of A and B does not have (a gutter ball, no roll) is left out.
        """
        return shares(self.a, self.b, self.lane, self.line)


def compare(a: Setup, b: Setup, lane: Lane | None = None, line: Line | None = None) -> Comparison:
    """Roll two setups from the same spot and say why they differ.

    Parameters
    ----------
    a, b : Setup
        Of the same hand.
    lane : Lane, optional
        The house lane by default.
    line : Line, optional
        `USUAL_LINE` by default.

    Raises
    ------
    InputRefused
        Something that is not what its name says, or bowlers of different hands.
    """
    lane = Lane.house() if lane is None else lane
    line = USUAL_LINE if line is None else line
    errors.instance("setup", a, Setup)
    errors.instance("setup", b, Setup)
    if a.bowler.hand != b.bowler.hand:
        raise errors.InputRefused(
            f"hand of B must be {a.bowler.hand} like that of A, not {b.bowler.hand}: "
            "the shots are compared from the same spot."
        )
    shots = roll(a, lane, line), roll(b, lane, line)
    return Comparison(a, b, lane, line, *shots, rate(a), rate(b))


USUAL_LINE = Line(laydown_board=25.0, arrow_board=17.0)


def shares(a: Setup, b: Setup, lane: Lane, line: Line) -> dict[str, dict[str, float]]:
    """Shapley shares of the causes in each reported difference (see `Comparison`)."""
    causes = [c for c, differs in zip(CAUSES, _differences(a, b), strict=True) if differs]
    mixtures = list(product((False, True), repeat=len(causes)))
    here = _roll_mixtures(a, b, causes, mixtures, lane, line, gutters=True)
    rated = _roll_mixtures(a, b, causes, mixtures, REFERENCE, STRAIGHT, gutters=False)
    values = {q: getattr(here, q) for q in SHOT_QUANTITIES}
    values |= {name: getattr(rated, q) for name, q in RATED.items()}
    result = {}
    for quantity, worth in values.items():
        if np.all(np.isfinite(worth)):
            table = dict(zip(mixtures, worth.tolist(), strict=True))
            result[quantity] = {c: shapley(table, i) for i, c in enumerate(causes)}
    return result


def _differences(a: Setup, b: Setup) -> tuple[bool, ...]:
    one, two = Body.of(a), Body.of(b)
    mean_a, deviator_a = _split(one)
    mean_b, deviator_b = _split(two)
    alike = 1e-9 * mean_a  # far below anything that moves a ball, above rounding
    return (
        abs(mean_a - mean_b) > alike or one.radius != two.radius,
        bool(np.max(np.abs(deviator_a - deviator_b)) > alike),
        bool(np.max(np.abs(one.c - two.c)) > 1e-9),
        friction(a) != friction(b),
        _release(a) != _release(b),
    )


def _release(setup: Setup) -> tuple[object, ...]:
    fingers = setup.grip.fingers(setup.ball.circumference_in)
    return setup.bowler, tuple(fingers.tolist())


def _split(body: Body) -> tuple[float, np.ndarray[tuple[int, int], np.dtype[np.float64]]]:
    """Isotropic mean of the inertia per mass, and what is left (its deviator, with its axes)."""
    mean = float(np.trace(body.inertia)) / 3.0
    return mean, body.inertia - mean * np.eye(3)


def _roll_mixtures(
    a: Setup,
    b: Setup,
    causes: list[str],
    mixtures: list[tuple[bool, ...]],
    lane: Lane,
    line: Line,
    *,
    gutters: bool,
) -> Shots:
    """Roll every mixture of A and B: for each cause, True takes it from B."""
    setups = (a, b)
    bodies = (Body.of(a), Body.of(b))
    split = (_split(bodies[0]), _split(bodies[1]))
    records = np.empty(len(mixtures), kernel.SHOT)
    for i, mixture in enumerate(mixtures):
        of_b = dict(zip(causes, mixture, strict=True))
        rg, flare, balance, surface, thrown = (int(of_b.get(c, False)) for c in CAUSES)
        body = Body(
            bodies[rg].radius, split[rg][0] * np.eye(3) + split[flare][1], bodies[balance].c
        )
        records[i] = record(body, setups[thrown], line, friction(setups[surface]), gutters=gutters)
    return shots_from(roll_records(records, lane, a.bowler.hand), records)
