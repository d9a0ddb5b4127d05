"""Everything that nobody knows well about a shot, drawn at once with one seeded Sobol design.

Drawn evenly over its range: each assumption but the slip scale and the least film of a ring, which
say how we calculate and what we call a ring; the ball's turn at release; where the core's axes
really lie against pin and PSA mark, within the tolerances of the governing body; where the PAP
really lies, within what a measurement leaves. Drawn normally: the bowler's scatter from shot to
shot. The registry of sources has the ranges. That tolerances are filled evenly is an assumption.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri
from scipy.stats import qmc

from workbook import sources, units
from workbook.assumptions import Assumptions
from workbook.ball import COVERS
from workbook.bowler import Bowler
from workbook.core import sphere
from workbook.drilling import cut
from workbook.inputs import Inputs, limits
from workbook.line import Line
from workbook.rolling import Body
from workbook.scatter import Scatter
from workbook.setup import Setup

NUMERICAL = ("slip_scale", "ring_film")  # how we calculate and count, not how the world is
ASSUMED = tuple(f.name for f in fields(Assumptions) if f.name not in NUMERICAL)
OTHER_COVERS = {f"{part}_{cover}": cover for part in ("mu_dry", "absorbed") for cover in COVERS}
RELEASE = ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "axis_tilt_deg")
COLUMNS = (
    *ASSUMED, "turn", "pin_far", "pin_way", "psa_aside", "pap_far", "pap_way",
    *RELEASE, "laydown_board", "launch_deg",
)  # fmt: skip

Row = Mapping[str, float]


@dataclass(frozen=True, eq=False)
class Draw:
    """One way in which it could be.

    Parameters
    ----------
    thrower : Setup
        The setup with the bowler, PAP and assumptions drawn; its layout and grip as given.
    line : Line
        As thrown.
    mass_kg : float
        Of the drilled ball [kg].
    body : Body
        The ball as it would be, drilled where the marks of the setup say.
    """

    thrower: Setup
    line: Line
    mass_kg: float
    body: Body


def draw(
    setup: Setup, line: Line, scatter: Scatter, draws: int, known: tuple[str, ...] = ()
) -> list[Draw]:
    """The setup at its best values, then so many draws; any two setups get the same ones.

    What is drawn of the core stands against its own pin and PSA, so that one ball in two layouts is
    off in the same way in both. Assumptions that are `known` stay as the setup has them.
    """
    arc = units.arc_per_inch(setup.ball.circumference_in)
    marks = setup.drilled.marks
    pin, psa, cg = (
        sphere.point(over * arc, up * arc) for over, up in (marks.pin_in, marks.psa_in, marks.cg_in)
    )
    drawn = [_drawn(setup, line, (pin, psa), cg)]
    for row, bowler, assumed, thrown in zip(
        _rows(draws),
        _bowlers(setup.bowler, scatter, draws),
        assumptions_drawn(setup.assumptions, setup.ball.cover, draws, known),
        _lines(line, scatter, draws),
        strict=True,
    ):
        thrower = replace(setup, bowler=bowler, assumptions=assumed)
        drawn.append(_drawn(thrower, thrown, _core(pin, psa, row, arc), cg))
    return drawn


def _drawn(
    thrower: Setup, line: Line, core: tuple[sphere.Vector, sphere.Vector], cg: sphere.Vector
) -> Draw:
    assumed = thrower.assumptions
    total, c, inertia = cut(
        thrower.ball, thrower.grip, *core, assumed.kappa * cg,
        assumed.insert_density, assumed.filler_ratio,
    )  # fmt: skip
    return Draw(thrower, line, total, Body(thrower.ball.radius_m, inertia / total, c))


def _core(
    pin: sphere.Vector, psa: sphere.Vector, row: Row, arc: float
) -> tuple[sphere.Vector, sphere.Vector]:
    """Where the axes of the core could lie [unit vectors, square to each other]."""
    far, way = sources.value("pin_mark") * math.sqrt(row["pin_far"]), 2 * math.pi * row["pin_way"]
    ahead = math.cos(way) * psa + math.sin(way) * sphere.cross(pin, psa)
    low = sphere.go(pin, ahead, far * arc)
    # square to the low axis the high one cannot come nearer to its mark than this
    nearest = sphere.unit(psa - float(psa @ low) * low)
    least = sphere.angle(psa, nearest)
    most = math.sqrt((sources.value("psa_mark") * arc) ** 2 - least**2)
    aside = (2 * row["psa_aside"] - 1) * most
    return low, sphere.go(nearest, sphere.cross(low, nearest), aside)


# Bowlers, lines and assumptions are kept: a panel asks for the same ones at every layout.


@lru_cache(maxsize=8)
def assumptions_drawn(
    best: Assumptions, cover: str, draws: int, known: tuple[str, ...] = ()
) -> tuple[Assumptions, ...]:
    """So many ways in which the assumptions about a cover could be, evenly over their ranges."""
    keys = [key for key in ASSUMED if OTHER_COVERS.get(key, cover) == cover and key not in known]
    ends = {key: sources.FACTS[key].range for key in keys}
    return tuple(
        replace(best, **{key: low + (high - low) * row[key] for key, (low, high) in ends.items()})
        for row in _rows(draws)
    )


@lru_cache(maxsize=8)
def _bowlers(best: Bowler, scatter: Scatter, draws: int) -> tuple[Bowler, ...]:
    return tuple(_bowler(best, scatter, row) for row in _rows(draws))


def _bowler(best: Bowler, scatter: Scatter, row: Row) -> Bowler:
    far, way = sources.value("pap_error") * math.sqrt(row["pap_far"]), 2 * math.pi * row["pap_way"]
    moved = {name: getattr(scatter, name) * row[name] for name in RELEASE}
    moved |= {"pap_over_in": far * math.cos(way), "pap_up_in": far * math.sin(way)}
    values: dict[str, Any] = {
        name: _within(Bowler, name, getattr(best, name) + by) for name, by in moved.items()
    }
    return replace(best, release_phase_deg=360.0 * row["turn"] - 180.0, **values)


@lru_cache(maxsize=8)
def _lines(best: Line, scatter: Scatter, draws: int) -> tuple[Line, ...]:
    start, angle = best.laydown_board, best.angle_deg
    return tuple(
        Line(
            laydown_board=_within(
                Line, "laydown_board", start + scatter.laydown_board * row["laydown_board"]
            ),
            launch_deg=_within(Line, "launch_deg", angle + scatter.launch_deg * row["launch_deg"]),
        )
        for row in _rows(draws)
    )


def _within(record: type[Inputs], name: str, value: float) -> float:
    low, high, _ = limits(record, name)
    return min(max(value, low), high)


@lru_cache(maxsize=8)
def _rows(draws: int) -> tuple[Row, ...]:
    return tuple(dict(zip(COLUMNS, row.tolist(), strict=True)) for row in _design(draws))


def _design(draws: int) -> NDArray[np.float64]:
    """Even numbers from 0 to 1; standard normal ones in the columns of the scatter."""
    sobol = qmc.Sobol(len(COLUMNS), seed=1)  # comes in powers of two
    design: NDArray[np.float64] = sobol.random_base2((draws - 1).bit_length())[:draws]
    normal = [COLUMNS.index(name) for name in (*RELEASE, "laydown_board", "launch_deg")]
    design[:, normal] = ndtri(np.clip(design[:, normal], 1e-6, 1 - 1e-6))
    return design
