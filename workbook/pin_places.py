"""What a ball becomes for every place of its pin, all else as it is."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from workbook import errors, units
from workbook.drilling import static_balance
from workbook.inputs import limits
from workbook.layout import Layout
from workbook.rating import rate_bodies
from workbook.rolling import Body
from workbook.setup import Setup

Array = NDArray[np.float64]
DISTANCES, ANGLES = 28, 19  # places of the pin: along pin-to-PAP, and around the PAP


@dataclass(frozen=True, eq=False)
class PinMap:
    """The drilled ball over the places of its pin: arrays (angles, distances).

    Parameters
    ----------
    places : array (angles, distances, 3)
        Direction of the pin in the ball frame: rows around the PAP, columns away from it.
    differential_in, intermediate_in : array
        Of the drilled ball [in].
    flare_in : array
        On the reference lane [in].
    static_oz : array
        Greatest of top, side and finger weight, without sign [oz].
    """

    places: Array
    differential_in: Array
    intermediate_in: Array
    flare_in: Array
    static_oz: Array


def pin_map(setup: Setup) -> PinMap:
    """Drill and roll the ball for a grid of pin places: pin-to-PAP 0 to 6 3/4 in, VAL 0 to 90 deg.

    Drilling angle, PAP, grip, release and surface are those of the setup; each place is worked out
    in full, none from a table.

    Raises
    ------
    InputRefused
        Not a `Setup`.
    """
    errors.instance("setup", setup, Setup)
    return _pin_map(with_pin_anywhere(setup))


def with_pin_anywhere(setup: Setup) -> Setup:
    """What the maps of a setup depend on: not on its own pin, nor on its name."""
    anywhere = replace(setup.layout, pin_to_pap_in=0.0, val_angle_deg=0.0)
    return replace(setup, layout=anywhere, name="")


@lru_cache(maxsize=8)
def _pin_map(setup: Setup) -> PinMap:
    distances, angles = (
        np.linspace(*limits(Layout, name)[:2], count)
        for name, count in (("pin_to_pap_in", DISTANCES), ("val_angle_deg", ANGLES))
    )
    pins, bodies, static = [], [], []
    for angle in angles.tolist():
        for distance in distances.tolist():
            layout = replace(setup.layout, pin_to_pap_in=distance, val_angle_deg=angle)
            body, mass_kg = Body.laid_out(setup, layout)
            balance = static_balance(body.c, mass_kg, body.radius, setup.assumptions.kappa)
            pins.append(layout.directions(setup.bowler.pap, setup.ball)[0])
            bodies.append(body)
            static.append(max(abs(balance.top_oz), abs(balance.side_oz), abs(balance.finger_oz)))
    shape = ANGLES, DISTANCES
    rg = np.sqrt(np.linalg.eigvalsh(np.array([body.inertia for body in bodies]))) / units.INCH
    return PinMap(
        places=np.array(pins).reshape(*shape, 3),
        differential_in=(rg[:, 2] - rg[:, 0]).reshape(shape),
        intermediate_in=(rg[:, 2] - rg[:, 1]).reshape(shape),
        flare_in=rate_bodies(setup, bodies).flare_in.reshape(shape),
        static_oz=np.array(static).reshape(shape),
    )
