"""The grit that makes one setup read where another does."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from workbook import errors, units
from workbook.assumptions import Assumptions
from workbook.comparison import USUAL_LINE
from workbook.core import roll as kernel
from workbook.inputs import limits
from workbook.lane import Lane
from workbook.line import Line
from workbook.rating import REFERENCE, STRAIGHT
from workbook.rolling import Body, friction, record, roll_records, shots_from
from workbook.setup import Setup
from workbook.surface import Surface

QUANTITIES = ("length_ft", "breakpoint_ft")
CLOSE_FT = 0.05
NEAR = 1e-7  # of the logarithm of a grit, to which an answer is worked out
LOOKS = (17, 65)  # grits looked over, the many only where the few show no answer
ROUGH, FINE = limits(Surface, "grit")[:2]

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Leap:
    """A grit at which B's reading leaps over the wanted one, so that no grit gives it.

    The length leaps where the slip stops falling for a stretch with half of it left, the breakpoint
    where two places of the path lie equally far out.

    Parameters
    ----------
    grit : float
        Where it leaps [grit].
    below_ft, above_ft : float
        B's readings on both sides of it [ft].
    """

    grit: float
    below_ft: float
    above_ft: float


@dataclass(frozen=True)
class EqualGrit:
    """A grit for B, or that there is none.

    Parameters
    ----------
    quantity : {"length_ft", "breakpoint_ft"}
        What is made equal.
    grit : float or None
        Grit at which B reads where A does; None if no grit from 180 to 5000 does it [grit].
    wanted_ft : float
        Where A reads [ft].
    found_ft : float or None
        Where B reads with that grit, within 0.05 of the wanted [ft].
    least_ft, most_ft : float or None
        What B can do over all grits [ft]; None if it never has the quantity.
    own_ft, polished_ft : float or None
        Where B reads with its own surface, and polished [ft].
    others : tuple of float
        More grits that do it too, where the answer is not the only one [grit].
    leap : Leap or None
        Where there is none because B's reading leaps over the wanted one.
    """

    quantity: str
    grit: float | None
    wanted_ft: float
    found_ft: float | None
    least_ft: float | None
    most_ft: float | None
    own_ft: float | None
    polished_ft: float | None
    others: tuple[float, ...] = ()
    leap: Leap | None = None


def match_grit(
    a: Setup,
    b: Setup,
    quantity: str = "length_ft",
    lane: Lane | None = None,
    line: Line | None = None,
) -> EqualGrit:
    """Find the grit with which B reads where A does, by surface alone.

    Grits from 180 to 5000 are looked over first, evenly in their logarithm, so that several answers
    are found where there are several; the one nearest to B's own surface is taken.

    Parameters
    ----------
    a, b : Setup
    quantity : {"length_ft", "breakpoint_ft"}
        Where half of the release slip has gone, or the distance of the breakpoint.
    lane : Lane, optional
        For the length the reference lane by default, where a ball needs no line; else the house
        lane.
    line : Line, optional
        The usual line by default.

    Raises
    ------
    InputRefused
        Something that is not what its name says, or A does not have the quantity.

    Examples
    --------
    >>> from workbook import demo
    >>> found = match_grit(*demo.pin_up_and_down())
    >>> found.grit is not None and abs(found.found_ft - found.wanted_ft) < 0.05
    True
    """
    where = Where.of(a, b, quantity, lane, line)
    wanted = float(where.read(where.records([a]), a.bowler.hand)[0])
    if math.isnan(wanted):
        words = quantity.removesuffix("_ft")
        raise errors.InputRefused(f"{words} of A is missing on the {where.lane.name} lane.")
    one = where.records([b])

    def off(places: Array) -> Array:
        return where.read(with_grits(one, b.assumptions, places), b.bowler.hand) - wanted

    answers: list[float] = []
    leaps: list[float] = []
    for looks in LOOKS:
        places = log_grits(looks)
        values = off(places)
        answers, leaps = _crossings(places, values, off)
        if answers or leaps:
            break
    there = values[np.isfinite(values)] + wanted
    ends = (float(there.min()), float(there.max())) if len(there) else (None, None)
    others = where.records([b, replace(b, surface=Surface(polished=True))])
    as_is, polished = where.read(others, b.bowler.hand).tolist()
    own = math.log(b.surface.grit or FINE)
    answers.sort(key=lambda place: abs(place - own))
    return EqualGrit(
        quantity=quantity,
        grit=_grit(answers[0]) if answers else None,
        wanted_ft=wanted,
        found_ft=float(off(np.array(answers[:1]))[0]) + wanted if answers else None,
        least_ft=ends[0],
        most_ft=ends[1],
        own_ft=None if math.isnan(as_is) else as_is,
        polished_ft=None if math.isnan(polished) else polished,
        others=tuple(_grit(place) for place in answers[1:]),
        leap=_leap(leaps[0], off, wanted) if leaps and not answers else None,
    )


def _crossings(
    places: Array, values: Array, off: Callable[[Array], Array]
) -> tuple[list[float], list[float]]:
    """Where the reading passes the wanted one: places that give it, and places of a leap."""
    answers, leaps = [], []
    for i in range(len(places) - 1):
        before, after = values[i : i + 2].tolist()
        first = i == 0 and before == 0.0
        if not (first or before < 0.0 <= after or after < 0.0 <= before or before == after == 0.0):
            continue

        def of_one(place: float, instead: float = before) -> float:
            value = float(off(np.array([place]))[0])
            return instead if math.isnan(value) else value

        place = float(brentq(of_one, *places[i : i + 2], xtol=NEAR))
        beside = off(np.array([place, place - 2 * NEAR, place + 2 * NEAR]))
        if abs(beside[0]) <= CLOSE_FT:
            answers.append(place)
        elif np.isfinite(beside).all():
            leaps.append(place)
    return answers, leaps


def _leap(place: float, off: Callable[[Array], Array], wanted: float) -> Leap:
    beside = off(np.array([place - 2 * NEAR, place + 2 * NEAR])) + wanted
    return Leap(_grit(place), float(beside.min()), float(beside.max()))


@dataclass(frozen=True)
class Where:
    """Where a quantity is read: the lane, the line, and whether there are gutters."""

    quantity: str
    lane: Lane
    line: Line
    gutters: bool

    @classmethod
    def of(
        cls, a: object, b: object, quantity: str, lane: Lane | None, line: Line | None
    ) -> "Where":
        """Checked, and with the lane and line that are meant where none are given."""
        for words, given in (("setup A", a), ("setup B", b)):
            errors.instance(words, given, Setup)
        errors.choice("quantity", quantity, QUANTITIES)
        if quantity == "length_ft" and lane is None and line is None:
            return cls(quantity, REFERENCE, STRAIGHT, False)
        lane = Lane.house() if lane is None else lane
        line = USUAL_LINE if line is None else line
        for words, given, kind in (("lane", lane, Lane), ("line", line, Line)):
            errors.instance(words, given, kind)
        return cls(quantity, lane, line, True)

    def records(self, setups: Sequence[Setup]) -> NDArray[np.void]:
        """The kernel's records of setups as they stand."""
        return np.array(
            [
                record(Body.of(one), one, self.line, friction(one), gutters=self.gutters)
                for one in setups
            ],
            kernel.SHOT,
        )

    def read(self, records: NDArray[np.void], hand: str) -> Array:
        """The quantity of each [ft]; NaN where there is none."""
        shots = shots_from(roll_records(records, self.lane, hand), records)
        if self.quantity == "length_ft":
            return shots.length_ft
        gone = shots.breakpoint_ft >= shots.gutter_ft - 1.0  # straight into it: `Shot.turns_back`
        values: Array = np.where(gone, np.nan, shots.breakpoint_ft)
        return values


def log_grits(count: int) -> Array:
    """Places from grit 180 to 5000, evenly in the logarithm."""
    return np.linspace(math.log(ROUGH), math.log(FINE), count)


def with_grits(one: NDArray[np.void], assumed: Assumptions, places: Array) -> NDArray[np.void]:
    """The record of one shot with each of the grits: only the roughness differs."""
    records = np.repeat(one, len(places))
    records["roughness_scale"] = [
        assumed.film_ratio
        * Surface(grit=_grit(place)).combined_roughness_um(assumed)
        * units.MICROMETRE
        for place in places.tolist()
    ]
    return records


def _grit(place: float) -> float:
    return min(max(math.exp(place), ROUGH), FINE)
