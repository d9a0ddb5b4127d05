"""A uniform sphere sliding on a level floor, given in any units' SI values, through the kernel."""

from dataclasses import dataclass

import numpy as np

import workbook as wb
from tests.conftest import changed
from workbook import rolling
from workbook.core import roll as kernel


@dataclass(frozen=True)
class Rolling:
    """When, where and how fast the ball begins to roll, SI; and its slip's loss a second."""

    time: float
    distance: float
    speed: float
    slip_loss: float


def slide(radius: float, speed: float, spin: float, friction: float, gravity: float) -> Rolling:
    """Throw it with the spin [rad/s] about the level axis across, forward roll positive.

    Friction is Coulomb's, smoothed below a slip of 2 cm/s: the moment of rolling is where the
    straight line of the slip against time ends.
    """
    setup = changed(grip=wb.Grip(), differential_in=0, intermediate_in=0)
    record = rolling.record(rolling.Body.of(setup), setup,
                            wb.Line(laydown_board=20, launch_deg=0),
                            rolling.friction(setup), gutters=False)  # fmt: skip
    shot = np.array(record, kernel.SHOT)[()]
    for name, value in dict(
        radius=radius, gravity=gravity, x=0.0, y=0.0, vx=0.0, vy=speed, c1=0.0, c2=0.0, c3=0.0,
        q0=1.0, q1=0.0, q2=0.0, q3=0.0, w1=-spin, w2=0.0, w3=0.0,
        k1=0.4 * radius**2, k2=0.4 * radius**2, k3=0.4 * radius**2, end=30.0,
    ).items():  # fmt: skip
        shot[name] = value
    path = np.empty((kernel.MAX_STEPS, len(kernel.COLUMNS)))
    rows, _ = kernel.roll(shot, np.zeros((61, 39)), np.array([[100.0, friction]]), path)
    path = path[:rows]
    time, slip = path[:, kernel.T], path[:, kernel.SLIP]
    last = np.flatnonzero(slip > 0.1)[-1]
    loss = (slip[0] - slip[last]) / time[last]
    return Rolling(slip[0] / loss, np.interp(slip[0] / loss, time, path[:, kernel.Y]),
                   path[-1, kernel.VY], loss)  # fmt: skip
