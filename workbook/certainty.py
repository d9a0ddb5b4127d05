"""How sure an answer is: the band of each quantity of two setups, and of their difference."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workbook import errors, sources, units
from workbook.comparison import RATED, USUAL_LINE
from workbook.core import roll as kernel
from workbook.draws import Draw, draw
from workbook.drilling import static_balance
from workbook.lane import Lane
from workbook.line import Line, board_at
from workbook.rating import REFERENCE, STRAIGHT
from workbook.rolling import Shots, friction, record, roll_records, shots_from
from workbook.scatter import Scatter
from workbook.setup import Setup

DRAWS = 256
LOW, HIGH = 10, 90  # percentiles of a band
FEET = 1 + round(sources.value("lane_length"))

Array = NDArray[np.float64]


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


@dataclass(frozen=True, eq=False)
class Bands:
    """The middle four fifths of what could be, for two setups and for their difference.

    Quantities are those of `Shot` ("total_hook_boards", "roll_ft", ...), of `Drilled` with its
    static balance ("differential_in", "side_oz", ...), and the rating on the reference lane
    ("hook_potential_boards", "rated_length_ft"); one that more than a tenth of the draws do not
    have (a gutter ball, no roll) is left out.

    Parameters
    ----------
    draws : int
        How many there were.
    a, b : dict of str to Range
        Of each setup.
    difference : dict of str to Range
        B minus A, draw by draw: what moves both alike does not widen it.
    missing : dict of str to int
        Draws in which A or B does not have the quantity, where there are any.
    path_a, path_b : array (2, 61)
        Least and greatest board at every whole foot from the foul line [board]; a ball in the
        gutter stays there.
    """

    draws: int
    a: dict[str, Range]
    b: dict[str, Range]
    difference: dict[str, Range]
    missing: dict[str, int]
    path_a: Array
    path_b: Array


def bands(
    a: Setup,
    b: Setup,
    lane: Lane | None = None,
    line: Line | None = None,
    *,
    draws: int = DRAWS,
    scatter: Scatter | None = None,
) -> Bands:
    """How sure two shots and their difference are.

    Everything that nobody knows well is drawn at once over its range, and the same draws serve both
    setups (see `workbook.draws`).

    Parameters
    ----------
    a, b : Setup
    lane : Lane, optional
        The house lane by default.
    line : Line, optional
        The usual line by default; aimed at, and thrown with the bowler's scatter.
    draws : int
        How many; a power of two fills the ranges best.
    scatter : Scatter, optional
        The bowler's own; assumptions by default.

    Raises
    ------
    InputRefused
        Something that is not what its name says.

    Examples
    --------
    >>> from workbook import demo
    >>> found = bands(*demo.pin_up_and_down())
    >>> hook = found.difference["total_hook_boards"]  # B minus A
    >>> hook.low < 0 < hook.high, hook.decided
    (True, False)
    """
    lane = Lane.house() if lane is None else lane
    line = USUAL_LINE if line is None else line
    scatter = Scatter() if scatter is None else scatter
    for words, given, kind in (
        ("setup A", a, Setup), ("setup B", b, Setup), ("lane", lane, Lane), ("line", line, Line),
        ("scatter", scatter, Scatter),
    ):  # fmt: skip
        errors.instance(words, given, kind)
    draws = errors.whole("number of draws", draws, 2, 65536)
    one, two = (_Drawn.of(draw(setup, line, scatter, draws), lane) for setup in (a, b))
    difference = {key: two.columns[key] - column for key, column in one.columns.items()}
    return Bands(
        draws=draws,
        a=_ranges(one.columns),
        b=_ranges(two.columns),
        difference=_ranges(difference),
        missing={key: lost for key, column in difference.items() if (lost := _lost(column))},
        path_a=one.path,
        path_b=two.path,
    )


def drilled_bands(
    setup: Setup, *, draws: int = DRAWS, known: tuple[str, ...] = ()
) -> dict[str, Range]:
    """How sure one drilled ball is, and its flare and rating on the reference lane.

    Quantities of `Drilled` as in `Bands`, "weight_oz" and "psa_moved_deg", "flare_in" on the
    reference lane, and the rating. What is `known` of the assumptions, by name, is as the setup has
    it: a scale that has been calibrated has its own kappa.

    Raises
    ------
    InputRefused
        Not a `Setup`, or a number of draws outside 2 to 65536.
    """
    errors.instance("setup", setup, Setup)
    draws = errors.whole("number of draws", draws, 2, 65536)
    drawn = draw(setup, USUAL_LINE, Scatter(), draws, known)
    rating, balls = _rated(drawn), _of_balls(drawn)
    psa = setup.layout.directions(setup.bowler.pap, setup.ball)[1]
    off = [abs(float(one.body.principal[1][2] @ psa)) for one in drawn]
    balls |= {
        "weight_oz": balls["weight_lb"] * units.POUND / units.OUNCE,
        "psa_moved_deg": np.degrees(np.arccos(np.minimum(off, 1.0))),
    }
    return _ranges(balls | _named(rating) | {"flare_in": rating.flare_in})


@dataclass(frozen=True, eq=False)
class _Drawn:
    """A column for each quantity, the best values in its first row; and the band of the path."""

    columns: dict[str, Array]
    path: Array

    @classmethod
    def of(cls, drawn: list[Draw], lane: Lane) -> "_Drawn":
        hand, tracks = drawn[0].thrower.bowler.hand, np.empty((len(drawn), FEET))
        shots = _records(drawn, [one.line for one in drawn], gutters=True)
        results = roll_records(shots, lane, hand, tracks=tracks)
        boards = board_at(tracks)
        path = np.percentile(boards[1:], (LOW, HIGH), axis=0)
        path[0], path[1] = np.minimum(path[0], boards[0]), np.maximum(path[1], boards[0])
        columns = vars(shots_from(results, shots)) | _of_balls(drawn)
        return cls(columns | _named(_rated(drawn)), path)


def _rated(drawn: list[Draw]) -> Shots:
    """On the reference lane."""
    records = _records(drawn, [STRAIGHT] * len(drawn), gutters=False)
    return shots_from(roll_records(records, REFERENCE, drawn[0].thrower.bowler.hand), records)


def _named(rating: Shots) -> dict[str, Array]:
    """The rating's quantities by the names that a comparison gives them."""
    return {name: getattr(rating, quantity) for name, quantity in RATED.items()}


