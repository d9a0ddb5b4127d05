"""Surface against layout: how far each lever moves one setup over its usual range."""

import warnings
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from workbook import errors
from workbook.certainty import HIGH, LOW
from workbook.core import roll as kernel
from workbook.draws import draw
from workbook.rating import REFERENCE, STRAIGHT
from workbook.rolling import Body, friction, record, roll_records, shots_from
from workbook.scatter import Scatter
from workbook.setup import Setup
from workbook.surface import Surface

Array = NDArray[np.float64]
READ = {"length_ft": "length_ft", "hook_boards": "total_hook_boards"}


@dataclass(frozen=True)
class Swing:
    """Greatest minus least of a quantity over a lever's range.

    Parameters
    ----------
    value : float
        At our best values [ft or board, as the quantity's name says].
    low, high : float or None
        10th and 90th percentile over everything that nobody knows well, widened to hold the value;
        None before any is drawn.
    """

    value: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Lever:
    """One thing that can be changed, and what that is worth on the reference lane.

    Parameters
    ----------
    name, range_words : str
        What, and from where to where.
    length_ft : Swing or None
        Of the length [ft]; None if a ball in the range has none.
    hook_boards : Swing
        Of the hook potential [board].
    """

    name: str
    range_words: str
    length_ft: Swing | None
    hook_boards: Swing


def lever_swings(setup: Setup, *, draws: int = 0) -> tuple[Lever, ...]:
    """Move one lever at a time over its usual range, all else as in the setup.

    Ranges are what a shop usually offers (common practice, no source): grit 500 to 5000 and polish,
    pin-to-PAP 2 to 6 in, VAL angle 20 to 80 deg, drilling angle 10 to 90 deg, and as another ball
    low RG 2.47 to 2.60 in and 13 to 16 lb, at equal speed and revs.

    Parameters
    ----------
    setup : Setup
    draws : int
        For the bands: how many ways in which it could be, the same along each range; 0 for none.

    Raises
    ------
    InputRefused
        Not a `Setup`, or a number of draws that is neither 0 nor from 2 to 65536.
    """
    errors.instance("setup", setup, Setup)
    if draws != 0:
        draws = errors.whole("number of draws", draws, 2, 65536)
    ranges = _ranges(setup)
    steps = [step for _name, _words, steps in ranges for step in steps]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", errors.LegalLimit)  # these are steps, not balls to drill
        values = _rated(steps, draws)
    found, first = [], 0
    for name, words, own in ranges:
        part = {key: column[first : first + len(own)] for key, column in values.items()}
        first += len(own)
        swings = {key: _swing(column) for key, column in part.items()}
        hook = swings["hook_boards"]
        assert hook is not None  # without gutters every ball reaches the pins
        found.append(Lever(name, words, swings["length_ft"], hook))
    return tuple(found)


def _ranges(setup: Setup) -> list[tuple[str, str, list[Setup]]]:
    layout, ball = setup.layout, setup.ball
    grits = [Surface(grit=grit) for grit in (500.0, 1000.0, 2000.0, 5000.0)]
    covers = [*grits, Surface(polished=True)]
    return [
        ("surface", "500 grit to polish", [replace(setup, surface=one) for one in covers]),
        ("pin-to-PAP", "2 to 6 in", [
            replace(setup, layout=replace(layout, pin_to_pap_in=at)) for at in range(2, 7)
        ]),
        ("VAL angle", "20 to 80°", [
            replace(setup, layout=replace(layout, val_angle_deg=at)) for at in range(20, 81, 15)
        ]),
        ("drilling angle", "10 to 90°", [
            replace(setup, layout=replace(layout, drilling_angle_deg=at))
            for at in range(10, 91, 20)
        ]),
        ("other ball: RG", "2.47 to 2.60 in", [
            replace(setup, ball=replace(ball, rg_low_in=rg)) for rg in (2.47, 2.535, 2.60)
        ]),
        ("other ball: weight", "13 to 16 lb", [
            replace(setup, ball=replace(ball, weight_lb=pounds)) for pounds in (13.0, 14.5, 16.0)
        ]),
    ]  # fmt: skip


def _rated(steps: Sequence[Setup], draws: int) -> dict[str, Array]:
    """Length and hook of each step (rows), at best values and as drawn (columns)."""
    records = []
    for step in steps:
        if draws:
            drawn = draw(step, STRAIGHT, Scatter(), draws)
            parts = [(one.body, one.thrower) for one in drawn]
        else:
            parts = [(Body.laid_out(step, step.layout)[0], step)]
        records += [
            record(body, thrower, STRAIGHT, friction(thrower), gutters=False)
            for body, thrower in parts
        ]
    shots = np.array(records, kernel.SHOT)
    rated = shots_from(roll_records(shots, REFERENCE, steps[0].bowler.hand), shots)
    return {key: getattr(rated, name).reshape(len(steps), -1) for key, name in READ.items()}


def _swing(values: Array) -> Swing | None:
    """From the least to the greatest down each column."""
    each = values.max(axis=0) - values.min(axis=0)
    if np.isnan(each[0]):
        return None
    best, drawn = float(each[0]), each[1:][np.isfinite(each[1:])]
    if not len(drawn):
        return Swing(best)
    low, high = np.percentile(drawn, (LOW, HIGH))
    return Swing(best, min(float(low), best), max(float(high), best))
