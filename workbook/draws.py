"""Everything that nobody knows well about a shot, drawn at once with one seeded Sobol design.

Drawn evenly over its range: each assumption; the ball's turn at release; where the core's axes
really lie against pin and PSA mark, within the tolerances of the governing body; where the PAP
really lies, within what a measurement leaves. Drawn normally: the bowler's scatter from shot to
shot. The registry of sources has the ranges. That tolerances are filled evenly is an assumption.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from functools import lru_cache

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

NUMERICAL = ("slip_scale", "ring_film")  # how we calculate and draw, not how the world is
ASSUMED = tuple(f.name for f in fields(Assumptions) if f.name not in NUMERICAL)
OTHER_COVERS = {f"{part}_{cover}": cover for part in ("mu_dry", "absorbed") for cover in COVERS}
RELEASE = ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "axis_tilt_deg")
COLUMNS = (
    *ASSUMED, "turn", "pin_far", "pin_way", "psa_far", "psa_way", "pap_far", "pap_way",
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


def draw(setup: Setup, line: Line, scatter: Scatter, draws: int) -> list[Draw]:
    """The setup at its best values, then so many draws; any two setups get the same ones.

    What is drawn of the core stands against its own pin and PSA, so that one ball in two layouts is
    off in the same way in both.
    """
    return [_drawn(setup, line, scatter, None)] + [
        _drawn(setup, line, scatter, row) for row in _rows(draws)
    ]


def _drawn(setup: Setup, line: Line, scatter: Scatter, row: Row | None) -> Draw:
    arc = units.arc_per_inch(setup.ball.circumference_in)
    marks = setup.drilled.marks
    pin, psa, cg = (
        sphere.point(over * arc, up * arc) for over, up in (marks.pin_in, marks.psa_in, marks.cg_in)
    )
    thrower = setup
    if row is not None:
        pin, psa = _core(pin, psa, row, arc)
        thrower = replace(
            setup,
            bowler=_release(setup.bowler, scatter, row),
            assumptions=replace(setup.assumptions, **_assumed(setup.ball.cover, row)),
        )
        line = _thrown(line, scatter, row)
    assumed = thrower.assumptions
    total, c, inertia = cut(
        setup.ball, setup.grip, pin, psa, assumed.kappa * cg,
        assumed.insert_density, assumed.filler_ratio,
    )  # fmt: skip
    return Draw(thrower, line, total, Body(setup.ball.radius_m, inertia / total, c))


def _core(
    pin: sphere.Vector, psa: sphere.Vector, row: Row, arc: float
) -> tuple[sphere.Vector, sphere.Vector]:
    """Where the axes of the core could lie [unit vectors, square to each other]."""
    third = sphere.cross(pin, psa)
    low = _off(pin, psa, third, sources.value("pin_mark") * arc, row["pin_far"], row["pin_way"])
    high = _off(psa, -pin, third, sources.value("psa_mark") * arc, row["psa_far"], row["psa_way"])
    return low, sphere.unit(high - float(high @ low) * low)


def _off(
    p: sphere.Vector,
    ahead: sphere.Vector,
    aside: sphere.Vector,
    most: float,
    far: float,
    way: float,
) -> sphere.Vector:
    """A point within `most` [rad] of `p`, evenly spread over that cap when far and way are."""
    angle = 2 * math.pi * way
    return sphere.go(p, math.cos(angle) * ahead + math.sin(angle) * aside, most * math.sqrt(far))


def _assumed(cover: str, row: Row) -> dict[str, float]:
    values = {}
    for key in ASSUMED:
        if OTHER_COVERS.get(key, cover) == cover:
            low, high = sources.FACTS[key].range
            values[key] = low + (high - low) * row[key]
    return values


def _release(bowler: Bowler, scatter: Scatter, row: Row) -> Bowler:
    values = {
        name: _within(Bowler, name, getattr(bowler, name) + getattr(scatter, name) * row[name])
        for name in RELEASE
    }
    far, way = sources.value("pap_error") * math.sqrt(row["pap_far"]), 2 * math.pi * row["pap_way"]
    return replace(
        bowler,
        release_phase_deg=360.0 * row["turn"] - 180.0,
        pap_over_in=_within(Bowler, "pap_over_in", bowler.pap_over_in + far * math.cos(way)),
        pap_up_in=_within(Bowler, "pap_up_in", bowler.pap_up_in + far * math.sin(way)),
        **values,  # type: ignore[arg-type]
    )


def _thrown(line: Line, scatter: Scatter, row: Row) -> Line:
    values = {
        "laydown_board": line.laydown_board + scatter.laydown_board * row["laydown_board"],
        "launch_deg": line.angle_deg + scatter.launch_deg * row["launch_deg"],
    }
    return Line(**{name: _within(Line, name, value) for name, value in values.items()})


def _within(record: type[Inputs], name: str, value: float) -> float:
    low, high, _ = limits(record, name)
    return min(max(value, low), high)


def _rows(draws: int) -> Iterator[Row]:
    for row in _design(draws):
        yield dict(zip(COLUMNS, row.tolist(), strict=True))


@lru_cache
def _design(draws: int) -> NDArray[np.float64]:
    """Even numbers from 0 to 1; standard normal ones in the columns of the scatter."""
    design: NDArray[np.float64] = qmc.Sobol(len(COLUMNS), seed=1).random(draws)
    normal = [COLUMNS.index(name) for name in (*RELEASE, "laydown_board", "launch_deg")]
    design[:, normal] = ndtri(np.clip(design[:, normal], 1e-6, 1 - 1e-6))
    return design