def _lost(column: Array) -> int:
    return int(np.isnan(column[1:]).sum())


def _records(drawn: list[Draw], lines: list[Line], *, gutters: bool) -> NDArray[np.void]:
    return np.array(
        [
            record(one.body, one.thrower, line, friction(one.thrower), gutters=gutters)
            for one, line in zip(drawn, lines, strict=True)
        ],
        kernel.SHOT,
    )


def _of_balls(drawn: list[Draw]) -> dict[str, Array]:
    moments = np.array([one.body.principal[0] for one in drawn])
    low, middle, high = np.sqrt(moments).T / units.INCH
    balance = [
        static_balance(one.body.c, one.mass_kg, one.body.radius, one.thrower.assumptions.kappa)
        for one in drawn
    ]
    return {
        "weight_lb": np.array([one.mass_kg for one in drawn]) / units.POUND,
        "rg_low_in": low,
        "rg_intermediate_in": middle,
        "rg_high_in": high,
        "differential_in": high - low,
        "intermediate_in": high - middle,
        "top_oz": np.array([one.top_oz for one in balance]),
        "side_oz": np.array([one.side_oz for one in balance]),
        "finger_oz": np.array([one.finger_oz for one in balance]),
    }


def _ranges(columns: dict[str, Array]) -> dict[str, Range]:
    ranges = {}
    for name, column in columns.items():
        there = column[1:][np.isfinite(column[1:])]
        if len(there) >= 0.9 * (len(column) - 1):
            # some best values stand at an end of their range, so that the answer that is shown may
            # lie outside the middle of the draws
            low, high = np.percentile(there, (LOW, HIGH))
            best = column[0] if np.isfinite(column[0]) else low
            ranges[name] = Range(float(min(low, best)), float(max(high, best)))
    return ranges
